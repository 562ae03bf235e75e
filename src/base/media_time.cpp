#include "panslate/base/media_time.h"

#include <cmath>
#include <limits>

namespace panslate {

namespace {

__extension__ using Wide = __int128;

// a × b ÷ c with a 128-bit middle; c positive.
std::optional<std::int64_t> scale(std::int64_t a, std::int64_t b, std::int64_t c, Round round) {
  const Wide product = static_cast<Wide>(a) * b;
  Wide quotient = product / c;
  Wide remainder = product % c;
  if (remainder < 0) {
    quotient -= 1;
    remainder += c;
  }
  if (remainder != 0 && (round == Round::Up || (round == Round::Nearest && remainder * 2 >= c)))
    quotient += 1;
  if (quotient > std::numeric_limits<std::int64_t>::max() ||
      quotient < std::numeric_limits<std::int64_t>::min())
    return std::nullopt;
  return static_cast<std::int64_t>(quotient);
}

}  // namespace

MediaTime MediaTime::from_seconds_f(double seconds) {
  const double ticks = seconds * static_cast<double>(kTicksPerSecond);
  if (!(std::abs(ticks) < 9.0e18)) return MediaTime();
  return MediaTime(std::llround(ticks));
}

std::optional<MediaTime> MediaTime::from_units(std::int64_t value, std::int64_t num, std::int64_t den) {
  std::int64_t ticks_per_unit_num = 0;
  if (__builtin_mul_overflow(num, kTicksPerSecond, &ticks_per_unit_num)) return std::nullopt;
  const auto ticks = scale(value, ticks_per_unit_num, den, Round::Nearest);
  if (!ticks) return std::nullopt;
  return MediaTime(*ticks);
}

MediaTime MediaTime::from_frames(std::int64_t frames, FrameRate rate) {
  return from_units(frames, rate.den, rate.num).value_or(MediaTime());
}

std::int64_t MediaTime::to_frames(FrameRate rate, Round round) const {
  // ticks × num ÷ (ticks/s × den).
  std::int64_t divisor = 0;
  if (__builtin_mul_overflow(kTicksPerSecond, std::int64_t{rate.den}, &divisor)) return 0;
  return scale(ticks_, rate.num, divisor, round).value_or(0);
}

}  // namespace panslate
