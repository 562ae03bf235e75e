#include "panslate/project/edit_map.h"

#include <algorithm>
#include <string>

namespace panslate {

namespace {

MediaTime middle_of(const TimeRange& range) {
  return range.begin + range.duration() / 2;
}

// The part of a transcript that one stretch keeps, on the edit's clock.
class Cutting {
 public:
  Cutting(const Transcript& words, const EditMap::Stretch& stretch, Transcript& out)
      : words_(words), stretch_(stretch), out_(out) {}

  void run() {
    auto word = words_.words.begin();
    for (std::uint32_t c = 0; c < words_.cues.size(); ++c) {
      const auto first = word;
      while (word != words_.words.end() && word->cue == c) ++word;
      take(words_.cues[c], first, word);
    }
  }

 private:
  using Words = std::vector<Word>::const_iterator;

  // A word belongs to the stretch that its middle lies in: half a word is none.
  void take(const Cue& cue, Words first, Words last) {
    const auto inside = [&](const Word& word) { return stretch_.clip.contains(middle_of(word.when)); };
    const auto kept = std::count_if(first, last, inside);
    const bool silent = first == last && stretch_.clip.contains(middle_of(cue.when));
    if (kept == 0 && !silent) return;
    Cue out = cue;
    out.when = stretch_.in_edit(cue.when);
    const auto index = static_cast<std::uint32_t>(out_.cues.size());
    const bool whole = kept == last - first;
    if (!whole) out.text.clear();
    for (auto word = first; word != last; ++word) {
      if (!inside(*word)) continue;
      if (!whole) out.text += (out.text.empty() ? "" : " ") + word->text;
      auto copy = *word;
      copy.when = stretch_.in_edit(word->when);
      copy.cue = index;
      out_.words.push_back(std::move(copy));
    }
    // No two cues share an id; a stretch used twice brings its cues twice.
    if (std::any_of(out_.cues.begin(), out_.cues.end(), [&](const Cue& other) { return other.id == out.id; }))
      out.id += "-" + std::to_string(index + 1);
    out_.cues.push_back(std::move(out));
  }

  const Transcript& words_;
  const EditMap::Stretch& stretch_;
  Transcript& out_;
};

}  // namespace

TimeRange EditMap::Stretch::in_edit(TimeRange of_clip) const {
  return {std::max(of_clip.begin, clip.begin) - clip.begin + at,
          std::min(of_clip.end, clip.end) - clip.begin + at};
}

EditMap::EditMap(const Project& project, const Footage& footage) {
  for (const auto& segment : project.segments)
    if (segment.edit_begin && !segment.range.empty())
      stretches_.push_back({segment.media, segment.range, *segment.edit_begin});
  for (std::size_t i = 0; i < project.media.size(); ++i) {
    const auto& media = project.media[i];
    if (!media.edit_begin || has(i)) continue;
    const bool measured = i < footage.clips.size() && footage.clips[i];
    const auto end = measured ? footage.clips[i]->duration : MediaTime::from_seconds(std::int64_t{24} * 3600);
    stretches_.push_back({i, {MediaTime{}, end}, *media.edit_begin});
  }
  std::stable_sort(stretches_.begin(), stretches_.end(),
                   [](const Stretch& a, const Stretch& b) { return a.at < b.at; });
}

bool EditMap::has(std::size_t media) const {
  return std::any_of(stretches_.begin(), stretches_.end(),
                     [&](const Stretch& stretch) { return stretch.media == media; });
}

std::optional<MediaTime> EditMap::in_edit(std::size_t media, MediaTime time) const {
  for (const auto& stretch : stretches_)
    if (stretch.media == media && stretch.clip.contains(time)) return time - stretch.clip.begin + stretch.at;
  return std::nullopt;
}

Transcript EditMap::in_edit(const Transcript& words, std::size_t media) const {
  Transcript out;
  out.file = words.file;
  out.format = words.format;
  out.draft = words.draft;
  for (const auto& stretch : stretches_)
    if (stretch.media == media) Cutting(words, stretch, out).run();
  return out;
}

}  // namespace panslate
