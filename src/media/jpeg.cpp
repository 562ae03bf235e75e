#include "media/jpeg.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <new>
#include <optional>
#include <string>

#include "media/filter_chain.h"
#include "media/tone_down.h"
#include "media/untrusted_enum.h"

extern "C" {
#include <libavfilter/buffersink.h>
#include <libavfilter/buffersrc.h>
#include <libavutil/intreadwrite.h>
#include <libavutil/mastering_display_metadata.h>
#include <libavutil/pixdesc.h>
}

namespace panslate::av {

namespace {

// MJPEG's scale runs from 2 (best) to 31; 3 cannot be told from the source at the size of a still.
constexpr int kQuality = 3;
// Pictures this high without a note about their colours are BT.709, as every player takes them.
constexpr int kHighDefinition = 720;

std::optional<HdrTransfer> hdr_transfer(const AVFrame& frame) {
  const auto transfer = untrusted(frame.color_trc);
  if (transfer == AVCOL_TRC_SMPTE2084) return HdrTransfer::Pq;
  if (transfer == AVCOL_TRC_ARIB_STD_B67) return HdrTransfer::Hlg;
  return std::nullopt;
}

// The brightest light there is, as far as the clip says: that of its pictures, or of the display it was made
// on.
double peak_of(const AVFrame& frame) {
  if (const auto* data = av_frame_get_side_data(&frame, AV_FRAME_DATA_CONTENT_LIGHT_LEVEL)) {
    const auto& level = *reinterpret_cast<const AVContentLightMetadata*>(data->data);
    if (level.MaxCLL > 0) return level.MaxCLL;
  }
  if (const auto* data = av_frame_get_side_data(&frame, AV_FRAME_DATA_MASTERING_DISPLAY_METADATA)) {
    const auto& display = *reinterpret_cast<const AVMasteringDisplayMetadata*>(data->data);
    if (display.has_luminance != 0 && display.max_luminance.num > 0 && display.max_luminance.den > 0)
      return av_q2d(display.max_luminance);
  }
  return kUsualPeak;
}

std::string matrix_of(const AVFrame& frame) {
  if (untrusted(frame.colorspace) != AVCOL_SPC_UNSPECIFIED) return "auto";
  return frame.height >= kHighDefinition ? "bt709" : "bt601";
}

// The stored size that, turned and with square pixels, has `longest_side` at most.
ShownSize stored_target(const AVFrame& frame, const Development& how) {
  ShownSize size = shown_size(frame.width, frame.height, how.pixel, 0);
  const int longest = std::max(size.width, size.height);
  if (longest > how.longest_side) {
    size.width = static_cast<int>(av_rescale(size.width, how.longest_side, longest));
    size.height = static_cast<int>(av_rescale(size.height, how.longest_side, longest));
  }
  return {std::max(1, size.width), std::max(1, size.height), false};
}

void turn(FilterChain& chain, const Orientation& orientation) {
  if (orientation.rotation == 90) chain.then("transpose", "dir=clock");
  if (orientation.rotation == 270) chain.then("transpose", "dir=cclock");
  if (orientation.rotation == 180) chain.then("vflip", "");
  // A half turn is both flips, so a mirrored half turn is only the upright one.
  if ((orientation.rotation == 180) != orientation.mirrored) chain.then("hflip", "");
}

constexpr const char* kScaling = ":flags=bicubic+accurate_rnd+full_chroma_int";

// One frame through the filters that `add` puts into the chain.
Result<Frame> filtered(AVFrame& frame, const std::function<void(FilterChain&)>& add,
                       const std::filesystem::path& file) {
  const FilterGraph graph(avfilter_graph_alloc());
  if (!graph) throw std::bad_alloc();
  graph->nb_threads = 1;
  AVFilterContext* source = nullptr;
  const std::string shape = "video_size=" + std::to_string(frame.width) + "x" + std::to_string(frame.height) +
                            ":pix_fmt=" + std::to_string(frame.format) + ":time_base=1/1:pixel_aspect=1/1";
  int code = avfilter_graph_create_filter(&source, avfilter_get_by_name("buffer"), nullptr, shape.c_str(),
                                          nullptr, graph.get());
  if (code < 0) return failure(ErrorCode::NotMedia, "show this picture", code, file);
  FilterChain chain(*graph, *source, 0);
  add(chain);
  chain.then("buffersink", "");
  code = chain.error();
  if (code >= 0) code = avfilter_graph_config(graph.get(), nullptr);
  if (code >= 0) code = av_buffersrc_add_frame_flags(source, &frame, AV_BUFFERSRC_FLAG_KEEP_REF);
  if (code >= 0) code = av_buffersrc_add_frame(source, nullptr);
  Frame developed = make_frame();
  if (code >= 0) code = av_buffersink_get_frame(chain.last(), developed.get());
  if (code < 0) return failure(ErrorCode::NotMedia, "show this picture", code, file);
  return developed;
}

std::string target_size(const AVFrame& frame, const Development& how) {
  const ShownSize target = stored_target(frame, how);
  return std::to_string(target.width) + ":" + std::to_string(target.height);
}

void finish(FilterChain& chain, const Development& how) {
  chain.then("format", "pix_fmts=yuvj420p");
  turn(chain, how.orientation);
}

Result<Frame> developed_as_is(AVFrame& frame, const Development& how, const std::filesystem::path& file) {
  return filtered(
      frame,
      [&](FilterChain& chain) {
        chain.then("scale", target_size(frame, how) + kScaling + ":in_color_matrix=" + matrix_of(frame) +
                                ":out_color_matrix=bt601:out_range=pc");
        finish(chain, how);
      },
      file);
}

Result<Frame> developed_toned_down(AVFrame& frame, HdrTransfer transfer, const Development& how,
                                   const std::filesystem::path& file) {
  // Where a clip names only its transfer, the rest is BT.2020 as the HDR standards (BT.2100) have it.
  const bool is_full = untrusted(frame.color_range) == AVCOL_RANGE_JPEG;
  PANSLATE_TRY(const Frame bright,
               filtered(
                   frame,
                   [&](FilterChain& chain) {
                     chain.then("scale", target_size(frame, how) + kScaling +
                                             ":in_color_matrix=bt2020:in_range=" + (is_full ? "pc" : "tv"));
                     chain.then("format", "pix_fmts=rgb48le");
                   },
                   file));
  const Frame toned = make_frame();
  toned->format = AV_PIX_FMT_RGB24;
  toned->width = bright->width;
  toned->height = bright->height;
  if (av_frame_get_buffer(toned.get(), 0) < 0) throw std::bad_alloc();
  const ToneDown tone_down(transfer, peak_of(frame));
  for (int y = 0; y < bright->height; ++y) {
    const std::uint8_t* from = bright->data[0] + std::ptrdiff_t{y} * bright->linesize[0];
    std::uint8_t* to = toned->data[0] + std::ptrdiff_t{y} * toned->linesize[0];
    for (int x = 0; x < bright->width; ++x, from += 6, to += 3) {
      const auto shown = tone_down({AV_RL16(from), AV_RL16(from + 2), AV_RL16(from + 4)});
      std::copy(shown.begin(), shown.end(), to);
    }
  }
  return filtered(
      *toned,
      [&](FilterChain& chain) {
        chain.then("scale", std::string("flags=accurate_rnd+full_chroma_int") +
                                ":out_color_matrix=bt601:out_range=pc");
        finish(chain, how);
      },
      file);
}

Result<std::string> coded(AVFrame& frame, const std::filesystem::path& file) {
  const AVCodec* codec = avcodec_find_encoder(AV_CODEC_ID_MJPEG);
  if (codec == nullptr) return fail(ErrorCode::Internal, "this FFmpeg cannot write JPEG", Place{file});
  const CodecContext encoder(avcodec_alloc_context3(codec));
  if (!encoder) throw std::bad_alloc();
  encoder->width = frame.width;
  encoder->height = frame.height;
  encoder->pix_fmt = static_cast<AVPixelFormat>(frame.format);
  encoder->color_range = AVCOL_RANGE_JPEG;
  encoder->time_base = {1, 25};
  encoder->thread_count = 1;
  encoder->flags |= AV_CODEC_FLAG_QSCALE | AV_CODEC_FLAG_BITEXACT;
  encoder->global_quality = kQuality * FF_QP2LAMBDA;
  frame.quality = encoder->global_quality;
  frame.pts = 0;
  frame.pict_type = AV_PICTURE_TYPE_NONE;
  int code = avcodec_open2(encoder.get(), codec, nullptr);
  if (code >= 0) code = avcodec_send_frame(encoder.get(), &frame);
  const Packet packet = make_packet();
  if (code >= 0) code = avcodec_receive_packet(encoder.get(), packet.get());
  if (code < 0) return failure(ErrorCode::NotMedia, "make a still", code, file);
  return std::string(reinterpret_cast<const char*>(packet->data), static_cast<std::size_t>(packet->size));
}

}  // namespace

Result<Still> develop(AVFrame& frame, const Development& how, const std::filesystem::path& file) {
  const auto hdr = hdr_transfer(frame);
  auto developed = hdr ? developed_toned_down(frame, *hdr, how, file) : developed_as_is(frame, how, file);
  if (!developed) return tl::unexpected(developed.error());
  Still still;
  still.width = (*developed)->width;
  still.height = (*developed)->height;
  PANSLATE_TRY(still.jpeg, coded(**developed, file));
  return still;
}

}  // namespace panslate::av
