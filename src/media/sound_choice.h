#pragma once

#include <cstddef>
#include <vector>

#include "panslate/base/result.h"

#include "media/clip_reader.h"

namespace panslate::av {

/// Which of a clip's sound is listened to.
struct SoundChoice {
  std::size_t track = 0;        ///< index into ClipReader::sounds
  std::vector<double> weights;  ///< of its channels; their sum is 1, or there is none where nothing is heard
};

/// Listens into a clip here and there (twelve times five seconds, whatever its length) and chooses. Leaves
/// the reader somewhere. NotMedia where there is no sound that can be decoded.
[[nodiscard]] Result<SoundChoice> choose_sound(ClipReader& reader);

}  // namespace panslate::av
