#include "panslate/plan/shot_list.h"

#include <algorithm>
#include <map>
#include <set>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount.h"
#include "panslate/kitchen/food.h"

#include "plan/action_table.h"

namespace panslate {

namespace {

// Speaking pace of a calm cook, and a breath before the next line: common practice, no source.
constexpr std::int64_t kMsPerWord = 400;  // 150 words a minute
constexpr std::int64_t kBreathMs = 1000;
constexpr MediaTime kShortestShot = MediaTime::from_seconds(3);
constexpr MediaTime kBeautyShot = MediaTime::from_seconds(6);

MediaTime time_to_say(std::string_view line) {
  const auto words = static_cast<std::int64_t>(split(collapse_spaces(line), ' ').size());
  return std::max(kShortestShot, MediaTime::from_ms(words * kMsPerWord + kBreathMs));
}

std::string food_with_amount(const Ingredient& ingredient) {
  const auto amount = ingredient.amounts.empty() ? std::string{} : to_text(ingredient.amounts.front());
  return amount.empty() ? ingredient.name : ingredient.name + ", " + amount;
}

std::set<std::string> stems_in(std::string_view text) {
  std::set<std::string> stems;
  std::string word;
  const auto flush = [&] {
    if (!word.empty()) stems.insert(stem(fold_accents(word)));
    word.clear();
  };
  for (std::size_t i = 0; i < text.size();) {
    const auto [value, next] = code_point_at(text, i);
    if (is_word_character(value))
      append_utf8(word, value);
    else
      flush();
    i = next;
  }
  flush();
  return stems;
}

// The head noun is what a method calls a food by: "peppers" for "red romano peppers".
bool names_food(const std::set<std::string>& stems, const Ingredient& ingredient) {
  const auto names_one = [&](const std::string& food) {
    const auto words = split(collapse_spaces(food), ' ');
    return !words.empty() && stems.contains(stem(fold_accents(words.back())));
  };
  return names_one(ingredient.name) ||
         std::any_of(ingredient.foods.begin(), ingredient.foods.end(), names_one);
}

// No camera shows a smell.
bool can_be_seen(std::string_view cue) {
  const auto folded = fold_case(cue);
  return folded.find("smell") == std::string::npos && folded.find("fragran") == std::string::npos &&
         folded.find("aroma") == std::string::npos;
}

class ShotListMaker {
 public:
  ShotListMaker(const Recipe& recipe, const Project* project) : recipe_(recipe), project_(project) {}

  ShotList make() {
    for (std::size_t s = 0; s < recipe_.steps.size(); ++s) add_step(s);
    const auto last = recipe_.steps.empty() ? 0 : recipe_.steps.size() - 1;
    for (std::size_t i = 0; i < recipe_.ingredients.size(); ++i) add_insert(i, last);
    add_beauty(last);
    number();
    return std::move(list_);
  }

 private:
  void add_step(std::size_t s) {
    const auto& step = recipe_.steps[s];
    std::set<std::size_t> new_here;
    for (const auto i : step.uses)
      if (i < recipe_.ingredients.size() && add_insert(i, s)) new_here.insert(i);
    const auto first = list_.shots.size();
    for (const auto& sentence : method_sentences(step.text)) add_sentence(s, sentence, first, new_here);
    if (list_.shots.size() > first) add_unnamed_foods(list_.shots[first], step, first, new_here);
    for (const auto& cue : step.cues)
      if (can_be_seen(cue)) add_cue(s, cue);
  }

  // Measured out and close: the one picture that proves the amount. Once for each line of the list.
  bool add_insert(std::size_t ingredient, std::size_t step) {
    if (!inserted_.insert(ingredient).second) return false;
    Shot shot;
    shot.framing = Framing::Insert;
    shot.step = step;
    shot.subject = food_with_amount(recipe_.ingredients[ingredient]);
    shot.shows = {shot.subject};
    shot.length = kShortestShot;
    shot.covered_by = showing(ingredient);
    list_.shots.push_back(std::move(shot));
    return true;
  }

  void add_sentence(std::size_t s, const std::string& sentence, std::size_t first,
                    const std::set<std::size_t>& new_here) {
    const auto actions = filmed_actions_in(sentence);
    if (actions.empty() && list_.shots.size() > first) {
      // A remark ("They should still hold their shape.") is spoken over the picture before it.
      auto& before = list_.shots.back();
      before.line += " " + sentence;
      before.length = time_to_say(before.line);
      return;
    }
    Shot shot;
    shot.step = s;
    shot.line = sentence;
    shot.length = time_to_say(sentence);
    shot.subject = subject_of(sentence, actions);
    if (!actions.empty()) shot.framing = actions.front().framing;
    shot.repeatable = std::none_of(actions.begin(), actions.end(), [](const FilmedAction& action) {
      return action.repeatable == Repeatable::No;
    });
    const auto stems = stems_in(sentence);
    for (const auto i : recipe_.steps[s].uses)
      if (i < recipe_.ingredients.size() && names_food(stems, recipe_.ingredients[i]))
        add_food(shot, i, new_here);
    shot.covered_by = filming(s);
    list_.shots.push_back(std::move(shot));
  }

  // With its amount where it is first used, by its name alone afterwards.
  void add_food(Shot& shot, std::size_t i, const std::set<std::size_t>& new_here) {
    const bool first_use = new_here.contains(i) && amount_told_.insert(i).second;
    const auto& ingredient = recipe_.ingredients[i];
    shot.shows.push_back(first_use ? food_with_amount(ingredient) : ingredient.name);
  }

  // Foods that the step uses without naming them where we looked belong to its first picture.
  void add_unnamed_foods(Shot& shot, const Step& step, std::size_t first,
                         const std::set<std::size_t>& new_here) {
    for (const auto i : step.uses) {
      if (i >= recipe_.ingredients.size()) continue;
      const auto shown = [&](const Shot& one) {
        return std::any_of(one.shows.begin(), one.shows.end(), [&](const std::string& text) {
          return text == recipe_.ingredients[i].name || text == food_with_amount(recipe_.ingredients[i]);
        });
      };
      if (std::none_of(list_.shots.begin() + static_cast<std::ptrdiff_t>(first), list_.shots.end(), shown))
        add_food(shot, i, new_here);
    }
  }

  void add_cue(std::size_t s, const std::string& cue) {
    Shot shot;
    shot.framing = Framing::Close;
    shot.step = s;
    shot.subject = "the sign to wait for: " + collapse_spaces(cue);
    shot.length = kShortestShot;
    shot.repeatable = false;
    shot.covered_by = filming_close(s);
    list_.shots.push_back(std::move(shot));
  }

  void add_beauty(std::size_t last) {
    Shot shot;
    shot.framing = Framing::Beauty;
    shot.step = last;
    shot.subject = recipe_.title.empty() ? "the finished dish" : "the finished dish: " + recipe_.title;
    shot.length = kBeautyShot;
    if (project_ != nullptr)
      for (const auto& segment : project_->segments)
        if (segment.framing == Framing::Beauty) shot.covered_by.push_back(segment.id);
    list_.shots.push_back(std::move(shot));
  }

  static std::string subject_of(const std::string& sentence, const std::vector<FilmedAction>& actions) {
    if (actions.empty()) return sentence;
    std::string subject(actions.front().verb);
    for (std::size_t a = 1; a < actions.size(); ++a)
      subject += (a + 1 == actions.size() ? " and " : ", ") + std::string(actions[a].verb);
    return subject + ": " + std::string(actions.front().see);
  }

  static bool films_step(const Segment& segment, std::size_t s) {
    return std::any_of(segment.steps.begin(), segment.steps.end(),
                       [&](const LastingReference& reference) { return reference.index == s; });
  }

  [[nodiscard]] std::vector<std::string> filming(std::size_t s) const {
    std::vector<std::string> ids;
    if (project_ == nullptr) return ids;
    for (const auto& segment : project_->segments)
      if (films_step(segment, s) && segment.framing != Framing::Beauty) ids.push_back(segment.id);
    return ids;
  }

  // Texture cannot be judged from a wide picture.
  [[nodiscard]] std::vector<std::string> filming_close(std::size_t s) const {
    std::vector<std::string> ids;
    if (project_ == nullptr) return ids;
    for (const auto& segment : project_->segments)
      if (films_step(segment, s) && (segment.framing == Framing::Close || segment.framing == Framing::Insert))
        ids.push_back(segment.id);
    return ids;
  }

  [[nodiscard]] std::vector<std::string> showing(std::size_t ingredient) const {
    std::vector<std::string> ids;
    if (project_ == nullptr) return ids;
    for (const auto& segment : project_->segments)
      if (std::any_of(segment.shows.begin(), segment.shows.end(),
                      [&](const LastingReference& reference) { return reference.index == ingredient; }))
        ids.push_back(segment.id);
    return ids;
  }

  // One camera position for each framing, lettered as they come.
  void number() {
    std::map<Framing, std::string> letters;
    std::map<Framing, int> counts;
    for (auto& shot : list_.shots) {
      const auto next = static_cast<char>('A' + static_cast<int>(letters.size()));
      shot.setup = letters.emplace(shot.framing, std::string(1, next)).first->second;
      shot.number = shot.setup + std::to_string(++counts[shot.framing]);
    }
  }

  const Recipe& recipe_;
  const Project* project_;
  ShotList list_;
  std::set<std::size_t> inserted_;
  std::set<std::size_t> amount_told_;
};

}  // namespace

ShotList make_shot_list(const Recipe& recipe, const Project* project) {
  return ShotListMaker(recipe, project).make();
}

}  // namespace panslate
