#include "panslate/deliver/new_project_json.h"

#include "deliver/amount_json.h"

namespace panslate {

std::string new_project_json(const StartedProject& started) {
  nlohmann::ordered_json json;
  json["panslate_new"] = 1;
  json["project"] = started.file.string();
  json["left_out"] = nlohmann::ordered_json::array();
  for (const auto& left : started.left_out)
    json["left_out"].push_back({{"file", left.file}, {"why", left.why}});
  return report_text(json);
}

}  // namespace panslate
