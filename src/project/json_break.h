#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "panslate/base/text.h"

/// Says what is wrong where a text stops being JSON, in the words of somebody who edits it by hand.
namespace panslate {

enum class JsonExpects { Value, FirstItem, FirstName, Colon, CommaOrClose, Nothing };

struct JsonBreak {
  JsonExpects expects = JsonExpects::Value;
  std::size_t offset = 0;  ///< just behind the last thing that was right
  char open = '\0';        ///< innermost open bracket; NUL when none is
  LineColumn opened;       ///< where that bracket stands
  std::string name;        ///< the last name, when a colon is expected
};

struct JsonBreakWords {
  std::size_t offset = 0;  ///< of what is wrong
  std::string message;
  std::string hint;
};

[[nodiscard]] JsonBreakWords words_for_break(std::string_view text, const JsonBreak& where);

}  // namespace panslate
