#include "panslate/check/listen_for.h"

#include <algorithm>
#include <array>
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

// Both what the script has and other things.
Sayings either(Sayings sayings, std::span<const WayToSay> readings) {
  for (const auto& reading : readings) sayings.add_phrase(Sayings::kStart, Sayings::kEnd, reading);
  return sayings;
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
    for (const auto& word : words_of(line.substr(at, end - at)))
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

// Where the sound does not settle it. In natural logarithms.
struct Bounds {
  double as_written = 10;
  double differs = 10;
};

Heeded verdict_of(const HeardAgain& again, double ratio, const Bounds& bounds) {
  if (!again.script.complete || !again.otherwise.complete) return Heeded::Unsure;
  if (ratio >= bounds.as_written) return Heeded::AsWritten;
  return ratio <= -bounds.differs ? Heeded::Differs : Heeded::Unsure;
}

}  // namespace

std::vector<AmountToHear> amounts_to_hear(std::string_view line) {
  const auto tokens = tokenize(line);
  const auto how = how_of(tokens);
  std::vector<AmountToHear> found;
  for (const auto& scan : scan_amounts(tokens, how))
    for (auto part : each_by_itself(tokens, scan, how)) {
      if (!part.amount.value) continue;
      leave_prefix_out(tokens, part, how);
      part.amount.about = false;
      const auto core = Tokens(tokens).subspan(part.begin, part.end - part.begin);
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
      amount.otherwise = other_amounts(part.amount, wording);
      found.push_back(std::move(amount));
    }
  return found;
}

std::vector<ScriptWord> words_to_hear(std::string_view line, std::span<const AmountToHear> amounts) {
  std::vector<ScriptWord> words;
  std::size_t at = 0;
  const auto put_words = [&](std::size_t end) {
    for (auto& word : words_of(line.substr(at, end - at))) words.push_back(std::move(word));
  };
  for (const auto& amount : amounts) {
    put_words(amount.begin);
    words.push_back({std::string(line.substr(amount.begin, amount.end - amount.begin)), amount.readings});
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
  static_cast<void>(snr_db);
  std::vector<AmountHeard> all;
  auto [pieces, places] = pieces_of(line, amounts);
  // What was said at the others must not disturb the one that is listened for.
  if (amounts.size() > 1) {
    auto free = pieces;
    for (std::size_t a = 0; a < amounts.size(); ++a)
      free[places[a]] = either(amounts[a].otherwise, amounts[a].readings);
    PANSLATE_TRY(const auto first, hear_line(recogniser, dictionary, samples, free));
    for (std::size_t a = 0; a < amounts.size(); ++a) {
      const auto& words = first.pieces[places[a]].words;
      if (first.complete && !words.empty() && !is_reading(amounts[a], words))
        pieces[places[a]].add_phrase(Sayings::kStart, Sayings::kEnd, words);
    }
  }
  for (std::size_t a = 0; a < amounts.size(); ++a) {
    auto with_script = pieces;
    with_script[places[a]] = sayings_of(amounts[a].readings);
    PANSLATE_TRY(const auto again,
                 listen_again(recogniser, dictionary, samples, with_script, places[a], amounts[a].otherwise));
    const bool other = again.ratio < 0 && again.otherwise.complete;
    const auto& piece = (other ? again.otherwise : again.script).pieces[places[a]];
    AmountHeard heard;
    heard.begin = amounts[a].begin;
    heard.end = amounts[a].end;
    heard.script = amounts[a].amount;
    heard.heard_text = join(piece.words, " ");
    heard.heard =
        other ? amount_in_words(heard.heard_text, amounts[a].amount) : std::optional(amounts[a].amount);
    heard.from = piece.begin;
    heard.to = piece.end;
    heard.ratio = again.ratio;
    heard.verdict = verdict_of(again, again.ratio, {});
    all.push_back(std::move(heard));
  }
  return all;
}

}  // namespace panslate
