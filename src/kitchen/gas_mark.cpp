#include "panslate/kitchen/gas_mark.h"

#include <string>
#include <vector>

#include "panslate/base/csv.h"

#include "embedded/gasmarks_csv.h"

namespace panslate {

std::optional<GasMark> gas_mark(const Ratio& mark) {
  struct Row {
    GasMark mark;
    std::string source;
  };
  static const auto kRows = [] {
    const auto table = CsvTable::read(embedded::gasmarks_csv);
    const auto number = [&](std::size_t row, std::string_view heading) {
      return Ratio::parse(table.field(row, heading)).value_or(Ratio(0));
    };
    std::vector<Row> rows;
    for (std::size_t i = 0; i < table.row_count(); ++i)
      rows.push_back({{number(i, "gas_mark"),
                       number(i, "fahrenheit"),
                       number(i, "celsius"),
                       number(i, "celsius_least"),
                       number(i, "celsius_most"),
                       number(i, "fan_celsius"),
                       {}},
                      table.field(i, "source")});
    return rows;
  }();
  for (const auto& row : kRows) {
    if (row.mark.mark != mark) continue;
    auto found = row.mark;
    found.source = row.source;
    return found;
  }
  return std::nullopt;
}

}  // namespace panslate
