#include "panslate/media/footage_workers.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "media/footage_pool.h"
#include "media/worker_message.h"

namespace panslate {

namespace {

using worker::JobKind;

// One death costs no more sound than this.
constexpr MediaTime kStretch = MediaTime::from_seconds(60);

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

FootageWorkers::FootageWorkers() : FootageWorkers(Setup{}) {}
FootageWorkers::FootageWorkers(Setup setup) : pool_(std::make_unique<Pool>(std::move(setup))) {}
FootageWorkers::~FootageWorkers() = default;

const FootageWorkers::Setup& FootageWorkers::setup() const {
  return pool_->setup();
}

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
