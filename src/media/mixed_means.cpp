#include "media/mixed_means.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>

namespace panslate::av {

namespace {

constexpr std::int64_t kShortest = 10;
constexpr std::int64_t kLongest = 36;
// What both ends are measured by, beside the stretch.
constexpr std::int64_t kBeside = 4;
// Frames that a flash lights up are passed over.
constexpr std::int64_t kFlash = 3;

// Colours differ less than greys do.
constexpr float kColour = 2;
// Changes of the means that tell: enough of them, and of the hue itself.
constexpr float kLeastChange = 12;
constexpr float kOtherHue = 2;
// Both ends have contrast, of which a mixture has less: half where they are as rich as each other.
constexpr float kLeastContrast = 6;
constexpr float kDip = 0.75F;
constexpr float kDipBelow = 0.95F;
// In parts of the change: single frames beside the stretch from their mean; how fast these go on; single
// frames within from where a steady change would have them, along it and aside; and all of them on average.
constexpr float kBesideOff = 0.25F;
constexpr float kDrift = 0.5F;
constexpr float kOff = 0.22F;
constexpr float kAside = 0.3F;
constexpr float kResidual = 0.25F;
// The contrast from what the mixture would have, in parts of the ends'.
constexpr float kMisfit = 0.22F;
// From one frame to the next.
constexpr float kSudden = 0.6F;

// Where a camera or a cook turns the light up and down, only hues go steadily, and contrast counts against
// it.
enum class Light { Steady, Varying };

using Means = std::array<float, 3>;

float worth(const Blend& blend) {
  return blend.change * (1 - blend.residual);
}

class MixedMeans {
 public:
  MixedMeans(const std::vector<FrameNote>& notes, Light light)
      : notes_(notes), light_(light), count_(static_cast<std::int64_t>(notes.size())) {}

  // The one that tells most of those that begin there.
  [[nodiscard]] std::optional<Blend> from(std::int64_t first) const {
    std::optional<Blend> best;
    for (std::int64_t length = kShortest; length <= kLongest; length += 2)
      if (const auto blend = fit(first, first + length); blend && (!best || worth(*blend) > worth(*best)))
        best = blend;
    return best;
  }

 private:
  [[nodiscard]] const FrameNote& note(std::int64_t i) const { return notes_[static_cast<std::size_t>(i)]; }
  [[nodiscard]] Means means_of(std::int64_t i) const {
    return {light_ == Light::Steady ? note(i).mean : 0, kColour * note(i).cb, kColour * note(i).cr};
  }

  [[nodiscard]] float contrast_of(std::int64_t i) const {
    const float contrast =
        light_ == Light::Steady ? note(i).spread : 100 * note(i).spread / std::max(1.0F, note(i).mean);
    return contrast * contrast;
  }

  struct End {
    Means means{};
    float power = 0;  // of the contrast
    float off = 0;    // of single frames from the means
  };
  [[nodiscard]] End end_of(std::int64_t from, std::int64_t to) const {
    End end;
    const auto count = static_cast<float>(to - from);
    for (auto i = from; i < to; ++i) {
      const auto means = means_of(i);
      for (std::size_t k = 0; k < means.size(); ++k) end.means[k] += means[k] / count;
      end.power += contrast_of(i) / count;
    }
    for (auto i = from; i < to; ++i) {
      float far = 0;
      const auto means = means_of(i);
      for (std::size_t k = 0; k < means.size(); ++k) {
        const float d = means[k] - end.means[k];
        far += d * d;
      }
      end.off = std::max(end.off, std::sqrt(far));
    }
    return end;
  }

  // How far the means come along `step`, in parts of it.
  [[nodiscard]] float drift(std::int64_t from, std::int64_t to, const Means& step, float power) const {
    float along = 0;
    for (const std::int64_t i : {0, 1}) {
      const auto begin = means_of(from + i);
      const auto end = means_of(to - i);
      for (std::size_t k = 0; k < step.size(); ++k) along += (end[k] - begin[k]) * step[k] / 2;
    }
    return along / power;
  }

  // How far the hue of `b` is from all that `a` would have with less colour in it, as steam takes it away.
  static float off_grey(const Means& a, const Means& b) {
    const float au = a[1] / kColour - 128;
    const float av = a[2] / kColour - 128;
    const float bu = b[1] / kColour - 128;
    const float bv = b[2] / kColour - 128;
    const float power = au * au + av * av;
    const float share = power > 0 ? std::clamp((au * bu + av * bv) / power, 0.0F, 1.0F) : 0;
    return std::hypot(bu - share * au, bv - share * av);
  }

  [[nodiscard]] std::optional<Blend> fit(std::int64_t first, std::int64_t last) const {
    if (last + kBeside >= count_) return std::nullopt;
    const auto a = end_of(first - kBeside, first + 1);
    const auto b = end_of(last, last + kBeside + 1);
    Means step{};
    float power = 0;
    for (std::size_t k = 0; k < step.size(); ++k) {
      step[k] = b.means[k] - a.means[k];
      power += step[k] * step[k];
    }
    const float change = std::sqrt(power);
    if (change < kLeastChange || std::min(a.power, b.power) < kLeastContrast * kLeastContrast)
      return std::nullopt;
    if (std::max(a.off, b.off) > kBesideOff * change) return std::nullopt;
    if (std::min(off_grey(a.means, b.means), off_grey(b.means, a.means)) < kOtherHue) return std::nullopt;
    const auto length = static_cast<float>(last - first);
    // As fast as within the stretch it goes nowhere beside it.
    const float steady = kDrift * static_cast<float>(kBeside - 1) / length;
    if (drift(first - kBeside, first, step, power) > steady ||
        drift(last, last + kBeside, step, power) > steady)
      return std::nullopt;
    float residual = 0;
    float misfit = 0;
    float middle = 0;
    float counted = 0;
    float in_middle = 0;
    std::int64_t passed = 0;
    for (auto i = first + 1; i < last; ++i) {
      const auto means = means_of(i);
      float along = 0;
      float size = 0;
      for (std::size_t k = 0; k < means.size(); ++k) {
        const float d = means[k] - a.means[k];
        along += d * step[k];
        size += d * d;
      }
      const float share = along / power;
      const float due = static_cast<float>(i - first) / length;
      const float aside = std::sqrt(std::max(0.0F, size - share * along) / power);
      if (note(i).moved > kSudden || std::abs(share - due) > kOff || aside > kAside) {
        if (++passed > kFlash) return std::nullopt;
        continue;
      }
      const float contrast = contrast_of(i);
      const float model = (1 - due) * (1 - due) * a.power + due * due * b.power;
      misfit += std::abs(contrast - model) / (0.5F * (a.power + b.power));
      residual += std::abs(share - due) + aside;
      counted += 1;
      if (due > 0.35F && due < 0.65F) {
        middle += contrast;
        in_middle += 1;
      }
    }
    if (in_middle < 2) return std::nullopt;
    residual /= counted;
    misfit /= counted;
    middle /= in_middle;
    if (residual > kResidual || misfit > kMisfit || middle > kDip * 0.5F * (a.power + b.power) ||
        middle > kDipBelow * std::min(a.power, b.power))
      return std::nullopt;
    return Blend{first, last, change, residual + misfit};
  }

  const std::vector<FrameNote>& notes_;
  Light light_;
  std::int64_t count_;
};

}  // namespace

std::vector<Blend> mixed_means(const std::vector<FrameNote>& notes) {
  const MixedMeans steady(notes, Light::Steady);
  const MixedMeans varying(notes, Light::Varying);
  std::vector<Blend> found;
  for (std::int64_t first = kBeside; first < static_cast<std::int64_t>(notes.size()); ++first)
    for (const auto& blend : {steady.from(first), varying.from(first)}) {
      if (!blend) continue;
      if (found.empty() || found.back().last < blend->first)
        found.push_back(*blend);
      else if (worth(*blend) > worth(found.back()))
        found.back() = *blend;
    }
  return found;
}

}  // namespace panslate::av
