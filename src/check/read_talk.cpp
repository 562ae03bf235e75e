#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <unordered_set>
#include <utility>
#include <vector>

#include "panslate/kitchen/food_names.h"

#include "check/misheard.h"
#include "check/name_words.h"
#include "check/phrase.h"
#include "check/sound_alikes.h"
#include "check/span_search.h"
#include "check/step_alignment.h"
#include "check/talk.h"

namespace panslate {

namespace {

// Ways of offering something that is not done in the film. Common practice, no source.
constexpr std::array<std::string_view, 26> kOffersBefore{
    "you could",         "could also",        "can also",
    "you can use",       "substitute",        "swap",
    "replace",           "works with",        "goes with",
    "great on",          "great with",        "serve with",
    "serve it with",     "serve them with",   "delicious with",
    "lovely with",       "good with",         "alternatively",
    "if you don't have", "if you don t have", "if you can't find",
    "if you can t find", "you might",         "or use",
    "or even",           "not a fan of"};
constexpr std::array<std::string_view, 8> kOffersAfter{"instead",       "if you like", "if you want",
                                                       "if you prefer", "works too",   "works as well",
                                                       "would work",    "if you fancy"};

NameWords name_words(const Talk& talk) {
  const auto& text = talk.text;
  auto amount = talk.amounts.begin();
  NameWords out;
  out.words.reserve(text.size());
  out.token_of.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto& token = text[i];
    const bool mark = token.kind == TokenKind::Mark;
    const bool inner = mark && (token.text == "-" || token.text == "'") && !token.space_before &&
                       i + 1 < text.size() && !text[i + 1].space_before;
    if (inner) continue;
    const bool new_sentence = i > 0 && text.sentence(i) != text.sentence(i - 1);
    if (new_sentence && !out.words.empty() && !out.words.back().empty()) {
      out.words.emplace_back();  // no name runs over the end of a sentence
      out.token_of.push_back(i);
    }
    // The unit of an amount is no part of a name: "200 grams flour" is not gram flour.
    while (amount != talk.amounts.end() && amount->span.end <= i) ++amount;
    const bool inside = amount != talk.amounts.end() && amount->span.begin <= i && amount->scan.has_unit;
    const bool measure = inside && (dimension_of(amount->scan.amount.unit) <= Dimension::Volume ||
                                    text.is_word(amount->span.end, "of"));
    out.words.push_back(mark || measure ? std::string{} : token.text);
    out.token_of.push_back(i);
  }
  return out;
}

NameStrength strength_of(NameMatch match) {
  switch (match) {
    case NameMatch::None:
    case NameMatch::Category:
      return NameStrength::Category;
    case NameMatch::Head:
    case NameMatch::Regional:
      return NameStrength::Head;
    case NameMatch::Variety:
    case NameMatch::Synonym:
    case NameMatch::Exact:
      return NameStrength::Full;
  }
  return NameStrength::Category;
}

bool is_offered(const SpokenText& text, TokenSpan span) {
  constexpr std::size_t kBefore = 8;
  constexpr std::size_t kAfter = 6;
  TokenSpan before{span.begin - std::min(kBefore, span.begin), span.begin};
  while (before.begin < before.end && text.sentence(before.begin) != text.sentence(span.begin))
    ++before.begin;
  TokenSpan after{span.end, std::min(text.size(), span.end + kAfter)};
  while (after.end > after.begin && text.sentence(after.end - 1) != text.sentence(span.begin)) --after.end;
  return holds_phrase(text, before, kOffersBefore) || holds_phrase(text, after, kOffersAfter);
}

// Stretches that say the dish's own name: runs of the title's words with the word for the dish in it ("carrot
// fritters").
std::vector<TokenSpan> dish_names(const SpokenText& text, const std::string& title) {
  std::vector<std::string> words;
  for (const auto& token : tokenize(title))
    if (token.kind == TokenKind::Word) words.push_back(token.text);
  std::vector<TokenSpan> spans;
  const bool has_dish_word = std::any_of(words.begin(), words.end(), [](const auto& w) {
    return !is_filler(w) && !is_food_word(w) && !is_descriptor(w);
  });
  const std::size_t shortest = has_dish_word ? 2 : words.size();
  if (words.size() < 2 || words.size() > 20) return spans;
  for (std::size_t i = 0; i < text.size(); ++i) {
    std::size_t longest = 0;
    bool with_dish_word = false;
    for (std::size_t w = 0; w < words.size(); ++w) {
      std::size_t length = 0;
      bool dish = false;
      while (w + length < words.size() && text.is_word(i + length, words[w + length])) {
        const auto& word = words[w + length];
        dish = dish || (!is_filler(word) && !is_food_word(word) && !is_descriptor(word));
        ++length;
      }
      if (length > longest) {
        longest = length;
        with_dish_word = dish;
      }
    }
    if (longest >= shortest && (with_dish_word || longest == words.size())) {
      spans.push_back({i, i + longest});
      i += longest - 1;
    }
  }
  return spans;
}

// "50 grams of flour a serving", "the flour" against "flour a board": an amount, "of" or an article before it
// makes a noun of it.
bool stands_as_noun(const Talk& talk, std::size_t at) {
  if (at == 0) return false;
  constexpr std::array<std::string_view, 8> kBefore{"of", "the", "some", "our", "my", "your", "this", "that"};
  if (std::any_of(kBefore.begin(), kBefore.end(),
                  [&](const auto word) { return talk.text.is_word(at - 1, word); }))
    return true;
  const auto after = first_from(talk.amounts, at);
  return after != talk.amounts.begin() && (after - 1)->span.end == at;
}

// "for the cream, just the one teaspoon": a part of the dish, not the coconut cream.
bool names_part(const SpokenText& text, TokenSpan span, const std::vector<FoodTarget>& targets) {
  if (span.end - span.begin != 1 || span.begin < 2 || !text.is_word(span.begin - 1, "the") ||
      !text.is_word(span.begin - 2, "for"))
    return false;
  const auto word = stem(text[span.begin].text);
  return std::any_of(targets.begin(), targets.end(), [&](const FoodTarget& target) {
    const auto group = tokenize(target.group);
    return std::any_of(group.begin(), group.end(),
                       [&](const Token& w) { return w.kind == TokenKind::Word && stem(w.text) == word; });
  });
}

/// Foods as they were heard, and as they sound.
struct HeardFoods {
  std::vector<SoundAlike> alikes;
  CorrectedWords text;
  std::vector<FoodMention> mentions;  ///< in `text`
};

std::unordered_set<std::string> words_of(const Recipe& recipe) {
  std::unordered_set<std::string> words;
  const auto add = [&](const std::string& text) {
    for (const auto& token : tokenize(text))
      if (token.kind == TokenKind::Word) words.insert(token.text);
  };
  add(recipe.title);
  for (const auto& ingredient : recipe.ingredients) add(ingredient.text);
  for (const auto& step : recipe.steps) add(step.text);
  for (const auto& note : recipe.notes) add(note);
  return words;
}

bool share_food(const std::vector<std::size_t>& a, const std::vector<std::size_t>& b) {
  return std::any_of(a.begin(), a.end(),
                     [&](std::size_t food) { return std::find(b.begin(), b.end(), food) != b.end(); });
}

// Names by their words first; then what sounds like a name is read as that name, and all is read again, so
// that the words around it count as they would have. What does not come out as the food it was taken for is
// left as it was heard.
HeardFoods hear_foods(const Talk& talk, const NameWords& words, const std::vector<FoodTarget>& targets,
                      const FoodNames& finder, const std::unordered_set<std::string>& recipe_words) {
  HeardFoods heard;
  heard.mentions = finder.scan(words.words);
  heard.alikes = find_sound_alikes(talk, words, heard.mentions, targets, finder, recipe_words);
  heard.text = correct_words(words, heard.alikes);
  while (!heard.alikes.empty()) {
    heard.mentions = finder.scan(heard.text.words.words);
    std::vector<char> borne_out(heard.alikes.size(), 0);
    for (const auto& mention : heard.mentions)
      for (auto w = mention.begin; w < mention.begin + mention.length; ++w)
        if (const auto alike = heard.text.alike_of[w])
          borne_out[*alike] = share_food(mention.ingredients, heard.alikes[*alike].foods) ? 1 : 0;
    if (std::count(borne_out.begin(), borne_out.end(), 0) == 0) break;
    std::vector<SoundAlike> left;
    for (std::size_t a = 0; a < borne_out.size(); ++a)
      if (borne_out[a] != 0) left.push_back(std::move(heard.alikes[a]));
    heard.alikes = std::move(left);
    heard.text = correct_words(words, heard.alikes);
    if (heard.alikes.empty()) heard.mentions = finder.scan(words.words);
  }
  return heard;
}

void note_misheard(Talk& talk, const HeardFoods& heard, const FoodMention& mention, FoodSighting& sighting) {
  for (auto w = mention.begin; w < mention.begin + mention.length; ++w) {
    const auto alike = heard.text.alike_of[w];
    if (!alike || (w > 0 && heard.text.alike_of[w - 1] == alike)) continue;
    const auto& meant = heard.alikes[*alike];
    const TokenSpan span{heard.text.words.token_of[w],
                         heard.text.last_token_of[w + meant.meant.size() - 1] + 1};
    sighting.doubtful = sighting.doubtful || meant.doubtful;
    sighting.targets.insert(sighting.targets.end(), meant.also_foods.begin(), meant.also_foods.end());
    talk.misheard.push_back({span, meant.written});
    if (!meant.doubtful) talk.text.read_as(span, meant.meant);
  }
}

// "the black pepper corns": captions parted a word of the written name.
void take_split_ending(const SpokenText& text, const std::vector<FoodTarget>& targets,
                       const std::vector<std::size_t>& meant, TokenSpan& span) {
  if (span.end >= text.size() || text[span.end].kind != TokenKind::Word ||
      text.sentence(span.end) != text.sentence(span.end - 1))
    return;
  const auto joined = stem(text[span.end - 1].text + text[span.end].text);
  const bool written = std::any_of(meant.begin(), meant.end(), [&](std::size_t t) {
    const auto words = tokenize(targets[t].name);
    return std::any_of(words.begin(), words.end(), [&](const Token& word) {
      return word.kind == TokenKind::Word && stem(word.text) == joined;
    });
  });
  if (written) ++span.end;
}

void find_foods(Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe) {
  std::vector<std::string> names;
  names.reserve(targets.size());
  for (const auto& target : targets) names.push_back(target.name);
  const FoodNames finder(names);
  const auto words = name_words(talk);
  const auto dishes = dish_names(talk.text, recipe.title);
  const auto heard = hear_foods(talk, words, targets, finder, words_of(recipe));
  for (const auto& mention : heard.mentions) {
    FoodSighting sighting;
    sighting.span = {heard.text.words.token_of[mention.begin],
                     heard.text.last_token_of[mention.begin + mention.length - 1] + 1};
    if (any_overlaps(dishes, sighting.span) ||
        (mention.perhaps_verb && !stands_as_noun(talk, sighting.span.begin)))
      continue;
    take_split_ending(talk.text, targets, mention.ingredients, sighting.span);
    sighting.targets = mention.ingredients;
    sighting.strength = strength_of(mention.match);
    if (sighting.strength != NameStrength::Full && names_part(talk.text, sighting.span, targets)) continue;
    note_misheard(talk, heard, mention, sighting);
    const bool optional = std::any_of(sighting.targets.begin(), sighting.targets.end(),
                                      [&](std::size_t t) { return targets[t].optional; });
    sighting.suggested =
        !optional && talk.text.kind() == TextKind::Speech && is_offered(talk.text, sighting.span);
    if (mention.match == NameMatch::None) {
      if (mention.other_food) talk.other_foods.push_back(std::move(sighting));
      continue;
    }
    talk.sightings.push_back(std::move(sighting));
  }
}

// "the last tablespoon", "the whole bunch": one of it, though no number is said.
std::vector<ScannedAmount> unnumbered_amounts(const SpokenText& text) {
  constexpr std::array<std::string_view, 6> kOne{"last", "other", "final", "remaining", "whole", "second"};
  constexpr std::size_t kReach = 4;
  std::vector<ScannedAmount> found;
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    const bool one =
        text.is_word(i - 1, "the") &&
        std::any_of(kOne.begin(), kOne.end(), [&](const auto word) { return text.is_word(i, word); });
    if (!one || text.sentence(i + 1) != text.sentence(i)) continue;
    const auto end = std::min(text.size(), i + kReach);
    std::vector<Token> tokens(text.tokens().begin() + static_cast<std::ptrdiff_t>(i),
                              text.tokens().begin() + static_cast<std::ptrdiff_t>(end));
    tokens.front().text = tokens.front().raw = "a";
    auto scan = scan_amount(tokens, 0, SpokenOrWritten::Spoken);
    if (!scan || !scan->has_unit || scan->amount.value != Ratio(1)) continue;
    const auto dimension = dimension_of(scan->amount.unit);
    if (dimension != Dimension::Volume && dimension != Dimension::Count) continue;
    scan->is_more = !text.is_word(i, "whole");
    scan->begin = i;
    scan->end += i;
    found.push_back(*std::move(scan));
  }
  return found;
}

// "the light one and a third of a cup of honey": the one is the oil, and a third of a cup is the amount.
void leave_pronoun_out(const SpokenText& text, ScannedAmount& scan) {
  if (scan.begin < 2 || !text.is_word(scan.begin, "one") || !text.is_word(scan.begin + 1, "and")) return;
  constexpr std::array<std::string_view, 7> kCounting{"other", "last",  "final", "remaining",
                                                      "first", "whole", "next"};
  const auto& kind = text[scan.begin - 1];
  const bool pronoun = (text.is_word(scan.begin - 2, "the") || text.is_word(scan.begin - 2, "this")) &&
                       kind.kind == TokenKind::Word && is_descriptor(kind.text) &&
                       std::find(kCounting.begin(), kCounting.end(), kind.text) == kCounting.end();
  if (!pronoun) return;
  const std::vector<Token> rest(text.tokens().begin() + static_cast<std::ptrdiff_t>(scan.begin) + 2,
                                text.tokens().begin() + static_cast<std::ptrdiff_t>(scan.end));
  auto part = scan_amount(rest, 0, SpokenOrWritten::Spoken);
  if (!part || !part->has_unit) return;
  part->end += scan.begin + 2;
  part->begin = scan.begin + 2;
  scan = *std::move(part);
}

// "the other 40 ml", "that last cup": the rest of an amount, not one more telling of it.
bool is_rest(const SpokenText& text, std::size_t begin) {
  constexpr std::array<std::string_view, 4> kRest{"other", "last", "final", "remaining"};
  constexpr std::array<std::string_view, 3> kPointing{"the", "that", "this"};
  return begin >= 2 &&
         std::any_of(kRest.begin(), kRest.end(),
                     [&](const auto word) { return text.is_word(begin - 1, word); }) &&
         std::any_of(kPointing.begin(), kPointing.end(),
                     [&](const auto word) { return text.is_word(begin - 2, word); });
}

bool names_food(const SpokenText& text, std::size_t at) {
  constexpr std::size_t kLongest = 4;
  std::vector<std::string> words;
  for (auto i = at; i < text.size() && i < at + kLongest && text[i].kind == TokenKind::Word; ++i)
    words.push_back(text[i].text);
  return !words.empty() && (is_descriptor(words.front()) || food_name_length(words, 0) > 0);
}

// "the christmas one": no count of anything.
bool is_pronoun(const SpokenText& text, const ScannedAmount& scan) {
  constexpr std::array<std::string_view, 3> kPointing{"the", "that", "this"};
  return !scan.has_unit && scan.end == scan.begin + 1 && text.is_word(scan.begin, "one") && scan.begin >= 2 &&
         text[scan.begin - 1].kind == TokenKind::Word && !names_food(text, scan.end) &&
         std::any_of(kPointing.begin(), kPointing.end(),
                     [&](const auto word) { return text.is_word(scan.begin - 2, word); });
}

// "five tablespoons of juice all told": the total is told after the food.
bool is_summed_up(const SpokenText& text, const ScannedAmount& scan) {
  constexpr std::array<std::string_view, 6> kSums{"all told", "in all",       "altogether",
                                                  "in total", "all together", "total"};
  constexpr std::size_t kReach = 5;
  auto end = scan.end;
  while (end < text.size() && end < scan.end + kReach && text.sentence(end) == text.sentence(scan.begin) &&
         text[end].kind != TokenKind::Number)
    ++end;
  return scan.has_unit && holds_phrase(text, {scan.end, end}, kSums);
}

// "One tin, four hundred mils": the measure says how big the tin is.
void join_tins(const SpokenText& text, std::vector<ScannedAmount>& scans) {
  for (std::size_t k = 0; k + 1 < scans.size(); ++k) {
    auto& tin = scans[k];
    const auto& size = scans[k + 1];
    const bool in_tins =
        tin.amount.unit == Unit::Can || tin.amount.unit == Unit::Jar || tin.amount.unit == Unit::Packet;
    const bool measured = size.has_unit && size.amount.value && !size.amount.to &&
                          dimension_of(size.amount.unit) <= Dimension::Volume;
    if (!in_tins || !measured || tin.amount.each || tin.amount.value != Ratio(1) ||
        size.begin != tin.end + 1 || !text.is_word(tin.end, ",") || text.is_word(size.end, "of"))
      continue;
    tin.amount.each = Package{*size.amount.value, size.amount.unit};
    tin.end = size.end;
    scans.erase(scans.begin() + static_cast<std::ptrdiff_t>(k) + 1);
  }
}

void find_amounts(Talk& talk) {
  auto scans = scan_amounts(talk.text.tokens(), SpokenOrWritten::Spoken);
  for (auto& scan : unnumbered_amounts(talk.text)) {
    const auto after = std::lower_bound(scans.begin(), scans.end(), scan.end,
                                        [](const ScannedAmount& s, std::size_t t) { return s.begin < t; });
    if (after == scans.begin() || (after - 1)->end <= scan.begin) scans.insert(after, std::move(scan));
  }
  join_tins(talk.text, scans);
  for (auto& scan : scans) {
    leave_pronoun_out(talk.text, scan);
    if (is_pronoun(talk.text, scan)) continue;
    scan.is_more = scan.is_more || is_rest(talk.text, scan.begin);
    scan.is_total = scan.is_total || is_summed_up(talk.text, scan);
    SpokenAmount amount;
    amount.span = {scan.begin, scan.end};
    amount.scan = scan;
    // A number inside a food's name counts nothing ("five-spice").
    const auto inside = [&](const FoodSighting& s) {
      return s.span.begin <= scan.begin && scan.end <= s.span.end;
    };
    const auto near = std::lower_bound(talk.sightings.begin(), talk.sightings.end(), scan.begin + 1,
                                       [](const auto& s, std::size_t t) { return s.span.begin < t; });
    if (near != talk.sightings.begin() && inside(*(near - 1))) continue;
    amount.late = scan.begin >= talk.text.farewell();
    talk.amounts.push_back(std::move(amount));
  }
}

// A number inside a food's name counts nothing ("five-spice").
void drop_amounts_in_names(Talk& talk) {
  const auto in_name = [&](const SpokenAmount& amount) {
    const auto after = std::upper_bound(talk.sightings.begin(), talk.sightings.end(), amount.span.begin,
                                        [](std::size_t t, const auto& s) { return t < s.span.begin; });
    return after != talk.sightings.begin() && amount.span.end <= (after - 1)->span.end;
  };
  talk.amounts.erase(std::remove_if(talk.amounts.begin(), talk.amounts.end(), in_name), talk.amounts.end());
}

// "four cloves" where the recipe lists cloves, and no garlic is spoken of: the spice, counted.
void count_listed_cloves(Talk& talk) {
  constexpr std::size_t kNear = 6;
  for (auto& amount : talk.amounts) {
    if (!amount.scan.has_unit || amount.scan.amount.unit != Unit::Clove ||
        talk.text.is_word(amount.span.end, "of"))
      continue;
    const TokenSpan unit{amount.span.end - 1, amount.span.end};
    const auto spice = std::find_if(talk.sightings.begin(), talk.sightings.end(),
                                    [&](const FoodSighting& s) { return s.span.overlaps(unit); });
    if (spice == talk.sightings.end()) continue;
    const auto sentence = sentence_around(talk.text, amount.span.begin, kNear);
    bool garlic = false;
    for (auto i = sentence.begin; i < sentence.end; ++i) garlic = garlic || talk.text.is_word(i, "garlic");
    if (garlic) {
      talk.sightings.erase(spice);
      continue;
    }
    amount.span.end = amount.scan.end = spice->span.begin;
    amount.scan.has_unit = false;
    amount.scan.amount.unit = Unit::Piece;
  }
}

}  // namespace

Talk read_talk(const std::vector<TimedText>& sources, TextKind kind, const std::vector<FoodTarget>& targets,
               const Recipe& recipe) {
  Talk talk(SpokenText(sources, kind));
  find_amounts(talk);
  find_foods(talk, targets, recipe);
  drop_amounts_in_names(talk);
  count_listed_cloves(talk);
  find_repeated_lines(talk);
  find_asides(talk);
  find_corrections(talk);
  tie_amounts(talk, targets);
  settle_ties(talk, targets);
  find_strange_foods(talk);
  find_split_names(talk, targets);
  return talk;
}

}  // namespace panslate
