#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "panslate/media/clip_facts.h"
#include "panslate/media/clip_log.h"
#include "panslate/media/still.h"

/// What was measured of a clip as bytes: what a worker answers, and what is kept for the next run. For this
/// program on this machine; another form or another order of bytes is not read.
namespace panslate {

[[nodiscard]] std::string bytes_of(const ClipFacts& facts);
[[nodiscard]] std::string bytes_of(const Still& still);
[[nodiscard]] std::string bytes_of(const ClipLog& log);

/// Empty for what is no facts: an unknown field, a number out of its range, text that is no UTF-8, bytes
/// missing or left over. The file's name is not part of the bytes.
[[nodiscard]] std::optional<ClipFacts> clip_facts_from(std::string_view bytes,
                                                       const std::filesystem::path& file);
/// Likewise; empty also where a side is longer than asked for, or the picture is no JPEG.
[[nodiscard]] std::optional<Still> still_from(std::string_view bytes, int longest_side);
/// Likewise; empty also where a stretch ends before it begins.
[[nodiscard]] std::optional<ClipLog> clip_log_from(std::string_view bytes, const std::filesystem::path& file);

}  // namespace panslate
