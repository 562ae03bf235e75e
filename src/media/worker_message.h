#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"
#include "panslate/media/clip_facts.h"
#include "panslate/media/clip_log.h"
#include "panslate/media/speech_sound.h"
#include "panslate/media/still.h"

#include "media/byte_form.h"

/// What the program and its footage workers say to each other: frames of a length and a body. Both ends are
/// the same program on the same machine, so numbers go as they lie in memory; but a worker reads hostile
/// files, so what it answers is believed only after it is checked field by field.
namespace panslate::worker {

/// The first frame of every worker: it is ready, and speaks this language.
inline constexpr std::string_view kGreeting = "panslate footage worker 4";

enum class JobKind : std::uint8_t { Probe = 1, Stills = 2, Sound = 3, Log = 4, Proxy = 5 };

/// One clip to read. Probe has one answer, Stills and Sound one for each time, in their order. Log and
/// Proxy have one, and before it any number of those that tell how far it is.
struct Job {
  JobKind kind = JobKind::Probe;
  std::filesystem::path file;
  std::vector<MediaTime> times;
  int longest_side = 0;            ///< of stills
  MediaTime length;                ///< of each stretch of sound; of a log: LogSetup::until
  int threads = 1;                 ///< of a log
  std::filesystem::path out = {};  ///< of a proxy
};

/// Most times in one job, so that a job always fits into the empty buffer of a socket.
inline constexpr std::size_t kMostTimes = 1000;
/// Most threads that a decoder is asked to take.
inline constexpr int kMostThreads = 64;
/// Longest name of a file that can be sent; far beyond what the system takes (PATH_MAX is 4096).
inline constexpr std::size_t kLongestName = std::size_t{16} * 1024;

[[nodiscard]] std::string body_of(const Job& job);
[[nodiscard]] std::string body_of(const Result<ClipFacts>& answer);
[[nodiscard]] std::string body_of(const Result<Still>& answer);
[[nodiscard]] std::string body_of(const Result<Samples>& answer);
[[nodiscard]] std::string body_of(const Result<ClipLog>& answer);
[[nodiscard]] std::string body_of(const LogSoFar& so_far);
[[nodiscard]] std::string body_of(const Status& answer);

/// Empty for what is no job.
[[nodiscard]] std::optional<Job> read_job(std::string_view body);
/// Empty for what cannot be an answer about `file`: an unknown field, a number out of its range, text that is
/// too long or not UTF-8, bytes missing or left over. The file in it is always the one asked about.
[[nodiscard]] std::optional<Result<ClipFacts>> read_facts(std::string_view body,
                                                          const std::filesystem::path& file);
[[nodiscard]] std::optional<Result<Still>> read_still(std::string_view body,
                                                      const std::filesystem::path& file, int longest_side);
/// Empty also where the stretch has not `samples` samples.
[[nodiscard]] std::optional<Result<Samples>> read_samples(std::string_view body,
                                                          const std::filesystem::path& file,
                                                          std::size_t samples);

[[nodiscard]] std::optional<Result<ClipLog>> read_log(std::string_view body,
                                                      const std::filesystem::path& file);
[[nodiscard]] std::optional<Status> read_done(std::string_view body, const std::filesystem::path& file);
/// Empty for any other answer.
[[nodiscard]] std::optional<LogSoFar> read_so_far(std::string_view body);

/// A body with its length before it.
[[nodiscard]] std::string framed(std::string_view body);

/// Frames out of a stream of bytes that arrives in pieces.
class FrameReader {
 public:
  /// A frame of more bytes than `most` is refused.
  explicit FrameReader(std::size_t most) : most_(most) {}
  void add(std::string_view bytes) { buffer_.append(bytes); }
  /// The next whole body; empty while it is not there yet.
  [[nodiscard]] std::optional<std::string> next();
  /// True once a frame was announced that is too long: nothing after it can be read.
  [[nodiscard]] bool refused() const { return refused_; }
  [[nodiscard]] bool empty() const { return buffer_.empty(); }

 private:
  std::size_t most_;
  std::string buffer_;
  bool refused_ = false;
};

inline constexpr std::size_t kLargestJob = 2 * kLongestName + kMostTimes * sizeof(std::int64_t) + 64;

}  // namespace panslate::worker
