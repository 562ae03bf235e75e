#include "panslate/check/propose_parts.h"

#include <algorithm>
#include <string>
#include <utility>

#include "check/cut_places.h"
#include "check/spoken_text.h"
#include "check/step_alignment.h"

namespace panslate {

namespace {

// In units of the weight that a word known to one step alone carries (about 1).
constexpr double kTellsStep = 0.35;        // an utterance that speaks of its step at all
constexpr double kRatherThis = 0.6;        // of what it tells of another
constexpr double kTellsEnough = 1.0;       // a stretch that tells it
constexpr double kDraftTellsEnough = 1.5;  // where the words were written by ear, and one may be misheard
// Of two steps as likely as that, neither is proposed.
constexpr double kAboutAsLikely = 0.8;
// Words that tell so little more of one step than of another would do for either.
constexpr double kWouldDo = 0.35;

// Talk beside the step goes along with it for so long; more is a stretch of its own.
constexpr MediaTime kLongestAside = MediaTime::from_seconds(20);
constexpr MediaTime kLongestAfterword = MediaTime::from_seconds(8);
constexpr MediaTime kLongPause = MediaTime::from_seconds(4);

constexpr MediaTime kNearShot = MediaTime::from_seconds(15);

constexpr MediaTime kShortestPart = MediaTime::from_ms(500);
constexpr std::size_t kQuotedTokens = 14;

MediaTime in_whole_ms(MediaTime time) {
  return MediaTime::from_ms(time.to_ms(Round::Nearest));
}

/// Utterances that are judged together.
struct Stretch {
  std::size_t begin = 0;  // utterances
  std::size_t end = 0;
};

/// The talk of one clip, cut where it goes on to another step.
class ClipTalk {
 public:
  ClipTalk(const Project& project, std::size_t media, const Transcript& words, const ClipLog& log)
      : media_(media),
        draft_(words.draft),
        sources_{{&words, project.media[media].id}},
        text_(sources_, TextKind::Speech),
        steps_(project.recipe, text_),
        places_(words.words, log),
        length_(log.facts.duration),
        word_count_(words.words.size()) {
    for (const auto& segment : project.segments)
      if (segment.media == media && !is_unmarked(segment, length_)) marked_.push_back(range_of(segment));
  }

  void propose(PartProposals& out) {
    laid_.clear();
    for (const auto& utterance : text_.utterances()) laid_.push_back(*steps_.step_at(utterance.begin));
    go_on_with_shots();
    const auto enough = draft_ ? kDraftTellsEnough : kTellsEnough;
    MediaTime free_from;
    for (const auto& stretch : stretches()) {
      const auto range = range_of(stretch);
      // Captions whose times run back and forth leave nothing to cut at.
      if (range.duration() < kShortestPart || range.begin < free_from) {
        ++out.untold;
        continue;
      }
      const auto told = steps_.told_in(span_of(stretch));
      const bool after_farewell = span_of(stretch).begin >= text_.farewell();
      if (after_farewell || told.empty() || told.front().weight < enough) {
        ++out.untold;
        continue;
      }
      const auto step = laid_[stretch.begin];
      if (is_between(told, step)) {
        ++out.between_steps;
        continue;
      }
      if (std::any_of(marked_.begin(), marked_.end(),
                      [&](const TimeRange& hers) { return hers.overlaps(range); })) {
        ++out.marked;
        continue;
      }
      free_from = range.end;
      ProposedPart part;
      part.media = media_;
      part.range = range;
      part.step = step;
      part.draft = draft_;
      quote_telling_words(stretch, part);
      out.parts.push_back(std::move(part));
    }
  }

 private:
  // Where her part lies is not known while its times are pending: it may be anywhere in the clip.
  [[nodiscard]] TimeRange range_of(const Segment& segment) const {
    return segment.in.pending || segment.out.pending ? TimeRange{MediaTime(), length_} : segment.range;
  }

  // The step that the order of the talk leads to must be the one that its words tell, too.
  static bool is_between(const std::vector<StepAlignment::Told>& told, std::size_t step) {
    double own = 0;
    double other = 0;
    for (const auto& one : told)
      (one.step == step ? own : other) = std::max(one.step == step ? own : other, one.weight);
    return other >= own * kAboutAsLikely;
  }

  [[nodiscard]] bool shot_starts_before(std::size_t utterance) const {
    return places_.shot_starts_before(first_word(utterance));
  }

  // Where the talk goes on to another step near the start of a shot, and the words between the two would do
  // for either step, it goes on with the shot.
  void go_on_with_shots() {
    for (std::size_t next = 1; next < laid_.size(); ++next) {
      if (laid_[next] == laid_[next - 1] || shot_starts_before(next)) continue;
      const auto before = laid_[next - 1];
      const auto behind = laid_[next];
      double lost = 0;  // by what the words between tell of the step they are laid on now
      for (auto u = next; u > 0 && laid_[u - 1] == before && is_near(u - 1, next); --u) {
        lost += steps_.support(u - 1, before) - steps_.support(u - 1, behind);
        if (lost > kWouldDo) break;
        if (!shot_starts_before(u - 1)) continue;
        std::fill(laid_.begin() + static_cast<std::ptrdiff_t>(u - 1),
                  laid_.begin() + static_cast<std::ptrdiff_t>(next), behind);
        break;
      }
      if (laid_[next - 1] != before) continue;
      lost = 0;
      for (auto u = next; u + 1 < laid_.size() && laid_[u + 1] == behind && is_near(next, u); ++u) {
        lost += steps_.support(u, behind) - steps_.support(u, before);
        if (lost > kWouldDo) break;
        if (!shot_starts_before(u + 1)) continue;
        std::fill(laid_.begin() + static_cast<std::ptrdiff_t>(next),
                  laid_.begin() + static_cast<std::ptrdiff_t>(u + 1), before);
        break;
      }
    }
  }
  [[nodiscard]] bool is_near(std::size_t earlier, std::size_t later) const {
    return when(later).end - when(earlier).begin <= kNearShot;
  }

  [[nodiscard]] std::size_t step_of(std::size_t utterance) const { return laid_[utterance]; }
  // Whether it speaks of the step it was laid on, and not rather of another, as a look ahead does.
  [[nodiscard]] bool tells(std::size_t utterance) const {
    const auto own = steps_.support(utterance, step_of(utterance));
    return own >= kTellsStep && own >= steps_.most_support(utterance) * kRatherThis;
  }
  [[nodiscard]] TimeRange when(std::size_t utterance) const {
    return text_.when(text_.utterances()[utterance]);
  }
  [[nodiscard]] TokenSpan span_of(const Stretch& stretch) const {
    return {text_.utterances()[stretch.begin].begin, text_.utterances()[stretch.end - 1].end};
  }
  [[nodiscard]] std::size_t first_word(std::size_t utterance) const {
    return utterance == text_.utterances().size()
               ? word_count_
               : text_.source_of(text_.utterances()[utterance]).words.first;
  }

  [[nodiscard]] std::vector<Stretch> stretches() const {
    std::vector<Stretch> out;
    const auto count = text_.utterances().size();
    for (std::size_t begin = 0; begin < count;) {
      auto end = begin + 1;
      while (end < count && step_of(end) == step_of(begin)) ++end;
      cut_run({begin, end}, out);
      begin = end;
    }
    return out;
  }

  // What is laid on one step: where it is told, and asides too long to go along with it.
  void cut_run(Stretch run, std::vector<Stretch>& out) const {
    auto begin = run.begin;
    while (begin < run.end) {
      auto telling = begin;
      while (telling < run.end && !tells(telling)) ++telling;
      auto end = telling;
      if (telling == begin || leads_up(begin, telling, run.end)) end = end_of_telling(telling, run.end);
      out.push_back({begin, end});
      begin = end;
    }
  }

  // Whether what is said from the start of a shot on leads up to the words that tell its step.
  [[nodiscard]] bool leads_up(std::size_t begin, std::size_t telling, std::size_t limit) const {
    if (telling == limit || !shot_starts_before(begin) ||
        when(telling).begin - when(begin).begin > kLongestAfterword)
      return false;
    for (auto next = begin + 1; next <= telling; ++next)
      if (shot_starts_before(next)) return false;
    return true;
  }

  // Behind the last utterance that still belongs to the one at `begin`, which tells the step.
  [[nodiscard]] std::size_t end_of_telling(std::size_t begin, std::size_t limit) const {
    auto told = begin;  // the last that tells
    for (auto next = begin + 1; next < limit; ++next) {
      const auto pause = when(next).begin - when(next - 1).end;
      if (pause > kLongPause && shot_starts_before(next)) return next;
      if (when(next).end - when(told).end > kLongestAside && !tells(next)) break;
      if (tells(next)) told = next;
    }
    auto end = told + 1;
    while (end < limit && when(end).end - when(told).end <= kLongestAfterword &&
           when(end).begin - when(end - 1).end <= kLongPause && !shot_starts_before(end))
      ++end;
    return end;
  }

  [[nodiscard]] TimeRange range_of(const Stretch& stretch) const {
    const auto begin = places_.between(first_word(stretch.begin)).begin;
    const auto end = places_.between(first_word(stretch.end)).end;
    // A part may not end past its clip.
    return {in_whole_ms(begin), std::min(in_whole_ms(end), MediaTime::from_ms(length_.to_ms(Round::Down)))};
  }

  [[nodiscard]] bool has_words(TokenSpan span) const {
    for (auto t = span.begin; t < span.end; ++t)
      if (text_[t].kind != TokenKind::Mark) return true;
    return false;
  }

  // The few words of the stretch that say most of the step: no longer than one reads at a glance.
  void quote_telling_words(const Stretch& stretch, ProposedPart& part) const {
    TokenSpan best;
    TokenSpan sentence;
    double most = 0;
    for (auto u = stretch.begin; u < stretch.end; ++u) {
      const auto& whole = text_.utterances()[u];
      std::vector<double> weights;
      weights.reserve(whole.end - whole.begin);
      for (auto t = whole.begin; t < whole.end; ++t) weights.push_back(steps_.word_weight(t, part.step));
      const auto length = std::min(kQuotedTokens, weights.size());
      for (std::size_t from = 0; from + length <= weights.size(); ++from) {
        double weight = 0;
        for (std::size_t i = from; i < from + length; ++i) weight += weights[i];
        if (weight <= most) continue;
        most = weight;
        best = {whole.begin + from, whole.begin + from + length};
        sentence = {whole.begin, whole.end};
      }
    }
    while (best.end > best.begin + 1 && text_[best.end - 1].kind == TokenKind::Mark) --best.end;
    while (best.begin + 1 < best.end && text_[best.begin].kind == TokenKind::Mark) ++best.begin;
    part.said = text_.mention(best);
    part.cut_before = has_words({sentence.begin, best.begin});
    part.cut_behind = has_words({best.end, sentence.end});
  }

  std::size_t media_;
  bool draft_;
  std::vector<TimedText> sources_;
  SpokenText text_;
  StepAlignment steps_;
  CutPlaces places_;
  std::vector<std::size_t> laid_;  // by utterance: its step
  MediaTime length_;
  std::size_t word_count_;
  std::vector<TimeRange> marked_;
};

const Transcript* words_of(const Project& project, const std::string& clip) {
  for (const auto& captions : project.captions)
    if (captions.clock == clip && !captions.text.words.empty()) return &captions.text;
  return nullptr;
}

}  // namespace

bool is_unmarked(const Segment& segment, MediaTime length) {
  const bool says_nothing = segment.steps.empty() && segment.shows.empty() && segment.note.empty() &&
                            segment.framing == Framing::Unknown && segment.at.text.empty() &&
                            !segment.edit_begin && !segment.in.pending && !segment.out.pending;
  // The end is written in milliseconds, of a clip that may be measured more finely.
  return says_nothing && segment.range.begin <= MediaTime() &&
         segment.range.end + MediaTime::from_ms(50) >= length;
}

PartProposals propose_parts(const Project& project, std::span<const ClipLog* const> logs) {
  PartProposals out;
  if (project.recipe.steps.empty()) return out;
  for (std::size_t i = 0; i < project.media.size() && i < logs.size(); ++i) {
    if (project.media[i].role != MediaRole::Camera || logs[i] == nullptr) continue;
    const auto* words = words_of(project, project.media[i].id);
    const auto is_hers = [&](const Segment& segment) {
      return segment.media == i && !is_unmarked(segment, logs[i]->facts.duration);
    };
    if (words != nullptr)
      ClipTalk(project, i, *words, *logs[i]).propose(out);
    else if (std::none_of(project.segments.begin(), project.segments.end(), is_hers))
      (logs[i]->speech.empty() ? out.without_voice : out.without_words).push_back(i);
  }
  return out;
}

}  // namespace panslate
