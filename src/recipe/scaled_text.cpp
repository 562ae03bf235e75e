#include "recipe/scaled_text.h"

#include <algorithm>
#include <string_view>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "recipe/word_list.h"

namespace panslate {

namespace {

bool is_many(const Amount& amount) {
  return amount.value && (Ratio(1) < *amount.value || amount.to);
}

// "onion" of "onions" and the reverse; the word itself where English has no rule for it that the names of
// foods confirm.
std::string counted(const std::string& word, bool many) {
  const auto agrees = [&](const std::string& other) {
    return name_stem(fold_accents(other)) == name_stem(fold_accents(word)) && !other.empty();
  };
  const auto cut = [&](std::size_t letters) {
    return word.substr(0, word.size() - std::min(letters, word.size()));
  };
  const auto ends = [&](std::string_view end) { return word.ends_with(end); };
  const bool is_plural = ends("s") && !ends("ss") && !ends("us") && agrees(cut(1));
  if (many == is_plural || word.size() < 3) return word;
  std::string other;
  if (many) {
    const bool hisses = ends("ss") || ends("x") || ends("ch") || ends("sh") || ends("to") || ends("go");
    const bool to_ies = ends("y") && !ends("ay") && !ends("ey") && !ends("oy");
    other = hisses ? word + "es" : to_ies ? cut(1) + "ies" : ends("af") ? cut(1) + "ves" : word + "s";
  } else {
    const bool hissed =
        ends("sses") || ends("xes") || ends("ches") || ends("shes") || ends("toes") || ends("goes");
    other = ends("ies") ? cut(3) + "y" : ends("aves") ? cut(3) + "f" : cut(hissed ? 2 : 1);
  }
  return agrees(other) ? other : word;
}

// What stands for the tokens [begin, end) of the line.
struct Piece {
  std::size_t begin = 0, end = 0;
  std::string text;
};

bool is_added(const std::vector<Token>& tokens, std::size_t at) {
  for (auto before = at; before-- > 0 && at - before < 3;) {
    if (is_one_of(tokens[before].text, {"plus", "+"})) return true;
    if (!is_one_of(tokens[before].text, {"another", "extra", "about", "a", "further"})) return false;
  }
  return false;
}

// "(or 2 small onions)", "or use 1 tsp dried": the other food's own amount.
bool is_of_alternative(const std::vector<Token>& tokens, std::size_t at) {
  while (at > 0 && is_one_of(tokens[at - 1].text, {"use", "about", "try"})) --at;
  return at > 0 && tokens[at - 1].text == "or";
}

// "(2 tbsp ground flaxseed + 5 tbsp water)": what the food is made of, told in a bracket that starts with an
// amount.
bool is_of_mixture(const std::vector<Token>& tokens, const std::vector<ScannedAmount>& found, std::size_t i) {
  const auto in_bracket_of = [&](std::size_t k) { return k > 0 && tokens[k - 1].text == "("; };
  const auto joined = [&](std::size_t k) {
    if (k >= found.size() || k == 0 || found[k].begin < 2) return false;
    for (auto at = found[k - 1].end; at < found[k].begin; ++at)
      if (is_one_of(tokens[at].text, {"(", ")", ";"})) return false;
    return is_one_of(tokens[found[k].begin - 1].text, {"+", "plus", "and", "&", "with"});
  };
  auto first = i;
  constexpr std::size_t kMostParts = 32;
  while (i - first < kMostParts && joined(first)) --first;
  return in_bracket_of(found[first].begin) && (first < i || joined(i + 1));
}

// "2 × 2cm piece of ginger", "4 × 3-inch pieces": so many of the same length.
std::string times_the_length(const std::vector<Token>& tokens, const ScannedAmount& one,
                             const std::string& line, const Amount& count) {
  const auto next = scan_amount(tokens, one.begin + 1, SpokenOrWritten::Written);
  const auto rest = next && next->is_length && next->end == one.end ? one.begin + 1 : one.begin;
  const auto begin = tokens[rest].begin;
  return to_text(count) + " \xC3\x97 " + line.substr(begin, tokens[one.end - 1].end - begin);
}

bool is_amount_of_food(const ScannedAmount& one) {
  const auto dimension = dimension_of(one.amount.unit);
  return one.amount.value && !one.is_length && !one.is_share &&
         (dimension == Dimension::Mass || dimension == Dimension::Volume || dimension == Dimension::Count);
}

}  // namespace

std::string scaled_text(const Ingredient& ingredient, const Amount& sensible,
                        const std::function<Amount(const Amount&)>& scaled) {
  const auto tokens = tokenize(ingredient.text);
  const auto found = scan_amounts(tokens, SpokenOrWritten::Written);
  if (found.empty() || ingredient.amounts.empty()) return {};
  const auto& leading = ingredient.amounts.front();
  if (found.front().amount.value != leading.value || found.front().amount.to != leading.to) return {};
  std::vector<Piece> pieces;
  for (std::size_t i = 0; i < found.size(); ++i) {
    const auto& one = found[i];
    const bool same = i > 0 && std::find(ingredient.amounts.begin() + 1, ingredient.amounts.end(),
                                         one.amount) != ingredient.amounts.end();
    if (i > 0 && (!is_amount_of_food(one) ||
                  (!same && !is_added(tokens, one.begin) && !is_of_alternative(tokens, one.begin) &&
                   !is_of_mixture(tokens, found, i))))
      continue;
    auto amount = i == 0 ? sensible : scaled(one.amount);
    if (i == 0 && !one.has_unit) amount.unit = Unit::Piece;  // "2 garlic cloves": the unit stands after
    if (i == 0 && one.is_length) {
      pieces.push_back({one.begin, one.end, times_the_length(tokens, one, ingredient.text, amount)});
      continue;
    }
    auto text = to_text(amount);
    std::string also;
    for (const auto& other : one.alternates) also += (also.empty() ? "" : ", ") + to_text(scaled(other));
    if (!also.empty()) text += " (" + also + ")";
    pieces.push_back({one.begin, one.end, std::move(text)});
  }
  // The food that is counted: the last word of its name.
  const auto name = tokenize(ingredient.name);
  if (!found.front().has_unit && !name.empty() && is_many(leading) != is_many(sensible))
    for (auto at = found.front().end; at < tokens.size(); ++at)
      if (tokens[at].text == name.back().text || tokens[at].text == "piece") {  // "1 (2-inch) piece ginger"
        pieces.push_back({at, at + 1, counted(tokens[at].raw, is_many(sensible))});
        break;
      }
  std::sort(pieces.begin(), pieces.end(), [](const auto& a, const auto& b) { return a.begin < b.begin; });
  std::string text;
  std::size_t from = 0;
  for (const auto& piece : pieces) {
    const auto begin = tokens[piece.begin].begin;
    if (begin < from) continue;
    text += ingredient.text.substr(from, begin - from) + piece.text;
    from = tokens[piece.end - 1].end;
    const bool joined = from < ingredient.text.size() && piece.end < tokens.size() &&
                        !tokens[piece.end].space_before && tokens[piece.end].kind == TokenKind::Word;
    if (joined) text += ' ';
  }
  return text + ingredient.text.substr(from);
}

}  // namespace panslate
