#include "panslate/deliver/overlay_json.h"

#include "deliver/amount_json.h"

namespace panslate {

std::string overlay_json(const OverlayTrack& track, const CheckReport& report) {
  using Json = nlohmann::ordered_json;
  Json json;
  json["panslate_overlay"] = 1;
  json["clock"] = track.clock.empty() ? Json() : Json(track.clock);
  json["texts"] = Json::array();
  for (const auto& text : track.texts) {
    Json entry;
    entry["start"] = seconds_json(text.when.begin);
    entry["end"] = seconds_json(text.when.end);
    entry["text"] = text.text;
    entry["requirements"] = Json::array();
    if (text.requirement < report.requirements.size())
      entry["requirements"].push_back(CheckReport::id_of(report.requirements[text.requirement]));
    for (const auto further : text.also)
      if (further < report.requirements.size())
        entry["requirements"].push_back(CheckReport::id_of(report.requirements[further]));
    entry["coarse"] = text.coarse;
    json["texts"].push_back(std::move(entry));
  }
  json["notes"] = track.notes;
  return report_text(json);
}

}  // namespace panslate
