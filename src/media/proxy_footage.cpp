// FootageWorkers::proxy: a copy that plays, made by a worker and all there or not at all.
#include <algorithm>
#include <optional>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "panslate/media/footage_workers.h"
#include "panslate/media/proxy.h"

#include "media/footage_pool.h"
#include "media/worker_message.h"

namespace panslate {

namespace {

constexpr std::string_view kPhase = "making a copy that plays";

// What a worker that was ended in the middle left: files named after `out` with more behind it.
void remove_leftovers(const std::filesystem::path& out) {
  std::error_code failed;
  const auto begin = out.filename().native() + ".";
  std::vector<std::filesystem::path> left;
  for (std::filesystem::directory_iterator at(out.parent_path(), failed), end; !failed && at != end;
       at.increment(failed))
    if (at->path().filename().native().starts_with(begin)) left.push_back(at->path());
  for (const auto& file : left) std::filesystem::remove(file, failed);
}

}  // namespace

Status FootageWorkers::proxy(const std::filesystem::path& file, MediaTime duration,
                             const std::filesystem::path& out, Progress& progress) {
  if (pool_->in_this_process()) return make_proxy(file, out, progress);
  if (out.native().size() > worker::kLongestName)
    return fail(ErrorCode::WriteFailed, "the name is too long", Place{out});
  std::optional<Status> made;
  std::int64_t reached = 0;  // ms
  Work work{worker::JobKind::Proxy, 0, {}, kPhase, 1, {}, {}};
  work.accept = [&](std::size_t, std::string_view body, const std::filesystem::path& of) {
    made = worker::read_done(body, of);
    return made.has_value();
  };
  work.refuse = [&](std::size_t, const Error& error) { made = tl::unexpected(error); };
  work.take_so_far = [&](std::size_t, std::string_view body) {
    const auto now = worker::read_so_far(body);
    if (now) reached = now->time.to_ms(Round::Down);
    return now.has_value();
  };
  work.report = [&] {
    const auto whole = std::max<std::int64_t>(1, duration.to_ms(Round::Up));
    progress.step(kPhase, std::clamp<std::int64_t>(reached, 0, whole), whole);
  };
  ClipTask task{file, {0}, {}};
  task.out = out;
  std::vector<ClipTask> tasks;
  tasks.push_back(std::move(task));
  const bool finished = pool_->run(std::move(tasks), work, progress);
  remove_leftovers(out);  // of a desk too that was ended before
  if (!finished) return fail(ErrorCode::Cancelled, "stopped while making a copy that plays", Place{out});
  return made ? *std::move(made) : fail(ErrorCode::Internal, "nobody made the copy", Place{out});
}

}  // namespace panslate
