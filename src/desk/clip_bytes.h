#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "panslate/desk/desk_request.h"

namespace panslate {

/// The media type that a browser takes a clip of this name for.
[[nodiscard]] std::string type_of_clip(const std::filesystem::path& file);

/// A clip or a stretch of it, as the value of Range asks (empty: all of it); 404 where it cannot be opened
/// now, 416 where it is not so long.
[[nodiscard]] DeskReply clip_bytes(const std::filesystem::path& file, std::string type,
                                   std::string_view range);

}  // namespace panslate
