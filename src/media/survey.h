#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "media/av.h"
#include "media/clip_reader.h"

/// What the packets of a stream say, read from the container's own index or from the packets themselves;
/// nothing is decoded.
namespace panslate::av {

struct StreamSurvey {
  std::vector<std::int64_t> stamps;  ///< of each shown picture (or sound packet), in the stream's time base
  std::optional<std::int64_t> end;   ///< of the last one, where its length is known
  std::int64_t packets = 0;          ///< also those without a time stamp
  std::int64_t last_byte = 0;        ///< how far into the file the stream reaches
};

/// From the index that the container's header holds. Complete only for containers that list every packet
/// there.
[[nodiscard]] StreamSurvey survey_index(const AVStream& stream);

/// Reads every packet from the beginning; one entry for each stream of the format, by index. NotMedia when
/// reading takes too long.
[[nodiscard]] Result<std::vector<StreamSurvey>> survey_packets(ClipReader& reader);

}  // namespace panslate::av
