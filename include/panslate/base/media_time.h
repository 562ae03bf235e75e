#pragma once

#include <compare>
#include <cstdint>
#include <optional>

/// Exact time. A time is a whole count of 1/5,644,800,000 s, which divides 24, 25, 30, 50 and 60 frames a
/// second, their 1001 relatives, 44.1, 48 and 90 kHz, 1/12288, 1/15360 and the millisecond; 64 bits hold ±51
/// years of it. Rounding happens where a time leaves (or enters) this form, and is named there.
namespace panslate {

enum class Round { Down, Nearest, Up };

/// A frame rate as the exact fraction it is: 30000/1001, never 29.97. num and den are positive.
struct FrameRate {
  std::int32_t num = 25;
  std::int32_t den = 1;

  /// The whole number that timecode counts to: 24 for 24000/1001, 30 for 30000/1001.
  [[nodiscard]] constexpr std::int32_t nominal() const {
    return static_cast<std::int32_t>((std::int64_t{num} + den - 1) / den);
  }
  [[nodiscard]] constexpr double per_second() const { return static_cast<double>(num) / den; }
  friend bool operator==(const FrameRate&, const FrameRate&) = default;
};

class MediaTime {
 public:
  static constexpr std::int64_t kTicksPerSecond = 5'644'800'000;

  constexpr MediaTime() = default;
  [[nodiscard]] static constexpr MediaTime from_ticks(std::int64_t ticks) { return MediaTime(ticks); }
  [[nodiscard]] static constexpr MediaTime from_ms(std::int64_t ms) {
    return MediaTime(ms * (kTicksPerSecond / 1000));
  }
  [[nodiscard]] static constexpr MediaTime from_seconds(std::int64_t s) {
    return MediaTime(s * kTicksPerSecond);
  }
  /// Nearest tick; for times that arrive as floating point (JSON, filters). Out-of-range and NaN give zero.
  [[nodiscard]] static MediaTime from_seconds_f(double seconds);
  /// `value` × num/den seconds, rounded to the nearest tick; empty when it does not fit. den must be
  /// positive.
  [[nodiscard]] static std::optional<MediaTime> from_units(std::int64_t value, std::int64_t num,
                                                           std::int64_t den);
  /// Start of a frame at a constant rate, counted from 0; exact for the rates above, else nearest.
  [[nodiscard]] static MediaTime from_frames(std::int64_t frames, FrameRate rate);

  [[nodiscard]] constexpr std::int64_t ticks() const { return ticks_; }
  [[nodiscard]] constexpr std::int64_t to_ms(Round round) const {
    return divide(ticks_, kTicksPerSecond / 1000, round);
  }
  [[nodiscard]] constexpr std::int64_t to_cs(Round round) const {
    return divide(ticks_, kTicksPerSecond / 100, round);
  }
  [[nodiscard]] std::int64_t to_frames(FrameRate rate, Round round) const;
  [[nodiscard]] constexpr double seconds() const {
    return static_cast<double>(ticks_) / static_cast<double>(kTicksPerSecond);
  }
  /// This time on a grid of `step`.
  [[nodiscard]] constexpr MediaTime snapped(MediaTime step, Round round) const {
    return MediaTime(divide(ticks_, step.ticks_, round) * step.ticks_);
  }

  // NOLINTNEXTLINE(modernize-use-nullptr): the 0 that the compiler compares with is no pointer
  constexpr auto operator<=>(const MediaTime&) const = default;
  constexpr MediaTime operator-() const { return MediaTime(-ticks_); }
  friend constexpr MediaTime operator+(MediaTime a, MediaTime b) { return MediaTime(a.ticks_ + b.ticks_); }
  friend constexpr MediaTime operator-(MediaTime a, MediaTime b) { return MediaTime(a.ticks_ - b.ticks_); }
  friend constexpr MediaTime operator*(MediaTime a, std::int64_t n) { return MediaTime(a.ticks_ * n); }
  /// Nearest tick; n is not zero.
  friend constexpr MediaTime operator/(MediaTime a, std::int64_t n) {
    return n < 0 ? MediaTime(divide(-a.ticks_, -n, Round::Nearest))
                 : MediaTime(divide(a.ticks_, n, Round::Nearest));
  }
  constexpr MediaTime& operator+=(MediaTime b) { return *this = *this + b; }

 private:
  constexpr explicit MediaTime(std::int64_t ticks) : ticks_(ticks) {}
  // b is positive.
  static constexpr std::int64_t divide(std::int64_t a, std::int64_t b, Round round) {
    const std::int64_t quotient = a / b - (a % b < 0 ? 1 : 0);  // floor
    const std::int64_t remainder = a - quotient * b;
    if (round == Round::Down || remainder == 0) return quotient;
    if (round == Round::Up) return quotient + 1;
    return remainder >= b - remainder ? quotient + 1 : quotient;
  }

  std::int64_t ticks_ = 0;
};

static_assert(MediaTime::kTicksPerSecond % 1000 == 0 && MediaTime::kTicksPerSecond * 1001 % 30000 == 0 &&
              MediaTime::kTicksPerSecond * 1001 % 24000 == 0 &&
              MediaTime::kTicksPerSecond * 1001 % 60000 == 0);
static_assert(MediaTime::kTicksPerSecond % 44100 == 0 && MediaTime::kTicksPerSecond % 48000 == 0 &&
              MediaTime::kTicksPerSecond % 90000 == 0 && MediaTime::kTicksPerSecond % 12288 == 0 &&
              MediaTime::kTicksPerSecond % 15360 == 0);

/// Half-open: a time t is inside when begin <= t < end, so back-to-back ranges neither overlap nor gap.
struct TimeRange {
  MediaTime begin;
  MediaTime end;

  [[nodiscard]] constexpr bool contains(MediaTime t) const { return begin <= t && t < end; }
  [[nodiscard]] constexpr bool overlaps(const TimeRange& other) const {
    return begin < other.end && other.begin < end;
  }
  [[nodiscard]] constexpr bool empty() const { return end <= begin; }
  [[nodiscard]] constexpr MediaTime duration() const { return end - begin; }
  friend constexpr bool operator==(const TimeRange&, const TimeRange&) = default;
};

}  // namespace panslate
