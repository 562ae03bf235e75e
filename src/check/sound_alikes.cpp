#include "check/sound_alikes.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <span>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "panslate/kitchen/food.h"
#include "panslate/speech/pronunciation.h"

#include "check/action_words.h"
#include "check/filler_words.h"
#include "check/food_sounds.h"
#include "check/kitchen_words.h"
#include "check/likeness.h"
#include "check/other_foods.h"
#include "check/sound_support.h"
#include "check/span_search.h"
#include "check/spelling.h"
#include "check/step_alignment.h"

namespace panslate {

namespace {

struct HeardWord {
  Sounds sounds;
  std::string name_stem;
  bool known = false;   ///< of the language, or a food
  bool silent = false;  ///< says nothing of what it is about
  bool plain = false;   ///< says nothing by itself, or is understood as it stands
};

struct Hit {
  std::size_t begin = 0;
  std::size_t end = 0;
  std::size_t phrase = 0;
  double distance = 0;
  std::size_t length = 0;  ///< in sounds
  Likeness likeness = Likeness::None;
  bool misspelt = false;
  bool certain_words = false;  ///< near enough to take words that are understood otherwise
};

/// Near enough, but for a reason to expect a food there.
struct Waiting {
  Hit hit;
  LikenessInput input;
  std::size_t rest_begin = 0;
  std::size_t rest_end = 0;
};

class Listening {
 public:
  Listening(const Talk& talk, const NameWords& words, const std::vector<FoodMention>& mentions,
            const std::vector<FoodTarget>& targets, const FoodNames& finder,
            const std::unordered_set<std::string>& recipe_words)
      : talk_(talk),
        words_(words),
        mentions_(mentions),
        targets_(targets),
        finder_(finder),
        recipe_words_(recipe_words) {
    std::vector<std::string> names;
    names.reserve(targets.size());
    for (const auto& target : targets) names.push_back(target.name);
    sounds_.emplace(names, finder);
    for (const auto& mention : mentions)
      if (mention.match != NameMatch::None || mention.other_food)
        foods_.push_back(tokens_of(mention.begin, mention.begin + mention.length));
  }

  std::vector<SoundAlike> run() {
    if (sounds_->phrases().empty()) return {};
    std::vector<const HeardWord*> heard;
    heard.reserve(words_.words.size());
    for (const auto& word : words_.words) heard.push_back(&heard_word(word));
    for (std::size_t at = 0; at < heard.size(); ++at) listen_at(heard, at);
    for (const auto& hit : hits_) learn(hit);
    listen_again(waiting_.begin(), waiting_.end());
    listen_again(waiting_.rbegin(), waiting_.rend());
    std::stable_sort(hits_.begin(), hits_.end(),
                     [](const Hit& a, const Hit& b) { return a.begin < b.begin; });
    return chosen();
  }

 private:
  const HeardWord& heard_word(const std::string& word) {
    const auto known = heard_.find(word);
    if (known != heard_.end()) return known->second;
    HeardWord heard;
    if (auto ways = ways_of_saying(word); !ways.empty()) heard.sounds = std::move(ways.front());
    heard.name_stem = name_stem(word);
    heard.silent = is_filler(word) || is_descriptor(word);
    heard.plain = heard.silent || is_plain(word);
    heard.known = heard.plain || is_english_word(word);
    return heard_.emplace(word, std::move(heard)).first->second;
  }

  // Words that say nothing, foods, what is always said in kitchens, and what the recipe itself calls things
  // by.
  [[nodiscard]] bool is_plain(const std::string& word) const {
    const auto apostrophe = word.find('\'');
    if (apostrophe != std::string::npos && is_filler(word.substr(apostrophe + 1)))
      return is_plain(word.substr(0, apostrophe));
    return is_filler(word) || is_descriptor(word) || is_food_word(word) || is_action_word(word) ||
           is_kitchen_word(word) || recipe_words_.contains(word);
  }

  [[nodiscard]] TokenSpan tokens_of(std::size_t begin, std::size_t end) const {
    return {words_.token_of[begin], words_.token_of[end - 1] + 1};
  }

  // "a cup of": the "of" leads to a name and is none of it.
  [[nodiscard]] bool follows_measure(std::size_t word) const {
    const auto token = words_.token_of[word];
    const auto amount = first_from(talk_.amounts, token);
    return words_.words[word] == "of" && amount != talk_.amounts.begin() && (amount - 1)->span.end == token;
  }

  // "self-raising": never a raisin.
  [[nodiscard]] bool is_flour_kind(std::size_t word) const {
    const auto& text = words_.words[word];
    return (text == "raising" || text == "rising") && word > 0 && words_.words[word - 1] == "self";
  }

  void listen_at(const std::vector<const HeardWord*>& heard, std::size_t begin) {
    if (follows_measure(begin) || is_flour_kind(begin)) return;
    auto& index = sounds_->index();
    stretch_.clear();
    for (std::size_t end = begin; end < std::min(heard.size(), begin + FoodSounds::kMostWords); ++end) {
      if (heard[end]->sounds.empty()) return;
      stretch_.insert(stretch_.end(), heard[end]->sounds.begin(), heard[end]->sounds.end());
      if (stretch_.size() > index.longest() + index.longest() / 2) return;
      const auto first_hit = hits_.size();
      for (const auto entry : index.near(SoundIndex::key_of(stretch_))) {
        const auto& meant = index[entry];
        const auto longer = std::max(meant.size(), stretch_.size());
        if ((longer - std::min(meant.size(), stretch_.size())) * 2 > longer) continue;
        const double distance = sound_distance(stretch_, meant, kFarthest);
        if (distance >= 1.0) continue;
        consider(heard, begin, end + 1, sounds_->phrase_index_of(entry), distance,
                 std::min(meant.size(), stretch_.size()), first_hit);
      }
    }
  }

  void consider(const std::vector<const HeardWord*>& heard, std::size_t begin, std::size_t end,
                std::size_t phrase, double distance, std::size_t length, std::size_t first_hit) {
    // Another way of saying the same phrase may be nearer.
    for (std::size_t h = first_hit; h < hits_.size(); ++h)
      if (hits_[h].phrase == phrase && hits_[h].begin == begin && hits_[h].end == end &&
          hits_[h].distance <= distance)
        return;
    const auto& meant = sounds_->phrases()[phrase].words;
    const auto& stems = sounds_->phrases()[phrase].stems;
    std::size_t front = 0;
    std::size_t back = 0;
    const auto most = std::min(end - begin, meant.size());
    while (front < most && heard[begin + front]->name_stem == stems[front]) ++front;
    while (front + back < most && heard[end - 1 - back]->name_stem == stems[stems.size() - 1 - back]) ++back;
    if (front + back == most) return;  // its own words, with some besides
    Hit hit{begin, end, phrase, distance, length, Likeness::None, false, false};
    if (front + back > 0 && distance > kHomophone)
      std::tie(hit.distance, hit.length) =
          rest_distance(heard, begin + front, end - back, meant, front, back);
    LikenessInput input;
    input.distance = hit.distance;
    input.sounds = hit.length;
    input.in_context = front + back > 0;
    input.words = end - back - begin - front;
    std::size_t plain = 0;
    std::size_t silent = 0;
    for (std::size_t w = begin + front; w < end - back; ++w) {
      input.unknown_word = input.unknown_word || !heard[w]->known;
      plain += heard[w]->plain ? 1 : 0;
      silent += heard[w]->silent ? 1 : 0;
    }
    const bool single = input.words == 1 && meant.size() == front + back + 1;
    if (single && !input.in_context && is_descriptor(words_.words[begin])) return;
    if (single && is_made_from(words_.words[begin + front], meant[front])) return;
    input.all_silent = silent == input.words;
    input.all_plain = plain == input.words;
    input.half_plain = 2 * plain >= input.words;
    input.misspelt = single && input.unknown_word && is_misspelt(words_.words[begin + front], meant[front]);
    input.support = FoodSupport::AmountOf;
    if (likeness_of(input) == Likeness::None) return;  // not even with the best of reasons
    input.support = support(begin, end, phrase);
    hit.likeness = likeness_of(input);
    hit.misspelt = input.misspelt;
    hit.certain_words = hit.distance <= kAlmostSame;
    if (hit.likeness == Likeness::None)
      waiting_.push_back({hit, input, begin + front, end - back});
    else if (may_take(hit, begin + front, end - back, input))
      hits_.push_back(hit);
  }

  void learn(const Hit& hit) {
    const auto span = tokens_of(hit.begin, hit.end);
    if (hit.likeness == Likeness::Good && !any_overlaps(foods_, span))
      foods_.insert(first_from(foods_, span.begin), span);
  }

  // What was found so far speaks for what stands beside it: "leaks, flower and gee". Once along the talk and
  // once back hears out such lists, whichever of their foods was understood.
  template <class Iterator>
  void listen_again(Iterator begin, Iterator end) {
    for (auto it = begin; it != end; ++it) {
      auto& hit = it->hit;
      if (hit.likeness != Likeness::None) continue;
      it->input.support = support(hit.begin, hit.end, hit.phrase);
      hit.likeness = likeness_of(it->input);
      if (hit.likeness == Likeness::None || !may_take(hit, it->rest_begin, it->rest_end, it->input)) continue;
      hits_.push_back(hit);
      learn(hit);
    }
  }

  // Distance and length of what is left when the words that agree are taken off both ends.
  std::pair<double, std::size_t> rest_distance(const std::vector<const HeardWord*>& heard, std::size_t begin,
                                               std::size_t end, const std::vector<std::string>& meant,
                                               std::size_t front, std::size_t back) {
    Sounds said;
    for (std::size_t w = begin; w < end; ++w)
      said.insert(said.end(), heard[w]->sounds.begin(), heard[w]->sounds.end());
    const auto ways = ways_of_saying(std::span(meant).subspan(front, meant.size() - front - back));
    std::pair<double, std::size_t> best{1.0, 0};
    for (const auto& way : ways)
      if (const double distance = sound_distance(said, way); distance < best.first)
        best = {distance, std::min(said.size(), way.size())};
    return best;
  }

  [[nodiscard]] FoodSupport support(std::size_t begin, std::size_t end, std::size_t phrase) const {
    FoodSupport best = FoodSupport::None;
    for (const auto food : sounds_->phrases()[phrase].foods)
      best = std::max(best, food_support(talk_, foods_, tokens_of(begin, end), targets_[food]));
    return best;
  }

  // May it take these words from what they were understood as? A number said, or a food named, stays what it
  // is, unless it is a part of something longer that sounds just like a listed food ("butter nut squash").
  [[nodiscard]] bool may_take(const Hit& hit, std::size_t rest_begin, std::size_t rest_end,
                              const LikenessInput& input) const {
    const auto tokens = tokens_of(hit.begin, hit.end);
    auto amount = first_from(talk_.amounts, tokens.begin);
    if (amount != talk_.amounts.begin()) --amount;
    for (; amount != talk_.amounts.end() && amount->span.begin < tokens.end; ++amount) {
      if (!amount->span.overlaps(tokens)) continue;
      const bool word_of_name = !amount->scan.has_unit && hit.distance <= kSame && input.words > 1 &&
                                input.support == FoodSupport::AmountOf &&
                                tokens.begin <= amount->span.begin && amount->span.end <= tokens.end;
      if (!word_of_name) return false;
    }
    const auto& foods = sounds_->phrases()[hit.phrase].foods;
    auto mention = std::partition_point(mentions_.begin(), mentions_.end(), [&](const FoodMention& m) {
      return m.begin + m.length <= hit.begin;
    });
    for (; mention != mentions_.end() && mention->begin < hit.end; ++mention) {
      const auto end = mention->begin + mention->length;
      if (mention->begin < hit.begin || end > hit.end) return false;
      const bool whole = mention->begin == hit.begin && end == hit.end;
      const bool weak = mention->match == NameMatch::None || mention->match == NameMatch::Category;
      if (whole && (!weak || hit.distance > kSame)) return false;
      const bool outside_rest = end <= rest_begin || mention->begin >= rest_end;
      const bool same_food = std::any_of(foods.begin(), foods.end(), [&](std::size_t f) {
        return std::find(mention->ingredients.begin(), mention->ingredients.end(), f) !=
               mention->ingredients.end();
      });
      if (same_food ? !outside_rest || hit.likeness == Likeness::Doubtful : !hit.certain_words) return false;
    }
    return true;
  }

  std::vector<SoundAlike> chosen() {
    const auto worth = [&](const Hit& hit) {
      const auto& meant = sounds_->phrases()[hit.phrase].words;
      // "bi carb and": the "and" is no part of it.
      const bool trails = is_filler(words_.words[hit.end - 1]) && words_.words[hit.end - 1] != meant.back();
      return (hit.likeness == Likeness::Good ? 0.0 : 1.0) + (trails ? 0.02 : 0.0) + hit.distance -
             0.008 * static_cast<double>(std::min<std::size_t>(hit.length, 10));
    };
    std::vector<std::size_t> order(hits_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return worth(hits_[a]) < worth(hits_[b]); });
    std::vector<char> taken(words_.words.size(), 0);
    std::vector<SoundAlike> alikes;
    for (const auto h : order) {
      const auto begin = taken.begin() + static_cast<std::ptrdiff_t>(hits_[h].begin);
      const auto end = taken.begin() + static_cast<std::ptrdiff_t>(hits_[h].end);
      if (std::any_of(begin, end, [](char is_taken) { return is_taken != 0; }) || says_itself(hits_[h]))
        continue;
      std::fill(begin, end, '\1');
      if (auto alike = settle(hits_[h])) alikes.push_back(*std::move(alike));
    }
    std::sort(alikes.begin(), alikes.end(), [](const auto& a, const auto& b) { return a.begin < b.begin; });
    return alikes;
  }

  // "curry and thyme": a word that stands for itself and one that joins it to the next are no coriander.
  [[nodiscard]] bool says_itself(const Hit& hit) const {
    const auto& last = words_.words[hit.end - 1];
    return hit.end == hit.begin + 2 && (last == "and" || last == "or") &&
           is_english_word(words_.words[hit.begin]);
  }

  // "my dad's from Paisley": where somebody is from, and no parsley.
  [[nodiscard]] bool is_a_place(const Hit& hit) const {
    const auto at = words_.token_of[hit.begin];
    return hit.end == hit.begin + 1 && at > 0 && talk_.text[at].capital &&
           (talk_.text.is_word(at - 1, "from") || talk_.text.is_word(at - 1, "near"));
  }

  // Whether another food is about as near: listed, it makes the hit doubtful; of the table only, it may be
  // what was said.
  std::optional<SoundAlike> settle(const Hit& hit) {
    const auto& phrase = sounds_->phrases()[hit.phrase];
    SoundAlike alike{hit.begin,
                     hit.end,
                     phrase.words,
                     phrase.written,
                     phrase.foods,
                     {},
                     hit.likeness == Likeness::Doubtful};
    // "lobio" may be a dish of its own beside lobia.
    const auto& heard = words_.words[hit.end - 1];
    const auto& written = phrase.words.back();
    if (hit.end == hit.begin + 1 && heard.size() == written.size() &&
        std::equal(heard.begin(), heard.end() - 1, written.begin()))
      alike.doubtful = true;
    if (hit.misspelt) return alike;  // it is the letters that tell
    if (is_a_place(hit)) return std::nullopt;
    const auto first = std::lower_bound(hits_.begin(), hits_.end(), hit.begin,
                                        [](const Hit& h, std::size_t begin) { return h.begin < begin; });
    for (auto it = first; it != hits_.end() && it->begin == hit.begin; ++it) {
      const auto& other = *it;
      if (other.end != hit.end || other.distance > hit.distance + kAboutAsNear) continue;
      for (const auto food : sounds_->phrases()[other.phrase].foods)
        if (std::find(phrase.foods.begin(), phrase.foods.end(), food) == phrase.foods.end())
          alike.also_foods.push_back(food);
    }
    if (!alike.also_foods.empty()) alike.doubtful = true;
    Sounds said;
    for (std::size_t w = hit.begin; w < hit.end; ++w) {
      const auto& sounds = heard_word(words_.words[w]).sounds;
      said.insert(said.end(), sounds.begin(), sounds.end());
    }
    double whole = 1.0;
    for (std::size_t e = 0; e < sounds_->index().size(); ++e)
      if (sounds_->phrase_index_of(e) == hit.phrase)
        whole = std::min(whole, sound_distance(said, sounds_->index()[e]));
    const double other = nearest_other_food(said, finder_, whole + kAboutAsNear);
    if (other < whole - kAboutAsNear / 2) return std::nullopt;
    if (other <= whole + kAboutAsNear / 2 && whole > 0.0) alike.doubtful = true;
    return alike;
  }

  const Talk& talk_;
  const NameWords& words_;
  const std::vector<FoodMention>& mentions_;
  const std::vector<FoodTarget>& targets_;
  const FoodNames& finder_;
  const std::unordered_set<std::string>& recipe_words_;
  std::optional<FoodSounds> sounds_;
  std::vector<TokenSpan> foods_;
  std::unordered_map<std::string, HeardWord> heard_;
  Sounds stretch_;
  std::vector<Hit> hits_;
  std::vector<Waiting> waiting_;
};

}  // namespace

std::vector<SoundAlike> find_sound_alikes(const Talk& talk, const NameWords& words,
                                          const std::vector<FoodMention>& mentions,
                                          const std::vector<FoodTarget>& targets, const FoodNames& finder,
                                          const std::unordered_set<std::string>& recipe_words) {
  return Listening(talk, words, mentions, targets, finder, recipe_words).run();
}

CorrectedWords correct_words(const NameWords& words, const std::vector<SoundAlike>& alikes) {
  CorrectedWords corrected;
  std::size_t next = 0;
  for (std::size_t w = 0; w < words.words.size(); ++w) {
    if (next < alikes.size() && alikes[next].begin == w) {
      const auto& alike = alikes[next];
      const auto heard = alike.end - alike.begin;
      for (std::size_t m = 0; m < alike.meant.size(); ++m) {
        const bool last = m + 1 == alike.meant.size();
        corrected.words.words.push_back(alike.meant[m]);
        corrected.words.token_of.push_back(words.token_of[w + std::min(m, heard - 1)]);
        corrected.last_token_of.push_back(words.token_of[last ? alike.end - 1 : w + std::min(m, heard - 1)]);
        corrected.alike_of.push_back(next);
      }
      w = alike.end - 1;
      ++next;
      continue;
    }
    corrected.words.words.push_back(words.words[w]);
    corrected.words.token_of.push_back(words.token_of[w]);
    corrected.last_token_of.push_back(words.token_of[w]);
    corrected.alike_of.emplace_back();
  }
  return corrected;
}

}  // namespace panslate
