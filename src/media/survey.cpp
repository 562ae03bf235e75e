#include "media/survey.h"

#include <algorithm>

namespace panslate::av {

namespace {

// Stamps beyond this are damage; below it, differences cannot overflow.
constexpr std::int64_t kLargestStamp = std::int64_t{1} << 52;

bool is_sane(std::int64_t stamp) {
  return stamp != AV_NOPTS_VALUE && stamp < kLargestStamp && stamp > -kLargestStamp;
}

}  // namespace

StreamSurvey survey_index(const AVStream& stream) {
  StreamSurvey found;
  // The index functions take a stream that may change only because they are older than const.
  auto& asked = const_cast<AVStream&>(stream);  // NOLINT(cppcoreguidelines-pro-type-const-cast)
  const int count = avformat_index_get_entries_count(&asked);
  found.stamps.reserve(static_cast<std::size_t>(std::max(count, 0)));
  for (int i = 0; i < count; ++i) {
    const AVIndexEntry* entry = avformat_index_get_entry(&asked, i);
    if (entry == nullptr) break;
    found.last_byte = std::max(found.last_byte, entry->pos + entry->size);
    if ((entry->flags & AVINDEX_DISCARD_FRAME) != 0) continue;
    ++found.packets;
    if (is_sane(entry->timestamp)) found.stamps.push_back(entry->timestamp);
  }
  return found;
}

Result<std::vector<StreamSurvey>> survey_packets(ClipReader& reader) {
  reader.rewind();
  std::vector<StreamSurvey> found(reader.format().nb_streams);
  const Packet packet = make_packet();
  for (;;) {
    PANSLATE_TRY(const auto read, reader.read(*packet));
    if (read == ClipReader::Read::End) return found;
    const auto index = static_cast<std::size_t>(packet->stream_index);
    if (index >= found.size()) found.resize(index + 1);
    if ((packet->flags & AV_PKT_FLAG_DISCARD) != 0) continue;
    StreamSurvey& stream = found[index];
    ++stream.packets;
    if (packet->pos >= 0) stream.last_byte = std::max(stream.last_byte, packet->pos + packet->size);
    const std::int64_t stamp = packet->pts != AV_NOPTS_VALUE ? packet->pts : packet->dts;
    if (!is_sane(stamp)) continue;
    stream.stamps.push_back(stamp);
    if (packet->duration > 0 && packet->duration < kLargestStamp)
      stream.end = std::max(stream.end.value_or(stamp), stamp + packet->duration);
    else if (stream.end && *stream.end <= stamp)
      stream.end.reset();  // the last one's length is not known
  }
}

}  // namespace panslate::av
