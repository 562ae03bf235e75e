#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/speech/transcript.h"

namespace panslate {

enum class CaptionEncoding : std::uint8_t { Utf8, Utf16LittleEndian, Utf16BigEndian, Windows1252 };

struct CaptionText {
  std::string text;  ///< UTF-8, without byte order mark
  std::vector<CaptionWarning> warnings;
  CaptionEncoding encoding = CaptionEncoding::Utf8;
};

/// Bytes of a captions file as text. UTF-8, and UTF-16 with or without a byte order mark; bytes that are no
/// UTF-8 are read as Windows-1252, as older editing programs write it, unless the file is UTF-8 for the most
/// part and damaged in places. Either is told in a warning at the first such line.
[[nodiscard]] CaptionText decode_captions(std::string_view bytes);

}  // namespace panslate
