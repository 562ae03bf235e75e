#include "panslate/speech/draft_lines.h"

#include <algorithm>
#include <cstddef>
#include <utility>

#include "speech/sound_level.h"

namespace panslate {

namespace {

constexpr std::int64_t kStretch = std::int64_t{30} * kSpeechRate;  // listened to at once, about
constexpr std::int64_t kSearch = std::int64_t{10} * kSpeechRate;   // it ends in a pause of its last seconds
constexpr std::int64_t kPause = kSpeechRate * 35 / 100;
constexpr std::size_t kLongestLine = 12;  // words

using Line = std::vector<DraftWord>;

std::int64_t pause_before(const Line& words, std::size_t i) {
  return words[i].begin - words[i - 1].end;
}

// Too long a line ends where it pauses longest among the last words that fit.
void add_in_parts(const Line& words, std::vector<Line>& lines) {
  for (std::size_t at = 0; at < words.size();) {
    std::size_t until = words.size();
    if (until - at > kLongestLine) {
      until = at + kLongestLine;
      for (std::size_t i = at + kLongestLine / 3; i < at + kLongestLine; ++i)
        if (pause_before(words, i) > pause_before(words, until)) until = i;
    }
    lines.emplace_back(words.begin() + static_cast<std::ptrdiff_t>(at),
                       words.begin() + static_cast<std::ptrdiff_t>(until));
    at = until;
  }
}

}  // namespace

Result<std::vector<Line>> draft_lines(std::span<const std::int16_t> samples, Transcriber& transcriber,
                                      Progress& progress) {
  const SoundLevel level(samples);
  const auto end = static_cast<std::int64_t>(samples.size());
  Line words;
  for (std::int64_t at = 0; at < end;) {
    progress.step("", at, end);
    if (progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped while listening");
    const auto until =
        end - at <= kStretch + kSearch ? end : level.quietest({at + kStretch - kSearch, at + kStretch});
    const auto part = samples.subspan(static_cast<std::size_t>(at), static_cast<std::size_t>(until - at));
    PANSLATE_TRY(auto heard, transcriber.transcribe(part));
    for (auto& word : heard) {
      word.begin += at;
      word.end += at;
      words.push_back(std::move(word));
    }
    at = until;
  }
  std::vector<Line> lines;
  Line line;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0 && pause_before(words, i) >= kPause) add_in_parts(std::exchange(line, {}), lines);
    line.push_back(words[i]);
  }
  add_in_parts(line, lines);
  return lines;
}

}  // namespace panslate
