#pragma once

#include <filesystem>
#include <optional>

#include <nlohmann/json_fwd.hpp>

#include "panslate/media/clip_facts.h"

namespace panslate {

/// What was measured of a clip, for the store. The file's name is not part of it.
[[nodiscard]] nlohmann::ordered_json json_of(const ClipFacts& facts);

/// Empty where anything is missing or out of its range.
[[nodiscard]] std::optional<ClipFacts> clip_facts_from(const nlohmann::ordered_json& json,
                                                       const std::filesystem::path& file);

}  // namespace panslate
