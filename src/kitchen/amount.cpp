#include "panslate/kitchen/amount.h"

#include <string_view>
#include <utility>

namespace panslate {

namespace {

struct Glyph {
  std::int64_t num, den;
  std::string_view text;
};

constexpr Glyph kGlyphs[] = {
    {1, 2, "½"}, {1, 3, "⅓"}, {2, 3, "⅔"}, {1, 4, "¼"}, {3, 4, "¾"}, {1, 5, "⅕"}, {2, 5, "⅖"}, {3, 5, "⅗"},
    {4, 5, "⅘"}, {1, 6, "⅙"}, {5, 6, "⅚"}, {1, 8, "⅛"}, {3, 8, "⅜"}, {5, 8, "⅝"}, {7, 8, "⅞"},
};

// Metric units are written with decimals, the others with vulgar fractions.
bool takes_decimals(Unit unit) {
  switch (unit) {
    case Unit::Gram:
    case Unit::Kilogram:
    case Unit::Milligram:
    case Unit::Milliliter:
    case Unit::Liter:
    case Unit::Celsius:
    case Unit::Fahrenheit:
    case Unit::Centimeter:
      return true;
    default:
      return false;
  }
}

// Up to three decimals, rounded half up, without trailing zeros.
std::string decimal_text(const Ratio& value) {
  const auto whole = value.num() / value.den();
  const auto rest = value.num() % value.den();
  const auto scaled = Ratio::make(rest, value.den()).value_or(Ratio(0)).times(Ratio(1000)).value_or(Ratio(0));
  auto thousandths = (2 * scaled.num() + scaled.den()) / (2 * scaled.den());
  auto units = whole;
  if (thousandths == 1000) {
    ++units;
    thousandths = 0;
  }
  auto text = std::to_string(units);
  if (thousandths == 0) return text;
  auto digits = std::to_string(thousandths);
  digits.insert(0, 3 - digits.size(), '0');
  while (digits.back() == '0') digits.pop_back();
  return text + '.' + digits;
}

std::string number_text(const Ratio& value, Unit unit) {
  if (value < Ratio(0)) return "−" + number_text(Ratio(0).minus(value).value_or(Ratio(0)), unit);
  if (!takes_decimals(unit)) {
    const auto whole = value.num() / value.den();
    const auto rest = value.num() % value.den();
    for (const auto& glyph : kGlyphs)
      if (glyph.num == rest && glyph.den == value.den())
        return (whole == 0 ? std::string() : std::to_string(whole)) + std::string(glyph.text);
  }
  return decimal_text(value);
}

std::string numbers_text(const Amount& amount) {
  auto text = number_text(*amount.value, amount.unit);
  if (amount.to) text += "–" + number_text(*amount.to, amount.unit);
  return text;
}

std::string_view size_text(SpoonSize size) {
  switch (size) {
    case SpoonSize::Level:
      return "level ";
    case SpoonSize::Heaped:
      return "heaped ";
    case SpoonSize::Scant:
      return "scant ";
  }
  return "";
}

std::string temperature_text(const Amount& amount) {
  if (amount.unit == Unit::GasMark) return "gas " + numbers_text(amount);
  auto text = numbers_text(amount) + ' ' + std::string(label_of(amount.unit, true));
  if (amount.fan) text += " fan";
  return text;
}

std::string counted_text(const Amount& amount) {
  auto text = numbers_text(amount);
  if (amount.each)
    text += " × " + number_text(amount.each->value, amount.each->unit) + ' ' +
            std::string(label_of(amount.each->unit, Ratio(1) < amount.each->value));
  const bool plural = Ratio(1) < amount.to.value_or(*amount.value);
  const std::string label =
      amount.unit == Unit::Other ? amount.noun : std::string(label_of(amount.unit, plural));
  const std::string size(amount.size ? size_text(*amount.size) : "");
  if (size.empty() && label.empty()) return text;
  text += ' ' + size + label;
  if (text.back() == ' ') text.pop_back();
  return text;
}

}  // namespace

std::string to_text(const Amount& amount) {
  if (!amount.value) {
    if (dimension_of(amount.unit) == Dimension::Little)
      return "a " + std::string(label_of(amount.unit, false));
    return {};
  }
  auto text =
      dimension_of(amount.unit) == Dimension::Temperature ? temperature_text(amount) : counted_text(amount);
  return amount.about ? "about " + text : text;
}

}  // namespace panslate
