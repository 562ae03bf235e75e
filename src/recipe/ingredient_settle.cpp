#include "recipe/ingredient_settle.h"

#include <algorithm>
#include <string_view>

#include "panslate/base/text.h"
#include "panslate/kitchen/token.h"

#include "recipe/ingredient_words.h"
#include "recipe/word_list.h"

namespace panslate {

bool is_package(Unit unit) {
  return unit == Unit::Can || unit == Unit::Jar || unit == Unit::Packet || unit == Unit::Block ||
         unit == Unit::Ball;
}

bool is_weight_or_volume(Unit unit) {
  const auto dimension = dimension_of(unit);
  return dimension == Dimension::Mass || dimension == Dimension::Volume;
}

Amount as_food_amount(Amount amount) {
  if (dimension_of(amount.unit) != Dimension::Length) return amount;
  Amount piece;
  piece.value = Ratio{1};
  return piece;
}

void settle_package(std::vector<Amount>& amounts) {
  if (amounts.size() < 2) return;
  auto& first = amounts[0];
  const auto& second = amounts[1];
  if (!is_package(first.unit) || first.each || first.value != Ratio{1} || first.to) return;
  if (!is_weight_or_volume(second.unit) || !second.value || second.to) return;
  // "1 block (14 oz/397 g)": told twice, each is the size of the one package.
  const auto dimension = dimension_of(second.unit);
  for (std::size_t i = 2; i < amounts.size(); ++i) {
    auto& other = amounts[i];
    if (dimension_of(other.unit) != dimension || !other.value || other.to || other.each) continue;
    const Package size{*other.value, other.unit};
    other = first;
    other.each = size;
  }
  first.each = Package{*second.value, second.unit};
  amounts.erase(amounts.begin() + 1);
}

void name_without_package(LineFoods& names, std::vector<Amount>& amounts) {
  if (amounts.empty() || names.foods.size() != 1) return;
  auto& amount = amounts.front();
  if (!amount.each && amount.unit != Unit::Can) return;
  for (const std::string_view tinned : {"tinned ", "canned "}) {
    if (fold_case(names.name).substr(0, tinned.size()) != tinned) continue;
    if (amount.unit == Unit::Piece) amount.unit = Unit::Can;
    names.name.erase(0, tinned.size());
    names.foods = {names.name};
  }
}

void take_listed_foods(Ingredient& ingredient, std::vector<std::string>& preparation) {
  constexpr std::size_t kLongestName = 7;
  if (!ingredient.amounts.empty() || preparation.empty() || ingredient.foods.empty()) return;
  std::vector<std::string> more;
  std::size_t used = 0;
  for (const auto& segment : preparation) {
    auto rest = tokenize(segment);
    if (!rest.empty() && (rest.front().text == "and" || rest.front().text == "&")) rest.erase(rest.begin());
    if (rest.empty() || rest.size() > kLongestName) break;
    std::vector<std::string> folded;
    folded.reserve(rest.size());
    for (const auto& token : rest) folded.push_back(token.text);
    if (is_one_of(folded.front(), {"juice", "zest", "leaves", "seeds", "peel", "whole"})) break;
    if (folded.front() == "some" || folded.front() == "a") folded.erase(folded.begin());
    if (food_words_at_start(folded) == 0) break;
    const auto names = read_food_names(rest, 0, rest.size(), CountedAs::Nothing);
    if (!names.preparation.empty()) break;
    more.insert(more.end(), names.foods.begin(), names.foods.end());
    ++used;
  }
  for (std::size_t i = 0; i < used; ++i) ingredient.name += ", " + preparation[i];
  ingredient.foods.insert(ingredient.foods.end(), more.begin(), more.end());
  preparation.erase(preparation.begin(), preparation.begin() + static_cast<std::ptrdiff_t>(used));
}

bool says_to_taste(const std::vector<std::string>& preparation) {
  const auto folded = fold_case(join(preparation, ", "));
  for (const std::string_view phrase :
       {"to taste", "as needed", "as required", "as desired", "enough to", "per taste", "as liked",
        "as you like", "to your taste", "according to taste"})
    if (folded.find(phrase) != std::string::npos) return true;
  return std::any_of(preparation.begin(), preparation.end(), [](const std::string& part) {
    const auto text = fold_case(part);
    return text.substr(0, 4) == "for " || text.substr(0, 3) == "to ";
  });
}

}  // namespace panslate
