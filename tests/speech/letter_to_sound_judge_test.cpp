// How words sound, judged by the CMU pronouncing dictionary, which a recogniser uses.
#include <filesystem>
#include <fstream>
#include <iostream>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/speech/pronunciation.h"

#include "support/cmu_dictionary.h"

namespace panslate {
namespace {

// Every word of the table of foods that the dictionary has.
std::set<std::string> kitchen_words() {
  std::ifstream in(std::filesystem::path(PANSLATE_SOURCE_DIR) / "src/kitchen/data/foods.csv");
  std::set<std::string> words;
  for (std::string line; std::getline(in, line);) {
    std::string word;
    for (const char c : fold_accents(line) + " ") {
      if (c >= 'a' && c <= 'z') {
        word += c;
        continue;
      }
      if (word.size() > 2) words.insert(word);
      word.clear();
    }
  }
  return words;
}

TEST(LetterToSound, AgreesWithTheDictionaryOnKitchenWords) {
  const testing::CmuDictionary dictionary;
  if (dictionary.empty()) GTEST_SKIP() << "pocketsphinx-en-us is not installed";
  std::size_t words = 0;
  std::size_t phones = 0;
  std::size_t wrong = 0;
  std::size_t words_right = 0;
  for (const auto& word : kitchen_words()) {
    const auto* ways = dictionary.find(word);
    if (ways == nullptr) continue;
    const auto said = testing::comparable(to_text(pronounce(word)));
    std::size_t least = said.size() + ways->front().size();
    for (const auto& way : *ways) least = std::min(least, testing::phones_apart(said, way));
    ++words;
    words_right += least == 0 ? 1 : 0;
    phones += ways->front().size();
    wrong += least;
  }
  const double error = static_cast<double>(wrong) / static_cast<double>(phones);
  std::cout << words << " words, " << words_right << " as the dictionary has them; " << 100 * error
            << " % of the phones otherwise\n";
  EXPECT_GE(words, 1000U);
  EXPECT_LE(error, 0.03);
}

}  // namespace
}  // namespace panslate
