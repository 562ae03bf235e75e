#include "recipe/sections.h"

#include <algorithm>
#include <optional>

#include "panslate/base/text.h"

#include "recipe/heading_words.h"
#include "recipe/line_shape.h"
#include "recipe/yield.h"

namespace panslate {

namespace {

struct SectionStart {
  std::size_t at = 0;
  SectionKind kind = SectionKind::None;
  int level = 7;     // of its heading; bare lines stand lowest
  std::string part;  // the part of the dish it is for
};

bool is_content(const SourceLine& line) {
  return line.kind != LineKind::Blank && line.kind != LineKind::Rule;
}

SectionKind section_line(const SourceLine& line) {
  if (!is_content(line) || line.kind == LineKind::Row) return SectionKind::None;
  const bool marked = line.kind == LineKind::Heading || line.strong;
  return section_of(line.body.text, marked ? HeadingShape::Marked : HeadingShape::Bare);
}

class Sorter {
 public:
  explicit Sorter(const std::vector<SourceLine>& lines) : lines_(lines) {}

  Sections run() {
    find_title();
    find_starts();
    const bool has_list = has(SectionKind::Ingredients);
    const std::size_t first = starts_.empty() ? lines_.size() : starts_.front().at;
    if (has_list) {
      header(body_, first);
      for (std::size_t i = 0; i < starts_.size(); ++i) {
        const auto end = i + 1 < starts_.size() ? starts_[i + 1].at : lines_.size();
        read(starts_[i], end);
      }
    } else {
      by_shape();
    }
    return std::move(out_);
  }

 private:
  bool has(SectionKind kind) const {
    return std::any_of(starts_.begin(), starts_.end(), [&](const SectionStart& s) { return s.kind == kind; });
  }

  // The first heading of the highest rank that is no section, else the first line when it is a plain one.
  void find_title() {
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      const auto& line = lines_[i];
      if (!is_content(line)) continue;
      if (section_line(line) != SectionKind::None) return;
      const bool title =
          line.kind == LineKind::Heading || (line.kind == LineKind::Text && first_text_is_title(i));
      if (!title) {
        if (line.kind == LineKind::Text) continue;
        return later_heading_title(i);
      }
      take_title(i);
      return;
    }
  }

  bool first_text_is_title(std::size_t at) const {
    const auto& line = lines_[at];
    for (std::size_t i = 0; i < at; ++i)
      if (is_content(lines_[i])) return false;
    if (is_yield_line(line.body.text) || starts_with_amount(line.body.text)) return false;
    return word_count(line.body.text) <= 14;
  }

  void later_heading_title(std::size_t from) {
    for (auto i = from; i < lines_.size(); ++i) {
      if (lines_[i].kind != LineKind::Heading) continue;
      if (section_line(lines_[i]) == SectionKind::None && lines_[i].level == 1) take_title(i);
      return;
    }
  }

  void take_title(std::size_t at) {
    out_.title = group_name(lines_[at].body.text);
    out_.title_line = lines_[at].number;
    body_ = at + 1;
    title_at_ = at;
  }

  void find_starts() {
    std::optional<std::size_t> context;  // the last heading that is no section: "Dough" over "Ingredients"
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (i == title_at_) continue;
      const auto& line = lines_[i];
      const auto kind = section_line(line);
      const int level = line.kind == LineKind::Heading ? line.level : 7;
      if (kind == SectionKind::None) {
        if (line.kind == LineKind::Heading && line.level > 1 && i >= body_) unknown_heading(i, context);
        inline_start(i);
        continue;
      }
      SectionStart start{i, kind, level, part_in_section_heading(line.body.text)};
      if (start.part.empty() && context && lines_[*context].level < level && kind != SectionKind::Notes)
        start.part = group_name(lines_[*context].body.text);
      if (context && lines_[*context].level >= level) context.reset();
      starts_.push_back(std::move(start));
    }
  }

  // A heading between sections that names a part with a list of its own further down closes what stands
  // before it.
  void unknown_heading(std::size_t at, std::optional<std::size_t>& context) {
    context = at;
    if (starts_.empty() || lines_[at].level >= starts_.back().level) return;
    starts_.push_back({at, SectionKind::None, lines_[at].level, {}});
  }

  void inline_start(std::size_t at) {
    const auto& line = lines_[at];
    if (line.kind != LineKind::Text && line.kind != LineKind::Item) return;
    auto kind = SectionKind::None;
    if (inline_section(line.body.text, kind) == 0) return;
    if (kind == SectionKind::Ingredients && has(SectionKind::Ingredients)) return;
    if (kind == SectionKind::Method && has(SectionKind::Method)) return;
    starts_.push_back({at, kind, 7, {}});
  }

  void header(std::size_t begin, std::size_t end) {
    for (auto i = begin; i < end; ++i) {
      const auto& line = lines_[i];
      if (is_content(line))
        out_.header.push_back({line.number, line.body.text, line.kind == LineKind::Heading});
    }
  }

  void notes(std::size_t begin, std::size_t end) {
    bool open = false;
    for (auto i = begin; i < end; ++i) {
      const auto& line = lines_[i];
      if (!is_content(line)) {
        open = false;
        continue;
      }
      if (open && line.kind == LineKind::Text && lines_[i - 1].kind == LineKind::Text) {
        out_.notes.back().text += " " + line.body.text;
        continue;
      }
      out_.notes.push_back({line.number, line.body.text, line.kind == LineKind::Heading});
      open = line.kind == LineKind::Text;
    }
  }

  // Method lines that stand in the words of the heading itself ("Method: Heat …") are cut out of a copy.
  void read(const SectionStart& start, std::size_t end) {
    auto kind = SectionKind::None;
    const auto& line = lines_[start.at];
    const auto cut = inline_section(line.body.text, kind);
    if (cut > 0 && kind == start.kind && section_line(line) == SectionKind::None)
      return read_inline(start, end, cut);
    switch (start.kind) {
      case SectionKind::Ingredients:
        out_.header.push_back({line.number, line.body.text, true});
        ingredients(start, end);
        return;
      case SectionKind::Method:
        read_method_section(lines_, start.at + 1, end, part_name(start.part), out_);
        return;
      case SectionKind::None:
        other(start.at, end);
        return;
      case SectionKind::Notes:
        notes(start.at + 1, end);
        return;
      case SectionKind::Equipment:
        return;
    }
  }

  void read_inline(const SectionStart& start, std::size_t end, std::size_t cut) {
    std::vector<SourceLine> copy(lines_.begin() + static_cast<std::ptrdiff_t>(start.at),
                                 lines_.begin() + static_cast<std::ptrdiff_t>(end));
    const auto whole = copy.front().body;
    copy.front().body = whole.part(cut, whole.text.size());
    copy.front().kind = LineKind::Text;
    copy.front().strong = false;
    if (start.kind == SectionKind::Method) return read_method_section(copy, 0, copy.size(), {}, out_);
    if (copy.size() > 1 && is_content(copy[1]))
      return read_ingredient_section(copy, 0, copy.size(), {}, out_);
    split_listing(copy.front());
    read_ingredient_section(copy, 1, copy.size(), {}, out_);
  }

  // "Ingredients: 200 g flour, 2 eggs; salt"
  void split_listing(const SourceLine& line) {
    const auto& text = line.body.text;
    const char separator = text.find(';') != std::string::npos ? ';' : ',';
    std::size_t begin = 0;
    int depth = 0;
    for (std::size_t i = 0; i <= text.size(); ++i) {
      if (i < text.size() && text[i] == '(') ++depth;
      if (i < text.size() && text[i] == ')') --depth;
      const bool decimal = i > 0 && i + 1 < text.size() && text[i + 1] != ' ';
      if (i < text.size() && (text[i] != separator || depth > 0 || (separator == ',' && decimal))) continue;
      auto piece = line.body.part(begin, i);
      while (!piece.text.empty() && i == text.size() && piece.text.back() == '.')
        piece = piece.part(0, piece.text.size() - 1);
      if (!piece.text.empty()) out_.ingredients.push_back({line.number, std::move(piece), {}, false});
      begin = i + 1;
    }
  }

  // Without a heading for the method the list ends where steps begin.
  void ingredients(const SectionStart& start, std::size_t end) {
    auto split = end;
    const bool method_told = has(SectionKind::Method);
    if (!method_told) split = first_step(start.at + 1, end);
    read_ingredient_section(lines_, start.at + 1, split, start.part, out_);
    if (split < end) read_method_section(lines_, split, end, {}, out_);
  }

  std::size_t first_step(std::size_t begin, std::size_t end) const {
    bool bullets = false, any = false;
    for (auto i = begin; i < end; ++i) {
      const auto& line = lines_[i];
      if (!is_content(line)) continue;
      const auto& text = line.body.text;
      if (any && line.kind == LineKind::Numbered && bullets) return back_to_heading(begin, i);
      if (any && line.kind != LineKind::Heading && line.kind != LineKind::Row && looks_like_step(text) &&
          (word_count(text) >= 5 || line.kind == LineKind::Numbered))
        return back_to_heading(begin, i);
      bullets = bullets || line.kind == LineKind::Item || line.kind == LineKind::Row;
      any = any || line.kind != LineKind::Heading;
    }
    return end;
  }

  // A heading right above the first step belongs to it.
  std::size_t back_to_heading(std::size_t begin, std::size_t at) const {
    auto i = at;
    while (i > begin && !is_content(lines_[i - 1])) --i;
    if (i > begin && (lines_[i - 1].kind == LineKind::Heading || lines_[i - 1].strong)) return i - 1;
    return at;
  }

  // A heading of its own after a section: a further group or part when it looks like one, else notes.
  void other(std::size_t at, std::size_t end) {
    std::size_t like_ingredient = 0, like_step = 0;
    for (auto i = at + 1; i < end; ++i) {
      const auto& line = lines_[i];
      if (line.kind == LineKind::Numbered || looks_like_step(line.body.text))
        ++like_step;
      else if (line.kind == LineKind::Item && starts_with_amount(line.body.text))
        ++like_ingredient;
    }
    const auto heading = lines_[at].body.text;
    if (like_ingredient > like_step && out_.steps.empty())
      return read_ingredient_section(lines_, at + 1, end, group_name(heading), out_);
    if (like_step > 0 && !out_.steps.empty())
      return read_method_section(lines_, at + 1, end, part_name(heading), out_);
    notes(at + 1, end);
  }

  void by_shape() {
    const auto method = std::find_if(starts_.begin(), starts_.end(),
                                     [](const SectionStart& s) { return s.kind == SectionKind::Method; });
    const auto limit = method != starts_.end() ? method->at : notes_start();
    const auto begin = first_ingredient(body_, limit);
    header(body_, begin);
    if (begin >= limit) return;
    const auto end = method != starts_.end() ? limit : first_step(begin, limit);
    read_ingredient_section(lines_, begin, end, {}, out_);
    if (method == starts_.end()) read_method_section(lines_, end, limit, {}, out_);
    for (auto start = starts_.begin(); start != starts_.end(); ++start) {
      const auto next = start + 1 != starts_.end() ? (start + 1)->at : lines_.size();
      if (start->at >= limit) read(*start, next);
    }
  }

  std::size_t notes_start() const {
    for (const auto& start : starts_)
      if (start.at >= body_ && (start.kind == SectionKind::Notes || start.kind == SectionKind::Equipment))
        return start.at;
    return lines_.size();
  }

  // Two lines near each other that look like ingredients, one of them with an amount.
  std::size_t first_ingredient(std::size_t begin, std::size_t end) const {
    std::optional<std::size_t> first;
    std::size_t like = 0, amounts = 0, apart = 0;
    for (auto i = begin; i < end; ++i) {
      const auto& line = lines_[i];
      if (!is_content(line)) continue;
      const auto& text = line.body.text;
      const bool fits = line.kind != LineKind::Heading && looks_like_ingredient(text) &&
                        !is_yield_line(text) && stated_times_in(text, 0).empty() && !stands_apart(i);
      if (!fits) {
        if (++apart > 1 || looks_like_step(text)) first.reset(), like = amounts = 0;
        continue;
      }
      if (!first) first = i, apart = 0;
      ++like;
      amounts += static_cast<std::size_t>(starts_with_amount(text) || ends_with_amount(text));
      if (like >= 2 && amounts >= 1) return group_above(begin, *first);
    }
    return first && amounts >= 1 ? *first : end;
  }

  // A line of its own without an amount, as under a title: "Low FODMAP, gluten free. Serves 4".
  bool stands_apart(std::size_t at) const {
    const auto& text = lines_[at].body.text;
    if (lines_[at].kind != LineKind::Text || starts_with_amount(text) || ends_with_amount(text)) return false;
    const bool above = at == 0 || !is_content(lines_[at - 1]) || at - 1 == title_at_;
    // "(smoked haddock soup)" over "Serves 4" goes on with the title.
    const bool below = at + 1 >= lines_.size() || !is_content(lines_[at + 1]) ||
                       (above && is_yield_line(lines_[at + 1].body.text));
    return above && below;
  }

  // "For the sauce:" right above the first ingredient is its group.
  std::size_t group_above(std::size_t begin, std::size_t first) const {
    if (first == begin || first == 0) return first;
    const auto& above = lines_[first - 1];
    if (!is_content(above) || is_yield_line(above.body.text)) return first;
    const bool names_group =
        above.body.text.back() == ':' || fold_case(above.body.text).substr(0, 4) == "for ";
    return names_group ? first - 1 : first;
  }

  const std::vector<SourceLine>& lines_;
  std::vector<SectionStart> starts_;
  std::size_t body_ = 0;
  std::size_t title_at_ = static_cast<std::size_t>(-1);
  Sections out_;
};

}  // namespace

Sections sort_sections(const std::vector<SourceLine>& lines) {
  return Sorter(lines).run();
}

}  // namespace panslate
