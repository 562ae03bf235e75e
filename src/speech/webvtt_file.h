#pragma once

#include <optional>
#include <string_view>

#include "panslate/speech/webvtt.h"

namespace panslate {

/// True when a text (decoded, without byte order mark) begins with the WebVTT signature.
[[nodiscard]] bool has_vtt_signature(std::string_view text);

/// The parser of section 6.1 on a decoded text with the signature.
[[nodiscard]] VttFile parse_vtt_text(std::string_view text);

}  // namespace panslate
