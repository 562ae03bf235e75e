#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "panslate/base/media_time.h"
#include "panslate/base/progress.h"
#include "panslate/base/result.h"

/// Films and sound drawn by libavfilter and written to a file.
namespace panslate {

enum class PictureTiming : std::uint8_t {
  Constant,  ///< pictures are repeated or dropped to come at `rate`
  AsDrawn,   ///< each picture keeps the time the graph gave it: a varying rate, as phones record
};

/// Example: a title over a plain ground with a spoken line, two seconds long.
///
///     RenderSpec spec;
///     spec.graph = "color=c=0x305030:s=320x240,drawtext=expansion=none:text=" + graph_value("Lentils: 200
///     g") +
///                  "[v];flite=text=" + graph_value("two hundred grams of lentils") + "[a]";
///     spec.duration = MediaTime::from_seconds(2);
struct RenderSpec {
  /// What libavfilter reads: filters with their own sources (color, gradients, flite, movie, …), whose ends
  /// are labelled [v] (pictures) and/or [a] (sound).
  std::string graph;
  /// Exactly this long, rounded to whole pictures (nearest, at least one) and to whole samples: a shorter
  /// picture holds its last frame, shorter sound goes on silent, what is longer is cut. Without it: until the
  /// first of the ends stops, at most four hours.
  std::optional<MediaTime> duration;
  FrameRate rate;
  PictureTiming timing = PictureTiming::Constant;
  int sample_rate = 48000;
  /// 0, 90, 180, 270: the picture is stored turned, as phones do, with the note that viewers turn it back
  /// clockwise by so much; it is seen as drawn.
  int rotation = 0;
  std::optional<std::string> timecode;  ///< label of the first frame; drop-frame with `;` (.mp4, .mov)
  std::optional<std::string> recorded;  ///< ISO 8601 date and time noted as the time of recording
};

/// Draws and writes a file of the kind its ending names: .mp4, .mov, .mkv, .ts (H.264 and AAC), .avi (MPEG-4
/// and PCM), .m4a (AAC), .wav (16-bit PCM), .flac. Pictures are BT.709, 4:2:0. The file appears whole or not
/// at all: it is written under another name beside `out` and renamed over it. The same spec gives the same
/// bytes.
///
/// Usage: an ending not in the list, or a file of sound for a graph without [a]. Malformed: a graph that
/// FFmpeg refuses, with its reason. WriteFailed. Cancelled.
[[nodiscard]] Status render_film(const RenderSpec& spec, const std::filesystem::path& out,
                                 Progress& progress);

/// `text` as the value of a filter option inside a graph, with everything escaped that a graph gives a
/// meaning to.
[[nodiscard]] std::string graph_value(std::string_view text);

}  // namespace panslate
