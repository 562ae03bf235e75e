#include "speech/webvtt_scan.h"

#include <cstdint>

namespace panslate {

namespace {

struct Digits {
  std::int64_t value = 0;
  std::size_t count = 0;
};

constexpr std::int64_t kMostHours = 400'000;

std::optional<Digits> collect_digits(std::string_view input, std::size_t& position) {
  Digits digits;
  for (; position < input.size() && is_vtt_digit(input[position]); ++position, ++digits.count)
    if (digits.value <= kMostHours) digits.value = digits.value * 10 + (input[position] - '0');
  if (digits.count == 0) return std::nullopt;
  return digits;
}

bool collect_char(std::string_view input, std::size_t& position, char wanted) {
  if (position >= input.size() || input[position] != wanted) return false;
  ++position;
  return true;
}

}  // namespace

std::optional<MediaTime> collect_vtt_timestamp(std::string_view input, std::size_t& position) {
  const auto first = collect_digits(input, position);
  if (!first || !collect_char(input, position, ':')) return std::nullopt;
  const bool starts_with_hours = first->count != 2 || first->value > 59;
  const auto second = collect_digits(input, position);
  if (!second || second->count != 2) return std::nullopt;

  std::int64_t hours = 0;
  std::int64_t minutes = first->value;
  std::int64_t seconds = second->value;
  if (starts_with_hours || (position < input.size() && input[position] == ':')) {
    if (!collect_char(input, position, ':')) return std::nullopt;
    const auto third = collect_digits(input, position);
    if (!third || third->count != 2) return std::nullopt;
    hours = first->value;
    minutes = second->value;
    seconds = third->value;
  }
  if (!collect_char(input, position, '.')) return std::nullopt;
  const auto thousandths = collect_digits(input, position);
  if (!thousandths || thousandths->count != 3) return std::nullopt;
  if (minutes > 59 || seconds > 59 || hours > kMostHours) return std::nullopt;
  return MediaTime::from_ms(((hours * 60 + minutes) * 60 + seconds) * 1000 + thousandths->value);
}

}  // namespace panslate
