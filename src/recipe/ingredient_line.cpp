#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"
#include "panslate/recipe/recipe.h"

#include "recipe/ingredient_alternatives.h"
#include "recipe/ingredient_foods.h"
#include "recipe/ingredient_settle.h"
#include "recipe/ingredient_words.h"
#include "recipe/line_tokens.h"
#include "recipe/markup.h"
#include "recipe/table_row.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

constexpr std::size_t kLongestLine = 4000;  // bytes that are read for amounts; a longer line is prose

class LineReader : private LineTokens {
 public:
  explicit LineReader(std::string text) : LineTokens(std::move(text)) {}

  Ingredient read() {
    drop_end_marks();
    optional_prefix();
    drop_sizes(begin_);
    begin_ = part_prefix(begin_);
    leading_amount();
    if (out_.amounts.empty()) trailing_amount();
    main_part();
    tail();
    finish();
    return std::move(out_);
  }

 private:
  // "Optional: 1 tbsp capers", "(optional) 2 tbsp pine nuts"
  void optional_prefix() {
    auto at = begin_;
    const bool bracket = mark(at) == "(";
    if (bracket) ++at;
    if (word(at) != "optional" && word(at) != "optionally") return;
    ++at;
    if (bracket && mark(at) != ")") return;
    if (at + 1 >= end_) return;
    while (is_one_of(mark(at), {")", ":", ",", "-"})) ++at;
    out_.optional = true;
    begin_ = at;
  }

  // "Juice of", "finely grated zest and juice of": what is used of the food.
  std::size_t part_prefix(std::size_t from) {
    static constexpr std::size_t kLongest = 9;
    bool part = false;
    for (auto at = from; at < end_ && at < from + kLongest; ++at) {
      const auto here = word(at);
      // "the yolks of 4 eggs", "kernels from 2 cobs"; "florets" alone are the food.
      const bool taken_from =
          is_one_of(here, {"yolk", "yolks", "white", "whites", "kernels", "segments", "florets", "meat"}) &&
          is_one_of(word(at + 1), {"of", "from"}) && scan(at + 2);
      if (taken_from ||
          is_one_of(here, {"juice", "zest", "rind", "peel", "seeds", "leaves", "flesh", "pulp"})) {
        part = true;
        continue;
      }
      const bool number = part && at > from && scan(at) && tokens_[at].kind == TokenKind::Number;
      if (part && (number || ((here == "of" || here == "from") && at + 1 < end_))) {
        auto shown = words(word(from) == "the" ? from + 1 : from, at);
        if (!shown.empty() && tokens_[from].capital && shown[0] >= 'A' && shown[0] <= 'Z')
          shown[0] = static_cast<char>(shown[0] - 'A' + 'a');
        preparation_.push_back(std::move(shown));
        const auto food = number ? at : at + 1;  // "zest and juice 1 blood orange"
        drop_sizes(food);
        return food;
      }
      if (!is_one_of(here,
                     {"the", "finely", "grated", "freshly", "squeezed", "pared", "and", "&", "fresh", "a"}))
        break;
    }
    return from;
  }

  void take(const ScannedAmount& scanned) {
    out_.amounts.push_back(as_food_amount(scanned.amount));
    for (const auto& other : scanned.alternates)
      if (dimension_of(other.unit) != Dimension::Length) out_.amounts.push_back(as_food_amount(other));
    each_ = each_ || scanned.is_each;
  }

  // Further amounts for the same food right after one: "4 dl | 1 1/2 cups", "300 g | 10 oz".
  std::size_t more_alternates(std::size_t at) {
    while (is_one_of(mark(at), {"|", "/", "="})) {
      const auto next = scan(at + 1);
      if (!next || !next->has_unit) break;
      take(*next);
      at = next->end;
    }
    return at;
  }

  void leading_amount() {
    auto scanned = scan(begin_);
    if (!scanned) return implied_piece();
    if (const auto package = part_of_package(*scanned)) scanned = package;
    counted_ = !scanned->has_unit || scanned->amount.unit == Unit::Piece;
    take(*scanned);
    const auto from = begin_;
    begin_ = more_alternates(scanned->end);
    rest_of_bracket(from);
    ounces_after_pounds();
    if (scanned->has_unit && begin_ >= end_ && dimension_of(scanned->amount.unit) == Dimension::Count) {
      // "5 cloves": the spice, not its measure.
      begin_ = scanned->end - 1;
      out_.amounts.front().unit = Unit::Piece;
    }
    skip_measure_words();
  }

  // "of", "each", "batch of", "piece of": between the amount and the food.
  void skip_measure_words() {
    for (int i = 0; i < 4; ++i) {
      const auto here = word(begin_);
      const bool more = begin_ + 1 < end_;
      const bool food_follows = more && mark(begin_ + 1).empty();
      const bool between = is_one_of(here, {"of", "x", "\xC3\x97", ","}) ||
                           (here == "+" && !is_one_of(word(begin_ + 1), {"extra", "more"})) ||
                           (counted_ && food_follows && is_bare_vessel(here) && word(begin_ + 1) != "of");
      const bool or_so = here == "or" && is_one_of(word(begin_ + 1), {"less", "more", "so"});
      const bool vessel = counted_ && is_vessel(here) && word(begin_ + 1) == "of";
      if (between && more) {
        ++begin_;
      } else if ((or_so || vessel) && begin_ + 2 < end_) {
        begin_ += 2;
      } else if (here == "each" && more) {
        ++begin_;
        each_ = true;
      } else if (here == "(" && is_length_bracket(begin_)) {
        begin_ = bracket_end(begin_) + 1;
      } else {
        return;
      }
    }
  }

  // "thumb-size piece ginger", "piece of ginger": one, as "knob of butter" is one.
  void implied_piece() {
    const bool article = is_one_of(word(begin_), {"a", "an"}) && names_food_at(tokens_, begin_ + 1, end_);
    if (article) ++begin_;  // "an egg"
    if (!article && (!is_one_of(word(begin_), {"piece", "thumb", "knuckle"}) || begin_ + 1 >= end_)) return;
    Amount one;
    one.value = Ratio{1};
    out_.amounts.push_back(one);
    counted_ = true;
    skip_measure_words();
  }

  // An amount read into a bracket that goes on: "(1 stick; 113 g)", "(2-inch) piece".
  void rest_of_bracket(std::size_t from) {
    int depth = 0;
    for (auto at = from; at < begin_; ++at) {
      if (mark(at) == "(") ++depth;
      if (mark(at) == ")") --depth;
    }
    if (depth <= 0) return;
    auto close = begin_;
    while (close < end_ && mark(close) != ")") ++close;
    const auto rest = begin_;
    begin_ = std::min(close + 1, end_);
    bracket(rest, close);
  }

  // "/5lb 8oz": the ounces of a second weight.
  void ounces_after_pounds() {
    if (out_.amounts.empty()) return;
    auto& last = out_.amounts.back();
    const bool pounds =
        last.each ? last.each->unit == Unit::Pound : last.unit == Unit::Pound && last.value && !last.to;
    const auto ounces = pounds && out_.amounts.size() > 1 ? scan(begin_) : std::nullopt;
    if (!ounces || ounces->amount.unit != Unit::Ounce || !ounces->amount.value || ounces->amount.to) return;
    const auto part = ounces->amount.value->over(Ratio{16});
    const auto sum = part ? (last.each ? last.each->value : *last.value).plus(*part) : std::nullopt;
    if (!sum) return;
    if (last.each)
      last.each->value = *sum;
    else
      last.value = *sum;
    begin_ = ounces->end;
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
      const bool after_mark =
          is_one_of(mark(at - 1), {":", "-", ",", "|", "\xC3\x97"}) || word(at - 1) == "x";
      const bool ends = scanned->end >= end_ || is_one_of(mark(scanned->end), {",", "(", "|", "/", ";"});
      const bool fits = scanned->has_unit ? (ends || after_mark) : ends;
      if (!fits || dimension_of(scanned->amount.unit) == Dimension::Length) {
        at = std::max(at, scanned->end - 1);
        continue;
      }
      counted_ = !scanned->has_unit;
      take(*scanned);
      name_end_ = at;
      while (name_end_ > begin_ &&
             (is_one_of(mark(name_end_ - 1), {":", "-", ",", "|", "\xC3\x97"}) || word(name_end_ - 1) == "x"))
        --name_end_;
      tail_from_ = more_alternates(scanned->end);
      return;
    }
  }

  // "600 grams (g) of": the unit again.
  bool repeats_unit(std::size_t from, std::size_t to) const {
    if (to <= from || to > from + 2) return false;
    const auto again = tokenize("1 " + words(from, to));
    const auto scanned = scan_amount(again, 0, SpokenOrWritten::Written);
    return scanned && scanned->has_unit && !out_.amounts.empty() &&
           scanned->amount.unit == out_.amounts.back().unit;
  }

  // The amount inside a bracket, or its words. [from, to) without the bracket marks.
  void bracket(std::size_t from, std::size_t to) {
    if (repeats_unit(from, to)) return;
    in_bracket_ = true;
    bracket_content(from, to);
    in_bracket_ = false;
  }

  void bracket_content(std::size_t from, std::size_t to) {
    if (!out_.amounts.empty() && lists_foods(from, to)) return preparation_.push_back(words(from, to));
    auto at = from;
    // "1 cup milk (or 250 ml)"
    if (word(at) == "or" && is_whole_amount(at + 1, to)) ++at;
    // "1 bunch spring onions (about 6)": how many that is; "2 onions (3)" tells nothing.
    const bool lone_count_fits = out_.amounts.empty() || out_.amounts.front().unit != Unit::Piece;
    while (at < to) {
      const auto scanned = scan(at);
      const bool fits = scanned && scanned->end <= to &&
                        dimension_of(scanned->amount.unit) != Dimension::Length && !scanned->is_length &&
                        !is_one_of(word(scanned->end), {"if", "unless", "when"}) &&
                        (scanned->has_unit || (lone_count_fits && rest_is_times(scanned->end, to)));
      if (!fits) break;
      at = scanned->end;
      bool each = scanned->is_each;
      while (at < to &&
             (is_size_word(word(at), word(at + 1)) ||
              is_one_of(word(at), {"each", "in", "total", "altogether", "weight", "x", "\xC3\x97", "size",
                                   "or", "|", "/", "approx", "approximately", "apiece", "about"}))) {
        each = each || word(at) == "each" || word(at) == "apiece";
        ++at;
      }
      bracket_amount(*scanned, each);
    }
    while (at < to && is_one_of(mark(at), {",", ";", "|", "/", "-"})) ++at;
    tail_segment(at, to);
  }

  bool rest_is_times(std::size_t at, std::size_t to) const {
    while (at < to && is_size_word(word(at), word(at + 1))) ++at;
    return at >= to || mark(at) == "," || (at + 1 == to && is_one_of(word(at), {"x", "\xC3\x97"}));
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

  bool stops_name(std::size_t at) const {
    const auto here = word(at);
    // "thick-cut bacon": within a word nothing stops.
    if (at > begin_ && mark(at - 1) == "-" && !tokens_[at].space_before) return false;
    if (mark(at) == "." && at > begin_ && at + 1 < end_ && !tokens_[at].space_before &&
        is_shortened(word(at - 1)))
      return false;
    if (is_one_of(mark(at), {";", ":", ".", "!", "?"})) return true;
    if (mark(at) == "-" && at + 1 < end_ && tokens_[at].space_before && tokens_[at + 1].space_before)
      return !food_still_to_come(tokens_, begin_, at);
    if (is_one_of(here, {"for",    "from",          "at",        "such",      "preferably", "ideally",
                         "if",     "until",         "per",       "like",      "which",      "that",
                         "using",  "when",          "depending", "dissolved", "optional",   "about",
                         "approx", "approximately", "cut",       "because",   "i"}))
      return true;
    if (here == "to" || here == "as") return true;
    if (here == "on" && word(at + 1) == "the" && is_one_of(word(at + 2), {"bone", "vine", "stem", "stalk"}))
      return true;
    if (is_one_of(here, {"plus", "+", "and", "with"}) &&
        is_one_of(word(at + 1), {"extra", "more", "additional", "some", "a", "another"}))
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
      if (is_one_of(mark(at), {"(", "["})) {
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
      if (word(at) == "or" && is_one_of(word(at + 1), {"so", "thereabouts"}) && !out_.amounts.empty()) {
        out_.amounts.front().about = true;
        ++at;
        continue;
      }
      if (at > begin_ && stops_name(at)) break;
      if (mark(at) == "-" && tokens_[at].space_before && !name.empty()) continue;
      if (juice_of_another(at)) break;
      name.push_back(tokens_[at]);
    }
    name_tokens_ = std::move(name);
    tail_at_ = at;
  }

  bool juice_of_another(std::size_t at) const {
    return is_one_of(word(at), {"and", "&"}) && is_one_of(word(at + 1), {"juice", "zest"}) &&
           word(at + 2) == "of";
  }

  // "boneless, skinless thighs", "red, green or brown lentils": the comma is inside the name.
  bool list_goes_on(std::size_t from, std::size_t comma) const {
    if (counted_ && comma == from + 1 && is_food_word(word(from)))
      return false;                               // "1 orange, zest and juice"
    if (word(comma - 1) == "milk") return false;  // no "milk chocolate" follows a comma
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
      if (is_one_of(mark(at), {"(", "["})) {
        const auto close = std::min(bracket_end(at), to);
        tail_segment(begin, at);
        bracket(at + 1, close);
        at = close;
        begin = at + 1;
      } else if (is_one_of(mark(at), {",", ";"})) {
        tail_segment(begin, at);
        begin = at + 1;
      }
    }
    if (begin < to) tail_segment(begin, to);
  }

  void tail_segment(std::size_t from, std::size_t to) {
    while (from < to && is_one_of(mark(from), {",", ";", ":", ".", ")", "]"})) ++from;
    while (from < to && mark(from) == "-" && tokens_[from].space_before) ++from;
    if (from >= to) return;
    if (leaves_it_to_the_cook(from, to)) {
      out_.optional = true;
      return;
    }
    if (to - from == 2 && is_one_of(word(from), {"all", "totally", "completely", "both", "purely"}) &&
        word(from + 1) == "optional")
      ++from;
    if (is_one_of(word(from), {"optional", "opt"})) {
      out_.optional = true;
      ++from;
      while (from < to && is_one_of(mark(from), {",", ";", ":", "-"})) ++from;
      if (from >= to) return;
    }
    const auto scanned = scan(from);
    if (scanned && scanned->end <= to && scanned->has_unit &&
        dimension_of(scanned->amount.unit) != Dimension::Length) {
      auto after = scanned->end;
      while (after < to && is_one_of(word(after), {"in", "total", "each", "altogether", "weight"})) ++after;
      if (after >= to) {
        bracket_amount(*scanned, scanned->is_each || word(after - 1) == "each");
        return;
      }
    }
    auto shown = words(from, to);
    if (shown.empty()) return;
    if (is_one_of(fold_case(shown),
                  {"give or take", "or so", "or thereabouts", "approximately", "roughly"}) &&
        !out_.amounts.empty()) {
      out_.amounts.front().about = true;
      return;
    }
    const AlternativeWords found{tokens_, from, to, in_bracket_};
    if (take_alternative(found, preparation_, late_or_foods_)) return;
    if (!out_.amounts.empty() && take_listed_alternatives(found, late_or_foods_)) return;
    // What stands in a bracket is never one more food of a list.
    if (in_bracket_ && listed_end_ == kNone) listed_end_ = preparation_.size();
    preparation_.push_back(std::move(shown));
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
    out_.or_foods.insert(out_.or_foods.end(), late_or_foods_.begin(), late_or_foods_.end());
    if (listed_end_ == kNone) take_listed_foods(out_, preparation_);
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

  std::vector<Token> name_tokens_;
  std::size_t name_end_ = kNone;  // where a trailing amount cuts the name
  std::size_t tail_from_ = 0, tail_at_ = 0;
  bool counted_ = false, each_ = false;
  std::vector<std::string> preparation_, late_or_foods_;
  std::size_t listed_end_ = kNone;  // from here on the preparation comes from brackets
  bool in_bracket_ = false;
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
