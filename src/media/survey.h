#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "panslate/media/clip_facts.h"

#include "media/av.h"
#include "media/clip_reader.h"

/// What the packets of a clip say, read from the container's own index or from the packets themselves;
/// nothing is decoded.
namespace panslate::av {

struct StreamSurvey {
  std::vector<std::int64_t> stamps;  ///< of shown pictures (or sound packets), in the stream's time base
  std::optional<std::int64_t> last;  ///< the latest of them, also where not all were kept
  std::optional<std::int64_t> last_length;  ///< how long that one stays, where its packet says
  std::int64_t packets = 0;                 ///< also those without a time stamp
  std::int64_t last_byte = 0;               ///< how far into the file the stream reaches
};

/// How much of a clip was looked at, the least that tells the truth.
enum class Reach {
  Index,       ///< the index in its header, which lists every packet
  Everything,  ///< every packet
  Ends,        ///< the packets at both ends of a large file; none are counted
};

struct ClipSurvey {
  std::vector<StreamSurvey> streams;  ///< by the format's index
  Reach reach = Reach::Index;
  bool breaks_off = false;  ///< the header lists more than there is
};

/// Files up to this size are read whole where their header does not say enough.
inline constexpr std::int64_t kReadWhole = std::int64_t{64} * 1024 * 1024;

/// NotMedia when reading takes too long. The reader needs a picture or a sound.
[[nodiscard]] Result<ClipSurvey> survey_clip(ClipReader& reader, std::int64_t read_whole = kReadWhole);

/// The duration that the header claims, from the first picture or sound; empty where it claims none.
[[nodiscard]] std::optional<MediaTime> claimed_duration(const ClipReader& reader);

/// Whether two measures of a clip's length are the same but for rounding and padding: half a second or a
/// fiftieth.
[[nodiscard]] bool agree(MediaTime a, MediaTime b);

/// The end of a stream on the file's own time line: of its last packet, whose length is its own or the usual
/// one.
[[nodiscard]] std::optional<MediaTime> end_of(const AVStream& stream, const StreamSurvey& survey);

}  // namespace panslate::av
