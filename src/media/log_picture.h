#pragma once

#include <deque>
#include <optional>
#include <vector>

#include "panslate/media/clip_log.h"

#include "media/clip_reader.h"
#include "media/shot_finder.h"
#include "media/small_picture.h"

namespace panslate::av {

/// What is told of a clip's picture, frame by frame, and at its end.
class PictureLog {
 public:
  explicit PictureLog(ClipReader& reader) : reader_(&reader) {}

  /// The next frame in the order of time.
  void add(const AVFrame& frame, MediaTime time);
  /// Fills in shots, looks and what is wrong with the picture.
  void finish(ClipLog& log, MediaTime end);

 private:
  // A frame that may be the still of its shot.
  struct Candidate {
    Frame frame;
    std::size_t number = 0;
    MediaTime time;
    float worth = 0;
  };
  struct Kept {
    std::size_t number = 0;
    float worth = 0;
    Still still;
  };
  void consider(const AVFrame& frame, MediaTime time);
  void settle(Candidate candidate);
  void keep_best();
  void note_look(MediaTime time);
  [[nodiscard]] std::optional<Still> still_of(std::int64_t first, std::int64_t last) const;

  ClipReader* reader_;
  PictureShrinker shrinker_;
  PictureComparer comparer_;
  SmallPicture small_;
  std::deque<Candidate> pending_;  // not long enough ago to know whether a shot began since
  std::optional<Candidate> best_;  // of the shot at hand
  std::size_t shot_begin_ = 0;
  std::vector<Kept> kept_;
  std::vector<std::uint64_t> looks_;
};

}  // namespace panslate::av
