#include "panslate/deliver/check_digest.h"

#include <gtest/gtest.h>

#include "support/sample_check.h"

namespace panslate {
namespace {

TEST(CheckDigest, SortsWhatNeedsAttentionFromWhatNeedNotBe) {
  const auto digest = digest_of(testing::sample_check().report);
  ASSERT_EQ(digest.attention.size(), 2U);
  ASSERT_EQ(digest.in_order.size(), 2U);
  ASSERT_EQ(digest.not_needed.size(), 2U);
  EXPECT_EQ(digest.attention[0].written, "250 g pearl barley (1¼ cups), rinsed");
  EXPECT_EQ(digest.attention[0].said.words, "said differently");
  EXPECT_EQ(digest.attention[0].said.detail, "200 g");
  EXPECT_EQ(digest.attention[0].when, "0:12");
  EXPECT_EQ(digest.attention[1].said.words, "said without an amount");
  EXPECT_EQ(digest.attention[1].on_picture.words, "written differently");
  EXPECT_EQ(digest.attention[1].on_picture.detail, "1 tsp");
  EXPECT_EQ(digest.attention[1].when, "about 1:01");
  EXPECT_EQ(digest.summary, "2 of 6 lines need attention, 2 are as written. 1 warning to look at.");
}

TEST(CheckDigest, NamesTheClockWhereThereAreSeveral) {
  auto report = testing::sample_check().report;
  report.requirements[0].said.mentions[0].media = "voice";
  EXPECT_EQ(digest_of(report).attention[0].when, "0:12 in voice");
}

TEST(CheckDigest, NothingToDoIsSaidPlainly) {
  CheckReport report;
  report.requirements = {testing::sample_check().report.requirements[1]};
  EXPECT_EQ(digest_of(report).summary, "Nothing needs attention: 1 of 1 line is as written.");
}

}  // namespace
}  // namespace panslate
