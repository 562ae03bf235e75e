#include "media/survey.h"

#include <algorithm>
#include <limits>
#include <string_view>
#include <utility>

#include "media/sound_header.h"

namespace panslate::av {

namespace {

// Stamps beyond this are damage; below it, differences cannot overflow.
constexpr std::int64_t kLargestStamp = std::int64_t{1} << 52;
// Looking at the beginning of a large file: enough pictures to tell a varying rate from a constant one.
constexpr std::int64_t kPacketsAtBeginning = 2000;
constexpr MediaTime kLookBackAtEnd = MediaTime::from_seconds(3);

enum class Keep { Everything, LastOnly };

bool is_sane(std::int64_t stamp) {
  return stamp != AV_NOPTS_VALUE && stamp < kLargestStamp && stamp > -kLargestStamp;
}

bool is_avi(const AVFormatContext& format) {
  return std::string_view(format.iformat->name) == "avi";
}

bool has_index_of_everything(const AVFormatContext& format) {
  return std::string_view(format.iformat->name).starts_with("mov,") || is_avi(format);
}

const AVStream& main_stream(const ClipReader& reader) {
  return reader.picture() != nullptr ? *reader.picture() : *reader.sounds().front();
}

void note(StreamSurvey& survey, std::int64_t stamp, std::int64_t length, Keep keep) {
  if (!is_sane(stamp)) return;
  if (keep == Keep::Everything) survey.stamps.push_back(stamp);
  if (survey.last && *survey.last > stamp) return;
  survey.last = stamp;
  survey.last_length = length > 0 && length < kLargestStamp ? std::optional(length) : std::nullopt;
}

StreamSurvey survey_index(const AVStream& stream) {
  StreamSurvey found;
  // The index functions take a stream that may change only because they are older than const.
  auto& asked = const_cast<AVStream&>(stream);
  const int count = avformat_index_get_entries_count(&asked);
  found.stamps.reserve(static_cast<std::size_t>(std::max(count, 0)));
  for (int i = 0; i < count; ++i) {
    const AVIndexEntry* entry = avformat_index_get_entry(&asked, i);
    if (entry == nullptr) break;
    found.last_byte = std::max(found.last_byte, entry->pos + entry->size);
    if ((entry->flags & AVINDEX_DISCARD_FRAME) != 0) continue;
    ++found.packets;
    note(found, entry->timestamp, 0, Keep::Everything);
  }
  return found;
}

// Reads on from where the reader is.
Status survey_packets(ClipReader& reader, std::vector<StreamSurvey>& surveys, Keep keep, std::int64_t most) {
  const Packet packet = make_packet();
  for (std::int64_t count = 0; count < most; ++count) {
    PANSLATE_TRY(const auto read, reader.read(*packet));
    if (read == ClipReader::Read::End) return {};
    const auto index = static_cast<std::size_t>(packet->stream_index);
    if (index >= surveys.size()) surveys.resize(index + 1);
    if ((packet->flags & AV_PKT_FLAG_DISCARD) != 0) continue;
    StreamSurvey& stream = surveys[index];
    if (keep == Keep::Everything) ++stream.packets;
    if (packet->pos >= 0) stream.last_byte = std::max(stream.last_byte, packet->pos + packet->size);
    note(stream, packet->pts != AV_NOPTS_VALUE ? packet->pts : packet->dts, packet->duration, keep);
  }
  return {};
}

// The usual time between two packets, in the stream's time base; 0 for fewer than two.
std::int64_t usual_gap(const StreamSurvey& survey) {
  if (survey.stamps.size() < 2) return 0;
  const auto [first, last] = std::minmax_element(survey.stamps.begin(), survey.stamps.end());
  const auto gaps = static_cast<std::int64_t>(survey.stamps.size()) - 1;
  return (*last - *first + gaps / 2) / gaps;
}

std::optional<MediaTime> measured(const ClipReader& reader, const ClipSurvey& survey) {
  std::optional<MediaTime> end;
  for (std::size_t i = 0; i < survey.streams.size() && i < reader.format().nb_streams; ++i)
    if (const auto found = end_of(*reader.format().streams[i], survey.streams[i]))
      end = std::max(end.value_or(*found), *found);
  if (end) *end = *end - reader.clock_start();
  return end;
}

// True where the header's index lists every packet and nothing in it contradicts the rest of the header.
bool index_is_sound(const ClipReader& reader, const ClipSurvey& survey) {
  if (!has_index_of_everything(reader.format()) || !claimed_duration(reader) || survey.breaks_off)
    return false;
  const AVStream& stream = main_stream(reader);
  const StreamSurvey& index = survey.streams[static_cast<std::size_t>(stream.index)];
  // A fragmented file counts no pictures in its header.
  if (index.stamps.empty() || stream.nb_frames <= 0) return false;
  if (is_avi(reader.format()) && reader.picture() != nullptr && index.packets != stream.nb_frames)
    return false;
  const auto first = to_time(*std::min_element(index.stamps.begin(), index.stamps.end()), stream.time_base);
  const auto end = end_of(stream, index);
  const auto claimed = to_time(stream.duration, stream.time_base);
  return first && end && claimed && agree(*claimed, *end - *first);
}

ClipSurvey from_index(const ClipReader& reader) {
  ClipSurvey survey;
  std::int64_t last_byte = 0;
  for (unsigned i = 0; i < reader.format().nb_streams; ++i) {
    const AVStream& stream = *reader.format().streams[i];
    survey.streams.push_back(stream.discard == AVDISCARD_ALL ? StreamSurvey{} : survey_index(stream));
    last_byte = std::max(last_byte, survey.streams.back().last_byte);
  }
  survey.breaks_off = has_index_of_everything(reader.format()) && last_byte > reader.file_size();
  return survey;
}

// Both ends of a large file; empty where its last packets do not lie where the header says.
Result<std::optional<ClipSurvey>> from_ends(ClipReader& reader, MediaTime claimed) {
  ClipSurvey survey;
  survey.reach = Reach::Ends;
  survey.streams.resize(reader.format().nb_streams);
  reader.rewind();
  PANSLATE_CHECK(survey_packets(reader, survey.streams, Keep::Everything, kPacketsAtBeginning));
  const AVStream& stream = main_stream(reader);
  const auto near_end = reader.clock_start() + std::max(MediaTime{}, claimed - kLookBackAtEnd);
  if (!reader.seek(stream, to_stamp(near_end, stream.time_base, AV_ROUND_DOWN))) return std::nullopt;
  PANSLATE_CHECK(
      survey_packets(reader, survey.streams, Keep::LastOnly, std::numeric_limits<std::int64_t>::max()));
  const auto found = measured(reader, survey);
  if (!found || !agree(*found, claimed)) return std::nullopt;
  return survey;
}

}  // namespace

std::optional<MediaTime> claimed_duration(const ClipReader& reader) {
  const auto& format = reader.format();
  // An AVI's own count is believed by players; FFmpeg shortens it to what the file's size allows.
  if (const AVStream* picture = reader.picture();
      is_avi(format) && picture != nullptr && picture->nb_frames > 0)
    if (const auto rate = to_frame_rate(picture->avg_frame_rate))
      return MediaTime::from_frames(picture->nb_frames, *rate);
  // FFmpeg believes the size of the file.
  if (const auto sound = length_in_header(reader);
      sound && !agree(*sound, to_time(format.duration, AVRational{1, AV_TIME_BASE}).value_or(MediaTime{})))
    return sound;
  if (format.duration <= 0 || format.duration_estimation_method != AVFMT_DURATION_FROM_STREAM)
    return std::nullopt;
  const auto whole = to_time(format.duration, AVRational{1, AV_TIME_BASE});
  const auto file_start = to_time(format.start_time, AVRational{1, AV_TIME_BASE});
  if (!whole || !file_start) return whole;
  return *whole - std::max(MediaTime{}, reader.clock_start() - *file_start);
}

bool agree(MediaTime a, MediaTime b) {
  const MediaTime off = a < b ? b - a : a - b;
  return off <= std::max(MediaTime::from_ms(500), std::max(a, b) / 50);
}

std::optional<MediaTime> end_of(const AVStream& stream, const StreamSurvey& survey) {
  if (!survey.last) return std::nullopt;
  const std::int64_t gap = usual_gap(survey);
  const std::int64_t length = survey.last_length.value_or(gap);
  // Some files give every packet the length of one unit.
  return to_time(*survey.last + (length <= 1 ? std::max(gap, length) : length), stream.time_base);
}

Result<ClipSurvey> survey_clip(ClipReader& reader, std::int64_t read_whole) {
  ClipSurvey survey = from_index(reader);
  if (index_is_sound(reader, survey)) return survey;
  const auto claimed = claimed_duration(reader);
  if (claimed && *claimed > MediaTime{} && reader.file_size() > read_whole && !survey.breaks_off &&
      !has_index_of_everything(reader.format())) {
    PANSLATE_TRY(auto ends, from_ends(reader, *claimed));
    if (ends) return *std::move(ends);
  }
  survey.reach = Reach::Everything;
  survey.streams.assign(reader.format().nb_streams, {});
  reader.rewind();
  PANSLATE_CHECK(
      survey_packets(reader, survey.streams, Keep::Everything, std::numeric_limits<std::int64_t>::max()));
  return survey;
}

}  // namespace panslate::av
