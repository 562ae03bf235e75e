// FootageWorkers::log_all: every clip read once, told as it is done.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <numeric>
#include <optional>
#include <string>
#include <utility>

#include "panslate/media/footage_workers.h"

#include "media/footage_pool.h"
#include "media/worker_message.h"

namespace panslate {

namespace {

using Clock = std::chrono::steady_clock;

constexpr std::int64_t kMegabyte = 1'000'000;
constexpr std::chrono::seconds kBeforeGuessing{3};
// A clip whose worker died is read again up to so much before the place.
constexpr MediaTime kKeptOff = MediaTime::from_seconds(1);

// How far the reading of all footage is, by bytes: nobody knows how long clips take that are not open yet.
class Reading {
 public:
  explicit Reading(std::span<const std::filesystem::path> files) : sizes_(files.size()), read_(files.size()) {
    for (std::size_t i = 0; i < files.size(); ++i) {
      std::error_code error;
      const auto size = std::filesystem::file_size(files[i], error);
      sizes_[i] = error ? 1 : std::max<std::int64_t>(1, static_cast<std::int64_t>(size));
    }
    total_ = std::accumulate(sizes_.begin(), sizes_.end(), std::int64_t{0});
  }

  void is_at(std::size_t clip, std::int64_t bytes) {
    read_[clip] = std::clamp(bytes, std::int64_t{0}, sizes_[clip]);
  }
  void is_done(std::size_t clip) { read_[clip] = sizes_[clip]; }
  [[nodiscard]] std::int64_t size_of(std::size_t clip) const { return sizes_[clip]; }

  void tell(Progress& progress) const {
    const auto done = std::accumulate(read_.begin(), read_.end(), std::int64_t{0});
    std::string phase = "reading the footage, MB";
    const auto passed = Clock::now() - begin_;
    if (passed > kBeforeGuessing && done > 0) {
      const double seconds = std::chrono::duration<double>(passed).count();
      const double left = seconds * static_cast<double>(total_ - done) / static_cast<double>(done);
      phase += left > 90 ? ", " + std::to_string(std::lround(left / 60)) + " min left"
                         : ", " + std::to_string(std::lround(left)) + " s left";
    }
    progress.step(phase, done / kMegabyte, std::max<std::int64_t>(1, total_ / kMegabyte));
  }

 private:
  std::vector<std::int64_t> sizes_;
  std::vector<std::int64_t> read_;
  std::int64_t total_ = 0;
  Clock::time_point begin_ = Clock::now();
};

}  // namespace

Result<std::vector<Result<ClipLog>>> FootageWorkers::log_all(std::span<const std::filesystem::path> files,
                                                             Progress& progress, const LogTaken& taken) {
  std::vector<std::optional<Result<ClipLog>>> found(files.size());
  const auto stopped = [] { return fail(ErrorCode::Cancelled, "stopped while reading the footage"); };
  Reading reading(files);
  const auto take = [&](std::size_t index, Result<ClipLog> log) {
    found[index] = std::move(log);
    reading.is_done(index);
    if (taken) taken(index, *found[index]);
  };
  if (pool_->in_this_process()) {
    for (std::size_t i = 0; i < files.size(); ++i) {
      if (progress.cancelled()) return stopped();
      auto log = log_clip(files[i], {}, [&](const LogSoFar& now) {
        reading.is_at(i, now.bytes);
        reading.tell(progress);
        return !progress.cancelled();
      });
      if (!log && log.error().code == ErrorCode::Cancelled) return stopped();
      take(i, std::move(log));
      reading.tell(progress);
    }
  } else {
    // The largest first, so that none of them is left to one worker at the end.
    std::vector<std::size_t> order(files.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return reading.size_of(a) > reading.size_of(b); });
    // Clips are read side by side; where there are fewer than processors, each decoder takes several.
    const auto side_by_side = std::max<std::size_t>(1, std::min(files.size(), pool_->seats()));
    const int threads = static_cast<int>(std::max<std::size_t>(1, pool_->seats() / side_by_side));
    std::vector<ClipTask> tasks;
    tasks.reserve(order.size());
    for (const auto i : order) tasks.push_back({files[i], {i}, {}, 0, 0, threads});
    std::vector<MediaTime> reached(files.size());
    Work work{worker::JobKind::Log, 0, {}, "reading the footage", files.size(), {}, {}};
    work.accept = [&](std::size_t index, std::string_view body, const std::filesystem::path& file) {
      auto log = worker::read_log(body, file);
      if (log) take(index, *std::move(log));
      return found[index].has_value();
    };
    work.refuse = [&](std::size_t index, const Error& error) { take(index, tl::unexpected(error)); };
    work.take_so_far = [&](std::size_t index, std::string_view body) {
      const auto now = worker::read_so_far(body);
      if (!now) return false;
      reading.is_at(index, now->bytes);
      reached[index] = now->time;
      return true;
    };
    work.report = [&] { reading.tell(progress); };
    work.again_until = [&](std::size_t index) -> std::optional<MediaTime> {
      return reached[index] > kKeptOff ? std::optional(reached[index] - kKeptOff) : std::nullopt;
    };
    if (!pool_->run(std::move(tasks), work, progress)) return stopped();
  }
  std::vector<Result<ClipLog>> all;
  all.reserve(found.size());
  for (auto& one : found) all.push_back(*std::move(one));
  return all;
}

}  // namespace panslate
