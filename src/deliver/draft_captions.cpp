#include "panslate/deliver/draft_captions.h"

#include <map>
#include <vector>

#include "panslate/base/timestamp.h"
#include "panslate/deliver/escape.h"
#include "panslate/speech/transcript.h"

namespace panslate {

std::string draft_captions(const Listening& draft) {
  std::map<int, std::vector<const TimedWord*>> words;
  for (const auto& word : draft.words) words[word.line].push_back(&word);
  std::string out = "WEBVTT\n\nNOTE\n" + std::string(kDraftMark) +
                    "\nListen, put the words right, and then take out this note:\n"
                    "until then nothing in here is taken for sure.\n";
  const auto clock = [](MediaTime time) { return format_timestamp(time, TimestampStyle::Clock); };
  for (const auto& line : draft.lines) {
    if (line.takes.empty()) continue;
    const auto when = line.takes.front().when;
    out += "\n" + clock(when.begin) + " --> " + clock(when.end) + "\n";
    for (bool first = true; const auto* word : words[line.number]) {
      if (!first) out += " <" + clock(word->when.begin) + ">";
      out += escape_webvtt(word->text);
      first = false;
    }
    out += "\n";
  }
  return out;
}

}  // namespace panslate
