#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace panslate {

/// Words for FoodNames: hyphens inside a word are left out, every other mark is a boundary (an empty word).
struct NameWords {
  std::vector<std::string> words;
  std::vector<std::size_t> token_of;  ///< the token of SpokenText that each came from
};

}  // namespace panslate
