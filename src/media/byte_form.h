#pragma once

#include <array>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"
#include "panslate/base/text.h"
#include "panslate/media/clip_facts.h"
#include "panslate/media/still.h"

/// How what was measured is put into bytes and read back, each field checked.
namespace panslate::worker {

inline constexpr std::size_t kLongestText = 4096;
inline constexpr std::int32_t kAnyPositive = std::numeric_limits<std::int32_t>::max();
/// No time is further from zero: sums and differences of such times cannot overflow.
inline constexpr MediaTime kLongestTime = MediaTime::from_seconds(std::int64_t{10} * 366 * 86'400);
/// The largest answer: a still of the largest picture that is decoded, hardly compressible.
inline constexpr std::size_t kLargestAnswer = std::size_t{128} * 1024 * 1024;
/// How an answer begins: what was asked for, why there is none, or how far it is.
inline constexpr std::uint8_t kValue = 1;
inline constexpr std::uint8_t kError = 2;
inline constexpr std::uint8_t kSoFar = 3;

/// Puts numbers and texts one behind the other, as they lie in memory.
class ByteWriter {
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

/// Reads what ByteWriter wrote. The first thing that does not fit makes everything after it fail too.
class ByteReader {
 public:
  explicit ByteReader(std::string_view in) : in_(in) {}

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

void write(ByteWriter& out, const Error& error);
void write(ByteWriter& out, const ClipFacts& facts);
void write(ByteWriter& out, const Still& still);
enum class Work { Reads, Writes };

/// What can go wrong with a clip; a worker that only reads has nothing to say about saving or the command
/// line.
[[nodiscard]] Error read_error(ByteReader& in, const std::filesystem::path& file, Work work = Work::Reads);
[[nodiscard]] ClipFacts read_clip_facts(ByteReader& in, const std::filesystem::path& file);
[[nodiscard]] Still read_still_picture(ByteReader& in, int longest_side);

template <class Value>
std::optional<Result<Value>> finished(const ByteReader& in, Result<Value> answer) {
  return in.done() ? std::optional(std::move(answer)) : std::nullopt;
}

}  // namespace panslate::worker
