#include "recipe/ingredient_foods.h"

#include <algorithm>
#include <iterator>

#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/food.h"

#include "recipe/ingredient_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

using Words = std::vector<LineWord>;

std::string_view folded(const Words& words, std::size_t at) {
  return at < words.size() ? std::string_view(words[at].folded) : std::string_view{};
}

bool is_article(std::string_view word) {
  return is_one_of(word, {"a", "an", "the", "of", "some", "any", "plenty", "lots", "your", "favourite",
                          "favorite", "few", "approximately", "enough", "each", "more", "bit", "our", "my"});
}

bool goes_off(const Words& words, std::size_t at) {
  const auto word = folded(words, at);
  const auto next = folded(words, at + 1);
  return is_preparation_word(word, next) || is_quality_word(word, next) || is_manner_word(word);
}

// "fresh ginger": fresh is part of the name; "freshly ground pepper": ground goes with its manner.
bool manner_takes(const Words& words, std::size_t at) {
  return is_manner_word(folded(words, at)) && at + 1 < words.size() &&
         is_one_of(folded(words, at + 1),
                   {"ground", "squeezed", "milled", "brewed", "grated", "picked", "made", "cracked"});
}

struct Cleaned {
  Words name;
  std::vector<std::string> off;
};

// Words taken off before and inside the name; a participle at its end ("onion chopped") and all after it.
Cleaned clean(const Words& words, CountedAs counted) {
  Cleaned out;
  std::vector<LineWord> run;
  const auto flush = [&] {
    if (!run.empty()) out.off.push_back(join_words(run, 0, run.size()));
    run.clear();
  };
  std::size_t at = 0;
  const auto skipped = [&](std::string_view word, std::string_view next) {
    return is_article(word) || (word == "little" && next != "gem");
  };
  while (at + 1 < words.size() && skipped(folded(words, at), folded(words, at + 1))) ++at;
  if (counted != CountedAs::Package && at + 2 < words.size() && is_vessel(folded(words, at)) &&
      folded(words, at + 1) == "of")
    at += 2;
  if (folded(words, at) == "extra" && at + 1 < words.size() &&
      !is_one_of(folded(words, at + 1),
                 {"virgin", "firm", "broad", "wide", "fine", "thick", "thin", "dark", "dry", "mature",
                  "sharp", "strong", "hot", "lean", "ripe", "long", "old"}))
    ++at;
  if (counted == CountedAs::Pieces && folded(words, at) == "whole" && at + 1 < words.size() &&
      !is_one_of(folded(words, at + 1), {"milk", "wheat", "grain", "wholemeal"}))
    ++at;
  for (; at < words.size(); ++at) {
    const bool last = at + 1 == words.size();
    if (counted == CountedAs::Package && is_preparation_word(folded(words, at), folded(words, at + 1)) &&
        !last && out.name.empty()) {
      flush();
      out.name.push_back(words[at]);
      continue;
    }
    if (!out.name.empty() && is_preparation_word(folded(words, at), folded(words, at + 1))) {
      const auto next = folded(words, at + 1);
      const bool closes = last || is_one_of(next, {"and", "&", "into", "in", "to", "with", "or", "lengthways",
                                                   "up", "on", "off", "for", "lengthwise"});
      if (closes) {
        for (auto i = at; i < words.size(); ++i) run.push_back(words[i]);
        flush();
        return out;
      }
    }
    if (manner_takes(words, at)) {
      run.push_back(words[at]);
      run.push_back(words[++at]);
      continue;
    }
    if (is_praise(folded(words, at)) && goes_off(words, at) && !last) continue;
    // "Nashville hot chicken seasoning": inside a name heat is part of it.
    const bool inside = !out.name.empty() && is_one_of(folded(words, at), {"hot", "cold", "warm"});
    if (goes_off(words, at) && !inside && !(last && out.name.empty() && run.empty())) {
      run.push_back(words[at]);
      continue;
    }
    if (!run.empty() && is_one_of(folded(words, at), {"and", "&", "or", ","}) && goes_off(words, at + 1)) {
      run.push_back(words[at]);
      continue;
    }
    flush();
    out.name.push_back(words[at]);
  }
  flush();
  if (out.name.empty() && !words.empty()) {  // "cut" alone, "melted": better a name than none
    out.name = words;
    out.off.clear();
  }
  return out;
}

bool is_known_whole(const Words& words) {
  std::vector<std::string> names;
  names.reserve(words.size());
  for (const auto& word : words) names.push_back(word.folded);
  return food_name_length(names, 0) == names.size();
}

bool is_joint(std::string_view word) {
  return word == "and" || word == "&" || word == "+";
}

// Where alternatives part: "or", "/", "and/or". Empty ranges are left out.
std::vector<Words> split_alternatives(const Words& words) {
  std::vector<Words> out(1);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto word = folded(words, i);
    const bool and_or = word == "and" && (folded(words, i + 1) == "or" ||
                                          (folded(words, i + 1) == "/" && folded(words, i + 2) == "or"));
    if (word == "or" || word == "/" || word == "|" || and_or) {
      if (!out.back().empty()) out.emplace_back();
      continue;
    }
    out.back().push_back(words[i]);
  }
  if (out.back().empty()) out.pop_back();
  return out;
}

std::vector<Words> split_on(const Words& words, bool (*parts)(std::string_view)) {
  std::vector<Words> out(1);
  for (const auto& word : words) {
    if (parts(word.folded)) {
      if (!out.back().empty()) out.emplace_back();
      continue;
    }
    out.back().push_back(word);
  }
  if (out.back().empty()) out.pop_back();
  return out;
}

// "red" + "yellow peppers" → "red peppers"; several before the last borrow alike.
void lend_heads(std::vector<Words>& parts) {
  for (std::size_t i = parts.size(); i-- > 1;) {
    auto& first = parts[i - 1];
    const auto& second = parts[i];
    if (first.size() != 1 || second.size() < 2 || !shares_head(first[0].folded, second.back().folded))
      continue;
    const bool adjective = is_adjective_only(first[0].folded);
    const auto from = adjective ? second.begin() + 1 : second.end() - 1;
    first.insert(first.end(), from, second.end());
  }
}

Words flattened(const std::vector<Words>& parts) {
  Words out;
  for (const auto& part : parts) out.insert(out.end(), part.begin(), part.end());
  return out;
}

bool only_goes_off(const Words& words) {
  for (std::size_t i = 0; i < words.size(); ++i)
    if (!is_preparation_word(folded(words, i), {}) && !is_manner_word(folded(words, i))) return false;
  return true;
}

std::string joined(const Words& words) {
  return join_words(words, 0, words.size());
}

// An amount that opens an alternative ("or 1 small onion") is not part of its name.
Words without_amount(const Words& words, const std::vector<Token>& tokens) {
  if (words.empty()) return words;
  const auto scanned = scan_amount(tokens, words.front().begin, SpokenOrWritten::Written);
  if (!scanned) return words;
  Words out;
  std::copy_if(words.begin(), words.end(), std::back_inserter(out),
               [&](const LineWord& word) { return word.begin >= scanned->end; });
  return out.empty() ? words : out;
}

void take_trailing_unit(Words& name, LineFoods& out) {
  if (name.size() < 2) return;
  const auto unit = trailing_unit(name.back().folded, name[name.size() - 2].folded);
  if (!unit) return;
  out.unit = unit;
  name.pop_back();
}

}  // namespace

LineFoods read_food_names(const std::vector<Token>& tokens, std::size_t begin, std::size_t end,
                          CountedAs counted) {
  LineFoods out;
  const auto words = line_words(tokens, begin, end);
  auto alternatives = split_alternatives(words);
  if (alternatives.empty()) return out;
  // "crushed or pureed tomatoes": two ways to prepare one food.
  while (alternatives.size() > 1 && only_goes_off(alternatives.front())) {
    out.preparation.push_back(joined(alternatives.front()));
    alternatives.erase(alternatives.begin());
  }
  const bool joint =
      std::any_of(words.begin(), words.end(), [](const LineWord& w) { return is_joint(w.folded); });
  const bool listed = alternatives.size() > 1 && !joint;
  std::vector<Words> cleaned;
  for (std::size_t i = 0; i < alternatives.size(); ++i) {
    auto one = clean(i == 0 ? alternatives[i] : without_amount(alternatives[i], tokens), counted);
    if (i == 0 || alternatives.size() == 2)
      std::move(one.off.begin(), one.off.end(), std::back_inserter(out.preparation));
    // "red, green or brown lentils": the commas of a list part alternatives too; "fresh, cold milk": they
    // part nothing.
    auto pieces = split_on(one.name, [](std::string_view w) { return w == ","; });
    if (!listed && !joint) pieces = {flattened(pieces)};
    if (joint) pieces = {one.name};
    std::move(pieces.begin(), pieces.end(), std::back_inserter(cleaned));
  }
  lend_heads(cleaned);
  if (cleaned.empty()) return out;
  for (std::size_t i = 1; i < cleaned.size(); ++i)
    if (!is_one_of(cleaned[i].front().folded,
                   {"similar", "other", "more", "equivalent", "something", "so", "whatever"}))
      out.or_foods.push_back(joined(cleaned[i]));

  auto& first = cleaned.front();
  auto parts = is_known_whole(first)
                   ? std::vector<Words>{first}
                   : split_on(first, [](std::string_view w) { return is_joint(w) || w == ","; });
  if (parts.size() > 1) {
    out.name = joined(first);
    for (auto& part : parts) {
      auto piece = clean(without_amount(part, tokens), counted);
      part = std::move(piece.name);
    }
    lend_heads(parts);
    for (const auto& part : parts) out.foods.push_back(joined(part));
    return out;
  }
  if (counted == CountedAs::Pieces) take_trailing_unit(first, out);
  out.name = joined(first);
  out.foods = {out.name};
  return out;
}

bool names_food_at(const std::vector<Token>& tokens, std::size_t begin, std::size_t end) {
  std::vector<std::string> words;
  for (auto at = begin; at < end && tokens[at].kind == TokenKind::Word; ++at) {
    if (words.empty() &&
        is_one_of(tokens[at].text, {"little", "few", "bit", "good", "generous", "lot", "touch"}))
      return false;
    const bool last = at + 1 >= end || tokens[at + 1].kind != TokenKind::Word;
    if (words.empty() && is_descriptor(tokens[at].text) && !last) continue;
    words.push_back(tokens[at].text);
  }
  return !words.empty() && (food_name_length(words, 0) > 0 || is_food_word(words.front()));
}

bool food_still_to_come(const std::vector<Token>& tokens, std::size_t begin, std::size_t end) {
  const auto words = line_words(tokens, begin, end);
  if (words.empty()) return true;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (words[i].folded != "," && !goes_off(words, i) && !is_adjective_only(words[i].folded) &&
        !is_article(words[i].folded))
      return false;
  return true;
}

}  // namespace panslate
