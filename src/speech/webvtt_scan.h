#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "panslate/base/media_time.h"

/// What the readers of WebVTT files and of WebVTT cue text share.
namespace panslate {

/// ASCII white space of the WHATWG Infra standard.
[[nodiscard]] constexpr bool is_vtt_space(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\f' || c == '\r';
}

[[nodiscard]] constexpr bool is_vtt_digit(char c) {
  return c >= '0' && c <= '9';
}

/// "Collect a WebVTT timestamp" (section 6.3) from `position` on, which moves behind what was read; empty
/// when it is none.
[[nodiscard]] std::optional<MediaTime> collect_vtt_timestamp(std::string_view input, std::size_t& position);

}  // namespace panslate
