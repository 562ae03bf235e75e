// How spoken words name the foods of a recipe.
#include "panslate/kitchen/food_names.h"

#include <chrono>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/base/text.h"

#include "kitchen/food_name_cases.h"

namespace panslate {
namespace {

std::string_view to_word(NameMatch match) {
  switch (match) {
    case NameMatch::None:
      return "none";
    case NameMatch::Category:
      return "category";
    case NameMatch::Variety:
      return "variety";
    case NameMatch::Head:
      return "head";
    case NameMatch::Regional:
      return "regional";
    case NameMatch::Synonym:
      return "synonym";
    case NameMatch::Exact:
      return "exact";
  }
  return "?";
}

// Mentions as "words=match:ingredients", other foods as "words=other", separated by "; ".
std::string found_in(const NameCase& name_case) {
  std::vector<std::string> listed;
  for (const auto& part : split(name_case.listed, '|')) listed.emplace_back(trim(part));
  std::vector<std::string> words = split(fold_accents(name_case.spoken), ' ');
  const FoodNames names(listed);
  std::vector<std::string> out;
  for (const auto& mention : names.scan(words)) {
    const auto begin = words.begin() + static_cast<std::ptrdiff_t>(mention.begin);
    std::string text = join({begin, begin + static_cast<std::ptrdiff_t>(mention.length)}, " ") + "=";
    if (mention.match == NameMatch::None)
      text += "other";
    else {
      text += std::string(to_word(mention.match)) + ":";
      for (std::size_t i = 0; i < mention.ingredients.size(); ++i)
        text += (i == 0 ? "" : "+") + listed[mention.ingredients[i]];
    }
    out.push_back(text);
  }
  return join(out, "; ");
}

TEST(FoodNames, FindsWhatWasSaid) {
  for (const auto& name_case : kNameCases)
    EXPECT_EQ(found_in(name_case), name_case.expected)
        << "listed: " << name_case.listed << "; said: " << name_case.spoken;
}

// With the whole table listed, each name anywhere in it must name its own row, and no other row as closely; a
// bare head noun ("ketchup") may stay open between rows.
TEST(FoodNames, EveryNameNamesItsOwnRow) {
  std::vector<std::string> listed;
  for (const auto& food : all_foods()) listed.emplace_back(food.name);
  const FoodNames names(listed);
  int heads = 0;
  for (std::size_t row = 0; row < all_foods().size(); ++row) {
    auto said = all_foods()[row].other_names;
    said.push_back(all_foods()[row].name);
    for (const auto name : said) {
      const auto words = split(fold_accents(name), ' ');
      const auto mention = names.find(words, 0);
      EXPECT_EQ(mention.length, words.size()) << name;
      if (mention.match == NameMatch::Head) {
        EXPECT_THAT(mention.ingredients, testing::Contains(row)) << name;
        ++heads;
        continue;
      }
      EXPECT_EQ(mention.ingredients, std::vector<std::size_t>{row}) << name;
      EXPECT_GE(mention.match, NameMatch::Synonym) << name;
    }
  }
  EXPECT_LE(heads, 30);
}

TEST(FoodNames, SeveralFitAndTheRestIsTold) {
  const FoodNames names({"pepper", "red peppers", "butter"});
  const auto mention = names.find({"some", "pepper"}, 1);
  EXPECT_EQ(mention.match, NameMatch::Exact);
  EXPECT_EQ(mention.ingredients, std::vector<std::size_t>{0});
  const auto plain = names.find({"the", "pepper"}, 1);
  EXPECT_EQ(plain.ingredients, std::vector<std::size_t>{0});
  EXPECT_EQ(plain.also, std::vector<std::size_t>{1});
}

TEST(FoodNames, TellsWhatMayBeSomethingDone) {
  const FoodNames names({"butter", "olive oil"});
  EXPECT_TRUE(names.find({"butter", "the", "dish"}, 0).perhaps_verb);
  EXPECT_TRUE(names.find({"oil", "it", "well"}, 0).perhaps_verb);
  EXPECT_FALSE(names.find({"butter", "and", "sugar"}, 0).perhaps_verb);
}

TEST(FoodNames, NothingInsideALongerName) {
  const FoodNames names({"milk", "butter beans", "butter"});
  EXPECT_EQ(names.find({"coconut", "milk"}, 1).length, 0U);
  EXPECT_EQ(names.find({"butter", "beans"}, 1).length, 0U);
  const auto other = names.find({"coconut", "milk"}, 0);
  EXPECT_EQ(other.length, 2U);
  EXPECT_EQ(other.match, NameMatch::None);
  EXPECT_TRUE(other.other_food);
  EXPECT_FALSE(names.find({"milk", "float", "machine"}, 0).other_food);
}

TEST(FoodNames, OddInputIsHarmless) {
  EXPECT_TRUE(FoodNames({}).scan({"an", "onion"}).size() == 1U);
  const FoodNames names({"", "-", ",", "salt", "(optional)", "or", "\xF0\x9F\x8C\xB6"});
  EXPECT_EQ(names.find({"salt"}, 7).length, 0U);
  EXPECT_EQ(names.find({}, 0).length, 0U);
  EXPECT_EQ(names.find({"", "salt"}, 1).ingredients, std::vector<std::size_t>{3});
  EXPECT_EQ(names.find({std::string(5000, 'x')}, 0).length, 0U);
  EXPECT_EQ(names.find({"--", "-", "'s", "salt"}, 3).ingredients, std::vector<std::size_t>{3});
}

// Ten hours of speech against a long recipe: linear, well under the 2 s that a whole check may take. The
// limit is wide, since tests run unoptimised on busy machines.
TEST(FoodNames, TenHoursOfSpeechAreQuick) {
  std::vector<std::string> listed;
  for (std::size_t i = 0; i < 60; ++i) listed.emplace_back(all_foods()[i * 11].name);
  std::vector<std::string> words;
  for (std::size_t i = 0; words.size() < 90000; ++i) {
    const auto& said = kNameCases[i % kNameCases.size()].spoken;
    for (auto& word : split(said, ' ')) words.push_back(std::move(word));
    for (const auto* word :
         {"and", "then", "we", "just", "leave", "it", "there", "for", "a", "little", "while"})
      words.emplace_back(word);
  }
  const auto begin = std::chrono::steady_clock::now();
  const FoodNames names(listed);
  const auto mentions = names.scan(words);
  const auto took = std::chrono::steady_clock::now() - begin;
  EXPECT_GT(mentions.size(), 1000U);
  EXPECT_LT(std::chrono::duration_cast<std::chrono::milliseconds>(took).count(), 5000);
  RecordProperty("milliseconds",
                 static_cast<int>(std::chrono::duration_cast<std::chrono::milliseconds>(took).count()));
}

}  // namespace
}  // namespace panslate
