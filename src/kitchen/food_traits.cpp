#include "panslate/kitchen/food_traits.h"

#include <algorithm>
#include <map>
#include <string>
#include <unordered_map>

#include "panslate/base/csv.h"
#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "embedded/allergens_csv.h"
#include "embedded/cautions_csv.h"
#include "embedded/diet_claims_csv.h"
#include "embedded/food_rules_csv.h"

namespace panslate {

namespace {

using Stems = std::vector<std::string>;

Stems stems_of(std::string_view text) {
  Stems stems;
  for (const auto& token : tokenize(text))
    if (token.kind == TokenKind::Word || token.kind == TokenKind::Number)
      stems.push_back(name_stem(token.text));
  return stems;
}

// Words of phrases that may stand anywhere in a name, found by the first of them.
class Phrases {
 public:
  void add(std::string_view phrase, std::size_t rule) {
    auto stems = stems_of(phrase);
    if (!stems.empty()) by_first_[stems.front()].push_back({stems, rule, std::string(phrase)});
  }

  struct Found {
    std::size_t rule = 0;
    std::size_t length = 0;
    std::string_view phrase;
  };

  void find(const Stems& words, std::vector<Found>& found) const {
    for (std::size_t at = 0; at < words.size(); ++at) {
      const auto here = by_first_.find(words[at]);
      if (here == by_first_.end()) continue;
      for (const auto& [stems, rule, phrase] : here->second)
        if (stems.size() <= words.size() - at &&
            std::equal(stems.begin(), stems.end(), words.begin() + static_cast<std::ptrdiff_t>(at)))
          found.push_back({rule, stems.size(), phrase});
    }
  }

 private:
  struct Phrase {
    Stems stems;
    std::size_t rule = 0;
    std::string phrase;
  };
  std::unordered_map<std::string, std::vector<Phrase>> by_first_;
};

struct Rule {
  std::string subject, source;
  bool certain = false, breaks_claim = false, in_eu = false, in_us = false;
  FoodKinds kinds;
};

bool has_part(std::string_view list, std::string_view part) {
  const auto parts = split(list, '|');
  return std::find(parts.begin(), parts.end(), part) != parts.end();
}

class RuleTable {
 public:
  RuleTable() {
    const auto table = CsvTable::read(embedded::food_rules_csv);
    const auto allergens = CsvTable::read(embedded::allergens_csv);
    for (std::size_t row = 0; row < table.row_count(); ++row) {
      Rule rule;
      rule.subject = table.field(row, "subject");
      rule.source = table.field(row, "source");
      rule.certain = table.field(row, "certain") == "yes";
      rule.breaks_claim = table.field(row, "claim") == "against";
      auto lists = table.field(row, "lists");
      for (std::size_t i = 0; lists.empty() && i < allergens.row_count(); ++i)
        if (allergens.field(i, "id") == rule.subject) lists = allergens.field(i, "lists");
      rule.in_eu = has_part(lists, "EU");
      rule.in_us = has_part(lists, "US");
      for (const auto& phrase : split(table.field(row, "match"), '|')) {
        if (phrase.starts_with("kind:")) {
          if (const auto kind = food_kind_from_spelling(phrase.substr(5)))
            rule.kinds.set(static_cast<std::size_t>(*kind));
        } else {
          matches_.add(phrase, rules_.size());
        }
      }
      if (const auto& unless = table.field(row, "unless"); !unless.empty())
        for (const auto& phrase : split(unless, '|')) unless_.add(phrase, rules_.size());
      rules_.push_back(std::move(rule));
    }
  }

  [[nodiscard]] std::vector<FoodTrait> traits(std::string_view name, std::string_view line) const {
    const auto words = stems_of(line);
    const auto* food = find_food(name);
    // Other names of the food, and what it is a kind of.
    std::vector<Stems> names;
    const auto kinds = food != nullptr ? food->kinds : FoodKinds{};
    for (int depth = 0; food != nullptr && depth < 4; ++depth) {
      names.push_back(stems_of(food->name));
      food = food->broader ? &all_foods()[*food->broader] : nullptr;
    }
    std::vector<Phrases::Found> unless;
    unless_.find(words, unless);
    for (const auto& other : names) unless_.find(other, unless);
    const auto is_excused = [&](std::size_t rule) {
      return std::any_of(unless.begin(), unless.end(), [&](const auto& one) { return one.rule == rule; });
    };
    std::vector<Phrases::Found> found;
    matches_.find(words, found);
    for (const auto& other : names) matches_.find(other, found);
    for (std::size_t rule = 0; rule < rules_.size(); ++rule)
      if ((rules_[rule].kinds & kinds).any()) found.push_back({rule, 1, {}});
    std::map<std::string_view, FoodTrait> best;
    for (const auto& one : found) {
      const auto& rule = rules_[one.rule];
      if (is_excused(one.rule)) continue;
      auto& trait = best[rule.subject];
      const bool first = trait.subject.empty();
      trait.in_eu = trait.in_eu || rule.in_eu;
      trait.in_us = trait.in_us || rule.in_us;
      const bool stronger = first || rule.certain > trait.certain ||
                            (rule.certain == trait.certain && rule.breaks_claim > trait.breaks_claim);
      const bool longer = rule.certain == trait.certain && one.phrase.size() > trait.why.size();
      if (!stronger && !longer) continue;
      trait.subject = rule.subject;
      trait.breaks_claim = stronger ? rule.breaks_claim : trait.breaks_claim;
      trait.certain = rule.certain;
      trait.why = one.phrase;
      trait.source = rule.source;
    }
    std::vector<FoodTrait> traits;
    traits.reserve(best.size());
    for (const auto& [subject, trait] : best) traits.push_back(trait);
    return traits;
  }

 private:
  std::vector<Rule> rules_;
  Phrases matches_, unless_;
};

}  // namespace

std::vector<FoodTrait> food_traits(std::string_view name, std::string_view line) {
  static const RuleTable kRules;
  return kRules.traits(name, line);
}

const std::vector<Allergen>& all_allergens() {
  static const auto kTable = CsvTable::read(embedded::allergens_csv);
  static const auto kAllergens = [] {
    std::vector<Allergen> all;
    for (std::size_t row = 0; row < kTable.row_count(); ++row)
      all.push_back({kTable.field(row, "id"), kTable.field(row, "name"),
                     has_part(kTable.field(row, "lists"), "US"), kTable.field(row, "source")});
    return all;
  }();
  return kAllergens;
}

const std::vector<DietClaim>& all_diet_claims() {
  static const auto kTable = CsvTable::read(embedded::diet_claims_csv);
  const auto parts = [](std::string_view list) {
    std::vector<std::string_view> out;
    while (!list.empty()) {
      const auto end = std::min(list.find('|'), list.size());
      if (end > 0) out.push_back(list.substr(0, end));
      list.remove_prefix(std::min(end + 1, list.size()));
    }
    return out;
  };
  static const auto kClaims = [&] {
    std::vector<DietClaim> all;
    for (std::size_t row = 0; row < kTable.row_count(); ++row)
      all.push_back({kTable.field(row, "id"), parts(kTable.field(row, "words")),
                     parts(kTable.field(row, "against")), kTable.field(row, "source")});
    return all;
  }();
  return kClaims;
}

FoodCaution food_caution(std::string_view id) {
  static const auto kTable = CsvTable::read(embedded::cautions_csv);
  for (std::size_t row = 0; row < kTable.row_count(); ++row)
    if (kTable.field(row, "id") == id) return {kTable.field(row, "sentence"), kTable.field(row, "source")};
  return {};
}

}  // namespace panslate
