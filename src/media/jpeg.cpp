#include "media/jpeg.h"

#include <algorithm>
#include <new>
#include <string>

#include "media/filter_chain.h"
#include "media/untrusted_enum.h"

extern "C" {
#include <libavfilter/buffersink.h>
#include <libavfilter/buffersrc.h>
#include <libavutil/pixdesc.h>
}

namespace panslate::av {

namespace {

// MJPEG's scale runs from 2 (best) to 31; 3 cannot be told from the source at the size of a still.
constexpr int kQuality = 3;
// Pictures this high without a note about their colours are BT.709, as every player takes them.
constexpr int kHighDefinition = 720;

enum class Tone { AsIs, Down };

bool is_hdr(const AVFrame& frame) {
  const auto transfer = untrusted(frame.color_trc);
  return transfer == AVCOL_TRC_SMPTE2084 || transfer == AVCOL_TRC_ARIB_STD_B67;
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

void tone_down(FilterChain& chain, const AVFrame& frame) {
  const bool is_pq = untrusted(frame.color_trc) == AVCOL_TRC_SMPTE2084;
  const bool is_full = untrusted(frame.color_range) == AVCOL_RANGE_JPEG;
  // Where a clip names only its transfer, the rest is BT.2020 as the HDR standards (BT.2100) have it.
  chain.then("format", "pix_fmts=yuv444p10le");
  chain.then("zscale", std::string("min=2020_ncl:pin=2020:tin=") + (is_pq ? "smpte2084" : "arib-std-b67") +
                           ":rin=" + (is_full ? "full" : "limited") + ":t=linear:npl=203");
  chain.then("format", "pix_fmts=gbrpf32le");
  chain.then("zscale", "p=709");
  chain.then("tonemap", "tonemap=hable:desat=0");
  chain.then("zscale", "t=709:m=709:r=limited");
  chain.then("format", "pix_fmts=yuv444p");
  chain.then("scale", "in_color_matrix=bt709:in_range=tv:out_color_matrix=bt601:out_range=pc");
}

void turn(FilterChain& chain, const Orientation& orientation) {
  if (orientation.rotation == 90) chain.then("transpose", "dir=clock");
  if (orientation.rotation == 270) chain.then("transpose", "dir=cclock");
  if (orientation.rotation == 180) chain.then("vflip", "");
  // A half turn is both flips, so a mirrored half turn is only the upright one.
  if ((orientation.rotation == 180) != orientation.mirrored) chain.then("hflip", "");
}

Result<Frame> filtered(AVFrame& frame, const Development& how, Tone tone, const std::filesystem::path& file) {
  const FilterGraph graph(avfilter_graph_alloc());
  if (!graph) throw std::bad_alloc();
  graph->nb_threads = 1;
  AVFilterContext* source = nullptr;
  const std::string shape = "video_size=" + std::to_string(frame.width) + "x" + std::to_string(frame.height) +
                            ":pix_fmt=" + std::to_string(frame.format) + ":time_base=1/1:pixel_aspect=1/1";
  int code = avfilter_graph_create_filter(&source, avfilter_get_by_name("buffer"), nullptr, shape.c_str(),
                                          nullptr, graph.get());
  if (code < 0) return failure(ErrorCode::NotMedia, "show this picture", code, file);

  const ShownSize target = stored_target(frame, how);
  const std::string size = std::to_string(target.width) + ":" + std::to_string(target.height);
  FilterChain chain(*graph, *source, 0);
  if (tone == Tone::Down) {
    chain.then("scale", size + ":flags=bicubic+accurate_rnd+full_chroma_int");
    tone_down(chain, frame);
  } else {
    chain.then("scale", size + ":flags=bicubic+accurate_rnd+full_chroma_int:in_color_matrix=" +
                            matrix_of(frame) + ":out_color_matrix=bt601:out_range=pc");
  }
  chain.then("format", "pix_fmts=yuvj420p");
  turn(chain, how.orientation);
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
  auto developed = filtered(frame, how, is_hdr(frame) ? Tone::Down : Tone::AsIs, file);
  // Without toning down an HDR picture is pale, which is better than none.
  if (!developed && is_hdr(frame)) developed = filtered(frame, how, Tone::AsIs, file);
  if (!developed) return tl::unexpected(developed.error());
  Still still;
  still.width = (*developed)->width;
  still.height = (*developed)->height;
  PANSLATE_TRY(still.jpeg, coded(**developed, file));
  return still;
}

}  // namespace panslate::av
