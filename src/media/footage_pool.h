#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/progress.h"
#include "panslate/media/footage_workers.h"

#include "media/worker_message.h"
#include "media/worker_process.h"

/// The processes that read clips, seen from the program: hands out the clips and outlives whatever happens.
namespace panslate {

/// The answers that one clip owes, each known by its index among all that are wanted.
struct ClipTask {
  std::filesystem::path file;
  std::vector<std::size_t> wanted;
  std::vector<MediaTime> times;  // for stills and sound
  std::size_t answered = 0;
  int deaths = 0;
  int threads = 1;  // of a log
  MediaTime until = {};
  bool given_again = false;
  std::filesystem::path out = {};  // of a proxy

  [[nodiscard]] bool done() const { return answered == wanted.size(); }
};

/// What is to be done with every clip, and with what comes of it.
struct Work {
  worker::JobKind kind = worker::JobKind::Probe;
  int longest_side = 0;
  MediaTime length;
  std::string_view phase;
  std::size_t total = 0;
  // False for what cannot be an answer.
  std::function<bool(std::size_t index, std::string_view body, const std::filesystem::path& file)> accept;
  std::function<void(std::size_t index, const Error& error)> refuse;
  // For work that tells how far it is: whether an answer is one of those.
  std::function<bool(std::size_t index, std::string_view body)> take_so_far = {};
  // Told in place of `phase`, where the number of answers does not tell how far it is.
  std::function<void()> report = {};
  // Up to where a clip is read once more whose worker died; empty: it is not.
  std::function<std::optional<MediaTime>(std::size_t index)> again_until = {};
};

class FootageWorkers::Pool {
 public:
  explicit Pool(Setup setup);

  [[nodiscard]] const Setup& setup() const { return setup_; }
  [[nodiscard]] bool in_this_process() const { return setup_.program.empty(); }
  /// How many work at once.
  [[nodiscard]] std::size_t seats() const { return seats_.size(); }

  /// Until every clip has all its answers; false when the user stopped it.
  bool run(std::vector<ClipTask> tasks, const Work& work, Progress& progress);

 private:
  using Clock = std::chrono::steady_clock;
  enum class Ended : std::uint8_t { Died, TooLong, NoMemory };

  /// A place for one worker, empty until there is work for it.
  struct Seat {
    std::optional<worker::WorkerProcess> process;
    bool greeted = false;
    bool served = false;  ///< has done with a clip before
    std::optional<ClipTask> task;
    Clock::time_point deadline;
  };

  void give_next(Seat& seat);
  void be_patient(Seat& seat) const;
  void wait() const;
  void look_at(Seat& seat);
  void take_answer(Seat& seat, const std::string& body);
  /// The worker is dead or has to be: what becomes of its clip?
  void ended(Seat& seat, Ended how);
  void refuse_next(ClipTask& task, const Error& error);
  void refuse_rest(Seat& seat, const Error& error);
  void stop();
  void tell(Progress& progress) const;
  [[nodiscard]] static Error unreadable(const std::filesystem::path& file, Ended how);

  const Setup setup_;
  std::mutex mutex_;
  std::unique_ptr<worker::Starter> starter_;  // before the workers: they end with its thread
  std::vector<Seat> seats_;
  // Of the work at hand.
  std::deque<ClipTask> waiting_;
  const Work* work_ = nullptr;
  std::size_t done_ = 0;
  std::optional<Error> broken_;  ///< why no worker can be started
};

}  // namespace panslate
