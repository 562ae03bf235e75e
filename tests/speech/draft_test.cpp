// Drafts of what nobody wrote down: the model of likely words, human speech (pocketsphinx-testdata), and
// synthetic narration whose words are known.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/speech/draft_lines.h"
#include "panslate/speech/pronouncing.h"

#include "speech/backoff_model.h"
#include "speech/narration.h"

namespace panslate {
namespace {

Sentence words_in(const std::string& text) {
  std::istringstream in(text);
  Sentence out;
  for (std::string word; in >> word;) out.push_back(word);
  return out;
}

// Probabilities and weights of an ARPA file, as its definition reads (Doug Paul's form; see ngram-format(5)
// of the field).
struct Model {
  std::map<Sentence, double> probability;
  std::map<Sentence, double> weight;

  explicit Model(const std::string& arpa) {
    std::istringstream in(arpa);
    for (std::string line; std::getline(in, line);) {
      const auto parts = split(line, '\t');
      if (parts.size() < 2) continue;
      const auto gram = words_in(parts[1]);
      probability[gram] = std::pow(10.0, std::stod(parts[0]));
      if (parts.size() > 2) weight[gram] = std::pow(10.0, std::stod(parts[2]));
    }
  }

  [[nodiscard]] double of(Sentence gram) const {
    if (const auto found = probability.find(gram); found != probability.end()) return found->second;
    if (gram.size() == 1) return 0.0;
    const Sentence history(gram.begin(), gram.end() - 1);
    const auto back = weight.find(history);
    gram.erase(gram.begin());
    return (back == weight.end() ? 1.0 : back->second) * of(gram);
  }
};

TEST(BackoffModel, GivesEachHistoryAllOfItsProbability) {
  const std::vector<Sentence> sentences{words_in("add two cups of flour"),
                                        words_in("add a cup of sugar"),
                                        words_in("two cups of sugar"),
                                        {},
                                        words_in("stir the flour and the sugar")};
  const Model model(arpa_model(sentences));
  std::vector<std::string> words;
  for (const auto& [gram, p] : model.probability)
    if (gram.size() == 1 && gram[0] != "<s>") words.push_back(gram[0]);
  EXPECT_EQ(words.size(), 12U);  // eleven words and the end
  for (const auto& history : std::vector<Sentence>{
           {}, {"<s>"}, {"of"}, {"the"}, {"cups", "of"}, {"<s>", "add"}, {"sugar", "stir"}}) {
    double sum = 0.0;
    for (const auto& word : words) {
      auto gram = history;
      gram.push_back(word);
      sum += model.of(gram);
    }
    EXPECT_NEAR(sum, 1.0, 1e-3) << join(history, " ");
  }
  EXPECT_GT(model.of({"cups", "of", "flour"}), model.of({"cups", "of", "stir"}));
}

TEST(BackoffModel, OfNothingIsNothing) {
  EXPECT_TRUE(arpa_model({}).empty());
  EXPECT_TRUE(arpa_model(std::vector<Sentence>(3)).empty());
}

std::string text_of(const std::vector<std::vector<DraftWord>>& lines) {
  std::string out;
  for (const auto& line : lines)
    for (const auto& word : line) out += (out.empty() ? "" : " ") + word.text;
  return out;
}

TEST(Transcriber, WritesDownWhatAPersonSays) {
  std::ifstream in("/usr/share/pocketsphinx/test/data/goforward.raw", std::ios::binary);
  std::vector<std::int16_t> samples;
  for (std::int16_t sample = 0; in.read(reinterpret_cast<char*>(&sample), sizeof sample);)
    samples.push_back(sample);
  if (samples.empty()) GTEST_SKIP() << "needs Debian's package pocketsphinx-testdata";
  const auto transcriber = open_transcriber({});
  ASSERT_TRUE(transcriber) << render(transcriber.error());
  NoProgress progress;
  const auto lines = draft_lines(samples, **transcriber, progress);
  ASSERT_TRUE(lines) << render(lines.error());
  EXPECT_EQ(text_of(*lines), "go forward ten meters");  // as the package's goforward.fsg has it
}

TEST(Transcriber, ExpectsWhatIsLikely) {
  auto dictionary = PronouncingDictionary::open();
  ASSERT_TRUE(dictionary);
  LikelyTalk talk;
  for (const auto* sentence : {"stir in the gochujang", "add two teaspoons of gochujang",
                               "the nigella seeds go in", "toast the nigella seeds"})
    talk.sentences.push_back(words_in(sentence));
  for (const auto& sentence : talk.sentences)
    for (const auto& word : sentence) talk.words.push_back({word, dictionary->ways(word)});
  const auto transcriber = open_transcriber(talk);
  ASSERT_TRUE(transcriber) << render(transcriber.error());
  const std::vector<testing::Said> said{{"add two teaspoons of gochujang.", {}, {}, {}},
                                        {"and toast the nigella seeds for a minute.", {}, {}, {}}};
  const auto spoken = testing::narrate(said, {testing::Speaker::Slt});
  NoProgress progress;
  const auto lines = draft_lines(spoken.samples, **transcriber, progress);
  ASSERT_TRUE(lines) << render(lines.error());
  EXPECT_EQ(text_of(*lines), "add two teaspoons of gochujang and toast the nigella seeds for a minute");
  ASSERT_EQ(lines->size(), 2U);
  // Words are where they are spoken.
  std::size_t at = 0;
  for (const auto& line : *lines)
    for (const auto& word : line) {
      const auto begin = MediaTime::from_units(word.begin, 1, kSpeechRate).value();
      EXPECT_NEAR((begin - spoken.words[at].when.begin).seconds(), 0.0, 0.1) << word.text;
      ++at;
    }
}

TEST(Transcriber, RefusesWhatIsNoPronunciation) {
  LikelyTalk talk;
  talk.sentences.push_back({"flour"});
  talk.words.push_back({"flour", {"nonsense"}});
  EXPECT_FALSE(open_transcriber(talk));
  const auto transcriber = open_transcriber({});
  ASSERT_TRUE(transcriber);
  EXPECT_FALSE((*transcriber)->transcribe(std::vector<std::int16_t>(121 * kSpeechRate)));
  EXPECT_TRUE((*transcriber)->transcribe({})->empty());
  EXPECT_EQ(open_transcriber({}, "/nowhere").error().code, ErrorCode::NotFound);
}

}  // namespace
}  // namespace panslate
