#include "panslate/deliver/overlay.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/deliver/check_digest.h"

#include "deliver/overlay_moment.h"

namespace panslate {

namespace {

constexpr MediaTime kGrid = MediaTime::from_ms(10);
// The eye needs longer than the ear: the text is there a little before its words.
constexpr MediaTime kLead = MediaTime::from_ms(200);
// Texts whose words begin this close together belong to one moment and are read together.
constexpr MediaTime kOneMoment = MediaTime::from_ms(1000);
constexpr MediaTime kMostDelay = MediaTime::from_ms(1500);
constexpr MediaTime kLongest = MediaTime::from_seconds(6);
constexpr std::size_t kMostLines = 3;

struct Wish {
  std::size_t requirement = 0;
  std::string text;
  OverlayMoment moment;
};

struct Placed {
  OverlayText text;
  std::vector<std::string> lines;
  MediaTime last_spoken;
};

bool has_overlay(const Requirement& requirement) {
  switch (requirement.kind) {
    case RequirementKind::Ingredient:
    case RequirementKind::MethodAmount:
    case RequirementKind::Temperature:
    case RequirementKind::Time:
      return !amounts_in_words(requirement.amounts).empty();
    case RequirementKind::Yield:
    case RequirementKind::Step:
    case RequirementKind::Cue:
      return false;
  }
  return false;
}

// "Turn it down to 160 °C" is about the oven wherever the step names one.
std::string name_of(const Requirement& requirement, const Recipe& recipe) {
  if (requirement.kind == RequirementKind::Temperature && requirement.index < recipe.steps.size() &&
      fold_case(recipe.steps[requirement.index].text).find("oven") != std::string::npos)
    return "oven";
  return collapse_spaces(requirement.name);
}

std::string text_of(const Requirement& requirement, const Recipe& recipe) {
  const auto amounts = amounts_in_words(requirement.amounts);
  const auto name = name_of(requirement, recipe);
  return name.empty() ? amounts : name + " · " + amounts;
}

// BBC Subtitle Guidelines 4.1 and 4.3.3: a third of a second a word, and not too short to be noticed.
MediaTime reading_time(const std::vector<std::string>& lines) {
  std::int64_t words = 0;
  for (const auto& line : lines)
    for (const auto& word : split(line, ' ')) words += word != "·" && !word.empty() ? 1 : 0;
  return std::max(MediaTime::from_seconds(2), MediaTime::from_ms(1000 + 330 * words));
}

MediaTime wished_end(const Wish& wish, MediaTime begin, const std::vector<std::string>& lines) {
  const auto least = begin + reading_time(lines);
  return std::max(least, std::min(wish.moment.end, begin + kLongest)).snapped(kGrid, Round::Nearest);
}

void merge(Placed& into, const Wish& wish) {
  if (std::find(into.lines.begin(), into.lines.end(), wish.text) == into.lines.end())
    into.lines.push_back(wish.text);
  into.text.also.push_back(wish.requirement);
  into.text.coarse = into.text.coarse || wish.moment.coarse;
  into.text.when.end = std::max(into.text.when.end, wished_end(wish, into.text.when.begin, into.lines));
  into.last_spoken = wish.moment.begin;
}

Placed placed_at(const Wish& wish, MediaTime begin) {
  Placed placed;
  placed.lines = {wish.text};
  placed.text.when = {begin, wished_end(wish, begin, placed.lines)};
  placed.text.requirement = wish.requirement;
  placed.text.coarse = wish.moment.coarse;
  placed.last_spoken = wish.moment.begin;
  return placed;
}

// One after the other in the order of speech. Where the next comes before the last has been read, the last
// gives way down to its reading time, then the next waits, then both stand together. False: no room at all.
bool place(std::vector<Placed>& placed, const Wish& wish) {
  const auto begin = std::max(MediaTime(), wish.moment.begin - kLead).snapped(kGrid, Round::Nearest);
  if (placed.empty() || placed.back().text.when.end <= begin) {
    placed.push_back(placed_at(wish, begin));
    return true;
  }
  auto& last = placed.back();
  if (wish.moment.begin - last.last_spoken <= kOneMoment && last.lines.size() < 2) {
    merge(last, wish);
    return true;
  }
  const auto read = last.text.when.begin + reading_time(last.lines);
  if (read - begin <= kMostDelay) {
    last.text.when.end = std::max(read, begin);
    placed.push_back(placed_at(wish, last.text.when.end));
    return true;
  }
  if (last.lines.size() >= kMostLines) return false;
  merge(last, wish);
  return true;
}

// A text that outlasts the film cannot be read there: the last one starts earlier, as far as there is room.
void keep_within(std::vector<Placed>& placed, std::optional<MediaTime> duration) {
  if (!duration || placed.empty()) return;
  auto& when = placed.back().text.when;
  const auto end = duration->snapped(kGrid, Round::Down);
  if (when.end <= end) return;
  const auto read = reading_time(placed.back().lines);
  when.end = std::max(end, when.begin + read);
  const auto room = placed.size() > 1 ? placed[placed.size() - 2].text.when.end : MediaTime();
  const auto earliest = std::max({room, when.begin - kMostDelay, end - read});
  when.begin = std::min(when.begin, earliest);
  when.end = std::max(end, when.begin + read);
}

std::string spoken(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Spoken, Round::Down);
}

void note_what_is_said(OverlayTrack& track, const Requirement& requirement, const std::string& text) {
  if (requirement.said.mentions.empty()) return;
  const auto& mention = requirement.said.mentions.front();
  if (requirement.said.verdict == Verdict::Differs) {
    auto said = mention.amount ? amounts_in_words({*mention.amount}) : std::string{};
    if (said.empty()) said = "something else";
    track.notes.push_back("\"" + text + "\" is as written, but " + said + " is said at " +
                          spoken(mention.when.begin) + ": put one of them right first.");
  } else if (requirement.said.verdict == Verdict::Unsure) {
    track.notes.push_back("\"" + text + "\": please check what is said at " + spoken(mention.when.begin) +
                          ".");
  }
}

void note_coarse(OverlayTrack& track, const std::vector<Wish>& wishes) {
  std::size_t count = 0;
  MediaTime worst;
  for (const auto& wish : wishes) {
    if (!wish.moment.coarse) continue;
    ++count;
    worst = std::max(worst, wish.moment.precision);
  }
  if (count == 0) return;
  const auto tenths = worst.to_ms(Round::Up) / 100 + (worst.to_ms(Round::Up) % 100 != 0 ? 1 : 0);
  track.notes.push_back("The captions time whole lines rather than words: the moments of " +
                        std::to_string(count) + " of " + count_in_words(wishes.size(), "text", "texts") +
                        " may be off by up to " + std::to_string(tenths / 10) + "." +
                        std::to_string(tenths % 10) + " s. Look at them before you use them.");
}

}  // namespace

OverlayTrack plan_overlay(const CheckReport& report, const Recipe& recipe, const Project* project) {
  OverlayTrack track;
  track.clock = overlay_clock(report, project);
  std::vector<Wish> wishes;
  for (std::size_t i = 0; i < report.requirements.size(); ++i) {
    const auto& requirement = report.requirements[i];
    if (!has_overlay(requirement)) continue;
    auto text = text_of(requirement, recipe);
    if (const auto moment = overlay_moment(requirement, recipe, project, track.clock)) {
      note_what_is_said(track, requirement, text);
      wishes.push_back({i, std::move(text), *moment});
      continue;
    }
    const auto elsewhere = moment_elsewhere(requirement, recipe, project);
    track.notes.push_back("\"" + text + "\" has no moment: " +
                          (elsewhere.empty()
                               ? "it is neither said nor filmed."
                               : "it is " + elsewhere + ", which the edit does not tell a place for."));
  }
  std::stable_sort(wishes.begin(), wishes.end(),
                   [](const Wish& a, const Wish& b) { return a.moment.begin < b.moment.begin; });
  std::vector<Placed> placed;
  for (const auto& wish : wishes)
    if (!place(placed, wish))
      track.notes.push_back("\"" + wish.text + "\" found no room at " + spoken(wish.moment.begin) +
                            ": too much is said in too short a time. Put it in by hand.");
  keep_within(placed, report.duration);
  note_coarse(track, wishes);
  for (auto& one : placed) {
    one.text.text = join(one.lines, "\n");
    track.texts.push_back(std::move(one.text));
  }
  return track;
}

}  // namespace panslate
