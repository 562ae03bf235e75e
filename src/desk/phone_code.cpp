#include "desk/phone_code.h"

#include <array>
#include <cstdint>
#include <cstring>
#include <utility>

#include "desk/secret.h"

namespace panslate {

namespace {

constexpr std::uint64_t kCodes = 1'000'000;

std::string new_code() {
  std::array<unsigned char, sizeof(std::uint64_t)> bytes{};
  fill_with_chance(bytes);
  std::uint64_t number = 0;
  std::memcpy(&number, bytes.data(), bytes.size());
  // Some codes are likelier than others by less than one part in ten million million.
  const auto digits = std::to_string(number % kCodes);
  return std::string(6 - digits.size(), '0') + digits;
}

}  // namespace

PhoneCode::PhoneCode(std::function<Clock::time_point()> now) : now_(std::move(now)) {
  renew();
}

bool PhoneCode::is_good() const {
  return !code_.empty() && tries_ < kTriesInAll && now_() - made_ < kGood;
}

PhoneCode::Outcome PhoneCode::enter(std::string_view typed, const std::string& peer) {
  std::string digits;
  for (const char one : typed)
    if (one != ' ' && one != '-') digits += one;
  const std::lock_guard lock(mutex_);
  if (!is_good()) return Outcome::Void;
  auto& tries = tries_of_[peer];
  if (tries >= kTries) return Outcome::TooOften;
  ++tries;
  ++tries_;
  if (same_secret(digits, code_)) {
    code_.clear();
    return Outcome::Right;
  }
  too_often_ = too_often_ || tries >= kTries || tries_ >= kTriesInAll;
  if (!is_good()) return Outcome::Void;
  return tries < kTries ? Outcome::Wrong : Outcome::TooOften;
}

void PhoneCode::renew() {
  auto code = new_code();
  const std::lock_guard lock(mutex_);
  code_ = std::move(code);
  tries_ = 0;
  tries_of_.clear();
  too_often_ = false;
  made_ = now_();
}

PhoneCode::Shown PhoneCode::shown() const {
  const std::lock_guard lock(mutex_);
  if (!is_good()) return {{}, {}, too_often_};
  return {code_, std::chrono::duration_cast<std::chrono::seconds>(made_ + kGood - now_()), too_often_};
}

}  // namespace panslate
