#include "panslate/media/footage_workers.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <mutex>
#include <new>
#include <optional>
#include <string>
#include <thread>
#include <utility>

#include <poll.h>

#include "media/worker_message.h"
#include "media/worker_process.h"

namespace panslate {

namespace {

using Clock = std::chrono::steady_clock;
using worker::Job;
using worker::JobKind;
using worker::WorkerProcess;

// How soon Ctrl-C is noticed where it does not interrupt the wait.
constexpr std::chrono::milliseconds kLook{100};
constexpr unsigned kMostWorkers = 16;
constexpr int kDeathsAClip = 2;
// One death costs no more sound than this.
constexpr MediaTime kStretch = MediaTime::from_seconds(60);
constexpr const char* kHint =
    "play it to its end in a player: if it stops there too, copy it from the camera again, else export it "
    "again as .mp4";

enum class Ended : std::uint8_t { Died, TooLong, NoMemory };

Error unreadable(const std::filesystem::path& file, Ended how) {
  static const std::map<Ended, const char*> kMessages{
      {Ended::Died, "the clip breaks off while it is read; it may be damaged"},
      {Ended::TooLong, "the clip takes too long to read; it may be damaged"},
      {Ended::NoMemory, "reading the clip takes more memory than there is for it; it may be damaged"}};
  return {ErrorCode::NotMedia, kMessages.at(how), Place{file}, kHint};
}

Error does_not_start() {
  return {ErrorCode::Internal, "the part of panslate that reads footage ends as soon as it is started",
          std::nullopt, "install panslate again"};
}

// The answers that one clip owes, each known by its index among all that are wanted.
struct ClipTask {
  std::filesystem::path file;
  std::vector<std::size_t> wanted;
  std::vector<MediaTime> times;  // for stills and sound
  std::size_t answered = 0;
  int deaths = 0;
  bool given_again = false;

  [[nodiscard]] bool done() const { return answered == wanted.size(); }
};

// What is to be done with every clip, and with what comes of it.
struct Work {
  JobKind kind = JobKind::Probe;
  int longest_side = 0;
  MediaTime length;
  std::string_view phase;
  std::size_t total = 0;
  // False for what cannot be an answer.
  std::function<bool(std::size_t index, std::string_view body, const std::filesystem::path& file)> accept;
  std::function<void(std::size_t index, const Error& error)> refuse;
};

std::string rest_of(const ClipTask& task, const Work& work) {
  Job job{work.kind, task.file, {}, work.longest_side, work.length};
  if (!task.times.empty())
    job.times.assign(task.times.begin() + static_cast<std::ptrdiff_t>(task.answered), task.times.end());
  return worker::body_of(job);
}

std::vector<ClipTask> by_clip(std::span<const StillWanted> wanted) {
  std::map<std::filesystem::path, std::vector<std::size_t>> clips;
  for (std::size_t i = 0; i < wanted.size(); ++i) clips[wanted[i].file].push_back(i);
  std::vector<ClipTask> tasks;
  for (auto& [file, indices] : clips) {
    std::stable_sort(indices.begin(), indices.end(),
                     [wanted](std::size_t a, std::size_t b) { return wanted[a].time < wanted[b].time; });
    for (std::size_t i = 0; i < indices.size(); ++i) {
      if (i % worker::kMostTimes == 0) tasks.push_back({file, {}, {}});
      tasks.back().wanted.push_back(indices[i]);
      tasks.back().times.push_back(std::clamp(wanted[indices[i]].time, MediaTime{}, worker::kLongestTime));
    }
  }
  return tasks;
}

template <class Value>
std::vector<Result<Value>> unwrapped(std::vector<std::optional<Result<Value>>> found) {
  std::vector<Result<Value>> all;
  all.reserve(found.size());
  for (auto& one : found) all.push_back(*std::move(one));
  return all;
}

}  // namespace

class FootageWorkers::Pool {
 public:
  explicit Pool(Setup setup) : setup_(std::move(setup)) {
    unsigned count = setup_.count;
    if (count == 0) count = std::max(1U, std::thread::hardware_concurrency());
    seats_.resize(std::min(count, kMostWorkers));
  }

  [[nodiscard]] bool in_this_process() const { return setup_.program.empty(); }

  // Until every clip has all its answers; false when the user stopped it.
  bool run(std::vector<ClipTask> tasks, const Work& work, Progress& progress) {
    const std::lock_guard lock(mutex_);
    waiting_.assign(std::make_move_iterator(tasks.begin()), std::make_move_iterator(tasks.end()));
    work_ = &work;
    done_ = 0;
    broken_.reset();
    progress.step(work.phase, 0, static_cast<std::int64_t>(work.total));
    while (done_ < work.total) {
      if (progress.cancelled()) {
        stop();
        return false;
      }
      const auto before = done_;
      for (auto& seat : seats_)
        if (!seat.task && !waiting_.empty()) give_next(seat);
      wait();
      for (auto& seat : seats_)
        if (seat.task) look_at(seat);
      if (done_ != before)
        progress.step(work.phase, static_cast<std::int64_t>(done_), static_cast<std::int64_t>(work.total));
    }
    return true;
  }

 private:
  // A place for one worker, empty until there is work for it.
  struct Seat {
    std::optional<WorkerProcess> process;
    bool greeted = false;
    bool served = false;  ///< has done with a clip before
    std::optional<ClipTask> task;
    Clock::time_point deadline;
  };

  void give_next(Seat& seat) {
    seat.task = std::move(waiting_.front());
    waiting_.pop_front();
    if (broken_) return refuse_rest(seat, *broken_);
    if (seat.task->file.native().size() > worker::kLongestName)
      return refuse_rest(seat, {ErrorCode::NotFound, "there is no such file", Place{seat.task->file}});
    if (seat.process && !seat.process->waits()) seat.process.reset();
    if (!seat.process) {
      if (!starter_) starter_ = std::make_unique<worker::Starter>();
      auto started = starter_->start(setup_.program, setup_.limits);
      if (!started) return refuse_rest(seat, started.error());
      seat.process.emplace(*std::move(started));
      seat.greeted = false;
      seat.served = false;
    }
    be_patient(seat);
    if (!seat.process->send(rest_of(*seat.task, *work_))) ended(seat, Ended::Died);
  }

  void be_patient(Seat& seat) const {
    seat.deadline = Clock::now() + setup_.limits.wall;
    seat.process->allow_processor(setup_.limits.processor);
  }

  void wait() const {
    std::vector<pollfd> sockets;
    auto until = Clock::now() + kLook;
    for (const auto& seat : seats_) {
      if (!seat.task) continue;
      sockets.push_back({seat.process->descriptor(), POLLIN, 0});
      until = std::min(until, seat.deadline);
    }
    if (sockets.empty()) return;
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(until - Clock::now()).count();
    (void)::poll(sockets.data(), sockets.size(), static_cast<int>(std::max<std::int64_t>(0, left)));
  }

  void look_at(Seat& seat) {
    const bool more = seat.process->receive();
    while (seat.task && seat.process) {
      const auto body = seat.process->next_answer();
      if (!body) break;
      take_answer(seat, *body);
    }
    if (!seat.task) return;
    if (!more || seat.process->talks_nonsense())
      ended(seat, Ended::Died);
    else if (Clock::now() > seat.deadline)
      ended(seat, Ended::TooLong);
  }

  void take_answer(Seat& seat, const std::string& body) {
    if (!seat.greeted) {
      if (body != worker::kGreeting) return ended(seat, Ended::Died);
      seat.greeted = true;
      return be_patient(seat);
    }
    ClipTask& task = *seat.task;
    if (!work_->accept(task.wanted[task.answered], body, task.file)) return ended(seat, Ended::Died);
    ++task.answered;
    ++done_;
    if (task.done()) {
      seat.task.reset();
      seat.served = true;
    } else {
      be_patient(seat);
    }
  }

  // The worker is dead or has to be: what becomes of its clip?
  void ended(Seat& seat, Ended how) {
    const auto end = seat.process->end();
    if (end == WorkerProcess::End::ProcessorTime) how = Ended::TooLong;
    if (end == WorkerProcess::End::Memory) how = Ended::NoMemory;
    seat.process.reset();
    if (!seat.greeted) {
      // It is no fault of the clip, and the next one would fare no better.
      broken_ = does_not_start();
      return refuse_rest(seat, *broken_);
    }
    ClipTask task = *std::move(seat.task);
    seat.task.reset();
    if (how != Ended::TooLong && seat.served && !task.given_again) {
      task.given_again = true;
      waiting_.push_front(std::move(task));
      return;
    }
    refuse_next(task, unreadable(task.file, how));
    if (++task.deaths >= kDeathsAClip)
      while (!task.done()) refuse_next(task, unreadable(task.file, how));
    if (!task.done()) waiting_.push_front(std::move(task));
  }

  void refuse_next(ClipTask& task, const Error& error) {
    work_->refuse(task.wanted[task.answered], error);
    ++task.answered;
    ++done_;
  }

  void refuse_rest(Seat& seat, const Error& error) {
    while (!seat.task->done()) refuse_next(*seat.task, error);
    seat.task.reset();
  }

  void stop() {
    for (auto& seat : seats_) {
      if (!seat.task) continue;
      seat.task.reset();
      seat.process.reset();
    }
    waiting_.clear();
  }

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

FootageWorkers::FootageWorkers() : FootageWorkers(Setup{}) {}
FootageWorkers::FootageWorkers(Setup setup) : pool_(std::make_unique<Pool>(std::move(setup))) {}
FootageWorkers::~FootageWorkers() = default;

Result<ClipFacts> FootageWorkers::probe(const std::filesystem::path& file) {
  NoProgress progress;
  PANSLATE_TRY(auto all, probe_all(std::span(&file, 1), progress));
  return std::move(all.front());
}

Result<Still> FootageWorkers::still(const std::filesystem::path& file, MediaTime time, int longest_side) {
  NoProgress progress;
  const StillWanted wanted{file, time};
  PANSLATE_TRY(auto all, stills(std::span(&wanted, 1), longest_side, progress));
  return std::move(all.front());
}

Result<std::vector<Result<ClipFacts>>> FootageWorkers::probe_all(std::span<const std::filesystem::path> files,
                                                                 Progress& progress) {
  std::vector<std::optional<Result<ClipFacts>>> found(files.size());
  const auto stopped = [] { return fail(ErrorCode::Cancelled, "stopped while measuring the clips"); };
  constexpr std::string_view kPhase = "measuring clips";
  const auto total = static_cast<std::int64_t>(files.size());
  if (pool_->in_this_process()) {
    progress.step(kPhase, 0, total);
    for (std::size_t i = 0; i < files.size(); ++i) {
      if (progress.cancelled()) return stopped();
      found[i] = probe_clip(files[i]);
      progress.step(kPhase, static_cast<std::int64_t>(i) + 1, total);
    }
    return unwrapped(std::move(found));
  }
  std::vector<ClipTask> tasks;
  for (std::size_t i = 0; i < files.size(); ++i) tasks.push_back({files[i], {i}, {}});
  Work work{JobKind::Probe, 0, {}, kPhase, files.size(), {}, {}};
  work.accept = [&](std::size_t index, std::string_view body, const std::filesystem::path& file) {
    found[index] = worker::read_facts(body, file);
    return found[index].has_value();
  };
  work.refuse = [&](std::size_t index, const Error& error) { found[index] = tl::unexpected(error); };
  if (!pool_->run(std::move(tasks), work, progress)) return stopped();
  return unwrapped(std::move(found));
}

Result<std::vector<Result<Still>>> FootageWorkers::stills(std::span<const StillWanted> wanted,
                                                          int longest_side, Progress& progress) {
  std::vector<std::optional<Result<Still>>> found(wanted.size());
  const auto stopped = [] { return fail(ErrorCode::Cancelled, "stopped while taking stills"); };
  longest_side = std::clamp(longest_side, kSmallestStill, kLargestStill);
  Work work{JobKind::Stills, longest_side, {}, "taking stills", wanted.size(), {}, {}};
  work.accept = [&](std::size_t index, std::string_view body, const std::filesystem::path& file) {
    found[index] = worker::read_still(body, file, longest_side);
    return found[index].has_value();
  };
  work.refuse = [&](std::size_t index, const Error& error) { found[index] = tl::unexpected(error); };
  auto tasks = by_clip(wanted);
  if (!pool_->in_this_process()) {
    if (!pool_->run(std::move(tasks), work, progress)) return stopped();
    return unwrapped(std::move(found));
  }
  std::int64_t done = 0;
  const auto tell = [&] { progress.step(work.phase, done, static_cast<std::int64_t>(wanted.size())); };
  tell();
  for (const auto& task : tasks) {
    const auto opened =
        take_stills(task.file, task.times, longest_side, [&](std::size_t i, Result<Still> still) {
          found[task.wanted[i]] = std::move(still);
          ++done;
          tell();
          return !progress.cancelled();
        });
    if (!opened)
      for (const auto index : task.wanted) found[index] = tl::unexpected(opened.error());
    if (progress.cancelled() && done < static_cast<std::int64_t>(wanted.size())) return stopped();
  }
  return unwrapped(std::move(found));
}

Result<SpeechSound> FootageWorkers::speech_sound(const std::filesystem::path& file, MediaTime duration,
                                                 Progress& progress) {
  constexpr std::string_view kPhase = "reading the sound";
  const auto samples = sample_at(std::clamp(duration, MediaTime{}, kLongestSound));
  const auto stretch = static_cast<std::size_t>(sample_at(kStretch));
  SpeechSound sound;
  sound.samples.resize(static_cast<std::size_t>(samples));
  ClipTask task{file, {}, {}};
  for (std::size_t at = 0; at < sound.samples.size(); at += stretch) {
    task.wanted.push_back(task.wanted.size());
    task.times.push_back(time_of_sample(static_cast<std::int64_t>(at)));
  }
  const std::size_t stretches = task.wanted.size();
  if (stretches == 0) return sound;
  std::optional<Error> why;
  const auto refuse = [&](std::size_t index, const Error& error) {
    const TimeRange range{
        kStretch * static_cast<std::int64_t>(index),
        std::min(kStretch * (static_cast<std::int64_t>(index) + 1), time_of_sample(samples))};
    if (!sound.unreadable.empty() && sound.unreadable.back().end == range.begin)
      sound.unreadable.back().end = range.end;
    else
      sound.unreadable.push_back(range);
    why = error;
  };
  const auto keep = [&](std::size_t index, const Result<Samples>& read) {
    if (!read) return refuse(index, read.error());
    const std::size_t at = index * stretch;
    std::copy_n(read->begin(), std::min(stretch, sound.samples.size() - at),
                sound.samples.begin() + static_cast<std::ptrdiff_t>(at));
  };
  const auto stopped = [] { return fail(ErrorCode::Cancelled, "stopped while reading the sound"); };
  if (pool_->in_this_process()) {
    const auto total = static_cast<std::int64_t>(stretches);
    progress.step(kPhase, 0, total);
    const auto opened =
        take_sound(file, task.times, kStretch, [&](std::size_t i, const Result<Samples>& read) {
          keep(i, read);
          progress.step(kPhase, static_cast<std::int64_t>(i) + 1, total);
          return !progress.cancelled();
        });
    if (!opened) return tl::unexpected(opened.error());
    if (progress.cancelled()) return stopped();
  } else {
    Work work{JobKind::Sound, 0, kStretch, kPhase, stretches, {}, refuse};
    work.accept = [&](std::size_t index, std::string_view body, const std::filesystem::path& of) {
      const auto read = worker::read_samples(body, of, stretch);
      if (read) keep(index, *read);
      return read.has_value();
    };
    std::vector<ClipTask> tasks{std::move(task)};
    if (!pool_->run(std::move(tasks), work, progress)) return stopped();
  }
  const auto unread = [&] {
    MediaTime sum;
    for (const TimeRange& range : sound.unreadable) sum += range.duration();
    return sum;
  }();
  if (unread == time_of_sample(samples)) return tl::unexpected(*why);
  return sound;
}

FootageWorkers& footage_in_this_process() {
  static FootageWorkers none;
  return none;
}

}  // namespace panslate
