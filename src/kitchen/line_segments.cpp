#include "kitchen/line_segments.h"

#include <algorithm>
#include <optional>

#include "panslate/kitchen/claim_words.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

namespace panslate {

namespace {

// Where a new segment begins at this token; empty where none does.
std::optional<SegmentOpener> opener_of(const Token& token) {
  const std::string_view text = token.text;
  if (token.kind == TokenKind::Mark) {
    if (text == "/") return SegmentOpener::Choice;
    if (text == "&" || text == "+") return SegmentOpener::Also;
    // "dairy-free" is one word; "butter - dairy-free" has an aside.
    if (text == "-") return token.space_before ? std::optional(SegmentOpener::Mark) : std::nullopt;
    const bool cuts = text == "(" || text == ")" || text == "[" || text == "]" || text == "," ||
                      text == ";" || text == ":" || text == "." || text == "!" || text == "?";
    return cuts ? std::optional(SegmentOpener::Mark) : std::nullopt;
  }
  if (text == "and") return SegmentOpener::Also;
  if (text == "or") return SegmentOpener::Choice;
  if (text == "plus" || text == "with" || text == "for" || text == "in") return SegmentOpener::Purpose;
  return std::nullopt;
}

}  // namespace

std::size_t SegmentedLine::segment_index(std::size_t word) const {
  const auto after =
      std::upper_bound(segments.begin(), segments.end(), word,
                       [](std::size_t at, const LineSegment& segment) { return at < segment.begin; });
  return static_cast<std::size_t>(after - segments.begin()) - 1;
}

SegmentedLine segments_of(std::string_view line) {
  SegmentedLine cut;
  LineSegment here;
  std::size_t brackets = 0;
  const auto close = [&](SegmentOpener opener, std::size_t aside) {
    here.end = cut.words.size();
    // An opener that follows another at once ("(or", ", plus") tells more than the mark.
    const bool empty = here.end == here.begin;
    if (!empty) cut.segments.push_back(here);
    if (!empty || opener != SegmentOpener::Mark || aside != here.aside) here.opener = opener;
    here.begin = here.end;
    here.aside = aside;
    here.conditional = false;
  };
  for (const auto& token : tokenize(line)) {
    if (const auto opener = opener_of(token)) {
      const bool opens = token.text == "(" || token.text == "[";
      const bool closes = token.text == ")" || token.text == "]";
      close(*opener, opens ? ++brackets : closes ? 0 : here.aside);
    } else if (token.kind != TokenKind::Mark) {
      cut.words.push_back(name_stem(token.text));
      here.conditional = here.conditional || is_claim_word(ClaimWord::Condition, token.text);
    }
  }
  close(SegmentOpener::Mark, 0);
  return cut;
}

}  // namespace panslate
