#include "media/sound_header.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <fstream>
#include <limits>
#include <string>
#include <string_view>

namespace panslate::av {

namespace {

constexpr int kMostChunks = 1000;
constexpr std::uint64_t kLeftOpen = 0xFFFFFFFF;
// An Ogg page has at most 65,307 bytes (RFC 3533, section 6).
constexpr std::int64_t kOggTail = std::int64_t{2} * 65'307;
constexpr std::size_t kOggHead = 27;

std::string bytes_at(std::ifstream& in, std::int64_t place, std::int64_t count) {
  std::string bytes(static_cast<std::size_t>(count), '\0');
  in.clear();
  in.seekg(place);
  in.read(bytes.data(), count);
  bytes.resize(static_cast<std::size_t>(std::max<std::streamsize>(0, in.gcount())));
  return bytes;
}

// Little endian; 0 where it is not all there.
std::uint64_t number_in(std::string_view bytes, std::size_t at, std::size_t count) {
  if (at + count > bytes.size()) return 0;
  std::uint64_t out = 0;
  for (std::size_t i = 0; i < count; ++i)
    out |= std::uint64_t{static_cast<unsigned char>(bytes[at + i])} << (8 * i);
  return out;
}

// Bytes of sound that a WAV file says it has.
std::optional<std::uint64_t> bytes_claimed(const ClipReader& reader) {
  std::ifstream in(reader.file(), std::ios::binary);
  const auto head = bytes_at(in, 0, 12);
  const bool is_long = head.starts_with("RF64");
  if ((!is_long && !head.starts_with("RIFF")) || !head.ends_with("WAVE")) return std::nullopt;
  std::uint64_t long_size = 0;
  std::int64_t place = 12;
  for (int i = 0; i < kMostChunks && place < reader.file_size(); ++i) {
    const auto chunk = bytes_at(in, place, 8 + 16);
    if (chunk.size() < 8) return std::nullopt;
    const auto size = number_in(chunk, 4, 4);
    if (chunk.starts_with("data")) {
      const auto claimed = is_long && size == kLeftOpen ? long_size : size;
      return claimed == 0 || claimed == kLeftOpen ? std::nullopt : std::optional(claimed);
    }
    if (chunk.starts_with("ds64")) long_size = number_in(chunk, 16, 8);
    place += 8 + static_cast<std::int64_t>(size + size % 2);
  }
  return std::nullopt;
}

std::optional<MediaTime> in_samples(std::uint64_t samples, int rate) {
  if (rate <= 0 || samples == 0 || samples > std::numeric_limits<std::int64_t>::max() / 2)
    return std::nullopt;
  return to_time(static_cast<std::int64_t>(samples), AVRational{1, rate});
}

}  // namespace

std::optional<MediaTime> length_in_header(const ClipReader& reader) {
  if (reader.picture() != nullptr || reader.sounds().size() != 1) return std::nullopt;
  const std::string_view kind = reader.format().iformat->name;
  const AVStream& sound = *reader.sounds().front();
  const AVCodecParameters& coding = *sound.codecpar;
  // Of other codings a size in bytes does not tell the time.
  if (av_get_bits_per_sample(coding.codec_id) == 0 || coding.block_align <= 0) return std::nullopt;
  if (kind == "caf")
    return sound.nb_frames > 0 ? in_samples(static_cast<std::uint64_t>(sound.nb_frames), coding.sample_rate)
                               : std::nullopt;
  if (kind != "wav") return std::nullopt;
  const auto bytes = bytes_claimed(reader);
  if (!bytes) return std::nullopt;
  return in_samples(*bytes / static_cast<std::uint64_t>(coding.block_align), coding.sample_rate);
}

bool ends_within_page(const ClipReader& reader) {
  if (std::string_view(reader.format().iformat->name) != "ogg") return false;
  std::ifstream in(reader.file(), std::ios::binary);
  const auto begin = std::max<std::int64_t>(0, reader.file_size() - kOggTail);
  const auto tail = bytes_at(in, begin, reader.file_size() - begin);
  // Page after page from one that is surely one: another one follows where it ends.
  const auto end_of_page = [&](std::size_t at) -> std::optional<std::size_t> {
    if (tail.compare(at, 5, std::string_view("OggS\0", 5)) != 0) return std::nullopt;
    if (at + kOggHead > tail.size()) return tail.size() + 1;
    const std::size_t segments = static_cast<unsigned char>(tail[at + kOggHead - 1]);
    auto end = at + kOggHead + segments;
    for (std::size_t i = 0; i < segments; ++i)
      end += at + kOggHead + i < tail.size() ? static_cast<unsigned char>(tail[at + kOggHead + i]) : 1;
    return end;
  };
  for (auto at = tail.find("OggS"); at != std::string::npos; at = tail.find("OggS", at + 1)) {
    auto end = end_of_page(at);
    while (end && *end < tail.size()) end = end_of_page(*end);
    if (end) return *end > tail.size();
  }
  return false;
}

}  // namespace panslate::av
