#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "panslate/desk/desk.h"
#include "panslate/desk/desk_request.h"

/// What `check`, `plan` and `overlay` write, as it would be written now.
namespace panslate {

/// A still of a clip by its id; empty where there is none.
using StillOfClip = std::function<std::optional<Still>(const std::string& clip, MediaTime time)>;

/// "report.html", "pickups.csv", "shot-list.html", "overlay.srt", "overlay.vtt"; empty for any other name.
[[nodiscard]] std::optional<DeskReply> paper(std::string_view name, const DeskFilm& film,
                                             const StillOfClip& still_of);

}  // namespace panslate
