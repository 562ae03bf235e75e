#include "project/same_moment.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <complex>
#include <cstdint>
#include <cstdlib>
#include <numbers>

namespace panslate {

namespace {

using Complex = std::complex<double>;

// Levels of an hour: what is longer is compared by its first hour.
constexpr std::size_t kMostLevels = 360'000;
// In hundredths of a second. Common practice, no source.
constexpr std::size_t kLeastOverlap = 300;
constexpr std::int64_t kOneMoment = 3;
constexpr double kLeastCorrelation = 0.5;
constexpr double kLeastStandingOut = 1.35;

void transform(std::vector<Complex>& data, bool back) {
  const std::size_t size = data.size();
  for (std::size_t i = 1, j = 0; i < size; ++i) {
    std::size_t bit = size >> 1U;
    for (; (j & bit) != 0; bit >>= 1U) j ^= bit;
    j ^= bit;
    if (i < j) std::swap(data[i], data[j]);
  }
  for (std::size_t length = 2; length <= size; length <<= 1U) {
    const double angle = 2 * std::numbers::pi / static_cast<double>(length) * (back ? 1 : -1);
    const Complex turn(std::cos(angle), std::sin(angle));
    for (std::size_t i = 0; i < size; i += length) {
      Complex w(1);
      for (std::size_t k = 0; k < length / 2; ++k) {
        const auto a = data[i + k];
        const auto b = data[i + k + length / 2] * w;
        data[i + k] = a + b;
        data[i + k + length / 2] = a - b;
        w *= turn;
      }
    }
  }
}

// How the sound rises and falls: levels less what is usual around them, so that distance and gain do not
// count.
std::vector<double> movement(std::string_view levels) {
  const auto size = std::min(levels.size(), kMostLevels);
  std::vector<double> sum(size + 1);
  const auto level = [&](std::size_t i) {
    return static_cast<double>(std::max<int>(100, static_cast<std::uint8_t>(levels[i])));
  };
  for (std::size_t i = 0; i < size; ++i) sum[i + 1] = sum[i] + level(i);
  std::vector<double> out(size);
  constexpr std::size_t kAround = 50;
  for (std::size_t i = 0; i < size; ++i) {
    const auto from = i > kAround ? i - kAround : 0;
    const auto to = std::min(size, i + kAround + 1);
    out[i] = std::clamp(level(i) - (sum[to] - sum[from]) / static_cast<double>(to - from), -24.0, 24.0);
  }
  return out;
}

// Of `b` laid `lag` after the start of `a`, over what both have; 0 where that is too little.
double correlation_at(const std::vector<double>& a, const std::vector<double>& b, std::int64_t lag) {
  const auto from = std::max<std::int64_t>(0, lag);
  const auto to = std::min(static_cast<std::int64_t>(a.size()), lag + static_cast<std::int64_t>(b.size()));
  if (to - from < static_cast<std::int64_t>(kLeastOverlap)) return 0;
  double product = 0;
  double power_a = 1e-9;
  double power_b = 1e-9;
  for (auto i = from; i < to; ++i) {
    const double x = a[static_cast<std::size_t>(i)];
    const double y = b[static_cast<std::size_t>(i - lag)];
    product += x * y;
    power_a += x * x;
    power_b += y * y;
  }
  return product / std::sqrt(power_a * power_b);
}

bool same_looks(const ClipLog& a, const ClipLog& b) {
  const auto count = std::min(a.looks.size(), b.looks.size());
  if (count == 0 || std::max(a.looks.size(), b.looks.size()) > count + 1) return false;
  std::size_t alike = 0;
  std::size_t telling = 0;
  for (std::size_t i = 0; i < count; ++i) {
    // A flat picture looks like any other.
    if (std::popcount(a.looks[i]) < 8 || std::popcount(b.looks[i]) < 8) continue;
    ++telling;
    if (std::popcount(a.looks[i] ^ b.looks[i]) <= 10) ++alike;
  }
  return telling * 2 >= count && alike * 10 >= telling * 9;
}

// Coded again: as long, looks alike, sounds alike at the same time.
bool same_but_coded_again(const ClipLog& a, const ClipLog& b) {
  const auto off = (a.facts.duration - b.facts.duration).ticks();
  if (std::abs(off) > MediaTime::from_ms(250).ticks()) return false;
  if (a.facts.picture.has_value() != b.facts.picture.has_value()) return false;
  if (a.facts.picture && !same_looks(a, b)) return false;
  if (a.levels.size() < kLeastOverlap || b.levels.size() < kLeastOverlap) return a.facts.picture.has_value();
  const auto offset = sound_offset(a.levels, b.levels);
  if (!offset) {
    // Without anything to be matched by, as in silence, the picture decides.
    return a.facts.picture.has_value();
  }
  return std::abs(offset->ticks()) <= MediaTime::from_ms(120).ticks();
}

}  // namespace

std::optional<MediaTime> sound_offset(std::string_view first, std::string_view second) {
  const auto a = movement(first);
  const auto b = movement(second);
  if (a.size() < kLeastOverlap || b.size() < kLeastOverlap) return std::nullopt;
  const auto size = std::bit_ceil(a.size() + b.size());
  std::vector<Complex> fa(size);
  std::vector<Complex> fb(size);
  std::copy(a.begin(), a.end(), fa.begin());
  std::copy(b.begin(), b.end(), fb.begin());
  transform(fa, false);
  transform(fb, false);
  for (std::size_t i = 0; i < size; ++i) fa[i] *= std::conj(fb[i]);
  transform(fa, true);
  // The lags that stand out, then measured over what both have.
  const auto at = [&](std::int64_t lag) {
    return fa[static_cast<std::size_t>(lag < 0 ? lag + static_cast<std::int64_t>(size) : lag)].real();
  };
  const auto least = -static_cast<std::int64_t>(b.size()) + 1;
  const auto most = static_cast<std::int64_t>(a.size()) - 1;
  struct Lag {
    std::int64_t lag;
    double product;
  };
  std::vector<Lag> peaks;
  for (auto lag = least + 1; lag < most; ++lag)
    if (at(lag) > at(lag - 1) && at(lag) >= at(lag + 1)) peaks.push_back({lag, at(lag)});
  constexpr std::size_t kTried = 20;
  const auto tried = std::min(kTried, peaks.size());
  std::partial_sort(peaks.begin(), peaks.begin() + static_cast<std::ptrdiff_t>(tried), peaks.end(),
                    [](const Lag& x, const Lag& y) { return x.product > y.product; });
  double best = 0;
  double next = 0;
  std::int64_t found = 0;
  for (std::size_t i = 0; i < tried; ++i) {
    const double correlation = correlation_at(a, b, peaks[i].lag);
    if (correlation > best) {
      if (std::abs(peaks[i].lag - found) > kOneMoment) next = std::max(next, best);
      best = correlation;
      found = peaks[i].lag;
    } else if (std::abs(peaks[i].lag - found) > kOneMoment) {
      next = std::max(next, correlation);
    }
  }
  if (best < kLeastCorrelation || best < kLeastStandingOut * next) return std::nullopt;
  // Between hundredths: the top of the parabola through three of them.
  const double left = correlation_at(a, b, found - 1);
  const double right = correlation_at(a, b, found + 1);
  const double bend = left + right - 2 * best;
  const double fine = bend < 0 ? std::clamp(0.5 * (left - right) / bend, -0.5, 0.5) : 0;
  return MediaTime::from_seconds_f((static_cast<double>(found) + fine) / static_cast<double>(kLevelsASecond));
}

std::vector<Duplicate> find_duplicates(const std::vector<LoggedClip>& clips) {
  std::vector<Duplicate> out;
  std::vector<bool> has_its_like(clips.size());
  for (std::size_t i = 0; i < clips.size(); ++i) {
    if (!clips[i].log || has_its_like[i]) continue;
    const auto& a = clips[i];
    Duplicate same{{i}, Duplicate::Kind::SameFile, {}};
    for (std::size_t k = i + 1; k < clips.size(); ++k) {
      const auto& b = clips[k];
      if (!b.log || has_its_like[k]) continue;
      if ((a.content.empty() || a.content != b.content) && !same_but_coded_again(*a.log, *b.log)) continue;
      same.clips.push_back(k);
      has_its_like[k] = true;
    }
    if (same.clips.size() > 1) out.push_back(std::move(same));
  }
  // A clip that is there twice is compared once.
  for (std::size_t i = 0; i < clips.size(); ++i)
    for (std::size_t k = i + 1; k < clips.size(); ++k) {
      if (has_its_like[i] || has_its_like[k] || !clips[i].log || !clips[k].log) continue;
      if (const auto offset = sound_offset(clips[i].log->levels, clips[k].log->levels))
        out.push_back({{i, k}, Duplicate::Kind::SameMoment, *offset});
    }
  return out;
}

}  // namespace panslate
