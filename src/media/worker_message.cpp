#include "media/worker_message.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <limits>
#include <type_traits>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/media/measured_bytes.h"

namespace panslate::worker {

namespace {

constexpr std::size_t kLongestText = 4096;
constexpr std::size_t kMostSounds = 1024;
constexpr std::size_t kMostWarnings = 64;
constexpr int kLargestSide = 1 << 24;
// An answer is one of these.
constexpr std::uint8_t kValue = 1;
constexpr std::uint8_t kError = 2;

class Writer {
 public:
  template <class Number>
  void number(Number value) {
    static_assert(std::is_arithmetic_v<Number>);
    std::array<char, sizeof value> bytes{};
    std::memcpy(bytes.data(), &value, sizeof value);
    out_.append(bytes.data(), bytes.size());
  }
  void flag(bool value) { number(static_cast<std::uint8_t>(value ? 1 : 0)); }
  void time(MediaTime value) { number(value.ticks()); }
  void bytes(std::string_view value) {
    number(static_cast<std::uint32_t>(value.size()));
    out_.append(value);
  }
  // What is longer than a reader takes is cut where it must not cost the whole answer.
  void text(std::string_view value) { bytes(to_utf8(value.substr(0, kLongestText / 4))); }  // ×3 at most
  void maybe(const std::optional<std::string>& value) {
    flag(value.has_value());
    if (value) text(*value);
  }
  [[nodiscard]] std::string take() && { return std::move(out_); }

 private:
  std::string out_;
};

// Reads what Writer wrote. The first thing that does not fit makes everything after it fail too.
class Reader {
 public:
  explicit Reader(std::string_view in) : in_(in) {}

  template <class Number>
  Number number(Number least, Number most) {
    Number value{};
    const auto bytes = take(sizeof value);
    if (bytes.size() == sizeof value) std::memcpy(&value, bytes.data(), sizeof value);
    if (value < least || value > most) good_ = false;
    return good_ ? value : least;
  }
  bool flag() { return number<std::uint8_t>(0, 1) == 1; }
  MediaTime time(MediaTime least = -kLongestTime) {
    return MediaTime::from_ticks(number<std::int64_t>(least.ticks(), kLongestTime.ticks()));
  }
  std::string_view bytes(std::size_t most) {
    return take(number<std::uint32_t>(0, static_cast<std::uint32_t>(most)));
  }
  std::string text() {
    std::string value(bytes(kLongestText));
    // The dot keeps a byte order mark, which is text here, from being taken off.
    if (to_utf8("." + value) != "." + value) good_ = false;
    return good_ ? value : std::string{};
  }
  std::optional<std::string> maybe() { return flag() ? std::optional(text()) : std::nullopt; }
  std::size_t count(std::size_t most) { return number<std::uint32_t>(0, static_cast<std::uint32_t>(most)); }
  void require(bool condition) { good_ = good_ && condition; }
  [[nodiscard]] bool good() const { return good_; }
  [[nodiscard]] bool done() const { return good_ && in_.empty(); }

 private:
  std::string_view take(std::size_t size) {
    if (!good_ || in_.size() < size) {
      good_ = false;
      return {};
    }
    const auto taken = in_.substr(0, size);
    in_.remove_prefix(size);
    return taken;
  }

  std::string_view in_;
  bool good_ = true;
};

constexpr std::int32_t kAnyPositive = std::numeric_limits<std::int32_t>::max();

void write(Writer& out, const PictureFacts& facts) {
  for (const int side : {facts.width, facts.height, facts.shown_width, facts.shown_height, facts.rotation})
    out.number(side);
  out.flag(facts.mirrored);
  out.number(facts.frame_rate.num);
  out.number(facts.frame_rate.den);
  out.flag(facts.variable_rate);
  out.flag(facts.frames.has_value());
  if (facts.frames) out.number(*facts.frames);
  out.time(facts.duration);
  out.text(facts.codec);
  out.flag(facts.hdr);
}

PictureFacts read_picture(Reader& in) {
  PictureFacts facts;
  for (int* side : {&facts.width, &facts.height, &facts.shown_width, &facts.shown_height})
    *side = in.number(1, kLargestSide);
  facts.rotation = in.number(0, 270);
  in.require(facts.rotation % 90 == 0);
  facts.mirrored = in.flag();
  facts.frame_rate.num = in.number(1, kAnyPositive);
  facts.frame_rate.den = in.number(1, kAnyPositive);
  facts.variable_rate = in.flag();
  if (in.flag()) facts.frames = in.number<std::int64_t>(0, std::numeric_limits<std::int64_t>::max());
  facts.duration = in.time(MediaTime{});
  facts.codec = in.text();
  facts.hdr = in.flag();
  return facts;
}

void write(Writer& out, const SoundFacts& facts) {
  out.number(facts.channels);
  out.number(facts.sample_rate);
  out.text(facts.layout);
  out.text(facts.codec);
  out.time(facts.begin);
  out.time(facts.end);
}

SoundFacts read_sound(Reader& in) {
  SoundFacts facts;
  facts.channels = in.number(1, kAnyPositive);
  facts.sample_rate = in.number(0, kAnyPositive);
  facts.layout = in.text();
  facts.codec = in.text();
  facts.begin = in.time();
  facts.end = in.time();
  in.require(facts.begin <= facts.end);
  return facts;
}

std::string error_body(const Error& error) {
  Writer out;
  out.number(kError);
  out.number(static_cast<std::int32_t>(error.code));
  out.text(error.message);
  out.flag(error.place.has_value());
  out.text(error.hint);
  return std::move(out).take();
}

// What can go wrong with a clip; a worker has nothing to say about saving or the command line.
Error read_error(Reader& in, const std::filesystem::path& file) {
  static constexpr std::array kPossible{ErrorCode::NotFound, ErrorCode::Unreadable, ErrorCode::NotMedia,
                                        ErrorCode::Internal};
  const auto code = in.number<std::int32_t>(0, kAnyPositive);
  const auto* const found = std::find_if(kPossible.begin(), kPossible.end(), [code](ErrorCode possible) {
    return static_cast<std::int32_t>(possible) == code;
  });
  in.require(found != kPossible.end());
  Error error;
  if (in.good()) error.code = *found;
  error.message = in.text();
  in.require(!error.message.empty());
  if (in.flag()) error.place = Place{file};
  error.hint = in.text();
  return error;
}

template <class Value>
std::optional<Result<Value>> finished(const Reader& in, Result<Value> answer) {
  return in.done() ? std::optional(std::move(answer)) : std::nullopt;
}

}  // namespace

std::string body_of(const Job& job) {
  Writer out;
  out.number(static_cast<std::uint8_t>(job.kind));
  out.bytes(job.file.native());
  out.number(job.longest_side);
  out.time(job.length);
  out.number(static_cast<std::uint32_t>(job.times.size()));
  for (const MediaTime time : job.times) out.time(time);
  return std::move(out).take();
}

std::optional<Job> read_job(std::string_view body) {
  Reader in(body);
  Job job;
  job.kind = static_cast<JobKind>(in.number<std::uint8_t>(1, 3));
  job.file = std::string(in.bytes(kLongestName));
  job.longest_side = in.number(0, kAnyPositive);
  job.length = in.time(MediaTime{});
  const auto times = in.count(kMostTimes);
  for (std::size_t i = 0; i < times && in.good(); ++i) job.times.push_back(in.time());
  return in.done() ? std::optional(std::move(job)) : std::nullopt;
}

std::string body_of(const Result<ClipFacts>& answer) {
  if (!answer) return error_body(answer.error());
  Writer out;
  out.number(kValue);
  out.time(answer->duration);
  out.flag(answer->duration_source == DurationSource::Packets);
  out.text(answer->container);
  out.flag(answer->picture.has_value());
  if (answer->picture) write(out, *answer->picture);
  const auto sounds = std::min(answer->sound.size(), kMostSounds);
  out.number(static_cast<std::uint32_t>(sounds));
  for (std::size_t i = 0; i < sounds; ++i) write(out, answer->sound[i]);
  out.maybe(answer->timecode);
  out.maybe(answer->recorded);
  const auto warnings = std::min(answer->warnings.size(), kMostWarnings);
  out.number(static_cast<std::uint32_t>(warnings));
  for (std::size_t i = 0; i < warnings; ++i) out.text(answer->warnings[i]);
  return std::move(out).take();
}

std::optional<Result<ClipFacts>> read_facts(std::string_view body, const std::filesystem::path& file) {
  Reader in(body);
  if (in.number(kValue, kError) == kError) {
    auto error = read_error(in, file);
    return finished<ClipFacts>(in, tl::unexpected(std::move(error)));
  }
  ClipFacts facts;
  facts.file = file;
  facts.duration = in.time(MediaTime{});
  facts.duration_source = in.flag() ? DurationSource::Packets : DurationSource::Header;
  facts.container = in.text();
  if (in.flag()) facts.picture = read_picture(in);
  const auto sounds = in.count(kMostSounds);
  for (std::size_t i = 0; i < sounds && in.good(); ++i) facts.sound.push_back(read_sound(in));
  facts.timecode = in.maybe();
  facts.recorded = in.maybe();
  const auto warnings = in.count(kMostWarnings);
  for (std::size_t i = 0; i < warnings && in.good(); ++i) facts.warnings.push_back(in.text());
  in.require(facts.picture || !facts.sound.empty() || facts.timecode);
  return finished<ClipFacts>(in, std::move(facts));
}

std::string body_of(const Result<Still>& answer) {
  if (!answer) return error_body(answer.error());
  Writer out;
  out.number(kValue);
  out.number(answer->width);
  out.number(answer->height);
  out.time(answer->time);
  out.bytes(answer->jpeg);
  return std::move(out).take();
}

std::optional<Result<Still>> read_still(std::string_view body, const std::filesystem::path& file,
                                        int longest_side) {
  Reader in(body);
  if (in.number(kValue, kError) == kError) {
    auto error = read_error(in, file);
    return finished<Still>(in, tl::unexpected(std::move(error)));
  }
  Still still;
  const int most = std::max(kSmallestStill, longest_side);
  still.width = in.number(1, most);
  still.height = in.number(1, most);
  still.time = in.time();
  still.jpeg = in.bytes(kLargestAnswer);
  in.require(still.jpeg.starts_with("\xFF\xD8\xFF") && still.jpeg.ends_with("\xFF\xD9"));
  return finished<Still>(in, std::move(still));
}

std::string body_of(const Result<Samples>& answer) {
  if (!answer) return error_body(answer.error());
  Writer out;
  out.number(kValue);
  out.bytes({reinterpret_cast<const char*>(answer->data()), answer->size() * sizeof(std::int16_t)});
  return std::move(out).take();
}

std::optional<Result<Samples>> read_samples(std::string_view body, const std::filesystem::path& file,
                                            std::size_t samples) {
  Reader in(body);
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
  Writer out;
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
