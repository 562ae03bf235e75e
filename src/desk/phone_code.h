#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <string_view>

/// The short code by which a phone is let in: short enough to be typed beside the stove, so it is good once,
/// for some minutes, and for a few tries.
namespace panslate {

class PhoneCode {
 public:
  using Clock = std::chrono::steady_clock;
  static constexpr int kTries = 5;  ///< of a million codes, by one peer: so that he tires nobody but himself
  static constexpr int kTriesInAll = 50;  ///< whoever makes them
  static constexpr std::chrono::minutes kGood{10};

  explicit PhoneCode(std::function<Clock::time_point()> now = Clock::now);

  enum class Outcome : std::uint8_t {
    Right,  ///< and used up
    Wrong,
    TooOften,  ///< by this peer: the code may be good for others
    Void       ///< there is none: used, too old, or tried too often by all together
  };
  /// Spaces and dashes in `typed` do not count; `peer` is the address that it came from. Any number at once:
  /// one of them alone is right.
  [[nodiscard]] Outcome enter(std::string_view typed, const std::string& peer);

  /// A new one; what was before it is void.
  void renew();

  struct Shown {
    std::string code;  ///< six digits; empty where there is none to be shown
    std::chrono::seconds left{};
    bool too_often = false;  ///< wrong ones were typed too often, by one peer or by all
  };
  [[nodiscard]] Shown shown() const;

 private:
  [[nodiscard]] bool is_good() const;

  std::function<Clock::time_point()> now_;
  mutable std::mutex mutex_;
  std::string code_;
  int tries_ = 0;                        ///< of all
  std::map<std::string, int> tries_of_;  ///< by peer: no more than kTriesInAll
  bool too_often_ = false;
  Clock::time_point made_;
};

}  // namespace panslate
