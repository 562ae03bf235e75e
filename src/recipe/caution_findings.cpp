#include <algorithm>
#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/food_traits.h"
#include "panslate/kitchen/token.h"

#include "recipe/actions.h"
#include "recipe/findings.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

using Words = std::initializer_list<std::string_view>;

class CautionFinder {
 public:
  explicit CautionFinder(const ReadContext& context) : context_(context), recipe_(context.recipe) {
    for (const auto& ingredient : recipe_.ingredients) {
      const auto* food = find_food(ingredient.name);
      kinds_.push_back(food != nullptr ? food->kinds : FoodKinds{});
      line_.push_back(fold_accents(ingredient.text));
    }
    title_ = fold_accents(recipe_.title);
    for (const auto* notes :
         {&recipe_.introduction, &recipe_.placed_notes, &recipe_.tags, &recipe_.header_lines})
      for (const auto& note : *notes) beside_ += fold_accents(note.text) + "\n";
  }

  void run() {
    find_heat();
    foods();
    left_out();
    eaten_raw();
    keeping();
  }

 private:
  bool is_kind(std::size_t i, FoodKind kind) const { return kinds_[i].test(static_cast<std::size_t>(kind)); }
  bool line_has(std::size_t i, Words words) const {
    return std::any_of(words.begin(), words.end(),
                       [&](auto word) { return line_[i].find(word) != std::string::npos; });
  }

  std::optional<std::size_t> ingredient_where(const std::function<bool(std::size_t)>& holds) const {
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i)
      if (holds(i)) return i;
    return std::nullopt;
  }

  // A word of the method (any of its forms by whole word), with its place.
  struct Spot {
    std::size_t step = 0, token = 0;
  };
  std::optional<Spot> said(Words words) const {
    for (std::size_t s = 0; s < context_.words.size(); ++s)
      for (std::size_t at = 0; at < context_.words[s].size(); ++at)
        if (context_.words[s].is(at, words)) return Spot{s, at};
    return std::nullopt;
  }
  bool beside(Words words) const {
    return std::any_of(words.begin(), words.end(), [&](auto word) {
      return beside_.find(word) != std::string::npos || title_.find(word) != std::string::npos;
    });
  }

  void tell(ReadFinding& finding, std::string_view id) {
    const auto caution = food_caution(id);
    finding.message = std::string(caution.sentence);
    finding.source = std::string(caution.source);
    finding.advice = "Local food-safety rules, labels and medical advice come first.";
  }
  void at_ingredient(std::size_t i, std::string_view id) {
    if (told_.insert(std::string(id)).second)
      tell(context_.at_ingredient(i, "caution", ReadLevel::Note, {}), id);
  }
  void in_step(const Spot& spot, std::string_view id) {
    if (!told_.insert(std::string(id)).second) return;
    const auto offset = context_.words[spot.step].tokens[spot.token].begin;
    tell(context_.in_step(spot.step, offset, "caution", ReadLevel::Note, {}), id);
  }

  void foods() {
    const bool soaks = said({"soak", "soaked", "soaking"}).has_value();
    const bool for_infants =
        beside({"baby", "babies", "infant", "toddler", "weaning", "teething", "months old", "month-old",
                "from 6 months", "from 8 months", "from 9 months", "under one", "little ones"}) ||
        said({"baby", "babies", "infant", "infants", "toddler", "toddlers"});
    const bool baby_food = beside({"baby spinach", "baby potato", "baby corn", "baby carrot", "baby back"});
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i) {
      const bool ready = line_has(i, {"cooked", "tin", "can ", "cans", "canned", "jar", "leftover", "roasted",
                                      "smoked", "rotisserie", "deli", "ready-made", "carton", "drained"});
      const bool kidney = line_has(i, {"kidney bean", "red bean", "cannellini"});
      const bool packed =
          !recipe_.ingredients[i].amounts.empty() && recipe_.ingredients[i].amounts.front().unit == Unit::Can;
      const bool dried = line_has(i, {"dried", "dry "}) || soaks;
      if (kidney && !ready && !packed && dried) at_ingredient(i, "kidney_beans");
      const bool poultry = is_kind(i, FoodKind::Poultry) && !ready &&
                           !line_has(i, {"stock", "fat", "broth", "egg", "seasoning", "sausage"});
      if (poultry) at_ingredient(i, "poultry");
      const bool meat = is_kind(i, FoodKind::Meat) || is_kind(i, FoodKind::Poultry);
      if (meat && line_has(i, {"mince", "ground ", "minced"}) &&
          !line_has(i, {"vegan", "vegetarian", "soya"}))
        at_ingredient(i, "ground_meat");
      const bool stock =
          line_has(i, {"stock", "fat", "broth", "gravy", "dripping", "sauce", "paste", "flavour"});
      const bool cut = line_has(i, {"steak", "chop", "joint", "roasting", "loin", "tenderloin", "sirloin",
                                    "rump", "topside", "leg of", "shoulder", "brisket", "cutlet"});
      // "chops" is a verb to the table, so that it knows "pork" only.
      const bool of_meat =
          kinds_of_name(recipe_.ingredients[i].name).test(static_cast<std::size_t>(FoodKind::Meat));
      if (of_meat && cut && !ready && !stock && !line_has(i, {"mince", "ground ", "chopped"}))
        at_ingredient(i, "whole_cuts");
      if (is_kind(i, FoodKind::Fish) && !ready && !packed && !stock &&
          !line_has(i, {"anchov", "roe", "caviar", "flakes", "cured", "kipper", "vegan"}))
        at_ingredient(i, "fish");
      const bool honey = line_has(i, {"honey"});
      if (honey && for_infants && !baby_food) at_ingredient(i, "honey_infant");
    }
    if (const auto wash = said({"rinse", "wash", "rinsed", "washed"})) {
      const auto& words = context_.words[wash->step];
      for (const auto& food : words.foods)
        if (food.begin > wash->token && food.begin < wash->token + 4 &&
            std::any_of(food.ingredients.begin(), food.ingredients.end(),
                        [&](auto i) { return is_kind(i, FoodKind::Poultry); }))
          in_step(*wash, "wash_poultry");
    }
  }

  // Where the method heats, and where it takes a pan off the heat: looked for once.
  void find_heat() {
    for (const auto& words : context_.words) {
      Heat heat;
      for (std::size_t at = 0; at < words.size(); ++at) {
        const auto action = words.actions[at];
        heat.off =
            heat.off || (words.is(at, {"off"}) && words.is(at + 1, {"the"}) && words.is(at + 2, {"heat"}));
        if (action.kind != ActionKind::Heat ||
            is_one_of(action.verb, {"melt", "warm", "crisp", "reduce", "fire", "brown", "smoke"}))
          continue;
        if (words.is(at, {"heat"}) && at > 0 &&
            words.is(at - 1, {"the", "low", "medium", "high", "gentle"})) {
          // "off the heat", "take from the heat": the contrary.
          bool off = false;
          for (auto back = at; back-- > 0 && at - back < 4;) off = off || words.is(back, {"off", "from"});
          if (off) continue;
        }
        heat.heats = true;
        heat.heats_now = heat.heats_now || !action.is_past;
      }
      heat_.push_back(heat);
    }
    last_heat_ = heat_.size();
    for (auto s = heat_.size(); s-- > 0 && last_heat_ == heat_.size();)
      if (heat_[s].heats) last_heat_ = s;
  }

  // Nothing is heated in the step that first uses it ("the toasted nuts" were before), nor after.
  bool stays_uncooked(std::size_t ingredient) const {
    const auto& used = context_.flow().used_in[ingredient];
    if (used.empty()) return false;
    const bool later = last_heat_ < heat_.size() && last_heat_ > used.front();
    return !later && !heat_[used.front()].heats_now;
  }

  void eaten_raw() {
    const bool known_raw = beside({"mayonnaise", "aioli", "mousse", "tiramisu", "eggnog", "carbonara",
                                   "tartare", "caesar", "hollandaise"});
    const bool raw_dough = beside({"cookie dough", "raw dough", "no-bake", "no bake"});
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i) {
      const bool egg = is_kind(i, FoodKind::Egg) || line_has(i, {"egg yolk", "egg white"});
      if (egg &&
          !line_has(i, {"boiled", "replacer", "flax", "noodle", "vegan", "pasteurised", "pasteurized"}) &&
          (known_raw || stays_uncooked(i) || off_the_heat(i)))
        at_ingredient(i, "raw_egg");
      if (is_kind(i, FoodKind::Flour) && !line_has(i, {"dusting"}) && (stays_uncooked(i) || raw_dough))
        at_ingredient(i, "raw_flour");
    }
    if (said({"lick", "licking"})) {
      if (const auto flour = ingredient_where([&](auto i) { return is_kind(i, FoodKind::Flour); }))
        at_ingredient(*flour, "raw_flour");
    }
    if (beside({"ceviche", "tartare", "sashimi", "carpaccio", "gravlax", "poke bowl"}))
      if (const auto raw = ingredient_where([&](auto i) {
            return is_kind(i, FoodKind::Fish) || is_kind(i, FoodKind::Seafood) || is_kind(i, FoodKind::Meat);
          }))
        at_ingredient(*raw, "raw_fish");
  }

  // "Off the heat, toss with the eggs": hardly set.
  bool off_the_heat(std::size_t ingredient) const {
    const auto& used = context_.flow().used_in[ingredient];
    const auto off = std::find_if(used.begin(), used.end(), [&](std::size_t s) { return heat_[s].off; });
    return off != used.end() && *off == used.back() && *off + 1 >= heat_.size();
  }

  void keeping() {
    const auto cools = said({"cool", "cooled", "cooling", "cold", "chill", "chilled", "leftover", "leftovers",
                             "reheat", "reheated", "refrigerate", "fridge"});
    const auto rice = ingredient_where([&](auto i) {
      return is_kind(i, FoodKind::Rice) &&
             !line_has(i, {"flour", "vinegar", "noodle", "paper", "wine", "krisp"});
    });
    if (rice && (cools || line_has(*rice, {"cooked", "leftover", "cold", "day-old"}) ||
                 beside({"leftover", "reheat", "fridge", "freez"})))
      at_ingredient(*rice, "rice_cooling");
    garlic_in_oil();
    if (const auto reheats = said({"reheat", "reheated", "reheating"})) in_step(*reheats, "reheating");
    if (const auto thaws = said({"thaw", "thawed", "defrost", "defrosted", "thawing"}))
      in_step(*thaws, "thawing");
    if (const auto freezes = said({"freeze", "freezes", "freezer"})) in_step(*freezes, "freezing");
    if (const auto jars = said({"sterilised", "sterilized", "sterilise", "sterilize", "canning", "canner"}))
      in_step(*jars, "canning");
    else if (const auto seals = said({"seal", "sealed"}); seals && said({"jar", "jars"}))
      in_step(*seals, "canning");
    if (const auto left = said({"leftovers", "leftover", "keeps", "store", "stored"});
        left && is_perishable()) {
      in_step(*left, "leftovers");
    }
    cooled_slowly();
    beside_the_method();
  }

  bool is_perishable() const {
    using enum FoodKind;
    return ingredient_where([&](auto i) {
             return is_kind(i, Meat) || is_kind(i, Poultry) || is_kind(i, Fish) || is_kind(i, Seafood) ||
                    is_kind(i, Dairy) || is_kind(i, Egg) || is_kind(i, Rice) || is_kind(i, Pulse) ||
                    is_kind(i, Stock) || is_kind(i, Cheese) || is_kind(i, PlantMilk) || is_kind(i, Pasta);
           })
        .has_value();
  }

  // Cooked, then cooled and kept cold: the two hours count.
  void cooled_slowly() {
    if (!is_perishable()) return;
    for (std::size_t s = 0; s < context_.words.size(); ++s) {
      const auto& words = context_.words[s];
      for (std::size_t at = 0; at < words.size(); ++at) {
        if (!words.is(at, {"cool", "cooled"})) continue;
        for (auto i = at; i < words.size() && i < at + 40; ++i)
          if (words.is(i, {"fridge", "refrigerate", "chill", "refrigerator", "overnight", "store", "freeze"}))
            return in_step({s, at}, "two_hours");
      }
    }
    if (const auto left = said({"leftovers", "fridge", "refrigerator"})) in_step(*left, "two_hours");
  }

  void garlic_in_oil() {
    const auto oil = ingredient_where([&](auto i) { return is_kind(i, FoodKind::Oil); });
    const auto plant = ingredient_where([&](auto i) {
      return line_has(i, {"garlic", "chilli", "chili"}) || is_kind(i, FoodKind::Herb) ||
             is_kind(i, FoodKind::Chilli);
    });
    if (!oil || !plant) return;
    const bool is_the_dish = beside({"garlic oil", "infused oil", "confit", "herb oil", "chilli oil",
                                     "chili oil", "garlic in oil", "basil oil", "in oil"});
    const bool kept = said({"jar", "jars", "bottle", "bottles"}) &&
                      said({"store", "keep", "keeps", "cupboard", "infuse", "steep", "submerged", "covered"});
    const auto few = recipe_.ingredients.size() <= 8;
    if (is_the_dish || (kept && few && !said({"vinegar"}))) at_ingredient(*plant, "garlic_oil");
  }

  // "Freezes well", "leftovers keep for three days": told beside the method.
  void beside_the_method() {
    const auto note_with = [&](Words words) -> const RecipeNote* {
      for (const auto* notes : {&recipe_.placed_notes, &recipe_.introduction, &recipe_.header_lines})
        for (const auto& note : *notes) {
          const auto text = fold_accents(note.text);
          if (std::any_of(words.begin(), words.end(),
                          [&](auto w) { return text.find(w) != std::string::npos; }))
            return &note;
        }
      return nullptr;
    };
    const auto at_note = [&](const RecipeNote* note, std::string_view id) {
      if (note == nullptr || !told_.insert(std::string(id)).second) return;
      tell(context_.at_line(note->line, "caution", ReadLevel::Note, {}), id);
    };
    at_note(note_with({"freez"}), "freezing");
    at_note(note_with({"thaw", "defrost"}), "thawing");
    if (is_perishable()) at_note(note_with({"leftover", "in the fridge", "keeps for"}), "leftovers");
    if (is_perishable()) at_note(note_with({"leftover", "fridge"}), "two_hours");
    at_note(note_with({"reheat"}), "reheating");
  }

  struct Heat {
    bool heats = false, heats_now = false;  // now: not "the toasted nuts"
    bool off = false;                       // "off the heat"
  };

  // Meat or fish that waits in the room for hours: a marinade on the worktop.
  void left_out() {
    constexpr std::array<FoodKind, 4> kRaw{FoodKind::Meat, FoodKind::Poultry, FoodKind::Fish,
                                           FoodKind::Seafood};
    constexpr std::int64_t kMostSeconds = 7200;  // of the danger zone
    for (const auto& wait : context_.flow().waits) {
      if (wait.place != WaitPlace::Room || wait.most <= kMostSeconds) continue;
      const auto& words = context_.words[wait.step];
      const auto& uses = context_.flow().steps[wait.step].uses;
      const bool perishable = std::any_of(uses.begin(), uses.end(), [&](const FlowUse& use) {
        const auto kinds = kinds_of_name(recipe_.ingredients[use.ingredient].name);
        return std::any_of(kRaw.begin(), kRaw.end(),
                           [&](FoodKind kind) { return kinds.test(static_cast<std::size_t>(kind)); });
      });
      const auto at = words.token_at(wait.offset);
      bool cold = false;
      for (auto i = words.sentence_begin(at); i < words.sentence_end(at); ++i)
        cold = cold || words.is(i, {"fridge", "refrigerator", "refrigerate", "chill", "cold", "freezer",
                                    "cooker", "brine", "cure", "salt"});
      if (perishable && !cold) in_step({wait.step, at}, "leaving_out");
    }
  }

  const ReadContext& context_;
  const Recipe& recipe_;
  std::vector<Heat> heat_;     // by step
  std::size_t last_heat_ = 0;  // the last step that heats; heat_.size() for none
  std::vector<FoodKinds> kinds_;
  std::vector<std::string> line_;
  std::string title_, beside_;
  std::set<std::string> told_;
};

}  // namespace

void find_cautions(const ReadContext& context) {
  CautionFinder(context).run();
}

}  // namespace panslate
