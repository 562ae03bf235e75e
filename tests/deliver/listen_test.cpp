// What was heard, as JSON, in words, as a page, and as it is kept for the next run.
#include <memory>
#include <string>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/deliver/listen_json.h"
#include "panslate/deliver/listen_page.h"
#include "panslate/deliver/listen_words.h"
#include "panslate/deliver/listening_record.h"

#include "support/golden.h"
#include "support/page_checks.h"
#include "support/sample_check.h"

namespace panslate {
namespace {

using testing::ms_range;

ClipToHear sample_clip() {
  ClipToHear clip;
  clip.file = "footage/voice 1.wav";
  clip.duration = MediaTime::from_ms(65'250);
  clip.script = std::make_shared<const std::vector<ScriptLine>>(
      script_to_hear({{1, "Pour in 600 ml of oat drink.", {}},
                      {2, "Let it stand for fifteen minutes.", {}},
                      {4, "Scatter the seeds over <b>all</b>.", {}}}));
  return clip;
}

Listening sample_listening() {
  const auto clip = sample_clip();
  Listening heard;
  heard.file = clip.file;
  heard.duration = clip.duration;
  heard.status = ListenStatus::Aligned;
  heard.snr_db = 24.14;
  heard.lines = {{1,
                  "Pour in 600 ml of oat drink.",
                  {{ms_range(1'000, 1'900), false, false, ""},
                   {ms_range(3'000, 5'200), true, true, "the last whole take"}}},
                 {2, "Let it stand for fifteen minutes.", {{ms_range(61'000, 63'500), true, true, ""}}},
                 {4, "Scatter the seeds over <b>all</b>.", {}}};
  heard.words = {{1, "pour", ms_range(1'000, 1'300), MediaTime::from_ms(20)},
                 {1, "pour", ms_range(3'000, 3'310), MediaTime::from_ms(20)},
                 {1, "in", ms_range(3'310, 3'500), MediaTime::from_ms(20)},
                 {2, "let", ms_range(61'000, 61'200), MediaTime::from_ms(120)}};
  const auto amount = [&](int line, TimeRange when, std::size_t script_line, std::string heard_text,
                          Heeded verdict, double ratio, std::string why) {
    ListenedAmount one;
    one.line = line;
    one.when = when;
    one.script = amounts_to_hear((*clip.script)[script_line].text).at(0).amount;
    one.heard = amount_in_words(heard_text, one.script);
    one.heard_text = std::move(heard_text);
    one.verdict = verdict;
    one.ratio = ratio;
    one.why = std::move(why);
    return one;
  };
  heard.amounts = {
      amount(1, ms_range(3'500, 4'400), 0, "seven hundred millilitres", Heeded::Differs, -212.04, ""),
      amount(2, ms_range(62'000, 63'000), 1, "fifty minutes", Heeded::Unsure, -3.2,
             "the sound does not settle it")};
  heard.other_speech = {ms_range(40'100, 43'000)};
  for (int i = 0; i < 1305; ++i) heard.peaks.push_back(static_cast<std::uint8_t>(i % 200));
  return heard;
}

TEST(ListenJson, Golden) {
  testing::expect_golden("listen.json", listen_json({sample_listening()}));
}

TEST(ListenJson, OfAClipThatFailedHasItsReasonAndEveryLine) {
  Listening failed;
  failed.file = "a.wav";
  failed.reason = "nobody speaks in it";
  failed.lines = {{3, "Stir.", {}}};
  const auto json = listen_json({failed});
  EXPECT_NE(json.find("\"status\": \"failed\""), std::string::npos);
  EXPECT_NE(json.find("\"reason\": \"nobody speaks in it\""), std::string::npos);
  EXPECT_NE(json.find("\"snr_db\": null"), std::string::npos);
  EXPECT_NE(json.find("\"takes\": []"), std::string::npos);
  EXPECT_TRUE(failed.wants_attention());
}

TEST(ListenWords, SayWhatToDo) {
  const auto heard = sample_listening();
  EXPECT_EQ(listening_summary(heard),
            "2 of 3 lines are spoken. 1 amount is said otherwise. 1 amount must be listened to.");
  EXPECT_EQ(listened_amount_words(heard, heard.amounts[0]),
            "heard “seven hundred millilitres”, the script has 600 ml (line 1)");
  EXPECT_EQ(listened_amount_words(heard, heard.amounts[1]),
            "perhaps “fifty minutes”, the script has 15 min (line 2): the sound does not settle it");
  EXPECT_EQ(take_words(heard.lines[0].takes[1]), "whole, the one to use: the last whole take");
}

TEST(ListeningRecord, IsReadAsItWasWritten) {
  const auto heard = sample_listening();
  const auto record = listening_record(heard, "tahini  tuh hee nee");
  const auto read = listening_from(record, sample_clip(), "tahini  tuh hee nee");
  ASSERT_TRUE(read);
  EXPECT_EQ(listen_json({*read}), listen_json({heard}));
  EXPECT_EQ(read->peaks, heard.peaks);
  EXPECT_TRUE(listening_from(record, sample_clip(), std::nullopt));
  EXPECT_FALSE(listening_from(record, sample_clip(), "other words"));
  auto longer = sample_clip();
  longer.duration += MediaTime::from_ms(1);
  EXPECT_FALSE(listening_from(record, longer, std::nullopt));
  auto shorter = sample_clip();
  shorter.script = std::make_shared<const std::vector<ScriptLine>>(
      std::vector<ScriptLine>(shorter.script->begin(), shorter.script->begin() + 2));
  EXPECT_FALSE(listening_from(record, shorter, std::nullopt));
}

TEST(ListeningRecord, DamagedIsNone) {
  auto heard = sample_listening();
  heard.peaks.resize(3);
  const auto record = listening_record(heard, "");
  for (std::size_t length = 0; length < record.size() - 2; length += 7)
    EXPECT_FALSE(listening_from(record.substr(0, length), sample_clip(), std::nullopt)) << length;
  // Another value in the place of any number: a record or none, and never more than the script holds.
  for (std::size_t at = 0; at < record.size(); ++at) {
    if (record[at] < '0' || record[at] > '9') continue;
    for (const char* other : {"-1", "99999999999999999999", "null", "\"\"", "[]"}) {
      auto bent = record;
      bent.replace(at, 1, other);
      const auto read = listening_from(bent, sample_clip(), std::nullopt);
      if (!read) continue;
      for (const auto& word : read->words) EXPECT_LE(word.when.begin, word.when.end);
      for (const auto& one : read->amounts) {
        EXPECT_LE(one.when.begin, one.when.end);
        EXPECT_TRUE(one.line == 1 || one.line == 2) << one.line;
        EXPECT_EQ(one.script, heard.amounts[static_cast<std::size_t>(one.line) - 1].script);
      }
    }
    at += 11;
  }
}

TEST(ListenPage, Golden) {
  const std::vector<Listening> clips{sample_listening()};
  auto page = testing::without_style(listen_page({clips, "results"}));
  const auto begin = page.find("<path d=\"");
  ASSERT_NE(begin, std::string::npos);
  page.erase(begin, page.find("\"/>", begin) - begin);
  testing::expect_golden("listen.html", page);
}

TEST(ListenPage, HoldsTextAndNoMarkupOfOthers) {
  auto heard = sample_listening();
  const std::string hostile = "</script><script>alert(1)</script>\"'><img src=x onerror=alert(1)>{{css}}";
  heard.file = "a/" + hostile + ".mp4";
  heard.reason = hostile;
  heard.status = ListenStatus::Partly;
  heard.lines[0].text = hostile;
  heard.lines[0].takes[0].why = hostile;
  heard.words[1].text = hostile;
  heard.amounts[0].heard_text = hostile;
  heard.amounts[1].why = hostile;
  const std::vector<Listening> clips{heard, sample_listening()};
  const auto page = listen_page({clips, ""});
  EXPECT_EQ(page.find("<script>alert"), std::string::npos);
  EXPECT_EQ(page.find("<img"), std::string::npos);
  EXPECT_NE(page.find("&lt;script&gt;alert(1)"), std::string::npos);
  EXPECT_EQ(testing::has_tidy() ? testing::tidy_verdict(page) : "", "");
}

TEST(ListenPage, IsSoundHtml) {
  if (!testing::has_tidy()) GTEST_SKIP() << "no tidy here";
  const std::vector<Listening> clips{sample_listening()};
  EXPECT_EQ(testing::tidy_verdict(listen_page({clips, ""})), "");
}

// An hour of sound and nine thousand words: the page stays one that opens.
TEST(ListenPage, OfAnHourStaysLight) {
  auto heard = sample_listening();
  heard.duration = MediaTime::from_seconds(3600);
  heard.peaks.assign(3600 * 20, 90);
  for (int i = 0; i < 9000; ++i)
    heard.words.push_back({1, "word", ms_range(3'000 + i % 2000, 3'001 + i % 2000), MediaTime::from_ms(20)});
  const std::vector<Listening> clips{heard};
  EXPECT_LT(listen_page({clips, ""}).size(), 3'000'000U);
}

}  // namespace
}  // namespace panslate
