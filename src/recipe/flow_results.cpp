#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"

#include "recipe/actions.h"
#include "recipe/flow_parts.h"
#include "recipe/heading_words.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// Words that speak of a thing made before, and not of a listed food.
class ResultReader {
 public:
  ResultReader(const MethodView& method, Flow& flow)
      : recipe_(method.recipe), words_(method.words), flow_(flow) {}

  void run() {
    for (const auto& step : recipe_.steps)
      if (!step.part.empty()) {
        std::string head;
        for (const auto& token : tokenize(part_name(step.part)))
          if (token.kind == TokenKind::Word && token.text.size() > 2) head = name_stem(token.text);
        if (!head.empty()) part_heads_.insert(head);
      }
    for (std::size_t s = 0; s < words_.size(); ++s) {
      std::set<std::size_t> needed;
      for (std::size_t at = 0; at < words_[s].size(); ++at) take_up(s, at, needed);
      chain(s, needed);
      flow_.steps[s].after.assign(needed.begin(), needed.end());
    }
    for (auto& [name, result] : results_) flow_.results.push_back(std::move(result));
    std::stable_sort(flow_.results.begin(), flow_.results.end(),
                     [](const FlowResult& a, const FlowResult& b) { return a.made_in < b.made_in; });
  }

 private:
  bool is_listed_food(std::size_t s, std::size_t at) const {
    return std::any_of(words_[s].foods.begin(), words_[s].foods.end(), [&](const StepFood& food) {
      return food.begin <= at && at < food.end && !food.ingredients.empty();
    });
  }

  void take_up(std::size_t s, std::size_t at, std::set<std::size_t>& needed) {
    const auto& words = words_[s];
    if (words.tokens[at].kind != TokenKind::Word || is_listed_food(s, at)) return;
    const auto& stem = words.stems[at];
    // "roll out", "mix well": an order, unless it is spoken of as a thing.
    if (words.actions[at].kind != ActionKind::None &&
        !(at > 0 && words.is(at - 1, {"the", "a", "this", "your", "remaining", "of", "each"})))
      return;
    if (!is_made_on_the_way(words.word(at)) && !part_heads_.contains(stem)) return;
    const auto found = results_.find(stem);
    if (found == results_.end()) {
      results_.emplace(stem, FlowResult{std::string(words.word(at)), made_before(s, at), {}});
      if (const auto made = results_[stem].made_in; made != s) {
        needed.insert(made);
        results_[stem].used_in.push_back(s);
      }
      last_touched_[stem] = s;
      return;
    }
    const auto last = last_touched_[stem];
    if (last != s) {
      needed.insert(last);
      found->second.used_in.push_back(s);
      last_touched_[stem] = s;
    }
  }

  // "Roll out the dough", first named here: made by the part of its name, else by the step before.
  std::size_t made_before(std::size_t s, std::size_t at) const {
    const auto& words = words_[s];
    const bool definite = at > 0 && words.is(at - 1, {"the", "this", "your", "remaining", "of"});
    if (!definite || s == 0) return s;
    for (auto earlier = s; earlier-- > 0;)
      for (const auto& token : tokenize(recipe_.steps[earlier].part))
        if (token.kind == TokenKind::Word && name_stem(token.text) == words.stems[at]) return earlier;
    const bool begins = words.sentence_begin(at) + 4 > at && flow_.steps[s].uses.empty();
    return begins ? s - 1 : s;
  }

  // A step follows the one before it, unless it begins another part or goes on beside it.
  void chain(std::size_t s, std::set<std::size_t>& needed) const {
    if (s == 0) return;
    const auto& part = recipe_.steps[s].part;
    const bool new_part = !part.empty() && part != recipe_.steps[s - 1].part;
    if (new_part) {
      if (needed.empty() && flow_.steps[s].uses.empty()) needed.insert(s - 1);
      // "To assemble", "To serve": all parts come together.
      if (is_one_of(fold_accents(part_name(part)).substr(0, 5),
                    {"to as", "assem", "to se", "to fi", "finis"}))
        for (std::size_t earlier = 0; earlier < s; ++earlier)
          if (earlier + 1 == s || recipe_.steps[earlier].part != recipe_.steps[earlier + 1].part)
            needed.insert(earlier);
      return;
    }
    if (!flow_.steps[s].beside) {
      needed.insert(s - 1);
      return;
    }
    // Beside the last step: what that one needed is done as well.
    const auto& before = flow_.steps[s - 1].after;
    needed.erase(s - 1);
    needed.insert(before.begin(), before.end());
  }

  const Recipe& recipe_;
  const std::vector<StepWords>& words_;
  Flow& flow_;
  std::set<std::string> part_heads_;
  std::map<std::string, FlowResult> results_;
  std::map<std::string, std::size_t> last_touched_;
};

}  // namespace

void find_results(const MethodView& method, Flow& flow) {
  ResultReader(method, flow).run();
}

}  // namespace panslate
