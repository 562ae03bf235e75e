#include "media/footage_pool.h"

#include <algorithm>
#include <map>
#include <thread>
#include <utility>

#include <poll.h>

namespace panslate {

namespace {

using worker::Job;
using worker::JobKind;
using worker::WorkerProcess;

// How soon Ctrl-C is noticed where it does not interrupt the wait.
constexpr std::chrono::milliseconds kLook{100};
constexpr unsigned kMostWorkers = 16;
constexpr int kDeathsAClip = 2;
constexpr const char* kHint =
    "play it to its end in a player: if it stops there too, copy it from the camera again, else export it "
    "again as .mp4";

Error does_not_start() {
  return {ErrorCode::Internal, "the part of panslate that reads footage ends as soon as it is started",
          std::nullopt, "install panslate again"};
}

std::string rest_of(const ClipTask& task, const Work& work) {
  Job job{work.kind, task.file, {}, work.longest_side, work.length, task.threads, task.out};
  if (work.kind == JobKind::Log) job.length = task.until;
  if (!task.times.empty())
    job.times.assign(task.times.begin() + static_cast<std::ptrdiff_t>(task.answered), task.times.end());
  return worker::body_of(job);
}

}  // namespace

Error FootageWorkers::Pool::unreadable(const std::filesystem::path& file, Ended how) {
  static const std::map<Ended, const char*> kMessages{
      {Ended::Died, "the clip breaks off while it is read; it may be damaged"},
      {Ended::TooLong, "the clip takes too long to read; it may be damaged"},
      {Ended::NoMemory, "reading the clip takes more memory than there is for it; it may be damaged"}};
  return {ErrorCode::NotMedia, kMessages.at(how), Place{file}, kHint};
}

FootageWorkers::Pool::Pool(Setup setup) : setup_(std::move(setup)) {
  unsigned count = setup_.count;
  if (count == 0) count = std::max(1U, std::thread::hardware_concurrency());
  seats_.resize(std::min(count, kMostWorkers));
}

bool FootageWorkers::Pool::run(std::vector<ClipTask> tasks, const Work& work, Progress& progress) {
  const std::lock_guard lock(mutex_);
  waiting_.assign(std::make_move_iterator(tasks.begin()), std::make_move_iterator(tasks.end()));
  work_ = &work;
  done_ = 0;
  broken_.reset();
  tell(progress);
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
    if (done_ != before || work.report) tell(progress);
  }
  return true;
}

void FootageWorkers::Pool::give_next(Seat& seat) {
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

void FootageWorkers::Pool::be_patient(Seat& seat) const {
  seat.deadline = Clock::now() + setup_.limits.wall;
  seat.process->allow_processor(setup_.limits.processor);
}

void FootageWorkers::Pool::wait() const {
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

void FootageWorkers::Pool::look_at(Seat& seat) {
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

void FootageWorkers::Pool::take_answer(Seat& seat, const std::string& body) {
  if (!seat.greeted) {
    if (body != worker::kGreeting) return ended(seat, Ended::Died);
    seat.greeted = true;
    return be_patient(seat);
  }
  ClipTask& task = *seat.task;
  if (work_->take_so_far && work_->take_so_far(task.wanted[task.answered], body)) return be_patient(seat);
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

void FootageWorkers::Pool::ended(Seat& seat, Ended how) {
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
  if (work_->again_until && task.until == MediaTime{})
    if (const auto until = work_->again_until(task.wanted[task.answered])) {
      task.until = *until;
      waiting_.push_front(std::move(task));
      return;
    }
  refuse_next(task, unreadable(task.file, how));
  if (++task.deaths >= kDeathsAClip)
    while (!task.done()) refuse_next(task, unreadable(task.file, how));
  if (!task.done()) waiting_.push_front(std::move(task));
}

void FootageWorkers::Pool::refuse_next(ClipTask& task, const Error& error) {
  work_->refuse(task.wanted[task.answered], error);
  ++task.answered;
  ++done_;
}

void FootageWorkers::Pool::refuse_rest(Seat& seat, const Error& error) {
  while (!seat.task->done()) refuse_next(*seat.task, error);
  seat.task.reset();
}

void FootageWorkers::Pool::stop() {
  for (auto& seat : seats_) {
    if (!seat.task) continue;
    seat.task.reset();
    seat.process.reset();
  }
  waiting_.clear();
}

void FootageWorkers::Pool::tell(Progress& progress) const {
  if (work_->report) return work_->report();
  progress.step(work_->phase, static_cast<std::int64_t>(done_), static_cast<std::int64_t>(work_->total));
}

}  // namespace panslate
