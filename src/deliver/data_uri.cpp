#include "deliver/data_uri.h"

#include <cstddef>
#include <cstdint>

namespace panslate {

std::string jpeg_data_uri(std::string_view jpeg) {
  static constexpr std::string_view kDigits =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out = "data:image/jpeg;base64,";
  out.reserve(out.size() + (jpeg.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < jpeg.size(); i += 3) {
    const auto byte = [&](std::size_t at) -> std::uint32_t {
      return at < jpeg.size() ? static_cast<unsigned char>(jpeg[at]) : 0U;
    };
    const std::uint32_t bits = byte(i) << 16U | byte(i + 1) << 8U | byte(i + 2);
    out += kDigits[bits >> 18U & 63U];
    out += kDigits[bits >> 12U & 63U];
    out += i + 1 < jpeg.size() ? kDigits[bits >> 6U & 63U] : '=';
    out += i + 2 < jpeg.size() ? kDigits[bits & 63U] : '=';
  }
  return out;
}

}  // namespace panslate
