#include "media/shot_finder.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "media/mixed_means.h"
#include "media/picture_distance.h"
#include "media/picture_motion.h"

namespace panslate::av {

namespace {

constexpr std::size_t kKept = 48;
// Below it nothing happened but noise.
constexpr float kNoise = 0.8F;
constexpr float kPerhaps = 0.30F;
// Two views with hardly anything in common.
constexpr float kPlain = 1.0F;
// Flashes and frames that are broken last no longer than this.
constexpr std::size_t kFlash = 3;
constexpr std::array<std::size_t, 8> kBlendLengths{6, 9, 12, 16, 20, 24, 30, 38};

constexpr float kFlatSpread = 5.0F;
// Frames of a fade down or up, and of a flat picture that is one by itself.
constexpr std::int64_t kShortestSlope = 5;
constexpr std::int64_t kShortestBetween = 8;

// Each value less the mean of those around it.
template <class Values>
void set_detail(const Values& values, Values& detail, int wide, int high) {
  constexpr int kReach = 2;
  for (int y = 0; y < high; ++y)
    for (int x = 0; x < wide; ++x) {
      float sum = 0;
      int count = 0;
      for (int v = std::max(0, y - kReach); v <= std::min(high - 1, y + kReach); ++v)
        for (int u = std::max(0, x - kReach); u <= std::min(wide - 1, x + kReach); ++u, ++count)
          sum += values[place_of(u, v, wide)];
      const auto at = place_of(x, y, wide);
      detail[at] = values[at] - sum / static_cast<float>(count);
    }
}

// How much of what is fine in one is in the other, at its place: -1 to 1.
template <class Values>
float common_detail(const Values& a, const Values& b) {
  float product = 0;
  float power_a = 1e-3F;
  float power_b = 1e-3F;
  for (std::size_t i = 0; i < a.size(); ++i) {
    product += a[i] * b[i];
    power_a += a[i] * a[i];
    power_b += b[i] * b[i];
  }
  return product / std::sqrt(power_a * power_b);
}

template <class Values>
float mean_of(const Values& values) {
  return static_cast<float>(std::accumulate(values.begin(), values.end(), 0)) /
         static_cast<float>(values.size());
}

// What speaks for a mixture of two pictures.
struct BlendFit {
  float off = 0;       ///< of a frame from where a steady change would have it, in parts of the change
  float residual = 0;  ///< what is no mixture, in parts of the change
  float detail = 0;    ///< that both ends have in common
  float contrast = 0;  ///< of the middle, against the ends: less where two pictures lie over each other
};
// A steady change may leave much over, since things move; an unsteady one, as where the exposure changes,
// little.
constexpr BlendFit kSteady{0.20F, 0.42F, 0.28F, 0.78F};
constexpr BlendFit kLoose{0.36F, 0.20F, 0.24F, 0.74F};
// A camera swept to the side blurs one picture into another too.
constexpr BlendFit kSwept{0.20F, 0.16F, 0.20F, 0.60F};
constexpr float kSweep = 0.35F;
constexpr float kMostLikeness = 0.72F;
// What may be left over in a short one, and where the camera moves at all.
constexpr std::size_t kShortBlend = 12;
constexpr float kLeastTravel = 0.10F;
constexpr float kMostLeftOver = 0.36F;
// From one frame to the next.
constexpr float kSudden = 0.6F;

bool is_within(const BlendFit& fit, const BlendFit& most) {
  return fit.off <= most.off && fit.residual <= most.residual && fit.detail <= most.detail &&
         fit.contrast <= most.contrast;
}

bool is_blend(const BlendFit& fit, float travel, std::size_t length) {
  if (fit.residual > kMostLeftOver && (length < kShortBlend || travel > kLeastTravel)) return false;
  if (travel > kSweep) return is_within(fit, kSwept);
  return is_within(fit, kSteady) || is_within(fit, kLoose);
}

float strength(const FrameNote& note) {
  return note.moved + 0.8F * note.colour;
}

}  // namespace

PictureComparer::PictureComparer() = default;

void PictureComparer::add(const SmallPicture& picture, MediaTime time) {
  Kept kept{picture, {}, {}};
  for (int y = 0; y < kTinyHigh; ++y)
    for (int x = 0; x < kTinyWide; ++x) {
      const auto at = place_of(2 * x, 2 * y, kWide);
      kept.tiny.at(place_of(x, y, kTinyWide)) =
          static_cast<float>(picture.luma[at] + picture.luma[at + 1] + picture.luma[at + kWide] +
                             picture.luma[at + kWide + 1]) /
          4;
    }
  set_detail(kept.tiny, kept.detail, kTinyWide, kTinyHigh);
  FrameNote note;
  note.time = time;
  note.mean = picture.mean;
  note.spread = picture.spread;
  note.sharpness = picture.sharpness;
  note.cb = mean_of(picture.cb);
  note.cr = mean_of(picture.cr);
  if (!kept_.empty()) {
    const auto& before = kept_.back().picture;
    note.still = still_distance(before, picture);
    note.colour = colour_distance(before, picture);
    if (note.still > kNoise || note.colour > 0.05F) {
      note.moved = moved_distance(before, picture);
      note.likeness = likeness_in_place(before, picture);
    }
    const auto motion = motion_between(before, picture);
    note.across = motion.across;
    note.down = motion.down;
  }
  notes_.push_back(note);
  kept_.push_back(kept);
  if (kept_.size() > kKept) kept_.pop_front();
  note_lasting();
  look_for_blends();
}

bool PictureComparer::may_begin_shot() const {
  return strength(notes_.back()) > kPerhaps;
}

// Of the frame kFlash back, now that what comes after it is known.
void PictureComparer::note_lasting() {
  if (kept_.size() <= 2 * kFlash + 1) return;
  const std::size_t at = kFlash;
  auto& note = notes_[notes_.size() - 1 - at];
  if (strength(note) < kPerhaps) return;
  note.lasting = note.moved;
  note.lasting_colour = note.colour;
  // (frames before, frames after), counted from the first that may be new.
  constexpr std::array<std::pair<std::size_t, std::size_t>, 7> kPairs{
      {{1, 1}, {1, 2}, {1, 3}, {2, 0}, {2, 1}, {3, 0}, {3, 1}}};
  for (const auto& [before, after] : kPairs) {
    const auto& a = back(at + before).picture;
    const auto& b = back(at - after).picture;
    note.lasting = std::min(note.lasting, moved_distance(a, b));
    note.lasting_colour = std::min(note.lasting_colour, colour_distance(a, b));
  }
}

// Whether what lies between the last picture and one some way back is a mixture of these two, more and more
// of the last.
void PictureComparer::look_for_blends() {
  const auto& b = kept_.back();
  const auto last = static_cast<std::int64_t>(notes_.size()) - 1;
  for (const std::size_t length : kBlendLengths) {
    if (length >= kept_.size()) return;
    const auto& a = back(length);
    if (a.picture.spread < kFlatSpread || b.picture.spread < kFlatSpread) continue;
    std::array<float, kTiny> step{};
    float power = 0;
    float change = 0;
    for (std::size_t i = 0; i < kTiny; ++i) {
      step[i] = b.tiny[i] - a.tiny[i];
      power += step[i] * step[i];
      change += std::abs(step[i]);
    }
    change /= static_cast<float>(kTiny);
    if (change < 10.0F || sudden(length)) continue;
    float residual = 0;
    float off = 0;
    for (std::size_t k = 1; k < length; ++k) {
      const auto& between = back(length - k);
      float along = 0;
      float size = 0;
      for (std::size_t i = 0; i < kTiny; ++i) {
        const float d = between.tiny[i] - a.tiny[i];
        along += d * step[i];
        size += d * d;
      }
      const float share = along / power;
      residual += std::sqrt(std::max(0.0F, size - share * along) / power);
      off = std::max(off, std::abs(share - static_cast<float>(k) / static_cast<float>(length)));
      if (off > kLoose.off) break;
    }
    residual /= static_cast<float>(length - 1);
    if (likeness_in_place(a.picture, b.picture) > kMostLikeness) continue;
    const float middle = back(length / 2).picture.spread;
    const float ends = (a.picture.spread * a.picture.spread + b.picture.spread * b.picture.spread) / 2;
    const BlendFit fit{off, residual, common_detail(a.detail, b.detail), middle * middle / ends};
    if (!is_blend(fit, net_travel(length), length)) continue;
    if (moved_distance(a.picture, b.picture) < 0.55F) continue;
    note_blend({last - static_cast<std::int64_t>(length), last, change, residual});
  }
}

// Whether something happened at once in the last frames: a cut, a swept camera, a hand before the lens.
bool PictureComparer::sudden(std::size_t frames) const {
  return std::any_of(notes_.end() - static_cast<std::ptrdiff_t>(frames), notes_.end(),
                     [](const FrameNote& note) { return note.moved > kSudden; });
}

// How far the whole picture came in the last frames, in widths or heights.
float PictureComparer::net_travel(std::size_t frames) const {
  float across = 0;
  float down = 0;
  for (std::size_t i = notes_.size() - frames; i < notes_.size(); ++i) {
    across += notes_[i].across;
    down += notes_[i].down;
  }
  return std::abs(across) + std::abs(down);
}

// Every part of a blend is one too: the one that changes most is the whole.
void PictureComparer::note_blend(const Blend& blend) {
  const auto worth = [](const Blend& one) { return one.change * (1 - one.residual); };
  if (!blends_.empty() && blends_.back().last >= blend.first) {
    if (worth(blend) > worth(blends_.back()) * 1.02F) {
      blends_.back() = blend;
      while (blends_.size() > 1 && blends_[blends_.size() - 2].last >= blends_.back().first) {
        if (worth(blends_[blends_.size() - 2]) > worth(blends_.back())) {
          blends_.pop_back();
          break;
        }
        blends_.erase(blends_.end() - 2);
      }
    }
    return;
  }
  blends_.push_back(blend);
}

namespace {

class Changes {
 public:
  Changes(const std::vector<FrameNote>& notes, const std::vector<Blend>& blends)
      : notes_(notes), blends_(blends), count_(static_cast<std::int64_t>(notes.size())) {}

  std::vector<ShotChange> find() && {
    find_fades();
    find_cuts();
    find_dissolves();
    std::sort(found_.begin(), found_.end(), [](const auto& a, const auto& b) { return a.frame < b.frame; });
    return std::move(found_);
  }

 private:
  [[nodiscard]] const FrameNote& note(std::int64_t i) const { return notes_[static_cast<std::size_t>(i)]; }
  [[nodiscard]] bool is_taken(std::int64_t begin, std::int64_t end) const {
    return std::any_of(found_.begin(), found_.end(), [&](const ShotChange& change) {
      const auto from = change.how == ShotStart::Cut ? change.frame : change.begin;
      const auto to = change.how == ShotStart::Cut ? change.frame + 1 : change.end;
      return from < end && begin < to;
    });
  }

  // How far the spread falls steadily, frame by frame, towards `at` from one side.
  [[nodiscard]] std::int64_t slope_from(std::int64_t at, std::int64_t step) const {
    std::int64_t i = at;
    float risen = note(at).spread;
    while (i + step >= 0 && i + step < count_ && std::abs(i - at) < 60) {
      const float next = note(i + step).spread;
      if (next < risen + 0.15F) break;
      // The old picture at another brightness, and no other.
      const float likeness = note(step > 0 ? i + step : i).likeness;
      if (likeness < 0.8F && risen > 2 * kFlatSpread) break;
      risen = next;
      i += step;
    }
    return risen > 3 * kFlatSpread ? std::abs(i - at) : 0;
  }

  // How far it grows brighter, frame by frame, from `at` to one side, up to `limit`.
  [[nodiscard]] std::int64_t brighter_from(std::int64_t at, std::int64_t step, std::int64_t limit) const {
    while (at != limit && note(at + step).mean > note(at).mean + 0.15F) at += step;
    return at;
  }

  // Where a flat stretch is dark: once, or on both sides of a picture that is nearly flat and brighter.
  [[nodiscard]] std::vector<std::pair<std::int64_t, std::int64_t>> dark_runs(std::int64_t begin,
                                                                             std::int64_t end) const {
    constexpr float kDarker = 4;
    float darkest = note(begin).mean;
    for (auto k = begin; k < end; ++k) darkest = std::min(darkest, note(k).mean);
    std::vector<std::pair<std::int64_t, std::int64_t>> runs;
    for (auto k = begin; k < end; ++k) {
      if (note(k).mean > darkest + kDarker) continue;
      if (!runs.empty() && k - runs.back().second < kShortestBetween)
        runs.back().second = k + 1;
      else
        runs.emplace_back(k, k + 1);
    }
    return runs;
  }

  // A fade whose flat frames are `begin` to `end`, the darkest of them `dark`. Where a cut leads to or from a
  // picture that is flat by itself, the fade begins behind it or ends before.
  [[nodiscard]] ShotChange fade_in_flat(std::int64_t begin, std::int64_t end, std::int64_t before,
                                        std::int64_t after,
                                        std::pair<std::int64_t, std::int64_t> dark) const {
    ShotChange fade{ShotStart::Fade, (begin + end) / 2, begin - before, end + after};
    const auto down = brighter_from(dark.first, -1, begin);
    const auto up = brighter_from(dark.second - 1, 1, end - 1) + 1;
    const bool flat_before = before < kShortestSlope && down - begin >= kShortestBetween;
    const bool flat_after = after < kShortestSlope && end - up >= kShortestBetween;
    if (!flat_before && !flat_after) return fade;
    fade.frame = (dark.first + dark.second) / 2;
    if (flat_before) fade.begin = down;
    if (flat_after) fade.end = up;
    return fade;
  }

  void find_fades() {
    for (std::int64_t i = 0; i < count_; ++i) {
      if (note(i).spread >= kFlatSpread) continue;
      std::int64_t end = i;
      while (end < count_ && note(end).spread < kFlatSpread) ++end;
      const auto before = i > 0 ? slope_from(i, -1) : 0;
      const auto after = end < count_ ? slope_from(end - 1, 1) : 0;
      const auto runs = dark_runs(i, end);
      if (i > 0 && end < count_ && (before >= kShortestSlope || after >= kShortestSlope) &&
          !is_taken(i - before, end + after)) {
        if (runs.size() == 2) {
          found_.push_back(
              {ShotStart::Fade, (runs[0].first + runs[0].second) / 2, i - before, runs[0].second});
          found_.push_back(
              {ShotStart::Fade, (runs[1].first + runs[1].second) / 2, runs[1].first, end + after});
        } else {
          found_.push_back(fade_in_flat(i, end, before, after, runs.front()));
        }
      } else if (before >= kShortestSlope || after >= kShortestSlope) {
        ends_.push_back({ShotStart::Fade, 0, i - before, end + after});
      }
      i = end;
    }
  }

  [[nodiscard]] bool in_open_end(std::int64_t i) const {
    return std::any_of(ends_.begin(), ends_.end(),
                       [i](const ShotChange& one) { return i >= one.begin && i < one.end; });
  }

  [[nodiscard]] float busiest_near(std::int64_t i) const {
    float most = 0;
    for (std::int64_t k = -5; k <= 5; ++k)
      if (k != 0 && i + k > 0 && i + k < count_) most = std::max(most, strength(note(i + k)));
    return most;
  }

  // A lid that comes or goes moves everything for some frames; another scene beside it has other colours, at
  // once and for good.
  [[nodiscard]] bool is_other_colours(std::int64_t i) const {
    constexpr float kOther = 0.3F;
    constexpr float kApart = 2.5F;
    if (note(i).lasting_colour < kOther) return false;
    float most = 0;
    for (std::int64_t k = -5; k <= 5; ++k)
      if (k != 0 && i + k > 0 && i + k < count_) most = std::max(most, note(i + k).colour);
    return note(i).colour > kApart * most;
  }

  // The last of what moves a lid before the picture: of the same colours, among other great moves, and less
  // of it is seen from a frame further away.
  [[nodiscard]] bool is_swept_in(std::int64_t i) const {
    constexpr float kSameColours = 0.1F;
    constexpr float kLasting = 0.8F;
    constexpr float kBusy = 0.35F;
    return note(i).lasting_colour < kSameColours && note(i).lasting < kLasting * note(i).moved &&
           busiest_near(i) > kBusy;
  }

  [[nodiscard]] bool repeats_near(std::int64_t i) const {
    constexpr float kSame = 0.06F;
    return i > 2 && note(i - 1).still < kSame && note(i - 2).still < kSame;
  }

  void find_cuts() {
    for (std::int64_t i = 1; i < count_; ++i) {
      const auto& here = note(i);
      const float strong = strength(here);
      if (here.moved < 0.4F || strong < 0.5F) continue;
      // Near the ends of a clip nothing tells a flash from a cut.
      const bool known =
          i > static_cast<std::int64_t>(kFlash) && i < count_ - static_cast<std::int64_t>(kFlash);
      if (known && here.lasting + 0.8F * here.lasting_colour < 0.4F) continue;
      if (known && here.lasting < 0.28F) continue;
      if (!known) continue;
      if (strong < 1.8F * busiest_near(i) && !is_other_colours(i)) continue;
      if (is_swept_in(i)) continue;
      // Where a phone drops frames, each that comes looks like a cut beside those that are repeated.
      if (repeats_near(i) && strong < kPlain) continue;
      if (is_taken(i, i + 1) || in_open_end(i)) continue;
      found_.push_back({ShotStart::Cut, i, i, i});
    }
  }

  void find_dissolves() {
    // What pictures in their place tell comes first: it is the surer.
    for (const auto& found : {blends_, mixed_means(notes_)})
      for (const auto& blend : found) {
        if (is_taken(blend.first + 1, blend.last)) continue;
        found_.push_back(
            {ShotStart::Dissolve, (blend.first + blend.last + 1) / 2, blend.first + 1, blend.last});
      }
  }

  const std::vector<FrameNote>& notes_;
  const std::vector<Blend>& blends_;
  std::int64_t count_;
  std::vector<ShotChange> found_;
  std::vector<ShotChange> ends_;  // the clip begins out of nothing, or ends in it
};

}  // namespace

std::vector<ShotChange> shot_changes(const std::vector<FrameNote>& notes, const std::vector<Blend>& blends) {
  return Changes(notes, blends).find();
}

}  // namespace panslate::av
