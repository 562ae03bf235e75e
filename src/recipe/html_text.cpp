#include "recipe/html_text.h"

#include <algorithm>
#include <vector>

#include "panslate/base/text.h"

#include "recipe/word_list.h"

namespace panslate {

namespace {

bool is_unseen(const HtmlNode& node) {
  if (is_one_of(node.tag, {"script",   "style",  "noscript", "template", "nav",    "footer", "input",
                           "button",   "select", "textarea", "svg",      "iframe", "aside",  "head",
                           "datalist", "object", "audio",    "video",    "canvas", "math",   "del",
                           "s",        "strike", "option",   "dialog"}))
    return true;
  if (node.has("hidden") || is_one_of(node.value("id"), {"comments", "respond", "reviews"})) return true;
  const auto style = node.value("style");
  return style.find("display:none") != std::string_view::npos ||
         style.find("display: none") != std::string_view::npos;
}

bool is_block(std::string_view tag) {
  return is_one_of(
      tag, {"p",    "div",     "section",    "article", "main",       "header",  "ul",       "ol",
            "dl",   "dt",      "dd",         "table",   "tbody",      "thead",   "tfoot",    "figure",
            "hr",   "pre",     "blockquote", "address", "figcaption", "details", "fieldset", "summary",
            "body", "caption", "hgroup",     "center",  "menu",       "legend",  "html"});
}

bool ends_paragraph(std::string_view tag) {
  return is_one_of(tag, {"p", "ul", "ol", "table", "section", "article", "dl", "pre", "figure", "header"});
}

int heading_level(std::string_view tag) {
  return tag.size() == 2 && tag[0] == 'h' && tag[1] >= '1' && tag[1] <= '6' ? tag[1] - '0' : 0;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_letter_or_digit(char c) {
  return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         (static_cast<unsigned char>(c) & 0x80U) != 0;
}

class TextWriter {
 public:
  TextWriter(const HtmlTree& tree, LineEnds line_ends) : tree_(tree), line_ends_(line_ends) {}

  std::string write(std::size_t begin, std::size_t end) {
    for (auto i = begin; i < end;) {
      while (!open_.empty() && open_.back().end <= i) close();
      const auto& node = tree_[i];
      if (node.tag.empty()) {
        text(i);
        ++i;
        continue;
      }
      if (is_unseen(node)) {
        i = node.end;
        continue;
      }
      if (!start(i)) {
        i = node.end;
        continue;
      }
      ++i;
    }
    while (!open_.empty()) close();
    end_line();
    return std::move(out_);
  }

 private:
  enum class Role : std::uint8_t { Block, Heading, Item, List, Row, Cell, Strong, Inline };
  struct Open {
    Role role;
    std::size_t end;
    std::string_view tag;
  };
  struct List {
    bool ordered;
    int count = 0;
  };

  void open(std::size_t at, Role role) { open_.push_back({role, tree_[at].end, tree_[at].tag}); }

  // False when what stands inside is not to be read.
  bool start(std::size_t at) {
    const auto tag = tree_[at].tag;
    if (tag == "br") {
      end_line();
      return true;
    }
    if (const int level = heading_level(tag)) {
      end_paragraph();
      mark_ = std::string(static_cast<std::size_t>(level), '#') + " ";
      open(at, Role::Heading);
    } else if (tag == "ul" || tag == "ol" || tag == "menu") {
      end_line();
      lists_.push_back({tag == "ol"});
      open(at, Role::List);
    } else if (tag == "li") {
      start_item();
      open(at, Role::Item);
    } else if (tag == "tr" && is_plain_row(at)) {
      end_line();
      row_ = Row{true, true, 0};
      line_ = "|";
      open(at, Role::Row);
    } else if ((tag == "td" || tag == "th") && row_.open) {
      row_.head = row_.head && tag == "th";
      ++row_.cells;
      open(at, Role::Cell);
    } else if (is_block(tag) || tag == "tr" || tag == "td" || tag == "th") {
      if (!row_.open) end_line();
      open(at, Role::Block);
    } else if (tag == "b" || tag == "strong") {
      ++strong_depth_;
      open(at, Role::Strong);
    } else if (tag == "sup") {
      return raised(at);
    } else {
      keep_apart();
      open(at, Role::Inline);
    }
    return true;
  }

  static std::string indent(std::size_t levels) {
    constexpr std::size_t kMostLevels = 8;
    return std::string(4 * std::min(levels, kMostLevels), ' ');
  }

  // A row of words, not of lists and paragraphs laid out side by side.
  bool is_plain_row(std::size_t at) const {
    for (auto i = at + 1; i < tree_[at].end; ++i)
      if (is_one_of(tree_[i].tag, {"ul", "ol", "table"}) || heading_level(tree_[i].tag) > 0) return false;
    return true;
  }

  void start_item() {
    end_line();
    if (lists_.empty()) {
      mark_ = "- ";  // an item outside a list
      return;
    }
    auto& list = lists_.back();
    ++list.count;
    mark_ = indent(lists_.size() - 1) + (list.ordered ? std::to_string(list.count) + ". " : "- ");
  }

  // "1<sup>1</sup>⁄<sub>2</sub>" is one and a half; a number behind a word is a footnote.
  bool raised(std::size_t at) {
    std::string inside;
    for (auto i = at + 1; i < tree_[at].end; ++i) inside += tree_[i].text;
    const bool number = !inside.empty() && std::all_of(inside.begin(), inside.end(), is_digit);
    if (number && !line_.empty() && is_digit(line_.back())) line_ += ' ';
    if (number && !line_.empty() && is_letter_or_digit(line_.back()) && !is_digit(line_.back())) return false;
    open(at, Role::Inline);
    return true;
  }

  // "<span>2</span><span>cups</span>": the page's style sheet sets them apart.
  void keep_apart() {
    if (after_inline_ && !line_.empty() && is_letter_or_digit(line_.back())) apart_ = true;
  }

  void close() {
    const auto [role, end, tag] = open_.back();
    open_.pop_back();
    switch (role) {
      case Role::Strong:
        --strong_depth_;
        break;
      case Role::Inline:
        after_inline_ = true;
        break;
      case Role::Cell:
        line_ += " |";
        break;
      case Role::Row:
        end_row();
        break;
      case Role::List:
        end_line();
        if (!lists_.empty()) lists_.pop_back();
        if (lists_.empty()) end_paragraph();
        break;
      case Role::Heading:
        end_paragraph();
        break;
      case Role::Item:
        end_line();
        mark_.clear();
        break;
      case Role::Block:
        if (row_.open)
          line_ += ' ';
        else if (ends_paragraph(tag) && lists_.empty())
          end_paragraph();
        else
          end_line();
        break;
    }
  }

  void text(std::size_t at) {
    std::string_view words = tree_[at].text;
    while (!words.empty()) {
      const auto stop =
          line_ends_ == LineEnds::Kept && !row_.open ? words.find('\n') : std::string_view::npos;
      put(words.substr(0, stop));
      if (stop == std::string_view::npos) break;
      if (trim(line_).empty()) end_paragraph();
      end_line();
      words.remove_prefix(stop + 1);
    }
    after_inline_ = false;
  }

  void put(std::string_view words) {
    if (words.empty()) return;
    if (apart_ && is_letter_or_digit(words.front())) line_ += ' ';
    apart_ = false;
    if (!trim(words).empty()) (strong_depth_ > 0 ? strong_ : plain_) = true;
    line_ += words;
  }

  void end_line() {
    if (row_.open) {
      line_ += ' ';
      return;
    }
    const auto words = collapse_spaces(line_);
    if (!words.empty()) {
      const bool bold = strong_ && !plain_ && mark_.empty();
      const bool goes_on = mark_.empty() && !lists_.empty();
      out_ += goes_on ? indent(lists_.size()) : mark_;
      out_ += bold ? "**" + words + "**" : words;
      out_ += '\n';
      mark_.clear();
      blank_ = false;
    }
    line_.clear();
    strong_ = plain_ = after_inline_ = apart_ = false;
  }

  void end_paragraph() {
    end_line();
    if (row_.open || blank_ || out_.empty()) return;
    out_ += '\n';
    blank_ = true;
  }

  void end_row() {
    row_.open = false;
    const auto words = collapse_spaces(line_);
    line_.clear();
    strong_ = plain_ = after_inline_ = apart_ = false;
    if (row_.cells == 0) return;
    out_ += words + '\n';
    if (row_.head) out_ += "|---|\n";
    blank_ = false;
  }

  struct Row {
    bool open = false;
    bool head = false;
    int cells = 0;
  };

  const HtmlTree& tree_;
  LineEnds line_ends_;
  std::string out_, line_, mark_;
  std::vector<Open> open_;
  std::vector<List> lists_;
  Row row_;
  int strong_depth_ = 0;
  bool strong_ = false, plain_ = false;  // words of the line
  bool after_inline_ = false;            // an inline element just ended
  bool apart_ = false;
  bool blank_ = false;
};

bool is_marked_up(std::string_view text) {
  const auto angle = text.find('<');
  if (angle != std::string_view::npos && text.find('>', angle) != std::string_view::npos) return true;
  const auto and_sign = text.find('&');
  return and_sign != std::string_view::npos && text.find(';', and_sign) != std::string_view::npos;
}

}  // namespace

std::string text_of_html(const HtmlTree& tree, std::size_t begin, std::size_t end, LineEnds line_ends) {
  return TextWriter(tree, line_ends).write(begin, end);
}

std::string text_of_html_string(std::string_view text) {
  constexpr int kMostTimesEscaped = 3;
  std::string out(text);
  for (int i = 0; i < kMostTimesEscaped && is_marked_up(out); ++i) {
    const auto tree = parse_html(out);
    if (!tree) break;
    auto read = text_of_html(*tree, 0, tree->size(), LineEnds::Kept);
    if (read == out) break;
    out = std::move(read);
  }
  return out;
}

}  // namespace panslate
