#include "panslate/base/timecode.h"

#include <array>
#include <cstdio>

namespace panslate {

namespace {

// Labels dropped a minute: 2 at 29.97, 4 at 59.94.
std::int64_t dropped_labels(FrameRate rate) {
  return rate.nominal() / 15;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::string label_of(std::int64_t nominal_frame, std::int64_t nominal, char separator) {
  const auto frames = nominal_frame % nominal;
  const auto seconds = nominal_frame / nominal;
  std::array<char, 64> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%02lld:%02lld:%02lld%c%02lld",
                static_cast<long long>(seconds / 3600), static_cast<long long>(seconds / 60 % 60),
                static_cast<long long>(seconds % 60), separator, static_cast<long long>(frames));
  return buffer.data();
}

}  // namespace

bool has_drop_frame(FrameRate rate) {
  return rate == FrameRate{30000, 1001} || rate == FrameRate{60000, 1001};
}

std::string to_timecode(std::int64_t frame, FrameRate rate, TimecodeMode mode) {
  const std::int64_t nominal = rate.nominal();
  if (mode == TimecodeMode::NonDrop || !has_drop_frame(rate)) {
    const std::int64_t day = nominal * 86400;
    return label_of(((frame % day) + day) % day, nominal, ':');
  }
  const auto dropped = dropped_labels(rate);
  const auto per_minute = nominal * 60 - dropped;
  const auto per_ten = per_minute * 10 + dropped;
  const auto day = per_ten * 144;
  frame = ((frame % day) + day) % day;
  const auto tens = frame / per_ten;
  const auto rest = frame % per_ten;
  const auto skipped = 9 * dropped * tens + (rest >= dropped ? dropped * ((rest - dropped) / per_minute) : 0);
  return label_of(frame + skipped, nominal, ';');
}

Result<TimecodeLabel> parse_timecode(std::string_view label, FrameRate rate) {
  const auto malformed = [&](const std::string& why) {
    return fail(ErrorCode::Malformed, "'" + std::string(label) + "' is no timecode: " + why, std::nullopt,
                "write HH:MM:SS:FF, or HH:MM:SS;FF for drop-frame");
  };
  std::array<std::int64_t, 4> part{};
  TimecodeMode mode = TimecodeMode::NonDrop;
  if (label.size() != 11) return malformed("it is not HH:MM:SS:FF");
  for (std::size_t i = 0; i < 4; ++i) {
    const char* begin = label.data() + i * 3;
    if (!is_digit(begin[0]) || !is_digit(begin[1])) return malformed("it is not HH:MM:SS:FF");
    part[i] = (begin[0] - '0') * 10 + (begin[1] - '0');
    if (i == 3) break;
    const char separator = begin[2];
    if (i < 2 ? separator != ':' : separator != ':' && separator != ';' && separator != '.')
      return malformed("it is not HH:MM:SS:FF");
    if (i == 2 && separator != ':') mode = TimecodeMode::Drop;
  }
  const std::int64_t nominal = rate.nominal();
  if (part[0] > 23 || part[1] > 59 || part[2] > 59)
    return malformed("hours go to 23, minutes and seconds to 59");
  if (part[3] >= nominal)
    return malformed("at this rate frames go from 00 to " + std::to_string(nominal - 1));
  const auto minutes = part[0] * 60 + part[1];
  auto frame = (minutes * 60 + part[2]) * nominal + part[3];
  if (mode == TimecodeMode::Drop) {
    if (!has_drop_frame(rate)) return malformed("this frame rate has no drop-frame");
    const auto dropped = dropped_labels(rate);
    if (part[2] == 0 && part[3] < dropped && part[1] % 10 != 0)
      return malformed("drop-frame skips this label; the next is " + std::string(label.substr(0, 9)) + "0" +
                       std::to_string(dropped));
    frame -= dropped * (minutes - minutes / 10);
  }
  return TimecodeLabel{frame, mode};
}

}  // namespace panslate
