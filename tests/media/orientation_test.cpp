#include "media/orientation.h"

#include <ostream>
#include <string>

#include <gtest/gtest.h>

extern "C" {
#include <libavutil/rational.h>
}

namespace panslate::av {
namespace {

constexpr std::int32_t kOne = 65536;  // 16.16

struct Matrix {
  std::string name;
  std::int32_t a, b, c, d;
  int rotation;
  bool mirrored;
  bool odd;
};

void PrintTo(const Matrix& matrix, std::ostream* out) {
  *out << matrix.name;
}

class OrientationOf : public testing::TestWithParam<Matrix> {};

TEST_P(OrientationOf, AMatrix) {
  const auto& m = GetParam();
  const std::int32_t numbers[9] = {m.a, m.b, 0, m.c, m.d, 0, 0, 0, 1 << 30};
  const auto found = orientation_of(numbers);
  EXPECT_EQ(found.rotation, m.rotation);
  EXPECT_EQ(found.mirrored, m.mirrored);
  EXPECT_EQ(found.odd, m.odd);
}

// ISO/IEC 14496-12, 6.2.2: a point (p, q), q downwards, is shown at (a·p + c·q, b·p + d·q). By hand: with a
// quarter turn clockwise the stored top edge (p grows) runs down the right side (shown y grows), so b = 1 and
// c = -1.
INSTANTIATE_TEST_SUITE_P(
    All, OrientationOf,
    testing::Values(Matrix{"upright", kOne, 0, 0, kOne, 0, false, false},
                    Matrix{"quarter", 0, kOne, -kOne, 0, 90, false, false},
                    Matrix{"half", -kOne, 0, 0, -kOne, 180, false, false},
                    Matrix{"three_quarters", 0, -kOne, kOne, 0, 270, false, false},
                    Matrix{"mirror", -kOne, 0, 0, kOne, 0, true, false},
                    Matrix{"upside_down_mirror", kOne, 0, 0, -kOne, 180, true, false},
                    // turned a quarter clockwise, then mirrored: (p, q) → (-q, p) → (q, p)
                    Matrix{"quarter_then_mirror", 0, kOne, kOne, 0, 90, true, false},
                    Matrix{"scaled_quarter", 0, 3 * kOne, -2 * kOne, 0, 90, false, false},
                    Matrix{"ten_degrees", 64540, 11380, -11380, 64540, 0, false, true},
                    Matrix{"nothing", 0, 0, 0, 0, 0, false, false},
                    Matrix{"flat", kOne, kOne, kOne, kOne, 0, false, false}),
    [](const auto& test) { return test.param.name; });

struct Size {
  int width, height, num, den, rotation;
  int shown_width, shown_height;
  bool odd;
};

class ShownSizeOf : public testing::TestWithParam<Size> {};

TEST_P(ShownSizeOf, APicture) {
  const auto& s = GetParam();
  const auto shown = shown_size(s.width, s.height, AVRational{s.num, s.den}, s.rotation);
  EXPECT_EQ(shown.width, s.shown_width);
  EXPECT_EQ(shown.height, s.shown_height);
  EXPECT_EQ(shown.odd_pixel, s.odd);
}

INSTANTIATE_TEST_SUITE_P(All, ShownSizeOf,
                         testing::Values(Size{1920, 1080, 1, 1, 90, 1080, 1920, false},
                                         Size{720, 576, 16, 15, 0, 768, 576, false},    // 720 × 16/15
                                         Size{1440, 1080, 4, 3, 0, 1920, 1080, false},  // HDV
                                         Size{640, 480, 0, 1, 0, 640, 480, false},      // unknown
                                         Size{640, 480, 100, 1, 0, 640, 480, true},
                                         Size{640, 480, 1, 1'000'000, 0, 640, 480, true}));

}  // namespace
}  // namespace panslate::av
