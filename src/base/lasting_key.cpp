#include "panslate/base/lasting_key.h"

#include <cstdint>

namespace panslate {

std::string lasting_key(std::initializer_list<std::string_view> parts) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  const auto take = [&hash](unsigned char byte) {
    hash ^= byte;
    hash *= 0x100000001b3ULL;
  };
  for (const auto part : parts) {
    for (const char c : part) take(static_cast<unsigned char>(c));
    take(0);
  }
  std::string key(16, '0');
  for (std::size_t i = key.size(); i-- > 0; hash >>= 4U) key[i] = "0123456789abcdef"[hash & 0xFU];
  return key;
}

}  // namespace panslate
