#pragma once

#include <optional>
#include <vector>

#include <nlohmann/json.hpp>

#include "panslate/base/media_time.h"
#include "panslate/kitchen/amount.h"

/// Amounts and times in the JSON reports: the same form in all of them.
namespace panslate {

/// {"value": 1.25, "exact": "5/4", "unit": "cup", "to": 1.5, "to_exact": "3/2", "size": …, "about": true,
/// "fan": true, "each": {"value": 400, "unit": "g"}}; value and exact are null where there is no number; to,
/// size, about, fan and each stand only where written or said.
[[nodiscard]] nlohmann::ordered_json amount_json(const Amount& amount);
[[nodiscard]] nlohmann::ordered_json amounts_json(const std::vector<Amount>& amounts);
[[nodiscard]] nlohmann::ordered_json amount_or_null(const std::optional<Amount>& amount);

/// Seconds, to the nearest millisecond.
[[nodiscard]] double seconds_json(MediaTime time);

/// A whole report as text, with a line end. Bytes that are no UTF-8 become U+FFFD.
[[nodiscard]] std::string report_text(const nlohmann::ordered_json& report);

}  // namespace panslate
