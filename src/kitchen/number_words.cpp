#include "kitchen/number_words.h"

#include <array>
#include <string_view>
#include <unordered_set>
#include <utility>

#include "panslate/kitchen/food.h"

#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;
using Words = std::optional<NumberWords>;

struct Named {
  std::string_view word;
  int value;
};

constexpr std::array kUnits{Named{"one", 1},   Named{"two", 2},   Named{"three", 3},
                            Named{"four", 4},  Named{"five", 5},  Named{"six", 6},
                            Named{"seven", 7}, Named{"eight", 8}, Named{"nine", 9}};
constexpr std::array kTeens{Named{"ten", 10},      Named{"eleven", 11},    Named{"twelve", 12},
                            Named{"thirteen", 13}, Named{"fourteen", 14},  Named{"fifteen", 15},
                            Named{"sixteen", 16},  Named{"seventeen", 17}, Named{"eighteen", 18},
                            Named{"nineteen", 19}};
constexpr std::array kTens{Named{"twenty", 20},  Named{"thirty", 30}, Named{"forty", 40},
                           Named{"fourty", 40},  Named{"fifty", 50},  Named{"sixty", 60},
                           Named{"seventy", 70}, Named{"eighty", 80}, Named{"ninety", 90}};
constexpr std::array kZeros{Named{"zero", 0}, Named{"nought", 0}, Named{"naught", 0}, Named{"oh", 0},
                            Named{"o", 0}};
constexpr std::array kParts{
    Named{"half", 2},    Named{"halves", 2},   Named{"third", 3},  Named{"thirds", 3},
    Named{"quarter", 4}, Named{"quarters", 4}, Named{"fourth", 4}, Named{"fourths", 4},
    Named{"fifth", 5},   Named{"fifths", 5},   Named{"sixth", 6},  Named{"sixths", 6},
    Named{"eighth", 8},  Named{"eighths", 8},  Named{"tenth", 10}, Named{"tenths", 10}};

// Most words of a text are no number: one look instead of every list.
bool may_start_number(Tokens tokens, std::size_t at) {
  static const auto kWords = [] {
    std::unordered_set<std::string_view> words{"a",      "an",    "hundred", "thousand", "million",
                                               "couple", "dozen", "point",   "doz"};
    const auto add = [&](const auto& names) {
      for (const auto& name : names) words.insert(name.word);
    };
    add(kUnits);
    add(kTeens);
    add(kTens);
    add(kZeros);
    add(kParts);
    return words;
  }();
  if (at >= tokens.size()) return false;
  switch (tokens[at].kind) {
    case TokenKind::Number:
      return true;
    case TokenKind::Word:
      return kWords.contains(tokens[at].text);
    case TokenKind::Mark:
      return false;
  }
  return false;
}

template <std::size_t N>
std::optional<int> named(Tokens tokens, std::size_t at, const std::array<Named, N>& names) {
  if (at >= tokens.size() || tokens[at].kind != TokenKind::Word) return std::nullopt;
  for (const auto& name : names)
    if (tokens[at].text == name.word) return name.value;
  return std::nullopt;
}

bool is_figure(Tokens tokens, std::size_t at) {
  return at < tokens.size() && tokens[at].kind == TokenKind::Number;
}

// A hyphen grown into its neighbours, as in "twenty-five".
bool is_tight_hyphen(Tokens tokens, std::size_t at) {
  return is_text(tokens, at, "-") && !tokens[at].space_before && at + 1 < tokens.size() &&
         !tokens[at + 1].space_before;
}

std::size_t skip_hyphen(Tokens tokens, std::size_t at) {
  return is_tight_hyphen(tokens, at) ? at + 1 : at;
}

// 1 to 99.
Words below_hundred(Tokens tokens, std::size_t at) {
  if (const auto unit = named(tokens, at, kUnits)) {
    // "five and twenty minutes", the old way.
    const bool between = at > 0 && is_text(tokens, at - 1, "between");
    const auto tens =
        !between && is_text(tokens, at + 1, "and") ? named(tokens, at + 2, kTens) : std::nullopt;
    const bool counted = tens && unit_word_at(tokens, skip_hyphen(tokens, at + 3), false).has_value();
    return counted ? NumberWords{Ratio(*tens + *unit), at + 3} : NumberWords{Ratio(*unit), at + 1};
  }
  if (const auto teen = named(tokens, at, kTeens)) return NumberWords{Ratio(*teen), at + 1};
  const auto tens = named(tokens, at, kTens);
  if (!tens) return std::nullopt;
  const auto next = skip_hyphen(tokens, at + 1);
  if (const auto unit = named(tokens, next, kUnits)) return NumberWords{Ratio(*tens + *unit), next + 1};
  return NumberWords{Ratio(*tens), at + 1};
}

// "browny", "light", "smooth": which one.
bool is_kind_word(const std::string& word) {
  return is_descriptor(word) || (word.size() > 4 && word.back() == 'y' && !is_food_word(word));
}

bool sets_oven(Tokens tokens, std::size_t at) {
  constexpr std::size_t kReach = 5;
  for (auto k = at; k < tokens.size() && k < at + kReach; ++k)
    if (is_any(tokens, k, "degrees|celsius|fahrenheit|fan|minutes|mins|minute")) return true;
  return false;
}

// "one eighty", "three twenty-five", "two oh five": hundreds without the word, as ovens are set.
Words hundreds_unsaid(Tokens tokens, std::size_t at) {
  const auto hundreds = named(tokens, at, kUnits);
  if (!hundreds) return std::nullopt;
  // "it's the browny one seventy five grams of sugar": which one, and then how much.
  const bool which = is_text(tokens, at, "one") && at >= 2 && tokens[at - 1].kind == TokenKind::Word &&
                     is_any(tokens, at - 2, "the|that|this") && is_kind_word(tokens[at - 1].text) &&
                     !sets_oven(tokens, at);
  if (which) return std::nullopt;
  const auto next = skip_hyphen(tokens, at + 1);
  if (is_any(tokens, next, "oh|o")) {
    const auto unit = named(tokens, skip_hyphen(tokens, next + 1), kUnits);
    if (!unit) return std::nullopt;
    return NumberWords{Ratio(*hundreds * 100 + *unit), skip_hyphen(tokens, next + 1) + 1};
  }
  if (!named(tokens, next, kTeens) && !named(tokens, next, kTens)) return std::nullopt;
  auto rest = below_hundred(tokens, next);
  if (!rest) return std::nullopt;
  // "one eighty, one sixty fan" as captions have it, without the comma: two settings.
  const bool unit_said = rest->end > skip_hyphen(tokens, next + 1);
  if (unit_said && named(tokens, rest->end, kTens))
    rest = NumberWords{Ratio(*named(tokens, next, kTens)), next + 1};
  // "one thirty-minute rest", "five ten minutes": two numbers before a time.
  const auto unit = unit_word_at(tokens, skip_hyphen(tokens, rest->end), false);
  if (unit && dimension_of(unit->unit) == Dimension::Time) return std::nullopt;
  // "two fifteen ounce cans" are two of fifteen ounces; "a two fifty gram block" is one of 250.
  const bool article = at > 0 && is_any(tokens, at - 1, "a|an");
  if (unit && !unit->plural && unit->kind == UnitWordKind::Measure && !article) {
    const auto container = unit_word_at(tokens, skip_hyphen(tokens, unit->end), false);
    if (container && container->kind != UnitWordKind::Measure) return std::nullopt;
  }
  return NumberWords{*Ratio(std::int64_t{*hundreds} * 100).plus(rest->value), rest->end};
}

// The words after "hundred" or "thousand": "and eighty", "eighty".
Words remainder_at(Tokens tokens, std::size_t at, Words (*read)(Tokens, std::size_t)) {
  auto next = skip_hyphen(tokens, at);
  if (is_text(tokens, next, "and")) next = skip_hyphen(tokens, next + 1);
  return read(tokens, next);
}

NumberWords times(const NumberWords& count, std::int64_t scale, std::size_t end) {
  return {count.value.times(Ratio(scale)).value_or(count.value), end};
}

NumberWords add_rest(NumberWords head, const Words& rest) {
  if (!rest) return head;
  return {head.value.plus(rest->value).value_or(head.value), rest->end};
}

Words below_thousand(Tokens tokens, std::size_t at) {
  if (const auto unsaid = hundreds_unsaid(tokens, at)) return unsaid;
  auto count = below_hundred(tokens, at);
  if (!count && is_any(tokens, at, "a") && is_text(tokens, at + 1, "hundred")) count = NumberWords{1, at + 1};
  if (!count && is_text(tokens, at, "hundred")) count = NumberWords{1, at};
  if (!count) return std::nullopt;
  const auto hundred = skip_hyphen(tokens, count->end);
  if (!is_text(tokens, hundred, "hundred")) return count->end == at ? std::nullopt : count;
  return add_rest(times(*count, 100, hundred + 1), remainder_at(tokens, hundred + 1, below_hundred));
}

Words below_million(Tokens tokens, std::size_t at) {
  auto count = below_thousand(tokens, at);
  if (!count && is_text(tokens, at, "a") && is_text(tokens, at + 1, "thousand"))
    count = NumberWords{1, at + 1};
  if (!count && is_text(tokens, at, "thousand")) count = NumberWords{1, at};
  if (!count) return std::nullopt;
  const auto thousand = skip_hyphen(tokens, count->end);
  if (!is_text(tokens, thousand, "thousand")) return count;
  return add_rest(times(*count, 1000, thousand + 1), remainder_at(tokens, thousand + 1, below_thousand));
}

Words in_words(Tokens tokens, std::size_t at) {
  auto count = below_million(tokens, at);
  if (!count && is_text(tokens, at, "a") && is_text(tokens, at + 1, "million"))
    count = NumberWords{1, at + 1};
  if (!count || !is_text(tokens, skip_hyphen(tokens, count->end), "million")) return count;
  const auto million = skip_hyphen(tokens, count->end);
  return add_rest(times(*count, 1'000'000, million + 1), remainder_at(tokens, million + 1, below_million));
}

// "2 hundred", "1.5 thousand", as recognisers write.
Words in_figures(Tokens tokens, std::size_t at) {
  if (!is_figure(tokens, at)) return std::nullopt;
  const NumberWords count{tokens[at].value, at + 1};
  if (is_text(tokens, at + 1, "hundred"))
    return add_rest(times(count, 100, at + 2), remainder_at(tokens, at + 2, below_hundred));
  if (is_text(tokens, at + 1, "thousand"))
    return add_rest(times(count, 1000, at + 2), remainder_at(tokens, at + 2, below_thousand));
  if (is_text(tokens, at + 1, "million")) return times(count, 1'000'000, at + 2);
  return count;
}

// The digits after "point": "two five", "twenty-five", "oh five", "5".
Words decimals_at(Tokens tokens, std::size_t at) {
  constexpr std::size_t kMostDecimals = 6;
  std::int64_t num = 0;
  std::int64_t den = 1;
  std::size_t end = at;
  for (std::size_t i = 0; i < kMostDecimals; ++i) {
    auto digit = named(tokens, end, kUnits);
    if (!digit) digit = named(tokens, end, kZeros);
    if (!digit) break;
    num = num * 10 + *digit;
    den *= 10;
    ++end;
  }
  if (den == 1) {
    const auto pair = below_hundred(tokens, at);
    if (pair) {
      num = pair->value.num();
      den = 100;
      end = pair->end;
    } else if (is_figure(tokens, at) && tokens[at].value.is_whole() && tokens[at].text.size() <= 3) {
      num = tokens[at].value.num();
      for (std::size_t i = 0; i < tokens[at].text.size(); ++i) den *= 10;
      end = at + 1;
    } else {
      return std::nullopt;
    }
  }
  return NumberWords{*Ratio::make(num, den), end};
}

// "two point five", "point five", "nought point two", "two comma five".
Words decimal_at(Tokens tokens, std::size_t at) {
  auto whole = in_words(tokens, at);
  if (!whole && named(tokens, at, kZeros) && !is_any(tokens, at, "o")) whole = NumberWords{0, at + 1};
  if (!whole && is_figure(tokens, at) && tokens[at].value.is_whole())
    whole = NumberWords{tokens[at].value, at + 1};
  if (!whole) {
    // "at this point two eggs": the point of a sentence.
    if (at > 0 && is_any(tokens, at - 1, "this|that|the|which|some|what|at|one|a|certain|any"))
      return std::nullopt;
    whole = NumberWords{0, at};
  } else if (at > 0 && is_text(tokens, at - 1, "at") && is_text(tokens, at, "one")) {
    return std::nullopt;
  }
  // "two comma two kilos", as it is said where figures have a comma.
  if (!is_any(tokens, whole->end, "point|comma")) return std::nullopt;
  const auto decimals = decimals_at(tokens, whole->end + 1);
  if (!decimals) return std::nullopt;
  return NumberWords{*whole->value.plus(decimals->value), decimals->end};
}

bool is_unit_ahead(Tokens tokens, std::size_t at) {
  return unit_word_at(tokens, skip_hyphen(tokens, at), false).has_value();
}

// "a half", "one quarter", "three quarters", "half", "3/4": the part after "and", or alone.
Words fraction_at(Tokens tokens, std::size_t at) {
  if (is_figure(tokens, at) && !tokens[at].value.is_whole() && tokens[at].value < Ratio(1))
    return NumberWords{tokens[at].value, at + 1};
  if (is_text(tokens, at, "half")) return NumberWords{*Ratio::make(1, 2), at + 1};
  std::int64_t count = 0;
  std::size_t part_at = at;
  if (is_any(tokens, at, "a|an")) {
    count = 1;
    part_at = at + 1;
  } else if (const auto unit = named(tokens, at, kUnits)) {
    count = *unit;
    part_at = skip_hyphen(tokens, at + 1);
  } else if (is_figure(tokens, at) && tokens[at].value.is_whole() && tokens[at].value < Ratio(10)) {
    count = tokens[at].value.num();
    part_at = skip_hyphen(tokens, at + 1);
  } else if (named(tokens, at, kParts) && (is_unit_ahead(tokens, at + 1) || is_text(tokens, at + 1, "of"))) {
    // "quarter teaspoon", "third of a cup"; "quarter the lemons" is a verb.
    count = 1;
  } else {
    return std::nullopt;
  }
  const auto part = named(tokens, part_at, kParts);
  if (!part || count >= *part) return std::nullopt;
  return NumberWords{*Ratio::make(count, *part), part_at + 1};
}

// "a third of", "a third cup"; "a third time" is an ordinal.
bool is_fraction_meant(Tokens tokens, std::size_t at, const NumberWords& fraction) {
  if (is_figure(tokens, at) || is_text(tokens, fraction.end - 1, "half")) return true;
  const auto& part = tokens[fraction.end - 1].text;
  if (part.back() == 's' || part == "quarter") return true;
  return is_text(tokens, fraction.end, "of") || is_unit_ahead(tokens, fraction.end) ||
         (is_text(tokens, at, "one") && fraction.end == tokens.size());
}

// "and a half", "and three quarters", "& 1/2", "and a bit" after a whole number.
Words mixed_at(Tokens tokens, const NumberWords& whole) {
  auto at = whole.end;
  if (is_tight_hyphen(tokens, at) && is_figure(tokens, at - 1)) {
    // "1-1/2 cups": no range goes down from 1 to a half.
    const auto part = is_figure(tokens, at + 1) ? fraction_at(tokens, at + 1) : std::nullopt;
    if (!part || !whole.value.is_whole()) return std::nullopt;
    return NumberWords{*whole.value.plus(part->value), part->end};
  }
  at = skip_hyphen(tokens, at);
  if (!is_any(tokens, at, "and|&|n")) return std::nullopt;
  at = skip_hyphen(tokens, at + 1);
  if (is_text(tokens, at, "a") && is_any(tokens, at + 1, "bit|little"))
    return NumberWords{whole.value, at + 2, true};
  auto part = fraction_at(tokens, at);
  // "one and a 1/2 cups", as captions mix words and figures.
  if (is_text(tokens, at, "a") && is_figure(tokens, at + 1) && tokens[at + 1].value < Ratio(1))
    part = fraction_at(tokens, at + 1);
  if (is_text(tokens, at, "a") && is_tight_hyphen(tokens, at + 1)) {
    part = fraction_at(tokens, at + 2);
  }
  if (!part) return std::nullopt;
  // "add two and half the butter": a share of the butter follows.
  if (is_text(tokens, at, "half") && is_any(tokens, part->end, "the|of|a|an|this|that|my|your|it"))
    return std::nullopt;
  if (is_any(tokens, part->end, "of") &&
      is_any(tokens, part->end + 1, "the|that|this|it|my|your|those|these"))
    return std::nullopt;
  return NumberWords{*whole.value.plus(part->value), part->end};
}

// Past "dozen", or "doz." with its full stop.
std::size_t after_dozen(Tokens tokens, std::size_t dozen) {
  const bool stop = is_text(tokens, dozen, "doz") && is_text(tokens, dozen + 1, ".") &&
                    !tokens[dozen + 1].space_before && dozen + 2 < tokens.size();
  return stop ? dozen + 2 : dozen + 1;
}

// "a couple of", "a dozen", "half a dozen".
Words collective_at(Tokens tokens, std::size_t at) {
  auto word = at;
  if (is_text(tokens, at, "a")) ++word;
  if (is_text(tokens, word, "couple")) {
    const auto after = word + 1;
    if (is_text(tokens, after, "dozen")) return NumberWords{24, after + 1};
    if (is_text(tokens, after, "of") && is_text(tokens, after + 1, "dozen"))
      return NumberWords{24, after + 2};
    if (is_text(tokens, after, "of") && is_text(tokens, after + 1, "hundred"))
      return NumberWords{200, after + 2};
    if (is_text(tokens, after, "hundred")) return NumberWords{200, after + 1};
    if (is_text(tokens, after, "of")) return NumberWords{2, after + 1};
    if (word == at && !is_unit_ahead(tokens, after)) return std::nullopt;
    return NumberWords{2, after};
  }
  if (is_text(tokens, word, "dozen")) return NumberWords{12, word + 1};
  if (is_text(tokens, at, "half")) {
    const auto dozen = is_text(tokens, at + 1, "a") ? at + 2 : skip_hyphen(tokens, at + 1);
    if (is_text(tokens, dozen, "dozen")) return NumberWords{6, dozen + 1};
  }
  return std::nullopt;
}

}  // namespace

bool is_text(Tokens tokens, std::size_t at, std::string_view text) {
  return at < tokens.size() && tokens[at].text == text;
}

bool is_any(Tokens tokens, std::size_t at, std::string_view alternatives) {
  if (at >= tokens.size()) return false;
  const std::string_view text = tokens[at].text;
  for (auto found = alternatives.find(text); found != std::string_view::npos;
       found = alternatives.find(text, found + 1)) {
    const auto end = found + text.size();
    if ((found == 0 || alternatives[found - 1] == '|') &&
        (end == alternatives.size() || alternatives[end] == '|'))
      return true;
  }
  return false;
}

std::optional<NumberWords> cardinal_at(Tokens tokens, std::size_t at) {
  if (!may_start_number(tokens, at)) return std::nullopt;
  if (const auto figures = in_figures(tokens, at)) return figures;
  return in_words(tokens, at);
}

std::optional<NumberWords> number_at(Tokens tokens, std::size_t at) {
  if (!may_start_number(tokens, at)) return std::nullopt;
  // "00 flour" counts nothing.
  if (is_figure(tokens, at) && tokens[at].text.size() > 1 &&
      tokens[at].text.find_first_not_of('0') == std::string::npos)
    return std::nullopt;
  if (const auto collective = collective_at(tokens, at)) return collective;
  if (const auto decimal = decimal_at(tokens, at)) {
    if (const auto mixed = mixed_at(tokens, *decimal)) return mixed;
    return decimal;
  }
  const auto fraction = fraction_at(tokens, at);
  if (fraction && is_fraction_meant(tokens, at, *fraction)) return fraction;
  auto whole = cardinal_at(tokens, at);
  if (!whole) {
    if (is_any(tokens, at, "zero|nought|naught")) return NumberWords{0, at + 1};
    return std::nullopt;
  }
  const auto dozen = skip_hyphen(tokens, whole->end);
  if (is_any(tokens, dozen, "dozen|doz"))
    return NumberWords{*whole->value.times(Ratio(12)), after_dozen(tokens, dozen)};
  if (const auto mixed = mixed_at(tokens, *whole)) {
    // "two and a half thousand".
    if (is_text(tokens, mixed->end, "hundred")) return times(*mixed, 100, mixed->end + 1);
    if (is_text(tokens, mixed->end, "thousand")) return times(*mixed, 1000, mixed->end + 1);
    return mixed;
  }
  return whole;
}

}  // namespace panslate
