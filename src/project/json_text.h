#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "panslate/base/result.h"
#include "panslate/base/text.h"

/// JSON as a person wrote it: the values, and for each of them its line and column, so that every mistake can
/// be shown where it stands.
namespace panslate {

/// Where a value stands, and what is inside it.
struct JsonSpot {
  LineColumn at;   ///< first character of the value
  LineColumn key;  ///< first character of its name's quotes; as `at` for items of a list
  std::vector<JsonSpot> items;
  std::map<std::string, JsonSpot, std::less<>> members;
  std::size_t begin = 0;      ///< bytes of the value within the text: its first
  std::size_t end = 0;        ///< … and the one behind its last
  std::size_t key_begin = 0;  ///< first byte of its name's quotes; as `begin` for items of a list
};

struct JsonText {
  nlohmann::json value;
  JsonSpot spot;
  std::vector<Error> oddities;  ///< names written twice in one { }: the first one is kept
};

/// Levels of brackets that are read; a project needs four.
inline constexpr std::size_t kJsonDepthLimit = 32;

/// Reads the whole of `text` (valid UTF-8, see to_utf8). Fails (Malformed, with a place and what is wrong in
/// a cook's words) at the first thing that is no JSON, and below the depth limit. Linear in the text.
[[nodiscard]] Result<JsonText> read_json(std::string_view text, const std::filesystem::path& file);

}  // namespace panslate
