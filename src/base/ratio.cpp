#include "panslate/base/ratio.h"

#include <limits>

namespace panslate {

namespace {

__extension__ using Wide = __int128;

std::optional<Ratio> reduced(Wide num, Wide den) {
  if (den == 0) return std::nullopt;
  if (den < 0) {
    num = -num;
    den = -den;
  }
  Wide a = num < 0 ? -num : num;
  Wide b = den;
  while (b != 0) {
    const Wide rest = a % b;
    a = b;
    b = rest;
  }
  if (a > 1) {
    num /= a;
    den /= a;
  }
  constexpr Wide kMost = std::numeric_limits<std::int64_t>::max();
  if (num > kMost || num < -kMost || den > kMost) return std::nullopt;
  return Ratio::make(static_cast<std::int64_t>(num), static_cast<std::int64_t>(den));
}

std::int64_t gcd(std::int64_t a, std::int64_t b) {
  while (b != 0) {
    const auto rest = a % b;
    a = b;
    b = rest;
  }
  return a < 0 ? -a : a;
}

}  // namespace

std::optional<Ratio> Ratio::make(std::int64_t num, std::int64_t den) {
  constexpr auto kLeast = std::numeric_limits<std::int64_t>::min();
  if (den == 0 || num == kLeast || den == kLeast) return std::nullopt;
  if (den < 0) {
    num = -num;
    den = -den;
  }
  const auto divisor = gcd(num, den);
  Ratio ratio;
  ratio.num_ = num / divisor;
  ratio.den_ = den / divisor;
  return ratio;
}

std::optional<Ratio> Ratio::parse(std::string_view text) {
  constexpr std::size_t kMostDigits = 15;
  const auto read_digits = [&](std::size_t& i, std::int64_t& value) {
    const std::size_t start = i;
    while (i < text.size() && text[i] >= '0' && text[i] <= '9') value = value * 10 + (text[i++] - '0');
    return i - start;
  };
  if (text.size() > 2 * kMostDigits) return std::nullopt;
  std::size_t i = 0;
  std::int64_t num = 0;
  const std::size_t digits =
      text.substr(0, kMostDigits + 1).find_first_not_of("0123456789") == std::string_view::npos &&
              text.size() > kMostDigits
          ? kMostDigits + 1
          : read_digits(i, num);
  if (digits == 0 || digits > kMostDigits) return std::nullopt;
  if (i == text.size()) return Ratio(num);
  const char mark = text[i++];
  if (mark == '.') {
    if (text.size() - i + digits > kMostDigits) return std::nullopt;
    const std::size_t decimals = read_digits(i, num);
    if (decimals == 0 || i != text.size()) return std::nullopt;
    std::int64_t den = 1;
    for (std::size_t k = 0; k < decimals; ++k) den *= 10;
    return make(num, den);
  }
  if (mark != '/' || text.size() - i > kMostDigits) return std::nullopt;
  std::int64_t den = 0;
  if (read_digits(i, den) == 0 || i != text.size()) return std::nullopt;
  return make(num, den);
}

std::string Ratio::to_string() const {
  return den_ == 1 ? std::to_string(num_) : std::to_string(num_) + '/' + std::to_string(den_);
}

std::optional<Ratio> Ratio::plus(const Ratio& other) const {
  return reduced(static_cast<Wide>(num_) * other.den_ + static_cast<Wide>(other.num_) * den_,
                 static_cast<Wide>(den_) * other.den_);
}

std::optional<Ratio> Ratio::minus(const Ratio& other) const {
  return reduced(static_cast<Wide>(num_) * other.den_ - static_cast<Wide>(other.num_) * den_,
                 static_cast<Wide>(den_) * other.den_);
}

std::optional<Ratio> Ratio::times(const Ratio& other) const {
  return reduced(static_cast<Wide>(num_) * other.num_, static_cast<Wide>(den_) * other.den_);
}

std::optional<Ratio> Ratio::over(const Ratio& other) const {
  return reduced(static_cast<Wide>(num_) * other.den_, static_cast<Wide>(den_) * other.num_);
}

bool operator<(const Ratio& a, const Ratio& b) {
  return static_cast<Wide>(a.num_) * b.den_ < static_cast<Wide>(b.num_) * a.den_;
}

}  // namespace panslate
