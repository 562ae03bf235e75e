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
  return !code_.empty() && tries_ < kTries && now_() - made_ < kGood;
}

PhoneCode::Outcome PhoneCode::enter(std::string_view typed) {
  std::string digits;
  for (const char one : typed)
    if (one != ' ' && one != '-') digits += one;
  const std::lock_guard lock(mutex_);
  if (!is_good()) return Outcome::Void;
  ++tries_;
  if (same_secret(digits, code_)) {
    code_.clear();
    return Outcome::Right;
  }
  return is_good() ? Outcome::Wrong : Outcome::Void;
}

void PhoneCode::renew() {
  auto code = new_code();
  const std::lock_guard lock(mutex_);
  code_ = std::move(code);
  tries_ = 0;
  made_ = now_();
}

PhoneCode::Shown PhoneCode::shown() const {
  const std::lock_guard lock(mutex_);
  if (!is_good()) return {};
  return {code_, std::chrono::duration_cast<std::chrono::seconds>(made_ + kGood - now_())};
}

}  // namespace panslate
