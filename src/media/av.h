#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavfilter/avfilter.h>
#include <libavformat/avformat.h>
#include <libavutil/dict.h>
#include <libavutil/frame.h>
}

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

/// The handles of the FFmpeg libraries with their owners, and the one way their errors become ours.
namespace panslate::av {

/// libav frees through a pointer to the pointer.
template <auto Free>
struct AvFree {
  template <class T>
  void operator()(T* p) const noexcept {
    Free(&p);
  }
};

using InputContext = std::unique_ptr<AVFormatContext, AvFree<avformat_close_input>>;
using CodecContext = std::unique_ptr<AVCodecContext, AvFree<avcodec_free_context>>;
using Packet = std::unique_ptr<AVPacket, AvFree<av_packet_free>>;
using Frame = std::unique_ptr<AVFrame, AvFree<av_frame_free>>;
using FilterGraph = std::unique_ptr<AVFilterGraph, AvFree<avfilter_graph_free>>;
using FilterEnds = std::unique_ptr<AVFilterInOut, AvFree<avfilter_inout_free>>;
using Dictionary = std::unique_ptr<AVDictionary, AvFree<av_dict_free>>;

[[nodiscard]] Packet make_packet();
[[nodiscard]] Frame make_frame();

/// libav writes to the terminal unless told not to; every entry into this layer says so once. What it would
/// have complained about is kept instead.
void be_quiet();

/// The last error libav spoke of on this thread since it was forgotten, in its words; empty when there was
/// none.
[[nodiscard]] std::string last_complaint();
void forget_complaint();

/// `number` in FFmpeg's own words: "Invalid data found when processing input".
[[nodiscard]] std::string reason(int number);

/// `take3.mov: error: cannot open: Invalid data found when processing input`.
[[nodiscard]] tl::unexpected<Error> failure(ErrorCode code, std::string_view verb, int number,
                                            const std::filesystem::path& file, std::string hint = {});

/// A stream's time stamp as time, nearest tick; empty for AV_NOPTS_VALUE and what does not fit.
[[nodiscard]] std::optional<MediaTime> to_time(std::int64_t stamp, AVRational time_base);

/// A time as a stream's time stamp, rounded as told and kept inside 64 bits.
[[nodiscard]] std::int64_t to_stamp(MediaTime time, AVRational time_base, AVRounding round);

/// Empty unless both numbers are positive and fit.
[[nodiscard]] std::optional<FrameRate> to_frame_rate(AVRational rate);

/// The value of a metadata key as UTF-8, whatever the file holds; empty when it is not there.
[[nodiscard]] std::optional<std::string> entry(const AVDictionary* metadata, const char* key);

}  // namespace panslate::av
