#include <algorithm>
#include <array>
#include <iterator>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <unordered_set>
#include <utility>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/food_names.h"
#include "panslate/speech/pronunciation.h"

#include "check/dish_names.h"
#include "check/filler_words.h"
#include "check/made_words.h"
#include "check/misheard.h"
#include "check/name_words.h"
#include "check/own_ways.h"
#include "check/part_names.h"
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
  // "We are using low-fat yoghurt instead."
  constexpr std::array<std::string_view, 5> kDone{"we are using", "we're using", "i'm using", "i am using",
                                                  "we use"};
  if (holds_phrase(text, before, kDone)) return false;
  // "three hundred grams of flour, if you like cups it's two and a half": another measure is offered, no
  // food.
  constexpr std::array<std::string_view, 5> kMeasures{"if you like cups", "if you prefer cups",
                                                      "if you like grams", "if you prefer grams",
                                                      "if you like ounces"};
  if (holds_phrase(text, after, kMeasures)) return false;
  return holds_phrase(text, before, kOffersBefore) || holds_phrase(text, after, kOffersAfter);
}

// "50 grams of flour a serving", "the flour" against "flour a board": an amount, "of" or an article before it
// makes a noun of it.
bool stands_as_noun(const Talk& talk, std::size_t at) {
  if (at == 0) return false;
  constexpr std::array<std::string_view, 8> kBefore{"of", "the", "some", "our", "my", "your", "this", "that"};
  if (is_any_word(talk.text, at - 1, kBefore)) return true;
  // "Softened butter this time"
  if (is_descriptor(talk.text[at - 1].text) && talk.text.sentence(at - 1) == talk.text.sentence(at))
    return true;
  const auto after = first_from(talk.amounts, at);
  return after != talk.amounts.begin() && (after - 1)->span.end == at;
}

// "for the cream, just the one teaspoon": a part of the dish, not the coconut cream.
bool names_part(const SpokenText& text, TokenSpan span, const std::vector<FoodTarget>& targets) {
  if (span.end - span.begin != 1 || span.begin < 2 || !text.is_word(span.begin - 1, "the") ||
      !text.is_word(span.begin - 2, "for"))
    return false;
  // "For the yogurt, that's two hundred grams": told of the food itself.
  const auto after = text.is_word(span.end, ",") ? span.end + 1 : span.end;
  if (text.is_word(after, "that's") || text.is_word(after, "it's") || text.is_word(after, "you"))
    return false;
  const auto word = stem(text[span.begin].text);
  return std::any_of(targets.begin(), targets.end(), [&](const FoodTarget& target) {
    return std::find(target.group_stems.begin(), target.group_stems.end(), word) != target.group_stems.end();
  });
}

// "mirchi powder": a powder, but of something that no line lists.
bool is_form_of_another(const Talk& talk, const FoodSighting& sighting,
                        const std::vector<FoodTarget>& targets) {
  constexpr std::array<std::string_view, 5> kForms{"powder", "paste", "seeds", "leaves", "sauce"};
  const auto at = sighting.span.begin;
  const auto& text = talk.text;
  const bool form = sighting.span.end == at + 1 && is_any_word(text, at, kForms);
  if (!form || at == 0 || text[at - 1].kind != TokenKind::Word || text.sentence(at - 1) != text.sentence(at))
    return false;
  const auto& before = text[at - 1].text;
  const bool written = std::any_of(sighting.targets.begin(), sighting.targets.end(), [&](std::size_t t) {
    const auto& words = targets[t].words;
    return std::find(words.begin(), words.end(), before) != words.end();
  });
  const auto amount = first_from(talk.amounts, at);
  const bool measured = amount != talk.amounts.begin() && (amount - 1)->span.end >= at;
  return !written && !measured && !is_english_word(before);
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
  // Captions mishear; text on the picture is seen as it is written.
  if (talk.text.kind() == TextKind::Speech)
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
    if (!alike) continue;
    const auto& meant = heard.alikes[*alike];
    sighting.doubtful = sighting.doubtful || meant.doubtful;
    if (w > 0 && heard.text.alike_of[w - 1] == alike) continue;  // told with its first word
    const TokenSpan span{heard.text.words.token_of[w],
                         heard.text.last_token_of[w + meant.meant.size() - 1] + 1};
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
    const auto& words = targets[t].words;
    return std::any_of(words.begin(), words.end(), [&](const auto& word) { return stem(word) == joined; });
  });
  if (written) ++span.end;
}

// The stem that each name of several words ends in; empty for names of one word.
std::vector<std::string> ends_of_names(const std::vector<FoodTarget>& targets) {
  std::vector<std::string> ends;
  ends.reserve(targets.size());
  for (const auto& target : targets)
    ends.push_back(target.words.size() > 1 ? stem(target.words.back()) : std::string{});
  return ends;
}

// "A teaspoon of salt" where the recipe has fine salt and kosher salt: the word that both end in means
// either, though "fine" alone makes no other food of it.
void take_bare_end(const SpokenText& text, const std::vector<std::string>& ends, FoodSighting& sighting) {
  if (sighting.span.end != sighting.span.begin + 1 || sighting.targets.size() != 1) return;
  const auto own = sighting.targets.front();
  if (ends[own].empty() || stem(text[sighting.span.begin].text) != ends[own]) return;
  for (std::size_t t = 0; t < ends.size(); ++t) {
    if (t == own || ends[t] != ends[own]) continue;
    sighting.targets.push_back(t);
    sighting.strength = NameStrength::Head;
  }
  std::sort(sighting.targets.begin(), sighting.targets.end());
}

void find_foods(Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe) {
  std::vector<std::string> names;
  names.reserve(targets.size());
  for (const auto& target : targets) names.push_back(target.name);
  const FoodNames finder(names);
  const auto ends = ends_of_names(targets);
  const auto words = name_words(talk);
  const auto dishes = dish_names(talk.text, recipe.title, names);
  const auto made = words_for_what_is_made(targets, recipe);
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
    take_bare_end(talk.text, ends, sighting);
    if (sighting.strength != NameStrength::Full && is_form_of_another(talk, sighting, targets)) continue;
    if (sighting.strength != NameStrength::Full && names_part(talk.text, sighting.span, targets)) continue;
    if (sighting.strength != NameStrength::Full && sighting.span.end == sighting.span.begin + 1 &&
        made.contains(talk.text[sighting.span.begin].text) &&
        !(sighting.span.begin > 0 && talk.text.is_word(sighting.span.begin - 1, "of")))
      continue;
    note_misheard(talk, heard, mention, sighting);
    const bool optional = std::any_of(sighting.targets.begin(), sighting.targets.end(),
                                      [&](std::size_t t) { return targets[t].optional; });
    sighting.suggested =
        !optional && talk.text.kind() == TextKind::Speech && is_offered(talk.text, sighting.span);
    if (mention.match == NameMatch::None) {
      // "the orange ones": which of the food spoken of, no oranges.
      const auto after = sighting.span.end;
      const bool kind = sighting.span.begin > 0 && talk.text.is_word(sighting.span.begin - 1, "the") &&
                        (talk.text.is_word(after, "ones") || talk.text.is_word(after, "one"));
      if (mention.other_food && !kind) talk.other_foods.push_back(std::move(sighting));
      continue;
    }
    talk.sightings.push_back(std::move(sighting));
  }
}

// "then sauce, the dark soy sauce": the bare word is only the beginning of the name that follows.
void settle_elaborated_names(Talk& talk) {
  constexpr std::size_t kNear = 6;
  for (std::size_t s = 0; s + 1 < talk.sightings.size(); ++s) {
    auto& bare = talk.sightings[s];
    const auto& named = talk.sightings[s + 1];
    const bool one_word = bare.span.end == bare.span.begin + 1 && bare.strength != NameStrength::Full;
    if (!one_word || named.strength == NameStrength::Category || named.span.end < named.span.begin + 2 ||
        named.span.begin < bare.span.end || named.span.begin - bare.span.end > kNear)
      continue;
    if (name_stem(talk.text[bare.span.begin].text) != name_stem(talk.text[named.span.end - 1].text)) continue;
    const auto near = first_from(talk.amounts, bare.span.begin - std::min<std::size_t>(3, bare.span.begin));
    const bool amount_between = near != talk.amounts.end() && near->span.begin < named.span.begin &&
                                talk.text.sentence(near->span.begin) == talk.text.sentence(bare.span.begin);
    const bool joined = talk.text.is_word(named.span.begin - 1, "and");
    if (!amount_between && !joined) bare.targets = named.targets;
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

// Leaves an amount its first part and gives the second.
SpokenAmount part_at(SpokenAmount& whole, std::size_t cut, ScannedAmount first, ScannedAmount second) {
  auto rest = whole;
  whole.span.end = cut;
  whole.scan = std::move(first);
  rest.span.begin = cut;
  rest.scan = std::move(second);
  return rest;
}

void add_in_order(std::vector<SpokenAmount>& amounts, std::vector<SpokenAmount> more) {
  if (more.empty()) return;
  amounts.insert(amounts.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
  std::sort(amounts.begin(), amounts.end(),
            [](const auto& a, const auto& b) { return a.span.begin < b.span.begin; });
}

// "Baking powder one tablespoon half a teaspoon of baking soda": an amount behind its food and one before its
// own; "one pound five ounces" is one.
void part_runs_of_spoons(Talk& talk) {
  std::vector<SpokenAmount> parted;
  for (std::size_t a = 0; a < talk.amounts.size(); ++a) {
    const auto whole = talk.amounts[a];
    const auto ended =
        std::lower_bound(talk.sightings.begin(), talk.sightings.end(), whole.span.begin,
                         [](const FoodSighting& s, std::size_t at) { return s.span.end < at; });
    const bool behind = ended != talk.sightings.end() && ended->span.end == whole.span.begin;
    if (!behind || dimension_of(whole.scan.amount.unit) != Dimension::Volume || !whole.scan.has_unit)
      continue;
    const std::span<const Token> tokens(talk.text.tokens());
    for (auto cut = whole.span.begin + 2; cut + 1 < whole.span.end; ++cut) {
      if (talk.text.is_word(cut - 1, "and") || talk.text.is_word(cut - 1, "plus")) continue;
      auto first = scan_amount(tokens.first(cut), whole.span.begin, SpokenOrWritten::Spoken);
      auto second = scan_amount(tokens, cut, SpokenOrWritten::Spoken);
      if (!first || !second || first->end != cut || second->end != whole.span.end || !first->has_unit ||
          !second->has_unit)
        continue;
      parted.push_back(part_at(talk.amounts[a], cut, *std::move(first), *std::move(second)));
      break;
    }
  }
  add_in_order(talk.amounts, std::move(parted));
}

// "Feta one fifty two eggs" as captions have it: 150 grams and two eggs.
void part_run_on_numbers(Talk& talk, const std::vector<FoodTarget>& targets) {
  std::vector<SpokenAmount> parted;
  const Ratio hundred = 100;
  const Ratio most = 12;
  const std::span<const Token> tokens(talk.text.tokens());
  for (std::size_t a = 0; a < talk.amounts.size(); ++a) {
    const auto whole = talk.amounts[a];
    const auto cut = whole.span.end - 1;
    if (whole.scan.has_unit || whole.span.end - whole.span.begin < 3 || !whole.scan.amount.value ||
        *whole.scan.amount.value < hundred || tokens[cut].kind != TokenKind::Word)
      continue;
    const auto ahead = first_from(talk.sightings, whole.span.end);
    const bool counted = ahead != talk.sightings.end() && ahead->span.begin == whole.span.end &&
                         std::all_of(ahead->targets.begin(), ahead->targets.end(),
                                     [&](std::size_t t) { return targets[t].counted; });
    if (!counted) continue;
    auto first = scan_amount(tokens.first(cut), whole.span.begin, SpokenOrWritten::Spoken);
    auto second = scan_amount(tokens, cut, SpokenOrWritten::Spoken);
    if (!first || !second || first->end != cut || second->end != whole.span.end || !second->amount.value ||
        most < *second->amount.value)
      continue;
    parted.push_back(part_at(talk.amounts[a], cut, *std::move(first), *std::move(second)));
  }
  add_in_order(talk.amounts, std::move(parted));
}

// "In the oven, two twenty-five": a scale left out is the one in which the recipe has that value.
void settle_scales(Talk& talk, const Recipe& recipe) {
  for (auto& amount : talk.amounts) {
    auto& said = amount.scan.amount;
    if (!amount.scan.scale_inferred) continue;
    std::set<Unit> written;
    const auto look = [&](const Amount& one) {
      if (one.value == said.value) written.insert(one.unit);
    };
    for (const auto& step : recipe.steps)
      for (const auto& temperature : step.temperatures) {
        look(temperature.amount);
        std::for_each(temperature.also.begin(), temperature.also.end(), look);
      }
    if (written.size() == 1) said.unit = *written.begin();
  }
}

// "four cloves" where the recipe lists cloves, and no garlic is spoken of: the spice, counted.
void count_listed_cloves(Talk& talk, const std::vector<FoodTarget>& targets) {
  constexpr std::size_t kNear = 6;
  for (auto& amount : talk.amounts) {
    if (!amount.scan.has_unit || amount.scan.amount.unit != Unit::Clove ||
        talk.text.is_word(amount.span.end, "of"))
      continue;
    const TokenSpan unit{amount.span.end - 1, amount.span.end};
    const auto spice =
        std::upper_bound(talk.sightings.begin(), talk.sightings.end(), unit.begin,
                         [](std::size_t at, const FoodSighting& s) { return at < s.span.end; });
    if (spice == talk.sightings.end() || !spice->span.overlaps(unit)) continue;
    // "Garlic, how many? – Five cloves.": of what the recipe has cloves of.
    const bool counted_so = std::any_of(spice->targets.begin(), spice->targets.end(), [&](std::size_t t) {
      const auto& units = targets[t].units;
      return std::find(units.begin(), units.end(), Unit::Clove) != units.end();
    });
    if (counted_so) {
      amount.span.end = spice->span.begin;
      continue;
    }
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
  part_runs_of_spoons(talk);
  part_run_on_numbers(talk, targets);
  settle_scales(talk, recipe);
  find_part_names(talk, targets);
  settle_elaborated_names(talk);
  count_listed_cloves(talk, targets);
  find_repeated_lines(talk);
  find_asides(talk, recipe);
  find_corrections(talk);
  tie_amounts(talk, targets);
  settle_ties(talk, targets);
  find_own_ways(talk);
  find_strange_foods(talk);
  find_split_names(talk, targets);
  return talk;
}

}  // namespace panslate
