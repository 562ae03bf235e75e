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
    const bool size = is_size_word(found[i].folded, next) && found.size() > 1;
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

}  // namespace panslate
