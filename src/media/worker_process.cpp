#include "media/worker_process.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <ctime>
#include <future>
#include <memory>
#include <utility>

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

namespace panslate::worker {

namespace {

constexpr int kCannotRun = 127;

tl::unexpected<Error> cannot_start(int number) {
  return fail(ErrorCode::Internal,
              std::string("the part of panslate that reads footage cannot be started: ") +
                  std::strerror(number),  // NOLINT(concurrency-mt-unsafe): glibc's is thread-safe
              std::nullopt, "close other programs, or restart the computer, and try again");
}

// Above the three that the worker gets, so that none of them is overwritten before it is copied.
Descriptor moved_up(int number) {
  Descriptor low(number);
  return Descriptor(number < 0 ? number : ::fcntl(number, F_DUPFD_CLOEXEC, STDERR_FILENO + 1));
}

void limit(int resource, rlim_t most) {
  const rlimit both{most, most};
  ::setrlimit(static_cast<__rlimit_resource_t>(resource), &both);
}

void close_all_above(unsigned last) {
  if (::close_range(last + 1, ~0U, 0) == 0) return;
  // Kernels before 5.9, and containers that forbid it.
  rlimit open{};
  if (::getrlimit(RLIMIT_NOFILE, &open) != 0) return;
  for (rlim_t number = last + 1; number < open.rlim_cur; ++number) ::close(static_cast<int>(number));
}

// In the new process, before it becomes the worker: only what is allowed between fork and exec.
[[noreturn]] void become_worker(const char* program, char* const* words, pid_t parent, int socket,
                                int nowhere, std::int64_t memory) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
  if (::getppid() != parent) ::_exit(kCannotRun);  // ended before it could be told
  // Ctrl-C reaches every process of the terminal; this program decides what it means.
  ::signal(SIGINT, SIG_IGN);
  ::signal(SIGPIPE, SIG_DFL);
  sigset_t none;
  ::sigemptyset(&none);
  ::sigprocmask(SIG_SETMASK, &none, nullptr);
  if (::dup2(socket, STDIN_FILENO) < 0 || ::dup2(socket, STDOUT_FILENO) < 0 ||
      ::dup2(nowhere, STDERR_FILENO) < 0)
    ::_exit(kCannotRun);
  close_all_above(STDERR_FILENO);
  limit(RLIMIT_CORE, 0);
  if (kAddressesAreCounted) limit(RLIMIT_AS, static_cast<rlim_t>(memory));
  ::execv(program, words);
  ::_exit(kCannotRun);
}

}  // namespace

Result<WorkerProcess> WorkerProcess::start(const std::filesystem::path& program,
                                           const FootageLimits& limits) {
  std::array<int, 2> ends{-1, -1};
  if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) != 0) return cannot_start(errno);
  Descriptor ours = moved_up(ends[0]);
  const Descriptor theirs = moved_up(ends[1]);
  const Descriptor nowhere = moved_up(::open("/dev/null", O_RDWR | O_CLOEXEC));
  if (ours.get() < 0 || theirs.get() < 0 || nowhere.get() < 0) return cannot_start(errno);

  std::string first = "panslate";
  std::string second(kFootageWorkerArgument);
  const std::array<char*, 3> words{first.data(), second.data(), nullptr};
  const pid_t parent = ::getpid();
  const pid_t child = ::fork();
  if (child < 0) return cannot_start(errno);
  if (child == 0)
    become_worker(program.c_str(), words.data(), parent, theirs.get(), nowhere.get(), limits.memory);
  return WorkerProcess(child, std::move(ours));
}

WorkerProcess::WorkerProcess(WorkerProcess&& other) noexcept
    : id_(std::exchange(other.id_, 0)),
      socket_(std::move(other.socket_)),
      frames_(std::move(other.frames_)) {}

WorkerProcess::~WorkerProcess() {
  end();
}

bool WorkerProcess::send(std::string_view body) {
  // The buffer is empty, since a worker has one job at a time, and holds the largest job.
  const auto frame = framed(body);
  return ::send(socket_.get(), frame.data(), frame.size(), MSG_NOSIGNAL | MSG_DONTWAIT) ==
         static_cast<ssize_t>(frame.size());
}

bool WorkerProcess::receive() {
  std::array<char, std::size_t{64} * 1024> block{};
  for (;;) {
    const ssize_t got = ::recv(socket_.get(), block.data(), block.size(), MSG_DONTWAIT);
    if (got > 0) {
      frames_.add({block.data(), static_cast<std::size_t>(got)});
      // An answer at a time: a worker that never stops talking must not keep us here.
      return true;
    }
    if (got < 0 && errno == EINTR) continue;
    return got < 0 && (errno == EAGAIN || errno == EWOULDBLOCK);
  }
}

void WorkerProcess::allow_processor(std::chrono::seconds more) {
  clockid_t clock{};
  timespec used{};
  if (::clock_getcpuclockid(id_, &clock) != 0 || ::clock_gettime(clock, &used) != 0) return;
  rlimit allowed{};
  allowed.rlim_cur = static_cast<rlim_t>(used.tv_sec + 1 + more.count());
  allowed.rlim_max = RLIM_INFINITY;
  rlimit before{};
  if (::prlimit(id_, RLIMIT_CPU, nullptr, &before) != 0) return;
  // The user may have set a limit for everything that cannot be raised again.
  allowed.rlim_max = before.rlim_max;
  allowed.rlim_cur = std::min(allowed.rlim_cur, before.rlim_max);
  ::prlimit(id_, RLIMIT_CPU, &allowed, nullptr);
}

WorkerProcess::End WorkerProcess::end() {
  if (id_ == 0) return End::Other;
  ::kill(id_, SIGKILL);
  int status = 0;
  while (::waitpid(id_, &status, 0) < 0 && errno == EINTR) {
  }
  id_ = 0;
  if (WIFSIGNALED(status) && WTERMSIG(status) == SIGXCPU) return End::ProcessorTime;
  if (WIFEXITED(status) && WEXITSTATUS(status) == kExitNoMemory) return End::Memory;
  return End::Other;
}

Starter::Starter() : thread_([this] { work(); }) {}

Starter::~Starter() {
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
  }
  wake_.notify_all();
  thread_.join();
}

Result<WorkerProcess> Starter::start(const std::filesystem::path& program, const FootageLimits& limits) {
  // Shared, since the thread may not have left the task when its result is here.
  const auto task = std::make_shared<std::packaged_task<Result<WorkerProcess>()>>(
      [&program, &limits] { return WorkerProcess::start(program, limits); });
  auto started = task->get_future();
  {
    const std::lock_guard lock(mutex_);
    task_ = [task] { (*task)(); };
  }
  wake_.notify_all();
  return started.get();
}

void Starter::work() {
  // Signals are for the threads that know what to do with them.
  sigset_t all;
  ::sigfillset(&all);
  ::pthread_sigmask(SIG_SETMASK, &all, nullptr);
  for (;;) {
    std::unique_lock lock(mutex_);
    wake_.wait(lock, [this] { return ends_ || task_; });
    if (ends_) return;
    const auto task = std::exchange(task_, nullptr);
    lock.unlock();
    task();
  }
}

}  // namespace panslate::worker
