#include "recipe/line_shape.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/token.h"

#include "recipe/actions.h"

namespace panslate {

namespace {

constexpr std::size_t kHead = 120;  // no opening amount is longer

// The first `limit` bytes, not cutting a character.
std::string_view head_of(std::string_view text, std::size_t limit) {
  if (text.size() <= limit) return text;
  while (limit > 0 && (static_cast<unsigned char>(text[limit]) & 0xC0) == 0x80) --limit;
  return text.substr(0, limit);
}

bool is_food_amount(const ScannedAmount& scanned) {
  const auto dimension = dimension_of(scanned.amount.unit);
  return dimension != Dimension::Time && dimension != Dimension::Temperature &&
         (dimension != Dimension::Length || scanned.is_length);
}

// "Salt", "Brown sugar": verbs that open an ingredient line as often as a step.
bool is_also_food(std::string_view word) {
  static constexpr std::array<std::string_view, 18> kFoods = {
      "salt", "butter", "oil",   "juice", "cream", "brown", "zest", "toast", "mince",
      "stew", "roast",  "spoon", "smoke", "char",  "core",  "top",  "line",  "dry"};
  return std::find(kFoods.begin(), kFoods.end(), word) != kFoods.end();
}

}  // namespace

bool starts_with_amount(std::string_view text) {
  const auto tokens = tokenize(head_of(text, kHead));
  std::size_t at = 0;
  while (at < tokens.size() && at < 2 && tokens[at].kind == TokenKind::Mark) ++at;
  if (at >= tokens.size()) return false;
  const auto scanned = scan_amount(tokens, at, SpokenOrWritten::Written);
  return scanned && is_food_amount(*scanned);
}

bool ends_with_amount(std::string_view text) {
  if (text.size() > kHead) return false;
  const auto tokens = tokenize(text);
  const auto found = scan_amounts(tokens, SpokenOrWritten::Written);
  return !found.empty() && is_food_amount(found.back()) && found.back().end == tokens.size();
}

std::size_t word_count(std::string_view text) {
  std::size_t count = 0;
  bool inside = false;
  for (const char c : text) {
    const bool word = c != ' ';
    count += static_cast<std::size_t>(word && !inside);
    inside = word;
  }
  return count;
}

bool ends_sentence(std::string_view text) {
  while (!text.empty() && std::string_view(")\"'* ").find(text.back()) != std::string_view::npos)
    text.remove_suffix(1);
  return !text.empty() && std::string_view(".!?").find(text.back()) != std::string_view::npos;
}

bool starts_with_action(std::string_view text) {
  const auto tokens = tokenize(head_of(text, kHead));
  for (std::size_t i = 0; i < tokens.size() && i < 4; ++i) {
    if (tokens[i].kind == TokenKind::Number) return false;
    if (tokens[i].kind == TokenKind::Mark) continue;
    const auto action = action_of(tokens[i].text);
    if (action.kind != ActionKind::None && !action.is_past)
      return !is_also_food(tokens[i].text) || word_count(text) > 4;
    // "Gently heat", "In a bowl, mix", "To make the sauce, melt"
    if (tokens[i].text.size() > 4 && tokens[i].text.substr(tokens[i].text.size() - 2) == "ly") continue;
    return false;
  }
  return false;
}

bool looks_like_step(std::string_view text) {
  const auto words = word_count(text);
  if (starts_with_amount(text) && words <= 14) return false;
  if (starts_with_action(text) && words >= 3) return true;
  return words >= 9 && ends_sentence(text);
}

bool looks_like_ingredient(std::string_view text) {
  const auto words = word_count(text);
  if (starts_with_amount(text)) return words <= 25;
  if (ends_with_amount(text)) return words <= 12;
  return words <= 6 && !ends_sentence(text) && !starts_with_action(text) && !text.empty() &&
         text.back() != ':';
}

}  // namespace panslate
