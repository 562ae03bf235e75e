#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <vector>

#include "panslate/media/clip_log.h"

#include "media/frame_note.h"
#include "media/small_picture.h"

/// Where one shot ends and the next begins, told from small pictures.
namespace panslate::av {

/// Compares each picture with those shortly before it, while they are there: what is far back is forgotten,
/// so memory for pictures is bounded whatever a clip's length.
class PictureComparer {
 public:
  PictureComparer();
  /// The next picture; its note comes to the end of notes().
  void add(const SmallPicture& picture, MediaTime time);

  [[nodiscard]] const std::vector<FrameNote>& notes() const { return notes_; }
  [[nodiscard]] const std::vector<Blend>& blends() const { return blends_; }
  /// Whether the last picture begins something that may be another shot.
  [[nodiscard]] bool may_begin_shot() const;

 private:
  static constexpr int kTinyWide = kWide / 2;
  static constexpr int kTinyHigh = kHigh / 2;
  static constexpr std::size_t kTiny = std::size_t{kTinyWide} * kTinyHigh;
  struct Kept {
    SmallPicture picture;
    std::array<float, kTiny> tiny{};
    std::array<float, kTiny> detail{};  ///< tiny less what surrounds it
  };
  [[nodiscard]] const Kept& back(std::size_t count) const { return kept_[kept_.size() - 1 - count]; }
  void note_lasting();
  void look_for_blends();
  [[nodiscard]] bool sudden(std::size_t frames) const;
  [[nodiscard]] float net_travel(std::size_t frames) const;
  void note_blend(const Blend& blend);

  std::deque<Kept> kept_;
  std::vector<FrameNote> notes_;
  std::vector<Blend> blends_;
};

/// A change from one shot to the next.
struct ShotChange {
  ShotStart how = ShotStart::Cut;
  std::int64_t frame = 0;  ///< the first of the new shot
  std::int64_t begin = 0;  ///< the transition's first frame and the one past its last; a cut has none
  std::int64_t end = 0;
};

/// In the order of time, none within another.
[[nodiscard]] std::vector<ShotChange> shot_changes(const std::vector<FrameNote>& notes,
                                                   const std::vector<Blend>& blends);

}  // namespace panslate::av
