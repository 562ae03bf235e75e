#include "check/step_alignment.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

#include "panslate/kitchen/food.h"

#include "check/filler_words.h"

namespace panslate {

namespace {

// Costs of moving between steps, in units of the weight that a word known to one step alone carries (about
// 1). Chosen on the development recipes: small enough that two telling words move the speaker, large enough
// that one stray word does not.
constexpr double kNextStep = 0.4;
constexpr double kSkipAhead = 0.9;
constexpr double kOtherPart = 1.1;
constexpr double kBackInPart = 1.6;
constexpr double kGrounded = 0.5;

std::set<std::string> telling_stems(const std::vector<Token>& tokens, TokenSpan span) {
  std::set<std::string> stems;
  for (std::size_t i = span.begin; i < span.end; ++i)
    if (tokens[i].kind == TokenKind::Word && tokens[i].text.size() > 1 && !is_filler(tokens[i].text))
      stems.insert(stem(tokens[i].text));
  return stems;
}

}  // namespace

StepAlignment::StepAlignment(const Recipe& recipe, const SpokenText& text) : text_(text) {
  coverage_.resize(recipe.steps.size());
  best_span_.resize(recipe.steps.size());
  shared_.resize(text.utterances().size());
  if (recipe.steps.empty()) return;
  weigh(recipe, text);
  align(recipe);
  measure(text);
}

void StepAlignment::weigh(const Recipe& recipe, const SpokenText& text) {
  const std::size_t steps = recipe.steps.size();
  step_words_.resize(steps);
  for (std::size_t s = 0; s < steps; ++s) {
    auto whole = recipe.steps[s].text + ' ' + recipe.steps[s].part;
    for (const auto use : recipe.steps[s].uses) whole += ' ' + recipe.ingredients[use].name;
    const auto tokens = tokenize(whole);
    for (const auto& word : telling_stems(tokens, {0, tokens.size()})) steps_with_[word].push_back(s);
  }
  // A word that one step alone has tells most; one that all have tells nothing.
  for (const auto& [word, with] : steps_with_) {
    const double weight = std::log(1.0 + static_cast<double>(steps) / static_cast<double>(with.size())) /
                          std::log(1.0 + static_cast<double>(steps));
    for (const auto s : with) step_words_[s][word] = weight;
  }
  std::vector<double> weight_of(steps, 0.0);
  std::vector<std::size_t> touched;
  for (std::size_t u = 0; u < shared_.size(); ++u) {
    for (const auto& word : telling_stems(text.tokens(), text.utterances()[u])) {
      const auto found = steps_with_.find(word);
      if (found == steps_with_.end()) continue;
      for (const auto s : found->second) {
        if (weight_of[s] == 0.0) touched.push_back(s);
        weight_of[s] += step_words_[s].at(word);
      }
    }
    std::sort(touched.begin(), touched.end());
    for (const auto s : touched) {
      shared_[u].push_back({s, weight_of[s]});
      weight_of[s] = 0.0;
    }
    touched.clear();
  }
}

void StepAlignment::align(const Recipe& recipe) {
  const std::size_t steps = recipe.steps.size();
  const std::size_t utterances = shared_.size();
  step_of_.assign(utterances, 0);
  if (utterances == 0) return;
  const auto move_cost = [&](std::size_t from, std::size_t to) {
    if (from == to) return 0.0;
    if (recipe.steps[from].part != recipe.steps[to].part) return to == from + 1 ? kNextStep : kOtherPart;
    if (to == from + 1) return kNextStep;
    return to > from ? kSkipAhead : kBackInPart;
  };
  // Viterbi over steps. From every step only these can be best: the same, the one before, and the best of all
  // (dearest move), so the cost is steps × utterances; the costs between are found exactly by trying the best
  // few.
  constexpr std::size_t kTried = 6;
  std::vector<double> score(steps, 0.0);
  std::vector<std::uint32_t> came_from(utterances * steps, 0);
  std::vector<std::size_t> order(steps);
  for (std::size_t s = 0; s < steps; ++s) score[s] = -0.2 * static_cast<double>(std::min<std::size_t>(s, 5));
  for (std::size_t u = 0; u < utterances; ++u) {
    for (std::size_t s = 0; s < steps; ++s) order[s] = s;
    const auto tried = std::min(kTried, steps);
    std::partial_sort(
        order.begin(), order.begin() + static_cast<std::ptrdiff_t>(tried), order.end(),
        [&](std::size_t a, std::size_t b) { return score[a] > score[b] || (score[a] == score[b] && a < b); });
    std::vector<double> next(steps, -std::numeric_limits<double>::infinity());
    for (std::size_t s = 0; s < steps; ++s) {
      const auto consider = [&](std::size_t from) {
        const double value = score[from] - move_cost(from, s);
        if (value > next[s]) {
          next[s] = value;
          came_from[u * steps + s] = static_cast<std::uint32_t>(from);
        }
      };
      // Where the words tell nothing she is still in the step before: of two equal ways the later move is
      // kept.
      if (s > 0) consider(s - 1);
      for (std::size_t k = 0; k < tried; ++k) consider(order[k]);
      consider(s);
    }
    for (const auto& [s, weight] : shared_[u]) next[s] += weight;
    score = std::move(next);
  }
  auto best = static_cast<std::size_t>(std::max_element(score.begin(), score.end()) - score.begin());
  for (std::size_t u = utterances; u-- > 0;) {
    step_of_[u] = best;
    best = came_from[u * steps + best];
  }
}

void StepAlignment::measure(const SpokenText& text) {
  std::vector<std::set<std::string>> spoken(step_words_.size());
  std::vector<double> best_weight(step_words_.size(), 0.0);
  // Where the step itself is spoken counts before where it is only alluded to.
  constexpr double kAllusion = 0.1;
  for (std::size_t u = 0; u < shared_.size(); ++u) {
    // A step may be spoken in a breath with its neighbours: the words count for each step they support well.
    for (const auto& [s, weight] : shared_[u]) {
      if (s != step_of_[u] && weight < 1.2) continue;
      const auto span = text.utterances()[u];
      for (auto& word : telling_stems(text.tokens(), span))
        if (step_words_[s].contains(word)) spoken[s].insert(word);
      const double worth = s == step_of_[u] ? weight : weight * kAllusion;
      if (worth > best_weight[s]) {
        best_weight[s] = worth;
        best_span_[s] = span;
      }
    }
  }
  for (std::size_t s = 0; s < step_words_.size(); ++s) {
    double all = 0.0;
    double said = 0.0;
    for (const auto& [word, weight] : step_words_[s]) {
      all += weight;
      if (spoken[s].contains(word)) said += weight;
    }
    coverage_[s] = all > 0.0 ? said / all : 0.0;
  }
}

std::optional<std::size_t> StepAlignment::step_at(std::size_t token) const {
  if (step_of_.empty() || token >= text_.size()) return std::nullopt;
  return step_of_[text_.utterance_of(token)];
}

double StepAlignment::support(std::size_t utterance, std::size_t step) const {
  if (utterance >= shared_.size()) return 0.0;
  for (const auto& [s, weight] : shared_[utterance])
    if (s == step) return weight;
  return 0.0;
}

double StepAlignment::most_support(std::size_t utterance) const {
  double most = 0.0;
  for (const auto& shared : shared_[utterance]) most = std::max(most, shared.weight);
  return most;
}

std::vector<StepAlignment::Told> StepAlignment::told_in(TokenSpan span) const {
  std::map<std::size_t, double> weights;
  for (const auto& word : telling_stems(text_.tokens(), span)) {
    const auto found = steps_with_.find(word);
    if (found == steps_with_.end()) continue;
    for (const auto step : found->second) weights[step] += step_words_[step].at(word);
  }
  std::vector<Told> told;
  told.reserve(weights.size());
  for (const auto& [step, weight] : weights) told.push_back({step, weight});
  std::stable_sort(told.begin(), told.end(),
                   [](const Told& a, const Told& b) { return a.weight > b.weight; });
  return told;
}

double StepAlignment::word_weight(std::size_t token, std::size_t step) const {
  const auto words = telling_stems(text_.tokens(), {token, token + 1});
  if (words.empty()) return 0.0;
  const auto found = step_words_[step].find(*words.begin());
  return found == step_words_[step].end() ? 0.0 : found->second;
}

bool StepAlignment::is_grounded(std::size_t utterance) const {
  if (utterance >= step_of_.size()) return false;
  const auto step = step_of_[utterance];
  double weight = support(utterance, step);
  if (utterance > 0 && step_of_[utterance - 1] == step) weight += support(utterance - 1, step);
  if (utterance + 1 < step_of_.size() && step_of_[utterance + 1] == step)
    weight += support(utterance + 1, step);
  return weight >= kGrounded;
}

}  // namespace panslate
