#include "kitchen/temperature_scan.h"

#include <algorithm>

#include "kitchen/number_words.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

std::size_t skip_any(Tokens tokens, std::size_t at, std::string_view words) {
  return is_any(tokens, at, words) ? at + 1 : at;
}

// "fan", "fan oven", "(fan)", "fan-forced", "convection".
std::size_t fan_end(Tokens tokens, std::size_t at) {
  auto i = at;
  bool bracket = false;
  if (is_text(tokens, i, "(") && is_any(tokens, i + 1, "fan|convection")) {
    bracket = true;
    ++i;
  } else if (is_any(tokens, i, ",|-") && is_any(tokens, i + 1, "fan|convection")) {
    ++i;
  } else if (is_any(tokens, i, "in|with|on") && is_any(tokens, i + 1, "a|the") &&
             is_any(tokens, i + 2, "fan|convection")) {
    i += 2;
  }
  // "two hundred if it's a fan one", "180 if yours has a fan".
  if (is_text(tokens, i, "if")) {
    constexpr std::size_t kFew = 6;
    for (auto k = i + 1; k < tokens.size() && k <= i + kFew; ++k) {
      if (is_any(tokens, k, "fan|convection")) return skip_any(tokens, k + 1, "oven|one");
      if (!is_any(tokens, k,
                  "it|it's|its|s|you|you've|ve|have|got|yours|your|oven|is|has|a|the|in|using|on|with|'"))
        break;
    }
    return at;
  }
  if (!is_any(tokens, i, "fan|convection")) return at;
  // "200C fan 180C": the word belongs to what follows.
  if (i + 1 < tokens.size() && tokens[i + 1].kind == TokenKind::Number && !bracket &&
      tokens[i + 1].value >= Ratio(90))
    return at;
  ++i;
  if (is_text(tokens, i, "-")) i = skip_any(tokens, i + 1, "forced|assisted");
  i = skip_any(tokens, i, "oven|forced|assisted|setting");
  if (bracket) i = skip_any(tokens, i, ")");
  return i;
}

Unit inferred_scale(const Ratio& value) {
  return Ratio(260) < value ? Unit::Fahrenheit : Unit::Celsius;
}

struct Scale {
  std::optional<Unit> unit;
  bool degrees = false;  // a degree sign or word stood there
  std::size_t end = 0;
};

Scale scale_at(Tokens tokens, std::size_t at, const Ratio& value) {
  Scale scale{std::nullopt, false, at};
  auto i = at;
  if (is_text(tokens, i, "-") && is_any(tokens, i + 1, "degree|degrees")) ++i;
  if (is_any(tokens, i, "°|degree|degrees|deg|degs")) {
    scale.degrees = true;
    ++i;
    if (is_text(tokens, i, ".") && is_text(tokens, i - 1, "deg")) ++i;
    if (is_text(tokens, i, "-")) i = skip_any(tokens, i, "-");
    scale.end = i;
  }
  if (i >= tokens.size()) return scale;
  const auto& word = tokens[i].text;
  if (word == "celsius" || word == "centigrade" || word == "degc") {
    scale.unit = Unit::Celsius;
  } else if (word == "fahrenheit" || word == "degf") {
    scale.unit = Unit::Fahrenheit;
  } else if (word == "c" || word == "f") {
    // "2 c flour" are cups; "c" and "f" bind where a degree was said or the number is an oven's.
    if (!scale.degrees && value < Ratio(20)) return scale;
    scale.unit = word == "c" ? Unit::Celsius : Unit::Fahrenheit;
  } else {
    return scale;
  }
  scale.end = i + 1;
  if (is_text(tokens, scale.end, ".") && scale.end + 1 < tokens.size() && !tokens[scale.end].space_before &&
      is_any(tokens, scale.end + 1, "/|(|fan"))
    ++scale.end;
  return scale;
}

std::optional<ScannedTemperature> gas_mark_at(Tokens tokens, std::size_t at) {
  auto i = at;
  if (is_any(tokens, i, "gas|regulo"))
    i = skip_any(tokens, i + 1, "mark|no|number");
  else if (is_text(tokens, i, "mark"))
    ++i;
  else
    return std::nullopt;
  const bool bare_mark = is_text(tokens, at, "mark");
  const auto low = number_at(tokens, i);
  if (!low || Ratio(10) < low->value || (bare_mark && tokens[i].kind != TokenKind::Number))
    return std::nullopt;
  if (unit_word_at(tokens, low->end, false)) return std::nullopt;
  ScannedTemperature found;
  found.amount.unit = Unit::GasMark;
  found.amount.value = low->value;
  found.end = low->end;
  if (is_any(tokens, found.end, "-|to|or")) {
    const auto high = number_at(tokens, found.end + 1);
    if (high && low->value < high->value && high->value <= Ratio(10) &&
        !unit_word_at(tokens, high->end, false)) {
      found.amount.to = high->value;
      found.end = high->end;
    }
  }
  return found;
}

// "bake at 180", "oven to two hundred": an oven word not far before, and the number set by "at" or "to".
bool oven_before(Tokens tokens, std::size_t at) {
  if (at == 0) return false;
  constexpr std::size_t kLookBack = 14;
  auto i = at - 1;
  if (is_any(tokens, i, "about|around|roughly|,") && i > 0) --i;
  // "get the oven on first, three fifty"
  if (is_text(tokens, i, "first") && i > 0 && is_any(tokens, i - 1, "oven|oven's")) return true;
  if (is_text(tokens, i, "first") && i > 1 && is_text(tokens, i - 1, "on") &&
      is_any(tokens, i - 2, "oven|oven's"))
    return true;
  // "Oven on now. Two hundred, …": the setting told right after, on its own.
  // "Oven? – A hundred and ninety."
  if (is_any(tokens, i, ".|,|-|?") && i > 0) {
    constexpr std::size_t kJustSaid = 4;
    while (i > 1 && is_any(tokens, i - 1, ".|,|-|?")) --i;
    for (auto k = i > kJustSaid ? i - kJustSaid : 0; k < i; ++k)
      if (is_any(tokens, k, "oven|oven's")) return true;
    return false;
  }
  if (!is_any(tokens, i, "at|to|on|oven|oven's|ovens|temperature|temp|of|is|it's|that's|:|it|or|for"))
    return false;
  // "You are looking for one sixty-five right in the centre."
  if (is_text(tokens, i, "for") && i > 0 && is_any(tokens, i - 1, "looking|aiming")) return true;
  if (is_text(tokens, i, "for")) return false;
  // "That goes in at one sixty for fifty minutes."
  if (is_text(tokens, i, "at") && i > 0 && is_any(tokens, i - 1, "in")) return true;
  // "turn it down to one sixty".
  const auto direction = i > 1 && is_any(tokens, i - 1, "now|again|then") ? i - 2 : i - 1;
  if (is_text(tokens, i, "to") && i > 0 && is_any(tokens, direction, "down|up"))
    for (auto k = i > 5 ? i - 5 : 0; k < i; ++k)
      if (is_any(tokens, k, "turn|turned|turning|crank|whack|drop|knock|bring")) return true;
  const std::size_t first = at > kLookBack ? at - kLookBack : 0;
  for (auto k = first; k < at; ++k)
    if (is_any(tokens, k,
               "oven|ovens|oven's|preheat|preheated|preheating|bake|bakes|baking|baked|roast|roasting|roasts|"
               "thermostat|temperature|oil|fryer|thermometer|probe|syrup|caramel|"
               "temp|degrees|fahrenheit|celsius"))
      return true;
  return false;
}

// "Oven wants to be on now, two hundred, and …": set off by commas, right after it is put on.
bool oven_set_off(Tokens tokens, std::size_t at, std::size_t end) {
  constexpr std::size_t kLookBack = 4;
  const bool apart =
      end >= tokens.size() || (tokens[end].kind == TokenKind::Mark && !is_text(tokens, end + 1, "of"));
  if (!apart || at < 3 || !is_text(tokens, at - 1, ",")) return false;
  const auto on = is_any(tokens, at - 2, "now|first|please|then") ? at - 3 : at - 2;
  if (!is_text(tokens, on, "on")) return false;
  for (auto k = on; k-- > 0 && on - k <= kLookBack && tokens[k].kind != TokenKind::Mark;)
    if (is_any(tokens, k, "oven|oven's")) return true;
  return false;
}

// "three fifty for the oven", "two hundred the oven, or 180 if there's a fan in it".
bool oven_after(Tokens tokens, std::size_t begin, std::size_t at) {
  if ((begin == 0 || is_any(tokens, begin - 1, ".|!|?")) && is_text(tokens, at, "the") &&
      is_text(tokens, at + 1, "oven") && (at + 2 >= tokens.size() || tokens[at + 2].kind == TokenKind::Mark))
    return true;
  return is_any(tokens, at, "for|in|on") && is_any(tokens, at + 1, "the|your|my|our") &&
         is_any(tokens, at + 2, "oven");
}

// "180 or 160 if you've got the fan", "A hundred and eighty. - Or 160 fan.", "180/160 fan": the fan's own
// setting comes after this one.
bool fan_setting_after(Tokens tokens, std::size_t at) {
  auto i = at;
  constexpr std::size_t kMostMarks = 3;
  while (i < at + kMostMarks && is_any(tokens, i, ".|,|-|(|/")) ++i;
  const bool either = is_text(tokens, i, "or");
  if (either) ++i;
  if (!either && !is_text(tokens, at, "/")) return false;
  const auto fan = number_at(tokens, i);
  return fan && Ratio(90) <= fan->value && fan_end(tokens, fan->end) > fan->end;
}

bool is_time_at(Tokens tokens, std::size_t at) {
  if (is_any(tokens, at, "half|a|an|quarter")) {
    const auto unit = unit_word_at(tokens, is_any(tokens, at + 1, "a|an") ? at + 2 : at + 1, false);
    return unit && dimension_of(unit->unit) == Dimension::Time;
  }
  const auto number = number_at(tokens, at);
  const auto unit = number ? unit_word_at(tokens, number->end, false) : std::nullopt;
  return unit && dimension_of(unit->unit) == Dimension::Time;
}

// "one eighty for twelve minutes", "Two hundred, half an hour.", "twelve minutes at one eighty": a setting
// told with its time.
bool told_with_time(Tokens tokens, std::size_t at, std::size_t end) {
  if (is_text(tokens, end, "for") && is_time_at(tokens, end + 1)) return true;
  const bool first = at == 0 || is_any(tokens, at - 1, ".|?|!");
  if (first && is_text(tokens, end, ",") && is_time_at(tokens, end + 1)) return true;
  if (at < 2 || !is_any(tokens, at - 1, "at|on")) return false;
  const auto unit = unit_word_at(tokens, at - 2, false);
  return unit && dimension_of(unit->unit) == Dimension::Time;
}

bool oven_range(const Ratio& value) {
  return value.is_whole() && Ratio(100) <= value && value <= Ratio(550) && value.num() % 5 == 0;
}

// A turn, or a difference, is no temperature.
bool is_no_setting(Tokens tokens, std::size_t at, std::size_t end) {
  if (at > 0 && is_text(tokens, at - 1, "by")) return true;
  if (is_any(tokens, end, "angle|angles|turn|turns|lower|higher|less|more|hotter|cooler")) return true;
  const std::size_t first = at > 4 ? at - 4 : 0;
  for (auto k = first; k < at; ++k)
    if (is_any(tokens, k, "rotate|rotating|spin|turn"))
      return !is_any(tokens, at - 1, "to|at|on") && !is_text(tokens, at + 1, "to");  // "turn it up to 200"
  return false;
}

}  // namespace

std::optional<ScannedTemperature> temperature_at(Tokens tokens, std::size_t at, BareTemperature bare) {
  const auto lead = about_words_at(tokens, at);
  auto i = lead.end;
  if (auto gas = gas_mark_at(tokens, i)) {
    gas->amount.about = lead.about;
    return gas;
  }
  ScannedTemperature found;
  found.amount.about = lead.about;
  // "fan 160", "fan oven 160C", "convection 325F".
  bool fan_first = false;
  if (is_any(tokens, i, "fan|convection")) {
    // "Fan bake, one-eighty", as ovens say it in New Zealand and Australia.
    i = skip_any(tokens, i + 1, "oven|setting|bake|forced|grill|mode");
    i = skip_any(tokens, i, ":|at|,|on");
    fan_first = true;
  }
  bool minus = false;
  if (is_text(tokens, i, "minus") || (is_text(tokens, i, "-") && i + 1 < tokens.size() &&
                                      !tokens[i + 1].space_before && (i == 0 || tokens[i].space_before))) {
    minus = true;
    ++i;
  }
  const bool between = is_text(tokens, i, "between");
  if (between) ++i;
  const auto low = number_at(tokens, i);
  if (!low) return std::nullopt;
  auto end = low->end;
  // Nothing is cooked with minus cups: any scale binds.
  auto low_scale = scale_at(tokens, end, minus ? Ratio(100) : low->value);
  std::optional<NumberWords> high;
  if (!minus) {
    // "180-200C", "180C to 200C", "70 to 75 degrees".
    // "80°-85°F": the hyphen may have been taken for the degree's.
    const bool taken = low_scale.end > low->end && is_text(tokens, low_scale.end - 1, "-");
    const auto dash = taken ? low_scale.end - 1 : low_scale.end;
    if (is_any(tokens, dash, "-|to") || (between && is_text(tokens, dash, "and")) ||
        (is_text(tokens, dash, "or") && !low_scale.unit)) {
      const auto second = number_at(tokens, dash + 1);
      if (second && low->value < second->value && second->value <= Ratio(600)) {
        const auto scale = scale_at(tokens, second->end, second->value);
        const bool same = !low_scale.unit || !scale.unit || low_scale.unit == scale.unit;
        const auto wide = *low->value.times(Ratio(2));
        if ((scale.unit || scale.degrees) && same && second->value <= wide) {
          high = second;
          if (!scale.unit && low_scale.unit)
            low_scale.end = scale.end;
          else
            low_scale = scale;
          end = second->end;
        }
      }
    }
  }
  end = std::max(end, low_scale.end);
  const bool unit_follows =
      !low_scale.unit && !low_scale.degrees && unit_word_at(tokens, end, true).has_value();
  const auto fan = fan_end(tokens, end);
  const bool told = low_scale.unit || low_scale.degrees;
  const bool in_range = oven_range(low->value) && !unit_follows && !is_any(tokens, end, "%|percent");
  // "two ten conventional": not the fan.
  const auto plain_end = skip_any(tokens, end, "conventional|static");
  const bool fan_told = in_range && (fan_first || fan > end);
  const bool oven_told = in_range && (bare == BareTemperature::Yes || plain_end > end ||
                                      oven_before(tokens, at) || (at > 0 && oven_set_off(tokens, at, end)) ||
                                      oven_after(tokens, at, end) || is_text(tokens, end, "oven") ||
                                      fan_setting_after(tokens, end) || told_with_time(tokens, at, end));
  const bool frost = minus && !unit_follows && Ratio(5) <= low->value && low->value <= Ratio(40);
  if (between && !high) return std::nullopt;
  if (!told && !fan_told && !oven_told && !frost) return std::nullopt;
  if (!low_scale.unit && is_no_setting(tokens, at, end)) return std::nullopt;
  found.amount.value = minus ? *Ratio(0).minus(low->value) : low->value;
  if (high) found.amount.to = high->value;
  found.amount.unit = low_scale.unit.value_or(inferred_scale(*found.amount.value));
  found.scale_inferred = !low_scale.unit;
  found.amount.fan = fan_first || fan > end;
  found.end = std::max({end, fan, plain_end});
  if (fan > end && !low_scale.unit) {
    // "160 fan Celsius".
    const auto late = scale_at(tokens, found.end, low->value);
    if (late.unit) {
      found.amount.unit = *late.unit;
      found.scale_inferred = false;
      found.end = late.end;
    }
  }
  return found;
}

}  // namespace panslate
