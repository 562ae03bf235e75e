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
// Of all steps from frame to frame, how many are as long as usual where the rate is steady; time stamps of
// some containers are whole milliseconds. Common practice, no source.
constexpr double kSteady = 0.9;
constexpr MediaTime kRounded = MediaTime::from_ms(3) / 2;
// Frames missing again within this are told together.
constexpr MediaTime kOneGap = MediaTime::from_seconds(1);

class Watch {
 public:
  Watch(const std::vector<FrameNote>& notes, MediaTime end) : notes_(notes), end_(end) {}

  std::vector<ClipFault> find() && {
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
    find_gaps();
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

  // The longest time from one frame to the next that is no gap. Where the rate varies, frames come further
  // apart by right. That some are missing does not make it vary.
  [[nodiscard]] static std::int64_t longest_without_gap(const std::vector<std::int64_t>& steps,
                                                        std::int64_t usual) {
    const auto off = std::max(usual / 20, kRounded.ticks());
    const auto even = std::count_if(steps.begin(), steps.end(), [&](std::int64_t step) {
      return step >= usual - off && step <= usual + off;
    });
    const bool steady = static_cast<double>(even) >= kSteady * static_cast<double>(steps.size());
    return steady ? usual + usual / 2 : std::max(5 * usual, MediaTime::from_ms(200).ticks());
  }

  void find_gaps() {
    if (notes_.size() < 5) return;
    std::vector<std::int64_t> steps;
    for (std::size_t i = 1; i < notes_.size(); ++i)
      steps.push_back((notes_[i].time - notes_[i - 1].time).ticks());
    auto sorted = steps;
    const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
    std::nth_element(sorted.begin(), middle, sorted.end());
    const auto usual = *middle;
    if (usual <= 0) return;
    const auto longest = longest_without_gap(steps, usual);
    std::int64_t missing = 0;
    TimeRange when;
    const auto tell = [&] {
      if (missing > 0)
        faults_.push_back(
            {FaultKind::DroppedFrames, when,
             std::to_string(missing) + (missing == 1 ? " frame is missing" : " frames are missing")});
      missing = 0;
    };
    for (std::size_t i = 0; i < steps.size(); ++i) {
      if (steps[i] <= longest) continue;
      if (notes_[i].time - when.end > kOneGap) tell();
      if (missing == 0) when.begin = notes_[i].time;
      when.end = notes_[i + 1].time;
      missing += (steps[i] + usual / 2) / usual - 1;
    }
    tell();
  }

  const std::vector<FrameNote>& notes_;
  MediaTime end_;
  std::vector<ClipFault> faults_;
};

}  // namespace

std::vector<ClipFault> picture_faults(const std::vector<FrameNote>& notes, MediaTime end) {
  return Watch(notes, end).find();
}

}  // namespace panslate::av
