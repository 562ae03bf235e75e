// The food table and the words around it. Trade facts: common practice, no source, unless told.
#include "panslate/kitchen/food.h"

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

std::vector<std::string_view> names_of(const Food& food) {
  auto names = food.other_names;
  names.insert(names.begin(), food.name);
  return names;
}

// Lines of the file itself, so that a row the reader would drop is seen.
std::vector<std::vector<std::string>> file_rows() {
  std::ifstream in(fs::path(PANSLATE_SOURCE_DIR) / "src/kitchen/data/foods.csv");
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(in, line);) rows.push_back(split(line, ','));
  return rows;
}

TEST(Foods, EveryRowIsWhole) {
  const auto rows = file_rows();
  ASSERT_GE(rows.size(), 651U);
  ASSERT_EQ(rows.size() - 1, all_foods().size());
  std::set<std::string> names;
  for (std::size_t i = 1; i < rows.size(); ++i) names.insert(rows[i][0]);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto& row = rows[i];
    ASSERT_EQ(row.size(), 7U) << row[0];
    EXPECT_FALSE(row[0].empty()) << "line " << i + 1;
    EXPECT_FALSE(row[5].empty()) << row[0] << " has no source";
    for (const auto& kind : split(row[2], '|'))
      EXPECT_TRUE(food_kind_from_spelling(kind)) << row[0] << ": " << kind;
    EXPECT_TRUE(row[3].empty() || names.contains(row[3])) << row[0] << " is under " << row[3];
    EXPECT_EQ(all_foods()[i - 1].broader.has_value(), !row[3].empty()) << row[0];
    const auto meant = row[4].empty() ? 0U : split(row[4], '|').size();
    EXPECT_EQ(all_foods()[i - 1].may_mean.size(), meant) << row[0];
  }
}

TEST(Foods, NoNameStandsInTwoRows) {
  std::map<std::string, std::string> row_of_name;
  for (const auto& food : all_foods())
    for (const auto name : names_of(food)) {
      std::string key;
      for (const auto& word : split(fold_accents(name), ' '))
        for (const auto& part : split(word, '-')) key += name_stem(part) + " ";
      const auto [it, added] = row_of_name.emplace(key, food.name);
      EXPECT_TRUE(added) << name << " stands in " << it->second << " and " << food.name;
    }
}

TEST(Foods, EachNameFindsItsRow) {
  for (const auto& food : all_foods())
    for (const auto name : names_of(food)) {
      const auto* found = find_food(name);
      ASSERT_NE(found, nullptr) << name;
      EXPECT_EQ(found->name, food.name) << name;
    }
}

TEST(Foods, NamesAcrossKitchens) {
  const std::vector<std::pair<std::string, std::string>> same{
      {"eggplant", "aubergine"},
      {"Cilantro", "coriander"},
      {"scallions", "spring onion"},
      {"rutabaga", "swede"},
      {"arugula", "rocket"},
      {"confectioners' sugar", "icing sugar"},
      {"superfine sugar", "caster sugar"},
      {"baking soda", "bicarbonate of soda"},
      {"bicarb", "bicarbonate of soda"},
      {"heavy cream", "double cream"},
      {"shrimp", "prawn"},
      {"ground beef", "beef mince"},
      {"all-purpose flour", "plain flour"},
      {"garbanzo beans", "chickpea"},
      {"fava beans", "broad bean"},
      {"golden raisins", "sultana"},
      {"canola oil", "rapeseed oil"},
      {"besan", "gram flour"},
      {"hing", "asafoetida"},
      {"bok choy", "pak choi"},
      {"spuds", "potato"},
      {"toms", "tomato"},
      {"marge", "margarine"},
      {"EVOO", "olive oil"},
      {"parm", "parmesan"},
      {"capsicums", "bell pepper"},
      {"beets", "beetroot"},
      {"soy milk", "soya milk"},
      {"nooch", "nutritional yeast"},
      {"zucchini", "courgette"},
      {"whole-wheat flour", "wholemeal flour"},
      {"self-rising flour", "self-raising flour"},
      {"finely chopped fresh flat-leaf parsley", "parsley"},
      {"large free-range eggs", "egg"},
      {"edam cheese", "edam"},
      {"garlic cloves", "garlic"},
      {"corn starch", "cornstarch"},
      {"kaffir lime leaves", "makrut lime leaf"},
      {"jeera", "cumin"},
      {"haldi", "turmeric"},
      {"methi", "fenugreek leaves"},
      {"burghul", "bulgur"},
      {"linseed", "flaxseed"},
      {"hundreds and thousands", "sprinkles"},
      {"mange tout", "mangetout"}};
  for (const auto& [name, row] : same) {
    const auto names = synonyms_of(name);
    ASSERT_FALSE(names.empty()) << name;
    EXPECT_EQ(names.front(), row) << name;
  }
  for (const auto* unknown : {"", "thermometer", "camel milk", "the", "moon dust"})
    EXPECT_TRUE(synonyms_of(unknown).empty()) << unknown;
}

// Names that look alike and are not the same: a wrong match is worse than none.
TEST(Foods, KeptApart) {
  const std::vector<std::pair<std::string, std::string>> apart{{"treacle", "molasses"},
                                                               {"cornflour", "cornstarch"},
                                                               {"cornflour", "maize flour"},
                                                               {"baking powder", "baking soda"},
                                                               {"tomato purée", "tomato paste"},
                                                               {"chilli powder", "cayenne"},
                                                               {"cider", "apple juice"},
                                                               {"biscuit", "cookie"},
                                                               {"turnip", "swede"},
                                                               {"cannellini beans", "haricot beans"},
                                                               {"green lentils", "brown lentils"},
                                                               {"paprika", "smoked paprika"},
                                                               {"soy sauce", "tamari"},
                                                               {"raisins", "sultanas"},
                                                               {"mince", "mincemeat"},
                                                               {"coconut milk", "coconut cream"},
                                                               {"oatmeal", "oats"},
                                                               {"polenta", "cornmeal"},
                                                               {"ghee", "butter"},
                                                               {"Greek yogurt", "natural yogurt"},
                                                               {"potato flour", "potato starch"},
                                                               {"rice vinegar", "rice wine"},
                                                               {"ground coriander", "coriander"},
                                                               {"ground ginger", "ginger"},
                                                               {"dried yeast", "fresh yeast"},
                                                               {"single cream", "double cream"},
                                                               {"stock cube", "stock"},
                                                               {"shallot", "spring onion"},
                                                               {"gherkin", "pickle"}};
  for (const auto& [one, other] : apart) {
    const auto* first = find_food(one);
    const auto* second = find_food(other);
    ASSERT_NE(first, nullptr) << one;
    ASSERT_NE(second, nullptr) << other;
    EXPECT_NE(first, second) << one << " and " << other;
  }
  EXPECT_EQ(find_food("cornflour")->note,
            "in Britain and Australia the starch; in the United States fine maize meal");
}

TEST(Foods, ModifiersThatMakeAnotherFood) {
  using Pair = std::pair<std::string_view, std::string_view>;
  for (const auto& [modifier, head] : std::vector<Pair>{{"coconut", "milk"},
                                                        {"butter", "beans"},
                                                        {"peanut", "butter"},
                                                        {"sweet", "potatoes"},
                                                        {"black", "beans"},
                                                        {"green", "beans"},
                                                        {"chilli", "oil"},
                                                        {"ginger", "beer"},
                                                        {"corn", "syrup"},
                                                        {"parsnip", "powder"},
                                                        {"coconut", "water"},
                                                        {"garlic", "powder"},
                                                        {"baking", "powder"},
                                                        {"rose", "water"}})
    EXPECT_TRUE(makes_another_food(modifier, head)) << modifier << " " << head;
  // A kind of the food that the head noun names.
  for (const auto& [modifier, head] : std::vector<Pair>{{"red", "onion"},
                                                        {"plain", "flour"},
                                                        {"olive", "oil"},
                                                        {"fresh", "thyme"},
                                                        {"cherry", "tomatoes"},
                                                        {"whole", "milk"},
                                                        {"basmati", "rice"},
                                                        {"rice", "vinegar"},
                                                        {"vegetable", "stock"},
                                                        {"hot", "water"},
                                                        {"", "milk"},
                                                        {"coconut", ""}})
    EXPECT_FALSE(makes_another_food(modifier, head)) << modifier << " " << head;
}

TEST(Foods, Stems) {
  const std::vector<std::pair<std::string_view, std::string_view>> agree{
      {"onions", "onion"},       {"tomatoes", "tomato"}, {"leaves", "leaf"},     {"bayleaves", "bayleaf"},
      {"anchovies", "anchovy"},  {"loaves", "loaf"},     {"radishes", "radish"}, {"cherries", "cherry"},
      {"dumplings", "dumpling"}, {"baker's", "bakers"},  {"halves", "half"},     {"chillies", "chilli"},
      {"pastes", "paste"}};
  for (const auto& [one, other] : agree) EXPECT_EQ(name_stem(one), name_stem(other)) << one;
  const std::vector<std::pair<std::string_view, std::string_view>> differ{
      {"salted", "salt"},        {"oiling", "oil"},    {"past", "paste"},   {"fry", "fries"},
      {"sprinkle", "sprinkles"}, {"organ", "organic"}, {"green", "greens"}, {"buttered", "butter"},
      {"pure", "puree"},         {"crisp", "crisps"}};
  for (const auto& [one, other] : differ) EXPECT_NE(name_stem(one), name_stem(other)) << one;
  EXPECT_EQ(stem("onions"), stem("onion"));
  EXPECT_EQ(stem(""), "");
  EXPECT_EQ(stem(std::string(1000, 's')), std::string(1000, 's'));
}

TEST(Foods, StemsFromManyThreads) {
  std::vector<std::thread> threads;
  std::vector<int> wrong(4, 0);
  for (std::size_t t = 0; t < wrong.size(); ++t)
    threads.emplace_back([t, &wrong] {
      for (int i = 0; i < 2000; ++i)
        if (name_stem("aubergines") != "aubergin" || stem("potatoes") != "potato" || !is_food_word("leeks"))
          ++wrong[t];
    });
  for (auto& thread : threads) thread.join();
  EXPECT_EQ(wrong, std::vector<int>(4, 0));
}

TEST(Foods, DescriptorsSayNothingOfWhichFood) {
  for (const auto* word :
       {"fresh", "large", "finely", "organic", "chopped", "dried", "tinned", "softened", "ripe", "skinless"})
    EXPECT_TRUE(is_descriptor(word)) << word;
  for (const auto* word : {"onion", "coconut", "vegan", "red", "brown", "sweet", "baking", "self", "the"})
    EXPECT_FALSE(is_descriptor(word)) << word;
}

TEST(Foods, FormsOfFoods) {
  EXPECT_EQ(form_of("canned"), FoodForm::Tinned);
  EXPECT_EQ(form_of("tinned"), FoodForm::Tinned);
  EXPECT_EQ(form_of("dehydrated"), FoodForm::Dried);
  EXPECT_EQ(form_of("ground"), FoodForm::Ground);
  EXPECT_EQ(form_of("frozen"), FoodForm::Frozen);
  EXPECT_EQ(form_of("leftover"), FoodForm::Cooked);
  EXPECT_EQ(form_of("chopped"), std::nullopt);
  EXPECT_EQ(form_of(""), std::nullopt);

  struct FormCase {
    FoodForm form;
    std::string_view food;
    bool another;
  };
  for (const auto& [form, food, another] : std::vector<FormCase>{
           {FoodForm::Dried, "apricots", true},        {FoodForm::Dried, "dried apricots", true},
           {FoodForm::Dried, "oregano", true},         {FoodForm::Dried, "pasta", false},
           {FoodForm::Dried, "lentils", false},        {FoodForm::Tinned, "tomatoes", true},
           {FoodForm::Tinned, "chickpeas", true},      {FoodForm::Pickled, "ginger", true},
           {FoodForm::Cooked, "rice", true},           {FoodForm::Ground, "almonds", true},
           {FoodForm::Ground, "ground almonds", true}, {FoodForm::Ground, "cumin", false},
           {FoodForm::Ground, "black pepper", false},  {FoodForm::Ground, "beef", true},
           {FoodForm::Frozen, "peas", false},          {FoodForm::Fresh, "thyme", false},
           {FoodForm::Toasted, "sesame seeds", false}, {FoodForm::Smoked, "salmon", true},
           {FoodForm::Powdered, "sugar", false},       {FoodForm::Powdered, "milk", true},
           {FoodForm::Candied, "ginger", true},        {FoodForm::Dried, "moon dust", true}})
    EXPECT_EQ(form_makes_another_food(form, food), another) << food;
}

TEST(Foods, FoodWordsAndOrdinaryWords) {
  for (const auto* word :
       {"onions", "leek", "noodles", "beans", "flour", "tahini", "halloumi", "aubergines", "stock"})
    EXPECT_TRUE(is_food_word(word)) << word;
  for (const auto* word : {"the", "oven", "minutes", "soup", "fritters", "cake", "salad", "spoon", "leaves",
                           "fresh", "chop", "fry"})
    EXPECT_FALSE(is_food_word(word)) << word;
  for (const auto* word : {"date", "dates", "turkey", "mint", "cream", "oil", "butter", "season", "dressing",
                           "salt", "roll", "port"})
    EXPECT_TRUE(is_ambiguous_word(word)) << word;
  for (const auto* word : {"aubergine", "halloumi", "tahini", "quinoa", "chickpeas", "parmesan"})
    EXPECT_FALSE(is_ambiguous_word(word)) << word;
}

TEST(Foods, LengthOfAFoodsName) {
  struct LengthCase {
    std::string words;
    std::size_t at;
    std::size_t length;
  };
  for (const auto& [text, at, length] : std::vector<LengthCase>{{"coconut milk", 0, 2},
                                                                {"add the coconut milk now", 2, 2},
                                                                {"bicarbonate of soda", 0, 3},
                                                                {"aubergine", 0, 1},
                                                                {"egg plant", 0, 2},
                                                                {"self-raising flour", 0, 2},
                                                                {"half-and-half", 0, 1},
                                                                {"50 grams of butter", 3, 1},
                                                                {"in mint condition", 1, 0},
                                                                {"what a nice date", 3, 1},
                                                                {"to date we", 1, 0},
                                                                {"butter the dish", 0, 0},
                                                                {"oil the tin", 0, 0},
                                                                {"the egg timer", 1, 0},
                                                                {"dressing room", 0, 0},
                                                                {"we season it", 1, 0},
                                                                {"nothing here", 0, 0},
                                                                {"turkey is a country", 0, 0},
                                                                {"200 g turkey", 2, 1},
                                                                {"onion , red", 0, 1},
                                                                {"coconut , milk", 0, 1},
                                                                {"", 0, 0},
                                                                {"leek", 1, 0}}) {
    EXPECT_EQ(food_name_length(split(text, ' '), at), length) << text;
  }
}

// FOOD_DES.txt of the USDA National Nutrient Database SR28: the first part of a description is the food.
TEST(Foods, MostFoodsOfALargeTableAreKnown) {
  std::ifstream in(fs::path(PANSLATE_SOURCE_DIR) / "../shared/media/usda/FOOD_DES.txt");
  if (!in) GTEST_SKIP() << "the food table of the USDA is not here";
  std::set<std::string> names, known;
  for (std::string line; std::getline(in, line);) {
    const auto fields = split(to_utf8(line), '^');
    if (fields.size() < 3) continue;
    auto name = split(fields[2], ',').front();
    std::erase(name, '~');
    if (find_food(name) != nullptr) known.insert(name);
    names.insert(std::move(name));
  }
  RecordProperty("known", static_cast<int>(known.size()));
  EXPECT_GE(names.size(), 1000U);
  EXPECT_GE(known.size(), 400U) << "of " << names.size();
}

std::vector<std::string> quoted_fields(const std::string& line) {
  std::vector<std::string> fields{""};
  bool quoted = false;
  for (const char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      fields.emplace_back();
    else
      fields.back().push_back(c);
  }
  return fields;
}

// Every food by which an allergen is found must be known as a food.
TEST(Foods, AllergenFoodsAreKnown) {
  std::ifstream in(fs::path(PANSLATE_SOURCE_DIR) / "../shared/reference/allergens.csv");
  if (!in) GTEST_SKIP() << "the allergen table is not here";
  const std::set<std::string> no_foods{"detection_keywords", "sulphite", "sulfite", "metabisulphite",
                                       "E220-E228"};
  std::size_t count = 0;
  for (std::string line; std::getline(in, line);) {
    const auto fields = quoted_fields(line);
    ASSERT_GT(fields.size(), 4U);
    for (auto keyword : split(fields[4], '|')) {
      keyword = keyword.substr(0, keyword.find(" ("));
      if (no_foods.contains(keyword)) continue;
      ++count;
      EXPECT_TRUE(find_food(keyword) != nullptr || is_food_word(fold_accents(keyword))) << keyword;
    }
  }
  EXPECT_GE(count, 130U);
}

}  // namespace
}  // namespace panslate
