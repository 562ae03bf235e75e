#include "desk/doubts.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "panslate/kitchen/food.h"
#include "panslate/project/answer_spelling.h"

namespace panslate {

namespace {

// How likely it is that the film is wrong there, of a hundred: common practice, no source.
int likelihood(Verdict verdict) {
  switch (verdict) {
    case Verdict::Differs:
      return 90;
    case Verdict::Missing:
      return 80;
    case Verdict::NoAmount:
      return 70;
    case Verdict::Unsure:
      return 50;
    case Verdict::Match:
    case Verdict::NotChecked:
      return 0;
  }
  return 0;
}
constexpr int kNotShown = 60;
constexpr int kPerhapsShown = 10;  // its step is filmed: mostly it is in the picture

// What a wrong line does to whoever cooks it, of a hundred: common practice, no source. A form that makes
// another food decides whether the dish fits the diet; then what makes it rise, the heat, the amounts.
constexpr int kOtherFood = 100;
constexpr int kLeavening = 80;
constexpr int kHeat = 60;
constexpr int kAmount = 40;
constexpr int kRest = 20;

// The table of foods has no kind for it: rows of foods.csv, under whatever name the recipe uses.
constexpr std::array<std::string_view, 5> kRaising{"baking powder", "bicarbonate of soda", "cream of tartar",
                                                   "yeast", "sourdough starter"};

bool makes_rise(const std::string& name) {
  const auto* food = find_food(name);
  if (food == nullptr) return false;
  const auto is_raising = [](const Food& row) {
    return std::find(kRaising.begin(), kRaising.end(), row.name) != kRaising.end();
  };
  return is_raising(*food) || (food->broader && is_raising(all_foods()[*food->broader]));
}

std::string_view question_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::Differs:
      return "Something else was heard. Is it said as it is written?";
    case Verdict::Missing:
      return "It was not heard. Is it said all the same?";
    case Verdict::NoAmount:
      return "It was heard without its amount. Is the amount said?";
    case Verdict::Unsure:
    case Verdict::Match:
    case Verdict::NotChecked:
      break;
  }
  return "The words do not settle it. Is it said as it is written?";
}

class Doubts {
 public:
  explicit Doubts(const DeskFilm& film) : film_(film) {
    std::set<std::size_t> stale;
    for (const auto& again : film.report.decide_again) stale.insert(again.answer);
    const auto& answers = film.project->answers;
    for (std::size_t i = 0; i < answers.size(); ++i)
      if (const auto line = line_of(film.report, answers[i]); line && !stale.contains(i)) {
        answered_.insert({*line, answers[i].about});
        if (answers[i].is == Answer::Is::Leave) left_.insert(*line);
      }
    for (const auto& warning : film.report.warnings)
      if (warning.code == "form-not-said" && warning.line) other_food_.insert(*warning.line);
  }

  std::vector<Doubt> list() {
    for (std::size_t r = 0; r < film_.report.requirements.size(); ++r)
      if (!left_.contains(r)) look_at(r);
    std::stable_sort(doubts_.begin(), doubts_.end(),
                     [](const Doubt& a, const Doubt& b) { return a.weight > b.weight; });
    return std::move(doubts_);
  }

 private:
  void look_at(std::size_t r) {
    const auto& line = film_.report.requirements[r];
    using About = Answer::About;
    if (CheckReport::needs_attention(line)) {
      if (line.on_text.verdict == Verdict::Differs || line.on_text.verdict == Verdict::Unsure)
        ask(r, About::OnPicture, likelihood(line.on_text.verdict),
            "Is the text on the picture as it is written?");
      const auto written = line.on_text.verdict == Verdict::Match && line.said.verdict != Verdict::Differs;
      if (likelihood(line.said.verdict) > 0 && !written)
        ask(r, About::Said, likelihood(line.said.verdict), question_of(line.said.verdict));
      if (line.shown.verdict == ShownVerdict::No)
        ask(r, About::Shown, kNotShown, "No part of a clip films it. Can it be seen all the same?");
    }
    if (line.kind == RequirementKind::Ingredient && line.shown.verdict == ShownVerdict::Unconfirmed)
      ask(r, About::Shown, kPerhapsShown, "Its step is filmed. Can it be seen?");
  }

  void ask(std::size_t r, Answer::About about, int likely, std::string_view question) {
    if (answered_.contains({r, about})) return;
    doubts_.push_back({r, about, std::string(question), likely * harm(film_.report.requirements[r]),
                       moment_of(film_, r, about)});
  }

  [[nodiscard]] int harm(const Requirement& line) const {
    if (line.line > 0 && other_food_.contains(line.line)) return kOtherFood;
    if (line.kind == RequirementKind::Temperature) return kHeat;
    if (line.kind != RequirementKind::Ingredient && line.kind != RequirementKind::MethodAmount)
      return line.kind == RequirementKind::Time ? kAmount : kRest;
    if (makes_rise(line.name)) return kLeavening;
    return line.amounts.empty() ? kRest : kAmount;
  }

  const DeskFilm& film_;
  std::set<std::pair<std::size_t, Answer::About>> answered_;
  std::set<std::size_t> left_;
  std::set<int> other_food_;  // lines of the recipe
  std::vector<Doubt> doubts_;
};

// Whether there is anything to be seen or heard of it.
bool is_open(const DeskFilm& film, const std::string& clip) {
  const auto* media = film.project->find_media(clip);
  return media != nullptr &&
         film.footage->clips[static_cast<std::size_t>(media - film.project->media.data())].has_value();
}

std::optional<DeskMoment> moment_of_mention(const DeskFilm& film, const ChannelFinding& found) {
  if (found.mentions.empty() || !is_open(film, found.mentions.front().media)) return std::nullopt;
  return DeskMoment{found.mentions.front().media, found.mentions.front().when};
}

std::optional<DeskMoment> moment_of_part(const DeskFilm& film, const Segment& segment) {
  const auto& media = film.project->media[segment.media];
  if (!is_open(film, media.id)) return std::nullopt;
  return DeskMoment{media.id, segment.range};
}

// A part of a clip that films it: one she listed it for, else one of its step, else one of a step that uses
// it.
std::optional<DeskMoment> filmed_at(const DeskFilm& film, const Requirement& line) {
  const auto& project = *film.project;
  const auto& ids = line.shown.segments;
  for (const auto& segment : project.segments)
    if (std::find(ids.begin(), ids.end(), segment.id) != ids.end())
      if (auto moment = moment_of_part(film, segment)) return moment;
  const auto films = [&](const Segment& segment, std::size_t step) {
    return std::any_of(segment.steps.begin(), segment.steps.end(),
                       [&](const LastingReference& s) { return s.index == step; });
  };
  const auto uses = [&](std::size_t step) {
    if (line.kind != RequirementKind::Ingredient) return step == line.index;
    const auto& used = project.recipe.steps[step].uses;
    return std::find(used.begin(), used.end(), line.index) != used.end();
  };
  if (line.kind == RequirementKind::Yield) return std::nullopt;
  for (std::size_t step = 0; step < project.recipe.steps.size(); ++step)
    if (uses(step))
      for (const auto& segment : project.segments)
        if (films(segment, step))
          if (auto moment = moment_of_part(film, segment)) return moment;
  return std::nullopt;
}

}  // namespace

std::optional<DeskMoment> moment_of(const DeskFilm& film, std::size_t requirement, Answer::About about) {
  const auto& line = film.report.requirements[requirement];
  if (about == Answer::About::Shown) {
    if (auto filmed = filmed_at(film, line)) return filmed;
    return moment_of_mention(film, line.said);
  }
  const auto& first = about == Answer::About::OnPicture ? line.on_text : line.said;
  const auto& second = about == Answer::About::OnPicture ? line.said : line.on_text;
  if (auto found = moment_of_mention(film, first)) return found;
  if (auto found = moment_of_mention(film, second)) return found;
  for (const auto& pickup : film.pickups)
    if (pickup.requirement == requirement && pickup.at && is_open(film, pickup.media))
      return DeskMoment{pickup.media, {*pickup.at, *pickup.at + MediaTime::from_seconds(2)}};
  return filmed_at(film, line);
}

std::vector<Doubt> doubts_of(const DeskFilm& film) {
  return Doubts(film).list();
}

std::string doubt_id(const Requirement& line, Answer::About about) {
  return line.key + "/" + std::string(spelling_of(about));
}

}  // namespace panslate
