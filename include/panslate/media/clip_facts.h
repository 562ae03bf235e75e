#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

/// What is measured of one media file. Facts only: no opinion about what they mean.
namespace panslate {

enum class DurationSource : std::uint8_t { Header, Packets };

struct PictureFacts {
  int width = 0;  ///< stored, before rotation and pixel shape
  int height = 0;
  int shown_width = 0;  ///< as a viewer sees it: pixel shape and rotation applied
  int shown_height = 0;
  int rotation =
      0;  ///< degrees clockwise to turn the stored picture so that it stands upright: 0, 90, 180, 270
  bool mirrored = false;
  FrameRate frame_rate;  ///< average where it varies
  bool variable_rate = false;
  std::optional<std::int64_t> frames;  ///< known exactly (header count or packets counted)
  std::string codec;                   ///< "h264"
  bool hdr = false;
};

struct SoundFacts {
  int channels = 0;
  int sample_rate = 0;
  std::string layout;  ///< "stereo"
  std::string codec;
};

struct ClipFacts {
  std::filesystem::path file;
  MediaTime duration;
  DurationSource duration_source = DurationSource::Header;
  std::string container;  ///< "mov,mp4,…" as libavformat names it
  std::optional<PictureFacts> picture;
  std::vector<SoundFacts> sound;
  std::optional<std::string> timecode;  ///< of the first frame, where the clip carries it at a constant rate
  std::optional<std::string> recorded;  ///< ISO 8601, as the file says
  std::vector<std::string> warnings;    ///< odd but readable, in a cook's words
};

/// Opens a file and measures it: the header first; packets are read (without decoding) where the header lies
/// or is silent about duration, frame rate or frame count. NotFound, or NotMedia with FFmpeg's reason. Never
/// reads over the network.
[[nodiscard]] Result<ClipFacts> probe_clip(const std::filesystem::path& file);

}  // namespace panslate
