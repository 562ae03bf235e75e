#include "panslate/base/result.h"

#include <string>

#include <gtest/gtest.h>

namespace panslate {
namespace {

const Error kError{ErrorCode::Malformed, "no unit is called 'cupp'", Place{"soup.md", 2, 5},
                   "did you mean cup?"};

TEST(Error, IsRenderedWithItsPlaceAndHint) {
  EXPECT_EQ(render(kError), "soup.md:2:5: error: no unit is called 'cupp'\n  hint: did you mean cup?");
}

TEST(Error, LeavesOutWhatIsNotKnownOfThePlace) {
  EXPECT_EQ(render({ErrorCode::Usage, "no file given"}), "error: no file given");
  EXPECT_EQ(render({ErrorCode::NotFound, "not there", Place{"a.md"}}), "a.md: error: not there");
  EXPECT_EQ(render({ErrorCode::Malformed, "odd", Place{"a.md", 3}}), "a.md:3: error: odd");
  EXPECT_EQ(render({ErrorCode::Malformed, "odd", Place{"", 3, 4}}), "error: odd");
  EXPECT_EQ(render({ErrorCode::Malformed, "odd", Place{"a.md", 0, 4}}), "a.md: error: odd");
}

TEST(Error, ShowsTheSourceLineWithACaretUnderTheColumn) {
  EXPECT_EQ(render(kError, "Soup\n200 cupp lentils\r\n"),
            "soup.md:2:5: error: no unit is called 'cupp'\n"
            "  200 cupp lentils\n"
            "      ^\n"
            "  hint: did you mean cup?");
}

TEST(Error, CaretStandsUnderTheRightLetterAfterTabs) {
  EXPECT_EQ(render({ErrorCode::Malformed, "odd", Place{"a.md", 1, 4}}, "\t1\tcupp"),
            "a.md:1:4: error: odd\n"
            "  \t1\tcupp\n"
            "  \t \t^");
}

TEST(Error, CaretCountsCharactersNotBytes) {
  EXPECT_EQ(render({ErrorCode::Malformed, "odd", Place{"a.md", 1, 7}}, "purée cupp"),
            "a.md:1:7: error: odd\n"
            "  purée cupp\n"
            "        ^");
}

TEST(Error, ALineThatIsNotThereOrTooLongIsNotShown) {
  EXPECT_EQ(render({ErrorCode::Malformed, "odd", Place{"a.md", 9, 1}}, "one line"), "a.md:9:1: error: odd");
  EXPECT_EQ(render({ErrorCode::Malformed, "odd", Place{"a.md", 1, 1}}, std::string(400, 'x')),
            "a.md:1:1: error: odd");
}

TEST(Error, AColumnPastTheLineStandsRightAfterIt) {
  EXPECT_EQ(render({ErrorCode::Malformed, "odd", Place{"a.md", 1, 2'000'000'000}}, "ab"),
            "a.md:1:2000000000: error: odd\n"
            "  ab\n"
            "    ^");
}

Status save(bool works) {
  if (!works) return fail(ErrorCode::WriteFailed, "cannot be saved", Place{"a.json"}, "free some space");
  return {};
}

Result<int> saved_twice(bool first, bool second) {
  PANSLATE_CHECK(save(first));
  PANSLATE_CHECK(save(second));
  return 2;
}

Result<int> plus_one(bool works) {
  PANSLATE_TRY(const int value, saved_twice(true, works));
  return value + 1;
}

TEST(Result, TryAndCheckHandTheErrorOnWhole) {
  EXPECT_EQ(plus_one(true).value(), 3);
  const auto failed = plus_one(false);
  ASSERT_FALSE(failed);
  EXPECT_EQ(failed.error().code, ErrorCode::WriteFailed);
  EXPECT_EQ(render(failed.error()), "a.json: error: cannot be saved\n  hint: free some space");
  EXPECT_FALSE(saved_twice(false, true));
}

}  // namespace
}  // namespace panslate
