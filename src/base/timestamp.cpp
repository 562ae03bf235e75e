#include "panslate/base/timestamp.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <vector>

namespace panslate {

std::string format_timestamp(MediaTime time, TimestampStyle style, Round round) {
  time = std::max(time, MediaTime());
  std::array<char, 64> buffer{};
  if (style == TimestampStyle::Centi) {
    const auto cs = static_cast<long long>(time.to_cs(round));
    std::snprintf(buffer.data(), buffer.size(), "%lld:%02lld:%02lld.%02lld", cs / 360000, cs / 6000 % 60,
                  cs / 100 % 60, cs % 100);
    return buffer.data();
  }
  if (style == TimestampStyle::Spoken) {
    const auto s = static_cast<long long>(time.to_ms(Round::Down)) / 1000;
    if (s >= 3600)
      std::snprintf(buffer.data(), buffer.size(), "%lld:%02lld:%02lld", s / 3600, s / 60 % 60, s % 60);
    else
      std::snprintf(buffer.data(), buffer.size(), "%lld:%02lld", s / 60, s % 60);
    return buffer.data();
  }
  const auto ms = static_cast<long long>(time.to_ms(round));
  std::snprintf(buffer.data(), buffer.size(), "%02lld:%02lld:%02lld%c%03lld", ms / 3600000, ms / 60000 % 60,
                ms / 1000 % 60, style == TimestampStyle::Comma ? ',' : '.', ms % 1000);
  return buffer.data();
}

std::optional<MediaTime> parse_timestamp(std::string_view text) {
  constexpr std::int64_t kMostHours = 1000;
  std::vector<std::int64_t> fields;
  std::size_t i = 0;
  const auto is_digit = [&](std::size_t at) {
    return at < text.size() && text[at] >= '0' && text[at] <= '9';
  };
  std::size_t start = 0;
  for (;;) {
    std::int64_t value = 0;
    start = i;
    while (is_digit(i) && i - start < 9) value = value * 10 + (text[i++] - '0');
    if (i == start) return std::nullopt;
    fields.push_back(value);
    if (i < text.size() && text[i] == ':' && fields.size() < 3)
      ++i;
    else
      break;
  }
  if (fields.size() < 2 || i - start != 2) return std::nullopt;  // seconds have two digits
  std::int64_t nanoseconds = 0;
  if (i < text.size() && (text[i] == '.' || text[i] == ',')) {
    start = ++i;
    std::int64_t place = 100'000'000;
    for (; is_digit(i) && place > 0; ++i, place /= 10) nanoseconds += (text[i] - '0') * place;
    if (i == start) return std::nullopt;
  }
  if (i != text.size()) return std::nullopt;
  const std::int64_t hours = fields.size() == 3 ? fields[0] : 0;
  const std::int64_t minutes = fields[fields.size() - 2];
  const std::int64_t seconds = fields.back();
  if (seconds > 59 || (fields.size() == 3 && minutes > 59) || hours > kMostHours || minutes > kMostHours * 60)
    return std::nullopt;
  const auto fraction = MediaTime::from_units(nanoseconds, 1, 1'000'000'000);
  return MediaTime::from_seconds((hours * 60 + minutes) * 60 + seconds) + fraction.value_or(MediaTime());
}

}  // namespace panslate
