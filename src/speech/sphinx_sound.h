#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "panslate/media/speech_sound.h"

/// What all listening with PocketSphinx has in common.
namespace panslate {

inline constexpr std::int64_t kFrame = kSpeechRate / 100;
// A word that begins with a frame began somewhat later than the frame: its sound is a window of 25.6 ms that
// is weighted to its middle, and the model takes the first frame that holds some of the new word. Measured,
// the same for all voices to within 4 ms: 2.8 ms (the middle of the window would be 7.8).
inline constexpr std::int64_t kFrameMiddle = 45;
inline constexpr std::int64_t kShortestSound = kSpeechRate / 10;

/// The model was made from microphones, and takes sound without any noise (a gate, a voice made by a machine)
/// for something else than speech. 45 dB below the mean, nobody hears it. The same for the same sound.
[[nodiscard]] std::vector<std::int16_t> with_faint_noise(std::span<const std::int16_t> samples);

/// Its log is one for the whole process.
void silence_the_log();

}  // namespace panslate
