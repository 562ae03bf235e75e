#include <algorithm>
#include <string>

#include "panslate/base/text.h"
#include "panslate/kitchen/unit.h"

#include "recipe/actions.h"
#include "recipe/flow_parts.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

constexpr std::int64_t kOvernight = 28'800;  // common practice, no source
constexpr std::int64_t kShortest = 60;       // what is done in less is watched

bool is_verb_of(std::string_view verb, std::initializer_list<std::string_view> verbs) {
  return is_one_of(verb, verbs);
}

WaitPlace place_of(std::string_view verb, const StepWords& words, std::size_t at) {
  const auto begin = words.sentence_begin(at);
  const auto end = words.sentence_end(at);
  const auto told = [&](std::initializer_list<std::string_view> some) {
    for (auto i = begin; i < end; ++i)
      if (words.is(i, some)) return true;
    return false;
  };
  if (is_verb_of(verb, {"chill", "refrigerate", "freeze"})) return WaitPlace::Cold;
  if (is_verb_of(verb, {"bake", "roast", "broil", "grill"})) return WaitPlace::Oven;
  if (told({"fridge", "freezer", "refrigerator"})) return WaitPlace::Cold;
  if (action_of(verb).kind == ActionKind::Heat) return told({"oven"}) ? WaitPlace::Oven : WaitPlace::Hob;
  return WaitPlace::Room;
}

// "the pastry" of "chill the pastry for 30 minutes": the words after the verb, up to a preposition.
std::string object_after(const StepWords& words, std::size_t verb) {
  auto at = verb + 1;
  if (words.is(at, {"the", "your", "this", "these", "both", "all"})) ++at;
  const auto from = at;
  constexpr std::size_t kLongest = 3;
  while (
      at < words.size() && at < from + kLongest && words.tokens[at].kind == TokenKind::Word &&
      !words.is(at, {"for",       "in",      "on",     "at",     "until", "to",   "with", "and",     "it",
                     "them",      "over",    "under",  "gently", "about", "from", "into", "again",   "then",
                     "uncovered", "covered", "slowly", "is",     "are",   "a",    "an",   "another", "rest"}))
    ++at;
  return words.text(from, at);
}

class WaitReader {
 public:
  WaitReader(const MethodView& method, Flow& flow)
      : recipe_(method.recipe), words_(method.words), flow_(flow) {}

  void run() {
    for (std::size_t s = 0; s < words_.size(); ++s) {
      flow_.steps[s].beside = begins_beside(words_[s], 0);
      timed(s);
      untimed(s);
    }
    std::stable_sort(flow_.waits.begin(), flow_.waits.end(), [](const FlowWait& a, const FlowWait& b) {
      return a.step != b.step ? a.step < b.step : a.offset < b.offset;
    });
    for (auto& wait : flow_.waits) wait.beside_next = goes_on_beside(wait);
  }

 private:
  // "Meanwhile", "While the dough rests", "In the meantime", "At the same time", "During this time".
  static bool begins_beside(const StepWords& words, std::size_t at) {
    while (words.is(at, {"and", ",", "then"})) ++at;
    if (words.is(at, {"meanwhile", "meantime", "while", "whilst", "simultaneously"})) return true;
    if (words.is(at, {"in"}) && words.is(at + 1, {"the"}) && words.is(at + 2, {"meantime", "meanwhile"}))
      return true;
    if (words.is(at, {"at"}) && words.is(at + 1, {"the"}) && words.is(at + 2, {"same"})) return true;
    if (words.is(at, {"during"}) && words.is(at + 1, {"this", "that", "the"})) return true;
    return words.is(at, {"as"}) && words.is(at + 1, {"the", "it", "they"}) && some_wait_soon(words, at + 2);
  }

  static bool some_wait_soon(const StepWords& words, std::size_t at) {
    for (auto i = at; i < words.size() && i < at + 5; ++i) {
      const auto kind = words.actions[i].kind;
      if (kind == ActionKind::Heat || kind == ActionKind::Wait) return true;
      if (words.is(i, {","})) return false;
    }
    return false;
  }

  void timed(std::size_t s) {
    const auto& step = recipe_.steps[s];
    const auto& words = words_[s];
    for (std::size_t t = 0; t < step.times.size(); ++t) {
      const auto& time = step.times[t];
      const auto at = token_of(time, step, words);
      const bool hands_on = is_hands_on(time, words, step);
      flow_.steps[s].hands_on.push_back(hands_on);
      if (at >= words.size() || hands_on || time.after || is_storing(words, at)) continue;
      const auto seconds = seconds_of(time.amount);
      if (seconds && seconds->most < kShortest) continue;
      FlowWait wait;
      wait.step = s;
      wait.time = t;
      wait.offset = words.tokens[at].begin;
      wait.action = time.action;
      wait.place = place_of(time.action, words, at);
      wait.overnight = is_overnight(time);
      if (seconds) wait.least = seconds->least, wait.most = seconds->most;
      for (auto back = at; back-- > words.sentence_begin(at);)
        if (words.actions[back].verb == time.action) {
          wait.what = object_after(words, back);
          break;
        }
      flow_.waits.push_back(std::move(wait));
    }
  }

  // "Leave to cool", "chill": no length is told. A sign ("until cold") or a moment ends it all the same.
  void untimed(std::size_t s) {
    const auto& words = words_[s];
    for (std::size_t at = 0; at < words.size(); ++at) {
      const auto action = words.actions[at];
      if (!is_verb_of(action.verb, {"chill", "refrigerate", "freeze", "rest", "soak", "marinate", "prove",
                                    "proof", "rise", "infuse", "steep", "ferment"}))
        continue;
      if (action.is_past || (action.is_ing && words.clause_begin(at) != at)) continue;
      if (at > 0 && words.is(at - 1, {"the", "a", "of", "this", "that", "and", "in"}) && !is_order(words, at))
        continue;
      if (told_nearby(s, at)) continue;
      FlowWait wait;
      wait.step = s;
      wait.offset = words.tokens[at].begin;
      wait.action = std::string(action.verb);
      wait.place = place_of(action.verb, words, at);
      wait.what = object_after(words, at);
      wait.has_end = ends(words, at);
      flow_.waits.push_back(std::move(wait));
    }
  }

  static bool is_order(const StepWords& words, std::size_t at) {
    const auto begin = words.clause_begin(at);
    if (begin == at) return !words.is(at + 1, {"of"});
    return at > 0 && words.is(at - 1, {"to", "and"}) && !words.is(at + 1, {"of"});
  }

  bool told_nearby(std::size_t s, std::size_t at) const {
    const auto& words = words_[s];
    return std::any_of(recipe_.steps[s].times.begin(), recipe_.steps[s].times.end(), [&](const auto& time) {
      const auto there = token_of(time, recipe_.steps[s], words);
      return there < words.size() && words.same_sentence(there, at);
    });
  }

  static bool ends(const StepWords& words, std::size_t at) {
    const auto end = words.sentence_end(at);
    for (auto i = words.sentence_begin(at); i < end; ++i)
      if (words.is(i, {"until",      "till",      "while",  "whilst",  "before",  "as",        "when",
                       "once",       "overnight", "hour",   "hours",   "minutes", "minute",    "time",
                       "needed",     "required",  "ready",  "serving", "day",     "meanwhile", "briefly",
                       "completely", "serve",     "longer", "night",   "use"}))
        return true;
    return false;
  }

  // What stands after the wait goes on beside it: the next sentence of the step, or the next step.
  bool goes_on_beside(const FlowWait& wait) const {
    const auto& words = words_[wait.step];
    const auto at = words.token_at(wait.offset);
    if (at >= words.size()) return false;
    auto next = words.sentence_end(at);
    for (auto i = at; i < next; ++i)
      if (words.is(i, {"meanwhile"})) return true;
    if (next < words.size()) return begins_beside(words, next);
    return wait.step + 1 < words_.size() && begins_beside(words_[wait.step + 1], 0);
  }

  const Recipe& recipe_;
  const std::vector<StepWords>& words_;
  Flow& flow_;
};

}  // namespace

std::size_t token_of(const MethodTime& time, const Step& step, const StepWords& words) {
  // The n-th time of the step is the n-th place of its text.
  std::size_t from = 0;
  for (const auto& other : step.times) {
    const auto at = step.text.find(other.text, from);
    if (at == std::string::npos) return words.size();
    if (&other == &time) return words.token_at(at);
    from = at + other.text.size();
  }
  return words.size();
}

std::optional<Seconds> seconds_of(const Amount& time) {
  const auto size = size_of(time.unit, Measures::Metric);
  if (!time.value) {
    if (time.unit == Unit::Hour) return Seconds{kOvernight, kOvernight};
    return std::nullopt;
  }
  if (!size || dimension_of(time.unit) != Dimension::Time) return std::nullopt;
  constexpr double kLongest = 1e9;
  const auto seconds = [&](const Ratio& value) {
    return static_cast<std::int64_t>(std::clamp(value.value() * size->size.value(), 0.0, kLongest));
  };
  return Seconds{seconds(*time.value), seconds(time.to.value_or(*time.value))};
}

bool is_storing(const StepWords& words, std::size_t at) {
  for (auto i = words.sentence_begin(at); i < at; ++i)
    if (words.is(i, {"keep", "keeps", "store", "stored", "storing", "leftovers", "leftover", "within",
                     "lasts", "last", "freezes", "stays", "shelf"}))
      return true;
  return at >= 2 && words.is(at - 1, {"to"}) && words.is(at - 2, {"up"});
}

bool is_overnight(const MethodTime& time) {
  if (!time.amount.value && time.amount.unit == Unit::Hour) return true;
  const auto seconds = seconds_of(time.amount);
  return seconds && seconds->least >= kOvernight;
}

bool is_hands_on(const MethodTime& time, const StepWords& words, const Step& step) {
  const auto action = action_of(time.action);
  if (action.kind == ActionKind::Work || action.kind == ActionKind::Attend) {
    // "Cover for 10 minutes", "return to the oven for 5 minutes": nobody stands by.
    return !is_verb_of(action.verb, {"cover",  "return",   "put",      "place", "transfer", "turn",  "remove",
                                     "take",   "lower",    "continue", "wrap",  "pop",      "slide", "set",
                                     "lay",    "reserve",  "submerge", "drop",  "plunge",   "add",   "pour",
                                     "spread", "increase", "raise",    "layer", "seal",     "start", "tip"});
  }
  const auto at = token_of(time, step, words);
  if (at >= words.size()) return false;
  if (is_verb_of(action.verb, {"fry", "saute", "sear", "brown", "stir-fry", "pan-fry", "deep-fry", "char",
                               "caramelise", "caramelize", "sweat", "griddle"}))
    return true;
  const auto end = words.sentence_end(at);
  for (auto i = words.sentence_begin(at); i < end; ++i) {
    if (!words.is(i, {"stirring", "whisking", "shaking", "tossing", "basting"})) continue;
    bool seldom = false;
    for (auto j = i + 1; j < end && j < i + 8; ++j)
      seldom = seldom || words.is(j, {"occasionally", "once", "twice", "now", "halfway", "time", "half",
                                      "every", "sometimes"});
    if (!seldom && i + 1 < end) return true;
  }
  return false;
}

void find_waits(const MethodView& method, Flow& flow) {
  WaitReader(method, flow).run();
}

}  // namespace panslate
