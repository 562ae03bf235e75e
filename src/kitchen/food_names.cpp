#include "panslate/kitchen/food_names.h"

#include <algorithm>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "kitchen/food_listing.h"
#include "kitchen/food_table.h"

namespace panslate {

namespace {

constexpr std::size_t kLookBack = 3;    // words before a name that may belong to a longer one
constexpr std::size_t kLookAhead = 10;  // words of the longest name with descriptions between

// A stretch of speech cut like names are; a boundary is a word with an empty stem.
struct Window {
  std::vector<NameWord> words;
  std::vector<std::size_t> source;  // index of the spoken word each one came from
  std::size_t at = 0;

  [[nodiscard]] bool is_boundary(std::size_t i) const { return i >= words.size() || words[i].stem.empty(); }
  [[nodiscard]] bool is_class(std::size_t i, WordClass word_class) const {
    return !is_boundary(i) && is_of_class(word_class, words[i].stem);
  }
};

Window window_around(const std::vector<std::string>& spoken, std::size_t at) {
  Window window;
  const auto begin = at > kLookBack ? at - kLookBack : 0;
  const auto end = std::min(spoken.size(), at + kLookAhead);
  for (std::size_t i = begin; i < end; ++i) {
    if (i == at) window.at = window.words.size();
    if (spoken[i] == "-") continue;
    append_name_words(spoken[i], window.words);
    if (window.words.size() == window.source.size()) window.words.emplace_back();
    window.source.resize(window.words.size(), i);
  }
  return window;
}

bool is_plural(const NameWord& word) {
  return word.text.size() > 2 && word.text.ends_with('s') && word.text != word.stem;
}

}  // namespace

struct FoodNames::Index {
  explicit Index(const std::vector<std::string>& listed) : listing(listed) {}

  [[nodiscard]] FoodMention find(const Window& window) const;
  [[nodiscard]] bool inside_longer_name(const Window& window, std::size_t end) const;
  [[nodiscard]] bool both_halves_listed(const Window& window) const;
  [[nodiscard]] bool starts_listed_later(const Window& window, std::size_t end) const;
  void drop_contradicted(const Window& window, std::size_t end, Candidates& found) const;
  [[nodiscard]] std::size_t end_of_another_food(const Window& window, std::size_t end) const;

  FoodListing listing;
};

// Is the word at window.at part of a longer name that began before it? A listed name that goes on beyond the
// other's end is not.
bool FoodNames::Index::inside_longer_name(const Window& window, std::size_t end) const {
  for (std::size_t begin = window.at > kLookBack ? window.at - kLookBack : 0; begin < window.at; ++begin) {
    if (window.is_boundary(begin)) continue;
    const auto key = listing.longest_at(window.words, begin);
    const auto known = food_table().longest_at(window.words, begin);
    if (key.end > window.at) return true;
    const auto known_end = begin + known.length;
    if (known.length == 0 || known_end <= window.at) continue;
    if (end > known_end) continue;
    Window earlier = window;
    earlier.at = begin;
    if (known.split && both_halves_listed(earlier)) continue;
    return true;
  }
  return false;
}

bool FoodNames::Index::both_halves_listed(const Window& window) const {
  return listing.longest_at(window.words, window.at).end == window.at + 1 &&
         listing.longest_at(window.words, window.at + 1).end > window.at + 1;
}

// "garlic butter beans" with butter beans listed: the longer listed name wins over garlic butter.
bool FoodNames::Index::starts_listed_later(const Window& window, std::size_t end) const {
  for (std::size_t i = window.at + 1; i < end; ++i)
    if (const auto key = listing.longest_at(window.words, i); key.end > end) return true;
  return false;
}

// Drops listed foods whose own words contrast with the word just before the stretch: "green" before "lentils"
// where red lentils are listed.
void FoodNames::Index::drop_contradicted(const Window& window, std::size_t end, Candidates& found) const {
  std::size_t before = window.at;
  while (before > 0 && !window.is_boundary(before - 1) && is_descriptor(window.words[before - 1].text) &&
         !listing.is_contrasted(window.words[before - 1].stem))
    --before;
  if (before == 0 || window.is_boundary(before - 1)) return;
  const auto& modifier = window.words[before - 1].stem;
  // A listed food before it is the neighbour in a list spoken without pauses.
  if (listing.longest_at(window.words, before - 1).end == before) return;
  const auto spoken = std::span(window.words).subspan(window.at, end - window.at);
  std::erase_if(
      found, [&](const auto& candidate) { return listing.contradicts(candidate.first, modifier, spoken); });
}

// The end of a longer food or thing that the words after the name make of it ("carrot fritters", "garlic
// press", "parsnip powder"); 0 when they make none.
std::size_t FoodNames::Index::end_of_another_food(const Window& window, std::size_t end) const {
  if (window.is_boundary(end) || is_plural(window.words[end - 1])) return 0;
  if (window.is_class(end, WordClass::Dish) || window.is_class(end, WordClass::Tool)) {
    if (listing.longest_at(window.words, end).end > end) return 0;
    return end + 1;
  }
  if (!window.is_class(end, WordClass::Maker)) return 0;
  return listing.longest_at(window.words, end).end > end ? 0 : end + 1;
}

FoodMention FoodNames::Index::find(const Window& window) const {
  FoodMention mention;
  const auto at = window.at;
  if (window.is_boundary(at)) return mention;
  const auto key = listing.longest_at(window.words, at);
  auto known = food_table().longest_at(window.words, at);
  if (known.split && both_halves_listed(window)) known = {};
  const auto known_end = known.length == 0 ? at : at + known.length;
  std::size_t end = std::max(key.end, known_end);
  Candidates found;
  if (key.end >= known_end && key.candidates != nullptr) found = *key.candidates;
  if (known_end >= key.end && known.row != kNoFood) listing.add_related(known.row, found);
  if (known_end > key.end && found.empty() && key.candidates != nullptr &&
      starts_listed_later(window, known_end)) {
    found = *key.candidates;
    end = key.end;
  }
  if (end <= at + 1) listing.add_category(window.words[at].stem, found);
  if (end == at && !found.empty()) end = at + 1;
  if (end == at || inside_longer_name(window, end)) return mention;

  drop_contradicted(window, end, found);
  listing.settle_number(window.words[end - 1], found);
  if (const auto other_end = end_of_another_food(window, end); other_end != 0) {
    found.clear();
    known.row = window.is_class(end, WordClass::Maker)
                    ? food_table().row_of(std::span(window.words).subspan(at, end - at))
                    : kNoFood;
    end = other_end;
  } else {
    while (window.is_class(end, WordClass::Part) && listing.longest_at(window.words, end).end <= end + 1 &&
           food_table().longest_at(window.words, end).length <= 1)
      ++end;
  }
  listing.rank(found, mention);
  mention.length = window.source[end - 1] + 1 - window.source[at];
  mention.other_food = found.empty() && known.row != kNoFood && known.length != 0 &&
                       (end > at + 1 || !is_ambiguous_word(window.words[at].text) ||
                        (at > 0 && lets_believe_food(window.words[at - 1].text)));
  if (end == at + 1 && window.is_class(at, WordClass::Verb) && !window.is_boundary(at + 1)) {
    static constexpr std::string_view kObjects[]{"the",  "a",  "an",   "it",   "them",
                                                 "your", "my", "each", "both", "this"};
    mention.perhaps_verb =
        std::find(std::begin(kObjects), std::end(kObjects), window.words[at + 1].text) != std::end(kObjects);
  }
  return mention;
}

FoodNames::FoodNames(const std::vector<std::string>& listed)
    : index_(std::make_shared<const Index>(listed)) {}

FoodMention FoodNames::find(const std::vector<std::string>& words, std::size_t at) const {
  FoodMention none;
  none.begin = at;
  if (at >= words.size()) return none;
  std::vector<NameWord> first;
  append_name_words(words[at], first);
  if (first.empty() || !index_->listing.may_start(first.front().stem)) return none;
  auto mention = index_->find(window_around(words, at));
  mention.begin = at;
  return mention;
}

std::vector<FoodMention> FoodNames::scan(const std::vector<std::string>& words) const {
  std::vector<FoodMention> mentions;
  for (std::size_t at = 0; at < words.size();) {
    auto mention = find(words, at);
    const auto step = std::max<std::size_t>(mention.length, 1);
    if (mention.match != NameMatch::None || mention.other_food) mentions.push_back(std::move(mention));
    at += step;
  }
  return mentions;
}

}  // namespace panslate
