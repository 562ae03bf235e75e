#include "project/probe_all.h"

#include <future>
#include <mutex>
#include <utility>

namespace panslate {

namespace {

// Hands out files one by one and gathers what is found.
class ProbeQueue {
 public:
  ProbeQueue(const std::vector<std::filesystem::path>& files, Progress& progress)
      : files_(files), progress_(progress), found_(files.size()) {}

  void work() {
    while (const auto index = next()) {
      auto facts = probe_clip(files_[*index]);
      const std::lock_guard lock(mutex_);
      found_[*index] = std::move(facts);
      ++done_;
      tell();
    }
  }

  void tell() {
    progress_.step("measuring clips", static_cast<std::int64_t>(done_),
                   static_cast<std::int64_t>(files_.size()));
  }

  Result<std::vector<Result<ClipFacts>>> found() && {
    if (stopped_) return fail(ErrorCode::Cancelled, "stopped while measuring the clips");
    std::vector<Result<ClipFacts>> all;
    all.reserve(found_.size());
    for (auto& one : found_) all.push_back(*std::move(one));
    return all;
  }

 private:
  std::optional<std::size_t> next() {
    const std::lock_guard lock(mutex_);
    if (next_ == files_.size()) return std::nullopt;
    stopped_ = stopped_ || progress_.cancelled();
    if (stopped_) return std::nullopt;
    return next_++;
  }

  const std::vector<std::filesystem::path>& files_;
  Progress& progress_;
  std::mutex mutex_;
  std::vector<std::optional<Result<ClipFacts>>> found_;
  std::size_t next_ = 0;
  std::size_t done_ = 0;
  bool stopped_ = false;
};

}  // namespace

Result<std::vector<Result<ClipFacts>>> probe_all(const std::vector<std::filesystem::path>& files,
                                                 Progress& progress) {
  ProbeQueue queue(files, progress);
  queue.tell();
  auto other = std::async(std::launch::async, [&] { queue.work(); });
  queue.work();
  other.get();
  return std::move(queue).found();
}

}  // namespace panslate
