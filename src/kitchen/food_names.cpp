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

// Speech cut like names are; a boundary is a word with an empty stem.
struct CutSpeech {
  std::vector<NameWord> words;
  std::vector<std::size_t> source;  // index of the spoken word each one came from

  [[nodiscard]] bool is_boundary(std::size_t i) const { return i >= words.size() || words[i].stem.empty(); }
  [[nodiscard]] bool is_class(std::size_t i, WordClass word_class) const {
    return !is_boundary(i) && is_of_class(word_class, words[i].stem);
  }
};

CutSpeech cut(const std::vector<std::string>& spoken, std::size_t begin, std::size_t end) {
  CutSpeech speech;
  for (std::size_t i = begin; i < end; ++i) {
    if (spoken[i] == "-") continue;
    append_name_words(spoken[i], speech.words);
    if (speech.words.size() == speech.source.size()) speech.words.emplace_back();
    speech.source.resize(speech.words.size(), i);
  }
  return speech;
}

bool is_object(const CutSpeech& speech, std::size_t i) {
  static constexpr std::string_view kObjects[]{"the",  "a",  "an",   "it",   "them",
                                               "your", "my", "each", "both", "this"};
  return !speech.is_boundary(i) &&
         std::find(std::begin(kObjects), std::end(kObjects), speech.words[i].text) != std::end(kObjects);
}

bool is_plural(const NameWord& word) {
  return word.text.size() > 2 && word.text.ends_with('s') && word.text != word.stem;
}

}  // namespace

struct FoodNames::Index {
  explicit Index(const std::vector<std::string>& listed) : listing(listed) {}

  [[nodiscard]] FoodMention find(const CutSpeech& speech, std::size_t at) const;
  [[nodiscard]] bool inside_longer_name(const CutSpeech& speech, std::size_t at, std::size_t end) const;
  [[nodiscard]] bool both_halves_listed(const CutSpeech& speech, std::size_t at) const;
  [[nodiscard]] bool starts_listed_later(const CutSpeech& speech, std::size_t at, std::size_t end) const;
  void drop_contradicted(const CutSpeech& speech, std::size_t at, std::size_t end, Candidates& found) const;
  [[nodiscard]] std::size_t end_of_another_food(const CutSpeech& speech, std::size_t end) const;

  FoodListing listing;
};

// Is the word at `at` part of a longer name that began before it? A listed name that goes on beyond the
// other's end is not.
bool FoodNames::Index::inside_longer_name(const CutSpeech& speech, std::size_t at, std::size_t end) const {
  for (std::size_t begin = at > kLookBack ? at - kLookBack : 0; begin < at; ++begin) {
    if (speech.is_boundary(begin)) continue;
    const auto key = listing.longest_at(speech.words, begin);
    const auto known = food_table().longest_at(speech.words, begin);
    if (key.end > at) return true;
    const auto known_end = begin + known.length;
    if (known.length == 0 || known_end <= at) continue;
    if (end > known_end) continue;
    if (known.split && !listing.is_related(known.row) && both_halves_listed(speech, begin)) continue;
    return true;
  }
  return false;
}

bool FoodNames::Index::both_halves_listed(const CutSpeech& speech, std::size_t at) const {
  return listing.longest_at(speech.words, at).end == at + 1 &&
         listing.longest_at(speech.words, at + 1).end > at + 1;
}

// "garlic butter beans" with butter beans listed: the longer listed name wins over garlic butter.
bool FoodNames::Index::starts_listed_later(const CutSpeech& speech, std::size_t at, std::size_t end) const {
  for (std::size_t i = at + 1; i < end; ++i)
    if (const auto key = listing.longest_at(speech.words, i); key.end > end) return true;
  return false;
}

// Drops listed foods whose own words contrast with the word just before the stretch: "green" before "lentils"
// where red lentils are listed.
void FoodNames::Index::drop_contradicted(const CutSpeech& speech, std::size_t at, std::size_t end,
                                         Candidates& found) const {
  const auto spoken = std::span(speech.words).subspan(at, end - at);
  // "yellow onion" is no red one; but names of one row are one food, whatever their words.
  std::erase_if(found, [&](const auto& candidate) {
    return candidate.second < Closeness::Synonym &&
           std::any_of(spoken.begin(), spoken.end(), [&](const NameWord& word) {
             return listing.contradicts(candidate.first, word.stem, spoken);
           });
  });
  std::size_t before = at;
  while (before > 0 && at - before < kLookBack && !speech.is_boundary(before - 1) &&
         is_descriptor(speech.words[before - 1].text) &&
         !listing.is_contrasted(speech.words[before - 1].stem))
    --before;
  if (before == 0 || speech.is_boundary(before - 1)) return;
  const auto& modifier = speech.words[before - 1].stem;
  // A listed food before it is the neighbour in a list spoken without pauses.
  if (listing.longest_at(speech.words, before - 1).end == before) return;
  std::erase_if(
      found, [&](const auto& candidate) { return listing.contradicts(candidate.first, modifier, spoken); });
}

// The end of a longer food or thing that the words after the name make of it ("carrot fritters", "garlic
// press", "parsnip powder"); 0 when they make none.
std::size_t FoodNames::Index::end_of_another_food(const CutSpeech& speech, std::size_t end) const {
  if (speech.is_boundary(end) || is_plural(speech.words[end - 1])) return 0;
  const bool verb = speech.is_class(end, WordClass::Verb);
  const bool thing = speech.is_class(end, WordClass::Dish) || speech.is_class(end, WordClass::Tool);
  // "the tofu, press it", "the salmon, bake it": where speech has no commas, such words may be what is done.
  if (thing ? verb : verb && is_object(speech, end + 1)) return 0;
  if (!thing && !speech.is_class(end, WordClass::Maker)) return 0;
  return listing.longest_at(speech.words, end).end > end ? 0 : end + 1;
}

FoodMention FoodNames::Index::find(const CutSpeech& speech, std::size_t at) const {
  FoodMention mention;
  mention.begin = speech.source[at];
  if (speech.is_boundary(at)) return mention;
  const auto key = listing.longest_at(speech.words, at);
  auto known = food_table().longest_at(speech.words, at);
  if (known.split && !listing.is_related(known.row) && both_halves_listed(speech, at)) known = {};
  const auto known_end = known.length == 0 ? at : at + known.length;
  std::size_t end = std::max(key.end, known_end);
  Candidates found;
  // A table name word by word goes before a listed one with descriptions skipped: "hot smoked paprika".
  const bool key_counts = key.end > known_end || (key.end == known_end && key.words >= known.length);
  if (key_counts && key.candidates != nullptr) found = *key.candidates;
  if (known_end >= key.end && known.row != kNoFood)
    listing.add_related(known.row, std::span(speech.words).subspan(at, known.length), found);
  if (known_end > key.end && found.empty() && key.candidates != nullptr &&
      starts_listed_later(speech, at, known_end)) {
    found = *key.candidates;
    end = key.end;
  }
  if (end <= at + 1) listing.add_category(speech.words[at].stem, found);
  if (end == at && !found.empty()) end = at + 1;
  if (end == at || inside_longer_name(speech, at, end)) return mention;
  // "cloves of garlic": the measure is not the spice.
  if (end == at + 1 && speech.is_class(at, WordClass::Part) && !speech.is_boundary(end) &&
      speech.words[end].text == "of")
    return mention;

  drop_contradicted(speech, at, end, found);
  listing.settle_pepper(speech.words, end - 1, found);
  if (const auto other_end = end_of_another_food(speech, end); other_end != 0) {
    found.clear();
    known.row = speech.is_class(end, WordClass::Maker)
                    ? food_table().row_of(std::span(speech.words).subspan(at, end - at))
                    : kNoFood;
    end = other_end;
  } else {
    while (speech.is_class(end, WordClass::Part) && listing.longest_at(speech.words, end).end <= end + 1 &&
           food_table().longest_at(speech.words, end).length <= 1)
      ++end;
  }
  listing.rank(found, mention);
  mention.length = speech.source[end - 1] + 1 - speech.source[at];
  mention.other_food = found.empty() && known.row != kNoFood && known.length != 0 &&
                       (end > at + 1 || !is_ambiguous_word(speech.words[at].text) ||
                        (at > 0 && lets_believe_food(speech.words[at - 1].text)));
  mention.perhaps_verb = end == at + 1 && speech.is_class(at, WordClass::Verb) && is_object(speech, end);
  return mention;
}

FoodNames::FoodNames(const std::vector<std::string>& listed)
    : index_(std::make_shared<const Index>(listed)) {}

FoodMention FoodNames::find(const std::vector<std::string>& words, std::size_t at) const {
  FoodMention none;
  none.begin = at;
  if (at >= words.size()) return none;
  const auto first = cut(words, at, at + 1);
  if (first.words.empty() || !index_->listing.may_start(first.words.front().stem)) return none;
  const auto begin = at > kLookBack ? at - kLookBack : 0;
  const auto speech = cut(words, begin, std::min(words.size(), at + kLookAhead));
  const auto here = std::find(speech.source.begin(), speech.source.end(), at);
  return index_->find(speech, static_cast<std::size_t>(here - speech.source.begin()));
}

std::vector<FoodMention> FoodNames::scan(const std::vector<std::string>& words) const {
  const auto speech = cut(words, 0, words.size());
  std::vector<FoodMention> mentions;
  for (std::size_t at = 0; at < speech.words.size();) {
    const auto source = speech.source[at];
    FoodMention mention;
    const bool starts_word = at == 0 || speech.source[at - 1] != source;
    if (starts_word && index_->listing.may_start(speech.words[at].stem)) mention = index_->find(speech, at);
    const auto next = source + std::max<std::size_t>(mention.length, 1);
    if (mention.match != NameMatch::None || mention.other_food) mentions.push_back(std::move(mention));
    while (at < speech.words.size() && speech.source[at] < next) ++at;
  }
  return mentions;
}

}  // namespace panslate
