#include "speech/marked_text.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"

#include "speech/spoken_words.h"

namespace panslate {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Something in the form of a clock time at the start of a text.
struct Clock {
  std::optional<MediaTime> time;  ///< empty when the form is right and the time is not (1:75)
  std::size_t length = 0;
};

/// m:ss or h:mm:ss, with decimals; two digits of seconds tell a time from a ratio (1:2).
std::optional<Clock> clock_at(std::string_view text) {
  std::size_t i = 0;
  int fields = 1;
  std::size_t digits = 0;
  for (; i < text.size(); ++i) {
    if (is_digit(text[i])) {
      if (++digits > 4) return std::nullopt;
    } else if (text[i] == ':' && digits > 0 && fields < 3 && i + 1 < text.size() && is_digit(text[i + 1])) {
      if (fields > 1 && digits != 2) return std::nullopt;
      ++fields;
      digits = 0;
    } else {
      break;
    }
  }
  if (fields < 2 || digits != 2) return std::nullopt;
  if (i + 1 < text.size() && (text[i] == '.' || text[i] == ',') && is_digit(text[i + 1])) {
    const std::size_t start = ++i;
    while (i < text.size() && is_digit(text[i]) && i - start < 9) ++i;
  }
  return Clock{parse_timestamp(text.substr(0, i)), i};
}

struct Mark {
  std::size_t begin = 0;  ///< of the mark itself, in the whole text
  std::size_t end = 0;    ///< where what is said begins
  MediaTime time;
  std::optional<MediaTime> until;
  int line = 0;
};

std::size_t skip_blanks(std::string_view text, std::size_t at) {
  while (at < text.size() && (text[at] == ' ' || text[at] == '\t')) ++at;
  return at;
}

/// Behind one of the signs at `at`; `at` itself when there is none.
template <std::size_t N>
std::size_t skip_sign(std::string_view text, std::size_t at, const std::array<std::string_view, N>& signs) {
  for (const auto sign : signs)
    if (text.substr(at).starts_with(sign)) return at + sign.size();
  return at;
}

constexpr std::array<std::string_view, 3> kDashes{"-", "–", "—"};
constexpr std::array<std::string_view, 5> kUntil{"-->", "->", "-", "–", "—"};

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  DraftTranscript run() {
    int number = 0;
    for (const auto& line : split_lines(text_)) {
      ++number;
      find_marks(line, number);
    }
    if (!marks_.empty()) make_cues();
    return std::move(result_);
  }

 private:
  void find_marks(const TextLine& line, int number) {
    const std::size_t start = line.text.size() - trim_front(line.text).size();
    for (std::size_t i = start; i < line.text.size(); ++i) {
      const char c = line.text[i];
      const bool bracket = c == '[' || c == '(';
      if (!bracket && i != start) continue;
      if (const auto length = mark_at(line, i, number)) i += *length - 1;
    }
  }

  static std::string_view trim_front(std::string_view text) { return text.substr(skip_blanks(text, 0)); }

  /// Length of the mark at `at` of a line, which is noted; empty when there is none.
  std::optional<std::size_t> mark_at(const TextLine& line, std::size_t at, int number) {
    const auto text = line.text;
    const bool bracket = text[at] == '[' || text[at] == '(';
    std::size_t i = bracket ? skip_blanks(text, at + 1) : at;
    const auto clock = clock_at(text.substr(i));
    if (!clock) return std::nullopt;
    i += clock->length;
    std::optional<Clock> until;
    const std::size_t sign = skip_blanks(text, i);
    const std::size_t second = skip_blanks(text, skip_sign(text, sign, kUntil));
    if (second != sign) until = clock_at(text.substr(second));
    if (until) i = second + until->length;
    if (bracket) {
      i = skip_blanks(text, i);
      if (i >= text.size() || text[i] != (text[at] == '[' ? ']' : ')')) return std::nullopt;
      ++i;
    } else {
      const std::size_t after = skip_blanks(text, i);
      // An arrow that leads to no time is a broken caption of another format.
      if (text.substr(after).starts_with("->") || text.substr(after).starts_with("-->")) return std::nullopt;
      const std::size_t behind = skip_sign(text, after, kDashes);
      const bool colon = i < text.size() && text[i] == ':';
      if (i < text.size() && after == i && behind == after && !colon) return std::nullopt;
      i = colon ? i + 1 : behind;
    }
    if (!clock->time || (until && !until->time)) {
      result_.warnings.push_back({"this is no time: minutes and seconds go up to 59", number});
      return std::nullopt;
    }
    marks_.push_back(
        {line.offset + at, line.offset + i, *clock->time, until ? until->time : std::nullopt, number});
    return i - at;
  }

  void make_cues() {
    if (const auto before = trim(text_.substr(0, marks_.front().begin)); !before.empty())
      add_cue(before, {MediaTime(), marks_.front().time}, 1);
    for (std::size_t i = 0; i < marks_.size(); ++i) {
      const auto& mark = marks_[i];
      const bool is_last = i + 1 == marks_.size();
      const auto said =
          trim(text_.substr(mark.end, (is_last ? text_.size() : marks_[i + 1].begin) - mark.end));
      TimeRange when{mark.time, mark.time};
      if (mark.until)
        when.end = *mark.until;
      else if (!is_last && marks_[i + 1].time > mark.time)
        when.end = marks_[i + 1].time;
      else
        when.end = mark.time + kWordLength * std::max<std::int64_t>(1, word_count(said));
      add_cue(said, when, mark.line);
    }
  }

  static std::int64_t word_count(std::string_view said) {
    return static_cast<std::int64_t>(find_spoken_words(said).words.size());
  }

  void add_cue(std::string_view said, TimeRange when, int line) {
    DraftCue draft;
    for (const auto& part : split_lines(said)) {
      const auto words = trim(part.text);
      if (words.empty()) continue;
      if (!draft.cue.text.empty()) draft.cue.text += '\n';
      draft.cue.text += words;
    }
    draft.cue.when = when;
    draft.cue.line = line;
    draft.cue.text_at = static_cast<std::size_t>(said.data() - text_.data());
    result_.cues.push_back(std::move(draft));
  }

  std::string_view text_;
  std::vector<Mark> marks_;
  DraftTranscript result_;
};

}  // namespace

DraftTranscript read_marked_text(std::string_view text) {
  return Reader(text).run();
}

}  // namespace panslate
