#pragma once

#include <string>
#include <string_view>
#include <vector>

/// What foods hold that some people must not or will not eat, and what claims and cautions there are; from
/// the compiled-in tables (food_rules.csv, allergens.csv, diet_claims.csv, cautions.csv), each row with its
/// source. A table of words cannot know what is in a packet: it tells what to look for, never that a food is
/// free of something.
namespace panslate {

/// One thing that a food holds for certain, or by some makers.
struct FoodTrait {
  std::string_view subject;           ///< id of an allergen, or "meat", "rennet", "animal", "alcohol"
  bool certain = false;               ///< else the label decides
  bool breaks_claim = false;          ///< a claim of being free of it is wrong; else it needs a label
  bool in_eu = false, in_us = false;  ///< whose list of allergens has it; neither for other subjects
  std::string_view why;               ///< the words that tell: "soy sauce"
  std::string_view source;
};

/// The traits of an ingredient line: `name` is the food alone, `line` the whole of it (for "gluten-free" in
/// brackets). Each subject once, certain before uncertain. Longest in the words that tell.
[[nodiscard]] std::vector<FoodTrait> food_traits(std::string_view name, std::string_view line);

/// One of the allergens of Regulation (EU) 1169/2011 Annex II.
struct Allergen {
  std::string_view id;    ///< "gluten_cereals"
  std::string_view name;  ///< "cereals containing gluten"
  bool in_us = false;     ///< (a part of it) is one of the nine of the United States
  std::string_view source;
};
[[nodiscard]] const std::vector<Allergen>& all_allergens();

/// A claim that recipes make of themselves.
struct DietClaim {
  std::string_view id;  ///< "gluten-free"; empty for claims that no list of foods decides
  std::vector<std::string_view> words;
  std::vector<std::string_view> against;  ///< subjects of FoodTrait
  std::vector<std::string_view> free_of;  ///< what it names in "without gluten", "gluten and dairy free"
  std::vector<std::string_view> people;   ///< whom it names in "suitable for vegans"
  std::vector<std::string_view> shorts;   ///< in capitals: "GF"
  std::string_view source;
};
[[nodiscard]] const std::vector<DietClaim>& all_diet_claims();

/// A food-safety caution: one sentence and who published it.
struct FoodCaution {
  std::string_view sentence, source;
};
/// By its id in cautions.csv; an unknown id is a defect and gives an empty sentence.
[[nodiscard]] FoodCaution food_caution(std::string_view id);

}  // namespace panslate
