#include "kitchen/unit_words.h"

#include <string_view>
#include <unordered_map>

namespace panslate {

namespace {

using Kind = UnitWordKind;

struct Row {
  Unit unit;
  Kind kind;
  std::int64_t num, den;                      // factor
  std::string_view one, many, abbreviations;  // alternatives parted by '|'
};

// What cooks write and say: common practice, no source.
constexpr Row kRows[] = {
    {Unit::Gram, Kind::Measure, 1, 1, "gram|gramme|gramm", "grams|grammes|gramms", "g|gr|gm|gms|grm|grms"},
    {Unit::Kilogram, Kind::Measure, 1, 1, "kilo|kilogram|kilogramme", "kilos|kilograms|kilogrammes",
     "kg|kgs|kilog"},
    {Unit::Milligram, Kind::Measure, 1, 1, "milligram|milligramme", "milligrams|milligrammes", "mg"},
    {Unit::Ounce, Kind::Measure, 1, 1, "ounce", "ounces", "oz|ozs"},
    {Unit::Pound, Kind::Measure, 1, 1, "pound", "pounds", "lb|lbs"},
    {Unit::Milliliter, Kind::Measure, 1, 1, "millilitre|milliliter|mililitre|mililiter|mil|mill",
     "millilitres|milliliters|mililitres|mililiters|mils|mills", "ml|mls|cc|ccs"},
    {Unit::Milliliter, Kind::Measure, 10, 1, "centilitre|centiliter", "centilitres|centiliters", "cl|cls"},
    {Unit::Milliliter, Kind::Measure, 100, 1, "decilitre|deciliter", "decilitres|deciliters", "dl|dls"},
    {Unit::Liter, Kind::Measure, 1, 1, "litre|liter", "litres|liters", "l|lt|ltr|ltrs"},
    {Unit::Teaspoon, Kind::Measure, 1, 1, "teaspoon|teaspoonful|teapsoon|teasoon",
     "teaspoons|teaspoonfuls|teaspoonsful", "tsp|tsps|teasp|tspn|tspns"},
    {Unit::Teaspoon, Kind::Measure, 2, 1, "dessertspoon|dessertspoonful", "dessertspoons|dessertspoonfuls",
     "dsp|dstspn|dessertsp"},
    {Unit::Tablespoon, Kind::Measure, 1, 1, "tablespoon|tablespoonful|tablspoon|tbspoon|tblspoon",
     "tablespoons|tablespoonfuls|tablespoonsful|tablspoons|tbspoons",
     "tbsp|tbsps|tbs|tblsp|tblsps|tbl|tbls|tbspn|tbspns|tblspn|tabsp"},
    {Unit::Cup, Kind::Measure, 1, 1, "cup|cupful", "cups|cupfuls|cupsful", ""},
    {Unit::FluidOunce, Kind::Measure, 1, 1, "", "", "floz"},
    {Unit::Pint, Kind::Measure, 1, 1, "pint", "pints", "pt|pts"},
    {Unit::Quart, Kind::Measure, 1, 1, "quart", "quarts", "qt|qts"},
    {Unit::Gallon, Kind::Measure, 1, 1, "gallon", "gallons", "gal|gals"},
    {Unit::Piece, Kind::Container, 1, 1, "piece|chunk|lump|thumb|ear|wedge",
     "pieces|chunks|lumps|thumbs|ears|wedges", "pc|pcs|nos"},
    {Unit::Pinch, Kind::Container, 1, 1, "pinch|smidgen|smidgeon|smidge", "pinches|smidgens", ""},
    {Unit::Dash, Kind::Container, 1, 1, "dash", "dashes", ""},
    {Unit::Handful, Kind::Container, 1, 1, "handful", "handfuls|handsful", ""},
    {Unit::Knob, Kind::Container, 1, 1, "knob", "knobs", ""},
    {Unit::Drop, Kind::Container, 1, 1, "drop", "drops", ""},
    {Unit::Splash, Kind::Container, 1, 1, "splash", "splashes", ""},
    {Unit::Squeeze, Kind::Container, 1, 1, "squeeze", "squeezes", ""},
    {Unit::Drizzle, Kind::Container, 1, 1, "drizzle", "drizzles", ""},
    {Unit::Glug, Kind::Container, 1, 1, "glug|lug", "glugs|lugs", ""},
    {Unit::Clove, Kind::Container, 1, 1, "clove", "cloves", ""},
    {Unit::Sprig, Kind::Container, 1, 1, "sprig", "sprigs", ""},
    {Unit::Slice, Kind::Container, 1, 1, "slice", "slices", ""},
    {Unit::Rasher, Kind::Container, 1, 1, "rasher", "rashers", ""},
    {Unit::Fillet, Kind::Container, 1, 1, "fillet|filet", "fillets|filets", ""},
    {Unit::Stick, Kind::Container, 1, 1, "stick", "sticks", ""},
    {Unit::Block, Kind::Container, 1, 1, "block", "blocks", ""},
    {Unit::Ball, Kind::Container, 1, 1, "ball", "balls", ""},
    {Unit::Can, Kind::Container, 1, 1, "can|tin", "cans|tins", ""},
    {Unit::Jar, Kind::Container, 1, 1, "jar", "jars", ""},
    {Unit::Packet, Kind::Container, 1, 1,
     "packet|pack|package|sachet|envelope|pouch|carton|punnet|bag|box|tub",
     "packets|packs|packages|sachets|envelopes|pouches|cartons|punnets|bags|boxes|tubs", "pkg|pkgs|pkt|pkts"},
    {Unit::Packet, Kind::Vessel, 1, 1, "pot|tray|container", "pots|trays|containers", ""},
    {Unit::Piece, Kind::Vessel, 1, 1,
     "spoonful|spoon|glass|mug|scoop|ladle|ladleful|shot|bowl|bowlful|glassful|mugful",
     "spoonfuls|spoons|glasses|mugs|scoops|ladles|ladlefuls|shots|bowls|bowlfuls|mugfuls|glassfuls", ""},
    {Unit::Piece, Kind::Vessel, 1, 1, "bottle|tube|loaf|bar|log|roll", "bottles|tubes|loaves|bars|logs|rolls",
     ""},
    {Unit::Bunch, Kind::Container, 1, 1, "bunch|bundle", "bunches|bundles", ""},
    {Unit::Head, Kind::Container, 1, 1, "head|bulb", "heads|bulbs", ""},
    {Unit::Stalk, Kind::Container, 1, 1, "stalk|rib", "stalks|ribs", ""},
    {Unit::Leaf, Kind::Container, 1, 1, "leaf", "leaves", ""},
    {Unit::Sheet, Kind::Container, 1, 1, "sheet", "sheets", ""},
    {Unit::Second, Kind::Measure, 1, 1, "second", "seconds", "sec|secs"},
    {Unit::Minute, Kind::Measure, 1, 1, "minute", "minutes", "min|mins"},
    {Unit::Hour, Kind::Measure, 1, 1, "hour", "hours", "hr|hrs|h"},
    {Unit::Day, Kind::Measure, 1, 1, "day", "days", ""},
    {Unit::Week, Kind::Measure, 1, 1, "week", "weeks", "wk|wks"},
    {Unit::Month, Kind::Measure, 1, 1, "month", "months", ""},
    {Unit::Centimeter, Kind::Measure, 1, 1, "centimetre|centimeter", "centimetres|centimeters", "cm|cms"},
    {Unit::Centimeter, Kind::Measure, 1, 10, "millimetre|millimeter", "millimetres|millimeters", "mm"},
    {Unit::Inch, Kind::Measure, 1, 1, "inch", "inches", ""},
    {Unit::Serving, Kind::Measure, 1, 1, "serving|portion", "servings|portions|people", ""},
};

// As cooks write them whose recipes come from other kitchens (German, Dutch, Swedish, Spanish); read in
// writing only, without their accents, as tokens are folded. Common practice, no source.
constexpr Row kForeignRows[] = {
    {Unit::Tablespoon, Kind::Measure, 1, 1, "", "", "el|essloffel|eetlepel|eetlepels|msk|cda|cdas"},
    {Unit::Teaspoon, Kind::Measure, 1, 1, "", "", "tl|teeloffel|theelepel|theelepels|tsk|cdta|cdtas"},
    {Unit::Cup, Kind::Measure, 1, 1, "", "", "tasse|tassen"},
    {Unit::Pinch, Kind::Container, 1, 1, "", "", "prise|prisen|msp|krm|snufje|pizca"},
    {Unit::Packet, Kind::Container, 1, 1, "", "", "pck|pckg|packchen|pkch"},
    {Unit::Bunch, Kind::Container, 1, 1, "", "", "bund"},
    {Unit::Clove, Kind::Container, 1, 1, "", "", "zehe|zehen"},
    {Unit::Slice, Kind::Container, 1, 1, "", "", "scheibe|scheiben"},
    {Unit::Piece, Kind::Container, 1, 1, "", "", "stk|stck|stuck"},
};

struct Entry {
  const Row* row;
  bool plural, abbreviation;
};

using Table = std::unordered_map<std::string_view, Entry>;

void add(Table& table, std::string_view words, Entry entry) {
  while (!words.empty()) {
    const auto bar = words.find('|');
    table.emplace(words.substr(0, bar), entry);
    words.remove_prefix(bar == std::string_view::npos ? words.size() : bar + 1);
  }
}

const Table& foreign_table() {
  static const auto kTable = [] {
    Table words;
    for (const auto& row : kForeignRows) add(words, row.abbreviations, {&row, false, true});
    return words;
  }();
  return kTable;
}

const Table& table() {
  static const auto kTable = [] {
    Table words;
    for (const auto& row : kRows) {
      add(words, row.one, {&row, false, false});
      add(words, row.many, {&row, true, false});
      add(words, row.abbreviations, {&row, false, true});
    }
    return words;
  }();
  return kTable;
}

bool is(std::span<const Token> tokens, std::size_t at, std::string_view text) {
  return at < tokens.size() && tokens[at].text == text;
}

// The full stop of an abbreviation belongs to it; at the end of the text it ends the sentence.
std::size_t after_stop(std::span<const Token> tokens, std::size_t at) {
  return is(tokens, at, ".") && !tokens[at].space_before && at + 1 < tokens.size() ? at + 1 : at;
}

std::optional<UnitWord> two_word_unit(std::span<const Token> tokens, std::size_t at) {
  const auto& first = tokens[at].text;
  if (first != "fl" && first != "fluid" && first != "tea" && first != "table" && first != "dessert" &&
      first != "hand")
    return std::nullopt;
  std::size_t second = at + 1;
  if (first == "fl" && is(tokens, second, ".")) ++second;
  if (is(tokens, second, "-")) ++second;
  if (second >= tokens.size()) return std::nullopt;
  const auto& word = tokens[second].text;
  const bool plural = word.size() > 1 && word.back() == 's';
  if (first == "fl" || first == "fluid") {
    if (word == "oz" || word == "ozs")
      return UnitWord{Unit::FluidOunce, 1, after_stop(tokens, second + 1), Kind::Measure, false};
    if (word == "ounce" || word == "ounces")
      return UnitWord{Unit::FluidOunce, 1, second + 1, Kind::Measure, plural};
    return std::nullopt;
  }
  if (first == "hand") {
    if (word != "full" && word != "ful" && word != "fulls") return std::nullopt;
    return UnitWord{Unit::Handful, 1, second + 1, Kind::Container, plural};
  }
  if (word != "spoon" && word != "spoons" && word != "spoonful" && word != "spoonfuls") return std::nullopt;
  UnitWord unit{Unit::Tablespoon, 1, second + 1, Kind::Measure, plural};
  if (first != "table") unit.unit = Unit::Teaspoon;
  if (first == "dessert") unit.factor = 2;
  return unit;
}

std::optional<Unit> written_letter(const Token& token) {
  if (token.raw == "T" || token.raw == "Tb" || token.raw == "TB") return Unit::Tablespoon;
  if (token.raw == "t") return Unit::Teaspoon;
  if (token.raw == "c" || token.raw == "C") return Unit::Cup;
  if (token.raw == "s") return Unit::Second;
  return std::nullopt;
}

}  // namespace

std::optional<UnitWord> unit_word_at(std::span<const Token> tokens, std::size_t at, bool written) {
  if (at >= tokens.size() || tokens[at].kind != TokenKind::Word) return std::nullopt;
  if (const auto unit = two_word_unit(tokens, at)) return unit;
  if (const auto found = table().find(tokens[at].text); found != table().end()) {
    const auto& [row, plural, abbreviation] = found->second;
    auto end = abbreviation ? after_stop(tokens, at + 1) : at + 1;
    // "clove(s)".
    if (is(tokens, end, "(") && !tokens[end].space_before && is(tokens, end + 1, "s") &&
        is(tokens, end + 2, ")"))
      end += 3;
    return UnitWord{row->unit, *Ratio::make(row->num, row->den), end, row->kind, plural};
  }
  if (!written) return std::nullopt;
  // Right after a figure only: "prise them open" is no pinch.
  const bool counted = at > 0 && tokens[at - 1].kind == TokenKind::Number;
  if (const auto found = foreign_table().find(tokens[at].text); counted && found != foreign_table().end()) {
    const auto* row = found->second.row;
    return UnitWord{row->unit, 1, after_stop(tokens, at + 1), row->kind, false};
  }
  const auto letter = written_letter(tokens[at]);
  if (!letter) return std::nullopt;
  return UnitWord{*letter, 1, after_stop(tokens, at + 1), Kind::Measure, false};
}

std::string_view usual_word_for(Unit unit, bool plural) {
  for (const auto& row : kRows) {
    if (row.unit != unit || row.num != row.den) continue;  // not "decilitre"
    const std::string_view words = plural ? row.many : row.one;
    return words.substr(0, words.find('|'));
  }
  return {};
}

}  // namespace panslate
