#include "panslate/media/render.h"

#include <algorithm>
#include <optional>

#include "panslate/base/timecode.h"

#include "media/film_graph.h"
#include "media/film_writer.h"

extern "C" {
#include <libavfilter/buffersink.h>
}

namespace panslate {

namespace {

using av::FilmWriter;
using Track = FilmWriter::Track;

constexpr MediaTime kLongest = MediaTime::from_seconds(14'400);

// One end of the graph and how far it has been written.
struct End {
  AVFilterContext* sink = nullptr;
  Track track = Track::Picture;
  MediaTime reached;
  bool open = false;
};

Status check(const RenderSpec& spec, const std::filesystem::path& out) {
  if (spec.rate.num <= 0 || spec.rate.den <= 0)
    return fail(ErrorCode::Usage, "the frame rate must be positive", Place{out});
  if (spec.rotation % 90 != 0 || spec.rotation < 0 || spec.rotation > 270)
    return fail(ErrorCode::Usage, "a film is turned by 0, 90, 180 or 270 degrees", Place{out});
  if (spec.duration && (*spec.duration <= MediaTime{} || *spec.duration > kLongest))
    return fail(ErrorCode::Usage, "a film lasts between one picture and four hours", Place{out});
  if (spec.timecode) PANSLATE_CHECK(parse_timecode(*spec.timecode, spec.rate));
  return {};
}

// How far a frame reaches: to its own end where that is known.
MediaTime reach(const AVFrame& frame, const End& end, const RenderSpec& spec) {
  const auto start = av::to_time(frame.pts, av_buffersink_get_time_base(end.sink)).value_or(end.reached);
  const FrameRate step =
      end.track == Track::Picture ? spec.rate : FrameRate{frame.sample_rate, frame.nb_samples};
  return start + MediaTime::from_frames(1, step);
}

class Rendering {
 public:
  Rendering(const RenderSpec& spec, const std::filesystem::path& out, Progress& progress, FilmWriter& writer,
            const av::FilmGraph& graph)
      : spec_(spec), out_(out), progress_(progress), writer_(writer) {
    picture_ = {graph.picture(), Track::Picture, {}, graph.picture() != nullptr};
    sound_ = {graph.sound(), Track::Sound, {}, graph.sound() != nullptr};
  }

  Status run() {
    while (picture_.open || sound_.open) {
      if (progress_.cancelled()) return fail(ErrorCode::Cancelled, "stopped", Place{out_});
      // The one that lags, so that neither piles up in the graph; sound at a tie, which may be the end of it.
      const bool take_picture = picture_.open && (!sound_.open || picture_.reached < sound_.reached);
      PANSLATE_CHECK(advance(take_picture ? picture_ : sound_));
      report();
    }
    return {};
  }

 private:
  Status advance(End& end) {
    if (limit_ && end.reached >= *limit_) return close(end);
    const int got = av_buffersink_get_frame(end.sink, frame_.get());
    if (got == AVERROR_EOF) {
      if (!spec_.duration) limit_ = end.reached;
      return close(end);
    }
    if (got < 0) return av::failure(ErrorCode::Malformed, "draw this film", got, out_, av::last_complaint());
    end.reached = reach(*frame_, end, spec_);
    if (end.reached > kLongest) return fail(ErrorCode::Malformed, "the drawing does not end", Place{out_});
    Status written = writer_.write(end.track, *frame_);
    av_frame_unref(frame_.get());
    return written;
  }

  Status close(End& end) {
    end.open = false;
    if (end.track == Track::Picture && end.reached == MediaTime{})
      return fail(ErrorCode::Malformed, "the drawing has no pictures", Place{out_});
    return writer_.end(end.track);
  }

  void report() {
    const std::int64_t done = std::max(picture_.reached, sound_.reached).to_ms(Round::Down);
    if (done - reported_ < 100) return;
    reported_ = done;
    progress_.step("making " + out_.filename().string(), done,
                   spec_.duration ? spec_.duration->to_ms(Round::Up) : 0);
  }

  const RenderSpec& spec_;
  const std::filesystem::path& out_;
  Progress& progress_;
  FilmWriter& writer_;
  End picture_;
  End sound_;
  av::Frame frame_ = av::make_frame();
  std::optional<MediaTime> limit_;
  std::int64_t reported_ = 0;
};

}  // namespace

Status render_film(const RenderSpec& spec, const std::filesystem::path& out, Progress& progress) {
  av::be_quiet();
  PANSLATE_TRY(const auto kind, av::file_kind(out));
  PANSLATE_CHECK(check(spec, out));
  const av::FilmGraph::Wanted wanted{kind.picture_encoder != nullptr, av::sample_format_of(kind)};
  PANSLATE_TRY(auto graph, av::FilmGraph::make(spec, wanted, out));
  PANSLATE_TRY(auto writer, FilmWriter::open(kind, spec, graph.picture(), graph.sound(), out));
  PANSLATE_CHECK(Rendering(spec, out, progress, writer, graph).run());
  return writer.finish();
}

}  // namespace panslate
