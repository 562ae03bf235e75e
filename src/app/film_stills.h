#pragma once

#include "panslate/deliver/report_page.h"
#include "panslate/media/footage_workers.h"

#include "app/film.h"

namespace panslate::app {

/// The parts of clips of a project with a still from the middle of each; a part whose clip gives no picture
/// has none. Cancelled when the user stops it.
[[nodiscard]] Result<std::vector<SegmentPicture>> take_segment_stills(Film& film, FootageWorkers& workers,
                                                                      Progress& progress);

/// For a film named with --video: the picture at each moment that needs attention.
[[nodiscard]] Result<std::map<std::size_t, Still>> take_moment_stills(const Film& film,
                                                                      const CheckReport& report,
                                                                      FootageWorkers& workers,
                                                                      Progress& progress);

}  // namespace panslate::app
