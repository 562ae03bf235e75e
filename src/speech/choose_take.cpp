#include "panslate/speech/choose_take.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <optional>

#include "speech/sound_level.h"

namespace panslate {

namespace {

// Common practice, no source.
constexpr double kOtherLevel = 9;     // dB: a take so much quieter or louder than the rest stands out
constexpr double kDistorted = 0.002;  // share of samples at full scale
constexpr int kFullScale = 32700;
constexpr double kSlow = 1.35;  // times the pace of another whole take: she stumbled or searched

struct Heard {
  double level = 0;
  double clipped = 0;
  double seconds = 0;
};

Heard heard_in(std::span<const std::int16_t> samples, const SoundLevel& level, TimeRange when) {
  Heard heard;
  const auto size = static_cast<std::int64_t>(samples.size());
  const auto begin = std::clamp<std::int64_t>(sample_at(when.begin), 0, size);
  const auto end = std::clamp<std::int64_t>(sample_at(when.end), begin, size);
  heard.level = level.power({begin, end});
  heard.seconds = when.duration().seconds();
  std::int64_t clipped = 0;
  for (auto i = begin; i < end; ++i)
    clipped += std::abs(int{samples[static_cast<std::size_t>(i)]}) >= kFullScale ? 1 : 0;
  heard.clipped = end > begin ? static_cast<double>(clipped) / static_cast<double>(end - begin) : 0;
  return heard;
}

double median(std::vector<double> values) {
  if (values.empty()) return 0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace

std::vector<TakeChoice> choose_takes(std::span<const ScriptLine> script, const ScriptAlignment& alignment,
                                     std::span<const std::int16_t> samples) {
  const SoundLevel level(samples);
  const auto& takes = alignment.takes;
  std::vector<TakeChoice> choices(takes.size());
  std::vector<Heard> heard;
  std::vector<double> levels;
  std::map<std::size_t, std::vector<std::size_t>> of_line;
  for (std::size_t i = 0; i < takes.size(); ++i) {
    choices[i].take = i;
    heard.push_back(heard_in(samples, level, takes[i].when));
    levels.push_back(heard.back().level);
    if (takes[i].line < script.size()) of_line[takes[i].line].push_back(i);
  }
  const double usual = median(levels);
  for (const auto& [line, those] : of_line) {
    static_cast<void>(line);
    std::vector<std::size_t> whole;
    std::copy_if(those.begin(), those.end(), std::back_inserter(whole),
                 [&](std::size_t i) { return takes[i].complete; });
    if (whole.empty()) {
      const auto longest = *std::max_element(those.begin(), those.end(), [&](std::size_t a, std::size_t b) {
        return takes[a].words < takes[b].words;
      });
      choices[longest].chosen = true;
      choices[longest].why = those.size() > 1 ? "none is whole; this one goes furthest" : "";
      continue;
    }
    double quickest = heard[whole.front()].seconds;
    for (const auto i : whole) quickest = std::min(quickest, heard[i].seconds);
    const auto fault = [&](std::size_t i) -> std::string {
      if (heard[i].clipped > kDistorted) return "distorted";
      if (heard[i].level < usual - kOtherLevel) return "much quieter than the rest";
      if (heard[i].level > usual + kOtherLevel) return "much louder than the rest";
      if (heard[i].seconds > kSlow * quickest) return "with a stumble or a long pause";
      return {};
    };
    std::optional<std::size_t> chosen;
    for (auto at = whole.rbegin(); at != whole.rend() && !chosen; ++at)
      if (fault(*at).empty()) chosen = *at;
    const bool all_faulty = !chosen;
    if (!chosen) chosen = whole.back();
    choices[*chosen].chosen = true;
    if (those.size() == 1) continue;
    choices[*chosen].why = all_faulty                ? "the last whole take; all of them have faults"
                           : *chosen == whole.back() ? "the last whole take"
                                                     : "the last whole take without a fault";
    for (const auto i : whole)
      if (i != *chosen) choices[i].why = fault(i);
  }
  return choices;
}

}  // namespace panslate
