// The table of how food and kitchen words sound, judged by the dictionary it adds to.
#include <algorithm>
#include <fstream>
#include <iostream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

#include "support/cmu_dictionary.h"

namespace panslate {
namespace {

const std::string kSource = PANSLATE_SOURCE_DIR;

struct Row {
  std::string word, phones, note;
};

std::vector<Row> rows() {
  std::ifstream in(kSource + "/src/speech/data/food_words.tsv");
  std::vector<Row> found;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line.front() == '#') continue;
    const auto cells = split(line, '\t');
    EXPECT_EQ(cells.size(), 3U) << line;
    if (cells.size() == 3) found.push_back({cells[0], cells[1], cells[2]});
  }
  return found;
}

std::map<std::string, std::set<std::string>> dictionary() {
  std::ifstream in("/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict");
  std::map<std::string, std::set<std::string>> ways;
  for (std::string line; std::getline(in, line);) {
    const auto space = line.find(' ');
    if (space != std::string::npos)
      ways[line.substr(0, line.find_first_of(" ("))].insert(line.substr(space + 1));
  }
  return ways;
}

TEST(FoodWords, AddToTheDictionaryInItsOwnPhones) {
  // The CMU dictionary's 39 phones (its file cmudict.phones).
  const std::set<std::string> phones{"AA", "AE", "AH", "AO", "AW", "AY", "B",  "CH", "D",  "DH",
                                     "EH", "ER", "EY", "F",  "G",  "HH", "IH", "IY", "JH", "K",
                                     "L",  "M",  "N",  "NG", "OW", "OY", "P",  "R",  "S",  "SH",
                                     "T",  "TH", "UH", "UW", "V",  "W",  "Y",  "Z",  "ZH"};
  ASSERT_EQ(phones.size(), 39U);
  const auto listed = dictionary();
  if (listed.empty()) GTEST_SKIP() << "pocketsphinx-en-us is not installed";
  std::set<std::string> words;
  std::set<std::pair<std::string, std::string>> seen;
  std::size_t lacking = 0;
  for (const auto& [word, way, note] : rows()) {
    EXPECT_EQ(word, fold_accents(word));
    EXPECT_TRUE(std::all_of(word.begin(), word.end(), [](char c) {
      return (c >= 'a' && c <= 'z') || c == '\'';
    })) << word;
    for (const auto& phone : split(way, ' ')) EXPECT_TRUE(phones.contains(phone)) << word << ": " << way;
    EXPECT_TRUE(seen.insert({word, way}).second) << word << ": " << way << " stands twice";
    EXPECT_FALSE(note.empty()) << word;
    const auto known = listed.find(word);
    EXPECT_TRUE(known == listed.end() || !known->second.contains(way))
        << word << " is in the dictionary: " << way;
    if (words.insert(word).second && known == listed.end()) ++lacking;
  }
  std::cout << words.size() << " words, " << lacking << " of them not in the dictionary, " << seen.size()
            << " ways\n";
  EXPECT_GE(words.size(), 500U);
  EXPECT_GE(lacking, 400U);
}

// The table by which misheard foods are found knows their stress as well; where both have a word they must
// not contradict each other.
TEST(FoodWords, AgreeWithTheSoundsOfMisheardFoods) {
  std::map<std::string, std::set<testing::Phones>> ways;
  for (const auto& [word, phones, note] : rows()) ways[word].insert(testing::comparable(phones));
  const auto listed = dictionary();
  std::ifstream in(kSource + "/src/check/data/food_sounds.csv");
  std::size_t compared = 0;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    const auto cells = split(line, ',');
    ASSERT_GE(cells.size(), 2U) << line;
    auto& known = ways[cells[0]];
    if (const auto found = listed.find(cells[0]); found != listed.end())
      for (const auto& way : found->second) known.insert(testing::comparable(way));
    for (const auto& way : split(cells[1], '|')) {
      EXPECT_TRUE(known.contains(testing::comparable(way))) << line;
      ++compared;
    }
  }
  EXPECT_GT(compared, 300U);
}

}  // namespace
}  // namespace panslate
