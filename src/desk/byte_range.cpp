#include "desk/byte_range.h"

#include <algorithm>
#include <charconv>
#include <limits>
#include <optional>

#include "panslate/base/text.h"

namespace panslate {

namespace {

// A position beyond what a number holds is beyond every file.
std::optional<std::uint64_t> position(std::string_view digits) {
  if (digits.empty() || digits.find_first_not_of("0123456789") != std::string_view::npos) return std::nullopt;
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return error == std::errc() ? value : std::numeric_limits<std::uint64_t>::max();
}

}  // namespace

ByteRange byte_range(std::string_view header, std::uint64_t size) {
  const ByteRange whole{ByteRange::Kind::Whole, 0, size};
  const ByteRange outside{ByteRange::Kind::OutOfFile, 0, 0};
  const auto equals = header.find('=');
  if (equals == std::string_view::npos || fold_case(trim(header.substr(0, equals))) != "bytes") return whole;
  const auto spec = trim(header.substr(equals + 1));
  const auto dash = spec.find('-');
  if (dash == std::string_view::npos || spec.find(',') != std::string_view::npos) return whole;
  const auto first = spec.substr(0, dash);
  const auto last = spec.substr(dash + 1);
  if (first.empty()) {
    const auto suffix = position(last);
    if (!suffix) return whole;
    if (*suffix == 0 || size == 0) return outside;
    const auto length = std::min(*suffix, size);
    return {ByteRange::Kind::Part, size - length, length};
  }
  const auto begin = position(first);
  const auto end = last.empty() ? std::numeric_limits<std::uint64_t>::max() : position(last).value_or(0);
  if (!begin || (!last.empty() && !position(last)) || end < *begin) return whole;
  if (*begin >= size) return outside;
  return {ByteRange::Kind::Part, *begin, std::min(end, size - 1) - *begin + 1};
}

}  // namespace panslate
