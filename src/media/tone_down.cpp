#include "media/tone_down.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace panslate::av {

namespace {

constexpr std::size_t kSteps = 4096;  // twelve bits: more than a phone records
constexpr unsigned kShift = 4;

// BT.2100 table 4.
constexpr double kM1 = 2610.0 / 16384;
constexpr double kM2 = 2523.0 / 4096 * 128;
constexpr double kC1 = 3424.0 / 4096;
constexpr double kC2 = 2413.0 / 4096 * 32;
constexpr double kC3 = 2392.0 / 4096 * 32;
constexpr double kPqPeak = 10'000;

// BT.2100 table 5.
constexpr double kHlgA = 0.17883277;
constexpr double kHlgB = 1 - 4 * kHlgA;
constexpr double kHlgC = 0.55991073;  // 0.5 − a ln(4 a)
constexpr double kSystemGamma = 1.2;  // on the display of kUsualPeak

// The light of the scene, 0…1, by the inverse of the camera's curve.
double hlg_scene(double signal) {
  return signal <= 0.5 ? signal * signal / 3 : (std::exp((signal - kHlgC) / kHlgA) + kHlgB) / 12;
}

double luminance(double red, double green, double blue) {
  return 0.2627 * red + 0.6780 * green + 0.0593 * blue;  // BT.2020 table 4
}

// IEC 61966-2-1.
double srgb(double light) {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
}

std::size_t step_of(double zero_to_one) {
  return static_cast<std::size_t>(std::lround(std::clamp(zero_to_one, 0.0, 1.0) * (kSteps - 1)));
}

double middle_of(std::size_t step) {
  return static_cast<double>(step) / (kSteps - 1);
}

}  // namespace

double pq_light(double signal) {
  const double root = std::pow(std::clamp(signal, 0.0, 1.0), 1 / kM2);
  return kPqPeak * std::pow(std::max(root - kC1, 0.0) / (kC2 - kC3 * root), 1 / kM1);
}

double pq_signal(double light) {
  const double root = std::pow(std::clamp(light / kPqPeak, 0.0, 1.0), kM1);
  return std::pow((kC1 + kC2 * root) / (1 + kC3 * root), kM2);
}

double hlg_grey_light(double signal) {
  return kUsualPeak * std::pow(hlg_scene(signal), kSystemGamma);
}

double pressed(double light, double peak) {
  const double brightest = pq_signal(peak);
  const double most = pq_signal(kReferenceWhite) / brightest;  // maxLum
  if (most >= 1) return std::min(light, kReferenceWhite);
  const double knee = 1.5 * most - 0.5;  // KS
  const double e = std::min(1.0, pq_signal(light) / brightest);
  if (e < knee) return light;
  const double t = (e - knee) / (1 - knee);
  const double t2 = t * t;
  const double t3 = t2 * t;
  const double spline =
      (2 * t3 - 3 * t2 + 1) * knee + (t3 - 2 * t2 + t) * (1 - knee) + (3 * t2 - 2 * t3) * most;
  return pq_light(spline * brightest);
}

ToneDown::ToneDown(HdrTransfer transfer, double peak)
    : transfer_(transfer),
      peak_(transfer == HdrTransfer::Hlg ? kUsualPeak : std::clamp(peak, kReferenceWhite, kPqPeak)),
      light_(kSteps),
      pressing_(kSteps),
      shown_(kSteps) {
  for (std::size_t i = 0; i < kSteps; ++i) {
    const double signal = middle_of(i);
    light_[i] = static_cast<float>(transfer == HdrTransfer::Pq ? pq_light(signal) : hlg_scene(signal));
    const double light = pq_light(signal);
    pressing_[i] = static_cast<float>(light > 0 ? pressed(light, peak_) / light : 1);
    // Dark steps are far apart in eight bits of light, so the table is by its square root.
    shown_[i] = static_cast<std::uint8_t>(std::lround(srgb(signal * signal) * 255));
  }
}

std::array<std::uint8_t, 3> ToneDown::operator()(const std::array<std::uint16_t, 3>& rgb) const {
  double red = light_[rgb[0] >> kShift];
  double green = light_[rgb[1] >> kShift];
  double blue = light_[rgb[2] >> kShift];
  if (transfer_ == HdrTransfer::Hlg) {
    // What the display makes of the scene (the OOTF).
    const double y = luminance(red, green, blue);
    const double gain = y > 0 ? kUsualPeak * std::pow(y, kSystemGamma - 1) : 0;
    red *= gain;
    green *= gain;
    blue *= gain;
  }
  const double brightest = std::max({red, green, blue});
  const double gain = pressing_[step_of(pq_signal(brightest))] / kReferenceWhite;
  red *= gain;
  green *= gain;
  blue *= gain;
  const auto shown = [this](double light) { return shown_[step_of(std::sqrt(std::clamp(light, 0.0, 1.0)))]; };
  // From BT.2020 to BT.709 colours: the inverse of the matrix of ITU-R BT.2087.
  return {shown(1.6605 * red - 0.5876 * green - 0.0728 * blue),
          shown(-0.1246 * red + 1.1329 * green - 0.0083 * blue),
          shown(-0.0182 * red - 0.1006 * green + 1.1187 * blue)};
}

}  // namespace panslate::av
