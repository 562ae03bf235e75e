#include "check/amount_reading.h"

#include <gtest/gtest.h>

#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/token.h"

namespace panslate {
namespace {

Amount amount_of(const std::string& text) {
  const auto tokens = tokenize(text);
  const auto scan = scan_amount(tokens, 0, SpokenOrWritten::Spoken);
  EXPECT_TRUE(scan) << text;
  return scan ? scan->amount : Amount{};
}

struct Part {
  std::string text;
  bool more = false;
  bool total = false;
  bool share = false;
  bool repeated = false;
  bool corrects = false;
};

struct ReadingCase {
  std::string written;
  std::vector<Part> said;
  Verdict verdict;
  std::string source;
};

class ReadAmounts : public testing::TestWithParam<ReadingCase> {};

// The rules are those of the check report: what adds up, what is told again, what comes on top.
TEST_P(ReadAmounts, GivesTheVerdict) {
  const auto& [written, parts, verdict, source] = GetParam();
  static const std::vector<Amount> kNone;
  std::vector<Amount> amounts;
  for (const auto& part : parts) amounts.push_back(amount_of(part.text));
  std::vector<SaidAmount> said;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    SaidAmount s;
    s.amount = &amounts[i];
    s.alternates = &kNone;
    s.is_more = parts[i].more;
    s.is_total = parts[i].total;
    s.is_share = parts[i].share;
    s.repeated = parts[i].repeated;
    s.corrects = parts[i].corrects;
    said.push_back(s);
  }
  const auto reading = read_amounts(said, {amount_of(written)}, Measures::Metric, "red lentils");
  EXPECT_EQ(spelling_of(reading.verdict), spelling_of(verdict)) << source;
}

INSTANTIATE_TEST_SUITE_P(
    Rules, ReadAmounts,
    testing::Values(
        ReadingCase{"160 g", {{"160 grams"}}, Verdict::Match, "same unit, same value"},
        ReadingCase{"160 g", {{"150 grams"}}, Verdict::Differs, "same unit, another value"},
        ReadingCase{"160 g", {{"120 grams"}, {"40 grams", true}}, Verdict::Match, "several goes add up"},
        ReadingCase{
            "160 g", {{"120 grams"}, {"50 grams", true}}, Verdict::Differs, "the goes give another sum"},
        ReadingCase{
            "160 g", {{"160 grams"}, {"20 grams", true}}, Verdict::Match, "what comes on top is an extra"},
        ReadingCase{"160 g", {{"160 grams"}, {"160 grams"}}, Verdict::Match, "told again is not added"},
        ReadingCase{"160 g", {{"80 grams"}, {"80 grams"}}, Verdict::Match, "two halves add up"},
        ReadingCase{"160 g",
                    {{"80 grams"}, {"80 grams", false, false, false, true}},
                    Verdict::Differs,
                    "a line spoken again is not added"},
        ReadingCase{
            "160 g", {{"160 grams"}, {"200 grams"}}, Verdict::Unsure, "another amount stands against it"},
        ReadingCase{"160 g",
                    {{"200 grams"}, {"160 grams", false, false, false, false, true}},
                    Verdict::Match,
                    "the correction holds"},
        ReadingCase{"160 g",
                    {{"160 grams"}, {"200 grams", false, false, false, false, true}},
                    Verdict::Differs,
                    "the correction holds"},
        ReadingCase{"160 g",
                    {{"100 grams"}, {"60 grams"}, {"160 grams", false, true}},
                    Verdict::Match,
                    "a retold total is not added"},
        ReadingCase{"160 g",
                    {{"160 grams"}, {"half of it", false, false, true}},
                    Verdict::Match,
                    "a share is no amount"},
        ReadingCase{
            "160 g", {{"half of it", false, false, true}}, Verdict::NoAmount, "shares alone are no amount"},
        ReadingCase{
            "160 g", {{"a pinch"}}, Verdict::NoAmount, "a little is no amount where a number is written"},
        ReadingCase{"160 g",
                    {{"160 grams"}, {"100 grams"}},
                    Verdict::Unsure,
                    "a smaller amount that is not told as a part contradicts"},
        ReadingCase{"160 g",
                    {{"160 grams"}, {"100 grams"}, {"60 grams"}},
                    Verdict::Match,
                    "the parts give the whole told before"},
        ReadingCase{"160 g",
                    {{"160 grams"}, {"100 grams"}, {"half of it", false, false, true}},
                    Verdict::Match,
                    "a share tells that parts are used"},
        ReadingCase{"1 kg", {{"a kilo"}}, Verdict::Match, "the same unit in words"},
        ReadingCase{"1 kg", {{"1000 grams"}}, Verdict::Match, "another unit of the kind"},
        ReadingCase{"a pinch", {}, Verdict::Match, "a little: naming it is enough"}));

}  // namespace
}  // namespace panslate
