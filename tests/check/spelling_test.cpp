// Slips of the keys. Distances by hand (optimal string alignment: a swap of neighbours is one).
#include "check/spelling.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace panslate {
namespace {

TEST(Spelling, CountsTheLettersApart) {
  struct Case {
    std::string a, b;
    std::size_t apart;
  };
  for (const auto& [a, b, apart] : std::vector<Case>{{"", "", 0},
                                                     {"leek", "", 4},
                                                     {"thyme", "thyme", 0},
                                                     {"thyme", "tyhme", 1},
                                                     {"cinnamon", "cinammon", 2},
                                                     {"quinoa", "quinona", 1},
                                                     {"flour", "flower", 2}}) {
    EXPECT_EQ(letters_apart(a, b), apart) << a << " " << b;
    EXPECT_EQ(letters_apart(b, a), apart) << b << " " << a;
  }
}

TEST(Spelling, TakesASlipForTheWordOnlyWhereTheWordIsLong) {
  EXPECT_TRUE(is_misspelt("tumeric", "turmeric"));
  EXPECT_TRUE(is_misspelt("corriandar", "coriander"));
  EXPECT_FALSE(is_misspelt("leak", "leek"));           // too short to tell
  EXPECT_FALSE(is_misspelt("uturmeric", "turmeric"));  // the first letter is seldom missed
  EXPECT_FALSE(is_misspelt("turmoil", "turmeric"));
}

TEST(Spelling, KnowsWhatIsMadeFromAFood) {
  for (const auto* made : {"peppery", "peppered"}) EXPECT_TRUE(is_made_from(made, "pepper")) << made;
  EXPECT_TRUE(is_made_from("nutty", "nuts"));
  EXPECT_TRUE(is_made_from("spicy", "spice"));
  EXPECT_FALSE(is_made_from("pepperoni", "pepper"));
  EXPECT_FALSE(is_made_from("oil", "oil"));
}

}  // namespace
}  // namespace panslate
