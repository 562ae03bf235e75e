#pragma once

#include <cstdint>
#include <string_view>

namespace panslate {

/// What of a file a request asks for: RFC 9110, section 14.
struct ByteRange {
  enum class Kind : std::uint8_t {
    Whole,     ///< 200: none was asked for, it is no range of bytes, or several (which a server may ignore)
    Part,      ///< 206
    OutOfFile  ///< 416
  };
  Kind kind = Kind::Whole;
  std::uint64_t begin = 0;
  std::uint64_t length = 0;
};

/// `header`: the value of Range, empty where there is none; `size` of the file in bytes.
[[nodiscard]] ByteRange byte_range(std::string_view header, std::uint64_t size);

}  // namespace panslate
