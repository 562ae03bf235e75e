// A clip's log as bytes, and back.
#include <algorithm>
#include <limits>

#include "panslate/media/clip_log.h"
#include "panslate/media/measured_bytes.h"

#include "media/byte_form.h"
#include "media/worker_message.h"

namespace panslate::worker {

namespace {

constexpr std::size_t kMostShots = 100'000;
constexpr std::size_t kMostStretches = 1'000'000;
constexpr std::int64_t kMostFrames = std::int64_t{1} << 40;
constexpr auto kMostLevels =
    static_cast<std::size_t>(kLevelsASecond * (kLongestLogged.ticks() / MediaTime::kTicksPerSecond + 1));
constexpr auto kMostLooks =
    static_cast<std::size_t>(kLooksASecond * (kLongestLogged.ticks() / MediaTime::kTicksPerSecond + 1));
constexpr double kMostDecibels = 1000;

void write(ByteWriter& out, const TimeRange& range) {
  out.time(range.begin);
  out.time(range.end);
}

TimeRange read_range(ByteReader& in) {
  TimeRange range;
  range.begin = in.time();
  range.end = in.time();
  in.require(range.begin <= range.end);
  return range;
}

template <class List>
std::size_t begin_list(ByteWriter& out, const List& list, std::size_t most) {
  const auto count = std::min(list.size(), most);
  out.number(static_cast<std::uint32_t>(count));
  return count;
}

void write(ByteWriter& out, const LoggedShot& shot) {
  write(out, shot.when);
  out.number(shot.first_frame);
  out.number(shot.last_frame);
  out.number(static_cast<std::uint8_t>(shot.into ? static_cast<int>(*shot.into) + 1 : 0));
  out.flag(shot.still.has_value());
  if (shot.still) write(out, *shot.still);
}

LoggedShot read_shot(ByteReader& in) {
  LoggedShot shot;
  shot.when = read_range(in);
  shot.first_frame = in.number<std::int64_t>(0, kMostFrames);
  shot.last_frame = in.number<std::int64_t>(0, kMostFrames);
  in.require(shot.first_frame <= shot.last_frame);
  if (const auto into = in.number<std::uint8_t>(0, 3); into > 0) shot.into = static_cast<ShotStart>(into - 1);
  if (in.flag()) shot.still = read_still_picture(in, kShotStillSide);
  return shot;
}

void write(ByteWriter& out, const Loudness& loudness) {
  out.flag(loudness.integrated.has_value());
  if (loudness.integrated) out.number(*loudness.integrated);
  out.number(loudness.range);
  out.number(loudness.true_peak);
}

Loudness read_loudness(ByteReader& in) {
  Loudness loudness;
  if (in.flag()) loudness.integrated = in.number(-kMostDecibels, kMostDecibels);
  loudness.range = in.number(-kMostDecibels, kMostDecibels);
  loudness.true_peak = in.number(-kMostDecibels, kMostDecibels);
  return loudness;
}

void write(ByteWriter& out, const ClipLog& log) {
  write(out, log.facts);
  out.number(log.frames);
  const auto shots = begin_list(out, log.shots, kMostShots);
  for (std::size_t i = 0; i < shots; ++i) write(out, log.shots[i]);
  const auto speech = begin_list(out, log.speech, kMostStretches);
  for (std::size_t i = 0; i < speech; ++i) write(out, log.speech[i]);
  out.number(static_cast<std::uint32_t>(log.sound_track));
  out.flag(log.loudness.has_value());
  if (log.loudness) write(out, *log.loudness);
  const auto faults = begin_list(out, log.faults, kMostStretches);
  for (std::size_t i = 0; i < faults; ++i) {
    out.number(static_cast<std::uint8_t>(log.faults[i].kind));
    write(out, log.faults[i].when);
    out.text(log.faults[i].detail);
  }
  out.bytes(std::string_view(log.levels).substr(0, kMostLevels));
  const auto looks = begin_list(out, log.looks, kMostLooks);
  for (std::size_t i = 0; i < looks; ++i) out.number(log.looks[i]);
}

ClipLog read_log_body(ByteReader& in, const std::filesystem::path& file) {
  ClipLog log;
  log.facts = read_clip_facts(in, file);
  log.frames = in.number<std::int64_t>(0, kMostFrames);
  const auto shots = in.count(kMostShots);
  for (std::size_t i = 0; i < shots && in.good(); ++i) log.shots.push_back(read_shot(in));
  const auto speech = in.count(kMostStretches);
  for (std::size_t i = 0; i < speech && in.good(); ++i) log.speech.push_back(read_range(in));
  log.sound_track = in.number<std::uint32_t>(0, std::numeric_limits<std::uint32_t>::max());
  in.require(log.sound_track == 0 || log.sound_track < log.facts.sound.size());
  if (in.flag()) log.loudness = read_loudness(in);
  const auto faults = in.count(kMostStretches);
  for (std::size_t i = 0; i < faults && in.good(); ++i) {
    ClipFault fault;
    fault.kind = static_cast<FaultKind>(in.number<std::uint8_t>(0, kFaultKinds - 1));
    fault.when = read_range(in);
    fault.detail = in.text();
    log.faults.push_back(std::move(fault));
  }
  log.levels = in.bytes(kMostLevels);
  const auto looks = in.count(kMostLooks);
  for (std::size_t i = 0; i < looks && in.good(); ++i)
    log.looks.push_back(in.number<std::uint64_t>(0, std::numeric_limits<std::uint64_t>::max()));
  return log;
}

}  // namespace

std::string body_of(const Result<ClipLog>& answer) {
  if (!answer) return body_of(Result<Still>(tl::unexpected(answer.error())));  // errors read the same
  ByteWriter out;
  out.number(kValue);
  write(out, *answer);
  return std::move(out).take();
}

std::string body_of(const LogSoFar& so_far) {
  ByteWriter out;
  out.number(kSoFar);
  out.time(so_far.time);
  out.number(so_far.bytes);
  return std::move(out).take();
}

std::optional<LogSoFar> read_so_far(std::string_view body) {
  ByteReader in(body);
  if (in.number(kValue, kSoFar) != kSoFar) return std::nullopt;
  LogSoFar so_far;
  so_far.time = in.time();
  so_far.bytes = in.number<std::int64_t>(0, std::numeric_limits<std::int64_t>::max());
  return in.done() ? std::optional(so_far) : std::nullopt;
}

std::optional<Result<ClipLog>> read_log(std::string_view body, const std::filesystem::path& file) {
  ByteReader in(body);
  if (in.number(kValue, kError) == kError) {
    auto error = read_error(in, file);
    return finished<ClipLog>(in, tl::unexpected(std::move(error)));
  }
  return finished<ClipLog>(in, read_log_body(in, file));
}

}  // namespace panslate::worker

namespace panslate {

std::string bytes_of(const ClipLog& log) {
  return worker::body_of(Result<ClipLog>(log));
}

std::optional<ClipLog> clip_log_from(std::string_view bytes, const std::filesystem::path& file) {
  auto log = worker::read_log(bytes, file);
  return log && *log ? std::optional(**std::move(log)) : std::nullopt;
}

}  // namespace panslate
