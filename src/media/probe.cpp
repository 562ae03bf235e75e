#include <algorithm>
#include <array>
#include <limits>
#include <optional>
#include <utility>

#include "panslate/base/timecode.h"
#include "panslate/base/timestamp.h"
#include "panslate/media/clip_facts.h"

#include "media/av.h"
#include "media/clip_reader.h"
#include "media/frame_timing.h"
#include "media/orientation.h"
#include "media/survey.h"
#include "media/untrusted_enum.h"

extern "C" {
#include <libavutil/channel_layout.h>
#include <libavutil/pixdesc.h>
}

namespace panslate {

namespace {

using av::ClipSurvey;
using av::Reach;
using av::StreamSurvey;

constexpr std::chrono::seconds kPatience{60};
// Even the barest film needs more than this; a header that claims less has the length wrong.
constexpr std::int64_t kFewestBytesPerSecond = 16;

std::optional<MediaTime> begin_on_clock(const AVStream& stream, const StreamSurvey& survey,
                                        MediaTime clock_start) {
  auto first = stream.start_time;
  if (first == AV_NOPTS_VALUE && !survey.stamps.empty())
    first = *std::min_element(survey.stamps.begin(), survey.stamps.end());
  const auto time = av::to_time(first, stream.time_base);
  return time ? std::optional(*time - clock_start) : std::nullopt;
}

// The end of a stream on the clip's clock.
MediaTime end_on_clock(const av::ClipReader& reader, const AVStream& stream, const ClipSurvey& survey) {
  const auto& packets = survey.streams[static_cast<std::size_t>(stream.index)];
  if (survey.reach == Reach::Index) {
    // The index of an AVI counts the bytes of its sound; without a length of its own it lasts as long as the
    // file.
    const auto length = av::to_time(stream.duration, stream.time_base);
    const auto whole = av::claimed_duration(reader);
    if (length) return begin_on_clock(stream, packets, reader.clock_start()).value_or(MediaTime{}) + *length;
    if (whole) return *whole;
  }
  if (const auto end = av::end_of(stream, packets)) return *end - reader.clock_start();
  // Raw streams without time stamps: as many pictures as there are, at the rate the stream says.
  const auto rate = av::to_frame_rate(stream.avg_frame_rate);
  return rate ? MediaTime::from_frames(packets.packets, *rate) : MediaTime{};
}

void set_shape(PictureFacts& facts, AVFormatContext& format, AVStream& stream,
               std::vector<std::string>& warnings) {
  facts.width = stream.codecpar->width;
  facts.height = stream.codecpar->height;
  const auto orientation = av::orientation_of(stream);
  facts.rotation = orientation.rotation;
  facts.mirrored = orientation.mirrored;
  if (orientation.odd)
    warnings.emplace_back(
        "the file asks to turn the picture by an odd angle; the nearest quarter turn is used");

  const auto shown = av::shown_size(facts.width, facts.height,
                                    av_guess_sample_aspect_ratio(&format, &stream, nullptr), facts.rotation);
  if (shown.odd_pixel)
    warnings.emplace_back("the file gives its pixels an impossible shape; they are taken as square");
  facts.shown_width = shown.width;
  facts.shown_height = shown.height;
}

bool is_hdr(const AVCodecParameters& codec) {
  const auto transfer = av::untrusted(codec.color_trc);
  return transfer == AVCOL_TRC_SMPTE2084 || transfer == AVCOL_TRC_ARIB_STD_B67;
}

PictureFacts picture_facts(av::ClipReader& reader, const ClipSurvey& survey,
                           std::vector<std::string>& warnings) {
  AVStream& stream = *reader.picture();
  const StreamSurvey& packets = survey.streams[static_cast<std::size_t>(stream.index)];
  PictureFacts facts;
  set_shape(facts, reader.format(), stream, warnings);
  facts.codec = avcodec_get_name(stream.codecpar->codec_id);
  facts.hdr = is_hdr(*stream.codecpar);
  if (survey.reach != Reach::Ends) facts.frames = packets.packets;
  facts.duration = end_on_clock(reader, stream, survey);

  std::vector<FrameRate> declared;
  for (const AVRational rate : {stream.avg_frame_rate, stream.r_frame_rate})
    if (const auto known = av::to_frame_rate(rate)) declared.push_back(*known);
  // AVI has one rate for all; a gap in its numbering repeats the picture before.
  const bool numbered = std::string_view(reader.format().iformat->name) == "avi" && !declared.empty();
  if (!declared.empty()) facts.frame_rate = declared.front();
  if (numbered) return facts;
  if (const auto timing =
          av::measure_timing(packets.stamps, stream.time_base.num, stream.time_base.den, declared)) {
    facts.frame_rate = timing->rate;
    facts.variable_rate = timing->variable;
  }
  return facts;
}

std::string layout_name(const AVChannelLayout& layout) {
  AVChannelLayout usual{};
  // A file that only counts its channels means the usual order.
  if (layout.order == AV_CHANNEL_ORDER_UNSPEC) av_channel_layout_default(&usual, layout.nb_channels);
  std::array<char, 128> name{};
  const int written =
      av_channel_layout_describe(usual.nb_channels > 0 ? &usual : &layout, name.data(), name.size());
  av_channel_layout_uninit(&usual);
  return written > 0 ? name.data() : std::to_string(layout.nb_channels) + " channels";
}

SoundFacts sound_facts(const av::ClipReader& reader, const AVStream& stream, const ClipSurvey& survey) {
  SoundFacts facts;
  const AVCodecParameters& codec = *stream.codecpar;
  facts.channels = codec.ch_layout.nb_channels;
  facts.sample_rate = codec.sample_rate;
  facts.codec = avcodec_get_name(codec.codec_id);
  facts.layout = layout_name(codec.ch_layout);
  const auto& packets = survey.streams[static_cast<std::size_t>(stream.index)];
  facts.begin = begin_on_clock(stream, packets, reader.clock_start()).value_or(MediaTime{});
  facts.end = std::max(facts.begin, end_on_clock(reader, stream, survey));
  return facts;
}

std::optional<std::string> start_timecode(const av::ClipReader& reader) {
  const auto& format = reader.format();
  if (reader.picture() != nullptr)
    if (auto found = av::entry(reader.picture()->metadata, "timecode")) return found;
  if (auto found = av::entry(format.metadata, "timecode")) return found;
  for (unsigned i = 0; i < format.nb_streams; ++i)
    if (auto found = av::entry(format.streams[i]->metadata, "timecode")) return found;
  return std::nullopt;
}

void set_timecode(ClipFacts& facts, const av::ClipReader& reader) {
  auto label = start_timecode(reader);
  if (!label) return;
  if (facts.picture) {
    if (facts.picture->variable_rate) {
      facts.warnings.emplace_back("the frame rate varies, so the timecode of the clip is left out");
      return;
    }
    if (!parse_timecode(*label, facts.picture->frame_rate)) {
      facts.warnings.push_back("the timecode '" + *label + "' does not fit the frame rate and is left out");
      return;
    }
  }
  facts.timecode = std::move(label);
}

// `2024-05-04T10:12:00.000000Z` and `2024-05-04 10:12:00` in the usual form of ISO 8601.
std::string as_iso(std::string date) {
  if (const auto point = date.find(".000000"); point != std::string::npos) date.erase(point, 7);
  if (date.size() > 10 && date[10] == ' ') date[10] = 'T';
  return date;
}

std::optional<std::string> recorded_at(const av::ClipReader& reader) {
  const auto& format = reader.format();
  // With the time zone, where a phone writes it.
  if (auto found = av::entry(format.metadata, "com.apple.quicktime.creationdate")) return as_iso(*found);
  if (auto found = av::entry(format.metadata, "creation_time")) return as_iso(*found);
  for (unsigned i = 0; i < format.nb_streams; ++i)
    if (auto found = av::entry(format.streams[i]->metadata, "creation_time")) return as_iso(*found);
  return std::nullopt;
}

std::string spoken(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Clock);
}

// The duration and where it comes from; warns where the header was wrong.
Status set_duration(ClipFacts& facts, const av::ClipReader& reader, const ClipSurvey& survey) {
  const auto claimed = av::claimed_duration(reader);
  MediaTime measured;
  if (facts.picture) measured = facts.picture->duration;
  for (const auto& sound : facts.sound) measured = std::max(measured, sound.end);

  const bool plausible = claimed && *claimed > MediaTime{} &&
                         reader.file_size() / (1 + claimed->to_ms(Round::Up) / 1000) >= kFewestBytesPerSecond;
  if (plausible && (survey.reach != Reach::Everything || av::agree(*claimed, measured))) {
    facts.duration = *claimed;
    facts.duration_source = DurationSource::Header;
    return {};
  }
  if (measured <= MediaTime{})
    return fail(ErrorCode::NotMedia, "there is neither picture nor sound in it that can be read",
                Place{reader.file()}, "copy the file from the camera again; it may have been cut off");
  facts.duration = measured;
  facts.duration_source = DurationSource::Packets;
  if (claimed && *claimed > MediaTime{})
    facts.warnings.push_back(
        (survey.breaks_off ? "the file breaks off: it says it lasts " : "it says it lasts ") +
        spoken(*claimed) + ", but what is in it ends at " + spoken(measured));
  return {};
}

// An index knows decoding times only, which are good for telling whether a rate varies, but not for its
// average.
void set_average_rate(PictureFacts& picture) {
  if (!picture.frames || *picture.frames <= 0 || picture.duration <= MediaTime{}) return;
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max() / MediaTime::kTicksPerSecond;
  if (*picture.frames >= most) return;
  AVRational average{};
  av_reduce(&average.num, &average.den, *picture.frames * MediaTime::kTicksPerSecond,
            picture.duration.ticks(), 1'000'000);
  if (const auto rate = av::to_frame_rate(average)) picture.frame_rate = *rate;
}

Result<ClipFacts> facts_without_picture_or_sound(ClipFacts facts, const av::ClipReader& reader) {
  set_timecode(facts, reader);
  const auto length = av::claimed_duration(reader);
  if (!facts.timecode || !length)
    return fail(ErrorCode::NotMedia, "there is neither picture nor sound in it", Place{reader.file()});
  facts.duration = *length;
  facts.warnings.emplace_back("there is neither picture nor sound in it, only timecode");
  return facts;
}

}  // namespace

Result<ClipFacts> probe_clip(const std::filesystem::path& file) {
  PANSLATE_TRY(auto reader, av::ClipReader::open(file, kPatience));
  ClipFacts facts;
  facts.file = file;
  facts.container = reader.format().iformat->name;
  facts.recorded = recorded_at(reader);
  if (reader.picture() == nullptr && reader.sounds().empty())
    return facts_without_picture_or_sound(std::move(facts), reader);

  PANSLATE_TRY(const auto survey, av::survey_clip(reader));
  if (reader.picture() != nullptr) facts.picture = picture_facts(reader, survey, facts.warnings);
  for (const AVStream* sound : reader.sounds()) facts.sound.push_back(sound_facts(reader, *sound, survey));
  set_timecode(facts, reader);
  PANSLATE_CHECK(set_duration(facts, reader, survey));
  // FFmpeg reckons a stream's own length from decoding times, which is short by the reordering; the whole is
  // right.
  if (facts.picture && facts.sound.empty()) facts.picture->duration = facts.duration;
  if (facts.picture && facts.picture->variable_rate) set_average_rate(*facts.picture);
  return facts;
}

}  // namespace panslate
