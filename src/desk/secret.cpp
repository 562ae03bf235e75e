#include "desk/secret.h"

#include <array>
#include <cerrno>
#include <cstddef>
#include <string>
#include <system_error>

#include <sys/random.h>

#include "panslate/desk/desk.h"

namespace panslate {

void fill_with_chance(std::span<unsigned char> bytes) {
  std::size_t have = 0;
  while (have < bytes.size()) {
    const auto got = ::getrandom(bytes.data() + have, bytes.size() - have, 0);
    if (got < 0 && errno != EINTR)
      throw std::system_error(errno, std::generic_category(), "the system gives no random numbers");
    if (got > 0) have += static_cast<std::size_t>(got);
  }
}

bool same_secret(std::string_view a, std::string_view b) {
  unsigned difference = a.size() == b.size() ? 0U : 1U;
  for (std::size_t i = 0; i < a.size(); ++i)
    difference |= static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(i < b.size() ? b[i] : '\0');
  return difference == 0;
}

std::string new_desk_token() {
  std::array<unsigned char, 32> bytes{};
  fill_with_chance(bytes);
  static constexpr std::string_view kDigits = "0123456789abcdef";
  std::string token;
  for (const auto byte : bytes) {
    token += kDigits[byte >> 4U];
    token += kDigits[byte & 15U];
  }
  return token;
}

}  // namespace panslate
