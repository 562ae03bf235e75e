#include "recipe/line_tokens.h"

#include <span>
#include <utility>

#include "panslate/base/text.h"

#include "recipe/ingredient_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

bool is_food_amount(const ScannedAmount& scanned) {
  const auto dimension = dimension_of(scanned.amount.unit);
  return dimension != Dimension::Time && dimension != Dimension::Temperature;
}

bool is_bare_count(const Token& token) {
  return token.kind == TokenKind::Number ||
         is_one_of(token.text, {"a", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
                                "ten", "twelve"});
}

}  // namespace

LineTokens::LineTokens(std::string text) : text_(std::move(text)), tokens_(tokenize(text_)) {}

std::string_view LineTokens::word(std::size_t at) const {
  return at < end_ ? std::string_view(tokens_[at].text) : std::string_view{};
}
std::string_view LineTokens::mark(std::size_t at) const {
  return at < end_ && tokens_[at].kind == TokenKind::Mark ? std::string_view(tokens_[at].text)
                                                          : std::string_view{};
}

std::string LineTokens::words(std::size_t from, std::size_t to) const {
  while (from < to && is_one_of(mark(from), {",", ";", "-", ":", "|", "/", "+"})) ++from;
  while (to > from && is_one_of(mark(to - 1), {",", ";", "-", ":", "|", "/", "."})) --to;
  if (from >= to) return {};
  return collapse_spaces(
      std::string_view(text_).substr(tokens_[from].begin, tokens_[to - 1].end - tokens_[from].begin));
}

void LineTokens::drop_end_marks() {
  end_ = tokens_.size();
  while (end_ > 0 && is_one_of(mark(end_ - 1), {".", ",", ";", ":", "*"})) --end_;
  if (mark(begin_) == "-" && mark(begin_ + 1) == "[") ++begin_;
  if (mark(begin_) == "[" && (mark(begin_ + 1) == "]" || mark(begin_ + 2) == "]"))
    begin_ += mark(begin_ + 1) == "]" ? 2 : 3;
  // List marks and pictures that were left on; "~" belongs to the amount.
  while (begin_ < end_ && !mark(begin_).empty() && !is_one_of(mark(begin_), {"(", "[", "~", "%", "&"}))
    ++begin_;
}

// Takes size words out of the part before the first comma or bracket; what stands in brackets is told as it
// is.
void LineTokens::drop_sizes(std::size_t from) {
  auto stop = from;
  while (stop < end_ && !is_one_of(mark(stop), {",", ";", "("})) ++stop;
  std::vector<Token> kept(tokens_.begin(), tokens_.begin() + static_cast<std::ptrdiff_t>(from));
  const auto found = line_words(tokens_, from, stop);
  std::size_t at = from;
  for (std::size_t i = 0; i < found.size(); ++i) {
    const std::string_view next =
        i + 1 < found.size() ? std::string_view(found[i + 1].folded) : std::string_view{};
    for (; at < found[i].begin; ++at) kept.push_back(tokens_[at]);
    const bool egg_size = found[i].folded == "size" && i + 2 < found.size() &&
                          tokens_[found[i + 1].begin].kind == TokenKind::Number;
    const std::string_view after =
        i + 2 < found.size() ? std::string_view(found[i + 2].folded) : std::string_view{};
    const bool counted = i > 0 && is_bare_count(tokens_[found[i - 1].begin]);
    const bool size = found.size() > 1 &&
                      (is_size_word(found[i].folded, next) ||
                       is_size_before_quality(found[i].folded, next, counted || is_counted_thing(after)));
    const bool full_stop = size && is_one_of(found[i].folded, {"sm", "lg", "med", "lrg", "lge"}) &&
                           mark(found[i].end) == "." && !tokens_[found[i].end].space_before;
    if (full_stop && i + 1 < found.size() && found[i + 1].begin == found[i].end) ++i;
    if (size)
      at = found[i].end;
    else if (egg_size)
      at = found[++i].end;
    else
      for (; at < found[i].end; ++at) kept.push_back(tokens_[at]);
  }
  for (; at < tokens_.size(); ++at) kept.push_back(tokens_[at]);
  end_ -= tokens_.size() - kept.size();
  tokens_ = std::move(kept);
}

std::optional<ScannedAmount> LineTokens::scan(std::size_t at) const {
  if (at >= end_) return std::nullopt;
  auto scanned = scan_amount(std::span(tokens_).first(end_), at, SpokenOrWritten::Written);
  if (!scanned || !is_food_amount(*scanned)) return std::nullopt;
  // "70% chocolate", "2% milk": a strength.
  if (!scanned->has_unit && mark(scanned->end) == "%") return std::nullopt;
  if (scanned->has_unit || scanned->end >= end_) return scanned;
  // "00 flour", "5-spice": a name.
  if (tokens_[at].kind == TokenKind::Number && tokens_[at].raw.size() > 1 && tokens_[at].raw[0] == '0' &&
      tokens_[at].raw.find_first_not_of('0') == std::string::npos)
    return std::nullopt;
  return scanned;
}

std::size_t LineTokens::bracket_end(std::size_t open) const {
  int depth = 0;
  for (auto at = open; at < end_; ++at) {
    if (mark(at) == "(" || mark(at) == "[") ++depth;
    if ((mark(at) == ")" || mark(at) == "]") && --depth == 0) return at;
  }
  return end_;
}

// "half a 400 g tin of lentils"
std::optional<ScannedAmount> LineTokens::part_of_package(const ScannedAmount& part) const {
  if (part.has_unit || !part.amount.value) return std::nullopt;
  auto at = part.end;
  while (is_one_of(word(at), {"of", "a", "an", "the"})) ++at;
  auto package = scan(at);
  if (!package || !package->amount.each || !package->amount.value) return std::nullopt;
  const auto value = package->amount.value->times(*part.amount.value);
  if (!value) return std::nullopt;
  package->amount.value = value;
  return package;
}

// "1 (2-inch) piece ginger"
bool LineTokens::is_length_bracket(std::size_t open) const {
  const auto close = bracket_end(open);
  const auto scanned = scan(open + 1);
  if (close >= end_ || !scanned || scanned->end < close) return false;
  if (scanned->is_length && scanned->end > close + 1) return false;
  return scanned->is_length || dimension_of(scanned->amount.unit) == Dimension::Length;
}

bool LineTokens::is_whole_amount(std::size_t from, std::size_t to) const {
  const auto scanned = scan(from);
  return scanned && scanned->has_unit && scanned->end == to;
}

// "2 flax eggs (2 tbsp ground flaxseed + 5 tbsp water)": what it is made of, not how much of it is wanted.
bool LineTokens::lists_foods(std::size_t from, std::size_t to) const {
  const auto first = scan(from);
  if (!first || !first->has_unit || first->end >= to || !mark(first->end).empty()) return false;
  for (auto at = first->end + 1; at + 1 < to; ++at) {
    if (!is_one_of(word(at), {"+", "plus", "and", "&", "with"})) continue;
    const auto next = scan(at + 1);
    if (next && next->has_unit && next->end < to && mark(next->end).empty()) return true;
  }
  return false;
}

// "if liked", "if you have it", "if using".
bool LineTokens::leaves_it_to_the_cook(std::size_t from, std::size_t to) const {
  if (word(from) != "if" || to - from > 5) return false;
  return (is_one_of(word(from + 1), {"liked", "using", "desired", "wanted", "preferred", "wished"}) &&
          to - from == 2) ||
         (word(from + 1) == "you" &&
          is_one_of(word(from + 2), {"like", "have", "want", "wish", "prefer", "fancy", "must", "care"})) ||
         (word(from + 1) == "you're" && is_one_of(word(from + 2), {"using", "feeling"}));
}

}  // namespace panslate
