#include <algorithm>
#include <map>
#include <set>
#include <string_view>

#include "panslate/base/text.h"
#include "panslate/deliver/pickup_sheet.h"
#include "panslate/deliver/pickup_words.h"

#include "deliver/page_marks.h"
#include "deliver/report_context.h"

namespace panslate {

namespace {

constexpr std::size_t kAltLength = 90;    // characters: a screen reader says all of it
constexpr std::size_t kWordsAround = 24;  // at most, on either side of the words that decided
constexpr std::size_t kWordsAtLeast = 7;  // even where that is another sentence: it says where we are

std::string words_of(const Transcript& transcript, std::size_t begin, std::size_t end) {
  return page_text(SpokenSpan{&transcript, begin, end}.text());
}

// A number is not parted from what it counts: "700 ml" stays on one line.
std::string held_together(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool between =
        text[i] == ' ' && i > 0 && i + 1 < text.size() && text[i - 1] >= '0' && text[i - 1] <= '9';
    out += between ? std::string("\u00A0") : std::string(1, text[i]);
  }
  return out;
}

// The words that decided, within what she said before and after.
PageData quote(const ReportContext& context, const Mention& mention) {
  PageData data;
  data.set("words", page_text(mention.text));
  for (const auto* name : {"before", "after", "cut_before", "cut_after"}) set_flag(data, name, false);
  const auto span = context.spoken_words.find(mention.media, mention.when);
  if (span.empty()) return data;
  const auto& transcript = *span.transcript;
  const auto sentence = context.spoken_words.sentence_around(span);
  auto begin = std::max(sentence.begin, span.begin - std::min(span.begin, kWordsAround));
  auto end = std::min(sentence.end, span.end + kWordsAround);
  const auto reach = [](std::size_t from) { return from - std::min(from, kWordsAtLeast); };
  begin = std::min(begin, reach(span.begin));
  end = std::max(end, std::min(transcript.words.size(), span.end + kWordsAtLeast));
  set_if(data, "before", words_of(transcript, begin, span.begin));
  set_if(data, "after", words_of(transcript, span.end, end));
  data.set("words", words_of(transcript, span.begin, span.end));
  set_flag(data, "cut_before", begin > 0);
  set_flag(data, "cut_after", end < transcript.words.size());
  return data;
}

/// Which part of a clip pictures a line, looked up rather than searched.
class PicturesOfLines {
 public:
  explicit PicturesOfLines(const ReportContext& context) : context_(context) {
    const auto& segments = context.input.segments;
    for (std::size_t i = 0; i < segments.size(); ++i) {
      if (!segments[i].still || segments[i].still->jpeg.empty()) continue;
      by_id_.emplace(segments[i].id, i);
      for (const auto step : segments[i].steps) of_step_.emplace(step, i);
    }
    first_filmed_use_.resize(context.recipe.ingredients.size());
    for (std::size_t s = 0; s < context.recipe.steps.size(); ++s)
      for (const auto i : context.recipe.steps[s].uses)
        if (i < first_filmed_use_.size() && !first_filmed_use_[i] && of_step_.contains(s))
          first_filmed_use_[i] = s;
  }

  [[nodiscard]] const SegmentPicture* picture_of(const Requirement& requirement) const {
    const auto& segments = context_.input.segments;
    for (const auto& id : requirement.shown.segments)
      if (const auto found = by_id_.find(id); found != by_id_.end()) return &segments[found->second];
    if (!requirement.shown.segments.empty() || requirement.kind == RequirementKind::Yield) return nullptr;
    std::optional<std::size_t> step = requirement.index;
    if (requirement.kind == RequirementKind::Ingredient)
      step =
          requirement.index < first_filmed_use_.size() ? first_filmed_use_[requirement.index] : std::nullopt;
    if (!step) return nullptr;
    const auto found = of_step_.find(*step);
    return found == of_step_.end() ? nullptr : &segments[found->second];
  }

 private:
  const ReportContext& context_;
  std::map<std::string_view, std::size_t> by_id_;
  std::map<std::size_t, std::size_t> of_step_;
  std::vector<std::optional<std::size_t>> first_filmed_use_;
};

std::string alt_of(const ReportContext& context, const SegmentPicture& picture) {
  auto out = "Still from " + page_text(picture.clip, 80);
  if (!picture.steps.empty() && picture.steps.front() < context.recipe.steps.size())
    out += ": " + page_text(context.recipe.steps[picture.steps.front()].text, kAltLength);
  return out;
}

PageData jobs_of(const ReportContext& context, std::size_t requirement, ClockNaming naming) {
  PageData list(PageData::type::list);
  for (const auto p : context.pickups_of[requirement]) {
    const auto& pickup = (*context.input.pickups)[p];
    PageData data;
    set_if(data, "place", page_text(pickup_place(pickup, naming), 120));
    data.set("what", page_text(pickup.what));
    set_if(data, "fit", fit_in_words(pickup.room, pickup.takes));
    list.push_back(data);
  }
  return list;
}

}  // namespace

PageData problem_cards(const ReportContext& context, PageStills& stills) {
  PageData list(PageData::type::list);
  const PicturesOfLines pictures(context);
  const auto naming = clock_naming(*context.input.pickups);
  for (const auto& line : context.digest.attention) {
    const auto& requirement = context.report.requirements[line.requirement];
    PageData data;
    data.set("id", card_id(line.requirement));
    data.set("line_id", line_id(line.requirement));
    data.set("kind", std::string(kind_word(requirement.kind)));
    set_mark(data, line_mark(requirement));
    data.set("written", page_text(line.written));
    data.set("findings", findings_of(context, line.requirement));
    set_if(data, "when", page_text(line.when, 120));
    set_if(data, "why", held_together(page_text(line.why)));
    set_list(data, "jobs", jobs_of(context, line.requirement, naming));
    set_flag(data, "quote", false);
    set_flag(data, "on_picture", false);
    set_flag(data, "play", false);
    const Mention* moment = nullptr;
    if (!requirement.said.mentions.empty()) {
      moment = &requirement.said.mentions.front();
      data.set("quote", quote(context, *moment));
    }
    if (!requirement.on_text.mentions.empty() && requirement.on_text.verdict != Verdict::Match) {
      const auto& text = requirement.on_text.mentions.front();
      PageData on_picture;
      on_picture.set("text", page_text(text.text));
      on_picture.set("time", spoken(text.when.begin));
      data.set("on_picture", on_picture);
      // Said right: what must be looked at is the text.
      if (moment == nullptr || requirement.said.verdict == Verdict::Match) moment = &text;
    }
    if (moment != nullptr) {
      context.film.set_play(data, moment->when.begin, moment->media);
    } else {
      for (const auto p : context.pickups_of[line.requirement]) {
        const auto& pickup = (*context.input.pickups)[p];
        if (pickup.at) context.film.set_play(data, *pickup.at, pickup.media);
      }
    }
    const auto still = context.input.moments.find(line.requirement);
    if (still != context.input.moments.end() && !still->second.jpeg.empty()) {
      const auto caption = "The film at " + spoken(still->second.time);
      stills.set_picture(data, &still->second, caption);
      data.set("caption", caption);
    } else if (const auto* picture = pictures.picture_of(requirement)) {
      stills.set_picture(data, &*picture->still, alt_of(context, *picture));
      data.set("caption", caption_of(*picture));
    } else {
      set_flag(data, "picture", false);
    }
    list.push_back(data);
  }
  return list;
}

PageData filmed_steps(const ReportContext& context, PageStills& stills) {
  const auto& segments = context.input.segments;
  std::vector<std::vector<std::size_t>> of_step(context.recipe.steps.size() + 1);
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const auto& steps = segments[i].steps;
    const auto known = !steps.empty() && steps.front() < context.recipe.steps.size();
    of_step[known ? steps.front() : context.recipe.steps.size()].push_back(i);
  }
  PageData list(PageData::type::list);
  for (std::size_t s = 0; s < of_step.size(); ++s)
    for (const auto i : of_step[s]) {
      const auto& picture = segments[i];
      PageData data;
      std::vector<std::string> numbers;
      for (const auto step : picture.steps)
        if (step < context.recipe.steps.size()) numbers.push_back(std::to_string(step + 1));
      set_if(data, "steps", join(numbers, ", "));
      set_flag(data, "several", numbers.size() > 1);
      stills.set_picture(data, picture.still ? &*picture.still : nullptr, alt_of(context, picture));
      data.set("caption", caption_of(picture));
      // In the film where it stands there: a browser plays that, but not what every camera writes.
      if (picture.edit_begin && context.input.playable_edit)
        context.film.set_play(data, *picture.edit_begin, *context.input.playable_edit);
      else
        context.film.set_play(data, picture.range.begin, picture.clip);
      list.push_back(data);
    }
  return list;
}

}  // namespace panslate
