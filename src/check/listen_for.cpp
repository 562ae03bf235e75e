#include "panslate/check/listen_for.h"

#include <algorithm>
#include <array>
#include <memory>
#include <set>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/token.h"

#include "check/other_amounts.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

bool is_one_of(const Token& token, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), token.text) != words.end();
}

// In words only, a line is read as it is spoken ("oven to one eighty").
SpokenOrWritten how_of(Tokens tokens) {
  const bool figures = std::any_of(tokens.begin(), tokens.end(),
                                   [](const Token& token) { return token.kind == TokenKind::Number; });
  return figures ? SpokenOrWritten::Written : SpokenOrWritten::Spoken;
}

// "200 g (1 cup)", "200 °C, or 180 °C fan": each amount by itself.
std::vector<ScannedAmount> each_by_itself(Tokens tokens, const ScannedAmount& scan, SpokenOrWritten how) {
  if (scan.alternates.empty()) return {scan};
  std::vector<ScannedAmount> parts;
  for (auto at = scan.begin; at < scan.end;) {
    auto end = at;
    while (end < scan.end && !is_one_of(tokens[end], {"/", "(", ")", ",", "or"})) ++end;
    if (auto part = end > at ? scan_amount(tokens.first(end), at, how) : std::nullopt) {
      // "160C fan/gas 4": a bare number takes its scale from the whole.
      if (!part->has_unit) part->amount.unit = scan.amount.unit;
      part->begin = at;
      parts.push_back(*std::move(part));
    }
    at = end + 1;
  }
  return parts;
}

// Without "about" and "another" before it: they are said as they are written.
void leave_prefix_out(Tokens tokens, ScannedAmount& scan, SpokenOrWritten how) {
  for (auto at = scan.begin + 1; at < scan.end; ++at) {
    if (tokens[at - 1].kind == TokenKind::Number) break;
    const auto core = scan_amount(tokens.first(scan.end), at, how);
    if (!core || core->end != scan.end || core->amount.value != scan.amount.value ||
        core->amount.to != scan.amount.to || core->amount.unit != scan.amount.unit ||
        core->amount.each != scan.amount.each)
      break;
    scan.begin = at;
  }
}

AmountWording wording_of(Tokens tokens, const ScannedAmount& scan) {
  AmountWording wording;
  for (auto at = scan.begin; at < scan.end; ++at)
    if (is_one_of(tokens[at], {"more", "extra", "further", "heaped", "heaping", "level", "rounded", "scant",
                               "generous", "good", "full", "whole", "large", "big", "small"}))
      wording.between.push_back(tokens[at].text);
  wording.another = scan.begin > 0 && tokens[scan.begin - 1].text == "another";
  return wording;
}

Sayings sayings_of_word(const ScriptWord& word) {
  return sayings_of(word.readings);
}

/// A line in pieces, and which of them its amounts are.
struct LinePieces {
  std::vector<Sayings> pieces;
  std::vector<std::size_t> amounts;
};

LinePieces pieces_of(std::string_view line, std::span<const AmountToHear> amounts) {
  LinePieces made;
  std::size_t at = 0;
  const auto put_words = [&](std::size_t end) {
    for (const auto& word : script_words(line.substr(at, end - at)))
      if (!word.readings.empty()) made.pieces.push_back(sayings_of_word(word));
  };
  for (const auto& amount : amounts) {
    put_words(amount.begin);
    made.amounts.push_back(made.pieces.size());
    made.pieces.push_back(sayings_of(amount.readings));
    at = amount.end;
  }
  put_words(line.size());
  return made;
}

bool is_reading(const AmountToHear& amount, const std::vector<std::string>& words) {
  return std::find(amount.readings.begin(), amount.readings.end(), words) != amount.readings.end();
}

// Where the sound does not settle it, in natural logarithms: measured on one script and four voices, tested
// on another script and others (tests/bench/listen_measure.cpp).
constexpr double kAsWritten = 10;
constexpr double kDiffers = 20;
// "fifteen", "fifty": half a syllable apart.
constexpr double kAlike = 3;
// A voice the model does not understand: human speech (pocketsphinx-testdata, LibriSpeech) was measured
// at 2.6 to 4.1, flite at 3.3 to 4.0, the formant voices of espeak-ng at 6.3 to 7.7, where clear ratios are
// wrong.
constexpr double kMostMisfit = 5;
constexpr double kLeastSnr = 15;  // dB

// "mil" and "mils", "a" and "one": the same amount in either.
bool are_forms_of_one_word(std::string_view a, std::string_view b) {
  const auto is_one = [](std::string_view word) { return word == "a" || word == "an" || word == "one"; };
  if (a.size() > b.size()) std::swap(a, b);
  return a == b || (b.size() == a.size() + 1 && b.starts_with(a) && b.back() == 's') ||
         (is_one(a) && is_one(b));
}

// "fifty" for "fifteen", and nothing else.
bool is_teen_for_ty(const HeardPiece& script, const HeardPiece& other) {
  if (script.words.size() != other.words.size()) return false;
  constexpr std::array<std::pair<std::string_view, std::string_view>, 7> kPairs{{{"thirteen", "thirty"},
                                                                                 {"fourteen", "forty"},
                                                                                 {"fifteen", "fifty"},
                                                                                 {"sixteen", "sixty"},
                                                                                 {"seventeen", "seventy"},
                                                                                 {"eighteen", "eighty"},
                                                                                 {"nineteen", "ninety"}}};
  bool alike = false;
  for (std::size_t w = 0; w < script.words.size(); ++w) {
    const auto& a = script.words[w].word;
    const auto& b = other.words[w].word;
    if (are_forms_of_one_word(a, b)) continue;
    if (std::none_of(kPairs.begin(), kPairs.end(), [&](const auto& pair) {
          return (a == pair.first && b == pair.second) || (a == pair.second && b == pair.first);
        }))
      return false;
    alike = true;
  }
  return alike;
}

Heeded verdict_of(const HeardAgain& again, std::size_t place, std::optional<double> snr_db) {
  if (!again.script.complete || !again.otherwise.complete || again.misfit > kMostMisfit)
    return Heeded::Unsure;
  const double alike = is_teen_for_ty(again.script.pieces[place], again.otherwise.pieces[place]) ? kAlike : 1;
  // In noise the sound settles less: it may only say that something differs for a person to hear.
  const bool noisy = snr_db && *snr_db < kLeastSnr;
  // What was passed over as drawn out may still be what she said.
  if (again.least_ratio >= kAsWritten * alike && !noisy) return Heeded::AsWritten;
  if (again.ratio <= -kDiffers * alike && again.plausible && !noisy) return Heeded::Differs;
  return Heeded::Unsure;
}

std::vector<std::string> words_of(const HeardPiece& piece) {
  std::vector<std::string> words;
  for (const auto& word : piece.words) words.push_back(word.word);
  return words;
}

AmountHeard amount_heard(const AmountToHear& amount, const HeardAgain& again, std::size_t place,
                         std::optional<double> snr_db) {
  const bool other = again.ratio < 0 && again.otherwise.complete;
  const auto& piece = (other ? again.otherwise : again.script).pieces[place];
  AmountHeard heard;
  heard.begin = amount.begin;
  heard.end = amount.end;
  heard.script = amount.amount;
  heard.heard_text = text_of(piece);
  heard.heard = other ? amount_in_words(heard.heard_text, amount.amount) : std::optional(amount.amount);
  if (!piece.words.empty()) {
    heard.from = piece.words.front().begin;
    heard.to = piece.words.back().end;
  }
  heard.ratio = again.ratio;
  heard.verdict = verdict_of(again, place, snr_db);
  return heard;
}

}  // namespace

namespace {

enum class Otherwise : bool { No, Yes };

std::vector<AmountToHear> amounts_of(std::string_view line, Otherwise otherwise) {
  const auto tokens = tokenize(line);
  const auto how = how_of(tokens);
  std::vector<AmountToHear> found;
  for (const auto& scan : scan_amounts(tokens, how))
    for (auto part : each_by_itself(tokens, scan, how)) {
      if (!part.amount.value) continue;
      leave_prefix_out(tokens, part, how);
      part.amount.about = false;
      const auto core = Tokens(tokens).subspan(part.begin, part.end - part.begin);
      if (core.size() == 1 && part.has_unit && core.front().kind == TokenKind::Word)
        continue;  // "Drop in": a verb
      const auto wording = wording_of(tokens, part);
      AmountToHear amount;
      amount.begin = core.front().begin;
      amount.end = core.back().end;
      amount.amount = part.amount;
      amount.readings = ways_to_read_out(core);
      if (wording.between.empty())
        for (auto& way : ways_to_say(part.amount))
          if (!is_reading(amount, way)) amount.readings.push_back(std::move(way));
      if (amount.readings.empty()) continue;
      if (otherwise == Otherwise::Yes) amount.otherwise = other_amounts(part.amount, wording);
      found.push_back(std::move(amount));
    }
  return found;
}

// What other amounts are made of; common practice, no source.
std::shared_ptr<const std::vector<std::string>> amount_words() {
  static const auto kWords = [] {
    std::set<std::string> words{"a",        "an",     "and",     "half",  "quarter", "quarters",
                                "third",    "thirds", "point",   "to",    "or",      "hundred",
                                "thousand", "dozen",  "of",      "pinch", "clove",   "cloves",
                                "tin",      "tins",   "handful", "slice", "slices"};
    for (const int number : {0,  1,  2,  3,  4,  5,  6,  7,  8,  9,  10, 11, 12, 13,
                             14, 15, 16, 17, 18, 19, 20, 30, 40, 50, 60, 70, 80, 90})
      for (const auto& way : ways_to_say(Ratio(number))) words.insert(way.begin(), way.end());
    for (const auto unit : {Unit::Gram, Unit::Kilogram, Unit::Milliliter, Unit::Liter, Unit::Teaspoon,
                            Unit::Tablespoon, Unit::Cup, Unit::Minute, Unit::Hour, Unit::Second, Unit::Day,
                            Unit::Celsius, Unit::Fahrenheit, Unit::Ounce, Unit::Pound})
      for (const auto count : {Count::One, Count::More})
        for (const auto& way : words_for(unit, count)) words.insert(way.begin(), way.end());
    return std::make_shared<const std::vector<std::string>>(words.begin(), words.end());
  }();
  return kWords;
}

}  // namespace

std::vector<AmountToHear> amounts_to_hear(std::string_view line) {
  return amounts_of(line, Otherwise::Yes);
}

std::vector<AmountToHear> amounts_heard_in(std::string_view line) {
  return amounts_of(line, Otherwise::No);
}

std::vector<ScriptWord> words_to_hear(std::string_view line, std::span<const AmountToHear> amounts) {
  std::vector<ScriptWord> words;
  std::size_t at = 0;
  const auto put_words = [&](std::size_t end) {
    for (auto& word : script_words(line.substr(at, end - at))) words.push_back(std::move(word));
  };
  for (const auto& amount : amounts) {
    put_words(amount.begin);
    words.push_back(
        {std::string(line.substr(amount.begin, amount.end - amount.begin)), amount.readings, amount_words()});
    at = amount.end;
  }
  put_words(line.size());
  return words;
}

std::optional<Amount> amount_in_words(std::string_view words, const Amount& script) {
  const auto tokens = tokenize(words);
  auto scan = scan_amount(tokens, 0, SpokenOrWritten::Spoken);
  if (!scan) return std::nullopt;
  if (!scan->has_unit && dimension_of(script.unit) == Dimension::Temperature) scan->amount.unit = script.unit;
  if (!scan->has_unit && scan->amount.unit == Unit::Piece) {
    scan->amount.unit = script.unit == Unit::Other ? Unit::Other : scan->amount.unit;
    scan->amount.noun = script.noun;
  }
  return scan->amount;
}

Result<std::vector<AmountHeard>> listen_for_amounts(Recogniser& recogniser, PronouncingDictionary& dictionary,
                                                    std::span<const std::int16_t> samples,
                                                    std::string_view line,
                                                    std::span<const AmountToHear> amounts,
                                                    std::optional<double> snr_db) {
  std::vector<AmountHeard> all;
  if (amounts.empty()) return all;
  const auto [pieces, places] = pieces_of(line, amounts);
  PANSLATE_TRY(const auto script, hear_line(recogniser, dictionary, samples, pieces));
  std::vector<std::vector<std::string>> said_otherwise(amounts.size());
  for (std::size_t a = 0; a < amounts.size(); ++a) {
    PANSLATE_TRY(const auto again, listen_again(recogniser, dictionary, samples, pieces, places[a],
                                                amounts[a].otherwise, script));
    all.push_back(amount_heard(amounts[a], again, places[a], snr_db));
    if (again.ratio < 0 && again.otherwise.complete)
      said_otherwise[a] = words_of(again.otherwise.pieces[places[a]]);
  }
  // What is said otherwise at one place must not disturb the others: they are listened for again with it.
  for (std::size_t a = 0; a < amounts.size(); ++a) {
    auto with_others = pieces;
    bool disturbed = false;
    for (std::size_t b = 0; b < amounts.size(); ++b) {
      if (b == a || said_otherwise[b].empty()) continue;
      with_others[places[b]].add_phrase(Sayings::kStart, Sayings::kEnd, said_otherwise[b]);
      disturbed = true;
    }
    if (!disturbed) continue;
    PANSLATE_TRY(const auto others, hear_line(recogniser, dictionary, samples, with_others));
    PANSLATE_TRY(const auto again, listen_again(recogniser, dictionary, samples, with_others, places[a],
                                                amounts[a].otherwise, others));
    all[a] = amount_heard(amounts[a], again, places[a], snr_db);
  }
  return all;
}

}  // namespace panslate
