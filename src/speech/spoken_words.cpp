#include "speech/spoken_words.h"

#include <algorithm>
#include <array>

#include "panslate/base/text.h"

namespace panslate {

namespace {

/// Sounds that captions note in round brackets: common practice, no source. Short, since a word taken for a
/// sound is a word lost.
constexpr std::array<std::string_view, 24> kSounds{
    "applause", "beeping",  "beeps", "cheering", "chuckles", "chuckling", "clanking",   "clattering",
    "coughing", "coughs",   "gasps", "giggles",  "giggling", "inaudible", "indistinct", "laughing",
    "laughs",   "laughter", "music", "sighing",  "sighs",    "sneezes",   "sniffs",     "whispering"};

bool has_digit(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

bool names_a_sound(std::string_view text) {
  const auto folded = fold_case(text);
  for (std::size_t i = 0; i < folded.size();) {
    const auto is_letter = [&](std::size_t at) { return folded[at] >= 'a' && folded[at] <= 'z'; };
    if (!is_letter(i)) {
      ++i;
      continue;
    }
    const std::size_t start = i;
    while (i < folded.size() && is_letter(i)) ++i;
    const auto word = std::string_view(folded).substr(start, i - start);
    if (std::find(kSounds.begin(), kSounds.end(), word) != kSounds.end()) return true;
  }
  return false;
}

bool is_music_sign(char32_t c) {
  return c >= 0x2669 && c <= 0x266C;
}

/// Signs that are no word by themselves. Not among them: & + % ° = × / and the vulgar fractions.
bool is_bare_punctuation(char32_t c) {
  constexpr std::u32string_view kSigns = U"-.,;:!?'\"()[]{}<>*_|#\u2022\u00B7\u00BF\u00A1\u00AB\u00BB";
  return kSigns.find(c) != std::u32string_view::npos || (c >= 0x2010 && c <= 0x2027) ||
         (c >= 0x200B && c <= 0x200F) || (c >= 0x202A && c <= 0x202E) || c == 0xFFFD || is_music_sign(c) ||
         is_space(c);
}

bool is_dash(char32_t c) {
  return c == '-' || (c >= 0x2010 && c <= 0x2015);
}

class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text), silent_(text.size(), false) {}

  FoundWords run() {
    silence_brackets('[', ']', [](std::string_view inside) { return !has_digit(inside); });
    silence_brackets('(', ')', names_a_sound);
    for (const auto& line : split_lines(text_)) {
      silence_music(line);
      line_start(line);
      split_words(line);
    }
    return std::move(found_);
  }

 private:
  void silence(std::size_t begin, std::size_t end) {
    std::fill(silent_.begin() + static_cast<std::ptrdiff_t>(begin),
              silent_.begin() + static_cast<std::ptrdiff_t>(end), true);
  }

  template <class IsNote>
  void silence_brackets(char open, char close, IsNote is_note) {
    std::size_t start = std::string_view::npos;
    for (std::size_t i = 0; i < text_.size(); ++i) {
      if (text_[i] == open) {
        start = i;
      } else if (text_[i] == close && start != std::string_view::npos) {
        if (is_note(text_.substr(start + 1, i - start - 1))) silence(start, i + 1);
        start = std::string_view::npos;
      }
    }
  }

  void silence_music(const TextLine& line) {
    bool is_open = false;
    std::size_t open = 0;
    bool opened_at_start = false;
    bool at_start = true;
    for (std::size_t i = 0; i < line.text.size();) {
      const auto [c, next] = code_point_at(line.text, i);
      if (is_music_sign(c)) {
        if (is_open) {
          silence(line.offset + open, line.offset + next);
        } else {
          opened_at_start = at_start;
          open = i;
        }
        is_open = !is_open;
      }
      at_start = at_start && (is_space(c) || is_music_sign(c));
      i = next;
    }
    if (is_open && opened_at_start) silence(line.offset + open, line.offset + line.text.size());
  }

  [[nodiscard]] bool is_gap(std::size_t at, char32_t c) const { return silent_[at] || is_space(c); }

  [[nodiscard]] std::size_t skip_gaps(std::size_t at, std::size_t end) const {
    while (at < end) {
      const auto [c, next] = code_point_at(text_, at);
      if (!is_gap(at, c)) break;
      at = next;
    }
    return at;
  }

  void line_start(const TextLine& line) {
    const std::size_t end = line.offset + line.text.size();
    std::size_t at = skip_gaps(line.offset, end);
    std::size_t after = at;
    while (after < end) {
      const auto [c, next] = code_point_at(text_, after);
      if (silent_[after] || !(is_dash(c) || c == '>')) break;
      after = next;
    }
    const bool before_number = after < end && text_[after] >= '0' && text_[after] <= '9';
    if (after > at && !before_number) {
      silence(at, after);
      at = skip_gaps(after, end);
    }
    silence_speaker(at, end);
  }

  /// A letter that has a capital, and is none.
  static bool is_small(std::string_view letter, char32_t c) {
    return is_word_character(c) && !(c >= '0' && c <= '9') && fold_case(letter) == letter;
  }

  void silence_speaker(std::size_t at, std::size_t end) {
    constexpr std::size_t kLongestName = 40;
    const auto rest = text_.substr(at, end - at);
    const auto colon = rest.substr(0, kLongestName).find(':');
    if (colon == std::string_view::npos || colon < 2) return;
    const auto name = rest.substr(0, colon);
    int letters = 0;
    for (std::size_t i = 0; i < name.size();) {
      const auto [c, next] = code_point_at(name, i);
      if (silent_[at + i] || is_small(name.substr(i, next - i), c)) return;
      const bool digit = c >= '0' && c <= '9';
      const bool letter = is_word_character(c) && !digit;
      if (!letter && !digit && c != ' ' && c != '.' && c != '-' && c != '\'' && c != '&' && c != '#') return;
      letters += letter ? 1 : 0;
      i = next;
    }
    if (letters < 2) return;
    // "OIL: two spoons" and "FLOUR: 200 g" on a picture are no speakers: a speaker begins a sentence, and not
    // in capitals throughout.
    const std::size_t speech = skip_gaps(at + colon + 1, end);
    if (speech >= end) return;
    bool first = true;
    bool any_small = false;
    for (std::size_t i = speech; i < end;) {
      const auto [c, next] = code_point_at(text_, i);
      const bool small = is_small(text_.substr(i, next - i), c);
      if (first && (small || !is_word_character(c) || (c >= '0' && c <= '9'))) return;
      first = false;
      any_small = any_small || small;
      i = next;
    }
    if (!any_small) return;
    silence(at, at + colon + 1);
    if (found_.speaker.empty()) found_.speaker = trim(name);
  }

  void split_words(const TextLine& line) {
    const std::size_t end = line.offset + line.text.size();
    bool first = true;
    for (std::size_t at = skip_gaps(line.offset, end); at < end; at = skip_gaps(at, end)) {
      const std::size_t begin = at;
      bool says_something = false;
      while (at < end) {
        const auto [c, next] = code_point_at(text_, at);
        if (is_gap(at, c)) break;
        says_something = says_something || !is_bare_punctuation(c);
        at = next;
      }
      if (!says_something) continue;
      found_.words.push_back({begin, at, first});
      first = false;
    }
  }

  std::string_view text_;
  std::vector<bool> silent_;
  FoundWords found_;
};

}  // namespace

FoundWords find_spoken_words(std::string_view text) {
  return Scanner(text).run();
}

}  // namespace panslate
