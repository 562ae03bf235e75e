#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

/// Spoken words (or text on the picture) with times on one clock.
namespace panslate {

/// How far off a word's time may be is part of the word: word-time tags are good to 50 ms, a word spread over
/// its cue to the cue's length.
struct Word {
  std::string text;  ///< as written, with its punctuation
  TimeRange when;
  MediaTime precision;
  std::uint32_t cue = 0;  ///< index into Transcript::cues
};

struct Cue {
  std::string id;  ///< as the file has it; "c1", "c2", … by order where it has none
  TimeRange when;
  std::string text;     ///< plain: tags removed, escapes resolved, lines joined with LF
  std::string speaker;  ///< WebVTT voice; empty when none
  int line = 0;         ///< of its timing line in the file
};

enum class CaptionFormat : std::uint8_t { SubRip, WebVtt, MarkedText };

struct CaptionWarning {
  std::string message;
  int line = 0;
};

struct Transcript {
  std::filesystem::path file;
  CaptionFormat format = CaptionFormat::SubRip;
  std::vector<Cue> cues;                 ///< in the order of the file's times
  std::vector<Word> words;               ///< in reading order
  std::vector<CaptionWarning> warnings;  ///< what was odd but could be read

  /// End of the last cue; zero when there is none.
  [[nodiscard]] MediaTime end() const;
};

/// Reads captions by what they are, not by their name: WebVTT (W3C syntax whole), SubRip (with tags,
/// coordinates, full stops for commas, missing counters), or plain text with `[m:ss]` or `m:ss` marks before
/// what is said from then on. `bytes` may be any bytes. Fails (Malformed, with a place) when it is none of
/// them or holds no cue.
[[nodiscard]] Result<Transcript> read_captions(std::string_view bytes, const std::filesystem::path& file);

}  // namespace panslate
