#include "project/clip_times.h"

#include <algorithm>
#include <string>
#include <utility>

#include "panslate/base/timecode.h"
#include "panslate/base/timestamp.h"

#include "project/entry.h"
#include "project/segments.h"

namespace panslate {

namespace {

std::string clock_words(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Clock);
}

// How far a written time may lie past the end: an editor's last frame, rounded to its grid.
MediaTime one_frame(const ClipFacts& facts) {
  return MediaTime::from_frames(1, facts.picture ? facts.picture->frame_rate : FrameRate{});
}

Error mistake(const Segment& segment, const Place& place, const std::string& what, std::string hint) {
  return {ErrorCode::Malformed, "part " + in_quotes(segment.id) + ": " + what, place, std::move(hint)};
}

class Settler {
 public:
  Settler(Project& project, const std::vector<std::optional<ClipFacts>>& clips,
          const std::vector<std::string>& contents)
      : project_(project), clips_(clips), contents_(contents) {}

  std::vector<Error> settle() && {
    for (auto& segment : project_.segments) {
      if (clips_[segment.media]) settle_range(segment, project_.media[segment.media], *clips_[segment.media]);
      settle_place_in_edit(segment);
    }
    // load_project found none among the times that were known then.
    auto overlaps = overlaps_of(project_);
    mistakes_.insert(mistakes_.end(), overlaps.begin(), overlaps.end());
    return std::move(mistakes_);
  }

 private:
  // The time of a timecode on the clip's clock; a mistake where the clip does not have it.
  std::optional<MediaTime> from_timecode(const Segment& segment, const WrittenTime& written,
                                         const MediaEntry& media, const ClipFacts& facts) {
    const auto add = [&](const std::string& what, std::string hint) {
      mistakes_.push_back(mistake(segment, written.place, what, std::move(hint)));
      return std::nullopt;
    };
    if (!facts.timecode || !facts.picture)
      return add(written.text + " is timecode, and clip " + in_quotes(media.id) + " carries none",
                 "write the time on the clip's own clock, such as 00:00:01.000");
    const FrameRate rate = facts.picture->frame_rate;
    const auto first = parse_timecode(*facts.timecode, rate);
    if (!first)
      return add("clip " + in_quotes(media.id) + " has a timecode that cannot be read: " + *facts.timecode,
                 {});
    const auto label = parse_timecode(written.text, rate);
    if (!label) return add(label.error().message, label.error().hint);
    if (label->mode != first->mode && has_drop_frame(rate))
      return add(written.text + " does not count as clip " + in_quotes(media.id) + " does, which begins at " +
                     *facts.timecode,
                 first->mode == TimecodeMode::Drop ? "write HH:MM:SS;FF" : "write HH:MM:SS:FF");
    auto frames = label->frame - first->frame;
    // A clip may run past midnight, where labels begin again.
    if (frames < 0) {
      const auto last_label = to_timecode(-1, rate, first->mode);
      const auto day = parse_timecode(last_label, rate);
      const auto wrapped = day ? frames + day->frame + 1 : frames;
      if (MediaTime::from_frames(wrapped, rate) > facts.duration + one_frame(facts))
        return add(written.text + " is before the beginning of clip " + in_quotes(media.id) + ", which is " +
                       *facts.timecode,
                   {});
      frames = wrapped;
    }
    return MediaTime::from_frames(frames, rate);
  }

  void settle_range(Segment& segment, const MediaEntry& media, const ClipFacts& facts) {
    if (segment.in.pending) {
      const auto begin = from_timecode(segment, segment.in, media, facts);
      if (!begin) return;
      segment.range.begin = *begin;
      segment.in.pending = false;
      segment.range.end = segment.out.pending ? *begin : parse_timestamp(segment.out.text).value_or(*begin);
    }
    if (segment.out.pending) {
      auto end =
          segment.out.text.empty() ? facts.duration : from_timecode(segment, segment.out, media, facts);
      if (!end) return;
      segment.range.end = *end;
      segment.out.pending = false;
    }
    check_against_length(segment, media, facts);
  }

  [[nodiscard]] bool is_another_now(const MediaEntry& media) const {
    const auto index = static_cast<std::size_t>(&media - project_.media.data());
    return media.content && index < contents_.size() && !contents_[index].empty() &&
           *media.content != contents_[index];
  }

  void contradict(const MediaEntry& media, Error error) {
    if (!is_another_now(media)) {
      mistakes_.push_back(std::move(error));
      return;
    }
    error.message += "; the clip is another recording or export now";
    error.hint = "set its in and out for the clip as it is now";
    project_.to_decide.push_back(std::move(error));
  }

  void check_against_length(Segment& segment, const MediaEntry& media, const ClipFacts& facts) {
    if (facts.duration <= MediaTime()) return;
    const std::string clip =
        "clip " + in_quotes(media.id) + ", which is " + clock_words(facts.duration) + " long";
    if (segment.range.begin >= facts.duration) {
      contradict(media,
                 mistake(segment, segment.in.place,
                         "begins at " + clock_words(segment.range.begin) + ", past the end of " + clip, {}));
      return;
    }
    if (segment.range.empty()) {
      mistakes_.push_back(mistake(
          segment, segment.out.place,
          "ends at " + clock_words(segment.range.end) + ", but begins at " + clock_words(segment.range.begin),
          "out is later than in"));
      return;
    }
    if (segment.range.end > facts.duration + one_frame(facts)) {
      contradict(media, mistake(segment, segment.out.place,
                                "ends at " + clock_words(segment.range.end) + ", past the end of " + clip,
                                R"(without "out" it goes to the end of the clip)"));
      if (!is_another_now(media)) return;
    }
    segment.range.end = std::min(segment.range.end, facts.duration);
  }

  void settle_place_in_edit(Segment& segment) {
    if (segment.at.text.empty()) return;
    const MediaEntry* edit = nullptr;
    const ClipFacts* facts = nullptr;
    for (std::size_t i = 0; i < project_.media.size(); ++i)
      if (project_.media[i].role == MediaRole::Edit) {
        edit = &project_.media[i];
        facts = clips_[i] ? &*clips_[i] : nullptr;
      }
    if (segment.at.pending && edit == nullptr) {
      mistakes_.push_back(mistake(segment, segment.at.place,
                                  segment.at.text + " is timecode, and there is no edit that could carry it",
                                  "write the time from the edit's beginning, such as 00:00:01.000"));
      return;
    }
    if (facts == nullptr) return;
    if (segment.at.pending) {
      const auto begin = from_timecode(segment, segment.at, *edit, *facts);
      if (!begin) return;
      segment.edit_begin = begin;
      segment.at.pending = false;
    }
    if (!segment.edit_begin || segment.in.pending || segment.out.pending || facts->duration <= MediaTime())
      return;
    const auto end = *segment.edit_begin + segment.range.duration();
    if (*segment.edit_begin < facts->duration && end <= facts->duration + one_frame(*facts)) return;
    contradict(*edit,
               mistake(segment, segment.at.place,
                       "stands in the edit from " + clock_words(*segment.edit_begin) + " to " +
                           clock_words(end) + ", and the edit is " + clock_words(facts->duration) + " long",
                       "correct its place, or export the edit again"));
  }

  Project& project_;
  const std::vector<std::optional<ClipFacts>>& clips_;
  const std::vector<std::string>& contents_;
  std::vector<Error> mistakes_;
};

}  // namespace

std::vector<Error> settle_clip_times(Project& project, const std::vector<std::optional<ClipFacts>>& clips,
                                     const std::vector<std::string>& contents) {
  return Settler(project, clips, contents).settle();
}

}  // namespace panslate
