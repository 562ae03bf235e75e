// The table of food words that the letter-to-sound rules get wrong, judged by the CMU pronouncing dictionary
// where it has them, and what a recipe's foods may be called.
#include "check/food_sounds.h"

#include <iostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/csv.h"
#include "panslate/base/file_system.h"

#include "support/cmu_dictionary.h"

namespace panslate {
namespace {

CsvTable food_sounds() {
  const auto text =
      read_text(real_file_system(), std::string(PANSLATE_SOURCE_DIR) + "/src/check/data/food_sounds.csv");
  return CsvTable::read(text ? *text : std::string{});
}

TEST(FoodSounds, TableIsWellFormed) {
  const auto table = food_sounds();
  ASSERT_GE(table.row_count(), 250U);
  std::string before;
  for (std::size_t r = 0; r < table.row_count(); ++r) {
    const auto& word = table.field(r, "word");
    EXPECT_FALSE(ways_of_saying(word).empty()) << word;
    EXPECT_NE(table.field(r, "source"), "") << word;
    std::string written;
    for (const auto& way : ways_of_saying(word)) {
      std::string text = to_text(way);
      written += (written.empty() ? "" : " | ") + text;
    }
    EXPECT_EQ(written, table.field(r, "sounds")) << word;
  }
}

TEST(FoodSounds, TableAgreesWithTheDictionary) {
  const testing::CmuDictionary dictionary;
  if (dictionary.empty()) GTEST_SKIP() << "pocketsphinx-en-us is not installed";
  std::size_t words = 0;
  std::size_t phones = 0;
  std::size_t ours = 0;
  std::size_t rules = 0;
  const auto table = food_sounds();
  for (std::size_t r = 0; r < table.row_count(); ++r) {
    const auto& word = table.field(r, "word");
    const auto* known = dictionary.find(word);
    if (known == nullptr) continue;
    const auto nearest = [&](const std::vector<Sounds>& ways) {
      std::size_t least = 1000;
      for (const auto& way : ways)
        for (const auto& other : *known)
          least = std::min(least, testing::phones_apart(testing::comparable(to_text(way)), other));
      return least;
    };
    ++words;
    phones += known->front().size();
    ours += nearest(ways_of_saying(word));
    rules += nearest({pronounce(word)});
  }
  const auto share = [&](std::size_t wrong) {
    return 100.0 * static_cast<double>(wrong) / static_cast<double>(phones);
  };
  std::cout << words << " words of the table are in the dictionary; of their phones " << share(ours)
            << " % are otherwise in the table, " << share(rules) << " % by the rules alone\n";
  EXPECT_GE(words, 100U);
  EXPECT_LE(share(ours), 12.0);  // British ways and the dictionary's own
}

TEST(FoodSounds, KnowsWhatAFoodMayBeCalled) {
  const std::vector<std::string> names{"red romano peppers", "fresh coriander", "olive oil"};
  const FoodNames finder(names);
  FoodSounds sounds(names, finder);
  std::vector<std::string> phrases;
  for (const auto& phrase : sounds.phrases()) {
    std::string text;
    for (const auto& word : phrase.words) text += (text.empty() ? "" : " ") + word;
    phrases.push_back(text);
  }
  const auto has = [&](const std::string& text) {
    return std::find(phrases.begin(), phrases.end(), text) != phrases.end();
  };
  for (const auto* text :
       {"red romano peppers", "red romano pepper", "peppers", "coriander", "cilantro", "olive oil", "oil"})
    EXPECT_TRUE(has(text)) << text;
  for (const auto* text : {"red", "romano", "fresh", "olive", ""}) EXPECT_FALSE(has(text)) << text;
}

}  // namespace
}  // namespace panslate
