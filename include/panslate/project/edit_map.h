#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/project/project.h"
#include "panslate/speech/transcript.h"

namespace panslate {

/// Which stretch of a clip stands where in the edit: by the segments that say so ("at"), and by media laid
/// under it whole (narration with "at"). Rates are one to one: what is sped up in the edit has no place here.
class EditMap {
 public:
  /// The project must have been measured: segments whose in or out is still pending have no place.
  EditMap(const Project& project, const Footage& footage);

  struct Stretch {
    std::size_t media = 0;  ///< index into Project::media
    TimeRange clip;         ///< on the clip's clock
    MediaTime at;           ///< where its beginning stands on the edit's clock

    /// What the edit has of a range of the clip, on its clock. The two must overlap.
    [[nodiscard]] TimeRange in_edit(TimeRange of_clip) const;
  };
  /// In the order of the edit.
  [[nodiscard]] const std::vector<Stretch>& stretches() const { return stretches_; }
  [[nodiscard]] bool has(std::size_t media) const;

  /// Where a moment of a clip stands in the edit; empty where it was cut.
  [[nodiscard]] std::optional<MediaTime> in_edit(std::size_t media, MediaTime time) const;

  /// The words of a clip as the edit has them: cues and words moved to the edit's clock, what was cut left
  /// out. A cue that is cut in two keeps, in each part, the words that lie in it; a stretch used twice is
  /// said twice.
  [[nodiscard]] Transcript in_edit(const Transcript& words, std::size_t media) const;

 private:
  std::vector<Stretch> stretches_;
};

}  // namespace panslate
