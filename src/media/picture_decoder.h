#pragma once

#include <cstdint>
#include <optional>

#include "panslate/media/still.h"

#include "media/av.h"
#include "media/clip_reader.h"

namespace panslate::av {

/// Largest picture that is decoded: beyond it a header is damaged or the memory would not do.
inline constexpr int kLargestSide = kLargestStill;

/// Whether pictures are given that may refer to others which were not there.
enum class Doubtful : std::uint8_t { LeftOut, Shown };

/// A decoder for the pictures of a clip. NotMedia where there is no picture, it is too large, or no decoder
/// for it.
[[nodiscard]] Result<CodecContext> open_picture_codec(ClipReader& reader, int threads, Doubtful doubtful);

/// Decodes the pictures of a clip. Damage is passed over as far as the decoder can; the effort is bounded by
/// the reader's deadline and by a number of pictures.
class PictureDecoder {
 public:
  /// The reader must outlive the decoder; its sound is not read any more. NotMedia where there is no picture,
  /// it is too large, or no decoder for it.
  [[nodiscard]] static Result<PictureDecoder> open(ClipReader& reader);

  /// The frame shown at `time` of the clip's clock: the last that begins at or before it, or the first there
  /// is. Asked in the order of time, it decodes on from the last answer where that is nearer than the picture
  /// that seeking would start from.
  [[nodiscard]] Result<Frame> frame_at(MediaTime time);

  /// When a decoded frame is shown, on the clip's clock.
  [[nodiscard]] MediaTime time_of(const AVFrame& frame) const;

 private:
  explicit PictureDecoder(ClipReader& reader) : reader_(&reader), packet_(make_packet()) {}
  /// The next decoded frame; null at the end.
  [[nodiscard]] Result<Frame> next();
  [[nodiscard]] bool seek(MediaTime time);
  /// Whether decoding on leads to `time` at least as soon as seeking.
  [[nodiscard]] bool is_on_the_way(MediaTime time) const;
  void start_over();
  enum class Start { Sought, Beginning, GoingOn };
  /// Decodes on to the frame shown at `wanted`; null when all there is lies later.
  [[nodiscard]] Result<Frame> search(MediaTime wanted, Start start);
  void set_stamp(AVFrame& frame);
  /// Whether the packet's picture has to be decoded for its own sake, or only where others refer to it.
  [[nodiscard]] AVDiscard needed(const AVPacket& packet);

  ClipReader* reader_;
  CodecContext decoder_;
  Packet packet_;
  bool drained_ = false;
  bool sought_ = false;      ///< not read from the beginning
  std::int64_t frames_ = 0;  ///< decoded for one answer, against the bound
  std::int64_t wanted_ = 0;  ///< time stamp of the answer looked for
  bool started_ = false;     ///< a picture that decoding can start from was read since seeking
  /// Time stamp of the picture that decoding started from after seeking: what is shown before it refers to
  /// what was not read.
  std::optional<std::int64_t> start_;
  std::optional<std::int64_t> nearest_;  ///< latest time stamp read since seeking that is not after it
  Frame shown_;                          ///< the last answer
  Frame ahead_;                          ///< decoded already: what is shown after it
  std::optional<std::int64_t> counted_;  ///< time stamp for streams that carry none
};

}  // namespace panslate::av
