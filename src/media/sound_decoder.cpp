#include "media/sound_decoder.h"

#include <algorithm>
#include <array>
#include <new>
#include <string>

namespace panslate::av {

namespace {

constexpr int kMostRefusals = 100'000;
constexpr int kHighestRate = 768'000;

bool is_usable(const AVFrame& frame) {
  return frame.nb_samples > 0 && frame.sample_rate > 0 && frame.sample_rate <= kHighestRate &&
         frame.ch_layout.nb_channels > 0 && frame.ch_layout.nb_channels <= kMostChannels;
}

// Channels in a row that mean nothing: what becomes of them is told by a matrix, not by their names.
AVChannelLayout unnamed(int channels) {
  AVChannelLayout layout{};
  layout.order = AV_CHANNEL_ORDER_UNSPEC;
  layout.nb_channels = channels;
  return layout;
}

}  // namespace

Result<SoundDecoder> SoundDecoder::open(const ClipReader& reader, const AVStream& stream) {
  const AVCodecParameters& parameters = *stream.codecpar;
  const AVCodec* codec = avcodec_find_decoder(parameters.codec_id);
  if (codec == nullptr)
    return fail(ErrorCode::NotMedia,
                "its sound is coded as '" + std::string(avcodec_get_name(parameters.codec_id)) +
                    "', which cannot be heard here",
                Place{reader.file()}, "export the clip again as .mp4 with AAC sound, or its sound as .wav");
  SoundDecoder made;
  made.decoder_.reset(avcodec_alloc_context3(codec));
  if (!made.decoder_) throw std::bad_alloc();
  int code = avcodec_parameters_to_context(made.decoder_.get(), &parameters);
  if (code < 0) return failure(ErrorCode::NotMedia, "decode the sound", code, reader.file());
  made.decoder_->pkt_timebase = stream.time_base;
  made.decoder_->thread_count = 1;
  code = avcodec_open2(made.decoder_.get(), codec, nullptr);
  if (code < 0) return failure(ErrorCode::NotMedia, "decode the sound", code, reader.file());
  made.time_base_ = stream.time_base;
  made.clock_start_ = reader.clock_start();
  return made;
}

void SoundDecoder::send(const AVPacket* packet) {
  if (refused_ < kMostRefusals && avcodec_send_packet(decoder_.get(), packet) < 0) ++refused_;
}

Frame SoundDecoder::receive(std::optional<MediaTime>& time) {
  Frame frame = make_frame();
  while (refused_ < kMostRefusals) {
    const int got = avcodec_receive_frame(decoder_.get(), frame.get());
    if (got == AVERROR(EAGAIN) || got == AVERROR_EOF) return {};
    if (got < 0) {
      ++refused_;
      continue;
    }
    if (!is_usable(*frame)) continue;
    time = to_time(frame->best_effort_timestamp, time_base_);
    if (time) time = *time - clock_start_;
    return frame;
  }
  return {};
}

void SoundDecoder::flush() {
  avcodec_flush_buffers(decoder_.get());
}

std::optional<SoundForm> SoundForm::apart(const AVFrame& frame) {
  SoundForm made;
  made.format_ = frame.format;
  made.rate_ = frame.sample_rate;
  made.channels_ = frame.ch_layout.nb_channels;
  AVChannelLayout layout = unnamed(made.channels_);
  SwrContext* raw = nullptr;
  const int code = swr_alloc_set_opts2(&raw, &layout, AV_SAMPLE_FMT_FLTP, made.rate_, &layout,
                                       static_cast<AVSampleFormat>(made.format_), made.rate_, 0, nullptr);
  made.resampler_.reset(raw);
  if (code < 0 || swr_init(raw) < 0) return std::nullopt;
  return made;
}

std::optional<SoundForm> SoundForm::sum(const AVFrame& frame, const std::vector<double>& weights, int rate) {
  SoundForm made;
  made.format_ = frame.format;
  made.rate_ = frame.sample_rate;
  made.channels_ = frame.ch_layout.nb_channels;
  // A track may change its channels on the way.
  std::vector<double> matrix = weights;
  if (matrix.size() != static_cast<std::size_t>(made.channels_))
    matrix.assign(static_cast<std::size_t>(made.channels_), 1.0 / made.channels_);
  AVChannelLayout in = unnamed(made.channels_);
  AVChannelLayout out = unnamed(1);
  SwrContext* raw = nullptr;
  const int code = swr_alloc_set_opts2(&raw, &out, AV_SAMPLE_FMT_S16, rate, &in,
                                       static_cast<AVSampleFormat>(made.format_), made.rate_, 0, nullptr);
  made.resampler_.reset(raw);
  if (code < 0 || swr_set_matrix(raw, matrix.data(), made.channels_) < 0 || swr_init(raw) < 0)
    return std::nullopt;
  return made;
}

bool SoundForm::fits(const AVFrame& frame) const {
  return frame.format == format_ && frame.sample_rate == rate_ && frame.ch_layout.nb_channels == channels_;
}

void SoundForm::convert(const AVFrame& frame, std::vector<std::vector<float>>& channels) {
  channels.resize(static_cast<std::size_t>(channels_));
  std::array<std::uint8_t*, kMostChannels> out{};
  const std::size_t before = channels.front().size();
  for (int c = 0; c < channels_; ++c) {
    auto& channel = channels[static_cast<std::size_t>(c)];
    channel.resize(before + static_cast<std::size_t>(frame.nb_samples));
    out[static_cast<std::size_t>(c)] = reinterpret_cast<std::uint8_t*>(channel.data() + before);
  }
  const int made = swr_convert(resampler_.get(), out.data(), frame.nb_samples,
                               const_cast<const std::uint8_t**>(frame.extended_data), frame.nb_samples);
  for (auto& channel : channels) channel.resize(before + static_cast<std::size_t>(std::max(0, made)));
}

void SoundForm::convert(const AVFrame* frame, std::vector<std::int16_t>& mono) {
  const int samples = frame == nullptr ? 0 : frame->nb_samples;
  const int most = swr_get_out_samples(resampler_.get(), samples);
  if (most <= 0) return;
  const std::size_t before = mono.size();
  mono.resize(before + static_cast<std::size_t>(most));
  auto* out = reinterpret_cast<std::uint8_t*>(mono.data() + before);
  const int made = swr_convert(
      resampler_.get(), &out, most,
      frame == nullptr ? nullptr : const_cast<const std::uint8_t**>(frame->extended_data), samples);
  mono.resize(before + static_cast<std::size_t>(std::max(0, made)));
}

}  // namespace panslate::av
