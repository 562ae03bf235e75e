#include "panslate/speech/choose_take.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

namespace panslate {

namespace {

// All common practice, no source.
constexpr double kQuieter = 9.0;      // dB below the voice elsewhere
constexpr double kPace = 1.5;         // times as long, or as short, as the usual take of the line
constexpr int kFullScale = 32700;     // samples at the end of the scale …
constexpr std::int64_t kClipped = 8;  // … this many in a row are cut off
constexpr auto kStumble = MediaTime::from_ms(1000);

std::span<const std::int16_t> sound_of(TimeRange when, std::span<const std::int16_t> samples) {
  const auto sample = [&](MediaTime time) {
    const auto at = time.ticks() / (MediaTime::kTicksPerSecond / kSpeechRate);
    return static_cast<std::size_t>(std::clamp<std::int64_t>(at, 0, std::ssize(samples)));
  };
  const auto begin = sample(when.begin);
  return samples.subspan(begin, std::max(sample(when.end), begin) - begin);
}

double power_db(std::span<const std::int16_t> sound) {
  double power = 0.0;
  for (const auto sample : sound) power += double{1} * sample * sample;
  return sound.empty() ? 0.0 : 10.0 * std::log10(power / static_cast<double>(sound.size()) + 1.0);
}

bool is_clipped(std::span<const std::int16_t> sound) {
  std::int64_t run = 0;
  for (const auto sample : sound) {
    run = std::abs(int{sample}) >= kFullScale ? run + 1 : 0;
    if (run >= kClipped) return true;
  }
  return false;
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + std::ssize(values) / 2;
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

bool stumbles(const ScriptTake& take, const ScriptAlignment& alignment) {
  for (auto i = take.first_word + 1; i < take.first_word + take.words; ++i)
    if (alignment.words[i].when.begin - alignment.words[i - 1].when.end >= kStumble) return true;
  return false;
}

class Chooser {
 public:
  Chooser(const ScriptAlignment& alignment, std::span<const std::int16_t> samples)
      : alignment_(alignment), samples_(samples) {
    std::vector<double> levels;
    for (const auto& take : alignment.takes)
      if (const auto sound = sound_of(take.when, samples); !is_clipped(sound))
        levels.push_back(power_db(sound));
    if (!levels.empty()) voice_ = median(std::move(levels));
  }

  [[nodiscard]] ChosenTake choose(std::size_t line, const std::vector<std::size_t>& takes) const {
    std::vector<std::size_t> whole;
    for (const auto i : takes)
      if (alignment_.takes[i].complete) whole.push_back(i);
    if (whole.empty()) return {line, std::nullopt, "never said to the end: say it again"};
    const auto last = whole.back();
    const auto fault = fault_of(last, whole);
    if (fault.empty() && takes.size() == 1) return {line, last, {}};
    if (fault.empty()) return {line, last, whole.size() == 1 ? "the only whole take" : "the last whole take"};
    for (auto i = whole.size() - 1; i-- > 0;)
      if (fault_of(whole[i], whole).empty())
        return {line, whole[i],
                whole.size() - i == 2 ? "the take before the last: the last one " + fault
                                      : "an earlier take: the last one " + fault};
    return {line, last,
            whole.size() == 1 ? "the only whole take, but it " + fault
                              : "the last whole take, but it " + fault + ", and none is without a fault"};
  }

 private:
  // What argues against a take: "is clipped"; empty when nothing does.
  [[nodiscard]] std::string fault_of(std::size_t index, const std::vector<std::size_t>& whole) const {
    const auto& take = alignment_.takes[index];
    const auto sound = sound_of(take.when, samples_);
    if (is_clipped(sound)) return "is so loud that its sound is cut off";
    if (power_db(sound) < voice_ - kQuieter) return "is much quieter than the rest";
    if (stumbles(take, alignment_)) return "stops for a second in the middle";
    if (whole.size() < 3) return {};  // of two, nobody knows which is odd
    std::vector<double> lengths;
    lengths.reserve(whole.size());
    for (const auto i : whole)
      lengths.push_back(static_cast<double>(alignment_.takes[i].when.duration().ticks()));
    const auto pace =
        static_cast<double>(take.when.duration().ticks()) / std::max(median(std::move(lengths)), 1.0);
    if (pace > kPace) return "is much slower than the others";
    if (pace < 1.0 / kPace) return "is much faster than the others";
    return {};
  }

  const ScriptAlignment& alignment_;
  std::span<const std::int16_t> samples_;
  double voice_ = 0.0;
};

}  // namespace

std::vector<ChosenTake> choose_takes(const ScriptAlignment& alignment,
                                     std::span<const std::int16_t> samples) {
  std::map<std::size_t, std::vector<std::size_t>> by_line;
  for (std::size_t i = 0; i < alignment.takes.size(); ++i) by_line[alignment.takes[i].line].push_back(i);
  const Chooser chooser(alignment, samples);
  std::vector<ChosenTake> chosen;
  chosen.reserve(by_line.size());
  for (const auto& [line, takes] : by_line) chosen.push_back(chooser.choose(line, takes));
  return chosen;
}

}  // namespace panslate
