#include "speech/word_times.h"

#include <algorithm>

#include "panslate/base/text.h"

#include "speech/rolling_captions.h"
#include "speech/spoken_words.h"

namespace panslate {

namespace {

constexpr MediaTime kTagPrecision = MediaTime::from_ms(50);

/// Time tags that can be believed: in order and inside the cue.
std::vector<TimeTag> usable_tags(const DraftCue& draft) {
  std::vector<TimeTag> tags;
  MediaTime last = draft.cue.when.begin;
  for (const auto& tag : draft.tags) {
    if (tag.time < last || tag.time > draft.cue.when.end) continue;
    last = tag.time;
    tags.push_back(tag);
  }
  return tags;
}

/// part/whole of a length, without overflow for texts of any length.
MediaTime share_of(MediaTime length, std::int64_t part, std::int64_t whole) {
  return MediaTime::from_ticks(length.ticks() / whole * part + length.ticks() % whole * part / whole);
}

/// Appends words spoken one after the other in `stretch`.
void spread(const std::vector<SpokenWord>& words, std::size_t first, std::size_t last, TimeRange stretch,
            const Word& pattern, std::string_view text, std::vector<Word>& out) {
  const auto spoken = [&](const SpokenWord& word) { return text.substr(word.begin, word.end - word.begin); };
  const auto characters = [&](const SpokenWord& word) {
    return static_cast<std::int64_t>(character_count(spoken(word)));
  };
  std::int64_t total = 0;
  for (std::size_t i = first; i < last; ++i) total += characters(words[i]);
  std::int64_t before = 0;
  for (std::size_t i = first; i < last; ++i) {
    auto& word = out.emplace_back(pattern);
    word.text = spoken(words[i]);
    word.when.begin = stretch.begin + share_of(stretch.duration(), before, total);
    before += characters(words[i]);
    word.when.end = stretch.begin + share_of(stretch.duration(), before, total);
  }
}

/// The words of one cue from `first` on; its stretch may end before the cue does.
void time_cue(const DraftCue& draft, const std::vector<SpokenWord>& words, std::size_t first, MediaTime end,
              std::uint32_t index, std::vector<Word>& out) {
  const auto& cue = draft.cue;
  const auto tags = usable_tags(draft);
  Word pattern;
  pattern.cue = index;
  if (tags.empty()) {
    // A cue without length cannot tell when its words are spoken better than speech itself could.
    const auto spoken = kWordLength * static_cast<std::int64_t>(words.size() - std::min(first, words.size()));
    pattern.precision = cue.when.empty() ? spoken : cue.when.duration();
    spread(words, first, words.size(), {cue.when.begin, end}, pattern, cue.text, out);
    return;
  }
  std::size_t next = first;
  for (std::size_t piece = 0; piece <= tags.size() && next < words.size(); ++piece) {
    const auto begin = piece == 0 ? cue.when.begin : tags[piece - 1].time;
    const auto stop = piece == tags.size() ? cue.when.end : tags[piece].time;
    std::size_t last = next;
    while (last < words.size() && (piece == tags.size() || words[last].begin < tags[piece].offset)) ++last;
    pattern.precision = last - next <= 1 ? kTagPrecision : std::max(kTagPrecision, stop - begin);
    spread(words, next, last, {begin, stop}, pattern, cue.text, out);
    next = last;
  }
}

RollingCue rolling_view(const DraftCue& draft, const std::vector<SpokenWord>& words) {
  RollingCue view{draft.cue.when, {}};
  const std::string_view text = draft.cue.text;
  view.words.reserve(words.size());
  for (const auto& word : words)
    view.words.push_back({text.substr(word.begin, word.end - word.begin), word.starts_line, false});
  if (draft.tags.empty()) return view;
  // The line that holds the first time tag is new as a whole.
  const auto line_end = draft.cue.text.rfind('\n', draft.tags.front().offset);
  const std::size_t new_from = line_end == std::string::npos ? 0 : line_end;
  for (std::size_t i = 0; i < words.size(); ++i) view.words[i].timed = words[i].begin >= new_from;
  return view;
}

}  // namespace

std::vector<Word> time_words(std::vector<DraftCue>& cues) {
  std::vector<std::vector<SpokenWord>> spoken;
  std::vector<RollingCue> views;
  std::size_t count = 0;
  spoken.reserve(cues.size());
  views.reserve(cues.size());
  for (auto& draft : cues) {
    auto text = find_spoken_words(draft.cue.text);
    if (draft.cue.speaker.empty()) draft.cue.speaker = std::move(text.speaker);
    views.push_back(rolling_view(draft, text.words));
    count += text.words.size();
    spoken.push_back(std::move(text.words));
  }
  const auto rolled = find_rolling(views);

  std::vector<Word> words;
  words.reserve(count);
  for (std::size_t i = 0; i < cues.size(); ++i) {
    auto end = cues[i].cue.when.end;
    // A rolling cue stays while the next is spoken; its own words end where that one begins.
    if (rolled[i].rolls && i + 1 < cues.size() && rolled[i + 1].repeated > 0) {
      const auto next = cues[i + 1].cue.when.begin;
      if (next > cues[i].cue.when.begin) end = std::min(end, next);
    }
    time_cue(cues[i], spoken[i], rolled[i].repeated, end, static_cast<std::uint32_t>(i), words);
  }
  return words;
}

}  // namespace panslate
