#include "speech/transcript_print.h"

#include <cstdio>

#include "panslate/base/timestamp.h"

namespace panslate {

namespace {

std::string seconds(MediaTime time) {
  const auto ms = static_cast<long long>(time.to_ms(Round::Nearest));
  char buffer[32];
  std::snprintf(buffer, sizeof buffer, "%lld.%03lld", ms / 1000, ms % 1000);
  return buffer;
}

}  // namespace

std::vector<std::string> printed_cues(const Transcript& transcript) {
  std::vector<std::string> out;
  for (const auto& cue : transcript.cues)
    out.push_back(cue.id + " " + format_timestamp(cue.when.begin, TimestampStyle::Clock) + "-" +
                  format_timestamp(cue.when.end, TimestampStyle::Clock) + " " +
                  (cue.speaker.empty() ? "" : cue.speaker + " ") + "'" + cue.text + "'");
  return out;
}

std::vector<std::string> printed_words(const Transcript& transcript) {
  std::vector<std::string> out;
  for (const auto& word : transcript.words)
    out.push_back(seconds(word.when.begin) + "-" + seconds(word.when.end) + " ±" + seconds(word.precision) +
                  " " + word.text);
  return out;
}

std::vector<std::string> printed_warnings(const Transcript& transcript) {
  std::vector<std::string> out;
  for (const auto& warning : transcript.warnings)
    out.push_back(std::to_string(warning.line) + ": " + warning.message);
  return out;
}

std::string spoken_text(const Transcript& transcript) {
  std::string out;
  for (const auto& word : transcript.words) out += (out.empty() ? "" : " ") + word.text;
  return out;
}

}  // namespace panslate
