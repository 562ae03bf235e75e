#include "app/overlay_text.h"

#include <algorithm>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/plain_text.h"

namespace panslate::app {

namespace {

constexpr std::size_t kTimeWidth = 25;  // "0:00:41.20 – 0:00:43.20"

}  // namespace

std::string overlay_text(const OverlayTrack& track, Saved saved, const Terminal& terminal) {
  std::string out;
  const auto width = std::min<std::size_t>(terminal.width, 120);
  // Where every moment is rough, the note below says so once.
  const bool mark_coarse =
      !std::all_of(track.texts.begin(), track.texts.end(), [](const auto& text) { return text.coarse; });
  for (const auto& text : track.texts) {
    const auto times = format_timestamp(text.when.begin, TimestampStyle::Centi) + " – " +
                       format_timestamp(text.when.end, TimestampStyle::Centi);
    const auto used = character_count(times);
    bool first = true;
    for (const auto& line : split(escape_terminal(text.text), '\n'))
      for (const auto& part : wrap(line, width > kTimeWidth + 10 ? width - kTimeWidth : 10)) {
        out += first ? terminal.styled(times, Look::Quiet) +
                           std::string(kTimeWidth - std::min(used, kTimeWidth - 1), ' ')
                     : std::string(kTimeWidth, ' ');
        out += part +
               (first && mark_coarse && text.coarse ? terminal.styled("  (moment not exact)", Look::Doubtful)
                                                    : "") +
               "\n";
        first = false;
      }
  }
  if (!track.notes.empty()) out += "\n";
  for (const auto& note : track.notes) {
    bool first = true;
    for (const auto& line : wrap(escape_terminal(note), width > 14 ? width - 6 : 8)) {
      out += (first ? "note  " : "      ") + line + "\n";
      first = false;
    }
  }
  out += (out.empty() ? "" : "\n") + count_in_words(track.texts.size(), "text", "texts");
  if (!track.clock.empty()) out += " for " + escape_terminal(track.clock);
  out += saved == Saved::Yes ? ".\n" : "; add --out DIR to save them as SubRip, WebVTT and ASS.\n";
  return out;
}

}  // namespace panslate::app
