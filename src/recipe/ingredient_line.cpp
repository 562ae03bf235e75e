#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/token.h"
#include "panslate/recipe/recipe.h"

#include "recipe/ingredient_foods.h"
#include "recipe/ingredient_settle.h"
#include "recipe/ingredient_words.h"
#include "recipe/markup.h"
#include "recipe/table_row.h"

namespace panslate {

namespace {

constexpr std::size_t kLongestLine = 4000;  // bytes that are read for amounts; a longer line is prose

bool is_any(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_food_amount(const ScannedAmount& scanned) {
  const auto dimension = dimension_of(scanned.amount.unit);
  return dimension != Dimension::Time && dimension != Dimension::Temperature;
}

class LineReader {
 public:
  explicit LineReader(std::string text) : text_(std::move(text)), tokens_(tokenize(text_)) {}

  Ingredient read() {
    drop_end_marks();
    optional_prefix();
    const auto start = drop_sizes(begin_);
    begin_ = part_prefix(start);
    leading_amount();
    if (out_.amounts.empty()) trailing_amount();
    main_part();
    tail();
    finish();
    return std::move(out_);
  }

 private:
  std::string_view word(std::size_t at) const {
    return at < end_ ? std::string_view(tokens_[at].text) : std::string_view{};
  }
  std::string_view mark(std::size_t at) const {
    return at < end_ && tokens_[at].kind == TokenKind::Mark ? std::string_view(tokens_[at].text)
                                                            : std::string_view{};
  }

  std::string words(std::size_t from, std::size_t to) const {
    while (from < to && is_any(mark(from), {",", ";", "-", ":", "|", "/", "+"})) ++from;
    while (to > from && is_any(mark(to - 1), {",", ";", "-", ":", "|", "/", "."})) --to;
    if (from >= to) return {};
    return collapse_spaces(
        std::string_view(text_).substr(tokens_[from].begin, tokens_[to - 1].end - tokens_[from].begin));
  }

  void drop_end_marks() {
    end_ = tokens_.size();
    while (end_ > 0 && is_any(mark(end_ - 1), {".", ",", ";", ":", "*"})) --end_;
    while (begin_ < end_ && is_any(mark(begin_), {"-", "*", "|", ",", ".", "+", ":"})) ++begin_;
  }

  // "Optional: 1 tbsp capers", "(optional) 2 tbsp pine nuts"
  void optional_prefix() {
    auto at = begin_;
    const bool bracket = mark(at) == "(";
    if (bracket) ++at;
    if (word(at) != "optional" && word(at) != "optionally") return;
    ++at;
    if (bracket && mark(at) != ")") return;
    if (at + 1 >= end_) return;
    while (is_any(mark(at), {")", ":", ",", "-"})) ++at;
    out_.optional = true;
    begin_ = at;
  }

  // Takes size words out of the part before the first comma or bracket; what stands in brackets is told as it
  // is.
  std::size_t drop_sizes(std::size_t from) {
    auto stop = from;
    while (stop < end_ && !is_any(mark(stop), {",", ";", "("})) ++stop;
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
    return from;
  }

  // "Juice of", "finely grated zest and juice of": what is used of the food.
  std::size_t part_prefix(std::size_t from) {
    static constexpr std::size_t kLongest = 9;
    bool part = false;
    for (auto at = from; at < end_ && at < from + kLongest; ++at) {
      const auto here = word(at);
      if (is_any(here, {"juice", "zest", "rind", "peel", "seeds", "leaves", "flesh", "pulp"})) {
        part = true;
        continue;
      }
      if (part && (here == "of" || here == "from") && at + 1 < end_) {
        auto shown = words(word(from) == "the" ? from + 1 : from, at);
        if (!shown.empty() && tokens_[from].capital) shown[0] = lower(shown[0]);
        preparation_.push_back(std::move(shown));
        return drop_sizes(at + 1);
      }
      if (!is_any(here,
                  {"the", "finely", "grated", "freshly", "squeezed", "pared", "and", "&", "fresh", "a"}))
        break;
    }
    return from;
  }

  static char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

  std::optional<ScannedAmount> scan(std::size_t at) const {
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

  void take(const ScannedAmount& scanned) {
    out_.amounts.push_back(as_food_amount(scanned.amount));
    for (const auto& other : scanned.alternates) out_.amounts.push_back(as_food_amount(other));
    each_ = each_ || scanned.is_each;
  }

  // Further amounts for the same food right after one: "4 dl | 1 1/2 cups", "300 g | 10 oz".
  std::size_t more_alternates(std::size_t at) {
    while (is_any(mark(at), {"|", "/", "="})) {
      const auto next = scan(at + 1);
      if (!next || !next->has_unit) break;
      take(*next);
      at = next->end;
    }
    return at;
  }

  void leading_amount() {
    auto scanned = scan(begin_);
    if (!scanned) return;
    if (const auto package = part_of_package(*scanned)) scanned = package;
    counted_ = !scanned->has_unit || scanned->amount.unit == Unit::Piece;
    take(*scanned);
    begin_ = more_alternates(scanned->end);
    if (scanned->has_unit && begin_ >= end_ && dimension_of(scanned->amount.unit) == Dimension::Count) {
      // "5 cloves": the spice, not its measure.
      begin_ = scanned->end - 1;
      out_.amounts.front().unit = Unit::Piece;
    }
    skip_measure_words();
  }

  // "half a 400 g tin of lentils"
  std::optional<ScannedAmount> part_of_package(const ScannedAmount& part) const {
    if (part.has_unit || !part.amount.value) return std::nullopt;
    auto at = part.end;
    while (is_any(word(at), {"of", "a", "an", "the"})) ++at;
    auto package = scan(at);
    if (!package || !package->amount.each || !package->amount.value) return std::nullopt;
    const auto value = package->amount.value->times(*part.amount.value);
    if (!value) return std::nullopt;
    package->amount.value = value;
    return package;
  }

  // "of", "each", "batch of", "piece of": between the amount and the food.
  void skip_measure_words() {
    for (int i = 0; i < 4; ++i) {
      const auto here = word(begin_);
      if (is_any(here, {"of", "x", "\xC3\x97"}) && begin_ + 1 < end_) {
        ++begin_;
      } else if (here == "each" && begin_ + 1 < end_) {
        ++begin_;
        each_ = true;
      } else if (counted_ &&
                 is_any(here, {"batch", "batches", "quantity", "piece", "pieces", "chunk", "chunks", "lump",
                               "thumb", "knuckle", "recipe", "amount", "bit", "portion", "portions", "cube",
                               "cubes"}) &&
                 word(begin_ + 1) == "of") {
        begin_ += 2;
      } else if (counted_ && (here == "piece" || here == "pieces") && begin_ + 1 < end_ &&
                 mark(begin_ + 1).empty()) {
        ++begin_;
      } else {
        return;
      }
    }
  }

  // "Butter – 200 g", "butter 200g", "Lemon juice 1 tbsp", "Eggs x 3", "dried oregano, 1 tsp"
  void trailing_amount() {
    int depth = 0;
    for (auto at = begin_; at < end_; ++at) {
      if (mark(at) == "(") ++depth;
      if (mark(at) == ")") --depth;
      if (depth > 0 || at == begin_) continue;
      auto scanned = scan(at);
      if (!scanned) continue;
      const bool after_mark = is_any(mark(at - 1), {":", "-", ",", "|", "\xC3\x97"}) || word(at - 1) == "x";
      const bool ends = scanned->end >= end_ || is_any(mark(scanned->end), {",", "(", "|", "/", ";"});
      const bool fits = scanned->has_unit ? (ends || after_mark) : ends;
      if (!fits || dimension_of(scanned->amount.unit) == Dimension::Length) {
        at = std::max(at, scanned->end - 1);
        continue;
      }
      counted_ = !scanned->has_unit;
      take(*scanned);
      name_end_ = at;
      while (name_end_ > begin_ &&
             (is_any(mark(name_end_ - 1), {":", "-", ",", "|", "\xC3\x97"}) || word(name_end_ - 1) == "x"))
        --name_end_;
      tail_from_ = more_alternates(scanned->end);
      return;
    }
  }

  // The amount inside a bracket, or its words. [from, to) without the bracket marks.
  void bracket(std::size_t from, std::size_t to) {
    auto at = from;
    const bool lone_count_fits = out_.amounts.empty();
    while (at < to) {
      const auto scanned = scan(at);
      const bool fits = scanned && scanned->end <= to &&
                        dimension_of(scanned->amount.unit) != Dimension::Length &&
                        (scanned->has_unit || (lone_count_fits && rest_is_times(scanned->end, to)));
      if (!fits) break;
      at = scanned->end;
      bool each = scanned->is_each;
      while (at < to &&
             is_any(word(at), {"each", "in", "total", "altogether", "weight", "x", "\xC3\x97", "size", "or",
                               "|", "/", "approx", "approximately", "apiece", "about"})) {
        each = each || word(at) == "each" || word(at) == "apiece";
        ++at;
      }
      bracket_amount(*scanned, each);
    }
    while (at < to && is_any(mark(at), {",", ";", "|", "/", "-"})) ++at;
    tail_segment(at, to);
  }

  bool rest_is_times(std::size_t at, std::size_t to) const {
    return at >= to || (at + 1 == to && is_any(word(at), {"x", "\xC3\x97"}));
  }

  void bracket_amount(const ScannedAmount& scanned, bool each) {
    const bool sized =
        !out_.amounts.empty() && !out_.amounts.front().each && is_weight_or_volume(scanned.amount.unit);
    const bool one_package =
        sized && is_package(out_.amounts.front().unit) && out_.amounts.front().value == Ratio{1};
    if (sized && (each || one_package) && scanned.amount.value) {
      out_.amounts.front().each = Package{*scanned.amount.value, scanned.amount.unit};
      return;
    }
    take(scanned);
    if (out_.amounts.size() == 1) counted_ = !scanned.has_unit;
  }

  std::size_t bracket_end(std::size_t open) const {
    int depth = 0;
    for (auto at = open; at < end_; ++at) {
      if (mark(at) == "(" || mark(at) == "[") ++depth;
      if ((mark(at) == ")" || mark(at) == "]") && --depth == 0) return at;
    }
    return end_;
  }

  bool stops_name(std::size_t at) const {
    const auto here = word(at);
    if (is_any(mark(at), {";", ":", ".", "!", "?"})) return true;
    if (mark(at) == "-" && at + 1 < end_ && tokens_[at].space_before && tokens_[at + 1].space_before)
      return true;
    if (is_any(here, {"for",       "from",     "at",    "such",   "preferably",    "ideally", "if",
                      "until",     "per",      "like",  "which",  "that",          "using",   "when",
                      "depending", "optional", "about", "approx", "approximately", "cut",     "because",
                      "i"}))
      return true;
    if (here == "to" || here == "as") return true;
    if (is_any(here, {"plus", "+", "and", "with"}) &&
        is_any(word(at + 1), {"extra", "more", "additional", "some", "a", "another"}))
      return true;
    return here == "plus" && at > begin_;
  }

  // The food's name runs to the first stop; brackets inside it are read on the way.
  void main_part() {
    const auto limit = name_end_ != kNone ? name_end_ : end_;
    std::vector<Token> name;
    auto at = begin_;
    auto segment = begin_;
    for (; at < limit; ++at) {
      if (is_any(mark(at), {"(", "["})) {
        const auto close = std::min(bracket_end(at), limit);
        bracket(at + 1, close);
        at = close;
        continue;
      }
      if (mark(at) == ",") {
        if (at > segment && !list_goes_on(segment, at)) break;
        if (!name.empty()) name.push_back(tokens_[at]);
        continue;
      }
      if (at > begin_ && stops_name(at)) break;
      if (juice_of_another(at)) break;
      name.push_back(tokens_[at]);
    }
    name_tokens_ = std::move(name);
    tail_at_ = at;
  }

  bool juice_of_another(std::size_t at) const {
    return is_any(word(at), {"and", "&"}) && is_any(word(at + 1), {"juice", "zest"}) && word(at + 2) == "of";
  }

  // "boneless, skinless thighs", "red, green or brown lentils": the comma is inside the name.
  bool list_goes_on(std::size_t from, std::size_t comma) const {
    return food_still_to_come(tokens_, from, comma) && comma + 1 < end_;
  }

  void tail() {
    const auto limit = name_end_ != kNone ? name_end_ : end_;
    tail_segments(tail_at_, limit);
    if (name_end_ != kNone) tail_segments(tail_from_, end_);
  }

  void tail_segments(std::size_t from, std::size_t to) {
    auto begin = from;
    for (auto at = from; at < to; ++at) {
      if (is_any(mark(at), {"(", "["})) {
        const auto close = std::min(bracket_end(at), to);
        tail_segment(begin, at);
        bracket(at + 1, close);
        at = close;
        begin = at + 1;
      } else if (is_any(mark(at), {",", ";"})) {
        tail_segment(begin, at);
        begin = at + 1;
      }
    }
    if (begin < to) tail_segment(begin, to);
  }

  void tail_segment(std::size_t from, std::size_t to) {
    while (from < to && is_any(mark(from), {",", ";", ":", ".", ")", "]"})) ++from;
    while (from < to && mark(from) == "-" && tokens_[from].space_before) ++from;
    if (from >= to) return;
    if (word(from) == "optional" || (word(from) == "if" && word(from + 1) == "you" && to - from <= 4) ||
        (word(from) == "if" && word(from + 1) == "using" && to - from <= 2)) {
      out_.optional = true;
      if (word(from) == "optional") ++from;
      while (from < to && is_any(mark(from), {",", ";", ":", "-"})) ++from;
      if (from >= to) return;
    }
    const auto scanned = scan(from);
    if (scanned && scanned->end <= to && scanned->has_unit &&
        dimension_of(scanned->amount.unit) != Dimension::Length) {
      auto after = scanned->end;
      while (after < to && is_any(word(after), {"in", "total", "each", "altogether", "weight"})) ++after;
      if (after >= to) {
        bracket_amount(*scanned, scanned->is_each || word(after - 1) == "each");
        return;
      }
    }
    auto shown = words(from, to);
    if (!shown.empty()) preparation_.push_back(std::move(shown));
  }

  CountedAs counted_as() const {
    if (out_.amounts.empty()) return CountedAs::Nothing;
    if (is_package(out_.amounts.front().unit)) return CountedAs::Package;
    return counted_ ? CountedAs::Pieces : CountedAs::Nothing;
  }

  void finish() {
    settle_package(out_.amounts);
    auto names = read_food_names(name_tokens_, 0, name_tokens_.size(), counted_as());
    name_without_package(names, out_.amounts);
    out_.name = std::move(names.name);
    out_.foods = std::move(names.foods);
    out_.or_foods = std::move(names.or_foods);
    if (names.unit && !out_.amounts.empty()) out_.amounts.front().unit = *names.unit;
    if (out_.name.empty()) {
      out_.name = preparation_.empty() ? std::string(trim(text_)) : preparation_.front();
      out_.foods = {out_.name};
    }
    take_listed_foods(out_, preparation_);
    out_.amount_is_each = each_ && out_.foods.size() > 1;
    merge_preparation(names.preparation);
    out_.to_taste = out_.amounts.empty() && says_to_taste(preparation_);
  }

  void merge_preparation(const std::vector<std::string>& off) {
    std::vector<std::string> all = off;
    all.insert(all.end(), preparation_.begin(), preparation_.end());
    out_.preparation = join(all, ", ");
  }

  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

  std::string text_;
  std::vector<Token> tokens_, name_tokens_;
  std::size_t begin_ = 0, end_ = 0;
  std::size_t name_end_ = kNone;  // where a trailing amount cuts the name
  std::size_t tail_from_ = 0, tail_at_ = 0;
  bool counted_ = false, each_ = false;
  std::vector<std::string> preparation_;
  Ingredient out_;
};

}  // namespace

Ingredient read_ingredient_line(std::string_view line) {
  auto plain = strip_markup(line, 0).text;
  auto read = plain.size() > kLongestLine ? Ingredient{} : LineReader(row_as_line(plain)).read();
  if (plain.size() > kLongestLine) {
    read.name = plain;
    read.foods = {plain};
  }
  read.text = std::move(plain);
  return read;
}

}  // namespace panslate
