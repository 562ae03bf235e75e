#include "check/cut_places.h"

#include <algorithm>
#include <optional>

namespace panslate {

namespace {

// A gap of word times, or a pause of the voice, that is worth the name.
constexpr MediaTime kLeastGap = MediaTime::from_ms(200);
constexpr MediaTime kLeastPause = MediaTime::from_ms(150);
// What is left of a pause before the voice sets in, so that the cut does not clip the breath. Common
// practice, no source.
constexpr MediaTime kBreath = MediaTime::from_ms(300);

MediaTime distance(MediaTime a, MediaTime b) {
  return a < b ? b - a : a - b;
}

MediaTime before_voice(const TimeRange& pause) {
  return pause.end - std::min(kBreath, pause.duration() / 2);
}

}  // namespace

CutPlaces::CutPlaces(const std::vector<Word>& words, const ClipLog& log)
    : words_(words), length_(log.facts.duration) {
  for (const auto& word : words) {
    const auto last = last_end_.empty() ? MediaTime() : last_end_.back();
    last_end_.push_back(std::min(length_, std::max({last, word.when.begin, word.when.end})));
  }
  first_begin_.resize(words.size());
  auto first = length_;
  for (std::size_t i = words.size(); i-- > 0;)
    first_begin_[i] = first = std::clamp(words[i].when.begin, MediaTime(), first);
  for (const auto& shot : log.shots)
    if (shot.into) shots_.push_back(shot.when.begin);
  std::sort(shots_.begin(), shots_.end());
  for (std::size_t i = 0; i < log.speech.size(); ++i) {
    const TimeRange pause{i == 0 ? MediaTime() : log.speech[i - 1].end, log.speech[i].begin};
    if (pause.duration() >= kLeastPause) pauses_.push_back(pause);
  }
  if (!log.speech.empty() && length_ - log.speech.back().end >= kLeastPause)
    pauses_.push_back({log.speech.back().end, length_});
  for (const auto& word : words)
    if (!word.when.empty()) spoken_.push_back(word.when);
  std::sort(spoken_.begin(), spoken_.end(),
            [](const TimeRange& a, const TimeRange& b) { return a.begin < b.begin; });
  std::vector<TimeRange> joined;
  for (const auto& one : spoken_) {
    if (!joined.empty() && joined.back().overlaps(one))
      joined.back().end = std::max(joined.back().end, one.end);
    else
      joined.push_back(one);
  }
  spoken_ = std::move(joined);
}

TimeRange CutPlaces::gap(std::size_t after) const {
  return {after == 0 ? MediaTime() : last_end_[after - 1],
          after == words_.size() ? length_ : first_begin_[after]};
}

// Where the sound tells that the voice sets in near the word, there; else shortly before the word.
MediaTime CutPlaces::in_pause(const TimeRange& gap) const {
  std::optional<MediaTime> best;
  for (const auto& pause : pauses_) {
    if (!pause.overlaps(gap) || distance(pause.end, gap.end) > kReach) continue;
    const auto place = std::clamp(before_voice(pause), gap.begin, gap.end);
    if (!best || distance(place, gap.end) < distance(*best, gap.end)) best = place;
  }
  return best.value_or(before_voice(gap));
}

// A time that no word is spoken at: `time` itself, or the nearer edge of the words spoken then.
MediaTime CutPlaces::beside_words(MediaTime time) const {
  const auto behind = std::upper_bound(spoken_.begin(), spoken_.end(), time,
                                       [](MediaTime t, const TimeRange& one) { return t < one.begin; });
  if (behind == spoken_.begin()) return time;
  const auto& one = *std::prev(behind);
  if (time <= one.begin || one.end <= time) return time;
  return std::min(length_, time - one.begin <= one.end - time ? one.begin : one.end);
}

MediaTime CutPlaces::without_gap(std::size_t after, const TimeRange& gap) const {
  const auto wanted = gap.end;
  // Words spread over their caption stand only roughly where they are spoken: there the sound knows better.
  MediaTime reach;
  if (after > 0) reach = std::max(reach, words_[after - 1].precision);
  if (after < words_.size()) reach = std::max(reach, words_[after].precision);
  reach = std::min(reach, kReach);
  const TimeRange* best = nullptr;
  const auto off = [&](const TimeRange& pause) {
    return distance(std::clamp(wanted, pause.begin, pause.end), wanted);
  };
  if (reach >= kLeastGap)
    for (const auto& pause : pauses_)
      if (off(pause) <= reach && (best == nullptr || off(pause) < off(*best))) best = &pause;
  if (best != nullptr) {
    const auto shot = std::lower_bound(shots_.begin(), shots_.end(), best->begin);
    const bool has_shot =
        shot != shots_.end() && *shot <= best->end && distance(*shot, wanted) <= reach + kLeastGap;
    return has_shot ? *shot : std::clamp(wanted, best->begin, before_voice(*best));
  }
  return beside_words(gap.end < gap.begin ? wanted : gap.begin + gap.duration() / 2);
}

CutPlaces::Cut CutPlaces::between(std::size_t after) const {
  const auto gap = this->gap(after);
  const bool last = after == words_.size();
  if (!last && gap.duration() < kLeastGap) {
    const auto place = without_gap(after, gap);
    return {place, place};
  }
  // The last shot shortly before the next word, and the first behind the word before.
  Cut cut;
  cut.begin = last ? length_ : in_pause(gap);
  const auto behind = std::upper_bound(shots_.begin(), shots_.end(), gap.end);
  if (!last && behind != shots_.begin() && *std::prev(behind) >= std::max(gap.begin, gap.end - kReach))
    cut.begin = *std::prev(behind);
  cut.end = cut.begin;
  const auto shot = std::lower_bound(shots_.begin(), shots_.end(), gap.begin);
  if (shot != shots_.end() && *shot < cut.end) cut.end = *shot;
  cut.end = std::min(cut.end, gap.begin + kLongestSilence);
  return cut;
}

bool CutPlaces::shot_starts_before(std::size_t word) const {
  const auto pause = gap(word);
  if (pause.duration() < kLeastGap) return false;
  const auto shot = std::lower_bound(shots_.begin(), shots_.end(), pause.begin);
  return shot != shots_.end() && *shot <= pause.end;
}

}  // namespace panslate
