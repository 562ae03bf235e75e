#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

extern "C" {
#include <libswresample/swresample.h>
}

#include "panslate/base/result.h"

#include "media/av.h"
#include "media/clip_reader.h"

namespace panslate::av {

using Resampler = std::unique_ptr<SwrContext, AvFree<swr_free>>;

/// More channels than any camera writes.
inline constexpr int kMostChannels = 64;

/// Decodes one track of sound, packet by packet. Damage is passed over as far as the decoder can.
class SoundDecoder {
 public:
  /// NotMedia where there is no decoder for it.
  [[nodiscard]] static Result<SoundDecoder> open(const ClipReader& reader, const AVStream& stream);

  /// Hands over a packet of this track, or null at its end.
  void send(const AVPacket* packet);
  /// The next frame that is ready, with its time on the clip's clock in `time`; null when more packets are
  /// needed.
  [[nodiscard]] Frame receive(std::optional<MediaTime>& time);
  /// After seeking.
  void flush();

 private:
  SoundDecoder() = default;
  CodecContext decoder_;
  AVRational time_base_{1, 1};
  MediaTime clock_start_;
  int refused_ = 0;
};

/// The sound of frames in another form. Frames that change their own form need another one (see fits).
class SoundForm {
 public:
  /// The channels of `frame` by themselves, as 32-bit floating point at their own rate; or, where weights are
  /// given (one for each channel), their weighted sum as 16-bit samples at `rate`. Empty for what cannot be
  /// converted.
  [[nodiscard]] static std::optional<SoundForm> apart(const AVFrame& frame);
  [[nodiscard]] static std::optional<SoundForm> sum(const AVFrame& frame, const std::vector<double>& weights,
                                                    int rate);

  [[nodiscard]] bool fits(const AVFrame& frame) const;
  /// Appends what becomes of `frame` to one vector for each channel.
  void convert(const AVFrame& frame, std::vector<std::vector<float>>& channels);
  /// Appends what becomes of `frame`, or, without one, of what was held back.
  void convert(const AVFrame* frame, std::vector<std::int16_t>& mono);

 private:
  Resampler resampler_;
  int format_ = 0;
  int rate_ = 0;
  int channels_ = 0;
};

}  // namespace panslate::av
