#include "media/frame_timing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

namespace panslate::av {

namespace {

// Rates that cameras, phones and screen recorders are set to.
constexpr std::array kUsualRates{
    FrameRate{24000, 1001}, FrameRate{24, 1},        FrameRate{25, 1},        FrameRate{30000, 1001},
    FrameRate{30, 1},       FrameRate{48, 1},        FrameRate{50, 1},        FrameRate{60, 1},
    FrameRate{60000, 1001}, FrameRate{48000, 1001},  FrameRate{100, 1},       FrameRate{120, 1},
    FrameRate{240, 1},      FrameRate{120000, 1001}, FrameRate{240000, 1001}, FrameRate{1, 1},
    FrameRate{5, 1},        FrameRate{6, 1},         FrameRate{10, 1},        FrameRate{12, 1},
    FrameRate{25, 2},       FrameRate{15, 1},        FrameRate{15000, 1001},  FrameRate{16, 1},
    FrameRate{18, 1},       FrameRate{20, 1},        FrameRate{90, 1},        FrameRate{2, 1},
};

// A rounded stamp is off by less than one unit either way; the hair is for the arithmetic.
constexpr double kRounding = 1.0 + 1e-6;
constexpr double kJitter = 0.1;
// Where a gap is only a few units long, one unit is no rounding but a different picture length.
constexpr std::int64_t kFewUnits = 4;

// How far the stamps stray from an even grid of `gap` units, highest minus lowest.
double straying(const std::vector<std::int64_t>& stamps, double gap) {
  double low = 0;
  double high = 0;
  for (std::size_t k = 1; k < stamps.size(); ++k) {
    const double off = static_cast<double>(stamps[k] - stamps[0]) - static_cast<double>(k) * gap;
    low = std::min(low, off);
    high = std::max(high, off);
  }
  return high - low;
}

FrameRate reduced(std::int64_t num, std::int64_t den) {
  const std::int64_t divisor = std::gcd(num, den);
  num /= divisor;
  den /= divisor;
  // A rate that needs more digits than this comes from rounded stamps; the last digits say nothing.
  while (num > 10'000'000 || den > 10'000'000) {
    num = (num + 5) / 10;
    den = (den + 5) / 10;
  }
  return {static_cast<std::int32_t>(std::max<std::int64_t>(num, 1)),
          static_cast<std::int32_t>(std::max<std::int64_t>(den, 1))};
}

bool contains(const std::vector<FrameRate>& rates, FrameRate rate) {
  return std::any_of(rates.begin(), rates.end(), [&](FrameRate r) {
    return std::int64_t{r.num} * rate.den == std::int64_t{rate.num} * r.den;
  });
}

}  // namespace

std::optional<FrameTiming> measure_timing(std::vector<std::int64_t> stamps, std::int64_t num,
                                          std::int64_t den, const std::vector<FrameRate>& declared) {
  std::sort(stamps.begin(), stamps.end());
  stamps.erase(std::unique(stamps.begin(), stamps.end()), stamps.end());
  if (stamps.size() < 2 || num <= 0 || den <= 0) return std::nullopt;
  const auto count = static_cast<std::int64_t>(stamps.size()) - 1;
  const std::int64_t span = stamps.back() - stamps.front();

  std::vector<std::int64_t> gaps(stamps.size());
  std::adjacent_difference(stamps.begin(), stamps.end(), gaps.begin());
  gaps.erase(gaps.begin());
  std::sort(gaps.begin(), gaps.end());
  const std::int64_t shortest = gaps.front();
  const std::int64_t longest = gaps.back();
  const std::int64_t usual = gaps[gaps.size() / 2];

  const double unit = static_cast<double>(num) / static_cast<double>(den);
  std::int64_t rate_num = 0;
  std::int64_t rate_den = 0;
  const bool fits =
      !__builtin_mul_overflow(count, den, &rate_num) && !__builtin_mul_overflow(span, num, &rate_den);
  const FrameRate average = fits ? reduced(rate_num, rate_den) : FrameRate{1, 1};

  std::int64_t exact_den = 0;
  if (shortest == longest && !__builtin_mul_overflow(shortest, num, &exact_den)) {
    // Every gap is the same number of units: exact, unless a short clip hides the rounding.
    const FrameRate exact = reduced(den, exact_den);
    if (contains({kUsualRates.begin(), kUsualRates.end()}, exact) || contains(declared, exact) || count > 30)
      return FrameTiming{exact, false};
  }
  const double average_gap = static_cast<double>(span) / static_cast<double>(count);
  const double grid = straying(stamps, average_gap);
  const double allowed = std::max(usual > kFewUnits ? kRounding : 0.0, kJitter * static_cast<double>(usual));
  const bool even = static_cast<double>(longest - usual) <= allowed &&
                    static_cast<double>(usual - shortest) <= allowed &&
                    grid <= std::max(2 * kRounding, 0.5 * average_gap);
  if (!even) return FrameTiming{average, true};

  const FrameRate* best = nullptr;
  double best_straying = std::numeric_limits<double>::max();
  for (const FrameRate& rate : kUsualRates) {
    const double stray = straying(stamps, 1.0 / (unit * rate.per_second()));
    // Within the rounding all are equally good; there the header decides.
    const double score = stray <= kRounding && contains(declared, rate) ? 0.0 : stray;
    if (score < best_straying) {
      best_straying = score;
      best = &rate;
    }
  }
  if (best != nullptr && best_straying <= 1.5 * grid + kRounding) return FrameTiming{*best, false};
  return FrameTiming{average, false};
}

}  // namespace panslate::av
