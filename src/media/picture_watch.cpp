#include "media/picture_watch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <string>

namespace panslate::av {

namespace {

// Common practice, no source, but for the two seconds of frozen pictures, which are the default of FFmpeg's
// freezedetect filter.
constexpr float kBlackMean = 24;
constexpr float kBlackSpread = 6;
constexpr MediaTime kShortestBlack = MediaTime::from_ms(200);
constexpr float kFrozen = 0.06F;
constexpr float kCodedAnew = 0.8F;
constexpr MediaTime kShortestFrozen = MediaTime::from_seconds(2);
constexpr MediaTime kShortestLight = MediaTime::from_seconds(1);
constexpr MediaTime kShortestBlur = MediaTime::from_ms(800);
constexpr MediaTime kShortestShake = MediaTime::from_seconds(1);
// Shares of the picture's width from one frame to the next, against the drift of half a second.
constexpr float kShake = 0.004F;

class Watch {
 public:
  Watch(const std::vector<FrameNote>& notes, MediaTime end) : notes_(notes), end_(end) {}

  std::vector<ClipFault> find(bool variable_rate) && {
    const auto black = [](const FrameNote& note) {
      return note.mean < kBlackMean && note.spread < kBlackSpread;
    };
    mark(FaultKind::Black, kShortestBlack, {}, black);
    mark(FaultKind::Frozen, kShortestFrozen, {},
         [&](const FrameNote& note) { return is_frozen(note) && !black(note); });
    mark(FaultKind::Dark, kShortestLight, "little can be seen",
         [&](const FrameNote& note) { return !black(note) && note.mean + 1.5F * note.spread < 62; });
    mark(FaultKind::Bright, kShortestLight, "most of the picture is white",
         [](const FrameNote& note) { return note.mean - 0.5F * note.spread > 195; });
    find_blurred();
    find_shaky();
    find_gaps(variable_rate);
    return std::move(faults_);
  }

 private:
  [[nodiscard]] MediaTime end_of(std::size_t i) const {
    return i + 1 < notes_.size() ? notes_[i + 1].time : end_;
  }

  // A frame that is coded anew differs a little from those before and after it.
  [[nodiscard]] bool is_frozen(const FrameNote& note) const {
    const auto i = static_cast<std::size_t>(&note - notes_.data());
    if (i == 0) return false;
    if (note.still < kFrozen) return true;
    return note.still < kCodedAnew && i > 1 && notes_[i - 1].still < kFrozen && i + 1 < notes_.size() &&
           notes_[i + 1].still < kFrozen;
  }

  void mark(FaultKind kind, MediaTime shortest, const std::string& detail,
            const std::function<bool(const FrameNote&)>& is) {
    for (std::size_t i = 0; i < notes_.size(); ++i) {
      if (!is(notes_[i])) continue;
      std::size_t last = i;
      while (last + 1 < notes_.size() && is(notes_[last + 1])) ++last;
      const TimeRange when{notes_[i].time, end_of(last)};
      if (when.duration() >= shortest) faults_.push_back({kind, when, detail});
      i = last;
    }
  }

  // A picture that was sharp elsewhere in the clip, or is never.
  void find_blurred() {
    std::vector<float> sharpness;
    for (const auto& note : notes_)
      if (note.spread > 12) sharpness.push_back(note.sharpness);
    if (sharpness.size() < 10) return;
    const auto place = sharpness.begin() + static_cast<std::ptrdiff_t>(sharpness.size() * 4 / 5);
    std::nth_element(sharpness.begin(), place, sharpness.end());
    const float limit = std::max(0.015F, std::min(0.4F * *place, 0.15F));
    mark(FaultKind::Blurred, kShortestBlur, "nothing in the picture is sharp",
         [limit](const FrameNote& note) { return note.spread > 12 && note.sharpness < limit; });
  }

  void find_shaky() {
    const auto count = notes_.size();
    if (count < 12) return;
    // Motion less its own drift, squared.
    std::vector<float> jitter(count);
    const float rate =
        std::max(1.0F, static_cast<float>(static_cast<double>(count) /
                                          std::max(0.1, (end_ - notes_.front().time).seconds())));
    const auto half = static_cast<std::size_t>(std::max(2.0F, rate / 4));
    std::vector<double> sum_across(count + 1);
    std::vector<double> sum_down(count + 1);
    for (std::size_t i = 0; i < count; ++i) {
      sum_across[i + 1] = sum_across[i] + notes_[i].across;
      sum_down[i + 1] = sum_down[i] + notes_[i].down;
    }
    for (std::size_t i = 0; i < count; ++i) {
      const auto from = i > half ? i - half : 0;
      const auto to = std::min(count, i + half + 1);
      const auto size = static_cast<double>(to - from);
      const auto across = static_cast<float>(notes_[i].across - (sum_across[to] - sum_across[from]) / size);
      const auto down = static_cast<float>(notes_[i].down - (sum_down[to] - sum_down[from]) / size) * 0.56F;
      jitter[i] = across * across + down * down;
    }
    std::vector<double> sum(count + 1);
    for (std::size_t i = 0; i < count; ++i) sum[i + 1] = sum[i] + jitter[i];
    const auto window = static_cast<std::size_t>(std::max(3.0F, rate / 4));
    const float limit = kShake * kShake * (30 / rate) * (30 / rate);
    mark(FaultKind::Shaky, kShortestShake, "the camera is not held still", [&](const FrameNote& note) {
      const auto i = static_cast<std::size_t>(&note - notes_.data());
      const auto from = i > window ? i - window : 0;
      const auto to = std::min(count, i + window + 1);
      return (sum[to] - sum[from]) / static_cast<double>(to - from) > limit;
    });
  }

  void find_gaps(bool variable_rate) {
    if (notes_.size() < 5) return;
    std::vector<std::int64_t> gaps;
    for (std::size_t i = 1; i < notes_.size(); ++i)
      gaps.push_back((notes_[i].time - notes_[i - 1].time).ticks());
    auto sorted = gaps;
    std::nth_element(sorted.begin(), sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2),
                     sorted.end());
    const auto usual = sorted[sorted.size() / 2];
    // Where the rate varies, pictures come further apart by right.
    const auto limit =
        variable_rate ? std::max(5 * usual, MediaTime::from_ms(200).ticks()) : usual + usual / 2;
    for (std::size_t i = 0; i < gaps.size(); ++i) {
      if (gaps[i] <= limit || usual <= 0) continue;
      const auto missing = (gaps[i] + usual / 2) / usual - 1;
      faults_.push_back(
          {FaultKind::DroppedFrames,
           {notes_[i].time, notes_[i + 1].time},
           std::to_string(missing) + (missing == 1 ? " frame is missing" : " frames are missing")});
    }
  }

  const std::vector<FrameNote>& notes_;
  MediaTime end_;
  std::vector<ClipFault> faults_;
};

}  // namespace

std::vector<ClipFault> picture_faults(const std::vector<FrameNote>& notes, MediaTime end,
                                      bool variable_rate) {
  return Watch(notes, end).find(variable_rate);
}

}  // namespace panslate::av
