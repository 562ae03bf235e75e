#include "check/extras.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <string_view>

#include "panslate/kitchen/food.h"

#include "check/phrase.h"
#include "check/span_search.h"

namespace panslate {

namespace {

// Words of putting something in or on. Common practice, no source.
constexpr std::array<std::string_view, 30> kPuttingIn{
    "chucking", "popping", "sneaking", "crumbling", "bit of",  "square of", "add",      "adding",
    "added",    "throw",   "throwing", "chuck",     "toss",    "tossing",   "sprinkle", "sprinkling",
    "scatter",  "drizzle", "squeeze",  "grate",     "crumble", "pop",       "put in",   "putting",
    "stir in",  "fold in", "whisk in", "splash",    "season",  "finish"};

// Words of eating one thing with another. Common practice, no source.
constexpr std::array<std::string_view, 29> kHavingWith{
    "use",        "over",        "through some", "or some",     "with",       "served on",
    "puts",       "put",         "dip",          "dips",        "swears by",  "hit it with",
    "handful of", "spoonful of", "scoop of",     "shot of",     "dollop of",  "a few",
    "cubes of",   "couple of",   "slice of",     "on the side", "instead of", "top it with",
    "drizzle of", "i have",      "using",        "and some",    "and few"};

// … told after the food: "I have peas with mine", "a slice of cheese on mine".
constexpr std::array<std::string_view, 13> kHadWithIt{
    "going on",  "going in",  "goes on",     "go on top",   "with mine", "on mine", "with it",
    "with them", "with that", "on the side", "at the side", "alongside", "on yours"};

// Stems of verbs of putting something in or on, however they are bent. Common practice, no source.
constexpr std::array<std::string_view, 25> kPutsIn{
    "threw",   "add",    "chuck",  "pop",   "sneak",  "crumbl", "throw", "toss", "sprinkl",
    "scatter", "drizzl", "squeez", "grate", "splash", "season", "drop",  "slip", "grind",
    "dust",    "strew",  "stick",  "whack", "fling",  "dollop", "slosh"};

// Words before "of" that take a little of a food. Common practice, no source.
constexpr std::array<std::string_view, 28> kLittleOf{
    "strip",  "strips", "turn",   "grind", "twist",   "crack",   "zest",   "juice",   "rind",    "squeeze",
    "splash", "glug",   "knob",   "pinch", "handful", "grating", "dash",   "drop",    "dusting", "lick",
    "sprig",  "shake",  "slices", "slice", "bits",    "cubes",   "wedges", "shavings"};

// How it is said that something is hers and not the recipe's. Common practice, no source.
constexpr std::array<std::string_view, 18> kHers{"not traditional",  "do not tell",
                                                 "not part of",      "only myself",
                                                 "no need to write", "my own secret",
                                                 "my secret",        "just me",
                                                 "that's mine",      "nobody needs to know",
                                                 "you can skip",     "you can leave it out",
                                                 "own touch",        "say so",
                                                 "of my own",        "because i can",
                                                 "don't tell",       "don't have to"};

// Where a recipe is written; with a denial before it in one sentence: "it isn't on the card".
constexpr std::array<std::string_view, 8> kWritten{"recipe", "card",  "book",     "page",
                                                   "list",   "paper", "original", "sheet"};
constexpr std::array<std::string_view, 9> kDenied{"not",    "isn't", "isnt",   "doesn't", "doesnt",
                                                  "wasn't", "never", "aren't", "nowhere"};

// "in with a good turn of pepper", "the zest of a lemon"
bool is_a_little_of(const SpokenText& text, TokenSpan food) {
  auto at = food.begin;
  while (at > 0 && (text.is_word(at - 1, "a") || text.is_word(at - 1, "the") || text.is_word(at - 1, "an") ||
                    is_descriptor(text[at - 1].text)))
    --at;
  return at >= 2 && text.is_word(at - 1, "of") && text.sentence(at - 2) == text.sentence(food.begin) &&
         is_any_word(text, at - 2, kLittleOf);
}

// "I do also one carrot, in slices"; "a carrot" may be a way of speaking.
bool is_counted(const Talk& talk, TokenSpan food) {
  const auto after = first_from(talk.amounts, food.begin);
  if (after == talk.amounts.begin()) return false;
  const auto& amount = *(after - 1);
  return amount.span.end == food.begin && !amount.food && !amount.taken_back && !amount.beside &&
         !amount.late && !amount.scan.has_unit && !talk.text.is_word(amount.span.begin, "a") &&
         !talk.text.is_word(amount.span.begin, "an");
}

bool is_put_in(const SpokenText& text, TokenSpan before) {
  for (auto i = before.begin; i < before.end; ++i)
    if (text[i].kind == TokenKind::Word &&
        std::find(kPutsIn.begin(), kPutsIn.end(), stem(text[i].text)) != kPutsIn.end())
      return true;
  return false;
}

// "not in the recipe", "it doesn't say so on the card"
bool denies_it_is_written(const SpokenText& text, TokenSpan span) {
  bool denied = false;
  for (auto i = span.begin; i < span.end; ++i) {
    if (i > span.begin && text.sentence(i) != text.sentence(i - 1)) denied = false;
    const auto is = [&](const auto word) { return text.is_word(i, word); };
    denied = denied || std::any_of(kDenied.begin(), kDenied.end(), is);
    if (denied && std::any_of(kWritten.begin(), kWritten.end(), is)) return true;
  }
  return false;
}

// "And black pepper. It doesn't say so on the card": told as hers in the same sentence or right after.
bool is_her_own(const SpokenText& text, TokenSpan food) {
  constexpr std::size_t kReach = 16;
  constexpr std::uint32_t kSentences = 2;
  auto end = food.end;
  while (end < text.size() && end < food.end + kReach &&
         text.sentence(end) - text.sentence(food.begin) <= kSentences)
    ++end;
  return holds_phrase(text, {food.end, end}, kHers) || denies_it_is_written(text, {food.end, end});
}

// "no milk", "like breadcrumbs", "gluten free": nothing that goes in.
bool is_compared_or_denied(const SpokenText& text, TokenSpan food) {
  constexpr std::array<std::string_view, 11> kBefore{"no",  "not",   "without", "like",   "than",   "isn't",
                                                     "nor", "never", "as",      "aren't", "neither"};
  constexpr std::size_t kFew = 3;
  for (std::size_t back = 1; back <= kFew && back <= food.begin; ++back) {
    const auto at = food.begin - back;
    if (text.sentence(at) != text.sentence(food.begin)) break;
    for (const auto word : kBefore)
      if (text.is_word(at, word)) return true;
  }
  return text.is_word(food.end, "free") ||
         (text[food.end < text.size() ? food.end : 0].text == "-" && text.is_word(food.end + 1, "free"));
}

// "with custard", "puts jelly on there", "I have peas with mine": words that are foods only where they are
// eaten with something.
bool is_eaten_with(const SpokenText& text, TokenSpan food) {
  constexpr std::array<std::string_view, 6> kRightBefore{"with", "puts", "some", "add", "adding", "having"};
  if (food.begin == 0 || text.sentence(food.begin) != text.sentence(food.begin - 1)) return false;
  if (is_any_word(text, food.begin - 1, kRightBefore)) return true;
  const TokenSpan after{food.end, std::min(text.size(), food.end + 1)};
  return text.is_word(food.begin - 1, "have") && holds_phrase(text, after, kHadWithIt);
}

std::vector<TokenSpan> ordinary_food_words(const SpokenText& text) {
  std::vector<TokenSpan> found;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto& token = text[i];
    if (token.kind == TokenKind::Word && is_ambiguous_word(token.text) && is_food_word(token.text))
      found.push_back({i, i + 1});
  }
  return found;
}

std::set<std::string> words_of_method(const Recipe& recipe) {
  std::set<std::string> stems;
  const auto take = [&](const std::string& text) {
    for (const auto& token : tokenize(text))
      if (token.kind == TokenKind::Word) stems.insert(stem(token.text));
  };
  for (const auto& step : recipe.steps) take(step.text);
  for (const auto& ingredient : recipe.ingredients) take(ingredient.text);
  take(recipe.title);
  return stems;
}

}  // namespace

std::vector<Extra> extras_of(const Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe,
                             const std::vector<FoodFinding>& foods) {
  const auto& text = talk.text;
  std::vector<std::pair<TokenSpan, Extra>> found;
  std::map<std::size_t, std::size_t> taken;
  const auto add = [&](TokenSpan span, std::string name, const SpokenAmount* amount) {
    // Found spans never overlap, so the last that begins before this one's end is the only one that could.
    const auto after = taken.lower_bound(span.end);
    if (after != taken.begin() && std::prev(after)->second > span.begin) return;
    taken.emplace(span.begin, span.end);
    Extra extra;
    extra.when = text.when(span);
    extra.text = text.text(span);
    extra.name = std::move(name);
    if (amount != nullptr) extra.amount = amount->scan.amount;
    found.emplace_back(span, std::move(extra));
  };
  for (const auto& strange : talk.strange) {
    const auto& amount = talk.amounts[strange.amount];
    add({amount.span.begin, std::max(amount.span.end, strange.food.end)}, text.text(strange.food), &amount);
  }
  const auto add_amount = [&](std::size_t a) {
    const auto& amount = talk.amounts[a];
    TokenSpan span = amount.span;
    std::string name;
    if (amount.food) {
      const auto& sighting = talk.sightings[*amount.food];
      name = targets[sighting.targets.front()].name;
      if (sighting.span.begin >= span.end) span.end = sighting.span.end;
    }
    add(span, std::move(name), &amount);
  };
  for (const auto& food : foods)
    for (const auto a : food.extra_amounts) add_amount(a);
  for (std::size_t a = 0; a < talk.amounts.size(); ++a)
    if (talk.amounts[a].suggested && talk.amounts[a].food && !talk.amounts[a].scan.is_share) add_amount(a);
  const auto known = words_of_method(recipe);
  // "a slice of cheese on mine and pickles", "with custard or ice cream"
  const auto joins_extra = [&](TokenSpan food) {
    constexpr std::size_t kNear = 4;
    const auto before = taken.lower_bound(food.begin);
    if (before == taken.begin() || food.begin == 0 || food.begin - std::prev(before)->second > kNear)
      return false;
    return text.is_word(food.begin - 1, "and") || text.is_word(food.begin - 1, "or");
  };
  for (const auto& other : talk.other_foods) {
    const bool in_recipe = std::all_of(text.tokens().begin() + static_cast<std::ptrdiff_t>(other.span.begin),
                                       text.tokens().begin() + static_cast<std::ptrdiff_t>(other.span.end),
                                       [&](const Token& t) { return known.contains(stem(t.text)); });
    if (in_recipe) continue;
    TokenSpan before{other.span.begin - std::min<std::size_t>(6, other.span.begin), other.span.begin};
    while (before.begin < before.end && text.sentence(before.begin) != text.sentence(other.span.begin))
      ++before.begin;
    const bool on_picture = text.kind() == TextKind::OnPicture;
    if (is_compared_or_denied(text, other.span)) continue;
    constexpr std::size_t kAfter = 10;
    TokenSpan after{other.span.end, std::min(text.size(), other.span.end + kAfter)};
    while (after.end > after.begin && text.sentence(after.end - 1) != text.sentence(other.span.begin))
      --after.end;
    const bool had = is_counted(talk, other.span) || is_put_in(text, before) ||
                     is_a_little_of(text, other.span) || is_her_own(text, other.span) ||
                     holds_phrase(text, before, kPuttingIn) || holds_phrase(text, before, kHavingWith) ||
                     holds_phrase(text, after, kHadWithIt) || joins_extra(other.span);
    if (!other.suggested && !on_picture && !had) continue;
    add(other.span, text.text(other.span), nullptr);
  }
  for (const auto& span : ordinary_food_words(text))
    if ((is_eaten_with(text, span) || joins_extra(span)) && !known.contains(stem(text[span.begin].text)))
      add(span, text.text(span), nullptr);
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first.begin < b.first.begin; });
  std::vector<Extra> extras;
  extras.reserve(found.size());
  for (auto& [at, extra] : found) extras.push_back(std::move(extra));
  return extras;
}

}  // namespace panslate
