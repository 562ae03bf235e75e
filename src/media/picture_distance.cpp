#include "media/picture_distance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

namespace panslate::av {

namespace {

using Luma = std::array<std::uint8_t, kPictureCells>;

constexpr int kBlockWide = 8;
constexpr int kBlockHigh = 6;
constexpr int kBlocksAcross = kWide / kBlockWide;
constexpr int kBlocksDown = kHigh / kBlockHigh;
constexpr int kBlocks = kBlocksAcross * kBlocksDown;
constexpr int kReachAcross = 13;
constexpr int kReachDown = 9;
// Motions that several parts of a picture share.
constexpr int kSharedMotions = 4;
constexpr float kFlat = 3.0F;

struct Vector {
  int x = 0;
  int y = 0;
};

int sum_of_differences(const Luma& a, const Luma& b, int ax, int ay, int bx, int by) {
  int sum = 0;
  for (int y = 0; y < kBlockHigh; ++y) {
    const auto* pa = a.data() + static_cast<std::ptrdiff_t>(ay + y) * kWide + ax;
    const auto* pb = b.data() + static_cast<std::ptrdiff_t>(by + y) * kWide + bx;
    for (int x = 0; x < kBlockWide; ++x) sum += std::abs(static_cast<int>(pa[x]) - static_cast<int>(pb[x]));
  }
  return sum;
}

// `a` at the exposure of `b`.
Luma exposed_as(const SmallPicture& a, const SmallPicture& b) {
  const float gain = a.spread < kFlat ? 1.0F : std::clamp(b.spread / a.spread, 0.4F, 2.5F);
  std::array<std::uint8_t, 256> curve{};
  for (int i = 0; i < 256; ++i)
    curve.at(static_cast<std::size_t>(i)) = static_cast<std::uint8_t>(
        std::clamp((static_cast<float>(i) - a.mean) * gain + b.mean + 0.5F, 0.0F, 255.0F));
  Luma out;
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = curve[a.luma[i]];
  return out;
}

class Matching {
 public:
  Matching(const Luma& a, const Luma& b) : a_(a), b_(b) {
    for (int block = 0; block < kBlocks; ++block) search(block);
    choose_shared();
  }

  // Mean difference where every part follows one of the shared motions, or stays.
  [[nodiscard]] float residual() const {
    std::int64_t sum = 0;
    for (int block = 0; block < kBlocks; ++block) {
      int best = at(block, {0, 0});
      for (const auto& motion : shared_)
        for (int dy = -1; dy <= 1; ++dy)
          for (int dx = -1; dx <= 1; ++dx) best = std::min(best, at(block, {motion.x + dx, motion.y + dy}));
      sum += best;
    }
    return static_cast<float>(sum) / static_cast<float>(kWide * kHigh);
  }

 private:
  // What leaves the picture matches nothing.
  [[nodiscard]] int at(int block, Vector motion) const {
    const int bx = block % kBlocksAcross * kBlockWide;
    const int by = block / kBlocksAcross * kBlockHigh;
    const int ax = std::clamp(bx + motion.x, 0, kWide - kBlockWide);
    const int ay = std::clamp(by + motion.y, 0, kHigh - kBlockHigh);
    return sum_of_differences(a_, b_, ax, ay, bx, by);
  }

  void search(int block) {
    const int bx = block % kBlocksAcross * kBlockWide;
    const int by = block / kBlocksAcross * kBlockHigh;
    int best = at(block, {0, 0});
    Vector found;
    for (int y = std::max(-kReachDown, -by); y <= std::min(kReachDown, kHigh - kBlockHigh - by); ++y)
      for (int x = std::max(-kReachAcross, -bx); x <= std::min(kReachAcross, kWide - kBlockWide - bx); ++x) {
        const int sum = sum_of_differences(a_, b_, bx + x, by + y, bx, by);
        if (sum < best) {
          best = sum;
          found = {x, y};
        }
      }
    found_.at(static_cast<std::size_t>(block)) = found;
  }

  // The motions that most parts found for themselves, near ones counted together.
  void choose_shared() {
    std::array<bool, kBlocks> used{};
    for (auto& motion : shared_) {
      int most = 0;
      std::size_t which = 0;
      const auto near = [&](std::size_t i, std::size_t j) {
        return !used.at(j) && std::abs(found_.at(i).x - found_.at(j).x) <= 1 &&
               std::abs(found_.at(i).y - found_.at(j).y) <= 1;
      };
      for (std::size_t i = 0; i < kBlocks; ++i) {
        if (used.at(i)) continue;
        int count = 0;
        for (std::size_t j = 0; j < kBlocks; ++j) count += near(i, j) ? 1 : 0;
        if (count > most) {
          most = count;
          which = i;
        }
      }
      if (most < 3) return;
      motion = found_.at(which);
      for (std::size_t j = 0; j < kBlocks; ++j)
        if (near(which, j)) used.at(j) = true;
    }
  }

  const Luma& a_;
  const Luma& b_;
  std::array<Vector, kBlocks> found_{};
  std::array<Vector, kSharedMotions> shared_{};
};

// Shares of the picture by grey and by hue, softly: a value counts for the two bins next to it.
using Histogram = std::array<float, 16 + 64>;

Histogram histogram_of(const SmallPicture& picture) {
  Histogram out{};
  constexpr float kCell = 1.0F / (kWide * kHigh);
  for (const auto value : picture.luma) {
    const float place = static_cast<float>(value) * 15.0F / 255.0F;
    const auto bin = static_cast<std::size_t>(place);
    const float rest = place - static_cast<float>(bin);
    out.at(bin) += kCell * (1 - rest);
    out.at(std::min<std::size_t>(bin + 1, 15)) += kCell * rest;
  }
  constexpr float kPatch = 4.0F / (kWide * kHigh);
  for (std::size_t i = 0; i < picture.cb.size(); ++i) {
    // Most hues lie near the middle: finer bins there.
    const float u = std::clamp((static_cast<float>(picture.cb[i]) - 128.0F) / 10.0F + 3.5F, 0.0F, 6.999F);
    const float v = std::clamp((static_cast<float>(picture.cr[i]) - 128.0F) / 10.0F + 3.5F, 0.0F, 6.999F);
    const auto iu = static_cast<std::size_t>(u);
    const auto iv = static_cast<std::size_t>(v);
    const float ru = u - static_cast<float>(iu);
    const float rv = v - static_cast<float>(iv);
    out.at(16 + iv * 8 + iu) += kPatch * (1 - ru) * (1 - rv);
    out.at(16 + iv * 8 + iu + 1) += kPatch * ru * (1 - rv);
    out.at(16 + (iv + 1) * 8 + iu) += kPatch * (1 - ru) * rv;
    out.at(16 + (iv + 1) * 8 + iu + 1) += kPatch * ru * rv;
  }
  return out;
}

}  // namespace

float still_distance(const SmallPicture& a, const SmallPicture& b) {
  int sum = 0;
  for (std::size_t i = 0; i < a.luma.size(); ++i)
    sum += std::abs(static_cast<int>(a.luma[i]) - static_cast<int>(b.luma[i]));
  return static_cast<float>(sum) / static_cast<float>(a.luma.size());
}

float moved_distance(const SmallPicture& a, const SmallPicture& b) {
  // Two flat pictures are alike but for their grey, which an exposure may change.
  if (a.spread < kFlat && b.spread < kFlat) return std::min(1.0F, std::abs(a.mean - b.mean) / 128.0F);
  if (a.spread < kFlat || b.spread < kFlat) return 1.0F;
  const Luma exposed = exposed_as(a, b);
  const float residual = Matching(exposed, b.luma).residual();
  // Unrelated pictures differ by about 1.13 standard deviations on average, and by half of it where every
  // part may look for its like.
  return std::min(2.0F, residual / (0.55F * std::max(b.spread, 6.0F)));
}

float colour_distance(const SmallPicture& a, const SmallPicture& b) {
  const auto ha = histogram_of(a);
  const auto hb = histogram_of(b);
  float sum = 0;
  for (std::size_t i = 0; i < ha.size(); ++i) sum += std::abs(ha[i] - hb[i]);
  return sum / 4;
}

float likeness_in_place(const SmallPicture& a, const SmallPicture& b) {
  if (a.spread < 1.0F || b.spread < 1.0F) return 0;
  double sum = 0;
  for (std::size_t i = 0; i < a.luma.size(); ++i)
    sum += (static_cast<double>(a.luma[i]) - a.mean) * (static_cast<double>(b.luma[i]) - b.mean);
  return static_cast<float>(sum / static_cast<double>(a.luma.size()) / (a.spread * b.spread));
}

}  // namespace panslate::av
