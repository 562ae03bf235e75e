#include "desk/clip_strip.h"

#include <cstddef>

#include <nlohmann/json.hpp>

#include "panslate/deliver/footage_log_files.h"

#include "desk/clip_seconds.h"

namespace panslate {

namespace {

using nlohmann::json;

constexpr std::size_t kMostBands = 2000;  // of a kind: more are no longer told apart on a screen

json band(const TimeRange& range) {
  return json::array({clip_seconds(range.begin), clip_seconds(range.end)});
}

}  // namespace

std::string clip_strip(const std::optional<ClipLog>& log) {
  if (!log) return R"({"logged": false})";
  json shots = json::array();
  for (const auto& shot : log->shots) {
    if (shots.size() == kMostBands) break;
    auto one = band(shot.when);
    one.push_back(shot.into ? spelling_of(*shot.into) : std::string_view());
    shots.push_back(std::move(one));
  }
  json speech = json::array();
  for (const auto& stretch : log->speech)
    if (speech.size() < kMostBands) speech.push_back(band(stretch));
  json faults = json::array();
  for (const auto& fault : log->faults) {
    if (faults.size() == kMostBands) break;
    auto one = band(fault.when);
    one.push_back(fault_words(fault.kind));
    faults.push_back(std::move(one));
  }
  const json out{{"logged", true}, {"shots", shots}, {"speech", speech}, {"faults", faults}};
  return out.dump(-1, ' ', false, json::error_handler_t::replace);
}

}  // namespace panslate
