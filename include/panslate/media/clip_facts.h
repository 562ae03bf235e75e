#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

/// What is measured of one media file. Facts only: no opinion about what they mean.
///
/// All times are on the clip's clock, which begins with its first picture, or with its first sound where it
/// has no picture. (The file's own time line may begin elsewhere: transport streams start at 1.4 s, phones
/// delay the picture behind the sound.)
namespace panslate {

/// Where a duration comes from: what the file's header says, or the time stamps of what is in it.
enum class DurationSource : std::uint8_t { Header, Packets };

struct PictureFacts {
  int width = 0;  ///< stored, before rotation and pixel shape
  int height = 0;
  int shown_width = 0;  ///< as a viewer sees it: pixel shape and rotation applied
  int shown_height = 0;
  /// Degrees clockwise to turn the stored picture so that it stands upright: 0, 90, 180, 270.
  int rotation = 0;
  bool mirrored = false;  ///< after turning, left and right are swapped too
  FrameRate frame_rate;   ///< where it varies: pictures over duration
  bool variable_rate = false;
  std::optional<std::int64_t> frames;  ///< known exactly (header's index or packets counted)
  MediaTime duration;                  ///< from the first picture to the end of the last
  std::string codec;                   ///< "h264"
  bool hdr = false;                    ///< high dynamic range (PQ or HLG): needs toning down on usual screens
};

struct SoundFacts {
  int channels = 0;
  int sample_rate = 0;
  std::string layout;  ///< "stereo"
  std::string codec;
  MediaTime begin;  ///< on the clip's clock; negative where it starts before the first picture
  MediaTime end;
};

struct ClipFacts {
  std::filesystem::path file;
  /// From the start of the clip's clock to the end of its last picture or sound, whichever is later: what a
  /// player shows as the length, less what comes before the first picture.
  MediaTime duration;
  DurationSource duration_source = DurationSource::Header;
  std::string container;                ///< "mov,mp4,…" as libavformat names it
  std::optional<PictureFacts> picture;  ///< a cover picture is not one
  std::vector<SoundFacts> sound;
  std::optional<std::string> timecode;  ///< of the first frame, where the clip carries it at a constant rate
  std::optional<std::string> recorded;  ///< ISO 8601, as the file says
  std::vector<std::string> warnings;    ///< odd but readable, in a cook's words
};

/// Opens a file and measures it: the header first; packets are read (without decoding) where the header lies
/// or is silent about duration, frame rate or frame count. NotFound, Unreadable, or NotMedia with FFmpeg's
/// reason. Never reads over the network nor any other file. A file with neither picture nor sound is NotMedia
/// unless it carries timecode.
[[nodiscard]] Result<ClipFacts> probe_clip(const std::filesystem::path& file);

}  // namespace panslate
