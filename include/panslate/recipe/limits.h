#pragma once

#include <chrono>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/kitchen/amount.h"

/// The user's own limits for one serving of a food, for diets that go by serving size. panslate ships none:
/// such limits are a matter for the diet's own authority and a dietitian.
namespace panslate {

struct ServingLimit {
  std::string food;
  Amount amount;  ///< most for one serving; an amount equal to it is within
  std::string note, source;
  std::string checked;                              ///< the date as written
  std::optional<std::chrono::sys_days> checked_on;  ///< empty where there is none
  int line = 0;
};

struct LimitTable {
  std::filesystem::path file;
  std::vector<ServingLimit> limits;
};

/// Reads `food,amount per serving,note,source,checked on` (CSV with a heading row; the last three columns may
/// be absent; dates as 2026-01-31). Reports every row that is wrong, with its line.
[[nodiscard]] Checked<LimitTable> read_limits(std::string_view text, const std::filesystem::path& file);

}  // namespace panslate
