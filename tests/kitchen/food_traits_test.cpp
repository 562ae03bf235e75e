// What foods hold: the regulations' own words, and carriers that hide it.
#include "panslate/kitchen/food_traits.h"

#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/kitchen/food.h"

namespace panslate {
namespace {

enum class Holds { Certain, ByLabel, Not };

struct TraitCase {
  const char* line;
  const char* subject;
  Holds holds;
  const char* source;
};

Holds held(const std::string& line, std::string_view subject) {
  for (const auto& trait : food_traits(line, line))
    if (trait.subject == subject) return trait.certain ? Holds::Certain : Holds::ByLabel;
  return Holds::Not;
}

class Traits : public ::testing::TestWithParam<TraitCase> {};

TEST_P(Traits, AreTold) {
  const auto& [line, subject, holds, source] = GetParam();
  EXPECT_EQ(held(line, subject), holds) << line << ", " << subject << ": " << source;
}

constexpr const char* kAnnex = "Regulation (EU) 1169/2011 Annex II";
constexpr const char* kTrade = "common practice, no source";
using enum Holds;

INSTANTIATE_TEST_SUITE_P(AnnexTwo, Traits,
                         ::testing::Values(TraitCase{"wheat", "gluten_cereals", Certain, kAnnex},
                                           TraitCase{"spelt flour", "gluten_cereals", Certain, kAnnex},
                                           TraitCase{"khorasan wheat", "gluten_cereals", Certain, kAnnex},
                                           TraitCase{"rye bread", "gluten_cereals", Certain, kAnnex},
                                           TraitCase{"pearl barley", "gluten_cereals", Certain, kAnnex},
                                           TraitCase{"rolled oats", "gluten_cereals", Certain, kAnnex},
                                           TraitCase{"raw king prawns", "crustaceans", Certain, kAnnex},
                                           TraitCase{"eggs", "egg", Certain, kAnnex},
                                           TraitCase{"cod", "fish", Certain, kAnnex},
                                           TraitCase{"peanuts", "peanut", Certain, kAnnex},
                                           TraitCase{"soya milk", "soy", Certain, kAnnex},
                                           TraitCase{"semi-skimmed milk", "milk", Certain, kAnnex},
                                           TraitCase{"flaked almonds", "tree_nuts", Certain, kAnnex},
                                           TraitCase{"hazelnuts", "tree_nuts", Certain, kAnnex},
                                           TraitCase{"walnuts", "tree_nuts", Certain, kAnnex},
                                           TraitCase{"cashews", "tree_nuts", Certain, kAnnex},
                                           TraitCase{"pecan nuts", "tree_nuts", Certain, kAnnex},
                                           TraitCase{"Brazil nuts", "tree_nuts", Certain, kAnnex},
                                           TraitCase{"pistachios", "tree_nuts", Certain, kAnnex},
                                           TraitCase{"macadamia nuts", "tree_nuts", Certain, kAnnex},
                                           TraitCase{"celeriac", "celery", Certain, kAnnex},
                                           TraitCase{"mustard seeds", "mustard", Certain, kAnnex},
                                           TraitCase{"sesame seeds", "sesame", Certain, kAnnex},
                                           TraitCase{"dry white wine", "sulphites", Certain, kAnnex},
                                           TraitCase{"lupin flour", "lupin", Certain, kAnnex},
                                           TraitCase{"mussels", "molluscs", Certain, kAnnex},
                                           TraitCase{"squid", "molluscs", Certain, kAnnex}));

INSTANTIATE_TEST_SUITE_P(
    HiddenCarriers, Traits,
    ::testing::Values(
        TraitCase{"light soy sauce", "gluten_cereals", Certain, kTrade},
        TraitCase{"soy sauce", "soy", Certain, kTrade},
        TraitCase{"Worcestershire sauce", "fish", Certain, "made with anchovies"},
        TraitCase{"Worcestershire sauce", "gluten_cereals", ByLabel, "malt vinegar in Britain"},
        TraitCase{"1 vegetable stock cube", "celery", ByLabel, kTrade},
        TraitCase{"stock cubes", "gluten_cereals", ByLabel, kTrade},
        TraitCase{"malt extract", "gluten_cereals", Certain, kAnnex},
        TraitCase{"Parmesan", "milk", Certain, kTrade}, TraitCase{"Parmesan", "rennet", ByLabel, kTrade},
        TraitCase{"marzipan", "tree_nuts", Certain, kTrade}, TraitCase{"marzipan", "egg", ByLabel, kTrade},
        TraitCase{"pesto", "milk", Certain, kTrade}, TraitCase{"pesto", "tree_nuts", ByLabel, kTrade},
        TraitCase{"couscous", "gluten_cereals", Certain, kAnnex},
        TraitCase{"seitan", "gluten_cereals", Certain, kTrade},
        TraitCase{"panko", "gluten_cereals", Certain, kTrade}, TraitCase{"tahini", "sesame", Certain, kTrade},
        TraitCase{"hummus", "sesame", Certain, kTrade}, TraitCase{"za'atar", "sesame", Certain, kTrade},
        TraitCase{"satay sauce", "peanut", Certain, kTrade},
        TraitCase{"oyster sauce", "molluscs", Certain, kTrade},
        TraitCase{"curry powder", "mustard", ByLabel, kTrade},
        TraitCase{"dried apricots", "sulphites", Certain, kTrade},
        TraitCase{"dashi", "fish", Certain, kTrade}, TraitCase{"mayonnaise", "egg", Certain, kTrade},
        TraitCase{"egg noodles", "egg", Certain, kTrade}, TraitCase{"ghee", "milk", Certain, kTrade},
        TraitCase{"dark chocolate", "milk", ByLabel, kTrade},
        TraitCase{"leaf gelatine", "meat", Certain, kTrade}, TraitCase{"honey", "animal", Certain, kTrade},
        TraitCase{"surimi", "crustaceans", ByLabel, kTrade}, TraitCase{"miso", "soy", Certain, kTrade}));

INSTANTIATE_TEST_SUITE_P(
    NotWhatItSounds, Traits,
    ::testing::Values(
        TraitCase{"coconut milk", "milk", Not, kTrade}, TraitCase{"peanut butter", "milk", Not, kTrade},
        TraitCase{"butter beans", "milk", Not, kTrade}, TraitCase{"cream of tartar", "milk", Not, kTrade},
        TraitCase{"cocoa butter", "milk", Not, kTrade}, TraitCase{"butternut squash", "milk", Not, kTrade},
        TraitCase{"vegan butter", "milk", Not, kTrade}, TraitCase{"oat milk", "milk", Not, kTrade},
        TraitCase{"nutmeg", "tree_nuts", Not, kTrade}, TraitCase{"coconut", "tree_nuts", Not, kAnnex},
        TraitCase{"water chestnuts", "tree_nuts", Not, kAnnex},
        TraitCase{"buckwheat flour", "gluten_cereals", Not, kTrade},
        TraitCase{"rice flour", "gluten_cereals", Not, kTrade},
        TraitCase{"cornflour", "gluten_cereals", Not, kTrade},
        TraitCase{"gluten-free plain flour", "gluten_cereals", Not, "the label says so"},
        TraitCase{"rice noodles", "gluten_cereals", Not, kTrade},
        TraitCase{"aubergine (eggplant)", "egg", Not, kTrade}, TraitCase{"flax egg", "egg", Not, kTrade},
        TraitCase{"oyster mushrooms", "molluscs", Not, kTrade},
        TraitCase{"kidney beans", "meat", Not, kTrade}, TraitCase{"beef tomatoes", "meat", Not, kTrade},
        TraitCase{"coconut aminos", "soy", Not, kTrade},
        TraitCase{"ginger beer", "gluten_cereals", Not, kTrade}));

// A word about another food, or about what some cooks may do, says nothing of the food itself.
INSTANTIATE_TEST_SUITE_P(
    AsidesExcuseNothing, Traits,
    ::testing::Values(
        TraitCase{"200 g plain flour (not gluten free)", "gluten_cereals", Certain, kTrade},
        TraitCase{"200 g plain flour (not suitable for gluten free diets)", "gluten_cereals", Certain,
                  kTrade},
        TraitCase{"200 g plain flour, gluten-free if needed", "gluten_cereals", Certain, kTrade},
        TraitCase{"200 g plain flour (gluten-free, if you need it)", "gluten_cereals", Certain, kTrade},
        TraitCase{"2 tbsp soy sauce (tamari if gluten free)", "gluten_cereals", Certain, kTrade},
        TraitCase{"2 tbsp soy sauce (check it is gluten free)", "gluten_cereals", Certain, kTrade},
        TraitCase{"2 tbsp soy sauce (or gluten-free)", "gluten_cereals", Certain, kTrade},
        TraitCase{"250 g flour, half plain, half buckwheat", "gluten_cereals", Certain, kTrade},
        TraitCase{"gluten-free bread and soy sauce", "gluten_cereals", Certain, kTrade},
        TraitCase{"50 g Parmesan (omit for vegan)", "milk", Certain, kTrade},
        TraitCase{"200 ml whole milk (almond milk works too)", "milk", Certain, kTrade},
        TraitCase{"100 g butter (use dairy free if you like)", "milk", Certain, kTrade},
        TraitCase{"100 g butter for the butternut squash", "milk", Certain, kTrade},
        TraitCase{"100 g cream cheese, not vegan", "milk", Certain, kTrade},
        TraitCase{"100 g butter, vegan or dairy", "milk", Certain, kTrade},
        TraitCase{"1 egg, beaten (a flax egg works too)", "egg", Certain, kTrade},
        TraitCase{"1 large egg, plus 1 flax egg", "egg", Certain, kTrade},
        TraitCase{"2 eggs (use aquafaba for vegan)", "egg", Certain, kTrade},
        TraitCase{"2 eggs, free-range", "egg", Certain, kTrade},
        TraitCase{"2 eggs (free range)", "egg", Certain, kTrade},
        TraitCase{"6 anchovies (leave out if vegetarian)", "fish", Certain, kTrade},
        TraitCase{"2 tbsp fish sauce (soy sauce for vegan)", "fish", Certain, kTrade},
        TraitCase{"100 g walnuts (omit to make it nut-free)", "tree_nuts", Certain, kTrade},
        TraitCase{"50 g walnuts, a grating of nutmeg", "tree_nuts", Certain, kTrade},
        TraitCase{"50 g walnuts, nutmeg", "tree_nuts", Certain, kTrade},
        TraitCase{"200 g prawns in crab boil", "crustaceans", Certain, kTrade},
        TraitCase{"2 tbsp tahini (sesame free: use sunflower butter)", "sesame", Certain, kTrade},
        TraitCase{"200 g chicken, or use tofu", "meat", Certain, kTrade},
        TraitCase{"100 g walnuts, chocolate chips (nut-free)", "tree_nuts", Certain, kTrade},
        TraitCase{"50 g butter, milk (dairy-free)", "milk", Certain, kTrade},
        TraitCase{"200 g flour with baking powder (gluten-free)", "gluten_cereals", Certain, kTrade},
        TraitCase{"dairy-free butter if you like", "milk", ByLabel, kTrade}));

// ... and what is said of the food itself does.
INSTANTIATE_TEST_SUITE_P(
    ClaimsOfTheFoodHold, Traits,
    ::testing::Values(TraitCase{"200 g plain flour (gluten-free)", "gluten_cereals", Not, kTrade},
                      TraitCase{"2 tbsp plain (gluten-free) flour", "gluten_cereals", Not, kTrade},
                      TraitCase{"200 g plain flour, certified gluten-free", "gluten_cereals", Not, kTrade},
                      TraitCase{"200 g flour (vegan and gluten-free), sifted", "gluten_cereals", Not, kTrade},
                      TraitCase{"gluten-free flour, for dusting", "gluten_cereals", Not, kTrade},
                      TraitCase{"flour for dusting (gluten-free)", "gluten_cereals", Not, kTrade},
                      TraitCase{"tamari (gluten-free soy sauce)", "gluten_cereals", ByLabel, kTrade},
                      TraitCase{"100 g butter, dairy-free", "milk", Not, kTrade},
                      TraitCase{"100 g dairy-free, unsalted butter", "milk", Not, kTrade},
                      TraitCase{"200 ml almond, oat or other plant milk", "milk", Not, kTrade},
                      TraitCase{"200 ml almond milk if you like", "milk", Not, kTrade},
                      TraitCase{"1 butternut squash (about 1 kg), peeled", "milk", Not, kTrade},
                      TraitCase{"beef-style seitan pieces", "meat", Not, kTrade},
                      TraitCase{"red wine vinegar", "alcohol", Not, kTrade},
                      TraitCase{"1 flax egg (1 tbsp ground flax and 3 tbsp water)", "egg", Not, kTrade},
                      TraitCase{"1 chicken-free stock cube (vegan)", "meat", Not, kTrade}));

// Acceptable market names of the US FDA's Seafood List, and names of Regulation (EU) 1379/2013's national
// lists, from memory.
TEST(Seafood, OfTheListsOfMarketNamesIsTold) {
  for (const auto* name :
       {"sprats",      "red mullet",  "grey mullet", "turbot",     "whiting",    "John Dory",
        "ling",        "perch",       "pike",        "carp",       "black bass", "shark steak",
        "grouper",     "Arctic char", "brill",       "gurnard",    "mahi-mahi",  "marlin",
        "smelt",       "shad",        "sturgeon",    "zander",     "walleye",    "rockfish",
        "hoki",        "pangasius",   "amberjack",   "yellowtail", "sablefish",  "orange roughy",
        "flounder",    "bluefish",    "dogfish",     "whitefish",  "lemon sole", "Dover sole",
        "skate wings", "cobia",       "escolar",     "milkfish",   "butterfish", "croaker",
        "cod",         "haddock",     "halibut",     "monkfish",   "pollock",    "plaice",
        "tilapia"})
    EXPECT_EQ(held("400 g " + std::string(name), "fish"), Certain) << name;
  for (const auto* name : {"gambas", "crawdads", "langostinos", "squat lobster", "spider crab",
                           "rock lobster", "krill", "crayfish", "yabbies", "brown shrimps", "tiger prawns"})
    EXPECT_EQ(held("400 g " + std::string(name), "crustaceans"), Certain) << name;
  for (const auto* name : {"geoduck", "quahogs", "limpets", "vongole", "razor clams", "cockles", "whelks"})
    EXPECT_EQ(held("400 g " + std::string(name), "molluscs"), Certain) << name;
}

INSTANTIATE_TEST_SUITE_P(
    WheatByOtherNames, Traits,
    ::testing::Values(TraitCase{"400 g bucatini", "gluten_cereals", Certain, kTrade},
                      TraitCase{"gnocchetti sardi", "gluten_cereals", Certain, kTrade},
                      TraitCase{"150 g Biscoff spread", "gluten_cereals", Certain, kTrade},
                      TraitCase{"8 speculoos", "gluten_cereals", Certain, kTrade},
                      TraitCase{"a pinch of asafoetida", "gluten_cereals", ByLabel, kTrade},
                      TraitCase{"1/4 tsp hing", "gluten_cereals", ByLabel, kTrade},
                      TraitCase{"2 tsp gravy granules", "gluten_cereals", ByLabel, kTrade},
                      TraitCase{"100 g crisped rice", "gluten_cereals", ByLabel, kTrade},
                      TraitCase{"4 chard leaves, charred", "fish", Not, kTrade},
                      TraitCase{"lingonberry jam", "fish", Not, kTrade}));

TEST(TraitsOfALine, AreThoseOfANameThatTheLineCutsInTwo) {
  for (const auto& trait : food_traits("coconut milk", "200 ml coconut (full-fat) milk"))
    EXPECT_NE(trait.subject, "milk");
}

TEST(Allergens, AreTheFourteenInTheirOrderAndTheNineOfTheUnitedStates) {
  // Regulation (EU) 1169/2011 Annex II; FD&C Act s. 201(qq): milk, egg, fish, crustacean shellfish, tree
  // nuts, wheat, peanuts, soybeans, sesame.
  const std::vector<std::string> ids{
      "gluten_cereals", "crustaceans", "egg",     "fish",   "peanut",    "soy",   "milk",
      "tree_nuts",      "celery",      "mustard", "sesame", "sulphites", "lupin", "molluscs"};
  ASSERT_EQ(all_allergens().size(), ids.size());
  std::size_t in_us = 0;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    EXPECT_EQ(all_allergens()[i].id, ids[i]);
    EXPECT_FALSE(all_allergens()[i].source.empty());
    in_us += all_allergens()[i].in_us ? 1U : 0U;
  }
  EXPECT_EQ(in_us, 9U);
}

TEST(Allergens, OatsBarleyAndRyeAreOnTheEuropeanListOnly) {
  for (const auto* line : {"rolled oats", "pearl barley"})
    for (const auto& trait : food_traits(line, line)) {
      EXPECT_FALSE(trait.subject == "gluten_cereals" && trait.in_us) << line;
    }
  const auto pine = food_traits("pine nuts", "pine nuts");
  ASSERT_EQ(pine.size(), 1U);
  EXPECT_TRUE(pine.front().in_us && !pine.front().in_eu) << "in US practice a tree nut, not in Annex II";
}

// Every food of a kind that is an allergen by definition.
TEST(Allergens, NoFoodOfTheTableIsMissed) {
  const auto holds_any = [](const Food& food, std::initializer_list<std::string_view> subjects) {
    const auto traits = food_traits(food.name, food.name);
    return std::any_of(traits.begin(), traits.end(), [&](const FoodTrait& trait) {
      return std::find(subjects.begin(), subjects.end(), trait.subject) != subjects.end();
    });
  };
  for (const auto& food : all_foods()) {
    const auto name = std::string(food.name);
    const bool vegan = name.find("vegan") != std::string::npos ||
                       name.find("replacer") != std::string::npos || name.find("flax") != std::string::npos;
    if (vegan) continue;
    const auto must_hold = [&](std::initializer_list<std::string_view> subjects) {
      EXPECT_TRUE(holds_any(food, subjects)) << name;
    };
    if (food.kind == FoodKind::Fish) must_hold({"fish"});
    if (food.kind == FoodKind::Seafood) must_hold({"crustaceans", "molluscs"});
    if (food.kind == FoodKind::Egg) must_hold({"egg"});
    if (food.kind == FoodKind::Cheese || food.kind == FoodKind::Dairy) must_hold({"milk"});
    if (food.kind == FoodKind::Meat || food.kind == FoodKind::Poultry) must_hold({"meat"});
    if (food.kind == FoodKind::Alcohol) must_hold({"alcohol"});
  }
}

TEST(Cautions, EachHasASentenceAndItsSource) {
  for (const auto* id :
       {"kidney_beans", "rice_cooling", "raw_egg", "raw_flour", "poultry", "wash_poultry", "ground_meat",
        "raw_fish", "garlic_oil", "honey_infant", "two_hours", "leftovers", "freezing", "thawing", "canning",
        "reheating", "whole_cuts", "fish", "leaving_out"}) {
    EXPECT_FALSE(food_caution(id).sentence.empty()) << id;
    EXPECT_FALSE(food_caution(id).source.empty()) << id;
  }
}

// The figures of the tables: USDA FSIS safe minimum temperatures, FDA Bad Bug Book, US CDC.
TEST(Cautions, SayWhatTheTablesSay) {
  const auto says = [](const char* id, const char* words) {
    return food_caution(id).sentence.find(words) != std::string_view::npos;
  };
  EXPECT_TRUE(says("poultry", "165 °F"));
  EXPECT_TRUE(says("ground_meat", "160 °F"));
  EXPECT_TRUE(says("kidney_beans", "5 hours") && says("kidney_beans", "30 minutes"));
  EXPECT_TRUE(says("two_hours", "2 hours"));
  EXPECT_TRUE(says("honey_infant", "12 months"));
  EXPECT_TRUE(says("garlic_oil", "40 °F") && says("garlic_oil", "4 days"));
  EXPECT_TRUE(says("rice_cooling", "1 hour") && says("rice_cooling", "24 hours"));
}

}  // namespace
}  // namespace panslate
