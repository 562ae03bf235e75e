#include "media/film_writer.h"

#include <algorithm>
#include <array>
#include <new>
#include <system_error>
#include <utility>

#include <unistd.h>

extern "C" {
#include <libavfilter/buffersink.h>
#include <libavutil/channel_layout.h>
#include <libavutil/display.h>
}

namespace panslate::av {

namespace {

constexpr std::array kKinds{
    FileKind{".mp4", "mp4", "libx264", "aac"},      FileKind{".mov", "mov", "libx264", "aac"},
    FileKind{".mkv", "matroska", "libx264", "aac"}, FileKind{".ts", "mpegts", "libx264", "aac"},
    FileKind{".avi", "avi", "mpeg4", "pcm_s16le"},  FileKind{".m4a", "ipod", nullptr, "aac"},
    FileKind{".wav", "wav", nullptr, "pcm_s16le"},  FileKind{".flac", "flac", nullptr, "flac"},
};

constexpr std::int64_t kSoundBitRate = 128'000;
constexpr int kPcmFrame = 1024;  // PCM takes frames of any length
constexpr int kSecondsBetweenKeyframes = 2;

Status missing_encoder(const char* name, const std::filesystem::path& out) {
  return fail(ErrorCode::WriteFailed, "the FFmpeg libraries here cannot write '" + std::string(name) + "'",
              Place{out}, "install the distribution's full set of FFmpeg libraries");
}

}  // namespace

Result<FileKind> file_kind(const std::filesystem::path& out) {
  const std::string ending = out.extension().string();
  for (const FileKind& kind : kKinds)
    if (ending == kind.ending) return kind;
  std::string known;
  for (const FileKind& kind : kKinds) known += (known.empty() ? "" : ", ") + std::string(kind.ending);
  return fail(ErrorCode::Usage, "films are not written as '" + ending + "'", Place{out},
              "use one of " + known);
}

AVSampleFormat sample_format_of(const FileKind& kind) {
  const AVCodec* codec = avcodec_find_encoder_by_name(kind.sound_encoder);
  return codec != nullptr && codec->sample_fmts != nullptr ? codec->sample_fmts[0] : AV_SAMPLE_FMT_S16;
}

void FilmWriter::CloseOutput::operator()(AVFormatContext* context) const noexcept {
  (void)avio_closep(&context->pb);
  avformat_free_context(context);
}

void FilmWriter::RemoveFile::operator()(std::filesystem::path* path) const noexcept {
  std::error_code ignored;  // a leftover that cannot be removed is no reason to hide the first error
  std::filesystem::remove(*path, ignored);
  delete path;  // NOLINT(cppcoreguidelines-owning-memory): the unique_ptr's own
}

Result<FilmWriter> FilmWriter::open(const FileKind& kind, const RenderSpec& spec,
                                    const AVFilterContext* picture, AVFilterContext* sound,
                                    const std::filesystem::path& out) {
  FilmWriter writer;
  writer.out_ = out;
  AVFormatContext* raw = nullptr;
  const int allocated = avformat_alloc_output_context2(&raw, nullptr, kind.muxer, nullptr);
  if (allocated < 0) return failure(ErrorCode::WriteFailed, "write", allocated, out);
  writer.format_.reset(raw);
  writer.format_->flags |= AVFMT_FLAG_BITEXACT;
  if (picture != nullptr) PANSLATE_CHECK(writer.add_picture(kind, spec, *picture));
  if (sound != nullptr) PANSLATE_CHECK(writer.add_sound(kind, *sound));
  PANSLATE_CHECK(writer.start(spec));
  return writer;
}

Status FilmWriter::add_picture(const FileKind& kind, const RenderSpec& spec, const AVFilterContext& end) {
  const AVCodec* codec = avcodec_find_encoder_by_name(kind.picture_encoder);
  if (codec == nullptr) return missing_encoder(kind.picture_encoder, out_);
  picture_.encoder.reset(avcodec_alloc_context3(codec));
  if (!picture_.encoder) throw std::bad_alloc();
  AVCodecContext& encoder = *picture_.encoder;
  picture_.source_base = av_buffersink_get_time_base(&end);
  picture_.constant = spec.timing == PictureTiming::Constant;
  encoder.width = av_buffersink_get_w(&end);
  encoder.height = av_buffersink_get_h(&end);
  encoder.pix_fmt = static_cast<AVPixelFormat>(av_buffersink_get_format(&end));
  encoder.sample_aspect_ratio = av_buffersink_get_sample_aspect_ratio(&end);
  encoder.time_base = picture_.constant ? AVRational{spec.rate.den, spec.rate.num} : picture_.source_base;
  if (picture_.constant) encoder.framerate = {spec.rate.num, spec.rate.den};
  if (spec.duration) picture_.end_stamp = to_stamp(*spec.duration, encoder.time_base, AV_ROUND_NEAR_INF);
  encoder.gop_size = std::max(1, static_cast<int>(spec.rate.nominal()) * kSecondsBetweenKeyframes);
  encoder.colorspace = AVCOL_SPC_BT709;
  encoder.color_primaries = AVCOL_PRI_BT709;
  encoder.color_trc = AVCOL_TRC_BT709;
  encoder.color_range = AVCOL_RANGE_MPEG;
  if (encoder.width % 2 != 0 || encoder.height % 2 != 0)
    return fail(ErrorCode::Malformed, "the picture must be an even number of pixels wide and high",
                Place{out_});

  AVDictionary* options = nullptr;
  if (codec->id == AV_CODEC_ID_H264) {
    av_dict_set(&options, "preset", "veryfast", 0);
    av_dict_set(&options, "crf", "20", 0);
  } else {
    encoder.flags |= AV_CODEC_FLAG_QSCALE;
    encoder.global_quality = FF_QP2LAMBDA * 3;
  }
  PANSLATE_CHECK(add_stream(picture_, options));
  AVStream& stream = *picture_.stream;
  stream.sample_aspect_ratio = encoder.sample_aspect_ratio;
  stream.avg_frame_rate = encoder.framerate;
  if (spec.timecode) av_dict_set(&stream.metadata, "timecode", spec.timecode->c_str(), 0);
  if (spec.rotation != 0) {
    std::uint8_t* matrix =
        av_stream_new_side_data(&stream, AV_PKT_DATA_DISPLAYMATRIX, sizeof(std::int32_t) * 9);
    if (matrix == nullptr) throw std::bad_alloc();
    av_display_rotation_set(reinterpret_cast<std::int32_t*>(matrix), spec.rotation);
  }
  return {};
}

Status FilmWriter::add_sound(const FileKind& kind, AVFilterContext& end) {
  const AVCodec* codec = avcodec_find_encoder_by_name(kind.sound_encoder);
  if (codec == nullptr) return missing_encoder(kind.sound_encoder, out_);
  sound_.encoder.reset(avcodec_alloc_context3(codec));
  if (!sound_.encoder) throw std::bad_alloc();
  AVCodecContext& encoder = *sound_.encoder;
  sound_.source_base = av_buffersink_get_time_base(&end);
  encoder.sample_rate = av_buffersink_get_sample_rate(&end);
  encoder.sample_fmt = static_cast<AVSampleFormat>(av_buffersink_get_format(&end));
  encoder.time_base = {1, encoder.sample_rate};
  encoder.bit_rate = kSoundBitRate;
  if (const int copied = av_buffersink_get_ch_layout(&end, &encoder.ch_layout); copied < 0)
    return failure(ErrorCode::WriteFailed, "write the sound", copied, out_);
  PANSLATE_CHECK(add_stream(sound_, nullptr));
  const bool any_length = (codec->capabilities & AV_CODEC_CAP_VARIABLE_FRAME_SIZE) != 0;
  av_buffersink_set_frame_size(&end, static_cast<unsigned>(any_length ? kPcmFrame : encoder.frame_size));
  return {};
}

Status FilmWriter::add_stream(TrackState& track, AVDictionary* options) {
  AVCodecContext& encoder = *track.encoder;
  if ((format_->oformat->flags & AVFMT_GLOBALHEADER) != 0) encoder.flags |= AV_CODEC_FLAG_GLOBAL_HEADER;
  encoder.flags |= AV_CODEC_FLAG_BITEXACT;
  const int opened = avcodec_open2(&encoder, nullptr, &options);
  const Dictionary unused(options);
  if (opened < 0) return failure(ErrorCode::WriteFailed, "write", opened, out_);
  track.stream = avformat_new_stream(format_.get(), nullptr);
  if (track.stream == nullptr) throw std::bad_alloc();
  track.stream->time_base = encoder.time_base;
  const int copied = avcodec_parameters_from_context(track.stream->codecpar, &encoder);
  if (copied < 0) return failure(ErrorCode::WriteFailed, "write", copied, out_);
  return {};
}

Status FilmWriter::start(const RenderSpec& spec) {
  if (spec.recorded) av_dict_set(&format_->metadata, "creation_time", spec.recorded->c_str(), 0);
  auto name = out_;
  name += "." + std::to_string(getpid()) + ".part";
  const int opened = avio_open(&format_->pb, ("file:" + name.string()).c_str(), AVIO_FLAG_WRITE);
  if (opened < 0) return failure(ErrorCode::WriteFailed, "write", opened, out_);
  partial_.reset(new std::filesystem::path(std::move(name)));
  const int written = avformat_write_header(format_.get(), nullptr);
  if (written < 0) return failure(ErrorCode::WriteFailed, "write", written, out_);
  return {};
}

Status FilmWriter::encode(TrackState& track, const AVFrame* frame) {
  int code = avcodec_send_frame(track.encoder.get(), frame);
  if (code < 0) return failure(ErrorCode::WriteFailed, "write", code, out_);
  const Packet packet = make_packet();
  while ((code = avcodec_receive_packet(track.encoder.get(), packet.get())) >= 0) {
    packet->stream_index = track.stream->index;
    // The encoder does not know how long the last picture stays; the others end where the next begins.
    const bool is_last = packet->pts == track.last_stamp;
    if (packet->duration == 0 && (track.constant || is_last)) packet->duration = track.last_length;
    av_packet_rescale_ts(packet.get(), track.encoder->time_base, track.stream->time_base);
    code = av_interleaved_write_frame(format_.get(), packet.get());
    if (code < 0) return failure(ErrorCode::WriteFailed, "write", code, out_);
  }
  if (code != AVERROR(EAGAIN) && code != AVERROR_EOF)
    return failure(ErrorCode::WriteFailed, "write", code, out_);
  return {};
}

Status FilmWriter::write(Track track, AVFrame& frame) {
  TrackState& target = state(track);
  frame.pts = av_rescale_q(frame.pts, target.source_base, target.encoder->time_base);
  frame.pict_type = AV_PICTURE_TYPE_NONE;
  if (track == Track::Picture) {
    frame.quality = target.encoder->global_quality;
    if (target.last_stamp && !target.constant) target.last_length = frame.pts - *target.last_stamp;
    target.last_stamp = frame.pts;
  }
  return encode(target, &frame);
}

Status FilmWriter::end(Track track) {
  return encode(state(track), nullptr);
}

Status FilmWriter::finish() {
  int code = av_write_trailer(format_.get());
  const int closed = avio_closep(&format_->pb);
  if (code >= 0) code = closed;
  if (code < 0) return failure(ErrorCode::WriteFailed, "write", code, out_);
  std::error_code failed;
  std::filesystem::rename(*partial_, out_, failed);
  if (failed) return fail(ErrorCode::WriteFailed, "cannot write: " + failed.message(), Place{out_});
  return {};
}

}  // namespace panslate::av
