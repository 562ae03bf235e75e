#pragma once

#include <cstddef>
#include <set>
#include <string>

#include <nlohmann/json.hpp>

#include "panslate/project/project.h"

/// How a part of a clip is written in the project file: as a person would.
namespace panslate {

/// The fewest first words that no other step has, or its key.
[[nodiscard]] std::string name_of_step(const Recipe& recipe, std::size_t index);

/// The food, or its key where several lines have it.
[[nodiscard]] std::string name_of_food(const Recipe& recipe, std::size_t index);

/// "00:01:02.345"
[[nodiscard]] std::string part_time(MediaTime time);

/// "pan-1": of this clip, and neither in the project nor taken.
[[nodiscard]] std::string new_part_id(const Project& project, const std::string& clip,
                                      const std::set<std::string>& taken);

/// An entry on one line.
[[nodiscard]] std::string line_of_json(const nlohmann::ordered_json& entry);

}  // namespace panslate
