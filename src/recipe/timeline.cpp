#include "recipe/timeline.h"

#include <algorithm>
#include <optional>
#include <set>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"

#include "recipe/actions.h"
#include "recipe/flow_parts.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// A time of the method where it stands.
struct Told {
  std::size_t step = 0;
  std::size_t token = 0;
  const MethodTime* time = nullptr;
  Seconds seconds;
  ActionKind kind = ActionKind::None;
};

// What is left over is kept for days, and what is one way of several need not be done: no time of the cook's.
bool is_no_step(const StepWords& words, std::size_t at) {
  if (is_storing(words, at)) return true;
  const auto begin = words.sentence_begin(at);
  const auto end = words.sentence_end(at);
  for (auto i = begin; i < end; ++i)
    if (words.is(i, {"keep", "keeps", "store", "stored", "leftovers", "within", "lasts", "freezes", "stays",
                     "refrigerator's", "advance", "ahead", "longer", "optional", "optionally"}))
      return true;
  for (auto i = begin; i < at; ++i)
    if (words.is(i, {"if", "can", "could", "may", "might", "alternatively"})) return true;
  return at >= 1 && words.is(at - 1, {"or", "within", "under", "maximum", "max"});
}

std::vector<Told> times_of(const StepWords& words, const Step& step, std::size_t s) {
  std::vector<Told> found;
  for (const auto& time : step.times) {
    const auto at = token_of(time, step, words);
    auto seconds = seconds_of(time.amount);
    if (at >= words.size() || !seconds || time.after || is_no_step(words, at)) continue;
    for (const auto& other : time.also)
      if (const auto also = seconds_of(other)) seconds->least = std::min(seconds->least, also->least);
    found.push_back({s, at, &time, *seconds, action_of(time.action).kind});
  }
  return found;
}

bool says_beside(const StepWords& words, std::size_t from, std::size_t to) {
  for (auto at = from; at < to && at < words.size(); ++at)
    if (words.is(at, {"meanwhile", "while", "whilst", "meantime", "during", "simultaneously", "same"}))
      return true;
  return false;
}

// One time after another, but for those told to go on beside each other.
std::int64_t least_of_step(const StepWords& words, const std::vector<Told>& times) {
  std::int64_t sum = 0;
  std::int64_t run = 0;  // the longest of those side by side
  std::size_t last = 0;
  for (const auto& told : times) {
    const bool beside = run > 0 && says_beside(words, last, told.token);
    if (beside) {
      run = std::max(run, told.seconds.least);
    } else {
      sum += run;
      run = told.seconds.least;
    }
    last = told.token;
  }
  return sum + run;
}

// Whether a time could be put on a timer: what heats or waits.
bool is_timer(const Told& told) {
  constexpr std::int64_t kShortest = 120;
  if (told.seconds.most < kShortest) return false;
  return told.kind == ActionKind::Heat || told.kind == ActionKind::Wait ||
         !is_one_of(told.time->action, {"knead", "whisk", "beat", "whip", "stir", "mix", "blend", "cream",
                                        "process", "blitz", "pulse", "rub", "toss", "wash"});
}

class SideFinder {
 public:
  SideFinder(const std::vector<StepWords>& words, const Recipe& recipe, const Flow& flow)
      : words_(words), recipe_(recipe), flow_(flow) {
    for (std::size_t s = 0; s < words.size(); ++s)
      for (auto& told : times_of(words[s], recipe.steps[s], s)) times_.push_back(told);
  }

  std::vector<SideBySide> run() {
    for (std::size_t a = 0; a < times_.size(); ++a)
      if (is_timer(times_[a])) beside(a);
    return std::move(found_);
  }

 private:
  // Follows the words after a wait for as long as it runs.
  void beside(std::size_t a) {
    const auto& first = times_[a];
    if (!goes_on_beside(first)) return;
    std::int64_t passed = 0;
    for (auto b = a + 1; b < times_.size(); ++b) {
      const auto& second = times_[b];
      if (passed >= first.seconds.most || taken_up_before(first, second)) return;
      if (is_timer(second) && second.seconds.least == first.seconds.least &&
          second.seconds.most == first.seconds.most) {
        SideBySide pair;
        pair.first = timer(first);
        pair.second = timer(second);
        pair.length = to_text(first.time->amount);
        if (pair.first.name == pair.second.name) {
          pair.first.name += " 1";
          pair.second.name += " 2";
        }
        found_.push_back(std::move(pair));
        return;
      }
      passed += second.seconds.least;
    }
  }

  // "…for 30 minutes. Meanwhile, …", "…for 30 minutes while you …".
  bool goes_on_beside(const Told& told) const {
    const auto& words = words_[told.step];
    const auto end = words.sentence_end(told.token);
    for (auto at = told.token; at < end; ++at)
      if (words.is(at, {"meanwhile", "while", "whilst"}) && !words.is(at + 1, {"it", "still", "warm", "hot"}))
        return true;
    if (end < words.size()) {
      auto at = end;
      return words.is(at, {"meanwhile", "while", "whilst", "simultaneously"}) ||
             (words.is(at, {"in", "at", "during"}) && says_beside(words, at, at + 4)) ||
             (words.is(at, {"in"}) && words.is(at + 2, {"meantime"}));
    }
    const auto next = told.step + 1;
    if (next >= words_.size()) return false;
    if (flow_.steps[next].beside) return true;
    // "Chill for 30 minutes." and then another part of the dish, which needs none of it: nobody sits and
    // waits.
    const auto& part = recipe_.steps[next].part;
    return !part.empty() && part != recipe_.steps[told.step].part && flow_.steps[next].after.empty() &&
           is_unattended(told);
  }

  bool is_unattended(const Told& told) const {
    return std::any_of(flow_.waits.begin(), flow_.waits.end(), [&](const FlowWait& wait) {
      return wait.step == told.step && wait.offset == words_[told.step].tokens[told.token].begin;
    });
  }

  // Between the two, the food of the first is taken up again: its wait is over.
  bool taken_up_before(const Told& first, const Told& second) const {
    std::set<std::string> of_first;
    const auto& words = words_[first.step];
    const auto begin = words.clause_begin(words.sentence_begin(first.token));
    for (const auto& food : words.foods)
      if (food.begin >= begin && food.begin < first.token && !food.ingredients.empty())
        of_first.insert(words.stems[food.end - 1]);
    for (auto at = words.sentence_begin(first.token); at < first.token; ++at)
      if (is_made_on_the_way(words.word(at))) of_first.insert(words.stems[at]);
    const auto word_ends_it = [&](const StepWords& in, std::size_t at, bool later_step) {
      const bool takes = in.is(at, {"remove", "drain", "unwrap", "take", "lift"});
      return later_step && (takes || (of_first.contains(in.stems[at]) && at > 0 &&
                                      in.is(at - 1, {"the", "of", "cooked", "baked", "rested", "chilled",
                                                     "roasted", "soaked", "risen", "boiled"})));
    };
    for (auto s = first.step; s <= second.step; ++s) {
      const auto& in = words_[s];
      const auto from = s == first.step ? first.token + 1 : 0;
      const auto to = s == second.step ? second.token : in.size();
      for (auto at = from; at < to; ++at) {
        // "While the pastry chills" speaks of it and goes on.
        const bool spoken_of = at < 8 + from && says_beside(in, from, at);
        if (!spoken_of && word_ends_it(in, at, s > first.step || in.sentence[at] > in.sentence[first.token]))
          return true;
      }
    }
    return false;
  }

  SideBySide::Timer timer(const Told& told) const {
    const auto& words = words_[told.step];
    SideBySide::Timer timer{told.step, words.tokens[told.token].begin, {}};
    std::string what;
    const auto begin = words.sentence_begin(told.token);
    for (const auto& food : words.foods) {
      if (food.begin < begin || food.begin >= told.token || food.ingredients.empty()) continue;
      if (what.empty()) what = words.text(food.begin, food.end);
    }
    for (auto at = begin; at < told.token && what.empty(); ++at)
      if (is_made_on_the_way(words.word(at))) what = words.text(at, at + 1);
    if (what.empty()) what = "step " + std::to_string(recipe_.steps[told.step].number);
    timer.name = what + (told.time->action.empty() ? std::string{} : ", " + told.time->action);
    return timer;
  }

  const std::vector<StepWords>& words_;
  const Recipe& recipe_;
  const Flow& flow_;
  std::vector<Told> times_;
  std::vector<SideBySide> found_;
};

}  // namespace

std::int64_t least_time(const std::vector<StepWords>& words, const Recipe& recipe, const Flow& flow) {
  std::vector<std::int64_t> done(words.size(), 0);
  std::int64_t all = 0;
  for (std::size_t s = 0; s < words.size(); ++s) {
    std::int64_t start = 0;
    for (const auto before : flow.steps[s].after)
      if (before < s) start = std::max(start, done[before]);
    done[s] = start + least_of_step(words[s], times_of(words[s], recipe.steps[s], s));
    all = std::max(all, done[s]);
  }
  return all;
}

std::int64_t longest_heat(const std::vector<StepWords>& words, const Recipe& recipe) {
  std::int64_t longest = 0;
  for (std::size_t s = 0; s < words.size(); ++s)
    for (const auto& told : times_of(words[s], recipe.steps[s], s))
      if (told.kind == ActionKind::Heat) longest = std::max(longest, told.seconds.least);
  return longest;
}

std::vector<SideBySide> waits_side_by_side(const std::vector<StepWords>& words, const Recipe& recipe,
                                           const Flow& flow) {
  return SideFinder(words, recipe, flow).run();
}

}  // namespace panslate
