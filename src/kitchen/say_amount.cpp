#include "panslate/kitchen/say_amount.h"

#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <string_view>

#include <unicode/rbnf.h>

#include "panslate/base/text.h"

#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Ways = std::vector<WayToSay>;

constexpr std::int64_t kLargest = 1'000'000;
constexpr std::size_t kMostWays = 200;

WayToSay words_of(std::string_view text) {
  std::string spaced(text);
  std::replace(spaced.begin(), spaced.end(), '-', ' ');
  return split(spaced, ' ');
}

void add(Ways& ways, WayToSay way) {
  if (ways.size() < kMostWays && std::find(ways.begin(), ways.end(), way) == ways.end())
    ways.push_back(std::move(way));
}

void add_all(Ways& ways, const Ways& more) {
  for (const auto& way : more) add(ways, way);
}

WayToSay joined(WayToSay first, const WayToSay& second) {
  first.insert(first.end(), second.begin(), second.end());
  return first;
}

// Every first with every second.
Ways joined(const Ways& first, const Ways& second) {
  Ways ways;
  for (const auto& a : first)
    for (const auto& b : second) add(ways, joined(a, b));
  return ways;
}

Ways listed(std::initializer_list<std::string_view> texts) {
  Ways ways;
  for (const auto text : texts) add(ways, words_of(text));
  return ways;
}

std::string article_for(std::string_view word) {
  return word == "hour" || word == "ounce" || word == "inch" || word == "eighth" ? "an" : "a";
}

// ICU's rules for English numbers (CLDR): "two hundred fifty", or "two hundred and fifty" by the verbose set.
class Speller {
 public:
  static const Speller& instance() {
    static const Speller speller;
    return speller;
  }
  [[nodiscard]] WayToSay spell(std::int64_t number, const char* rules) const {
    UErrorCode error = U_ZERO_ERROR;
    icu::UnicodeString text;
    icu::FieldPosition field;
    std::string utf8;
    format_->format(number, icu::UnicodeString(rules), text, field, error).toUTF8String(utf8);
    return U_SUCCESS(error) ? words_of(utf8) : WayToSay{};
  }

 private:
  Speller() {
    UErrorCode error = U_ZERO_ERROR;
    format_ = std::make_unique<icu::RuleBasedNumberFormat>(icu::URBNF_SPELLOUT, icu::Locale::getUS(), error);
  }
  std::unique_ptr<icu::RuleBasedNumberFormat> format_;
};

Ways whole_number(std::int64_t number) {
  if (number < 0 || number > kLargest) return {};
  const auto& speller = Speller::instance();
  Ways ways;
  for (const auto* const rules : {"%spellout-cardinal-verbose", "%spellout-cardinal"}) {
    auto way = speller.spell(number, rules);
    add(ways, way);
    if (number >= 100 && way.front() == "one") {
      way.front() = "a";
      add(ways, std::move(way));
    }
  }
  // "two fifty"
  if (number > 100 && number < 1000 && number % 100 >= 10)
    add(ways, joined(speller.spell(number / 100, "%spellout-cardinal"),
                     speller.spell(number % 100, "%spellout-cardinal")));
  if (number >= 1100 && number < 10'000 && number % 1000 != 0 && number % 100 == 0)
    add(ways, joined(speller.spell(number / 100, "%spellout-cardinal"), {"hundred"}));
  return ways;
}

// Parts of one, by their names.
Ways part_of_one(std::int64_t num, std::int64_t den) {
  constexpr std::array<std::string_view, 9> kNames{"",      "",      "half", "third", "quarter",
                                                   "fifth", "sixth", "",     "eighth"};
  if (den < 2 || den > 8 || den == 7 || num >= den || num < 1) return {};
  const std::string name(kNames[static_cast<std::size_t>(den)]);
  if (num > 1) {
    Ways ways;
    for (const auto& count : whole_number(num)) {
      add(ways, joined(count, {name + "s"}));
      if (den == 4) add(ways, joined(count, {name}));
    }
    return ways;
  }
  Ways ways;
  if (den == 2) add(ways, {name});
  add(ways, {article_for(name), name});
  add(ways, {"one", name});
  if (den == 4) add(ways, {name});
  return ways;
}

Ways decimal(const Ratio& number) {
  if (1000 % number.den() != 0 || number.is_whole()) return {};
  const auto thousandths = number.num() * (1000 / number.den());
  auto digits = std::to_string(1000 + thousandths % 1000).substr(1);
  digits.erase(digits.find_last_not_of('0') + 1);
  WayToSay fraction{"point"};
  for (const char digit : digits) fraction = joined(fraction, whole_number(digit - '0').front());
  auto ways = joined(whole_number(thousandths / 1000), Ways{fraction});
  if (thousandths < 1000) add(ways, fraction);
  return ways;
}

Ways with_unit(const Ratio& number, Unit unit) {
  const bool below_one = number < Ratio(1);
  const auto one = words_for(unit, Count::One);
  const auto more = words_for(unit, Count::More);
  Ways ways;
  if (one.empty()) return unit == Unit::Piece || unit == Unit::Other ? ways_to_say(number) : ways;
  if (below_one) {
    const auto parts = part_of_one(number.num(), number.den());
    for (const auto& word : one) {
      const auto article = article_for(word.front());
      for (const auto& part : parts) {
        add(ways, joined(joined(part, {"of", article}), word));
        if (part.size() == 1) add(ways, joined(joined(part, {article}), word));
        add(ways, joined(part, word));
      }
    }
    add_all(ways, joined(decimal(number), more));
    add_all(ways, joined(decimal(number), one));
    return ways;
  }
  if (number == Ratio(1)) {
    for (const auto& word : one) {
      add(ways, joined({"one"}, word));
      add(ways, joined({article_for(word.front())}, word));
    }
    return ways;
  }
  add_all(ways, joined(ways_to_say(number), more));
  const auto whole = number.num() / number.den();
  if (number.is_whole() || number.den() > 4) return ways;
  const auto rest = part_of_one(number.num() % number.den(), number.den());
  Ways tail;
  for (const auto& part : rest)
    if (part.size() > 1) add(tail, joined({"and"}, part));
  if (whole == 1)
    for (const auto& word : one) {
      add_all(ways, joined(Ways{joined({article_for(word.front())}, word), joined({"one"}, word)}, tail));
      add_all(ways, joined(joined(Ways{{"one"}}, tail), Ways{word}));
    }
  else
    add_all(ways, joined(joined(whole_number(whole), more), tail));
  return ways;
}

Ways degrees(const Amount& amount, const Ways& numbers) {
  Ways scales = listed({"degrees"});
  if (amount.unit == Unit::Celsius) {
    add_all(scales, listed({"degrees celsius", "celsius", "degrees centigrade", "c"}));
  } else {
    add_all(scales, listed({"degrees fahrenheit", "fahrenheit", "f"}));
  }
  auto ways = joined(numbers, scales);
  add_all(ways, numbers);
  if (!amount.fan) return ways;
  // The oven's setting is said with it, before or after the scale.
  auto with_fan = joined(ways, listed({"fan"}));
  add_all(with_fan, joined(joined(numbers, listed({"fan"})), listed({"degrees celsius", "celsius"})));
  return with_fan;
}

Ways time_otherwise(const Ratio& hours) {
  const auto minutes = hours.times(60);
  if (!minutes || !minutes->is_whole() || Ratio(120) < *minutes) return {};
  auto ways = with_unit(*minutes, Unit::Minute);
  const auto whole = hours.num() / hours.den();
  if (whole < 1 || hours.is_whole()) return ways;
  const auto rest = with_unit(minutes->num() - 60 * whole, Unit::Minute);
  const auto hour = with_unit(whole, Unit::Hour);
  add_all(ways, joined(hour, rest));
  add_all(ways, joined(joined(hour, listed({"and"})), rest));
  return ways;
}

Ways of_number(const Amount& amount, const Ratio& number) {
  if (amount.unit == Unit::GasMark) return joined(listed({"gas mark", "gas"}), ways_to_say(number));
  if (dimension_of(amount.unit) == Dimension::Temperature) return degrees(amount, ways_to_say(number));
  auto ways = with_unit(number, amount.unit);
  if (amount.unit == Unit::Hour) add_all(ways, time_otherwise(number));
  if (amount.unit == Unit::Minute)
    if (const auto hours = number.over(60); hours && (hours->den() <= 4) && !(*hours < *Ratio::make(1, 4)))
      add_all(ways, with_unit(*hours, Unit::Hour));
  if (amount.unit == Unit::Piece && number == Ratio(1)) add_all(ways, listed({"a", "an"}));
  if (number == Ratio(2)) {
    const auto noun = amount.unit == Unit::Piece ? Ways{{}} : words_for(amount.unit, Count::More);
    add_all(ways, joined(listed({"a couple of", "couple of"}), noun));
  }
  return ways;
}

Ways packages(const Amount& amount, const Ratio& number) {
  const auto count = number == Ratio(1) ? Count::One : Count::More;
  Ways ways;
  auto numbers = ways_to_say(number);
  if (count == Count::One) add_all(numbers, listed({"a"}));
  const auto containers = words_for(amount.unit, count);
  const auto size_one = joined(ways_to_say(amount.each->value), words_for(amount.each->unit, Count::One));
  if (containers.empty()) return joined(numbers, size_one);
  for (const auto& container : containers) {
    add_all(ways, joined(joined(numbers, size_one), Ways{container}));
  }
  return ways;
}

// "180C", "180 °C": no cups.
bool is_scale(std::span<const Token> tokens, std::size_t at) {
  if (tokens[at].text != "c" && tokens[at].text != "f") return false;
  if (at > 0 && tokens[at - 1].text == "°") return true;
  return at > 0 && tokens[at - 1].kind == TokenKind::Number && Ratio(20) < tokens[at - 1].value;
}

}  // namespace

Ways ways_to_say(const Ratio& number) {
  if (number < Ratio(0) || Ratio(kLargest) < number) return {};
  if (number.is_whole()) return whole_number(number.num());
  const auto whole = number.num() / number.den();
  const auto parts = part_of_one(number.num() % number.den(), number.den());
  Ways ways;
  if (whole == 0) {
    add_all(ways, parts);
  } else {
    for (const auto& part : parts)
      if (part.size() > 1) add_all(ways, joined(whole_number(whole), Ways{joined({"and"}, part)}));
  }
  add_all(ways, decimal(number));
  return ways;
}

Ways words_for(Unit unit, Count count) {
  const bool one = count == Count::One;
  switch (unit) {
    case Unit::Kilogram:
      return one ? listed({"kilo", "kilogram"}) : listed({"kilos", "kilograms"});
    case Unit::Milliliter:
      return one ? listed({"mil", "millilitre"}) : listed({"mils", "millilitres", "mil"});
    case Unit::FluidOunce:
      return one ? listed({"fluid ounce"}) : listed({"fluid ounces"});
    case Unit::Can:
      return one ? listed({"tin", "can"}) : listed({"tins", "cans"});
    case Unit::Packet:
      return one ? listed({"packet", "pack", "bag"}) : listed({"packets", "packs", "bags"});
    case Unit::Celsius:
    case Unit::Fahrenheit:
      return one ? listed({"degree"}) : listed({"degrees"});
    case Unit::Serving:
      return one ? listed({"person", "serving", "portion"}) : listed({"people", "servings", "portions"});
    case Unit::Piece:
    case Unit::GasMark:
    case Unit::Other:
      return {};
    default:
      break;
  }
  const auto word = usual_word_for(unit, !one);
  return word.empty() ? Ways{} : Ways{WayToSay{std::string(word)}};
}

Ways ways_to_say(const Amount& amount) {
  if (!amount.value) return {};
  if (amount.each) return packages(amount, *amount.value);
  if (!amount.to) return of_number(amount, *amount.value);
  if (amount.unit == Unit::GasMark) return {};
  Ways ends;
  for (const auto* const between : {"to", "or"})
    add_all(ends, joined(joined(ways_to_say(*amount.value), Ways{{between}}), ways_to_say(*amount.to)));
  if (dimension_of(amount.unit) == Dimension::Temperature) return degrees(amount, ends);
  const auto units = words_for(amount.unit, Count::More);
  return units.empty() ? ends : joined(ends, units);
}

Ways ways_to_read_out(std::span<const Token> tokens) {
  Ways ways{{}};
  std::optional<Ratio> number;  // told last
  for (std::size_t at = 0; at < tokens.size();) {
    const auto& token = tokens[at];
    Ways part;
    std::size_t next = at + 1;
    if (token.kind == TokenKind::Number) {
      part = ways_to_say(token.value);
      number = token.value;
    } else if (is_scale(tokens, at)) {
      part = token.text == "c" ? listed({"celsius", "degrees celsius", "degrees"})
                               : listed({"fahrenheit", "degrees fahrenheit", "degrees"});
    } else if (const auto unit = unit_word_at(tokens, at, true); unit && token.kind == TokenKind::Word) {
      const bool one = number ? *number <= Ratio(1) : !unit->plural;
      next = std::max(next, std::min(unit->end, tokens.size()));
      if (unit->factor == Ratio(1)) part = words_for(unit->unit, one ? Count::One : Count::More);
      // As it stands, where it is a word and not an abbreviation.
      if (token.text.size() > 4 && next == at + 1) add(part, {token.text});
      if (part.empty()) add(part, {token.text});
      if (number && *number < Ratio(1)) {
        part = joined(listed({"a", "of a", "an", "of an"}), part);
        add_all(part, words_for(unit->unit, Count::One));
      }
    } else if (token.kind == TokenKind::Word) {
      part = Ways{{token.text}};
    } else if (token.text == "°") {
      part = listed({"degrees"});
    } else if (token.text == "-" && at > 0 && tokens[at - 1].kind == TokenKind::Number &&
               next < tokens.size() && tokens[next].kind == TokenKind::Number) {
      part = listed({"to", "or"});
    } else if (token.text == "&") {
      part = listed({"and"});
    } else {
      part = Ways{{}};
    }
    if (part.empty()) return {};
    ways = joined(ways, part);
    at = next;
  }
  return ways;
}

}  // namespace panslate
