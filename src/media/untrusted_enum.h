#pragma once

#include <cstring>
#include <type_traits>

namespace panslate::av {

/// The number in an enum that FFmpeg fills straight from the file. A damaged file may hold any number there,
/// and to load one that the enum does not have is undefined; so it is compared as a number.
template <class Enum>
[[nodiscard]] std::underlying_type_t<Enum> untrusted(const Enum& value) {
  std::underlying_type_t<Enum> number{};
  std::memcpy(&number, &value, sizeof number);
  return number;
}

}  // namespace panslate::av
