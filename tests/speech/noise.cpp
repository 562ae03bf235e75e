// Noise and rooms for narration.
#include <algorithm>
#include <cmath>
#include <random>
#include <stdexcept>

#include "speech/narration.h"

namespace panslate::testing {

namespace {

using Signal = std::vector<double>;

// std::normal_distribution may differ between libraries; a sum of twelve uniform numbers does not.
class Gaussian {
 public:
  explicit Gaussian(std::uint32_t seed) : random_(seed) {}
  double operator()() {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += uniform();
    return sum;
  }
  double uniform() { return static_cast<double>(random_()) / 4294967296.0; }

 private:
  std::mt19937 random_;
};

Signal white(std::size_t length, Gaussian& random) {
  Signal signal(length);
  for (auto& sample : signal) sample = random();
  return signal;
}

// Paul Kellet's filter, "economy" form (musicdsp.org, pink noise filter): −3 dB an octave within 0.5 dB from
// 40 Hz at 44.1 kHz; at 16 kHz from 15 Hz.
Signal pink(std::size_t length, Gaussian& random) {
  Signal signal(length);
  double b0 = 0;
  double b1 = 0;
  double b2 = 0;
  for (auto& sample : signal) {
    const double w = random();
    b0 = 0.99765 * b0 + w * 0.0990460;
    b1 = 0.96300 * b1 + w * 0.2965164;
    b2 = 0.57000 * b2 + w * 1.0526913;
    sample = b0 + b1 + b2 + w * 0.1848;
  }
  return signal;
}

// Hiss that swells slowly, with short bursts of it where water meets fat.
Signal frying(std::size_t length, Gaussian& random) {
  constexpr double kPi = 3.14159265358979323846;
  const double high = std::exp(-2 * kPi * 1500 / kSampleRate);
  const double low = std::exp(-2 * kPi * 7000 / kSampleRate);
  constexpr double kCracklesASecond = 40;
  Signal signal(length);
  double slow = 0;
  double smooth = 0;
  double burst = 0;
  double fade = 0;
  for (std::size_t i = 0; i < length; ++i) {
    if (random.uniform() < kCracklesASecond / kSampleRate) {
      burst = 1 + 5 * random.uniform() * random.uniform();
      fade = std::exp(-1.0 / (kSampleRate * (0.001 + 0.006 * random.uniform())));
    }
    const double swell = 1 + 0.3 * std::sin(2 * kPi * 0.3 * static_cast<double>(i) / kSampleRate);
    const double w = random() * (swell + burst);
    burst *= fade;
    slow = high * slow + (1 - high) * w;
    smooth = low * smooth + (1 - low) * (w - slow);
    signal[i] = smooth;
  }
  return signal;
}

double power(const Signal& signal) {
  double sum = 0;
  for (const auto sample : signal) sum += sample * sample;
  return signal.empty() ? 0 : sum / static_cast<double>(signal.size());
}

double power_of_words(const Narration& narration) {
  double sum = 0;
  std::size_t count = 0;
  for (const auto& word : narration.words) {
    const auto begin = static_cast<std::size_t>(word.when.begin.seconds() * kSampleRate);
    const auto end =
        std::min(narration.samples.size(), static_cast<std::size_t>(word.when.end.seconds() * kSampleRate));
    for (auto i = begin; i < end; ++i)
      sum += static_cast<double>(narration.samples[i]) * narration.samples[i];
    count += end - std::min(begin, end);
  }
  return count == 0 ? 0 : sum / static_cast<double>(count);
}

// Back to 16 bits; the whole is made quieter where it would clip, so that the ratio holds.
void settle(Narration& narration, const Signal& signal) {
  double peak = 1;
  for (const auto sample : signal) peak = std::max(peak, std::abs(sample));
  const double scale = std::min(1.0, 32000 / peak);
  for (std::size_t i = 0; i < signal.size(); ++i)
    narration.samples[i] = static_cast<std::int16_t>(std::lround(signal[i] * scale));
}

}  // namespace

void add_noise(Narration& narration, Noise noise, double snr_db, std::uint32_t seed) {
  Gaussian random(seed);
  const auto length = narration.samples.size();
  auto signal = noise == Noise::White  ? white(length, random)
                : noise == Noise::Pink ? pink(length, random)
                                       : frying(length, random);
  const double speech = power_of_words(narration);
  if (speech <= 0) throw std::runtime_error("there is no speech to measure the noise against");
  const double gain = std::sqrt(speech / std::pow(10, snr_db / 10) / power(signal));
  for (std::size_t i = 0; i < length; ++i) signal[i] = signal[i] * gain + narration.samples[i];
  settle(narration, signal);
}

void put_in_room(Narration& narration, const Room& room) {
  constexpr double kImpulsesASecond = 1500;
  constexpr double kFirstReflection = 0.003;  // a metre of detour
  Gaussian random(room.seed);
  struct Impulse {
    std::size_t delay;
    double gain;
  };
  std::vector<Impulse> response;
  double energy = 0;
  const double spacing = 1 / kImpulsesASecond;
  for (double t = kFirstReflection; t < room.decay_seconds; t += spacing) {
    const double at = t + spacing * random.uniform();
    const double gain = std::pow(10, -3 * at / room.decay_seconds) * (random.uniform() < 0.5 ? -1 : 1);
    response.push_back({static_cast<std::size_t>(at * kSampleRate), gain});
    energy += gain * gain;
  }
  const double scale = std::sqrt(std::pow(10, -room.direct_to_reverberant_db / 10) / energy);
  Signal signal(narration.samples.begin(), narration.samples.end());
  for (const auto& [delay, gain] : response)
    for (auto i = delay; i < signal.size(); ++i) signal[i] += gain * scale * narration.samples[i - delay];
  settle(narration, signal);
}

}  // namespace panslate::testing
