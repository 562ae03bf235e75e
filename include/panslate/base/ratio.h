#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

/// Exact fractions for amounts: 1/3 of a cup stays 1/3. Always in lowest terms, denominator positive.
namespace panslate {

class Ratio {
 public:
  constexpr Ratio() = default;
  // Implicit on purpose: whole numbers are ratios.
  constexpr Ratio(std::int64_t whole) : num_(whole) {}  // NOLINT(google-explicit-constructor)
  /// num/den in lowest terms. Empty when den is zero or the reduced fraction does not fit 64 bits.
  [[nodiscard]] static std::optional<Ratio> make(std::int64_t num, std::int64_t den);
  /// `12`, `1.25`, `5/4`, with `.` as decimal mark; at most 15 digits. Empty for anything else.
  [[nodiscard]] static std::optional<Ratio> parse(std::string_view text);

  [[nodiscard]] constexpr std::int64_t num() const { return num_; }
  [[nodiscard]] constexpr std::int64_t den() const { return den_; }
  [[nodiscard]] constexpr double value() const {
    return static_cast<double>(num_) / static_cast<double>(den_);
  }
  [[nodiscard]] constexpr bool is_zero() const { return num_ == 0; }
  [[nodiscard]] constexpr bool is_whole() const { return den_ == 1; }
  /// `5/4`, or `3` when whole.
  [[nodiscard]] std::string to_string() const;

  /// Exact sum, product, quotient; empty on overflow or division by zero.
  [[nodiscard]] std::optional<Ratio> plus(const Ratio& other) const;
  [[nodiscard]] std::optional<Ratio> minus(const Ratio& other) const;
  [[nodiscard]] std::optional<Ratio> times(const Ratio& other) const;
  [[nodiscard]] std::optional<Ratio> over(const Ratio& other) const;

  friend constexpr bool operator==(const Ratio&, const Ratio&) = default;
  friend bool operator<(const Ratio& a, const Ratio& b);
  friend bool operator<=(const Ratio& a, const Ratio& b) { return !(b < a); }
  friend bool operator>(const Ratio& a, const Ratio& b) { return b < a; }
  friend bool operator>=(const Ratio& a, const Ratio& b) { return !(a < b); }

 private:
  std::int64_t num_ = 0;
  std::int64_t den_ = 1;
};

}  // namespace panslate
