#include "project/sound_match.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <type_traits>

#include "panslate/media/clip_log.h"

namespace panslate {

namespace {

using Complex = std::complex<float>;

// Levels of an hour: what is longer is compared by its first hour.
constexpr std::size_t kMostLevels = 360'000;
constexpr std::int64_t kTenth = 10;  // levels
// In hundredths of a second. Common practice, no source.
constexpr std::int64_t kLeastOverlap = 300;
constexpr std::int64_t kOneMoment = 3;
constexpr double kLeastCorrelation = 0.5;
constexpr double kLeastStandingOut = 1.35;
// What is this little alike by the tenth is not alike by the hundredth: half of what is asked for there.
constexpr double kLeastCoarse = 0.25;
// How far around a tenth the hundredth is looked for.
constexpr std::int64_t kAround = 10;
// Values of spectrums that are kept between pairs: 64 MB. Those of more or longer clips are made again.
constexpr std::size_t kMostKept = std::size_t{8} << 20U;

// Radix 2; the length is a power of two.
void transform(std::vector<Complex>& data, bool back) {
  const std::size_t size = data.size();
  for (std::size_t i = 1, j = 0; i < size; ++i) {
    std::size_t bit = size >> 1U;
    for (; (j & bit) != 0; bit >>= 1U) j ^= bit;
    j ^= bit;
    if (i < j) std::swap(data[i], data[j]);
  }
  std::vector<Complex> turns(size / 2);
  for (std::size_t length = 2; length <= size; length <<= 1U) {
    const std::size_t half = length / 2;
    const double angle = 2 * std::numbers::pi / static_cast<double>(length) * (back ? 1 : -1);
    for (std::size_t k = 0; k < half; ++k) turns[k] = std::polar(1.0, angle * static_cast<double>(k));
    for (std::size_t i = 0; i < size; i += length)
      for (std::size_t k = 0; k < half; ++k) {
        const auto a = data[i + k];
        const auto& x = data[i + k + half];
        const auto& turn = turns[k];
        // Written out: the operator looks for infinities.
        const Complex b(x.real() * turn.real() - x.imag() * turn.imag(),
                        x.real() * turn.imag() + x.imag() * turn.real());
        data[i + k] = a + b;
        data[i + k + half] = a - b;
      }
  }
}

// Levels less what is usual around them, so that distance and gain do not count; in fifths of a level.
std::vector<std::int16_t> movement(std::string_view levels) {
  const auto size = std::min(levels.size(), kMostLevels);
  std::vector<double> sum(size + 1);
  const auto level = [&](std::size_t i) {
    return static_cast<double>(std::max<int>(100, static_cast<std::uint8_t>(levels[i])));
  };
  for (std::size_t i = 0; i < size; ++i) sum[i + 1] = sum[i] + level(i);
  std::vector<std::int16_t> out(size);
  constexpr std::size_t kUsualAround = 50;
  for (std::size_t i = 0; i < size; ++i) {
    const auto from = i > kUsualAround ? i - kUsualAround : 0;
    const auto to = std::min(size, i + kUsualAround + 1);
    const double off =
        std::clamp(level(i) - (sum[to] - sum[from]) / static_cast<double>(to - from), -24.0, 24.0);
    out[i] = static_cast<std::int16_t>(std::lround(5 * off));
  }
  return out;
}

std::vector<float> by_the_tenth(const std::vector<std::int16_t>& fine) {
  std::vector<float> out(fine.size() / kTenth);
  for (std::size_t i = 0; i < out.size(); ++i) {
    float sum = 0;
    for (std::size_t k = 0; k < kTenth; ++k) sum += static_cast<float>(fine[i * kTenth + k]);
    out[i] = sum / kTenth;
  }
  return out;
}

// Of `b` laid `lag` after the start of `a`, over what both have; 0 where that is less than `least`.
template <class Value>
double correlation_at(const std::vector<Value>& a, const std::vector<Value>& b, std::int64_t lag,
                      std::int64_t least) {
  const auto from = std::max<std::int64_t>(0, lag);
  const auto to = std::min(static_cast<std::int64_t>(a.size()), lag + static_cast<std::int64_t>(b.size()));
  if (to - from < least) return 0;
  // Sums of whole numbers are exact: 127² over an hour.
  using Sum = std::conditional_t<std::is_integral_v<Value>, std::int64_t, double>;
  Sum product = 0;
  Sum power_a = 0;
  Sum power_b = 0;
  const Value* x = a.data() + from;
  const Value* y = b.data() + (from - lag);
  for (std::int64_t i = 0; i < to - from; ++i) {
    const Sum one = x[i];
    const Sum other = y[i];
    product += one * other;
    power_a += one * one;
    power_b += other * other;
  }
  const double powers = static_cast<double>(power_a) * static_cast<double>(power_b);
  return powers > 0 ? static_cast<double>(product) / std::sqrt(powers) : 0;
}

struct Lag {
  std::int64_t lag = 0;
  double worth = 0;
};

// The lags, in tenths, that stand out in the product over all lags, with how alike the two are there.
std::vector<Lag> standing_out(const std::vector<Complex>& product, const std::vector<float>& a,
                              const std::vector<float>& b) {
  const auto size = static_cast<std::int64_t>(product.size());
  const auto at = [&](std::int64_t lag) {
    return product[static_cast<std::size_t>(lag < 0 ? lag + size : lag)].real();
  };
  const auto least = -static_cast<std::int64_t>(b.size()) + 1;
  const auto most = static_cast<std::int64_t>(a.size()) - 1;
  std::vector<Lag> peaks;
  for (auto lag = least + 1; lag < most; ++lag)
    if (at(lag) > at(lag - 1) && at(lag) >= at(lag + 1)) peaks.push_back({lag, at(lag)});
  constexpr std::size_t kTried = 20;
  const auto tried = std::min(kTried, peaks.size());
  std::partial_sort(peaks.begin(), peaks.begin() + static_cast<std::ptrdiff_t>(tried), peaks.end(),
                    [](const Lag& x, const Lag& y) { return x.worth > y.worth; });
  peaks.resize(tried);
  // What overlaps by more than `kLeastOverlap` hundredths may do so by one tenth less.
  for (auto& peak : peaks) peak.worth = correlation_at(a, b, peak.lag, kLeastOverlap / kTenth - 1);
  return peaks;
}

}  // namespace

SoundMatch::SoundMatch(const std::vector<std::string_view>& levels) {
  clips_.reserve(levels.size());
  for (const auto& one : levels) {
    Movement made;
    made.fine = movement(one);
    made.coarse = by_the_tenth(made.fine);
    clips_.push_back(std::move(made));
  }
}

const std::vector<SoundMatch::Complex>& SoundMatch::spectrum_of(Movement& movement, std::size_t size,
                                                                std::vector<Complex>& room) {
  const auto known = movement.spectrum.find(size);
  if (known != movement.spectrum.end()) return known->second;
  room.assign(size, {});
  std::copy(movement.coarse.begin(), movement.coarse.end(), room.begin());
  transform(room, false);
  if (kept_ + size > kMostKept) return room;
  kept_ += size;
  return movement.spectrum.emplace(size, std::move(room)).first->second;
}

std::optional<MediaTime> SoundMatch::offset(std::size_t a, std::size_t b) {
  const auto known = found_.find({a, b});
  if (known != found_.end()) return known->second;
  auto& one = clips_[a];
  auto& other = clips_[b];
  constexpr auto kLeast = static_cast<std::size_t>(kLeastOverlap);
  std::optional<MediaTime> found;
  if (one.fine.size() >= kLeast && other.fine.size() >= kLeast) {
    const auto size = std::bit_ceil(one.coarse.size() + other.coarse.size());
    std::vector<Complex> room_a;
    std::vector<Complex> room_b;
    found = find(one, other, spectrum_of(one, size, room_a), spectrum_of(other, size, room_b));
  }
  found_.emplace(std::pair{a, b}, found);
  return found;
}

std::optional<MediaTime> SoundMatch::find(const Movement& a, const Movement& b,
                                          const std::vector<Complex>& fa,
                                          const std::vector<Complex>& fb) const {
  std::vector<Complex> product(fa.size());
  for (std::size_t i = 0; i < product.size(); ++i)
    product[i] = Complex(fa[i].real() * fb[i].real() + fa[i].imag() * fb[i].imag(),
                         fa[i].imag() * fb[i].real() - fa[i].real() * fb[i].imag());
  transform(product, true);
  const auto peaks = standing_out(product, a.coarse, b.coarse);
  const auto alike = [](const Lag& x, const Lag& y) { return x.worth < y.worth; };
  const auto most_alike = std::max_element(peaks.begin(), peaks.end(), alike);
  if (most_alike == peaks.end() || most_alike->worth < kLeastCoarse) return std::nullopt;

  double best = 0;
  double next = 0;
  std::int64_t found = 0;
  for (const auto& peak : peaks) {
    if (peak.worth < most_alike->worth / 2) continue;
    Lag top;
    for (auto lag = peak.lag * kTenth - kAround; lag <= peak.lag * kTenth + kAround; ++lag)
      if (const double worth = correlation_at(a.fine, b.fine, lag, kLeastOverlap); worth > top.worth)
        top = {lag, worth};
    // On the slope of another peak.
    if (std::abs(top.lag - peak.lag * kTenth) == kAround) continue;
    if (top.worth > best) {
      if (std::abs(top.lag - found) > kOneMoment) next = std::max(next, best);
      best = top.worth;
      found = top.lag;
    } else if (std::abs(top.lag - found) > kOneMoment) {
      next = std::max(next, top.worth);
    }
  }
  if (best < kLeastCorrelation || best < kLeastStandingOut * next) return std::nullopt;
  // Between hundredths: the top of the parabola through three of them.
  const double left = correlation_at(a.fine, b.fine, found - 1, kLeastOverlap);
  const double right = correlation_at(a.fine, b.fine, found + 1, kLeastOverlap);
  const double bend = left + right - 2 * best;
  const double part = bend < 0 ? std::clamp(0.5 * (left - right) / bend, -0.5, 0.5) : 0;
  return MediaTime::from_seconds_f((static_cast<double>(found) + part) / static_cast<double>(kLevelsASecond));
}

}  // namespace panslate
