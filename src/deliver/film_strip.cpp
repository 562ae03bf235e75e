#include <algorithm>
#include <array>
#include <cstdint>
#include <functional>
#include <map>
#include <queue>

#include "panslate/base/text.h"

#include "deliver/page_marks.h"
#include "deliver/report_context.h"

namespace panslate {

namespace {

// The strip is set for this width; the page's script sets it again for the width it finds.
constexpr double kWidth = 900;  // pixels
constexpr double kMarkWidth = 26;
constexpr std::size_t kMostTicks = 9;
constexpr std::size_t kLongestHeard = 90;  // characters: a screen reader says all of it

struct StripMark {
  MediaTime at;
  PageMark mark;
  std::string target;
  std::string label;
};

struct Band {
  MediaTime begin;
  std::size_t step = 0;
};

/// What is said and written on one clock.
struct Strip {
  std::vector<StripMark> said;
  std::vector<StripMark> on_picture;
  std::vector<Band> bands;
  MediaTime end;
};

std::string permille(MediaTime at, MediaTime length) {
  const auto thousandths =
      length > MediaTime() ? static_cast<std::int64_t>(at.seconds() / length.seconds() * 100'000) : 0;
  const auto bounded = std::clamp<std::int64_t>(thousandths, 0, 100'000);
  auto fraction = std::to_string(1000 + bounded % 1000).substr(1);
  return std::to_string(bounded / 1000) + "." + fraction;
}

// The lowest free lane for each mark, from left to right. Gives the count of lanes.
std::size_t place_in_lanes(const std::vector<StripMark>& marks, MediaTime length,
                           std::vector<std::size_t>& lanes) {
  using Taken = std::pair<double, std::size_t>;  // until where, which lane
  std::priority_queue<Taken, std::vector<Taken>, std::greater<>> taken;
  std::priority_queue<std::size_t, std::vector<std::size_t>, std::greater<>> free;
  std::size_t count = 0;
  for (const auto& mark : marks) {
    const auto x = length > MediaTime() ? mark.at.seconds() / length.seconds() * kWidth : 0.0;
    for (; !taken.empty() && taken.top().first <= x; taken.pop()) free.push(taken.top().second);
    auto lane = count;
    if (free.empty()) {
      ++count;
    } else {
      lane = free.top();
      free.pop();
    }
    taken.emplace(x + kMarkWidth, lane);
    lanes.push_back(lane);
  }
  return count;
}

PageData marks_data(std::vector<StripMark>& marks, MediaTime length, const char* label) {
  std::stable_sort(marks.begin(), marks.end(),
                   [](const StripMark& a, const StripMark& b) { return a.at < b.at; });
  std::vector<std::size_t> lanes;
  const auto count = place_in_lanes(marks, length, lanes);
  PageData list(PageData::type::list);
  for (std::size_t i = 0; i < marks.size(); ++i) {
    PageData data;
    set_mark(data, marks[i].mark);
    data.set("target", marks[i].target);
    data.set("label", marks[i].label);
    data.set("t", seconds_text(marks[i].at));
    data.set("x", permille(marks[i].at, length));
    data.set("lane", std::to_string(lanes[i]));
    list.push_back(data);
  }
  PageData row;
  row.set("label", std::string(label));
  row.set("lanes", std::to_string(count));
  row.set("marks", list);
  return row;
}

PageData ticks_data(MediaTime length) {
  static constexpr std::array<std::int64_t, 13> kSteps{5,   10,  15,   30,   60,   120,  300,
                                                       600, 900, 1800, 3600, 7200, 14400};
  auto step = kSteps.back();
  const auto seconds = length.to_ms(Round::Down) / 1000;
  for (const auto one : kSteps)
    if (seconds / one <= static_cast<std::int64_t>(kMostTicks)) {
      step = one;
      break;
    }
  while (seconds / step > static_cast<std::int64_t>(kMostTicks)) step *= 2;
  PageData list(PageData::type::list);
  // A tick near the end would run into the length that stands there.
  for (std::int64_t at = 0; at <= seconds; at += step) {
    PageData tick;
    tick.set("x", permille(MediaTime::from_seconds(at), length));
    tick.set("time", spoken(MediaTime::from_seconds(at)));
    list.push_back(tick);
  }
  return list;
}

PageData bands_data(std::vector<Band>& bands, MediaTime length, const Recipe& recipe) {
  std::stable_sort(bands.begin(), bands.end(),
                   [](const Band& a, const Band& b) { return a.begin < b.begin; });
  PageData list(PageData::type::list);
  for (std::size_t i = 0; i < bands.size();) {
    auto next = i + 1;
    while (next < bands.size() && bands[next].step == bands[i].step) ++next;
    const auto end = next < bands.size() ? bands[next].begin : length;
    if (end > bands[i].begin) {
      PageData data;
      data.set("x", permille(bands[i].begin, length));
      data.set("width", permille(end - bands[i].begin, length));
      data.set("number", std::to_string(bands[i].step + 1));
      data.set("time", spoken(bands[i].begin));
      data.set("text", page_text(recipe.steps[bands[i].step].text, 60));
      list.push_back(data);
    }
    i = next;
  }
  return list;
}

std::map<std::string, Strip> strips_of(const ReportContext& context) {
  std::map<std::string, Strip> strips;
  const auto add = [&](const Mention& mention, PageMark mark, std::size_t r, bool on_picture) {
    auto& strip = strips[mention.media];
    strip.end = std::max(strip.end, mention.when.end);
    const auto& requirement = context.report.requirements[r];
    auto label = spoken(mention.when.begin) + " " + page_text(requirement.text, 70) + ": " +
                 std::string(mark.words) + " “" + page_text(mention.text, kLongestHeard) + "”";
    (on_picture ? strip.on_picture : strip.said)
        .push_back({mention.when.begin, mark, "#" + home_of(context, r), std::move(label)});
  };
  for (std::size_t r = 0; r < context.report.requirements.size(); ++r) {
    const auto& requirement = context.report.requirements[r];
    if (requirement.kind == RequirementKind::Step) {
      if (requirement.index >= context.recipe.steps.size()) continue;
      for (const auto& mention : requirement.said.mentions) {
        auto& strip = strips[mention.media];
        strip.bands.push_back({mention.when.begin, requirement.index});
        strip.end = std::max(strip.end, mention.when.end);
      }
      continue;
    }
    for (const auto* channel : {&requirement.said, &requirement.on_text}) {
      const bool on_picture = channel == &requirement.on_text;
      for (std::size_t m = 0; m < channel->mentions.size(); ++m)
        add(channel->mentions[m],
            m > 0        ? kNamedAgain
            : on_picture ? on_picture_mark(channel->verdict)
                         : said_mark(channel->verdict),
            r, on_picture);
    }
  }
  // Extras name no clip; with one clock there is no doubt whose time it is.
  if (strips.size() == 1)
    for (const auto& extra : context.report.extras) {
      auto& strip = strips.begin()->second;
      strip.end = std::max(strip.end, extra.when.end);
      strip.said.push_back({extra.when.begin, kBesideRecipe, "#extras",
                            spoken(extra.when.begin) + " " + std::string(kBesideRecipe.words) + ": “" +
                                page_text(extra.text, kLongestHeard) + "”"});
    }
  return strips;
}

}  // namespace

PageData film_strips(const ReportContext& context) {
  auto strips = strips_of(context);
  PageData list(PageData::type::list);
  for (auto& [media, strip] : strips) {
    const auto url = context.film.url_of(media);
    const bool whole_film = (!url.empty() && url == context.film.url()) || strips.size() == 1;
    auto length = strip.end;
    if (whole_film && context.report.duration) length = std::max(length, *context.report.duration);
    if (length <= MediaTime()) continue;
    PageData data;
    set_if(data, "clip", strips.size() > 1 ? page_text(media, 80) : std::string{});
    set_if(data, "plays", url);
    data.set("length", seconds_text(length));
    data.set("length_words", spoken(length));
    set_list(data, "bands", bands_data(strip.bands, length, context.recipe));
    data.set("ticks", ticks_data(length));
    PageData rows(PageData::type::list);
    if (!strip.said.empty()) rows.push_back(marks_data(strip.said, length, "Said"));
    if (!strip.on_picture.empty()) rows.push_back(marks_data(strip.on_picture, length, "On the picture"));
    data.set("rows", rows);
    list.push_back(data);
  }
  return list;
}

}  // namespace panslate
