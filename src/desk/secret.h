#pragma once

#include <span>
#include <string_view>

/// What nobody can guess, and its comparison.
namespace panslate {

/// From the system's own source; throws std::system_error where that fails, since nothing can be safe then.
void fill_with_chance(std::span<unsigned char> bytes);

/// Whether both are the same, in a time that does not tell where they differ.
[[nodiscard]] bool same_secret(std::string_view a, std::string_view b);

}  // namespace panslate
