#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <span>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

/// The sound of a clip as speech is listened to: one channel, 16 bits, on the clip's clock.
namespace panslate {

/// Samples in a second.
inline constexpr std::int64_t kSpeechRate = 16'000;
/// The longest sound that is read as one: beyond it a header is damaged, or the memory would not do.
inline constexpr MediaTime kLongestSound = MediaTime::from_seconds(std::int64_t{6} * 3600);
/// The longest stretch that is read at once.
inline constexpr MediaTime kLongestStretch = MediaTime::from_seconds(120);

[[nodiscard]] constexpr MediaTime time_of_sample(std::int64_t sample) {
  static_assert(MediaTime::kTicksPerSecond % kSpeechRate == 0);
  return MediaTime::from_ticks(sample * (MediaTime::kTicksPerSecond / kSpeechRate));
}
[[nodiscard]] constexpr std::int64_t sample_at(MediaTime time) {
  return time.snapped(time_of_sample(1), Round::Nearest).ticks() / time_of_sample(1).ticks();
}

using Samples = std::vector<std::int16_t>;

/// Told of each stretch as soon as it is there, by its index; returns whether to go on.
using SoundTaken = std::function<bool(std::size_t index, Result<Samples> stretch)>;

/// Stretches of `length` from each of `times` (ascending, none negative) on the clip's clock. Every stretch
/// has length × kSpeechRate samples, silent where the clip has no sound: before a sound that starts late,
/// behind its end, in gaps, where it cannot be decoded. What sounds before the first picture is left out.
///
/// Of several tracks the one is taken that holds speech, as far as loud and quiet moments tell; of its
/// channels those that are not dead, and one alone where they would cancel each other out. The same for every
/// stretch. Fails where the clip cannot be opened (as probe_clip) or has no sound (NotMedia); then nothing
/// was told.
[[nodiscard]] Status take_sound(const std::filesystem::path& file, std::span<const MediaTime> times,
                                MediaTime length, const SoundTaken& taken);

/// The whole sound of a clip, from the start of its clock.
struct SpeechSound {
  Samples samples;
  std::vector<TimeRange> unreadable;  ///< silent in `samples`, since reading it failed
};

}  // namespace panslate
