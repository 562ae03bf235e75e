#include "media/picture_decoder.h"

#include <algorithm>
#include <array>
#include <limits>
#include <new>
#include <thread>
#include <utility>

namespace panslate::av {

namespace {

constexpr std::int64_t kMostPixels = std::int64_t{8192} * 8192;
constexpr std::int64_t kMostFrames = 100'000;
constexpr int kMostRefusals = 10'000;
constexpr unsigned kMostThreads = 4;
// The decoder is not sure that all that the picture refers to was there.
bool is_doubtful(const AVFrame& frame) {
  return (frame.flags & AV_FRAME_FLAG_CORRUPT) != 0;
}

// A seek in a file without an index reads about so much by itself.
constexpr MediaTime kNearWithoutIndex = MediaTime::from_seconds(1);
// How far before the wanted time to look for a picture to start from, in turn; then from the beginning.
constexpr std::array kRunUps{MediaTime{}, MediaTime::from_seconds(2), MediaTime::from_seconds(15)};

}  // namespace

Result<CodecContext> open_picture_codec(ClipReader& reader, int threads, Doubtful doubtful) {
  AVStream* stream = reader.picture();
  if (stream == nullptr) return fail(ErrorCode::NotMedia, "there is no picture in it", Place{reader.file()});
  const AVCodecParameters& parameters = *stream->codecpar;
  if (parameters.width > kLargestSide || parameters.height > kLargestSide ||
      std::int64_t{parameters.width} * parameters.height > kMostPixels)
    return fail(ErrorCode::NotMedia,
                "its picture is too large: " + std::to_string(parameters.width) + " x " +
                    std::to_string(parameters.height),
                Place{reader.file()}, "the file may be damaged; copy it from the camera again");
  const AVCodec* codec = avcodec_find_decoder(parameters.codec_id);
  if (codec == nullptr)
    return fail(ErrorCode::NotMedia,
                "its pictures are coded as '" + std::string(avcodec_get_name(parameters.codec_id)) +
                    "', which cannot be shown here",
                Place{reader.file()}, "export the clip again as .mp4 with H.264");

  CodecContext made(avcodec_alloc_context3(codec));
  if (!made) throw std::bad_alloc();
  int code = avcodec_parameters_to_context(made.get(), &parameters);
  if (code < 0) return failure(ErrorCode::NotMedia, "decode the picture", code, reader.file());
  made->pkt_timebase = stream->time_base;
  made->max_pixels = kMostPixels;
  if (doubtful == Doubtful::Shown) made->flags |= AV_CODEC_FLAG_OUTPUT_CORRUPT;
  made->thread_count = threads;
  code = avcodec_open2(made.get(), codec, nullptr);
  if (code < 0) return failure(ErrorCode::NotMedia, "decode the picture", code, reader.file());
  return made;
}

Result<PictureDecoder> PictureDecoder::open(ClipReader& reader) {
  PictureDecoder made(reader);
  // Rather a picture marked as doubtful than none: is_doubtful() decides.
  const auto threads = static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1U, kMostThreads));
  PANSLATE_TRY(made.decoder_, open_picture_codec(reader, threads, Doubtful::Shown));
  for (AVStream* sound : reader.sounds()) sound->discard = AVDISCARD_ALL;
  return made;
}

MediaTime PictureDecoder::time_of(const AVFrame& frame) const {
  const auto shown = to_time(frame.pts, reader_->picture()->time_base);
  return shown ? *shown - reader_->clock_start() : MediaTime{};
}

Result<Frame> PictureDecoder::next() {
  Frame frame = make_frame();
  for (int refused = 0; refused < kMostRefusals;) {
    if (reader_->late() || frames_ > kMostFrames)
      return fail(ErrorCode::NotMedia, "it takes too long to reach this picture", Place{reader_->file()});
    const int got = avcodec_receive_frame(decoder_.get(), frame.get());
    if (got == AVERROR_EOF) return Frame{};
    if (got >= 0) {
      ++frames_;
      set_stamp(*frame);
      return frame;
    }
    // Anything but "more, please" is damage: what follows may be whole again.
    if (got != AVERROR(EAGAIN)) ++refused;
    if (drained_) {
      if (got == AVERROR(EAGAIN)) return Frame{};
      continue;
    }
    PANSLATE_TRY(const auto read, reader_->read(*packet_));
    drained_ = read == ClipReader::Read::End;
    const bool is_picture = !drained_ && packet_->stream_index == reader_->picture()->index;
    if (drained_ && avcodec_send_packet(decoder_.get(), nullptr) < 0) return Frame{};
    if (is_picture) decoder_->skip_frame = needed(*packet_);
    if (is_picture && avcodec_send_packet(decoder_.get(), packet_.get()) < 0) ++refused;
  }
  return Frame{};
}

AVDiscard PictureDecoder::needed(const AVPacket& packet) {
  const auto stamp = packet.pts;
  const bool starts = !started_ && (packet.flags & AV_PKT_FLAG_KEY) != 0;
  started_ = started_ || starts;
  if (stamp == AV_NOPTS_VALUE) return AVDISCARD_DEFAULT;
  if (sought_ && starts) start_ = stamp;
  if (start_ && stamp < *start_) return AVDISCARD_NONREF;
  // Another picture is shown between this one and the time that is wanted, so this one is never the answer.
  // (B pictures come after the one that is shown after them.)
  if (nearest_ && stamp < *nearest_) return AVDISCARD_NONREF;
  if (stamp <= wanted_ && (packet.flags & AV_PKT_FLAG_DISCARD) == 0) nearest_ = stamp;
  return AVDISCARD_DEFAULT;
}

void PictureDecoder::set_stamp(AVFrame& frame) {
  const AVStream& stream = *reader_->picture();
  frame.pts = frame.best_effort_timestamp;
  if (frame.pts == AV_NOPTS_VALUE) frame.pts = counted_.value_or(0);
  const auto rate = to_frame_rate(stream.avg_frame_rate).value_or(FrameRate{25, 1});
  const auto length = to_stamp(MediaTime::from_frames(1, rate), stream.time_base, AV_ROUND_NEAR_INF);
  counted_ = frame.pts < std::numeric_limits<std::int64_t>::max() / 2
                 ? frame.pts + std::max<std::int64_t>(1, length)
                 : frame.pts;
}

bool PictureDecoder::seek(MediaTime time) {
  sought_ = true;
  const AVStream& stream = *reader_->picture();
  const auto stamp = to_stamp(time, stream.time_base, AV_ROUND_DOWN);
  if (!reader_->seek(stream, stamp)) return false;
  avcodec_flush_buffers(decoder_.get());
  drained_ = false;
  counted_.reset();
  started_ = false;
  start_.reset();
  nearest_.reset();
  return true;
}

void PictureDecoder::start_over() {
  sought_ = false;
  reader_->rewind();
  avcodec_flush_buffers(decoder_.get());
  drained_ = false;
  counted_.reset();
  started_ = false;
  start_.reset();
  nearest_.reset();
}

bool PictureDecoder::is_on_the_way(MediaTime time) const {
  // Behind the last frame there is nothing to decode on to.
  if (!shown_ || time < time_of(*shown_)) return false;
  if (!ahead_ || time <= time_of(*ahead_)) return true;
  AVStream& stream = *reader_->picture();
  const auto stamp = to_stamp(reader_->clock_start() + time, stream.time_base, AV_ROUND_DOWN);
  const int entries = avformat_index_get_entries_count(&stream);
  const AVIndexEntry* last = avformat_index_get_entry(&stream, entries - 1);
  const AVIndexEntry* start = avformat_index_get_entry_from_timestamp(&stream, stamp, AVSEEK_FLAG_BACKWARD);
  // Some indexes grow while the file is read and know nothing of what lies beyond.
  if (start == nullptr || last == nullptr || last->timestamp < stamp)
    return time - time_of(*ahead_) < kNearWithoutIndex;
  // Index times are decoding times, a little before the picture is shown: where this one is the start of the
  // frame ahead or of one before it, seeking only goes back.
  return start->timestamp <= ahead_->pts;
}

Result<Frame> PictureDecoder::search(MediaTime wanted, Start start) {
  if (start != Start::GoingOn) {
    shown_.reset();
    ahead_.reset();
  }
  wanted_ = to_stamp(reader_->clock_start() + wanted, reader_->picture()->time_base, AV_ROUND_DOWN);
  for (;;) {
    Frame frame = std::move(ahead_);
    if (!frame) {
      PANSLATE_TRY(frame, next());
    }
    if (!frame) break;
    if (start_ && frame->pts < *start_) continue;
    if (time_of(*frame) > wanted) {
      if (!shown_ && start == Start::Beginning) shown_ = std::move(frame);
      ahead_ = std::move(frame);
      break;
    }
    shown_ = std::move(frame);
  }
  // From further back it may be whole.
  if (!shown_ || (start != Start::Beginning && (!started_ || is_doubtful(*shown_)))) return Frame{};
  Frame answer = make_frame();
  if (av_frame_ref(answer.get(), shown_.get()) < 0) throw std::bad_alloc();
  return answer;
}

Result<Frame> PictureDecoder::frame_at(MediaTime time) {
  frames_ = 0;
  if (is_on_the_way(time)) {
    PANSLATE_TRY(Frame found, search(time, Start::GoingOn));
    if (found) return found;
  }
  const MediaTime on_file = reader_->clock_start() + std::max(MediaTime{}, time);
  for (const MediaTime run_up : kRunUps) {
    if (!seek(on_file - run_up)) continue;
    PANSLATE_TRY(Frame found, search(time, Start::Sought));
    if (found) return found;
  }
  start_over();
  PANSLATE_TRY(Frame found, search(time, Start::Beginning));
  if (!found)
    return fail(ErrorCode::NotMedia, "no picture in it can be decoded", Place{reader_->file()},
                "copy the file from the camera again; it may be damaged");
  return found;
}

}  // namespace panslate::av
