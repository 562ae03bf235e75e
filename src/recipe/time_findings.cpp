#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/unit.h"

#include "recipe/actions.h"
#include "recipe/findings.h"
#include "recipe/flow_parts.h"
#include "recipe/timeline.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

std::string span_words(std::int64_t seconds) {
  const auto minutes = (seconds + 59) / 60;
  if (minutes < 60) return std::to_string(minutes) + " min";
  auto text = std::to_string(minutes / 60) + " h";
  if (minutes % 60 != 0) text += " " + std::to_string(minutes % 60) + " min";
  return text;
}

// --- the oven -------------------------------------------------------------------------------------------

bool tells_heat(const MethodTemperature& temperature) {
  if (!temperature.amount.value) return false;
  const double value = temperature.amount.value->value();
  constexpr double kCoolestCelsius = 50, kCoolestFahrenheit = 120;
  const bool hot = temperature.amount.unit == Unit::GasMark ||
                   (temperature.amount.unit == Unit::Celsius && value >= kCoolestCelsius) ||
                   (temperature.amount.unit == Unit::Fahrenheit && value >= kCoolestFahrenheit);
  return hot && !is_one_of(temperature.action, {"reach", "register", "check", "fry", "deep-fry"});
}

// "a moderate oven", "the hottest setting", "under a hot grill".
bool tells_heat_in_words(const StepWords& words) {
  for (std::size_t at = 0; at < words.size(); ++at) {
    if (words.is(at, {"oven"}) && at > 0 &&
        words.is(at - 1, {"moderate", "hot", "medium", "low", "slow", "cool", "warm", "pizza", "dutch"}))
      return true;
    if (words.is(at, {"temperature", "heat", "temp"}) && at > 0 &&
        words.is(at - 1, {"medium", "moderate", "high", "low", "max"}))
      for (auto i = words.sentence_begin(at); i < words.sentence_end(at); ++i)
        if (words.is(i, {"oven"})) return true;
    if (words.is(at, {"barbecue", "bbq", "microwave", "air", "slow-cooker", "embers", "coals", "fire",
                      "smoker", "highest", "hottest", "maximum", "max", "rotisserie"}))
      return true;
  }
  return false;
}

// Where a step bakes or roasts something in the oven.
std::optional<std::size_t> bakes_at(const Step& step, const StepWords& words) {
  // What is roasted in a pan, or baked by another fire than the oven's.
  const auto in_pan = [&](std::size_t at) {
    const auto end = words.sentence_end(at);
    const bool bakes =
        words.is(at, {"bake"}) ||
        std::any_of(step.times.begin(), step.times.end(), [](const auto& t) { return t.action == "bake"; });
    for (auto i = words.sentence_begin(at); i < end; ++i)
      if (words.is(i, {"skillet", "griddle", "flame", "grill", "broiler", "toaster", "fryer", "fire",
                       "barbecue"}) ||
          (!bakes && words.is(i, {"pan", "wok", "dry", "hob", "pot"})))
        return !std::any_of(words.tokens.begin() + static_cast<std::ptrdiff_t>(words.sentence_begin(at)),
                            words.tokens.begin() + static_cast<std::ptrdiff_t>(end),
                            [](const Token& token) { return token.text == "oven"; });
    return false;
  };
  for (const auto& time : step.times) {
    if (!is_one_of(time.action, {"bake", "roast"})) continue;
    const auto at = token_of(time, step, words);
    // "Roast the spices for 2 minutes": in a pan.
    constexpr std::int64_t kBriefly = 600;
    const auto seconds = seconds_of(time.amount);
    if (time.action == "roast" && seconds && seconds->most < kBriefly) continue;
    if (at < words.size() && !in_pan(at)) return at;
  }
  for (std::size_t at = 0; at < words.size(); ++at) {
    const auto action = words.actions[at];
    const bool order = words.is(at, {"bake"}) &&
                       (words.clause_begin(at) == at || words.is(at - 1, {"to", "and"})) &&
                       !words.is(at + 1, {"the", "a", "juices", "potatoes", "beef", "pork"});
    const bool put_in = words.is(at, {"oven"}) && at >= 2 && words.is(at - 1, {"the"}) &&
                        words.is(at - 2, {"in", "into", "to"}) && !words.is(at + 1, {"-"});
    if (put_in || (order && action.kind == ActionKind::Heat)) {
      const auto end = words.sentence_end(at);
      bool keeps_warm = false;
      for (auto i = words.sentence_begin(at); i < end; ++i)
        keeps_warm = keeps_warm || words.is(i, {"warm", "off", "cool", "turned", "light", "rack", "shelf"});
      if (!keeps_warm && !in_pan(at)) return at;
    }
  }
  return std::nullopt;
}

bool header_tells_heat(const Recipe& recipe) {
  const auto told = [](const std::vector<RecipeNote>& notes) {
    return std::any_of(notes.begin(), notes.end(), [](const RecipeNote& note) {
      Step step;
      step.text = note.text.substr(0, std::min<std::size_t>(note.text.size(), 600));
      read_method_text(step);
      return !step.temperatures.empty();
    });
  };
  return told(recipe.introduction) || told(recipe.header_lines) || told(recipe.placed_notes);
}

void check_oven(const ReadContext& context) {
  const auto& steps = context.recipe.steps;
  bool told = false;
  for (std::size_t s = 0; s < steps.size() && !told; ++s) {
    const auto& words = context.words[s];
    const auto sets = [&](std::size_t step) {
      return step < steps.size() &&
             std::any_of(steps[step].temperatures.begin(), steps[step].temperatures.end(),
                         [](const auto& t) { return tells_heat(t); });
    };
    told = sets(s) || tells_heat_in_words(words);
    if (told) return;
    const auto at = bakes_at(steps[s], words);
    if (!at) continue;
    // "Put it in the oven." and, a step later, "Bake at 180 °C for 40 minutes".
    if (steps[s].times.empty() && sets(s + 1)) return;
    if (header_tells_heat(context.recipe)) return;
    bool later = false;
    for (auto after = s + 1; after < steps.size(); ++after) later = later || sets(after);
    auto& finding = context.in_step(
        s, words.tokens[*at].begin, "oven-without-temperature", ReadLevel::Warning,
        "Step " + std::to_string(steps[s].number) + " uses the oven, and no temperature is set before it.");
    finding.advice = later ? "Heat the oven in a step before this one, with its temperature."
                           : "Say how hot the oven is, in °C (and fan), °F or gas.";
    return;
  }
}

// --- totals ---------------------------------------------------------------------------------------------

std::optional<std::int64_t> stated(const Recipe& recipe, StatedTime::Kind kind, const StatedTime** where) {
  std::optional<std::int64_t> found;
  for (const auto& time : recipe.stated_times) {
    if (time.kind != kind) continue;
    const auto seconds = seconds_of(time.amount);
    if (!seconds) continue;
    found = seconds->most;
    if (where != nullptr) *where = &time;
  }
  return found;
}

// "1 hour plus overnight soaking": not all of it is in the number.
bool leaves_some_out(const Recipe& recipe) {
  return std::any_of(recipe.header_lines.begin(), recipe.header_lines.end(), [](const RecipeNote& note) {
    const auto text = fold_accents(note.text);
    return text.find("plus") != std::string::npos || text.find(" + ") != std::string::npos ||
           text.find("exclud") != std::string::npos || text.find("not includ") != std::string::npos ||
           text.find("overnight") != std::string::npos || text.find("active") != std::string::npos ||
           text.find("hands-on") != std::string::npos || text.find("resting") != std::string::npos ||
           text.find("chilling") != std::string::npos || text.find("marinat") != std::string::npos;
  });
}

void check_total(const ReadContext& context) {
  const auto& recipe = context.recipe;
  const StatedTime* where = nullptr;
  const auto total = stated(recipe, StatedTime::Kind::Total, &where);
  const StatedTime* cook_line = nullptr;
  const auto cook = stated(recipe, StatedTime::Kind::Cook, &cook_line);
  const auto prep = stated(recipe, StatedTime::Kind::Prep, nullptr);
  const bool open = leaves_some_out(recipe);
  constexpr std::int64_t kSlack = 120;
  const auto complain = [&](const StatedTime& at, const std::string& message) {
    auto& finding = context.at_line(at.line, "total-time-disagrees", ReadLevel::Error, message);
    finding.advice = "Put right the total or the times of the method.";
  };
  if (total && where != nullptr) {
    const auto least = least_time(context.words, recipe, context.flow());
    if (least > *total + kSlack && !open)
      return complain(*where, "The times of the method take " + span_words(least) +
                                  " at least, but the total is " + where->text + ".");
    if (prep && cook && *prep + *cook > *total + kSlack && !open)
      return complain(*where, "Preparing and cooking take " + span_words(*prep + *cook) +
                                  " together, but the total is " + where->text + ".");
  }
  if (cook && cook_line != nullptr) {
    const auto longest = longest_heat(context.words, recipe);
    if (longest > *cook + std::max<std::int64_t>(kSlack, *cook / 10) &&
        (!total || longest + prep.value_or(0) > *total))
      complain(*cook_line, "One step of the method cooks for " + span_words(longest) +
                               ", but the cooking time is " + cook_line->text + ".");
  }
}

// --- told late, without an end --------------------------------------------------------------------------

bool says_day_before(std::string_view text) {
  const auto folded = fold_accents(text);
  for (const auto* const words : {"overnight", "day before", "day ahead", "night before", "in advance",
                                  "ahead of time", "evening before", "hours before", "hours ahead", "days"})
    if (folded.find(words) != std::string::npos) return true;
  return false;
}

void check_told_late(const ReadContext& context) {
  const auto& recipe = context.recipe;
  const auto told_in = [](const std::vector<RecipeNote>& notes) {
    return std::any_of(notes.begin(), notes.end(),
                       [](const auto& note) { return says_day_before(note.text); });
  };
  if (told_in(recipe.introduction) || told_in(recipe.header_lines) || told_in(recipe.placed_notes)) return;
  if (std::any_of(recipe.ingredients.begin(), recipe.ingredients.end(),
                  [](const Ingredient& i) { return says_day_before(i.text) || says_day_before(i.group); }))
    return;
  for (const auto& wait : context.flow().waits) {
    if (!wait.overnight || action_of(wait.action).kind == ActionKind::Heat) continue;
    if (wait.step == 0) return;
    auto& note = context.in_step(wait.step, wait.offset, "told-late", ReadLevel::Note,
                                 "Step " + std::to_string(recipe.steps[wait.step].number) +
                                     " waits until the next day, and nothing before the method says so.");
    note.advice = "Tell it at the top: \"Start the day before\".";
    return;
  }
}

void check_ends(const ReadContext& context) {
  for (const auto& wait : context.flow().waits)
    if (!wait.has_end) {
      auto& note = context.in_step(wait.step, wait.offset, "wait-without-end", ReadLevel::Note,
                                   "Nothing tells how long to " + wait.action +
                                       (wait.what.empty() ? std::string{} : " the " + wait.what) + ".");
      note.advice = "Give a time, or the sign that it is done.";
    }
}

void check_same_length(const ReadContext& context) {
  for (const auto& pair : waits_side_by_side(context.words, context.recipe, context.flow())) {
    auto& finding =
        context.in_step(pair.second.step, pair.second.offset, "same-length-waits", ReadLevel::Warning,
                        "Two timers of " + pair.length + " run at once (the other starts in step " +
                            std::to_string(context.recipe.steps[pair.first.step].number) +
                            "): nobody can tell which one rings.");
    finding.advice =
        "Name the timers \"" + pair.first.name + "\" and \"" + pair.second.name + "\", or start them apart.";
  }
}

}  // namespace

void find_time_faults(const ReadContext& context) {
  check_oven(context);
  check_same_length(context);
  check_total(context);
  check_told_late(context);
  check_ends(context);
}

}  // namespace panslate
