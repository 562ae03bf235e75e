#include "kitchen/first_words.h"

#include <string_view>
#include <unordered_set>

#include "kitchen/number_words.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

const std::unordered_set<std::string_view>& first_words() {
  static const std::unordered_set<std::string_view> kWords{
      // numbers
      "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
      "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty", "thirty",
      "forty", "fourty", "fifty", "sixty", "seventy", "eighty", "ninety", "hundred", "thousand", "million",
      "zero", "nought", "naught", "oh", "o", "half", "quarter", "third", "fourth", "fifth", "sixth", "eighth",
      "tenth", "point", "couple", "dozen", "hundreds", "thousands", "tens", "dozens", "halves", "thirds",
      "quarters", "fourths", "fifths", "sixths", "eighths", "tenths", "a", "an",
      // about
      "about", "around", "roughly", "approximately", "approx", "appr", "circa", "ca", "c", "almost", "nearly",
      "just", "slightly", "bit", "little", "somewhere", "something", "close", "at", "up", "no", "between",
      // more, the rest
      "another", "further", "extra", "additional", "the", "rest", "remainder", "remaining", "few", "several",
      "overnight",
      // temperatures
      "gas", "regulo", "mark", "fan", "convection", "minus",
      // sizes
      "heaped", "heaping", "rounded", "heap", "round", "level", "flat", "scant", "nice", "really", "very",
      "big", "large", "small", "good", "generous", "decent", "tiny", "wee", "hefty", "healthy", "fat",
      "proper", "whole", "full", "huge", "well", "medium", "standard", "metric", "us", "imperial", "american",
      "british", "australian", "uk"};
  return kWords;
}

}  // namespace

bool may_start_amount(std::span<const Token> tokens, std::size_t at) {
  const auto& token = tokens[at];
  switch (token.kind) {
    case TokenKind::Number:
      return true;
    case TokenKind::Mark:
      return token.text == "-" || token.text == "~" || token.text == "≈";
    case TokenKind::Word:
      return first_words().contains(token.text) || unit_word_at(tokens, at, true).has_value();
  }
  return true;
}

}  // namespace panslate
