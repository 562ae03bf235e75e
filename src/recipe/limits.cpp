#include "panslate/recipe/limits.h"

#include <charconv>

#include "panslate/base/csv.h"
#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"

namespace panslate {

namespace {

// "2026-01-31" (ISO 8601); empty for anything else.
std::optional<std::chrono::sys_days> date_of(std::string_view text) {
  constexpr std::size_t kLength = 10;
  if (text.size() != kLength || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto number = [&](std::size_t from, std::size_t length) -> std::optional<int> {
    int value = 0;
    const auto* begin = text.data() + from;
    const auto [end, error] = std::from_chars(begin, begin + length, value);
    if (error != std::errc{} || end != begin + length || value < 0) return std::nullopt;
    return value;
  };
  const auto year = number(0, 4);
  const auto month = number(5, 2);
  const auto day = number(8, 2);
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year{*year},
                                         std::chrono::month{static_cast<unsigned>(*month)},
                                         std::chrono::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return std::nullopt;
  return std::chrono::sys_days{date};
}

bool is_measure(const Amount& amount) {
  const auto dimension = dimension_of(amount.unit);
  return amount.value && !amount.to && Ratio(0) <= *amount.value &&
         (dimension == Dimension::Mass || dimension == Dimension::Volume || dimension == Dimension::Count);
}

}  // namespace

Checked<LimitTable> read_limits(std::string_view text, const std::filesystem::path& file) {
  const auto table = CsvTable::read(text);
  std::vector<Error> errors;
  const auto wrong = [&](int line, std::string message, std::string hint) {
    errors.push_back({ErrorCode::Malformed, std::move(message), Place{file, line, 0}, std::move(hint)});
  };
  if (!table.has_column("food") || !table.has_column("amount per serving")) {
    wrong(1, "this is no table of limits",
          "the first line must read: food,amount per serving,note,source,checked on");
    return tl::unexpected(std::move(errors));
  }
  LimitTable limits;
  limits.file = file;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    const auto line = table.line_of(row);
    ServingLimit limit;
    limit.line = line;
    limit.food = collapse_spaces(table.field(row, "food"));
    limit.note = std::string(trim(table.field(row, "note")));
    limit.source = std::string(trim(table.field(row, "source")));
    limit.checked = std::string(trim(table.field(row, "checked on")));
    const auto written = trim(table.field(row, "amount per serving"));
    if (limit.food.empty() && written.empty()) continue;
    if (limit.food.empty()) wrong(line, "a limit without a food", "write the food in the first column");
    const auto tokens = tokenize(written);
    const auto amount = scan_amount(tokens, 0, SpokenOrWritten::Written);
    if (!amount || amount->end != tokens.size() || !is_measure(amount->amount)) {
      wrong(line, "'" + std::string(written) + "' is no amount for a serving",
            "write a number with a unit, such as 42 g or 2 tbsp, or a count such as 1");
      continue;
    }
    limit.amount = amount->amount;
    if (!limit.checked.empty()) {
      limit.checked_on = date_of(limit.checked);
      if (!limit.checked_on)
        wrong(line, "'" + limit.checked + "' is no date", "write the year, month and day: 2026-01-31");
    }
    limits.limits.push_back(std::move(limit));
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  return limits;
}

}  // namespace panslate
