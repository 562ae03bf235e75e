// Which of several things was said at one place of a line.
#include "panslate/speech/listen_again.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

#include "speech/narration.h"

namespace panslate {
namespace {

Sayings phrases(const std::vector<std::string>& texts) {
  std::vector<std::vector<std::string>> words;
  for (const auto& text : texts) words.push_back(split(text, ' '));
  return sayings_of(words);
}

class ListenAgain : public ::testing::Test {
 protected:
  void SetUp() override {
    auto recogniser = open_recogniser();
    auto dictionary = PronouncingDictionary::open();
    if (!recogniser || !dictionary) GTEST_SKIP() << "pocketsphinx-en-us is not installed";
    recogniser_ = *std::move(recogniser);
    dictionary_ = *std::move(dictionary);
  }

  static std::vector<std::int16_t> sound(const std::string& text) {
    const std::vector<std::string> lines{text};
    return testing::narrate(testing::read_out(lines), {testing::Speaker::Kal16}, {0, 0.25, 1}).samples;
  }

  std::unique_ptr<Recogniser> recogniser_;
  std::optional<PronouncingDictionary> dictionary_;
};

TEST_F(ListenAgain, TellsTheScriptFromWhatWasSaid) {
  const std::vector<Sayings> line{phrases({"stir"}), phrases({"in"}), phrases({"two cups"}), phrases({"of"}),
                                  phrases({"flour"})};
  const auto otherwise = phrases({"three cups", "two spoons", "ten cups"});
  for (const std::string said : {"two cups", "three cups", "two spoons"}) {
    const auto samples = sound("stir in " + said + " of flour");
    const auto script = hear_line(*recogniser_, *dictionary_, samples, line);
    ASSERT_TRUE(script);
    const auto again = listen_again(*recogniser_, *dictionary_, samples, line, 2, otherwise, *script);
    ASSERT_TRUE(again);
    EXPECT_TRUE(again->script.complete);
    EXPECT_TRUE(again->otherwise.complete);
    EXPECT_TRUE(again->plausible);
    EXPECT_EQ(text_of(again->script.pieces[2]), "two cups");
    // Human speech fits the model at 2.6 to 4.1, this voice about as well.
    EXPECT_GT(again->misfit, 1);
    EXPECT_LT(again->misfit, 5);
    if (said == "two cups") {
      EXPECT_GT(again->ratio, 20);
    } else {
      EXPECT_LT(again->ratio, -20);
      EXPECT_EQ(text_of(again->otherwise.pieces[2]), said);
      const auto& words = again->otherwise.pieces[2].words;
      EXPECT_GT(words.front().begin, kSpeechRate / 4);
      EXPECT_LT(words.back().end, std::ssize(samples) - kSpeechRate / 4);
      EXPECT_EQ(words.front().end, words.back().begin);
    }
  }
}

// "a day" would stretch over "eight minutes", or leave half of it to silence.
TEST_F(ListenAgain, PassesOverWordsTheSoundCannotHold) {
  const std::vector<Sayings> line{phrases({"simmer"}), phrases({"it"}),
                                  phrases({"for"}),    phrases({"seven hundred and fifty minutes"}),
                                  phrases({"at"}),     phrases({"least"})};
  const auto samples = sound("simmer it for seven hundred and fifty minutes at least");
  const auto script = hear_line(*recogniser_, *dictionary_, samples, line);
  ASSERT_TRUE(script);
  const auto again = listen_again(*recogniser_, *dictionary_, samples, line, 3, phrases({"a day"}), *script);
  ASSERT_TRUE(again);
  EXPECT_FALSE(again->plausible && again->ratio < 0);
}

TEST_F(ListenAgain, NamesTheWordNobodyCanPronounce) {
  const std::vector<Sayings> line{phrases({"stir"}), phrases({"42"})};
  const auto heard = hear_line(*recogniser_, *dictionary_, sound("stir"), line);
  ASSERT_FALSE(heard);
  EXPECT_EQ(heard.error().code, ErrorCode::Malformed);
  EXPECT_EQ(heard.error().message, "it is not known how '42' sounds");
}

TEST(Sayings, ShareWhatTheyBeginWith) {
  Sayings sayings;
  sayings.add_phrase(Sayings::kStart, Sayings::kEnd, std::vector<std::string>{"two", "hundred", "grams"});
  sayings.add_phrase(Sayings::kStart, Sayings::kEnd, std::vector<std::string>{"two", "hundred", "mils"});
  sayings.add_phrase(Sayings::kStart, Sayings::kEnd, std::vector<std::string>{});
  EXPECT_EQ(sayings.nodes(), 4U);
  EXPECT_EQ(sayings.arcs().size(), 5U);
  sayings.leave_out("grams");
  EXPECT_EQ(sayings.arcs().size(), 4U);
}

}  // namespace
}  // namespace panslate
