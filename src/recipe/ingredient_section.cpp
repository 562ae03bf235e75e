#include <algorithm>

#include "panslate/base/text.h"
#include "panslate/kitchen/token.h"
#include "panslate/recipe/recipe.h"

#include "recipe/heading_words.h"
#include "recipe/ingredient_foods.h"
#include "recipe/line_shape.h"
#include "recipe/sections.h"
#include "recipe/word_list.h"
#include "recipe/yield.h"

namespace panslate {

namespace {

bool is_item(const SourceLine& line) {
  return line.kind == LineKind::Item || line.kind == LineKind::Numbered || line.kind == LineKind::Row;
}

class IngredientSection {
 public:
  IngredientSection(const std::vector<SourceLine>& lines, std::size_t begin, std::size_t end,
                    std::string group, Sections& out)
      : lines_(lines), begin_(begin), end_(end), outer_(std::move(group)), group_(outer_), out_(out) {}

  void read() {
    const auto first = lines_.begin() + static_cast<std::ptrdiff_t>(begin_);
    const auto last = lines_.begin() + static_cast<std::ptrdiff_t>(end_);
    items_ = std::count_if(first, last, is_item);
    texts_ = std::count_if(first, last, [](const SourceLine& l) { return l.kind == LineKind::Text; });
    capitals_ = std::count_if(first, last, [](const SourceLine& l) { return l.capitals; });
    for (at_ = begin_; at_ < end_; ++at_) one(lines_[at_]);
  }

 private:
  bool listed() const { return items_ > 0 && items_ * 2 >= texts_; }

  const SourceLine* next_line() const {
    for (auto i = at_ + 1; i < end_; ++i)
      if (lines_[i].kind != LineKind::Blank) return &lines_[i];
    return nullptr;
  }
  bool follows_directly() const { return at_ > begin_ && joined_ == at_ - 1; }

  void one(const SourceLine& line) {
    switch (line.kind) {
      case LineKind::Blank:
      case LineKind::Rule:
        return;
      case LineKind::Heading:
        open_group(line.body.text);
        return;
      case LineKind::Row:
        row(line);
        return;
      case LineKind::Item:
      case LineKind::Numbered:
        item(line);
        return;
      case LineKind::Text:
        text(line);
        return;
    }
  }

  void open_group(std::string_view heading) {
    group_ = group_name(heading);
    nested_indent_ = -1;
    if (is_yield_line(heading)) {
      aside(heading);
      group_ = outer_;
    }
    optional_ = starts_with(fold_case(group_), "optional");
  }

  void aside(std::string_view words) {
    out_.header.push_back({lines_[at_].number, std::string(words), false});
  }

  // "400 g beans; 2 carrots; 1 onion": several on one line, each with its amount. Commas part the shares of
  // one food as well ("1 cup sugar, ½ cup for the top"), so that each piece must name a food.
  bool add_listing(const SourceLine& line) {
    const auto& words = line.body.text;
    const char mark = words.find(';') != std::string::npos ? ';' : ',';
    const std::size_t least = mark == ';' ? 2 : 3;
    if (line.kind == LineKind::Row || words.find('(') != std::string::npos) return false;
    std::vector<PlainText> pieces;
    for (std::size_t begin = 0; begin <= words.size();) {
      const auto end = std::min(words.find(mark, begin), words.size());
      pieces.push_back(line.body.part(begin, end));
      if (!starts_with_amount(pieces.back().text)) return false;
      if (mark == ',' && !names_food(pieces.back().text)) return false;
      begin = end + 1;
    }
    if (pieces.size() < least) return false;
    for (auto& piece : pieces) out_.ingredients.push_back({line.number, std::move(piece), group_, optional_});
    joined_ = at_;
    return true;
  }

  static bool names_food(std::string_view piece) {
    const auto line = read_ingredient_line(piece);
    const auto tokens = tokenize(line.name);
    return names_food_at(tokens, 0, tokens.size());
  }

  void add(const SourceLine& line) {
    if (add_listing(line)) return;
    out_.ingredients.push_back({line.number, line.body, group_, optional_});
    joined_ = at_;
  }

  void row(const SourceLine& line) {
    const bool heads = at_ + 1 < end_ && lines_[at_ + 1].kind == LineKind::Rule;
    if (heads) return;
    std::vector<std::string> filled;
    for (const auto& cell : split(line.body.text, '|')) {
      const auto words = trim(cell);
      if (!words.empty()) filled.emplace_back(words);
    }
    if (filled.empty()) return;
    if (filled.size() == 1 && !starts_with_amount(filled.front())) {
      const bool more = at_ + 1 < end_ && lines_[at_ + 1].kind == LineKind::Row;
      if (line.strong || filled.front().back() == ':' ||
          (more && fold_case(filled.front()).substr(0, 4) == "for "))
        return open_group(filled.front());
    }
    add(line);
  }

  // "- For the sauce:" or "- Spices:" with items below it.
  bool is_group_item(const SourceLine& line) const {
    const auto& words = line.body.text;
    const auto* next = next_line();
    if (next == nullptr || !is_item(*next)) return false;
    if (starts_with_amount(words)) return false;
    if (words.back() == ':') return true;
    if (line.strong && !line.capitals && next->indent >= line.indent) return word_count(words) <= 5;
    return starts_with(fold_case(words), "for the ") && word_count(words) <= 6 && !ends_with_amount(words);
  }

  void item(const SourceLine& line) {
    if (nested_indent_ >= 0 && line.indent <= nested_indent_) {
      group_ = before_nested_;
      nested_indent_ = -1;
      optional_ = starts_with(fold_case(group_), "optional");
    }
    if (is_yield_line(line.body.text) && !starts_with_amount(line.body.text)) return aside(line.body.text);
    if (!is_group_item(line)) return add(line);
    const auto outer = group_;
    open_group(line.body.text);
    if (next_line()->indent > line.indent) {
      nested_indent_ = line.indent;
      before_nested_ = outer;
    }
  }

  bool is_group_text(const SourceLine& line) const {
    const auto& words = line.body.text;
    if (starts_with_amount(words) || ends_sentence(words)) return false;
    const auto* next = next_line();
    if (next == nullptr) return false;
    const auto count = word_count(words);
    const auto folded = fold_case(words);
    if (words.back() == ':') return count <= 6 || starts_with(folded, "for ") || starts_with(folded, "to ");
    if (line.strong && !(line.capitals && capitals_ * 2 > items_ + texts_)) return count <= 8;
    if (starts_with(folded, "for the ") || starts_with(folded, "to serve") ||
        starts_with(folded, "to finish"))
      return count <= 6 && words.find(',') == std::string::npos;
    if (listed() && is_item(*next)) return count <= 5 && !follows_directly();
    if (count <= 4 && starts_with_amount(next->body.text)) return named_again(words);
    return false;
  }

  // A line of its own that comes again further down names a part of the dish: "Topping" over its list and
  // over its steps.
  bool named_again(const std::string& words) const {
    constexpr std::size_t kFarthest = 300;  // lines
    const auto last = std::min(lines_.size(), end_ + kFarthest);
    return std::any_of(lines_.begin() + static_cast<std::ptrdiff_t>(std::min(end_, last)),
                       lines_.begin() + static_cast<std::ptrdiff_t>(last), [&](const SourceLine& line) {
                         return line.body.text.size() == words.size() &&
                                fold_case(line.body.text) == fold_case(words);
                       });
  }

  // The rest of a line that was wrapped.
  bool continues(const SourceLine& line) const {
    if (!follows_directly() || out_.ingredients.empty()) return false;
    const auto& words = line.body.text;
    if (starts_with_amount(words) && words[0] != '(') return false;
    const char first = words[0];
    const auto& last = out_.ingredients.back().body.text;
    if (listed()) return line.indent >= 2 || (first >= 'a' && first <= 'z') || first == '(';
    if (first == '(' || last.back() == ',' || last.back() == '(') return true;
    if (line.indent > lines_[joined_].indent && first >= 'a' && first <= 'z') return true;
    return last.size() > 60 && first >= 'a' && first <= 'z';
  }

  void text(const SourceLine& line) {
    const auto& words = line.body.text;
    if (continues(line)) {
      out_.ingredients.back().body.append(line.body);
      joined_ = at_;
      return;
    }
    if (is_yield_line(words) && !starts_with_amount(words)) return aside(words);
    if (is_group_text(line)) return open_group(words);
    const auto count = word_count(words);
    const bool prose = is_aside(words) || (ends_sentence(words) && count >= 7) || count > 30 ||
                       (words.back() == ':' && count > 6);
    if (listed() ? (starts_with_amount(words) && !prose) : !prose || starts_with_amount(words))
      return add(line);
    out_.notes.push_back({line.number, words, false});
  }

  const std::vector<SourceLine>& lines_;
  std::size_t begin_, end_;
  std::string outer_, group_, before_nested_;
  Sections& out_;
  std::ptrdiff_t items_ = 0, texts_ = 0, capitals_ = 0;
  std::size_t at_ = 0;
  std::size_t joined_ = static_cast<std::size_t>(-1);  // the line that last went into an ingredient
  int nested_indent_ = -1;
  bool optional_ = false;
};

}  // namespace

void read_ingredient_section(const std::vector<SourceLine>& lines, std::size_t begin, std::size_t end,
                             const std::string& group, Sections& out) {
  IngredientSection(lines, begin, end, group, out).read();
}

}  // namespace panslate
