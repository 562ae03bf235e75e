#include "check/line_words.h"

#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/food.h"

#include "check/filler_words.h"

namespace panslate {

std::set<std::string> stems_of(const std::string& text) {
  std::set<std::string> stems;
  for (const auto& token : tokenize(text))
    if (token.kind == TokenKind::Word && !is_filler(token.text)) stems.insert(stem(token.text));
  return stems;
}

std::set<std::string> telling_stems(const Ingredient& ingredient) {
  auto stems = stems_of(ingredient.text);
  const auto tokens = tokenize(ingredient.text);
  for (const auto& scan : scan_amounts(tokens, SpokenOrWritten::Written)) {
    if (!scan.has_unit || scan.amount.unit == Unit::Can || scan.amount.unit == Unit::Jar) continue;
    for (auto at = scan.begin; at < scan.end; ++at) stems.erase(stem(tokens[at].text));
  }
  // "soft butter" and "butter, softened" are told apart by nothing.
  if (stems.erase("soften") > 0) stems.insert("soft");
  return stems;
}

}  // namespace panslate
