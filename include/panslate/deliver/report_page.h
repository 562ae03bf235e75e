#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "panslate/check/pickup.h"
#include "panslate/check/report.h"
#include "panslate/media/still.h"

namespace panslate {

/// A part of a clip as the page shows it.
struct SegmentPicture {
  std::string id;
  std::string clip;  ///< id of the clip
  TimeRange range;   ///< on the clip's clock
  std::optional<MediaTime> edit_begin;
  std::vector<std::size_t> steps;  ///< indices into Recipe::steps
  std::optional<Still> still;      ///< empty where the clip gave no picture
};

struct ReportPageInput {
  const CheckReport* report = nullptr;
  const Recipe* recipe = nullptr;
  const std::vector<Pickup>* pickups = nullptr;
  std::vector<SegmentPicture> segments;
  std::map<std::size_t, Still> moments;  ///< the picture at the moment of a requirement, by its index
};

/// The check report as one HTML page that needs nothing but itself: stills are within it, and it may be
/// printed. Carries kPageMark.
[[nodiscard]] std::string report_page(const ReportPageInput& input);

}  // namespace panslate
