// Numbers against ICU's spellout (RBNF) of every integer from 0 to 2000, in both of its English forms.
#include <memory>
#include <string>

#include <gtest/gtest.h>
#include <unicode/locid.h>
#include <unicode/rbnf.h>
#include <unicode/unistr.h>

#include "panslate/kitchen/amount_scan.h"

namespace panslate {
namespace {

std::string spelled(const icu::RuleBasedNumberFormat& format, int number, const char* rules) {
  UErrorCode status = U_ZERO_ERROR;
  icu::UnicodeString text;
  icu::FieldPosition position;
  format.format(number, icu::UnicodeString(rules), text, position, status);
  EXPECT_TRUE(U_SUCCESS(status));
  std::string out;
  text.toUTF8String(out);
  return out;
}

class Spellout : public ::testing::TestWithParam<const char*> {};

TEST_P(Spellout, ComesBack) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::RuleBasedNumberFormat format(icu::URBNF_SPELLOUT, icu::Locale("en"), status);
  ASSERT_TRUE(U_SUCCESS(status));
  for (int number = 0; number <= 2000; ++number) {
    auto text = spelled(format, number, GetParam());
    std::string spaced = text;
    for (char& c : spaced)
      if (c == '-') c = ' ';
    for (const auto& form : {text, spaced}) {
      const auto tokens = tokenize(form + " grams");
      const auto found = scan_number(tokens, 0);
      ASSERT_TRUE(found) << form;
      EXPECT_EQ(found->value, Ratio(number)) << form;
      EXPECT_FALSE(found->to) << form;
      EXPECT_EQ(found->end + 1, tokens.size()) << form;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Icu, Spellout,
                         ::testing::Values("%spellout-cardinal", "%spellout-cardinal-verbose"));

struct Case {
  const char *text, *value;
};

class Numbers : public ::testing::TestWithParam<Case> {};

TEST_P(Numbers, AreReadExactly) {
  const auto tokens = tokenize(GetParam().text);
  const auto found = scan_number(tokens, 0);
  ASSERT_TRUE(found) << GetParam().text;
  const auto value = found->value.to_string() + (found->to ? ".." + found->to->to_string() : "");
  EXPECT_EQ(value, GetParam().value) << GetParam().text;
  EXPECT_EQ(found->end, tokens.size()) << GetParam().text;
}

// Teens against tens, settings without "hundred", and the ways of writing a figure: hand counts.
INSTANTIATE_TEST_SUITE_P(
    Hand, Numbers,
    ::testing::Values(
        Case{"thirteen", "13"}, Case{"thirty", "30"}, Case{"fourteen", "14"}, Case{"forty", "40"},
        Case{"fifteen", "15"}, Case{"fifty", "50"}, Case{"sixteen", "16"}, Case{"sixty", "60"},
        Case{"seventeen", "17"}, Case{"seventy", "70"}, Case{"eighteen", "18"}, Case{"eighty", "80"},
        Case{"nineteen", "19"}, Case{"ninety", "90"}, Case{"one fifteen", "115"}, Case{"one fifty", "150"},
        Case{"one eighty", "180"}, Case{"three fifty", "350"}, Case{"three seventy-five", "375"},
        Case{"two oh five", "205"}, Case{"twelve hundred", "1200"}, Case{"a hundred and eighty", "180"},
        Case{"hundred and twenty five", "125"}, Case{"two point five", "5/2"}, Case{"point five", "1/2"},
        Case{"nought point two five", "1/4"}, Case{"one point oh five", "21/20"}, Case{"1,5", "3/2"},
        Case{"1,000", "1000"}, Case{"1,250", "1250"}, Case{"12,500", "12500"}, Case{"0,125", "1/8"},
        Case{"1.000", "1"}, Case{"1/2", "1/2"}, Case{"½", "1/2"}, Case{"1½", "3/2"}, Case{"1 ½", "3/2"},
        Case{"1 1/2", "3/2"}, Case{"1⁄2", "1/2"}, Case{"1 & 1/2", "3/2"}, Case{"1 and 1/2", "3/2"},
        Case{"1-1/2", "3/2"}, Case{"¹⁄₃", "1/3"}, Case{"one and a half", "3/2"},
        Case{"three quarters", "3/4"}, Case{"two thirds", "2/3"}, Case{"two and three quarters", "11/4"},
        Case{"half a dozen", "6"}, Case{"a couple", "2"}, Case{"two dozen", "24"}, Case{"2-3", "2..3"},
        Case{"2–3", "2..3"}, Case{"2 or 3", "2..3"}, Case{"½–1", "1/2..1"}, Case{"two to three", "2..3"},
        Case{"between two and three", "2..3"}, Case{"one to one and a half", "1..3/2"},
        Case{"a million", "1000000"}, Case{"two hundred and fifty thousand", "250000"}));

}  // namespace
}  // namespace panslate
