#pragma once

#include <span>
#include <string>
#include <vector>

#include "panslate/base/ratio.h"
#include "panslate/kitchen/amount.h"
#include "panslate/kitchen/token.h"
#include "panslate/kitchen/unit.h"

/// How numbers and amounts are spoken: the other way round from scan_amount, which reads each of these back
/// as the same amount. Words are in lower case. For whoever listens for them: many ways, the usual first.
namespace panslate {

/// One way to say something: its words.
using WayToSay = std::vector<std::string>;

enum class Count : bool { One, More };

/// "two hundred and fifty", "two hundred fifty", "two fifty"; "one and a half", "one point five"; "three
/// quarters". Whole numbers from 0 to a million, halves to eighths and tenths, decimals to three places;
/// empty for others.
[[nodiscard]] std::vector<WayToSay> ways_to_say(const Ratio& number);

/// The words cooks say for a unit: "gram"; "mil", "millilitre", "milliliter". Common practice, no source.
/// Empty for pieces, other nouns and gas marks.
[[nodiscard]] std::vector<WayToSay> words_for(Unit unit, Count count);

/// Ways to say an amount with a number: "half a teaspoon", "a cup and a half", "an hour and a half" and
/// "ninety minutes", "one eighty", "a hundred and eighty degrees", "two four hundred gram tins". Empty
/// without a number.
[[nodiscard]] std::vector<WayToSay> ways_to_say(const Amount& amount);

/// How written tokens are read out word by word: "another ½ tsp" as "another half a teaspoon", "12–15 min" as
/// "twelve to fifteen minutes". At most 200 ways; empty when a token has none.
[[nodiscard]] std::vector<WayToSay> ways_to_read_out(std::span<const Token> tokens);

}  // namespace panslate
