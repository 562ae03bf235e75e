#include "deliver/page_marks.h"

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/plain_text.h"

namespace panslate {

PageMark said_mark(Verdict verdict) {
  const auto words = said_words(verdict);
  switch (verdict) {
    case Verdict::Match:
      return {"●", "good", words};
    case Verdict::Differs:
      return {"▲", "wrong", words};
    case Verdict::NoAmount:
      return {"▼", "wrong", words};
    case Verdict::Missing:
      return {"×", "wrong", words};
    case Verdict::Unsure:
      return {"◆", "doubt", words};
    case Verdict::NotChecked:
      return {"○", "none", words};
  }
  return {"○", "none", words};
}

PageMark shown_mark(ShownVerdict verdict) {
  const auto words = shown_words(verdict);
  switch (verdict) {
    case ShownVerdict::Yes:
      return {"●", "good", words};
    case ShownVerdict::Unconfirmed:
      return {"◆", "doubt", words};
    case ShownVerdict::No:
      return {"×", "wrong", words};
    case ShownVerdict::NotChecked:
      return {"○", "none", words};
  }
  return {"○", "none", words};
}

PageMark on_picture_mark(Verdict verdict) {
  auto mark = said_mark(verdict);
  mark.words = on_picture_words(verdict);
  if (verdict == Verdict::Missing || verdict == Verdict::NoAmount) mark.css_class = "none";
  return mark;
}

PageMark line_mark(const Requirement& requirement) {
  if (!CheckReport::needs_attention(requirement)) {
    if (requirement.covered) return said_mark(Verdict::Match);
    auto mark = said_mark(requirement.said.verdict);
    mark.css_class = "none";
    return mark;
  }
  const auto said = said_mark(requirement.said.verdict);
  // Said right, yet something else is wrong: that is what she must see.
  if (said.css_class == "good" || said.css_class == "none") {
    const auto on_picture = on_picture_mark(requirement.on_text.verdict);
    if (on_picture.css_class == "wrong" || on_picture.css_class == "doubt") return on_picture;
    const auto shown = shown_mark(requirement.shown.verdict);
    if (shown.css_class == "wrong") return shown;
  }
  return said;
}

void set_mark(PageData& data, const PageMark& mark) {
  data.set("mark", std::string(mark.shape));
  data.set("class", std::string(mark.css_class));
}

void set_flag(PageData& data, const std::string& name, bool value) {
  data.set(name, PageData(value ? PageData::type::bool_true : PageData::type::bool_false));
}

void set_if(PageData& data, const std::string& name, const std::string& text) {
  if (text.empty())
    set_flag(data, name, false);
  else
    data.set(name, text);
}

std::string spoken(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Spoken, Round::Down);
}

std::string seconds_text(MediaTime time) {
  const auto ms = time < MediaTime() ? 0 : time.to_ms(Round::Nearest);
  auto fraction = std::to_string(1000 + ms % 1000).substr(1);
  while (!fraction.empty() && fraction.back() == '0') fraction.pop_back();
  return std::to_string(ms / 1000) + (fraction.empty() ? "" : "." + fraction);
}

std::string page_text(std::string_view text, std::size_t characters) {
  // What is cut off need not be looked at: a character is at most four bytes.
  const auto cut = text.size() > characters * 8 ? text.substr(0, characters * 8) : text;
  return shortened(collapse_spaces(cut), characters);
}

}  // namespace panslate
