#include "recipe/pan_size.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

#include "panslate/kitchen/token.h"

#include "recipe/word_list.h"

namespace panslate {

namespace {

// "23 cm", "9-inch", "23 x 33 cm": the sides of a tin, one past them.
struct Sides {
  std::vector<const Token*> sides;
  std::string unit;  // as written
  std::size_t end = 0;
};

class SizeReader {
 public:
  explicit SizeReader(const std::vector<Token>& tokens) : tokens_(tokens) {}

  [[nodiscard]] std::optional<Sides> at(std::size_t at) const {
    Sides read;
    std::optional<std::size_t> unit;
    while (at < tokens_.size() && tokens_[at].kind == TokenKind::Number && read.sides.size() < 2) {
      read.sides.push_back(&tokens_[at]);
      ++at;
      if (const auto after = unit_at(at)) {
        unit = is("-", at) ? at + 1 : at;
        at = *after;
      }
      if (!is("×", at) && !is("x", at) && !is("by", at)) break;
      ++at;
    }
    if (read.sides.empty() || !unit) return std::nullopt;
    const double least = tokens_[*unit].text == "cm" ? 10 : 4;  // smaller is a cutter or a piece of food
    for (const auto* side : read.sides)
      if (side->value.value() < least) return std::nullopt;
    read.unit = tokens_[*unit].raw;
    read.end = at;
    return read;
  }

  // The vessel that the size belongs to.
  [[nodiscard]] const Token* vessel_after(std::size_t at) const {
    for (auto i = at; i < tokens_.size() && i < at + 7; ++i) {
      if (is_one_of(tokens_[i].text, {"tin", "pan", "dish", "tray", "mould", "mold", "skillet", "ring"}))
        return &tokens_[i];
      if (!is_one_of(
              tokens_[i].text,
              {"round",       "square",    "loose",  "bottomed", "based", "springform", "cake", "baking",
               "roasting",    "loaf",      "pie",    "tart",     "flan",  "fluted",     "deep", "shallow",
               "rectangular", "ovenproof", "frying", "nonstick", "non",   "stick",      "-",    ","}))
        return nullptr;
    }
    return nullptr;
  }

 private:
  [[nodiscard]] bool is(std::string_view word, std::size_t at) const {
    return at < tokens_.size() && tokens_[at].text == word;
  }
  // One past the unit. "in" is one only as "9-in" or "9 in.": else it is "put 2 in the pan".
  [[nodiscard]] std::optional<std::size_t> unit_at(std::size_t at) const {
    const bool hyphen = is("-", at);
    if (hyphen) ++at;
    if (is("cm", at) || is("inch", at) || is("inches", at) || is("\"", at)) return at + 1;
    if (is("in", at) && hyphen) return at + 1;
    if (is("in", at) && is(".", at + 1)) return at + 2;
    return std::nullopt;
  }

  const std::vector<Token>& tokens_;
};

}  // namespace

std::string pan_remark(const Recipe& recipe, const Ratio& factor) {
  for (const auto& step : recipe.steps) {
    const auto tokens = tokenize(step.text);
    const SizeReader reader(tokens);
    for (std::size_t at = 0; at < tokens.size(); ++at) {
      const auto size = reader.at(at);
      const auto* vessel = size ? reader.vessel_after(size->end) : nullptr;
      if (vessel == nullptr) continue;
      std::string before;
      std::string now;
      for (const auto* side : size->sides) {
        if (!before.empty()) before += " x ", now += " x ";
        before += side->raw;
        now += std::to_string(std::llround(side->value.value() * std::sqrt(factor.value())));
      }
      std::string remark = "A ";
      for (const std::string_view part : std::initializer_list<std::string_view>{
               before, " ", size->unit, " ", vessel->text, " becomes one of about ", now, " ", size->unit,
               ", so that the food stands as high in it."})
        remark += part;
      return remark;
    }
  }
  return {};
}

}  // namespace panslate
