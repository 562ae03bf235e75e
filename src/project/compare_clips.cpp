#include <algorithm>
#include <array>
#include <map>
#include <tuple>
#include <utility>

#include "panslate/project/log_footage.h"

#include "project/same_moment.h"

namespace panslate {

namespace {

// Clips by what an edit wants to be one, largest group first, as they come among equals.
template <class Value>
void warn_where_mixed(std::vector<FootageWarning>& warnings, FootageWarning::Kind kind,
                      const std::vector<LoggedClip>& clips, const Value& value) {
  std::map<decltype(value(PictureFacts{})), std::vector<std::size_t>> by_value;
  for (std::size_t i = 0; i < clips.size(); ++i)
    if (clips[i].log && clips[i].log->facts.picture)
      by_value[value(*clips[i].log->facts.picture)].push_back(i);
  if (by_value.size() < 2) return;
  FootageWarning warning{kind, {}};
  for (auto& [ignored, group] : by_value) warning.groups.push_back(std::move(group));
  std::sort(warning.groups.begin(), warning.groups.end(), [](const auto& a, const auto& b) {
    return a.size() != b.size() ? a.size() > b.size() : a.front() < b.front();
  });
  warnings.push_back(std::move(warning));
}

std::vector<FootageWarning> warnings_of(const std::vector<LoggedClip>& clips) {
  using Kind = FootageWarning::Kind;
  std::vector<FootageWarning> out;
  warn_where_mixed(out, Kind::MixedRates, clips, [](const PictureFacts& picture) {
    const auto& rate = picture.frame_rate;
    return picture.variable_rate ? std::tuple(true, 0, 0) : std::tuple(false, rate.num, rate.den);
  });
  warn_where_mixed(out, Kind::MixedShapes, clips, [](const PictureFacts& picture) {
    return std::pair(picture.shown_width > picture.shown_height, picture.shown_width < picture.shown_height);
  });
  warn_where_mixed(out, Kind::MixedRanges, clips, [](const PictureFacts& picture) { return picture.hdr; });
  // Of a damaged clip the damage is told, which says it better.
  for (std::size_t i = 0; i < clips.size(); ++i)
    if (const auto& log = clips[i].log; log && !log->facts.warnings.empty() && log->damage() == nullptr)
      out.push_back({Kind::Odd, {{i}}});
  return out;
}

}  // namespace

std::string_view spelling_of(FootageWarning::Kind kind) {
  static constexpr std::array<std::string_view, 4> kNames{"mixed-rates", "mixed-shapes", "mixed-ranges",
                                                          "odd"};
  return kNames.at(static_cast<std::size_t>(kind));
}

Result<FootageLog> compare_clips(std::vector<LoggedClip> clips, Progress& progress) {
  FootageLog out;
  out.clips = std::move(clips);
  out.warnings = warnings_of(out.clips);
  PANSLATE_TRY(out.duplicates, find_duplicates(out.clips, progress));
  return out;
}

}  // namespace panslate
