#include "media/film_graph.h"

#include <algorithm>
#include <new>
#include <string>
#include <utility>

#include "media/filter_chain.h"

namespace panslate::av {

namespace {

std::string ratio(FrameRate rate) {
  return std::to_string(rate.num) + "/" + std::to_string(rate.den);
}

std::string microseconds(MediaTime time) {
  return std::to_string(time.to_ms(Round::Nearest)) + "ms";
}

void finish_picture(FilterChain& chain, const RenderSpec& spec) {
  if (spec.timing == PictureTiming::Constant) {
    chain.then("fps", "fps=" + ratio(spec.rate) + ":start_time=0");
    if (spec.duration) {
      const auto frames = std::max<std::int64_t>(1, spec.duration->to_frames(spec.rate, Round::Nearest));
      chain.then("tpad", "stop=-1:stop_mode=clone");
      chain.then("trim", "end_frame=" + std::to_string(frames));
    }
  } else {
    chain.then("setpts", "PTS-STARTPTS");
    if (spec.duration) chain.then("trim", "duration=" + microseconds(*spec.duration));
  }
  // Stored turned the other way, so that the viewer's turn brings it upright.
  if (spec.rotation == 90) chain.then("transpose", "dir=cclock");
  if (spec.rotation == 180) {
    chain.then("hflip", "");
    chain.then("vflip", "");
  }
  if (spec.rotation == 270) chain.then("transpose", "dir=clock");
  chain.then("scale", "out_color_matrix=bt709:out_range=tv");
  chain.then("format", "pix_fmts=yuv420p");
  chain.then("buffersink", "");
}

void finish_sound(FilterChain& chain, const RenderSpec& spec, AVSampleFormat format) {
  const std::string rate = std::to_string(spec.sample_rate);
  chain.then("aresample", rate + ":async=1:first_pts=0");
  chain.then("aformat",
             "sample_fmts=" + std::string(av_get_sample_fmt_name(format)) + ":sample_rates=" + rate);
  if (spec.duration) {
    const auto samples = spec.duration->to_frames({spec.sample_rate, 1}, Round::Nearest);
    chain.then("apad", "");
    chain.then("atrim", "end_sample=" + std::to_string(samples));
  }
  chain.then("abuffersink", "");
}

}  // namespace

Result<FilmGraph> FilmGraph::make(const RenderSpec& spec, const Wanted& wanted,
                                  const std::filesystem::path& out) {
  FilmGraph made;
  made.graph_.reset(avfilter_graph_alloc());
  if (!made.graph_) throw std::bad_alloc();
  AVFilterInOut* raw_inputs = nullptr;
  AVFilterInOut* raw_outputs = nullptr;
  forget_complaint();
  const int parsed = avfilter_graph_parse2(made.graph_.get(), spec.graph.c_str(), &raw_inputs, &raw_outputs);
  const FilterEnds inputs(raw_inputs);
  const FilterEnds outputs(raw_outputs);
  if (parsed < 0) return failure(ErrorCode::Malformed, "draw this film", parsed, out, last_complaint());
  if (inputs) return fail(ErrorCode::Malformed, "the drawing has an input that nothing feeds", Place{out});

  for (const AVFilterInOut* end = outputs.get(); end != nullptr; end = end->next) {
    const auto pad = static_cast<unsigned>(end->pad_idx);
    const bool is_picture =
        avfilter_pad_get_type(end->filter_ctx->output_pads, end->pad_idx) == AVMEDIA_TYPE_VIDEO;
    const std::string label = end->name != nullptr ? end->name : "";
    if (label != (is_picture ? "v" : "a"))
      return fail(ErrorCode::Malformed,
                  "the drawing has an end labelled '" + label + "'; pictures end in [v], sound in [a]",
                  Place{out});
    if ((is_picture ? made.picture_ : made.sound_) != nullptr)
      return fail(ErrorCode::Malformed, "the drawing has the end [" + label + "] twice", Place{out});
    if (is_picture && !wanted.picture)
      return fail(ErrorCode::Usage, "this kind of file holds sound only, but the drawing has pictures",
                  Place{out});
    FilterChain chain(*made.graph_, *end->filter_ctx, pad);
    is_picture ? finish_picture(chain, spec) : finish_sound(chain, spec, wanted.sample_format);
    if (chain.error() < 0)
      return failure(ErrorCode::Malformed, "draw this film", chain.error(), out, last_complaint());
    (is_picture ? made.picture_ : made.sound_) = chain.last();
  }
  if (made.picture_ == nullptr && made.sound_ == nullptr)
    return fail(ErrorCode::Malformed, "the drawing has neither an end [v] nor an end [a]", Place{out});
  if (!wanted.picture && made.sound_ == nullptr)
    return fail(ErrorCode::Usage, "this kind of file holds sound, but the drawing has no end [a]",
                Place{out});
  const int configured = avfilter_graph_config(made.graph_.get(), nullptr);
  if (configured < 0)
    return failure(ErrorCode::Malformed, "draw this film", configured, out, last_complaint());
  return made;
}

}  // namespace panslate::av
