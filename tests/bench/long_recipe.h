#pragma once

#include <cstdint>
#include <string>

namespace panslate::bench {

/// A recipe of so many lines, half of them ingredients.
inline std::string long_recipe(std::int64_t lines) {
  static const char* const kFoods[] = {
      "red onions, finely sliced", "plain flour",  "butter, softened", "smoked paprika", "chickpeas",
      "cherry tomatoes, halved",   "coconut milk", "flat-leaf parsley"};
  std::string out = "# Feast\n\nServes 40\n\n## Ingredients\n\n";
  for (std::int64_t i = 0; i < lines / 2; ++i)
    out +=
        "- " + std::to_string(i % 90 + 1) + " g/" + std::to_string(i % 9 + 1) + " oz " + kFoods[i % 8] + "\n";
  out += "\n## Method\n\n";
  for (std::int64_t i = 0; i < lines / 2; ++i)
    out += std::to_string(i + 1) + ". Add the onions and the paprika and simmer for " +
           std::to_string(i % 50 + 5) + " minutes, until soft.\n";
  return out;
}

}  // namespace panslate::bench
