#include "project/references.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"

#include "project/entry.h"
#include "project/near_spelling.h"

namespace panslate {

namespace {

using Words = std::vector<std::string>;
using Found = std::vector<std::size_t>;

Words words_of(std::string_view text) {
  const auto folded = fold_accents(text);
  Words words;
  std::string word;
  for (std::size_t i = 0; i < folded.size();) {
    const auto [value, next] = code_point_at(folded, i);
    if (is_word_character(value)) {
      word.append(folded, i, next - i);
    } else if (!word.empty()) {
      words.push_back(std::exchange(word, {}));
    }
    i = next;
  }
  if (!word.empty()) words.push_back(std::move(word));
  return words;
}

Words stems_of(std::string_view text) {
  auto words = words_of(text);
  for (auto& word : words) word = stem(word);
  return words;
}

std::string folded_line(std::string_view text) {
  return fold_accents(collapse_spaces(text));
}

bool begins_with(const Words& text, const Words& words) {
  return words.size() <= text.size() && std::equal(words.begin(), words.end(), text.begin());
}

// As begins_with, the last word cut short: what is copied from a shortened line.
bool begins_with_cut(const Words& text, const Words& words) {
  return words.size() <= text.size() && std::equal(words.begin(), words.end() - 1, text.begin()) &&
         text[words.size() - 1].starts_with(words.back());
}

bool holds(const Words& text, const Words& words) {
  return std::search(text.begin(), text.end(), words.begin(), words.end()) != text.end();
}

// The lines that pass the first test that any of them passes.
template <class Line>
class Narrowing {
 public:
  explicit Narrowing(const std::vector<Line>& lines) : lines_(lines) {}
  template <class Test>
  Narrowing& by(const Test& test) {
    if (!found_.empty()) return *this;
    for (std::size_t i = 0; i < lines_.size(); ++i)
      if (test(lines_[i])) found_.push_back(i);
    return *this;
  }
  template <class Test>
  Narrowing& by_any_name(const Test& test) {
    return by([&](const Line& line) { return std::any_of(line.names.begin(), line.names.end(), test); });
  }
  [[nodiscard]] Found found() { return std::move(found_); }

 private:
  const std::vector<Line>& lines_;
  Found found_;
};

template <class Line>
std::string line_words(const Line& line) {
  auto words = in_quotes(line.text);
  if (line.line > 0) words += " (line " + std::to_string(line.line) + ")";
  return words;
}

template <class List>
std::string listing(const List& list, const Found& found) {
  constexpr std::size_t kMost = 4;
  std::string out;
  for (std::size_t i = 0; i < found.size() && i < kMost; ++i)
    out += (i > 0 ? ", " : "") + line_words(list[found[i]]);
  if (found.size() > kMost) out += " and " + std::to_string(found.size() - kMost) + " more";
  return out;
}

// Lines that share most words of four letters and more with what is written, in their order.
template <class Line>
Found nearest_lines(const std::vector<Line>& lines, const Words& wanted) {
  constexpr std::size_t kMost = 3;
  std::ptrdiff_t best = 1;
  Found nearest;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto& has = lines[i].stems;
    const auto count = std::count_if(wanted.begin(), wanted.end(), [&](const std::string& word) {
      return word.size() > 3 && std::find(has.begin(), has.end(), word) != has.end();
    });
    if (count < best) continue;
    if (count > best) nearest.clear();
    best = count;
    if (nearest.size() < kMost) nearest.push_back(i);
  }
  return nearest;
}

struct Kind {
  std::string_view one;
  std::string_view many;
  std::string_view how;
};
constexpr Kind kStep{"step", "steps", "write more of its words, or its key from a report"};
constexpr Kind kIngredient{"ingredient", "ingredients", "write its whole line, or its key from a report"};

template <class List>
std::optional<Error> settle(const List& list, const Found& found, LastingReference& reference,
                            std::string_view name, const Kind& kind, const Found& nearest) {
  if (found.size() == 1) {
    reference.index = found.front();
    return std::nullopt;
  }
  const std::string begin = std::string(name) + ": ";
  if (found.empty())
    return Error{
        ErrorCode::Malformed,
        begin + "no " + std::string(kind.one) + " of the recipe fits " + in_quotes(reference.written),
        reference.place, nearest.empty() ? std::string{} : "the nearest: " + listing(list, nearest)};
  return Error{ErrorCode::Malformed,
               begin + in_quotes(reference.written) + " fits " + std::to_string(found.size()) + " " +
                   std::string(kind.many) + ": " + listing(list, found),
               reference.place, std::string(kind.how)};
}

Found nearest_names(const Recipe& recipe, std::string_view written) {
  Words names;
  for (const auto& ingredient : recipe.ingredients) names.push_back(ingredient.name);
  const auto name = nearest_spelling(written, names);
  if (!name) return {};
  return {static_cast<std::size_t>(std::find(names.begin(), names.end(), *name) - names.begin())};
}

}  // namespace

ReferenceFinder::ReferenceFinder(const Recipe& recipe) : recipe_(recipe) {
  for (const auto& step : recipe.steps)
    steps_.push_back({step.key, folded_line(step.text), words_of(step.text), stems_of(step.text), {}});
  for (const auto& ingredient : recipe.ingredients) {
    Line line{ingredient.key,
              folded_line(ingredient.text),
              words_of(ingredient.text),
              stems_of(ingredient.text),
              {stems_of(ingredient.name)}};
    for (const auto* foods : {&ingredient.foods, &ingredient.or_foods})
      for (const auto& food : *foods) line.names.push_back(stems_of(food));
    ingredients_.push_back(std::move(line));
  }
}

std::optional<Error> ReferenceFinder::resolve_step(LastingReference& reference, std::string_view name) const {
  const auto words = words_of(reference.written);
  const auto folded = folded_line(reference.written);
  const auto key = trim(reference.written);
  Found found;
  if (!words.empty())
    found = Narrowing(steps_)
                .by([&](const Line& step) { return step.key == key; })
                .by([&](const Line& step) { return step.folded == folded; })
                .by([&](const Line& step) { return begins_with(step.words, words); })
                .by([&](const Line& step) { return begins_with_cut(step.words, words); })
                .by([&](const Line& step) { return holds(step.words, words); })
                .found();
  const auto nearest = found.empty() ? nearest_lines(steps_, stems_of(reference.written)) : Found{};
  return settle(recipe_.steps, found, reference, name, kStep, nearest);
}

std::optional<Error> ReferenceFinder::resolve_ingredient(LastingReference& reference,
                                                         std::string_view name) const {
  const auto words = words_of(reference.written);
  const auto stems = stems_of(reference.written);
  const auto folded = folded_line(reference.written);
  const auto key = trim(reference.written);
  std::vector<Words> synonyms;
  for (const auto other : synonyms_of(fold_accents(key))) synonyms.push_back(stems_of(other));
  Found found;
  if (!words.empty())
    found = Narrowing(ingredients_)
                .by([&](const Line& line) { return line.key == key; })
                .by([&](const Line& line) { return line.folded == folded; })
                .by([&](const Line& line) { return line.words == words; })
                .by_any_name([&](const Words& food) { return food == stems; })
                .by_any_name([&](const Words& food) { return holds(food, stems); })
                .by([&](const Line& line) { return holds(line.stems, stems); })
                .by_any_name([&](const Words& food) {
                  return std::find(synonyms.begin(), synonyms.end(), food) != synonyms.end();
                })
                .found();
  auto nearest = found.empty() ? nearest_lines(ingredients_, stems) : Found{};
  if (found.empty() && nearest.empty()) nearest = nearest_names(recipe_, reference.written);
  return settle(recipe_.ingredients, found, reference, name, kIngredient, nearest);
}

}  // namespace panslate
