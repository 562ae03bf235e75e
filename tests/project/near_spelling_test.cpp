#include "project/near_spelling.h"

#include <gtest/gtest.h>

namespace panslate {
namespace {

TEST(NearSpelling, CountsChangesOfOneCharacterAndSwaps) {
  struct Case {
    std::string a, b;
    std::size_t distance;
  };
  const Case cases[] = {
      {"", "", 0},
      {"", "abc", 3},
      {"pan", "pan", 0},
      {"pan", "Pan", 0},
      {"pan", "pna", 1},
      {"camra", "camera", 1},
      {"stpe", "step", 1},
      {"purée", "puree", 0},
      {"kitten", "sitting", 3},  // the classic example of Levenshtein's distance
      {"flour", "flower", 2},
      {"a", "b", 1},
  };
  for (const auto& [a, b, distance] : cases) {
    EXPECT_EQ(spelling_distance(a, b), distance) << a << " " << b;
    EXPECT_EQ(spelling_distance(b, a), distance) << b << " " << a;
  }
  EXPECT_EQ(spelling_distance(std::string(1000, 'x'), std::string(1000, 'y')), 64U);
}

TEST(NearSpelling, OffersOnlyWhatCanBeASlip) {
  const std::vector<std::string> words{"camera", "narration", "edit"};
  EXPECT_EQ(nearest_spelling("camra", words), "camera");
  EXPECT_EQ(nearest_spelling("EDIT", words), "edit");
  EXPECT_EQ(nearest_spelling("naration", words), "narration");
  EXPECT_EQ(nearest_spelling("drone", words), std::nullopt);
  EXPECT_EQ(nearest_spelling("", words), std::nullopt);
  EXPECT_EQ(nearest_spelling("camera", {}), std::nullopt);
  EXPECT_EQ(nearest_spelling("pan-3", {"pan-1", "pan-2"}), "pan-1") << "the first of equals";
}

}  // namespace
}  // namespace panslate
