// The other end of FootageWorkers: a process that reads clips for the program that started it.
#include <array>
#include <cerrno>
#include <fstream>
#include <new>
#include <string>
#include <utility>

#include <fcntl.h>
#include <sys/resource.h>
#include <unistd.h>

#include "panslate/base/descriptor.h"
#include "panslate/media/clip_facts.h"
#include "panslate/media/clip_log.h"
#include "panslate/media/footage_workers.h"
#include "panslate/media/proxy.h"
#include "panslate/media/speech_sound.h"
#include "panslate/media/still.h"

#include "media/worker_message.h"
#include "media/worker_process.h"

namespace panslate {

namespace {

using worker::Job;
using worker::JobKind;

constexpr int kDone = 0;
constexpr int kNotStartedByPanslate = 2;
constexpr int kProxyNiceness = 10;

bool write_all(int to, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(to, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

bool tell(int to, std::string_view body) {
  return write_all(to, worker::framed(body));
}

// What a library prints must not come between the answers.
Descriptor take_over_channel() {
  Descriptor channel(::fcntl(STDIN_FILENO, F_DUPFD_CLOEXEC, STDERR_FILENO + 1));
  const Descriptor nowhere(::open("/dev/null", O_RDWR | O_CLOEXEC));
  if (nowhere.get() >= 0)
    for (const int standard : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
      (void)::dup2(nowhere.get(), standard);
  return channel;
}

// Tells the program how far a proxy is, and stops where nobody listens.
class Telling final : public Progress {
 public:
  explicit Telling(int channel) : channel_(channel) {}
  void step(std::string_view /*phase*/, std::int64_t done, std::int64_t /*total*/) override {
    listens_ = listens_ && tell(channel_, worker::body_of(LogSoFar{MediaTime::from_ms(done), 0}));
  }
  [[nodiscard]] bool cancelled() const noexcept override { return !listens_; }

 private:
  int channel_;
  bool listens_ = true;
};

// False when the program is gone.
bool serve(const Job& job, int channel) {
  if (job.kind == JobKind::Probe) return tell(channel, worker::body_of(probe_clip(job.file)));
  bool listens = true;
  if (job.kind == JobKind::Log) {
    const auto so_far = [&](const LogSoFar& now) { return listens = tell(channel, worker::body_of(now)); };
    const auto log = log_clip(job.file, {job.threads, job.length}, so_far);
    return listens && tell(channel, worker::body_of(log));
  }
  if (job.kind == JobKind::Proxy) {
    // She works on meanwhile: everything else comes first.
    static_cast<void>(::setpriority(PRIO_PROCESS, 0, kProxyNiceness));
    Telling telling(channel);
    const auto made = make_proxy(job.file, job.out, telling);
    return !telling.cancelled() && tell(channel, worker::body_of(made));
  }
  const auto answer = [&](std::size_t /*index*/, const auto& made) {
    return listens = tell(channel, worker::body_of(made));
  };
  const auto opened = job.kind == JobKind::Stills ? take_stills(job.file, job.times, job.longest_side, answer)
                                                  : take_sound(job.file, job.times, job.length, answer);
  // An error reads the same, whatever was asked for.
  if (!opened)
    for (std::size_t i = 0; i < job.times.size() && listens; ++i)
      listens = tell(channel, worker::body_of(Result<Still>(tl::unexpected(opened.error()))));
  return listens;
}

}  // namespace

int serve_footage() {
  const auto channel = take_over_channel();
  // When memory runs out, it is a worker that has to go.
  std::ofstream("/proc/self/oom_score_adj") << 1000;
  if (!tell(channel.get(), worker::kGreeting)) return kNotStartedByPanslate;
  worker::FrameReader jobs(worker::kLargestJob);
  std::array<char, 4096> block{};
  for (;;) {
    while (auto body = jobs.next()) {
      const auto job = worker::read_job(*body);
      if (!job) return kNotStartedByPanslate;
      try {
        if (!serve(*job, channel.get())) return kDone;
      } catch (const std::bad_alloc&) {
        ::_exit(worker::kExitNoMemory);  // before the channel closes, so that it is seen as the reason
      }
    }
    if (jobs.refused()) return kNotStartedByPanslate;
    const ssize_t got = ::read(channel.get(), block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return kDone;
    jobs.add({block.data(), static_cast<std::size_t>(got)});
  }
}

}  // namespace panslate
