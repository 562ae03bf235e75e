#include "recipe/ingredient_alternatives.h"

#include <span>
#include <utility>

#include "panslate/kitchen/amount_scan.h"

#include "recipe/ingredient_foods.h"
#include "recipe/ingredient_settle.h"
#include "recipe/ingredient_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

constexpr std::size_t kLongest = 8;  // tokens of a few food names; longer ones are a remark

std::vector<std::string> folded_tokens(const std::vector<Token>& tokens, std::size_t from, std::size_t to) {
  std::vector<std::string> out;
  for (auto i = from; i < to; ++i) out.push_back(tokens[i].text);
  return out;
}

bool is_food(const std::string& words) {
  const auto tokens = tokenize(words);
  return !tokens.empty() && food_words_at_start(folded_tokens(tokens, 0, tokens.size())) == tokens.size();
}

// "or ox cheek": a short name of a food that is not known, not "or more to taste".
bool could_name_food(const std::vector<Token>& tokens, std::size_t from, std::size_t to) {
  constexpr std::size_t kLongestUnknown = 3;
  if (to <= from || to - from > kLongestUnknown) return false;
  for (auto i = from; i < to; ++i) {
    const auto& token = tokens[i];
    if (token.kind != TokenKind::Word || is_preparation_word(token.text, {}) || is_manner_word(token.text) ||
        is_size_word(token.text, {}))
      return false;
    if (is_one_of(
            token.text,
            {"more",  "less",  "to",    "as",     "so",          "other",      "similar", "until",  "if",
             "any",   "about", "for",   "in",     "into",        "with",       "on",      "at",     "of",
             "the",   "your",  "use",   "enough", "extra",       "whatever",   "even",    "better", "not",
             "omit",  "none",  "such",  "like",   "from",        "equivalent", "without", "leave",  "left",
             "whole", "both",  "taste", "needed", "thereabouts", "half",       "two",     "three",  "one",
             "few",   "a",     "an",    "some",   "something",   "substitute", "ones",    "torn",   "ground",
             "fresh", "dried", "frozen"}))
      return false;
  }
  return true;
}

// What stands between "or" and the other food: "or |2 small| onions", "or use |1 tsp of| dried".
struct OwnAmount {
  std::size_t end = 0;  // where the food's name starts
  bool told = false;
  CountedAs counted = CountedAs::Nothing;
};

OwnAmount own_amount_at(const std::vector<Token>& tokens, std::size_t from, std::size_t to) {
  auto at = from;
  if (at < to && is_one_of(tokens[at].text, {"use", "try"})) ++at;
  const auto scanned = scan_amount(std::span(tokens).first(to), at, SpokenOrWritten::Written);
  if (!scanned) return {at};
  // "or ½ tsp each oregano, cumin": several together, none of which stands for the food alone.
  if (scanned->is_each || (scanned->end < to && tokens[scanned->end].text == "each")) return {from};
  at = scanned->end;
  while (at + 1 < to && (tokens[at].text == "of" || is_size_word(tokens[at].text, tokens[at + 1].text))) ++at;
  OwnAmount own{at, true};
  if (is_package(scanned->amount.unit))
    own.counted = CountedAs::Package;
  else if (!scanned->has_unit)
    own.counted = CountedAs::Pieces;
  return own;
}

// "soy sauce |if not gluten-free|", "butter |unless vegan|": when to take it is not part of its name.
std::size_t before_condition(const std::vector<Token>& tokens, std::size_t from, std::size_t to) {
  for (auto at = from; at < to; ++at)
    if (is_one_of(tokens[at].text, {"if", "unless", "when", "for"})) return at;
  return to;
}

void add_names(LineFoods names, std::vector<std::string>& or_foods) {
  or_foods.push_back(std::move(names.name));
  for (auto& other : names.or_foods) or_foods.push_back(std::move(other));
}

}  // namespace

bool take_alternative(const AlternativeWords& words, std::vector<std::string>& preparation,
                      std::vector<std::string>& or_foods) {
  const auto& [tokens, from, line_end, in_bracket] = words;
  if (tokens[from].text != "or") return false;
  const auto own = own_amount_at(tokens, from + 1, line_end);
  const auto food = own.end;
  const auto to = before_condition(tokens, food, line_end);
  if (to <= food || to - food >= kLongest) return false;
  auto names = read_food_names(tokens, food, to, own.counted);
  // "or 1 tin chopped tomatoes"
  auto bare = food;
  while (own.told && bare + 1 < to &&
         (is_preparation_word(tokens[bare].text, {}) || is_manner_word(tokens[bare].text)))
    ++bare;
  const bool known = food_words_at_start(folded_tokens(tokens, bare, to)) > 0;
  if (!known && !could_name_food(tokens, food, to)) return false;
  if (own.told && names.foods.size() > 1) return false;
  if (names.name.empty() || (!names.preparation.empty() && !own.told)) return false;
  std::vector<std::string> kept;
  for (auto& segment : preparation)
    (!in_bracket && is_food(segment) ? or_foods : kept).push_back(std::move(segment));
  preparation = std::move(kept);
  add_names(std::move(names), or_foods);
  return true;
}

bool take_listed_alternatives(const AlternativeWords& words, std::vector<std::string>& or_foods) {
  const auto& [tokens, from, to, in_bracket] = words;
  if (in_bracket || to - from > kLongest) return false;
  std::size_t found = 0;
  auto begin = from;
  for (auto i = from; i <= to; ++i) {
    if (i < to && tokens[i].text != "or") continue;
    const auto name = folded_tokens(tokens, begin, i);
    if (name.empty() || food_words_at_start(name) != name.size()) return false;
    ++found;
    begin = i + 1;
  }
  if (found < 2) return false;
  add_names(read_food_names(tokens, from, to, CountedAs::Nothing), or_foods);
  return true;
}

}  // namespace panslate
