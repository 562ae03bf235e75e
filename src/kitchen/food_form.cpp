#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "panslate/kitchen/food.h"

#include "embedded/food_forms_csv.h"
#include "kitchen/food_table.h"

namespace panslate {

namespace {

constexpr std::array<std::string_view, 12> kFormSpellings{"dried",  "tinned",   "pickled", "cooked",
                                                          "ground", "powdered", "frozen",  "fresh",
                                                          "smoked", "toasted",  "salted",  "candied"};

struct FormRow {
  FoodForm form = FoodForm::Fresh;
  bool makes_another = false;
  FoodKinds except;
};

struct Forms {
  std::unordered_map<std::string, FoodForm> by_word;
  std::array<FormRow, kFormSpellings.size()> rows;  // of the word that names the form
};

Forms load_forms() {
  Forms forms;
  for (const auto& fields : table_rows(embedded::food_forms_csv)) {
    for (std::size_t i = 0; i < kFormSpellings.size(); ++i) {
      if (fields[1] != kFormSpellings[i]) continue;
      const auto form = static_cast<FoodForm>(i);
      forms.by_word.emplace(fields[0], form);
      const bool names_the_form = fields[0] == kFormSpellings[i];
      if (!names_the_form) continue;
      FormRow row{form, fields[2] == "yes", {}};
      for (const auto part : field_parts(fields[3]))
        if (const auto kind = food_kind_from_spelling(part)) row.except.set(static_cast<std::size_t>(*kind));
      forms.rows[i] = row;
    }
  }
  return forms;
}

const Forms& all_forms() {
  static const Forms forms = load_forms();
  return forms;
}

}  // namespace

std::optional<FoodForm> form_of(std::string_view folded_word) {
  const auto it = all_forms().by_word.find(std::string(folded_word));
  if (it == all_forms().by_word.end()) return std::nullopt;
  return it->second;
}

bool form_makes_another_food(FoodForm form, std::string_view food) {
  const auto& row = all_forms().rows[static_cast<std::size_t>(form)];
  if (!row.makes_another) return false;
  // The plain food decides: "ground almonds" is a flour, but almonds are nuts.
  auto words = name_words(food);
  std::erase_if(words, [](const NameWord& word) { return form_of(word.text).has_value(); });
  const auto resolved = food_table().resolve(words);
  if (resolved.row == kNoFood) return true;
  return !row.except.test(static_cast<std::size_t>(food_table().rows()[resolved.row].kind));
}

}  // namespace panslate
