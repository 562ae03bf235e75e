#include "panslate/deliver/new_project_json.h"

#include "deliver/amount_json.h"

namespace panslate {

std::string new_project_json(const std::filesystem::path& project_file) {
  nlohmann::ordered_json json;
  json["panslate_new"] = 1;
  json["project"] = project_file.string();
  return report_text(json);
}

}  // namespace panslate
