#include "panslate/check/pickup.h"

#include <algorithm>
#include <map>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/check/spoken_index.h"

#include "check/line_to_say.h"

namespace panslate {

namespace {

// Too short to put a word into.
constexpr MediaTime kShortestPause = MediaTime::from_ms(300);

std::string amount_words(const Requirement& requirement) {
  return requirement.amounts.empty() ? std::string{} : to_text(requirement.amounts.front());
}

std::string amount_and_name(const Requirement& requirement) {
  return collapse_spaces(amount_words(requirement) + " " + requirement.name);
}

bool is_food(const Requirement& requirement) {
  return requirement.kind == RequirementKind::Ingredient || requirement.kind == RequirementKind::MethodAmount;
}

/// Where the steps are spoken, so that a line nobody said finds a pause near its step.
class SpokenSteps {
 public:
  SpokenSteps(const CheckReport& report, const Recipe& recipe) : first_use_(recipe.ingredients.size()) {
    for (const auto& requirement : report.requirements) {
      if (requirement.kind != RequirementKind::Step || requirement.said.mentions.empty()) continue;
      const auto& mention = requirement.said.mentions.front();
      steps_[requirement.index] = {mention.media, mention.when};
      begins_[mention.media].push_back(mention.when.begin);
    }
    for (auto& [media, begins] : begins_) std::sort(begins.begin(), begins.end());
    for (std::size_t s = 0; s < recipe.steps.size(); ++s)
      for (const auto i : recipe.steps[s].uses)
        if (i < first_use_.size() && !first_use_[i]) first_use_[i] = s;
  }

  struct Window {
    std::string media;
    TimeRange when;
  };

  /// From where the step (or the last spoken one before it) begins to where the next one does.
  [[nodiscard]] std::optional<Window> window_of(const Requirement& requirement, MediaTime film_end) const {
    std::optional<std::size_t> step;
    if (requirement.kind != RequirementKind::Ingredient && requirement.kind != RequirementKind::Yield)
      step = requirement.index;
    else if (requirement.kind == RequirementKind::Ingredient && requirement.index < first_use_.size())
      step = first_use_[requirement.index];
    if (!step) return std::nullopt;
    auto spoken = steps_.upper_bound(*step);
    if (spoken == steps_.begin()) return std::nullopt;
    const auto& [media, when] = std::prev(spoken)->second;
    const auto& begins = begins_.at(media);
    const auto next = std::upper_bound(begins.begin(), begins.end(), when.begin);
    const auto end = next == begins.end() ? std::max(film_end, when.end) : *next;
    return Window{media, {when.begin, end}};
  }

 private:
  std::vector<std::optional<std::size_t>> first_use_;
  std::map<std::size_t, Window> steps_;
  std::map<std::string, std::vector<MediaTime>> begins_;
};

class PickupMaker {
 public:
  PickupMaker(const CheckReport& report, const Recipe& recipe, const std::vector<TimedText>& said)
      : report_(report),
        recipe_(recipe),
        spoken_(said),
        lines_(report, recipe, spoken_),
        steps_(report, recipe) {
    for (const auto& one : said) end_of_[one.media] = std::max(end_of_[one.media], one.transcript->end());
  }

  std::vector<Pickup> make() {
    for (std::size_t r = 0; r < report_.requirements.size(); ++r)
      if (CheckReport::needs_attention(report_.requirements[r])) add_for(r);
    std::stable_sort(pickups_.begin(), pickups_.end(), [](const Pickup& a, const Pickup& b) {
      if (a.kind != b.kind) return turn_of(a.kind) < turn_of(b.kind);
      if (a.kind == Pickup::Kind::Film) return false;
      if (a.at.has_value() != b.at.has_value()) return a.at.has_value();
      return a.media != b.media ? a.media < b.media : a.at < b.at;
    });
    return std::move(pickups_);
  }

 private:
  static int turn_of(Pickup::Kind kind) {
    switch (kind) {
      case Pickup::Kind::Listen:
        return 0;
      case Pickup::Kind::SayAgain:
        return 1;
      case Pickup::Kind::Film:
        return 2;
      case Pickup::Kind::CorrectText:
        return 3;
    }
    return 4;
  }

  void add_for(std::size_t r) {
    const auto& requirement = report_.requirements[r];
    const bool written_instead = requirement.on_text.verdict == Verdict::Match;
    switch (requirement.said.verdict) {
      case Verdict::Differs:
      case Verdict::Missing:
      case Verdict::NoAmount:
        if (!written_instead || requirement.said.verdict == Verdict::Differs) add_line(r);
        break;
      case Verdict::Unsure:
        if (!written_instead) add(r, Pickup::Kind::Listen, question(requirement), requirement.said);
        break;
      case Verdict::Match:
      case Verdict::NotChecked:
        break;
    }
    if (requirement.on_text.verdict == Verdict::Differs) {
      const auto text =
          is_food(requirement) ? amount_and_name(requirement) : collapse_spaces(requirement.text);
      add(r, Pickup::Kind::CorrectText, "Put the text right: “" + text + "”", requirement.on_text).line =
          text;
    }
    if (requirement.shown.verdict == ShownVerdict::No) {
      const auto amount = amount_words(requirement);
      add(r, Pickup::Kind::Film,
          is_food(requirement) ? "Film close up: " + requirement.name + (amount.empty() ? "" : ", " + amount)
                               : "Film step " + std::to_string(recipe_.steps[requirement.index].number) +
                                     ": " + requirement.text,
          requirement.said);
    }
  }

  [[nodiscard]] static std::string question(const Requirement& requirement) {
    const auto asked = requirement.amounts.empty() ? requirement.name : amount_words(requirement);
    if (asked.empty()) return "Listen: is this said? “" + collapse_spaces(requirement.text) + "”";
    return "Listen: is it " + asked + "?";
  }

  Pickup& add(std::size_t r, Pickup::Kind kind, std::string what, const ChannelFinding& channel) {
    Pickup pickup;
    pickup.kind = kind;
    pickup.requirement = r;
    pickup.what = std::move(what);
    if (!channel.mentions.empty()) {
      pickup.at = channel.mentions.front().when.begin;
      pickup.media = channel.mentions.front().media;
    }
    return pickups_.emplace_back(std::move(pickup));
  }

  void add_line(std::size_t r) {
    const auto& requirement = report_.requirements[r];
    auto line = lines_.line_for(r);
    auto& pickup = add(r, Pickup::Kind::SayAgain, "Say: “" + line.words + "”", requirement.said);
    pickup.line = std::move(line.words);
    pickup.takes = MediaTime::from_seconds_f(static_cast<double>(spoken_word_count(pickup.line)) /
                                             spoken_.words_a_second());
    if (!line.sentence.empty()) {
      pickup.instead_of = line.sentence.text();
      pickup.at = line.sentence.when().begin;
      pickup.room = line.sentence.when().duration();
    } else if (!pickup.at) {
      if (const auto window = steps_.window_of(requirement, end_of(requirement))) {
        pickup.media = window->media;
        const auto pause = pause_in(*window);
        const bool enough = pause.duration() >= kShortestPause;
        pickup.at = enough ? pause.begin : window->when.begin;
        if (enough) pickup.room = pause.duration();
      }
    }
  }

  // Many lines of one step may be missing; its pause is looked for once.
  TimeRange pause_in(const SpokenSteps::Window& window) {
    const auto [found, is_new] = pauses_.try_emplace({window.media, window.when.begin});
    if (is_new) found->second = spoken_.longest_pause(window.media, window.when);
    return found->second;
  }

  // The film goes on behind its last word; a clip on a clock of its own ends, as far as we know, with it.
  [[nodiscard]] MediaTime end_of(const Requirement& requirement) const {
    const auto window = steps_.window_of(requirement, MediaTime());
    if (!window) return {};
    const auto found = end_of_.find(window->media);
    const auto spoken = found == end_of_.end() ? MediaTime() : found->second;
    return end_of_.size() == 1 ? std::max(spoken, report_.duration.value_or(spoken)) : spoken;
  }

  const CheckReport& report_;
  const Recipe& recipe_;
  SpokenIndex spoken_;
  LineWriter lines_;
  SpokenSteps steps_;
  std::map<std::string, MediaTime> end_of_;
  std::map<std::pair<std::string, MediaTime>, TimeRange> pauses_;
  std::vector<Pickup> pickups_;
};

}  // namespace

std::vector<Pickup> pickups_of(const CheckReport& report, const Recipe& recipe,
                               const std::vector<TimedText>& said) {
  return PickupMaker(report, recipe, said).make();
}

}  // namespace panslate
