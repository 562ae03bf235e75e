#include "media/worker_message.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <limits>
#include <type_traits>
#include <utility>

#include "panslate/media/measured_bytes.h"

#include "media/byte_form.h"

namespace panslate::worker {

namespace {

std::string error_body(const Error& error) {
  ByteWriter out;
  out.number(kError);
  write(out, error);
  return std::move(out).take();
}

}  // namespace

std::string body_of(const Job& job) {
  ByteWriter out;
  out.number(static_cast<std::uint8_t>(job.kind));
  out.bytes(job.file.native());
  out.bytes(job.out.native());
  out.number(job.longest_side);
  out.time(job.length);
  out.number(job.threads);
  out.number(static_cast<std::uint32_t>(job.times.size()));
  for (const MediaTime time : job.times) out.time(time);
  return std::move(out).take();
}

std::optional<Job> read_job(std::string_view body) {
  ByteReader in(body);
  Job job;
  job.kind = static_cast<JobKind>(in.number<std::uint8_t>(1, 5));
  job.file = std::string(in.bytes(kLongestName));
  job.out = std::string(in.bytes(kLongestName));
  job.longest_side = in.number(0, kAnyPositive);
  job.length = in.time(MediaTime{});
  job.threads = in.number(1, kMostThreads);
  const auto times = in.count(kMostTimes);
  for (std::size_t i = 0; i < times && in.good(); ++i) job.times.push_back(in.time());
  return in.done() ? std::optional(std::move(job)) : std::nullopt;
}

std::string body_of(const Result<ClipFacts>& answer) {
  if (!answer) return error_body(answer.error());
  ByteWriter out;
  out.number(kValue);
  write(out, *answer);
  return std::move(out).take();
}

std::optional<Result<ClipFacts>> read_facts(std::string_view body, const std::filesystem::path& file) {
  ByteReader in(body);
  if (in.number(kValue, kError) == kError) {
    auto error = read_error(in, file);
    return finished<ClipFacts>(in, tl::unexpected(std::move(error)));
  }
  return finished<ClipFacts>(in, read_clip_facts(in, file));
}

std::string body_of(const Result<Still>& answer) {
  if (!answer) return error_body(answer.error());
  ByteWriter out;
  out.number(kValue);
  write(out, *answer);
  return std::move(out).take();
}

std::optional<Result<Still>> read_still(std::string_view body, const std::filesystem::path& file,
                                        int longest_side) {
  ByteReader in(body);
  if (in.number(kValue, kError) == kError) {
    auto error = read_error(in, file);
    return finished<Still>(in, tl::unexpected(std::move(error)));
  }
  return finished<Still>(in, read_still_picture(in, longest_side));
}

std::string body_of(const Result<Samples>& answer) {
  if (!answer) return error_body(answer.error());
  ByteWriter out;
  out.number(kValue);
  out.bytes({reinterpret_cast<const char*>(answer->data()), answer->size() * sizeof(std::int16_t)});
  return std::move(out).take();
}

std::optional<Result<Samples>> read_samples(std::string_view body, const std::filesystem::path& file,
                                            std::size_t samples) {
  ByteReader in(body);
  if (in.number(kValue, kError) == kError) {
    auto error = read_error(in, file);
    return finished<Samples>(in, tl::unexpected(std::move(error)));
  }
  const auto bytes = in.bytes(kLargestAnswer);
  in.require(bytes.size() == samples * sizeof(std::int16_t));
  if (!in.done()) return std::nullopt;
  Samples read(samples);
  std::memcpy(read.data(), bytes.data(), bytes.size());
  return read;
}

std::string body_of(const Status& answer) {
  if (!answer) return error_body(answer.error());
  ByteWriter out;
  out.number(kValue);
  return std::move(out).take();
}

std::optional<Status> read_done(std::string_view body, const std::filesystem::path& file) {
  ByteReader in(body);
  Status answer;
  if (in.number(kValue, kError) == kError) answer = tl::unexpected(read_error(in, file, Work::Writes));
  return in.done() ? std::optional(std::move(answer)) : std::nullopt;
}

}  // namespace panslate::worker

namespace panslate {

std::string bytes_of(const ClipFacts& facts) {
  return worker::body_of(Result<ClipFacts>(facts));
}

std::string bytes_of(const Still& still) {
  return worker::body_of(Result<Still>(still));
}

std::optional<ClipFacts> clip_facts_from(std::string_view bytes, const std::filesystem::path& file) {
  auto facts = worker::read_facts(bytes, file);
  return facts && *facts ? std::optional(**std::move(facts)) : std::nullopt;
}

std::optional<Still> still_from(std::string_view bytes, int longest_side) {
  auto still = worker::read_still(bytes, {}, longest_side);
  return still && *still ? std::optional(**std::move(still)) : std::nullopt;
}

}  // namespace panslate

namespace panslate::worker {

std::string framed(std::string_view body) {
  ByteWriter out;
  out.bytes(body);
  return std::move(out).take();
}

std::optional<std::string> FrameReader::next() {
  std::uint32_t size = 0;
  if (refused_ || buffer_.size() < sizeof size) return std::nullopt;
  std::memcpy(&size, buffer_.data(), sizeof size);
  if (size > most_) {
    refused_ = true;
    return std::nullopt;
  }
  if (buffer_.size() < sizeof size + size) return std::nullopt;
  auto body = buffer_.substr(sizeof size, size);
  buffer_.erase(0, sizeof size + size);
  return body;
}

}  // namespace panslate::worker
