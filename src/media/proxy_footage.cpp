// FootageWorkers::proxy: a copy that plays, made by a worker and all there or not at all.
#include <algorithm>
#include <cerrno>
#include <charconv>
#include <csignal>
#include <optional>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include <sys/types.h>

#include "panslate/media/footage_workers.h"
#include "panslate/media/proxy.h"

#include "media/footage_pool.h"
#include "media/worker_message.h"

namespace panslate {

namespace {

constexpr std::string_view kPhase = "making a copy that plays";

constexpr std::string_view kHalf = ".part";  // as FilmWriter names it: "NAME.PID.part"

// Of a file that is half: whether a process with the number in its name lives.
bool maker_lives(std::string_view name) {
  name.remove_suffix(kHalf.size());
  name.remove_prefix(std::min(name.rfind('.') + 1, name.size()));
  pid_t maker = 0;
  const auto* const end = name.data() + name.size();
  const auto [at, wrong] = std::from_chars(name.data(), end, maker);
  // What names no process is no half of ours.
  if (wrong != std::errc() || at != end || maker <= 0) return true;
  return ::kill(maker, 0) == 0 || errno != ESRCH;
}

void remove_half_of(const std::filesystem::path& folder, std::string_view begin) {
  std::error_code failed;
  std::vector<std::filesystem::path> left;
  for (std::filesystem::directory_iterator at(folder, failed), end; !failed && at != end;
       at.increment(failed)) {
    const std::string name = at->path().filename().native();
    if (name.starts_with(begin) && name.ends_with(kHalf) && !maker_lives(name)) left.push_back(at->path());
  }
  for (const auto& file : left) std::filesystem::remove(file, failed);
}

}  // namespace

void remove_half_copies(const std::filesystem::path& folder) {
  remove_half_of(folder, {});
}

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
  remove_half_of(out.parent_path(), out.filename().native() + ".");  // of a worker ended in the middle
  if (!finished) return fail(ErrorCode::Cancelled, "stopped while making a copy that plays", Place{out});
  return made ? *std::move(made) : fail(ErrorCode::Internal, "nobody made the copy", Place{out});
}

}  // namespace panslate
