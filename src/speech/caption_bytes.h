#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "speech/caption_text.h"

namespace panslate {

/// Other text for a stretch of a decoded captions file.
struct TextEdit {
  std::size_t begin = 0;  ///< byte of the decoded text
  std::size_t end = 0;
  std::string text;
};

/// The bytes of a captions file with stretches of its text replaced; `edits` in order, none overlapping.
/// Empty when the text cannot be laid over the bytes (letters that are broken).
[[nodiscard]] std::optional<std::string> apply_edits(std::string_view bytes, const CaptionText& decoded,
                                                     const std::vector<TextEdit>& edits);

/// True where the encoding can write the text.
[[nodiscard]] bool can_encode(std::string_view text, CaptionEncoding encoding);

}  // namespace panslate
