#include "panslate/speech/align_script.h"

#include <algorithm>
#include <cmath>

#include "speech/find_lines.h"
#include "speech/script_takes.h"
#include "speech/slipped_lines.h"
#include "speech/sound_level.h"
#include "speech/word_boundary.h"

namespace panslate {

namespace {

constexpr std::size_t kMostWords = 100'000;
constexpr std::int64_t kLongestSound = std::int64_t{12} * 3600 * kSpeechRate;
constexpr double kSilent = -75.0;   // dB: below the noise of any microphone
constexpr double kSteady = 3.0;     // dB between loud and quiet: nothing that rises and falls as speech does
constexpr double kFarBelow = 20.0;  // dB
// Below these the noise begins to move words (measured; see DEVELOPERS.md).
constexpr double kSomeNoise = 25.0;
constexpr double kMuchNoise = 14.0;

Status check(std::span<const ScriptLine> script, std::span<const std::int16_t> samples) {
  std::size_t words = 0;
  for (const auto& line : script) words += line.words.size();
  if (words == 0)
    return fail(ErrorCode::Malformed, "the script has no words", std::nullopt,
                "write what is said, one sentence a line");
  if (words > kMostWords)
    return fail(ErrorCode::Malformed, "the script has more than 100,000 words", std::nullopt,
                "give the script of one video");
  if (std::ssize(samples) > kLongestSound)
    return fail(ErrorCode::Malformed, "the clip is longer than 12 hours", std::nullopt, "cut it in parts");
  return {};
}

ScriptAlignment nothing(std::string reason) {
  ScriptAlignment out;
  out.reason = std::move(reason);
  return out;
}

double snr(const FoundTakes& found, const SoundLevel& level) {
  double spoken = 0.0;
  std::size_t spoken_steps = 0;
  std::vector<double> paused_steps;
  std::vector<char> kind(level.steps().size(), 'p');
  const auto mark = [&](SoundSpan span, char as, std::int64_t margin) {
    const auto first = std::max<std::int64_t>((span.begin - margin) / kLevelStep, 0);
    const auto last = std::min<std::int64_t>((span.end + margin) / kLevelStep, std::ssize(kind));
    for (auto i = first; i < last; ++i) kind[static_cast<std::size_t>(i)] = as;
  };
  constexpr std::int64_t kMargin = kSpeechRate / 20;
  for (const auto& span : found.other) mark(span, 'o', kMargin);
  for (const auto& take : found.takes) mark(take.when(), 'o', kMargin);
  for (const auto& take : found.takes)
    for (const auto& word : take.words) mark(word.when, 's', 0);
  for (std::size_t i = 0; i < kind.size(); ++i) {
    const double power = std::pow(10.0, level.steps()[i] / 10.0);
    if (kind[i] == 's') spoken += power, ++spoken_steps;
    if (kind[i] == 'p') paused_steps.push_back(power);
  }
  if (spoken_steps == 0) return 0.0;
  spoken /= static_cast<double>(spoken_steps);
  // The middle: what clatters in a pause is no noise behind the words.
  double paused = std::pow(10.0, level.floor() / 10.0);
  if (!paused_steps.empty()) {
    const auto middle = paused_steps.begin() + std::ssize(paused_steps) / 2;
    std::nth_element(paused_steps.begin(), middle, paused_steps.end());
    paused = *middle;
  }
  // Words hold the noise too.
  return std::clamp(10.0 * std::log10(std::max(spoken - paused, 1e-12) / std::max(paused, 1e-10)), 0.0, 90.0);
}

MediaTime precision_of(const PlacedWord& word, double usual_score, double snr_db) {
  std::int64_t ms = snr_db >= kSomeNoise ? 25 : snr_db >= kMuchNoise ? 45 : 120;
  // It hardly fits its sound: it may not be said as written, or stand elsewhere.
  if (word.score < usual_score - 2.0) ms *= 2;
  if (word.score < usual_score - 4.0) ms *= 2;
  return MediaTime::from_ms(ms);
}

double median_score(const std::vector<FoundTake>& takes) {
  std::vector<double> scores;
  for (const auto& take : takes)
    for (const auto& word : take.words) scores.push_back(word.score);
  if (scores.empty()) return 0.0;
  const auto middle = scores.begin() + std::ssize(scores) / 2;
  std::nth_element(scores.begin(), middle, scores.end());
  return *middle;
}

std::string reason_for_nothing(const FoundTakes& found, const SoundLevel& level) {
  if (level.speech() - level.floor() < kSteady)
    return "nobody speaks in this clip, or the noise is as loud as the voice";
  std::int64_t other = 0;
  for (const auto& span : found.other) other += span.length();
  return other > 0 ? "no line of the script is heard in this clip" : "nobody speaks in this clip";
}

}  // namespace

Result<ScriptAlignment> align_script(std::span<const ScriptLine> script,
                                     std::span<const std::int16_t> samples, Recogniser& recogniser,
                                     PronouncingDictionary& dictionary, Progress& progress) {
  PANSLATE_CHECK(check(script, samples));
  if (samples.empty()) return nothing("there is no sound in this clip");
  const SoundLevel level(samples);
  if (level.speech() < kSilent) return nothing("this clip is silent");

  PANSLATE_TRY(const auto heard, find_lines(script, samples, level, recogniser, dictionary, progress));
  auto found = takes_of(script, heard, dictionary);
  PANSLATE_CHECK(go_on_after_other_speech(found, script, samples, recogniser, dictionary, progress));
  PANSLATE_CHECK(find_slipped_lines(found, script, samples, recogniser, dictionary, progress));

  for (auto& take : found.takes) refine(take.words, samples);
  part_from_takes(found);
  // Breath, a chair, the pan: what is far below the voice is no speech.
  std::erase_if(found.other, [&](SoundSpan span) { return level.power(span) < level.speech() - kFarBelow; });

  ScriptAlignment out;
  if (found.takes.empty()) {
    out.reason = reason_for_nothing(found, level);
  } else {
    out.snr_db = snr(found, level);
    out.status = ScriptAlignment::Status::Aligned;
    if (out.snr_db < kMuchNoise) {
      out.status = ScriptAlignment::Status::Partly;
      out.reason = "there is much noise behind the voice: please check the times";
    }
  }
  const auto usual = median_score(found.takes);
  for (const auto& take : found.takes) {
    const auto first = out.words.size();
    for (const auto& word : take.words)
      out.words.push_back({.line = take.line,
                           .word = word.word,
                           .text = word.text.empty() ? script[take.line].words[word.word].text : word.text,
                           .when = {time_of_sample(word.when.begin), time_of_sample(word.when.end)},
                           .precision = precision_of(word, usual, out.snr_db)});
    const auto when = take.when();
    out.takes.push_back({take.line,
                         {time_of_sample(when.begin), time_of_sample(when.end)},
                         take.complete,
                         first,
                         take.words.size()});
  }
  for (const auto& span : found.other)
    out.other_speech.push_back({time_of_sample(span.begin), time_of_sample(span.end)});
  progress.step("listening", std::ssize(samples), std::ssize(samples));
  return out;
}

}  // namespace panslate
