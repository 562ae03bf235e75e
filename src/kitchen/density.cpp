#include "panslate/kitchen/density.h"

#include <charconv>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "panslate/base/csv.h"
#include "panslate/base/text.h"

#include "embedded/densities_csv.h"

namespace panslate {

namespace {

// 231 in3 / 16: NIST Handbook 44 App. C.
const Ratio kUsCupMl = *Ratio::parse("236.5882365");
constexpr int kSpoonsInCup[] = {16, 48};

struct Row {
  std::vector<std::string> names;
  std::string source;
  Density density;
};

// Lower case, hyphens as spaces, a plural s dropped, so that "pine nuts" and "pine nut" meet.
std::string key_of(std::string_view food) {
  std::string key;
  for (const char c : fold_accents(food)) key += c == '-' || c == ',' ? ' ' : c;
  key = collapse_spaces(key);
  std::string out;
  for (auto word : split(key, ' ')) {
    if (word.size() > 3 && word.back() == 's' && word[word.size() - 2] != 's') word.pop_back();
    if (!out.empty()) out += ' ';
    out += word;
  }
  return out;
}

// The grams of one millilitre from the largest measure that the row has.
std::optional<Ratio> grams_per_ml(const std::string& cup, const std::string& tbsp, const std::string& tsp) {
  if (const auto grams = Ratio::parse(cup)) return grams->over(kUsCupMl);
  for (std::size_t i = 0; i < 2; ++i)
    if (const auto grams = Ratio::parse(i == 0 ? tbsp : tsp)) {
      const auto filled = grams->times(Ratio(kSpoonsInCup[i]));
      return filled ? filled->over(kUsCupMl) : std::nullopt;
    }
  return std::nullopt;
}

const std::vector<Row>& rows() {
  static const auto kRows = [] {
    const auto table = CsvTable::read(embedded::densities_csv);
    std::vector<Row> found;
    found.reserve(table.row_count());
    for (std::size_t i = 0; i < table.row_count(); ++i) {
      const auto& tbsp = table.field(i, "g_per_us_tbsp");
      const auto& tsp = table.field(i, "g_per_us_tsp");
      const auto density = grams_per_ml(table.field(i, "g_per_us_cup"), tbsp, tsp);
      if (!density) continue;
      Row row{split(table.field(i, "names"), '|'), table.field(i, "source"), {}};
      row.density.grams_per_ml = *density;
      row.density.grams_per_us_tbsp = Ratio::parse(tbsp);
      row.density.grams_per_us_tsp = Ratio::parse(tsp);
      const auto& tolerance = table.field(i, "tolerance_percent");
      std::from_chars(tolerance.data(), tolerance.data() + tolerance.size(), row.density.tolerance_percent);
      found.push_back(std::move(row));
    }
    for (auto& row : found) {
      row.density.food = row.names.front();
      row.density.source = row.source;
    }
    return found;
  }();
  return kRows;
}

const std::unordered_map<std::string, const Row*>& rows_by_name() {
  static const auto kNames = [] {
    std::unordered_map<std::string, const Row*> names;
    for (const auto& row : rows())
      for (const auto& name : row.names) names.emplace(key_of(name), &row);
    return names;
  }();
  return kNames;
}

// Words before a food's name that change neither the food nor its weight for its volume.
bool is_neutral(std::string_view word) {
  static const std::unordered_set<std::string_view> kNeutral{
      "good",  "quality", "organic", "best",   "your",  "some",    "the",    "my",       "of",
      "fine",  "finest",  "extra",   "virgin", "nice",  "cold",    "warm",   "hot",      "light",
      "dark",  "pure",    "raw",     "level",  "mild",  "sharp",   "mature", "unsalted", "salted",
      "sweet", "golden",  "little",  "plain",  "clear", "thick",   "full",   "fat",      "fresh",
      "our",   "white",   "unwaxed", "free",   "range", "homemade"};
  return kNeutral.contains(word);
}

}  // namespace

std::optional<Density> density_of(std::string_view food) {
  auto key = key_of(food);
  const auto& names = rows_by_name();
  while (!key.empty()) {
    if (const auto found = names.find(key); found != names.end()) return found->second->density;
    const auto space = key.find(' ');
    if (space == std::string::npos || !is_neutral(std::string_view(key).substr(0, space)))
      return std::nullopt;
    key.erase(0, space + 1);
  }
  return std::nullopt;
}

}  // namespace panslate
