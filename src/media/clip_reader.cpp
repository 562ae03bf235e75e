#include "media/clip_reader.h"

#include <system_error>
#include <utility>

extern "C" {
#include <libavutil/opt.h>
}

namespace panslate::av {

namespace {

namespace fs = std::filesystem;

// Containers and raw streams of pictures and sound. Play lists, device and text formats stay out: the first
// name other files, the last would make "clips" of captions and recipes.
constexpr const char* kFormats =
    "mov,mp4,m4a,3gp,3g2,mj2,matroska,webm,avi,flv,live_flv,mpegts,mpeg,mpegvideo,m4v,h264,hevc,h263,vc1,ivf,"
    "obu,"
    "mxf,asf,dv,gxf,rm,nut,ogg,wav,w64,aiff,caf,mp3,aac,flac,amr,amrnb,amrwb,ac3,eac3,dts,opus,wv,tta,ape,au,"
    "gif,"
    "mjpeg,wtv";

// Enough for any header a camera writes; the rest is measured from packets where it matters.
constexpr std::int64_t kHeaderBytes = std::int64_t{5} * 1024 * 1024;
constexpr std::int64_t kHeaderMicroseconds = 5'000'000;
constexpr int kMostReadErrors = 64;

bool is_cover(const AVStream& stream) {
  return (stream.disposition & AV_DISPOSITION_ATTACHED_PIC) != 0;
}

bool is_picture(const AVStream& stream) {
  const AVCodecParameters& codec = *stream.codecpar;
  return codec.codec_type == AVMEDIA_TYPE_VIDEO && !is_cover(stream) && codec.width > 0 && codec.height > 0;
}

// The stream that av_find_best_stream would take may be an empty one; prefer what is marked as default, then
// the larger picture, then the one that has frames.
AVStream* choose_picture(const AVFormatContext& format) {
  AVStream* best = nullptr;
  const auto rank = [](const AVStream& s) {
    return std::tuple(s.nb_frames > 0 || s.duration > 0, s.codecpar->codec_id != AV_CODEC_ID_NONE,
                      (s.disposition & AV_DISPOSITION_DEFAULT) != 0,
                      std::int64_t{s.codecpar->width} * s.codecpar->height);
  };
  for (unsigned i = 0; i < format.nb_streams; ++i) {
    AVStream& stream = *format.streams[i];
    if (is_picture(stream) && (best == nullptr || rank(stream) > rank(*best))) best = &stream;
  }
  return best;
}

Status check_is_readable(const fs::path& file) {
  std::error_code failed;
  const auto status = fs::status(file, failed);
  if (status.type() == fs::file_type::not_found)
    return fail(ErrorCode::NotFound, "there is no such file", Place{file},
                "check the name, or whether the card or disk is connected");
  if (failed) return fail(ErrorCode::Unreadable, "cannot open: " + failed.message(), Place{file});
  if (status.type() == fs::file_type::directory)
    return fail(ErrorCode::Unreadable, "this is a folder, not a clip", Place{file});
  if (status.type() != fs::file_type::regular)
    return fail(ErrorCode::Unreadable, "this is not a plain file", Place{file});
  return {};
}

}  // namespace

ClipReader::ClipReader(fs::path file, std::int64_t file_size, std::unique_ptr<Deadline> deadline,
                       InputContext format)
    : file_(std::move(file)),
      file_size_(file_size),
      deadline_(std::move(deadline)),
      format_(std::move(format)) {
  picture_ = choose_picture(*format_);
  for (unsigned i = 0; i < format_->nb_streams; ++i) {
    AVStream* stream = format_->streams[i];
    const bool is_sound =
        stream->codecpar->codec_type == AVMEDIA_TYPE_AUDIO && stream->codecpar->ch_layout.nb_channels > 0;
    if (is_sound) sounds_.push_back(stream);
    if (!is_sound && stream != picture_) stream->discard = AVDISCARD_ALL;
  }
}

int ClipReader::passed(void* deadline) {
  return std::chrono::steady_clock::now() > *static_cast<const Deadline*>(deadline) ? 1 : 0;
}

Result<ClipReader> ClipReader::open(const fs::path& file, std::chrono::milliseconds patience) {
  be_quiet();
  PANSLATE_CHECK(check_is_readable(file));
  std::error_code failed;
  const auto size = fs::file_size(file, failed);
  if (failed) return fail(ErrorCode::Unreadable, "cannot open: " + failed.message(), Place{file});
  if (size == 0)
    return fail(ErrorCode::NotMedia, "the file is empty", Place{file}, "copy it from the camera again");

  auto deadline = std::make_unique<Deadline>(std::chrono::steady_clock::now() + patience);
  AVFormatContext* raw = avformat_alloc_context();
  if (raw == nullptr) return failure(ErrorCode::Internal, "open", AVERROR(ENOMEM), file);
  raw->interrupt_callback = {&ClipReader::passed, deadline.get()};
  raw->probesize = kHeaderBytes;
  raw->max_analyze_duration = kHeaderMicroseconds;
  raw->fps_probe_size = 0;  // frame rates are measured here, from all time stamps
  AVDictionary* options = nullptr;
  av_dict_set(&options, "protocol_whitelist", "file", 0);
  av_dict_set(&options, "format_whitelist", kFormats, 0);
  // "file:" keeps names such as "http:x.mp4" or "a:b.mov" from being taken for something else.
  const int opened = avformat_open_input(&raw, ("file:" + file.string()).c_str(), nullptr, &options);
  const Dictionary unused(options);
  if (opened == AVERROR(EACCES)) return failure(ErrorCode::Unreadable, "open", opened, file);
  if (opened == AVERROR(EINVAL) || opened == AVERROR_INVALIDDATA)
    return fail(ErrorCode::NotMedia, "there is no film or sound in it that can be opened", Place{file},
                "if it plays elsewhere, export it again as .mp4 or .wav; else copy it from the camera again");
  if (opened < 0) return failure(ErrorCode::NotMedia, "open as film or sound", opened, file);
  InputContext format(raw);

  // Its failure is not fatal: what the header says may be enough.
  const int informed = avformat_find_stream_info(format.get(), nullptr);
  if (informed < 0 && format->nb_streams == 0) return failure(ErrorCode::NotMedia, "read", informed, file);
  return ClipReader(file, static_cast<std::int64_t>(size), std::move(deadline), std::move(format));
}

MediaTime ClipReader::clock_start() const {
  const auto start_of = [](const AVStream& stream) { return to_time(stream.start_time, stream.time_base); };
  if (picture_ != nullptr) return start_of(*picture_).value_or(MediaTime{});
  std::optional<MediaTime> first;
  for (const AVStream* sound : sounds_)
    if (const auto start = start_of(*sound); start && (!first || *start < *first)) first = start;
  return first.value_or(MediaTime{});
}

Result<ClipReader::Read> ClipReader::read(AVPacket& packet) {
  for (;;) {
    av_packet_unref(&packet);
    const int got = av_read_frame(format_.get(), &packet);
    if (late())
      return fail(ErrorCode::NotMedia, "reading takes too long; the file may be damaged", Place{file_});
    if (got >= 0) {
      // A stream found only while reading has not been looked at.
      if (format_->streams[packet.stream_index]->discard == AVDISCARD_ALL) continue;
      return Read::Got;
    }
    if (got == AVERROR_EOF || got == AVERROR_EXIT) return Read::End;
    if (got != AVERROR(EAGAIN) && got != AVERROR_INVALIDDATA) return Read::End;
    if (++errors_ > kMostReadErrors) return Read::End;
  }
}

bool ClipReader::seek(const AVStream& stream, std::int64_t stamp) {
  errors_ = 0;
  return av_seek_frame(format_.get(), stream.index, stamp, AVSEEK_FLAG_BACKWARD) >= 0;
}

void ClipReader::rewind() {
  errors_ = 0;
  const int stream = picture_ != nullptr ? picture_->index : -1;
  // Streams without an index are taken back by bytes.
  if (av_seek_frame(format_.get(), stream, std::numeric_limits<std::int64_t>::min() / 2,
                    AVSEEK_FLAG_BACKWARD) < 0 &&
      avformat_seek_file(format_.get(), -1, std::numeric_limits<std::int64_t>::min(), 0, 0, 0) < 0)
    (void)av_seek_frame(format_.get(), -1, 0, AVSEEK_FLAG_BYTE);
}

}  // namespace panslate::av
