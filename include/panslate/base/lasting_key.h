#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace panslate {

/// A short key (16 hex digits) that lasts as long as the content it is made from: decisions are tied to it,
/// so inserting a line or renaming a file does not move them. 64-bit FNV-1a over the parts, each ended by a
/// zero byte; the same on every machine.
[[nodiscard]] std::string lasting_key(std::initializer_list<std::string_view> parts);

}  // namespace panslate
