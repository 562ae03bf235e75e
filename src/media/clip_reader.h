#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include "panslate/base/result.h"

#include "media/av.h"

namespace panslate::av {

/// A clip opened for reading. Only files are opened (no network, no play lists that name other files), and
/// reading stops at a deadline, so that damage cannot hold the user up.
class ClipReader {
 public:
  /// NotFound, Unreadable (a folder, no right) or NotMedia with FFmpeg's reason.
  [[nodiscard]] static Result<ClipReader> open(const std::filesystem::path& file,
                                               std::chrono::milliseconds patience);

  [[nodiscard]] AVFormatContext& format() { return *format_; }
  [[nodiscard]] const AVFormatContext& format() const { return *format_; }
  [[nodiscard]] const std::filesystem::path& file() const { return file_; }
  [[nodiscard]] std::int64_t file_size() const { return file_size_; }
  /// The stream of pictures, not a cover; null when there is none.
  [[nodiscard]] AVStream* picture() const { return picture_; }
  [[nodiscard]] const std::vector<AVStream*>& sounds() const { return sounds_; }
  /// Where the clip's clock begins, on the file's own time line: the first picture, or the first sound.
  [[nodiscard]] MediaTime clock_start() const;

  enum class Read { Got, End };
  /// The next packet of any stream that is not discarded. Damage that cannot be passed is an end too: what
  /// lies behind it cannot be read. NotMedia when the deadline has passed.
  [[nodiscard]] Result<Read> read(AVPacket& packet);
  /// To the last place at or before `stamp` of a stream that decoding can start from, as far as the container
  /// knows; false when it does not.
  [[nodiscard]] bool seek(const AVStream& stream, std::int64_t stamp);
  /// From the beginning again.
  void rewind();
  /// The deadline is so far from now.
  void be_patient(std::chrono::milliseconds patience) {
    *deadline_ = std::chrono::steady_clock::now() + patience;
  }
  [[nodiscard]] bool late() const { return std::chrono::steady_clock::now() > *deadline_; }

 private:
  using Deadline = std::chrono::steady_clock::time_point;
  ClipReader(std::filesystem::path file, std::int64_t file_size, std::unique_ptr<Deadline> deadline,
             InputContext format);
  static int passed(void* deadline);

  std::filesystem::path file_;
  std::int64_t file_size_ = 0;
  std::unique_ptr<Deadline> deadline_;  // before the context, which holds its address
  InputContext format_;
  AVStream* picture_ = nullptr;
  std::vector<AVStream*> sounds_;
  int errors_ = 0;
};

}  // namespace panslate::av
