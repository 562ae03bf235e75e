#pragma once

#include <filesystem>
#include <memory>
#include <optional>

#include "panslate/media/render.h"

#include "media/av.h"

namespace panslate::av {

/// A kind of file we write, chosen by its ending.
struct FileKind {
  const char* ending;
  const char* muxer;
  const char* picture_encoder;  ///< null: sound only
  const char* sound_encoder;
};

/// Usage for an ending that is not in the table.
[[nodiscard]] Result<FileKind> file_kind(const std::filesystem::path& out);

/// The sample format an encoder likes best.
[[nodiscard]] AVSampleFormat sample_format_of(const FileKind& kind);

/// One film being written: encoders fed from the ends of a graph, and the file around them. The file has
/// another name until finish(); without that it is removed.
class FilmWriter {
 public:
  /// `picture` and `sound` are the ends of a configured graph; either may be null.
  [[nodiscard]] static Result<FilmWriter> open(const FileKind& kind, const RenderSpec& spec,
                                               const AVFilterContext* picture, AVFilterContext* sound,
                                               const std::filesystem::path& out);

  enum class Track { Picture, Sound };
  /// Encodes one frame; its time stamp is in the time base of the graph's end.
  [[nodiscard]] Status write(Track track, AVFrame& frame);
  /// No more of this track.
  [[nodiscard]] Status end(Track track);
  /// Completes the file and gives it its name.
  [[nodiscard]] Status finish();

 private:
  struct CloseOutput {
    void operator()(AVFormatContext* context) const noexcept;
  };
  /// A file that is not there unless it was made on purpose.
  struct RemoveFile {
    void operator()(std::filesystem::path* path) const noexcept;
  };
  struct TrackState {
    CodecContext encoder;
    AVStream* stream = nullptr;
    AVRational source_base{};
    bool constant = false;
    // In the encoder's time base; how long a picture stays is known when the next one comes.
    std::optional<std::int64_t> last_stamp;
    std::int64_t last_length = 1;
    std::optional<std::int64_t> end_stamp;  ///< where the film was told to end
  };

  FilmWriter() = default;
  [[nodiscard]] Status add_picture(const FileKind& kind, const RenderSpec& spec, const AVFilterContext& end);
  [[nodiscard]] Status add_sound(const FileKind& kind, AVFilterContext& end);
  [[nodiscard]] Status add_stream(TrackState& track, AVDictionary* options);
  [[nodiscard]] Status start(const RenderSpec& spec);
  [[nodiscard]] Status encode(TrackState& track, const AVFrame* frame);
  [[nodiscard]] TrackState& state(Track track) { return track == Track::Picture ? picture_ : sound_; }

  std::filesystem::path out_;
  std::unique_ptr<std::filesystem::path, RemoveFile> partial_;  // before the context, which is closed first
  std::unique_ptr<AVFormatContext, CloseOutput> format_;
  TrackState picture_;
  TrackState sound_;
};

}  // namespace panslate::av
