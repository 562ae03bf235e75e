#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <thread>
#include <utility>

#include <sys/types.h>

#include "panslate/base/descriptor.h"
#include "panslate/base/result.h"
#include "panslate/media/footage_workers.h"

#include "media/worker_message.h"

/// One process that reads footage, seen from the program that started it.
namespace panslate::worker {

/// AddressSanitizer reserves terabytes of address space that it never touches; then memory is not limited.
#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool kAddressesAreCounted = false;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
inline constexpr bool kAddressesAreCounted = false;
#else
inline constexpr bool kAddressesAreCounted = true;
#endif
#else
inline constexpr bool kAddressesAreCounted = true;
#endif

/// How a worker ends that ran out of memory.
inline constexpr int kExitNoMemory = 3;

/// A started worker. It has one descriptor, a socket to us, as its standard input and output; its standard
/// error is /dev/null. It is killed when this object or this program ends.
class WorkerProcess {
 public:
  /// Starts `program --footage-worker`. Must be called on a thread that lives as long as the worker: the
  /// kernel ends the worker with the thread that started it (PR_SET_PDEATHSIG).
  [[nodiscard]] static Result<WorkerProcess> start(const std::filesystem::path& program,
                                                   const FootageLimits& limits);
  WorkerProcess(WorkerProcess&& other) noexcept;
  WorkerProcess& operator=(WorkerProcess&&) = delete;
  WorkerProcess(const WorkerProcess&) = delete;
  WorkerProcess& operator=(const WorkerProcess&) = delete;
  ~WorkerProcess();

  /// Hands over a job; false when the worker cannot take it (it is dead, or does not read).
  [[nodiscard]] bool send(std::string_view body);
  /// Takes what has arrived, without waiting; false when nothing will come any more.
  [[nodiscard]] bool receive();
  /// The next whole answer that has arrived.
  [[nodiscard]] std::optional<std::string> next_answer() { return frames_.next(); }
  /// What it sent is no frame.
  [[nodiscard]] bool talks_nonsense() const { return frames_.refused(); }
  /// Alive, as far as is known, with nothing said that was not asked for.
  [[nodiscard]] bool waits() { return receive() && frames_.empty(); }
  /// To wait on for answers.
  [[nodiscard]] int descriptor() const { return socket_.get(); }
  /// From now on it may use so much processor time; the kernel ends it beyond.
  void allow_processor(std::chrono::seconds more);
  enum class End : std::uint8_t { Other, ProcessorTime, Memory };
  /// Ends it, and tells what had ended it before, where that can be told.
  End end();

 private:
  WorkerProcess(pid_t id, Descriptor socket) : id_(id), socket_(std::move(socket)) {}

  pid_t id_ = 0;  ///< 0: waited for already
  Descriptor socket_;
  FrameReader frames_{kLargestAnswer};
};

/// The thread that all workers of one owner are started on.
class Starter {
 public:
  Starter();
  ~Starter();
  Starter(const Starter&) = delete;
  Starter& operator=(const Starter&) = delete;
  [[nodiscard]] Result<WorkerProcess> start(const std::filesystem::path& program,
                                            const FootageLimits& limits);

 private:
  void work();

  std::mutex mutex_;
  std::condition_variable wake_;
  std::function<void()> task_;
  bool ends_ = false;
  std::thread thread_;  // last: it uses what stands above
};

}  // namespace panslate::worker
