#include "kitchen/date_words.h"

#include "kitchen/not_amounts.h"
#include "kitchen/number_words.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

bool is_unit_ahead(Tokens tokens, std::size_t at) {
  if (is_text(tokens, at, "-")) ++at;
  return is_any(tokens, at, "\"|°|degrees|×|fan|celsius|fahrenheit") ||
         unit_word_at(tokens, size_word_at(tokens, at).end, true).has_value();
}

bool follows_any(Tokens tokens, std::size_t at, std::string_view words) {
  return at > 0 && is_any(tokens, at - 1, words);
}

// "nineteen fifty two", "twenty twelve", "two thousand and six", 1987.
std::size_t year_end(Tokens tokens, std::size_t at, const NumberWords& number) {
  if (is_unit_ahead(tokens, number.end)) return at;
  const auto& token = tokens[at];
  if (token.kind == TokenKind::Number) {
    const bool four_figures = token.raw.size() == 4 && number.end == at + 1 &&
                              token.raw.find_first_not_of("0123456789") == std::string::npos;
    return four_figures && Ratio(1800) <= number.value && number.value < Ratio(2100) ? number.end : at;
  }
  if (number.value.is_whole() && Ratio(2000) < number.value && number.value < Ratio(2100)) return number.end;
  const bool century = is_any(tokens, at, "eighteen|nineteen") && number.end == at + 1;
  const bool this_century = is_text(tokens, at, "twenty") && number.end == at + 1 &&
                            follows_any(tokens, at, "in|since|from|back|of|until|till|year");
  if (!century && !this_century) return at;
  const auto rest = number_at(tokens, number.end);
  const bool fits = rest && rest->value.is_whole() && Ratio(10) <= rest->value && rest->value < Ratio(100) &&
                    !is_unit_ahead(tokens, rest->end);
  return fits ? rest->end : at;
}

// "the twenty seventh": "twenty second" is more often a duration.
std::size_t ordinal_end(Tokens tokens, std::size_t at, const NumberWords& number) {
  const bool tens = number.end == at + 1 && number.value.is_whole() && Ratio(20) <= number.value &&
                    number.value < Ratio(100) && number.value.num() % 10 == 0;
  return tens && is_any(tokens, number.end, "first|third|fourth|fifth|sixth|seventh|eighth|ninth")
             ? number.end + 1
             : at;
}

bool is_hour(const Ratio& value) {
  return value.is_whole() && Ratio(1) <= value && value <= Ratio(12);
}

bool is_minutes(std::int64_t minutes) {
  return 10 <= minutes && minutes < 60 && minutes % 5 == 0;
}

// "since eight thirty", read as 830; what could be an oven's setting is left alone.
bool is_hour_and_minutes(const Ratio& value, bool in_words) {
  if (!value.is_whole() || value <= Ratio(550) || Ratio(1260) < value) return false;
  const auto minutes = value.num() % 100;
  return minutes == 15 || minutes == 30 || minutes == 45 || (in_words && is_minutes(minutes));
}

// Something is measured or counted by the number that ends at `after`.
bool measures_something(Tokens tokens, std::size_t at, std::size_t after) {
  return is_any(tokens, after, "of|-|%|ratio|ratios") || is_unit_ahead(tokens, after) ||
         could_be_counted(tokens, at, after);
}

// "quarter to four", "a quarter past six", "ten past eight", "it's twenty to seven"; "ten to twelve biscuits"
// is a range.
std::size_t to_the_hour_end(Tokens tokens, std::size_t at) {
  auto minutes = at;
  bool quarter = false;
  if (const auto word = is_text(tokens, at, "a") ? at + 1 : at; is_text(tokens, word, "quarter")) {
    quarter = true;
    minutes = word + 1;
  } else if (const auto number = number_at(tokens, at)) {
    const bool fives = number->value.is_whole() && Ratio(5) <= number->value && number->value < Ratio(30) &&
                       number->value.num() % 5 == 0;
    if (!fives) return at;
    minutes = number->end;
    if (is_any(tokens, minutes, "minutes|mins")) ++minutes;
  }
  if (minutes == at || !is_any(tokens, minutes, "to|past")) return at;
  const auto hour = number_at(tokens, minutes + 1);
  if (!hour || !is_hour(hour->value) || measures_something(tokens, at, hour->end)) return at;
  const bool told = quarter || is_text(tokens, minutes, "past") ||
                    follows_any(tokens, at, "it's|its|it|at|by|till|until|since|before|gone");
  return told ? hour->end : at;
}

// "at ten thirty": after ten the hour is no hundred.
std::size_t late_hour_end(Tokens tokens, std::size_t at, const NumberWords& number) {
  if (tokens[at].kind != TokenKind::Word || number.value < Ratio(10) || Ratio(12) < number.value ||
      !number.value.is_whole() || !follows_any(tokens, at, "at|since|by|till|until|before|it's|gone"))
    return at;
  const auto minutes = number_at(tokens, number.end);
  const bool fits = minutes && minutes->value.is_whole() && is_minutes(minutes->value.num()) &&
                    !measures_something(tokens, at, minutes->end);
  return fits ? minutes->end : at;
}

std::size_t clock_end(Tokens tokens, std::size_t at, const NumberWords& number) {
  const auto after = number.end;
  if (is_any(tokens, after, "o'clock|pm|am|noon")) return after + 1;
  if (is_unit_ahead(tokens, after)) return at;
  if (is_hour(number.value) && is_text(tokens, after, "in") && is_text(tokens, after + 1, "the") &&
      is_any(tokens, after + 2, "morning|afternoon|evening"))
    return after + 3;
  if (is_hour(number.value) && is_text(tokens, after, "at") && is_text(tokens, after + 1, "night"))
    return after + 2;
  const bool moment = follows_any(tokens, at, "at|since|by|till|until|before|from|around");
  const bool in_words = tokens[at].kind == TokenKind::Word && !follows_any(tokens, at, "from|around") &&
                        !is_any(tokens, after, "to|or|-");
  if (moment && is_hour_and_minutes(number.value, in_words)) return after;
  // "lunch was only at two".
  const bool last = after >= tokens.size() || tokens[after].kind == TokenKind::Mark;
  return last && is_hour(number.value) && tokens[at].kind == TokenKind::Word &&
                 follows_any(tokens, at, "at|since")
             ? after
             : at;
}

}  // namespace

std::size_t date_end(Tokens tokens, std::size_t at) {
  const auto lead = about_words_at(tokens, at).end;
  if (const auto hour = to_the_hour_end(tokens, lead); hour > lead) return hour;
  const auto number = number_at(tokens, lead);
  if (!number) return at;
  for (const auto end : {year_end(tokens, lead, *number), ordinal_end(tokens, lead, *number),
                         clock_end(tokens, lead, *number), late_hour_end(tokens, lead, *number)})
    if (end > lead) return end;
  return at;
}

}  // namespace panslate
