#pragma once

#include <optional>

#include "panslate/media/render.h"

#include "media/av.h"

struct AVCodec;

namespace panslate::av {

/// A graph of filters that draws a film, set up so that its ends give what the encoders take.
class FilmGraph {
 public:
  /// What the file holds; a graph's end that the file cannot hold is an error.
  struct Wanted {
    bool picture = true;
    AVSampleFormat sample_format = AV_SAMPLE_FMT_FLTP;
  };
  [[nodiscard]] static Result<FilmGraph> make(const RenderSpec& spec, const Wanted& wanted,
                                              const std::filesystem::path& out);

  /// The ends, null where there is none. They live as long as the graph.
  [[nodiscard]] AVFilterContext* picture() const { return picture_; }
  [[nodiscard]] AVFilterContext* sound() const { return sound_; }

 private:
  FilmGraph() = default;
  FilterGraph graph_;
  AVFilterContext* picture_ = nullptr;
  AVFilterContext* sound_ = nullptr;
};

}  // namespace panslate::av
