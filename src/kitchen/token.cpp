#include "panslate/kitchen/token.h"

#include <numeric>
#include <utility>

#include "panslate/base/text.h"

namespace panslate {

namespace {

constexpr std::size_t kMostDigits = 12;

bool is_digit(char32_t c) {
  return c >= '0' && c <= '9';
}

struct VulgarFraction {
  char32_t character;
  std::int64_t num, den;
};

// Unicode character database, numeric values (U+00BC…BE, U+2150…215E, U+2189).
constexpr VulgarFraction kVulgarFractions[] = {
    {0x00BC, 1, 4},  {0x00BD, 1, 2}, {0x00BE, 3, 4}, {0x2150, 1, 7}, {0x2151, 1, 9},
    {0x2152, 1, 10}, {0x2153, 1, 3}, {0x2154, 2, 3}, {0x2155, 1, 5}, {0x2156, 2, 5},
    {0x2157, 3, 5},  {0x2158, 4, 5}, {0x2159, 1, 6}, {0x215A, 5, 6}, {0x215B, 1, 8},
    {0x215C, 3, 8},  {0x215D, 5, 8}, {0x215E, 7, 8}, {0x2189, 0, 3},
};

std::optional<Ratio> vulgar_fraction(char32_t c) {
  for (const auto& row : kVulgarFractions)
    if (row.character == c) return Ratio::make(row.num, row.den);
  return std::nullopt;
}

std::optional<int> superscript_digit(char32_t c) {
  if (c == 0x00B9) return 1;
  if (c == 0x00B2 || c == 0x00B3) return static_cast<int>(c - 0x00B0);
  if (c == 0x2070 || (c >= 0x2074 && c <= 0x2079)) return static_cast<int>(c - 0x2070);
  return std::nullopt;
}

std::optional<int> subscript_digit(char32_t c) {
  if (c >= 0x2080 && c <= 0x2089) return static_cast<int>(c - 0x2080);
  return std::nullopt;
}

// Other characters for one mark; 0 where the character stands for itself.
char32_t plain_mark(char32_t c) {
  switch (c) {
    case 0x2010:  // hyphens and dashes
    case 0x2011:
    case 0x2012:
    case 0x2013:
    case 0x2014:
    case 0x2015:
    case 0x2212:
      return '-';
    case 0x00BA:  // º and ˚ are common slips for the degree sign
    case 0x02DA:
      return 0x00B0;
    case 0x2018:
    case 0x2019:
    case 0x02BC:
    case 0x2032:
      return '\'';
    case 0x201C:
    case 0x201D:
    case 0x2033:
      return '"';
    case 0x2044:  // fraction slash, division slash
    case 0x2215:
      return '/';
    default:
      return c;
  }
}

bool is_slash(char32_t c) {
  return plain_mark(c) == '/';
}

// Halves to sixteenths in lowest terms, as cooks write them; 6/200 in "gas 6/200C" is two settings.
bool is_kitchen_fraction(std::int64_t num, std::int64_t den) {
  const bool den_fits = (den >= 2 && den <= 6) || den == 8 || den == 10 || den == 12 || den == 16;
  if (!den_fits || num < 1 || std::gcd(num, den) != 1) return false;
  return num < den || (den <= 4 && num <= 15);
}

class Tokenizer {
 public:
  explicit Tokenizer(std::string_view text) : text_(text) {}

  std::vector<Token> run() {
    constexpr std::size_t kUsualLength = 4;  // bytes a token with its space, rather fewer than more
    tokens_.reserve(text_.size() / kUsualLength + 1);
    while (at_ < text_.size()) {
      const auto [c, next] = code_point_at(text_, at_);
      if (is_space(c)) {
        space_ = true;
        at_ = next;
        continue;
      }
      if (!number(c) && !word(c)) mark(c, next);
      space_ = false;
    }
    return std::move(tokens_);
  }

 private:
  struct Figures {
    Ratio value;
    std::size_t end = 0;
    bool whole = false;  // digits alone: may begin a mixed number
  };

  [[nodiscard]] char32_t character(std::size_t at) const {
    return at < text_.size() ? code_point_at(text_, at).value : 0;
  }

  [[nodiscard]] std::size_t digits_end(std::size_t at) const {
    while (at < text_.size() && is_digit(static_cast<unsigned char>(text_[at]))) ++at;
    return at;
  }

  [[nodiscard]] std::optional<std::int64_t> digits_value(std::size_t begin, std::size_t end) const {
    if (begin == end || end - begin > kMostDigits) return std::nullopt;
    std::int64_t value = 0;
    for (std::size_t i = begin; i < end; ++i) value = value * 10 + (text_[i] - '0');
    return value;
  }

  // 1/2, 1⁄2, ¹⁄₂, ½.
  [[nodiscard]] std::optional<Figures> fraction(std::size_t at) const {
    const auto [c, next] = code_point_at(text_, at);
    if (const auto value = vulgar_fraction(c)) return Figures{*value, next};
    std::int64_t num = 0;
    std::size_t end = at;
    if (superscript_digit(c)) {
      for (int count = 0; count < 3 && superscript_digit(character(end)); ++count) {
        num = num * 10 + *superscript_digit(character(end));
        end = code_point_at(text_, end).next;
      }
    } else {
      end = digits_end(at);
      const auto digits = digits_value(at, end);
      if (!digits || end - at > 2) return std::nullopt;
      num = *digits;
    }
    if (!is_slash(character(end))) return std::nullopt;
    std::size_t den_at = code_point_at(text_, end).next;
    std::int64_t den = 0;
    std::size_t den_end = den_at;
    if (subscript_digit(character(den_at))) {
      for (int count = 0; count < 3 && subscript_digit(character(den_end)); ++count) {
        den = den * 10 + *subscript_digit(character(den_end));
        den_end = code_point_at(text_, den_end).next;
      }
    } else {
      den_end = digits_end(den_at);
      const auto digits = digits_value(den_at, den_end);
      if (!digits || den_end - den_at > 2) return std::nullopt;
      den = *digits;
    }
    if (!is_kitchen_fraction(num, den)) return std::nullopt;
    return Figures{*Ratio::make(num, den), den_end};
  }

  // 12, 1,000, 1.5, .5, 1,5.
  [[nodiscard]] std::optional<Figures> decimal(std::size_t at) const {
    std::size_t end = digits_end(at);
    auto whole = digits_value(at, end);
    if (!whole) {
      const bool leading_point = text_[at] == '.' && end == at;
      if (!leading_point) return std::nullopt;
      whole = 0;
    }
    // Thousands: one to three digits, then groups of exactly three.
    if (end > at && end - at <= 3 && text_[at] != '0') {
      std::size_t group = end;
      auto value = *whole;
      while (group < text_.size() && text_[group] == ',' && digits_end(group + 1) == group + 4 &&
             group + 4 - at <= kMostDigits + 3) {
        value = value * 1000 + *digits_value(group + 1, group + 4);
        group += 4;
      }
      if (group != end &&
          !(group < text_.size() && text_[group] == ',' && digits_end(group + 1) > group + 1)) {
        end = group;
        whole = value;
      }
    }
    const bool grouped = end > digits_end(at);
    const char point = end < text_.size() ? text_[end] : '\0';
    if (point == '.' || (point == ',' && !grouped)) {
      const std::size_t decimals_end = digits_end(end + 1);
      const std::size_t count = decimals_end - end - 1;
      const auto decimals = digits_value(end + 1, decimals_end);
      const bool list = decimals_end < text_.size() && text_[decimals_end] == point &&
                        digits_end(decimals_end + 1) > decimals_end + 1;
      if (decimals && count <= 6 && !list) {
        std::int64_t den = 1;
        for (std::size_t i = 0; i < count; ++i) den *= 10;
        const auto value = Ratio(*whole).plus(*Ratio::make(*decimals, den));
        if (value) return Figures{*value, decimals_end};
      }
    }
    if (end == at) return std::nullopt;
    return Figures{Ratio(*whole), end, true};
  }

  bool number(char32_t c) {
    const bool starts = is_digit(c) || vulgar_fraction(c) || superscript_digit(c) ||
                        (c == '.' && is_digit(character(at_ + 1)) && (space_ || tokens_.empty()));
    if (!starts) return false;
    auto figures = fraction(at_);
    if (!figures) {
      if (superscript_digit(c)) return false;
      figures = decimal(at_);
      if (!figures) return false;
      if (figures->whole) mix_in_fraction(*figures);
    }
    // "2nd", "4th": an ordinal is a word.
    if (figures->whole && is_ordinal_end(figures->end)) {
      push(TokenKind::Word, figures->end + 2);
      return true;
    }
    push(TokenKind::Number, figures->end);
    tokens_.back().value = figures->value;
    return true;
  }

  // 1½, 1 ½, 1 1/2.
  void mix_in_fraction(Figures& figures) const {
    std::size_t at = figures.end;
    if (Ratio(1000) < figures.value || figures.value.is_zero()) return;
    const bool space = at < text_.size() && is_space(character(at));
    while (at < text_.size() && at < figures.end + 8 && is_space(character(at)))
      at = code_point_at(text_, at).next;
    if (at >= text_.size() || (!space && is_digit(character(at)))) return;
    const auto part = fraction(at);
    if (!part || Ratio(1) <= part->value) return;
    const auto sum = figures.value.plus(part->value);
    if (!sum) return;
    figures = {*sum, part->end, false};
  }

  [[nodiscard]] bool is_ordinal_end(std::size_t at) const {
    if (at + 2 > text_.size()) return false;
    const auto ending = fold_case(text_.substr(at, 2));
    if (ending != "st" && ending != "nd" && ending != "rd" && ending != "th") return false;
    return at + 2 == text_.size() || !is_word_character(character(at + 2));
  }

  bool word(char32_t c) {
    if (!is_word_character(c)) {
      if (c != 0x2103 && c != 0x2109) return false;
      // ℃ ℉: a degree sign and a letter.
      const std::size_t end = code_point_at(text_, at_).next;
      const std::size_t begin = at_;
      push(TokenKind::Mark, end);
      tokens_.back().text = "°";
      at_ = begin;
      space_ = false;
      push(TokenKind::Word, end);
      tokens_.back().text = c == 0x2103 ? "c" : "f";
      tokens_.back().raw = c == 0x2103 ? "C" : "F";
      return true;
    }
    std::size_t end = at_;
    bool letters = false;
    while (end < text_.size()) {
      const auto [value, next] = code_point_at(text_, end);
      // The º of "180 ºC" counts as a letter in Unicode; here it ends or begins none.
      if (value == 0x00BA || value == 0x02DA || vulgar_fraction(value)) break;
      if (is_word_character(value)) {
        if (is_digit(value) && letters && ends_gas_word(end)) break;
        letters = letters || !is_digit(value);
        end = next;
      } else if (plain_mark(value) == '\'' && value != 0x2032 && end > at_ &&
                 is_word_character(character(next)) && !is_digit(character(next))) {
        end = next;
      } else {
        break;
      }
    }
    if (end == at_) return false;
    push(TokenKind::Word, end);
    return true;
  }

  // "gas4", "mark6": the figure is a setting of its own.
  [[nodiscard]] bool ends_gas_word(std::size_t end) const {
    const auto so_far = text_.substr(at_, end - at_);
    return so_far.size() <= 4 && (fold_case(so_far) == "gas" || fold_case(so_far) == "mark");
  }

  void mark(char32_t c, std::size_t next) {
    push(TokenKind::Mark, next);
    const char32_t plain = plain_mark(c);
    tokens_.back().text.clear();
    append_utf8(tokens_.back().text, plain);
  }

  void push(TokenKind kind, std::size_t end) {
    Token token;
    token.kind = kind;
    token.raw = std::string(text_.substr(at_, end - at_));
    token.begin = at_;
    token.end = end;
    token.space_before = space_;
    if (kind == TokenKind::Word) {
      token.text = fold_accents(token.raw);
      for (auto i = token.text.find("\xE2\x80\x99"); i != std::string::npos;
           i = token.text.find("\xE2\x80\x99"))
        token.text.replace(i, 3, "'");
      const auto first = static_cast<unsigned char>(token.raw.front());
      if (first < 0x80) {
        token.capital = 'A' <= first && first <= 'Z';
      } else {
        const auto letter = token.raw.substr(0, code_point_at(token.raw, 0).next);
        token.capital = fold_case(letter) != letter;
      }
    } else {
      token.text = token.raw;
    }
    tokens_.push_back(std::move(token));
    at_ = end;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  bool space_ = false;
  std::vector<Token> tokens_;
};

// "2 x 400 g", "2x400g", "2 x red onions": the letter between a number and what is counted is a times sign.
void mark_times(std::vector<Token>& tokens) {
  for (std::size_t i = 1; i + 1 < tokens.size(); ++i) {
    auto& token = tokens[i];
    if (token.text == "×" || (token.kind == TokenKind::Word && token.text == "x")) {
      if (tokens[i - 1].kind != TokenKind::Number || tokens[i + 1].kind == TokenKind::Mark) continue;
      token.kind = TokenKind::Mark;
      token.text = "×";
    }
  }
}

// "2x400g", "1h30": a letter that has grown together with the figure after it.
bool may_be_grown(const Token& before, const Token& token) {
  constexpr std::size_t kLongest = 24;
  return token.kind == TokenKind::Word && before.kind == TokenKind::Number && token.text.size() > 1 &&
         token.text.size() <= kLongest &&
         (token.text[0] == 'x' || (token.text[0] == 'h' && !token.space_before)) &&
         is_digit(static_cast<unsigned char>(token.text[1]));
}

std::vector<Token> split_grown(std::vector<Token> tokens) {
  bool grown = false;
  for (std::size_t i = 1; i < tokens.size() && !grown; ++i) grown = may_be_grown(tokens[i - 1], tokens[i]);
  if (!grown) return tokens;
  std::vector<Token> out;
  out.reserve(tokens.size());
  for (auto& token : tokens) {
    if (out.empty() || !may_be_grown(out.back(), token)) {
      out.push_back(std::move(token));
      continue;
    }
    Token letter = token;
    letter.raw = token.raw.substr(0, 1);
    letter.text = token.text.substr(0, 1);
    letter.end = token.begin + 1;
    out.push_back(std::move(letter));
    for (auto part : tokenize(std::string_view(token.raw).substr(1))) {
      part.begin += token.begin + 1;
      part.end += token.begin + 1;
      out.push_back(std::move(part));
    }
  }
  return out;
}

}  // namespace

std::vector<Token> tokenize(std::string_view text) {
  auto tokens = split_grown(Tokenizer(text).run());
  mark_times(tokens);
  return tokens;
}

}  // namespace panslate
