#include "desk/playable.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace panslate {

namespace {

using Names = std::array<std::string_view, 6>;

// What Chromium, Firefox and Safari all play: "Web media containers", "Web video codec guide" and "Web audio
// codec guide", developer.mozilla.org. HEVC plays where the machine has hardware for it only, and sound
// without its picture elsewhere; PCM plays in WAVE alone, and elsewhere is silent.
struct Playable {
  std::string_view container;  ///< as libavformat names it, or begins to
  Names picture;
  Names sound;
};
constexpr std::array<Playable, 6> kPlayable{{
    {"mov,mp4", {"h264", "av1", "vp9"}, {"aac", "mp3", "opus", "flac"}},
    {"matroska,webm", {"vp8", "vp9", "av1"}, {"opus", "vorbis"}},
    {"ogg", {}, {"opus", "vorbis", "flac"}},
    {"wav", {}, {"pcm_s16le", "pcm_u8", "pcm_s24le", "pcm_f32le"}},
    {"mp3", {}, {"mp3"}},
    {"flac", {}, {"flac"}},
}};

bool has(const Names& names, std::string_view name) {
  return !name.empty() && std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

bool plays_in_browsers(const ClipFacts& facts) {
  return std::any_of(kPlayable.begin(), kPlayable.end(), [&](const Playable& one) {
    if (!facts.container.starts_with(one.container)) return false;
    if (facts.picture && (facts.picture->hdr || !has(one.picture, facts.picture->codec))) return false;
    return std::all_of(facts.sound.begin(), facts.sound.end(),
                       [&](const SoundFacts& sound) { return has(one.sound, sound.codec); });
  });
}

}  // namespace panslate
