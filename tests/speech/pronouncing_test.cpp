#include "panslate/speech/pronouncing.h"

#include <algorithm>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "speech/phones.h"

namespace panslate {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;

class Pronouncing : public testing::Test {
 protected:
  void SetUp() override {
    auto opened = PronouncingDictionary::open();
    ASSERT_TRUE(opened) << render(opened.error());
    dictionary = std::move(*opened);
  }
  PronouncingDictionary dictionary = PronouncingDictionary::open().value();
};

TEST_F(Pronouncing, KnowsTheWaysOfTheDictionary) {
  // cmudict-en-us.dict, lines "either" and "either(2)"; the way without r is Britain's
  EXPECT_THAT(dictionary.ways("Either"), ElementsAre("IY DH ER", "AY DH ER", "IY DH AH", "AY DH AH"));
  EXPECT_THAT(dictionary.ways("'bout"), ElementsAre("B AW T"));
  EXPECT_THAT(dictionary.ways("don\u2019t"), Contains("D OW N T"));
  EXPECT_TRUE(dictionary.knows("zyuganov"));
}

TEST_F(Pronouncing, KnowsFoodInBothWays) {
  EXPECT_THAT(dictionary.ways("basil"), Contains("B AE Z AH L"));
  EXPECT_THAT(dictionary.ways("basil"), Contains("B EY Z AH L"));
  EXPECT_THAT(dictionary.ways("Jalape\u00f1o"), Contains("HH AA L AH P EY N Y OW"));
  EXPECT_TRUE(dictionary.knows("gochujang"));
}

TEST_F(Pronouncing, GuessesTheRestByItsSpelling) {
  EXPECT_FALSE(dictionary.knows("blorptang"));
  ASSERT_FALSE(dictionary.ways("blorptang").empty());
  EXPECT_TRUE(are_phones(dictionary.ways("blorptang").front()));
  EXPECT_THAT(dictionary.ways("tempeh's"), Contains("T EH M P EY Z"));
  for (const auto* const word : {"", "'", "123", "\u0431\u043e\u0440\u0449", "\u2014"})
    EXPECT_THAT(dictionary.ways(word), testing::Each(testing::Truly(are_phones))) << word;
  EXPECT_THAT(dictionary.ways("123"), IsEmpty());
  EXPECT_LE(dictionary.ways(std::string(10'000'000, 'a')).size(), 8U);
}

TEST_F(Pronouncing, LearnsHerOwnWords) {
  EXPECT_FALSE(dictionary.knows("blorptang"));
  const auto added = dictionary.add_own_words(
      "# how we say it\nblorptang  blorp tang\n\nb\u00e4ckeoffe  bake off a # Alsace\n", "words.txt");
  ASSERT_TRUE(added);
  EXPECT_EQ(*added, 2U);
  EXPECT_TRUE(dictionary.knows("blorptang"));
  EXPECT_THAT(dictionary.ways("Baeckeoffe"), testing::Not(Contains("B EY K AO F AH")));
  EXPECT_THAT(dictionary.ways("B\u00e4ckeoffe"), Contains("B EY K AO F AH"));
}

TEST_F(Pronouncing, SaysWhatIsWrongWithHerOwnWords) {
  const auto added =
      dictionary.add_own_words("tempeh\n\u0431\u043e\u0440\u0449 borsht\nfoo bar 7\n", "words.txt");
  ASSERT_FALSE(added);
  ASSERT_EQ(added.error().size(), 3U);
  EXPECT_EQ(render(added.error()[0]),
            "words.txt:1:1: error: this does not say how 'tempeh' sounds\n"
            "  hint: write a word and English words that sound like it: gochujang  go choo jang");
  EXPECT_EQ(added.error()[1].message, "'\u0431\u043e\u0440\u0449' has no letter that can be said");
  EXPECT_EQ(added.error()[2].message, "'7' has no sound in English");
  EXPECT_FALSE(dictionary.add_own_words(std::string(2'000'000, 'a'), "words.txt"));
}

TEST(Phones, ChangeAsInBritainAndInThePlural) {
  EXPECT_EQ(without_final_r("B AH T ER"), "B AH T AH");
  EXPECT_EQ(without_final_r("F AO R K"), "F AO K");
  EXPECT_EQ(without_final_r("R EH D"), "R EH D");
  EXPECT_EQ(without_final_r("V EH R IY"), "V EH R IY");
  EXPECT_EQ(with_plural("D IH SH"), "D IH SH IH Z");
  EXPECT_EQ(with_plural("K AH P"), "K AH P S");
  EXPECT_EQ(with_plural("EH G"), "EH G Z");
  EXPECT_FALSE(are_phones("W  IH"));
  EXPECT_FALSE(are_phones("w ih"));
  EXPECT_FALSE(are_phones("W "));
}

TEST(PronouncingModel, ThatIsMissingIsNamed) {
  const auto opened = PronouncingDictionary::open("/nowhere");
  ASSERT_FALSE(opened);
  EXPECT_EQ(opened.error().code, ErrorCode::NotFound);
}

}  // namespace
}  // namespace panslate
