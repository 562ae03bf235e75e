#include <algorithm>
#include <string>
#include <string_view>

#include "panslate/base/text.h"
#include "panslate/check/check.h"
#include "panslate/project/answer_spelling.h"

namespace panslate {

namespace {

bool is_quote(std::string_view letter) {
  return letter == "\u2018" || letter == "\u2019" || letter == "\u201C" || letter == "\u201D";
}

bool is_digit_at(std::string_view text, std::size_t at) {
  return at < text.size() && '0' <= text[at] && text[at] <= '9';
}

// Case, accents, spaces and the marks between words do not make another line of it; what may belong to a
// number does: "1.5", "1/5", "½", "-18 °C".
std::string folded(std::string_view text) {
  const auto plain = fold_accents(collapse_spaces(text));
  std::string out;
  for (std::size_t at = 0; at < plain.size();) {
    const auto next = code_point_at(plain, at).next;
    const auto letter = std::string_view(plain).substr(at, next - at);
    const bool between_words = letter.size() == 1
                                   ? !is_word_character(static_cast<unsigned char>(letter.front()))
                                   : is_quote(letter);
    if (!between_words || is_digit_at(plain, next) || (at > 0 && letter != " " && is_digit_at(plain, at - 1)))
      out += letter;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
    at = next;
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

const ChannelFinding* channel_of(const Requirement& line, Answer::About about) {
  if (about == Answer::About::Said) return &line.said;
  return about == Answer::About::OnPicture ? &line.on_text : nullptr;
}

std::string decided(const Answer& answer) {
  auto out = "you answered \"" + std::string(words_for(answer.is)) + "\"";
  if (!answer.written.empty()) out += " for \"" + answer.written + "\"";
  if (answer.found)
    out +=
        answer.found->empty() ? ", where nothing was found" : ", where \"" + *answer.found + "\" was found";
  return out;
}

class Applying {
 public:
  Applying(CheckReport& report, const std::vector<Answer>& answers, std::size_t index)
      : report_(report), answer_(answers[index]), index_(index) {}

  void run() {
    const auto at = line_of(report_, answer_);
    if (!at) {
      report_.decide_again.push_back({answer_.written.empty() ? answer_.line : answer_.written,
                                      decided(answer_), "no line of the recipe fits it now", index_});
      return;
    }
    auto* line = &report_.requirements[*at];
    if (!answer_.written.empty() && folded(answer_.written) != folded(line->text))
      return again(*line, "the recipe has \"" + line->text + "\"");
    const auto found = found_words(*line, answer_.about);
    if (answer_.found && folded(*answer_.found) != folded(found))
      return again(*line, found.empty() ? "nothing is found for it" : "\"" + found + "\" is found");
    apply(*line);
    line->answered = true;
    line->covered = CheckReport::is_covered(*line);
  }

 private:
  void again(const Requirement& line, std::string now) {
    report_.decide_again.push_back({line.text, decided(answer_), std::move(now), index_});
  }

  void apply(Requirement& line) const {
    if (answer_.is == Answer::Is::Leave) {
      line.optional = true;
      line.why = "you said to leave this";
      return;
    }
    const bool yes = answer_.is == Answer::Is::Yes;
    switch (answer_.about) {
      case Answer::About::Said:
        line.said.verdict = yes ? Verdict::Match : Verdict::Missing;
        line.why = yes ? "you said that it is said as written" : "you said that it is not said as written";
        return;
      case Answer::About::OnPicture:
        line.on_text.verdict = yes ? Verdict::Match : Verdict::Differs;
        line.why = yes ? "you said that the text on the picture is right"
                       : "you said that the text on the picture is not right";
        return;
      case Answer::About::Shown:
        line.shown.verdict = yes ? ShownVerdict::Yes : ShownVerdict::No;
        line.why = yes ? "you said that it is shown" : "you said that it is not shown";
        return;
    }
  }

  CheckReport& report_;
  const Answer& answer_;
  std::size_t index_;
};

}  // namespace

std::string found_words(const Requirement& line, Answer::About about) {
  if (about == Answer::About::Shown) return join(line.shown.segments, ", ");
  const auto* channel = channel_of(line, about);
  return channel == nullptr || channel->mentions.empty() ? std::string{} : channel->mentions.front().text;
}

// The key first, then the whole line, then the one ingredient of this name.
std::optional<std::size_t> line_of(const CheckReport& report, const Answer& answer) {
  const auto& lines = report.requirements;
  const auto index_of = [&](auto found) { return static_cast<std::size_t>(found - lines.begin()); };
  const auto key = trim(answer.line);
  const auto words = folded(answer.line);
  const auto by_key = std::find_if(lines.begin(), lines.end(), [&](const Requirement& l) {
    return l.key == key || CheckReport::id_of(l) == key;
  });
  if (by_key != lines.end()) return index_of(by_key);
  const auto by_text =
      std::find_if(lines.begin(), lines.end(), [&](const Requirement& l) { return folded(l.text) == words; });
  if (by_text != lines.end()) return index_of(by_text);
  const auto is_named = [&](const Requirement& l) {
    return l.kind == RequirementKind::Ingredient && folded(l.name) == words;
  };
  const auto by_name = std::find_if(lines.begin(), lines.end(), is_named);
  if (by_name == lines.end() || std::count_if(lines.begin(), lines.end(), is_named) > 1) return std::nullopt;
  return index_of(by_name);
}

void apply_answers(CheckReport& report, const std::vector<Answer>& answers) {
  for (std::size_t i = 0; i < answers.size(); ++i) Applying(report, answers, i).run();
  for (const auto& again : report.decide_again)
    report.warnings.push_back(
        {"decide-again", WarningLevel::Warning,
         "please decide again about \"" + again.what + "\": " + again.before + "; now " + again.after,
         std::nullopt, std::nullopt});
}

}  // namespace panslate
