#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <span>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/progress.h"
#include "panslate/base/result.h"
#include "panslate/media/clip_facts.h"
#include "panslate/media/clip_log.h"
#include "panslate/media/speech_sound.h"
#include "panslate/media/still.h"

/// Clips come from cards that were pulled out and phones that ran empty, and decoders are large. So clips are
/// read by processes of their own: one that crashes, hangs or takes all memory costs its clip a clear
/// message, and nothing else.
namespace panslate {

/// The first argument that makes the program a worker: `main` then returns serve_footage().
inline constexpr std::string_view kFootageWorkerArgument = "--footage-worker";

/// What a worker may use: more than any sound clip needs.
struct FootageLimits {
  std::int64_t memory = std::int64_t{4} * 1024 * 1024 * 1024;  ///< bytes of address space
  std::chrono::seconds processor{120};     ///< processor time of one clip measured, or of one still
  std::chrono::milliseconds wall{75'000};  ///< the same by the clock; beyond the patience of probe_clip
};

/// Told of each clip as soon as it is read, by its index.
using LogTaken = std::function<void(std::size_t index, const Result<ClipLog>& log)>;

struct StillWanted {
  std::filesystem::path file;
  MediaTime time;  ///< on the clip's clock, as in take_still
};

/// Reads clips in worker processes. Workers start with the first clip, as many as there is work for, and wait
/// for more until this object ends; they end with it, and with the program, however that ends. A worker that
/// dies fails the clip that it had (NotMedia) and is started anew for the rest; was that clip not its first,
/// it is tried once more by a fresh worker, since the fault may be of a clip before it. A clip that ended two
/// workers while stills were taken is left alone: its other stills fail too.
///
/// Calls from several threads wait for each other.
///
///     FootageWorkers workers({.program = "/proc/self/exe"});
///     PANSLATE_TRY(const auto clips, workers.probe_all(files, progress));
class FootageWorkers {
 public:
  struct Setup {
    /// What is executed, with kFootageWorkerArgument. Empty: no processes, everything is read by this one and
    /// by no more than the libraries' own care, as in tests.
    std::filesystem::path program;
    unsigned count = 0;  ///< at most so many at once; 0: as many as the machine has processors; never over 16
    FootageLimits limits;
  };

  FootageWorkers();
  explicit FootageWorkers(Setup setup);
  ~FootageWorkers();
  FootageWorkers(const FootageWorkers&) = delete;
  FootageWorkers& operator=(const FootageWorkers&) = delete;

  /// As probe_clip and take_still, with these errors besides: NotMedia where the worker died, took too long
  /// or answered nonsense; Internal where none can be started.
  [[nodiscard]] Result<ClipFacts> probe(const std::filesystem::path& file);
  [[nodiscard]] Result<Still> still(const std::filesystem::path& file, MediaTime time, int longest_side);

  /// All of them, by all workers at once; results stand in the order of `files`, whichever was ready first.
  /// `progress` is told of "measuring clips" on this thread. Cancelled where it says so: then workers that
  /// are at work are ended at once.
  [[nodiscard]] Result<std::vector<Result<ClipFacts>>> probe_all(std::span<const std::filesystem::path> files,
                                                                 Progress& progress);

  /// Likewise ("taking stills"). The stills of one clip are taken by one worker in the order of time without
  /// opening it again, whatever the order of `wanted`.
  [[nodiscard]] Result<std::vector<Result<Still>>> stills(std::span<const StillWanted> wanted,
                                                          int longest_side, Progress& progress);

  /// The sound of a clip from the start of its clock for `duration` (at most kLongestSound; see take_sound),
  /// stretch by stretch, each with its own limits: what a stretch cannot be read of is silent and told.
  /// `progress` is told of "reading the sound". Fails where no stretch can be read.
  [[nodiscard]] Result<SpeechSound> speech_sound(const std::filesystem::path& file, MediaTime duration,
                                                 Progress& progress);

  /// Everything that is in the clips (see log_clip), by all workers at once; results stand in the order of
  /// `files`. `taken` is told of each as soon as it is done, on this thread. A clip whose worker died is read
  /// again up to shortly before that place, and what was read is told as damaged there. `progress` is told
  /// how many megabytes are read and how long the rest will take. Cancelled where it says so; what was told
  /// by then holds.
  [[nodiscard]] Result<std::vector<Result<ClipLog>>> log_all(std::span<const std::filesystem::path> files,
                                                             Progress& progress, const LogTaken& taken = {});

  /// A proxy of the clip (see make_proxy) at `out`, by one worker, with less of the processors than all else.
  /// `duration` of the clip is for `progress`, which is told of "making a copy that plays". Where it fails or
  /// is stopped nothing stays beside `out`.
  [[nodiscard]] Status proxy(const std::filesystem::path& file, MediaTime duration,
                             const std::filesystem::path& out, Progress& progress);

  [[nodiscard]] const Setup& setup() const;

 private:
  class Pool;
  std::unique_ptr<Pool> pool_;
};

/// Workers that are none: everything is read by this process. For callers that do not mind.
[[nodiscard]] FootageWorkers& footage_in_this_process();

/// The whole life of a worker process: takes jobs from standard input and answers on standard output, which
/// nothing else may use, until its input ends. Returns the exit status.
[[nodiscard]] int serve_footage();

}  // namespace panslate
