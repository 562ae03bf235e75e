#pragma once

#include <filesystem>
#include <string>

namespace panslate {

/// What `new` tells programs: {"panslate_new": 1, "project": "pie/pie.json"}.
[[nodiscard]] std::string new_project_json(const std::filesystem::path& project_file);

}  // namespace panslate
