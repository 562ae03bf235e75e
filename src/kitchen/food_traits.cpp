#include "panslate/kitchen/food_traits.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <unordered_map>

#include "panslate/base/csv.h"
#include "panslate/base/text.h"
#include "panslate/kitchen/claim_words.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "embedded/allergens_csv.h"
#include "embedded/cautions_csv.h"
#include "embedded/diet_claims_csv.h"
#include "embedded/food_rules_csv.h"
#include "kitchen/line_segments.h"

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
    std::size_t begin = 0, length = 0;  // words
    std::string_view phrase;

    [[nodiscard]] std::size_t end() const { return begin + length; }
  };

  void find(const Stems& words, std::vector<Found>& found) const {
    for (std::size_t at = 0; at < words.size(); ++at) {
      const auto here = by_first_.find(words[at]);
      if (here == by_first_.end()) continue;
      for (const auto& [stems, rule, phrase] : here->second)
        if (stems.size() <= words.size() - at &&
            std::equal(stems.begin(), stems.end(), words.begin() + static_cast<std::ptrdiff_t>(at)))
          found.push_back({rule, at, stems.size(), phrase});
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

// How far words of the line speak for a food that a rule would name.
enum class Excuse : std::uint8_t {
  None,
  ByLabel,  // "gluten-free flour if you need it": perhaps
  Full,
};

// "gluten free", "vegan": what a packet claims. Other excuses name another food ("almond milk").
bool is_claim_phrase(std::string_view phrase) {
  static constexpr std::array<std::string_view, 9> kClaims{
      "free", "vegan", "vegetarian", "veggie", "plant based", "non", "less", "unsul", "meat substitute"};
  return std::any_of(kClaims.begin(), kClaims.end(),
                     [&](auto claim) { return phrase.find(claim) != std::string_view::npos; });
}

// What the words of a line excuse, segment by segment: an aside excuses the food it stands beside only where
// it is nothing but the claim.
class LineExcuses {
 public:
  LineExcuses(std::string_view line, const Stems& name, const std::vector<Stems>& names,
              const Phrases& unless)
      : line_(segments_of(line)) {
    unless.find(line_.words, phrases_);
    // "eggs, free-range" is no egg-free food, nor do words on both sides of a mark make a phrase.
    std::erase_if(phrases_, [&](const Phrases::Found& one) {
      const bool range = one.end() < line_.words.size() && line_.words[one.end() - 1] == "free" &&
                         (line_.words[one.end()] == "range" || line_.words[one.end()] == "run" ||
                          line_.words[one.end()] == "from");
      return range || line_.segment_index(one.begin) != line_.segment_index(one.end() - 1);
    });
    for (const auto& other : names) unless.find(other, of_names_);
    find_name(name);
    find_pure();
  }

  [[nodiscard]] const Stems& words() const { return line_.words; }

  [[nodiscard]] Excuse of(const Phrases::Found& match) const {
    const auto first = line_.segment_index(match.begin);
    const auto last = line_.segment_index(match.end() - 1);
    if (in_name(first) && named_otherwise(match.rule)) return Excuse::Full;
    if (pure_beside(match.rule, first, last)) return Excuse::Full;
    auto best = Excuse::None;
    for (const auto& phrase : phrases_) {
      const auto at = line_.segment_index(phrase.begin);
      if (phrase.rule == match.rule && first <= at && at <= last)
        best = std::max(best, beside(phrase, match));
    }
    return best;
  }

  // For what only the food's name tells: every place where the line names it must be excused.
  [[nodiscard]] Excuse of_name(std::size_t rule) const {
    if (named_otherwise(rule)) return Excuse::Full;
    auto least = Excuse::Full;
    for (const auto at : name_at_) least = std::min(least, of({rule, at, 1, {}}));
    return name_at_.empty() ? Excuse::None : least;
  }

 private:
  // The words that name the food, and the segments that hold all of them, else the last.
  void find_name(const Stems& name) {
    if (name.empty()) return;
    std::vector<std::size_t> last_word;
    for (std::size_t s = 0; s < line_.segments.size(); ++s) {
      const auto begin = line_.words.begin() + static_cast<std::ptrdiff_t>(line_.segments[s].begin);
      const auto end = line_.words.begin() + static_cast<std::ptrdiff_t>(line_.segments[s].end);
      const auto last = std::find(begin, end, name.back());
      if (last == end) continue;
      const auto at = static_cast<std::size_t>(last - line_.words.begin());
      last_word.push_back(at);
      if (std::all_of(name.begin(), name.end(),
                      [&](const auto& stem) { return std::find(begin, end, stem) != end; }))
        name_at_.push_back(at);
    }
    if (name_at_.empty()) name_at_ = std::move(last_word);
  }

  // Segments of nothing but claims: "gluten-free", "certified gluten-free and vegan".
  void find_pure() {
    std::vector<bool> told(line_.words.size(), false);
    for (const auto& phrase : phrases_)
      if (is_claim_phrase(phrase.phrase))
        for (auto at = phrase.begin; at < phrase.end(); ++at) told[at] = true;
    for (std::size_t at = 0; at < line_.words.size(); ++at) {
      const bool of_other = at + 1 < line_.words.size() && line_.words[at + 1] == "free";
      const auto is_figure = [&](std::size_t word) {
        const auto first = line_.words[word].front();
        return first >= '0' && first <= '9';
      };
      const bool measure =
          is_figure(at) || (at > 0 && is_figure(at - 1));  // "100 g dairy-free, unsalted butter"
      told[at] = told[at] || of_other || measure || (at > 0 && line_.words[at] == "free") ||
                 line_.words[at] == "certified" || line_.words[at] == "labelled" ||
                 line_.words[at] == "labeled" || line_.words[at] == "guaranteed";
    }
    for (const auto& segment : line_.segments) {
      const bool claims = std::any_of(phrases_.begin(), phrases_.end(), [&](const auto& phrase) {
        return segment.begin <= phrase.begin && phrase.begin < segment.end && is_claim_phrase(phrase.phrase);
      });
      pure_.push_back(claims && std::all_of(told.begin() + static_cast<std::ptrdiff_t>(segment.begin),
                                            told.begin() + static_cast<std::ptrdiff_t>(segment.end),
                                            [](bool one) { return one; }));
    }
    const auto is_asked = [&](std::size_t s) {
      return std::any_of(line_.segments.begin(), line_.segments.end(), [&](const LineSegment& other) {
        return other.conditional && other.aside == line_.segments[s].aside && other.aside != 0;
      });
    };
    const auto pure = pure_;
    for (std::size_t s = 0; s < line_.segments.size(); ++s) {
      const bool chosen = line_.segments[s].opener == SegmentOpener::Choice && (s == 0 || !pure[s - 1]);
      const bool for_some = line_.segments[s].opener == SegmentOpener::Purpose;
      const bool more = s + 1 < line_.segments.size() && !pure[s + 1];
      const bool or_other = more && line_.segments[s + 1].opener == SegmentOpener::Choice;
      const bool if_so = more && line_.segments[s + 1].aside == line_.segments[s].aside &&
                         line_.segments[s + 1].opener != SegmentOpener::Also &&
                         is_claim_word(ClaimWord::Condition, line_.words[line_.segments[s + 1].begin]);
      pure_[s] = pure[s] && !chosen && !for_some && !or_other && !if_so && !is_asked(s);
    }
  }

  // A food of its own begins with "and" and "or", but for a further claim.
  [[nodiscard]] bool starts_food(std::size_t s) const {
    const auto opener = line_.segments[s].opener;
    return s > 0 && !pure_[s] && line_.segments[s].aside == 0 &&
           (opener == SegmentOpener::Also || opener == SegmentOpener::Choice);
  }

  [[nodiscard]] bool names_a_food(std::size_t s) const {
    const auto& segment = line_.segments[s];
    for (auto at = segment.begin; at < segment.end; ++at)
      if (const auto& word = line_.words[at];
          is_food_word(word) || is_food_word(word + "s") || find_food(word) != nullptr)
        return true;
    return false;
  }
  // "100 g walnuts, chocolate chips (nut-free)": said of the chips.
  [[nodiscard]] bool is_of_another(std::size_t claim, std::size_t first, std::size_t last) const {
    const auto begin = claim > last ? last + 1 : claim + 1;
    const auto end = claim > last ? claim : first;
    for (auto s = begin; s < end; ++s)
      if (!pure_[s] && names_a_food(s)) return true;
    return false;
  }

  [[nodiscard]] bool pure_beside(std::size_t rule, std::size_t first, std::size_t last) const {
    auto begin = first;
    while (begin > 0 && !starts_food(begin)) --begin;
    auto end = last + 1;
    while (end < line_.segments.size() && !starts_food(end)) ++end;
    return std::any_of(phrases_.begin(), phrases_.end(), [&](const Phrases::Found& phrase) {
      const auto at = line_.segment_index(phrase.begin);
      return phrase.rule == rule && pure_[at] && begin <= at && at < end && is_claim_phrase(phrase.phrase) &&
             !is_of_another(at, first, last);
    });
  }

  // What a phrase of the same segment excuses.
  [[nodiscard]] Excuse beside(const Phrases::Found& phrase, const Phrases::Found& match) const {
    const auto& words = line_.words;
    const auto& segment = line_.segment_of(phrase.begin);
    for (auto at = phrase.begin; at-- > segment.begin && phrase.begin - at < 3;)
      if (words[at] == "not" || words[at] == "isnt" || words[at] == "no") return Excuse::None;
    const bool overlaps = phrase.begin < match.end() && match.begin < phrase.end();
    if (overlaps) return Excuse::Full;  // "almond milk if you like" is almond milk all the same
    if (phrase.end() <= match.begin) return segment.conditional ? Excuse::ByLabel : Excuse::Full;
    if (segment.conditional) return Excuse::None;
    if (is_claim_phrase(phrase.phrase)) return Excuse::Full;
    // "wine vinegar", "chicken-style seitan"; not "walnuts and nutmeg"
    return std::all_of(
               words.begin() + static_cast<std::ptrdiff_t>(match.end()),
               words.begin() + static_cast<std::ptrdiff_t>(phrase.begin),
               [](const auto& word) { return word == "style" || word == "flavour" || word == "flavor"; })
               ? Excuse::Full
               : Excuse::None;
  }

  [[nodiscard]] bool named_otherwise(std::size_t rule) const {
    return std::any_of(of_names_.begin(), of_names_.end(), [&](const auto& one) { return one.rule == rule; });
  }
  [[nodiscard]] bool in_name(std::size_t segment) const {
    return name_at_.empty() || std::any_of(name_at_.begin(), name_at_.end(), [&](std::size_t at) {
             return line_.segment_index(at) == segment;
           });
  }

  SegmentedLine line_;
  std::vector<Phrases::Found> phrases_, of_names_;
  std::vector<std::size_t> name_at_;
  std::vector<bool> pure_;
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
    const auto* food = find_food(name);
    // Other names of the food, and what it is a kind of.
    std::vector<Stems> names;
    const auto kinds = food != nullptr ? food->kinds : FoodKinds{};
    for (int depth = 0; food != nullptr && depth < 4; ++depth) {
      names.push_back(stems_of(food->name));
      food = food->broader ? &all_foods()[*food->broader] : nullptr;
    }
    const LineExcuses excuses(line, stems_of(name), names, unless_);
    std::map<std::string_view, FoodTrait> best;
    const auto take = [&](std::size_t rule, std::string_view why, Excuse excuse) {
      if (excuse != Excuse::Full) keep_best(best[rules_[rule].subject], rules_[rule], why, excuse);
    };
    std::vector<Phrases::Found> found;
    matches_.find(excuses.words(), found);
    for (const auto& one : found) take(one.rule, one.phrase, excuses.of(one));
    found.clear();
    for (const auto& other : names) matches_.find(other, found);
    for (const auto& one : found) take(one.rule, one.phrase, excuses.of_name(one.rule));
    for (std::size_t rule = 0; rule < rules_.size(); ++rule)
      if ((rules_[rule].kinds & kinds).any()) take(rule, {}, excuses.of_name(rule));
    std::vector<FoodTrait> traits;
    traits.reserve(best.size());
    for (const auto& [subject, trait] : best) traits.push_back(trait);
    return traits;
  }

 private:
  static void keep_best(FoodTrait& trait, const Rule& rule, std::string_view why, Excuse excuse) {
    const bool first = trait.subject.empty();
    const bool certain = rule.certain && excuse == Excuse::None;
    const bool breaks_claim = rule.breaks_claim && excuse == Excuse::None;
    trait.in_eu = trait.in_eu || rule.in_eu;
    trait.in_us = trait.in_us || rule.in_us;
    const bool stronger =
        first || certain > trait.certain || (certain == trait.certain && breaks_claim > trait.breaks_claim);
    const bool longer = certain == trait.certain && why.size() > trait.why.size();
    if (!stronger && !longer) return;
    trait.subject = rule.subject;
    trait.breaks_claim = stronger ? breaks_claim : trait.breaks_claim;
    trait.certain = certain;
    trait.why = why;
    trait.source = rule.source;
  }

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
                     parts(kTable.field(row, "against")), parts(kTable.field(row, "free of")),
                     parts(kTable.field(row, "people")), parts(kTable.field(row, "short")),
                     kTable.field(row, "source")});
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
