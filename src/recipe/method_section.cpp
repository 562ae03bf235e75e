#include <algorithm>
#include <set>
#include <string>

#include "panslate/base/text.h"

#include "recipe/heading_words.h"
#include "recipe/line_shape.h"
#include "recipe/sections.h"

namespace panslate {

namespace {

// "Step 3", "Step 3: Heat the oil": bytes up to the words after it; 0 when the line is none.
std::size_t step_label(std::string_view text) {
  const auto folded = fold_case(text.substr(0, 5));
  if (folded != "step ") return 0;
  std::size_t at = 5;
  while (at < text.size() && text[at] >= '0' && text[at] <= '9') ++at;
  if (at == 5) return 0;
  while (at < text.size() && std::string_view(":.)- ").find(text[at]) != std::string_view::npos) ++at;
  return at;
}

// "2 Add the beans": a number without its full stop; bytes up to the words; 0 when the line is none.
std::size_t plain_number(std::string_view text, int number) {
  const auto digits = std::to_string(number);
  if (text.substr(0, digits.size()) != digits) return 0;
  const auto words = digits.size() + 1;
  const bool apart = text.substr(digits.size(), 1) == " " && words < text.size();
  return apart && text[words] >= 'A' && text[words] <= 'Z' ? words : 0;
}

class MethodSection {
 public:
  MethodSection(const std::vector<SourceLine>& lines, std::size_t begin, std::size_t end, std::string part,
                Sections& out)
      : lines_(lines), begin_(begin), end_(end), part_(std::move(part)), out_(out) {}

  void read() {
    for (auto i = begin_; i < end_; ++i) {
      const auto& line = lines_[i];
      numbered_ = numbered_ || line.kind == LineKind::Numbered || step_label(line.body.text) > 0;
      items_ = items_ || line.kind == LineKind::Item;
    }
    find_plain_numbers();
    for (const auto& ingredient : out_.ingredients)
      if (!ingredient.group.empty()) groups_.insert(fold_case(part_name(ingredient.group)));
    for (at_ = begin_; at_ < end_; ++at_) {
      one(lines_[at_]);
      if (lines_[at_].kind != LineKind::Blank) last_ = at_;
    }
  }

 private:
  // "1 Fry …", "2 Add …": numbers in order, each at the start of a line.
  void find_plain_numbers() {
    int next = 1;
    for (auto i = begin_; i < end_; ++i)
      if (lines_[i].kind == LineKind::Text && plain_number(lines_[i].body.text, next) > 0) ++next;
    constexpr int kLeast = 2;
    plain_numbers_ = next > kLeast;
  }

  // The name of a group of the list on a line of its own.
  bool names_group(const SourceLine& line) const {
    constexpr std::size_t kLongestName = 60;
    const auto& words = line.body.text;
    return words.size() <= kLongestName && groups_.find(fold_case(part_name(words))) != groups_.end();
  }

  bool follows_directly() const { return at_ > begin_ && last_ == at_ - 1; }

  const SourceLine* next_line() const {
    for (auto i = at_ + 1; i < end_; ++i)
      if (lines_[i].kind != LineKind::Blank) return &lines_[i];
    return nullptr;
  }

  void begin_step(const SourceLine& line, const PlainText& body) {
    out_.steps.push_back({line.number, body, part_});
    open_ = true;
    open_kind_ = line.kind;
    open_indent_ = line.indent;
  }

  void join(const SourceLine& line) {
    if (!line.body.text.empty() && out_.steps.back().body.text.empty()) out_.steps.back().line = line.number;
    out_.steps.back().body.append(line.body);
  }

  void aside(const SourceLine& line) {
    out_.notes.push_back({line.number, line.body.text, false});
    open_ = false;
    in_aside_ = true;
  }

  void one(const SourceLine& line) {
    if (line.kind == LineKind::Blank) {
      in_aside_ = false;
      return;
    }
    if (line.kind == LineKind::Rule) return;
    if (line.kind != LineKind::Row) {
      if (const auto label = step_label(line.body.text); label > 0) return labelled(line, label);
      const auto number = plain_numbers_ && line.kind == LineKind::Text
                              ? plain_number(line.body.text, next_plain_number_)
                              : 0;
      if (number > 0) {
        ++next_plain_number_;
        return labelled(line, number);
      }
    }
    switch (line.kind) {
      case LineKind::Blank:
      case LineKind::Rule:
        return;
      case LineKind::Heading:
        return open_part(line);
      case LineKind::Row:
        return aside(line);
      case LineKind::Numbered:
      case LineKind::Item:
        return item(line);
      case LineKind::Text:
        return text(line);
    }
  }

  void open_part(const SourceLine& line) {
    part_ = part_name(line.body.text);
    open_ = false;
  }

  void labelled(const SourceLine& line, std::size_t label) {
    // "### Step 1: The dough" is the part, what stands below it the step.
    const auto words = line.body.text.substr(label);
    if (line.kind == LineKind::Heading && !words.empty() && word_count(words) <= 5 &&
        !starts_with_action(words))
      return open_part({line.kind, line.number, 0, line.level, false, false,
                        line.body.part(label, line.body.text.size())});
    begin_step(line, line.body.part(label, line.body.text.size()));
    open_kind_ = LineKind::Numbered;
    open_label_ = out_.steps.back().body.text.empty() || line.kind == LineKind::Heading;
  }

  void item(const SourceLine& line) {
    if (is_aside(line.body.text)) return aside(line);
    const bool deeper = open_ && line.indent > open_indent_ + 1 && open_kind_ != LineKind::Text;
    if (deeper) return join(line);
    if (open_label_ && open_) {
      open_label_ = false;
      return join(line);
    }
    const auto* next = next_line();
    const bool heads = line.body.text.back() == ':' && word_count(line.body.text) <= 5 && next != nullptr &&
                       next->indent > line.indent && !starts_with_action(line.body.text);
    if (heads) return open_part(line);
    begin_step(line, line.body);
  }

  bool is_part(const SourceLine& line) const {
    const auto& words = line.body.text;
    const auto* next = next_line();
    if (next == nullptr || ends_sentence(words)) return false;
    const auto count = word_count(words);
    if (line.strong) return count <= 10;
    if (words.back() == ':') return count <= 6;
    const auto folded = fold_case(words);
    const bool names_part = folded.substr(0, 8) == "for the " && count <= 6;
    if (names_part && words.find(',') == std::string::npos) return true;
    // "The dough" over numbered steps.
    return next->kind == LineKind::Numbered && count <= 4 && !follows_directly() &&
           !starts_with_action(words);
  }

  // Lines of a paragraph that end as sentences are steps of their own, one a line; others are a wrapped
  // paragraph.
  bool one_step_a_line(std::size_t from) const {
    std::size_t lines = 0;
    for (auto i = from; i < end_ && lines_[i].kind == LineKind::Text && !names_group(lines_[i]); ++i) {
      const bool last = i + 1 >= end_ || lines_[i + 1].kind != LineKind::Text || names_group(lines_[i + 1]);
      if (!last && !ends_sentence(lines_[i].body.text) && lines_[i].body.text.back() != ':') return false;
      ++lines;
    }
    return lines > 1;
  }

  void text(const SourceLine& line) {
    if (in_aside_ && follows_directly()) {
      out_.notes.back().text += " " + line.body.text;
      return;
    }
    if (names_group(line) && next_line() != nullptr) {
      by_line_ = false;
      return open_part(line);
    }
    if (follows_directly() && open_ && !(by_line_ && open_kind_ == LineKind::Text)) {
      const bool wrapped = open_kind_ != LineKind::Text || !line.strong;
      if (wrapped && !is_aside(line.body.text)) {
        open_label_ = false;
        return join(line);
      }
    }
    if (is_aside(line.body.text)) return aside(line);
    if (is_part(line)) return open_part(line);
    if (open_ && open_label_) {
      open_label_ = false;
      return join(line);
    }
    if (open_ && open_kind_ != LineKind::Text && line.indent >= 2 && line.indent > open_indent_)
      return join(line);
    if (numbered_ && !out_.steps.empty() && !looks_like_step(line.body.text)) return aside(line);
    if (!(by_line_ && follows_directly())) by_line_ = one_step_a_line(at_);
    begin_step(line, line.body);
  }

  const std::vector<SourceLine>& lines_;
  std::size_t begin_, end_;
  std::string part_;
  Sections& out_;
  std::size_t at_ = 0;
  std::size_t last_ = static_cast<std::size_t>(-2);
  bool numbered_ = false, items_ = false;
  bool open_ = false;        // a step may still go on
  bool open_label_ = false;  // its words follow the line "Step 3"
  bool by_line_ = false;
  bool in_aside_ = false;
  bool plain_numbers_ = false;  // the steps are numbered without a full stop
  int next_plain_number_ = 1;
  std::set<std::string> groups_;  // of the ingredient list, folded
  LineKind open_kind_ = LineKind::Text;
  int open_indent_ = 0;
};

}  // namespace

void read_method_section(const std::vector<SourceLine>& lines, std::size_t begin, std::size_t end,
                         const std::string& part, Sections& out) {
  MethodSection(lines, begin, end, part, out).read();
}

}  // namespace panslate
