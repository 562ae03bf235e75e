#include "media/byte_form.h"

#include <algorithm>
#include <array>
#include <span>

namespace panslate::worker {

namespace {

constexpr std::size_t kMostSounds = 1024;
constexpr std::size_t kMostWarnings = 64;
constexpr int kLargestSide = 1 << 24;

void write(ByteWriter& out, const PictureFacts& facts) {
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

PictureFacts read_picture(ByteReader& in) {
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

void write(ByteWriter& out, const SoundFacts& facts) {
  out.number(facts.channels);
  out.number(facts.sample_rate);
  out.text(facts.layout);
  out.text(facts.codec);
  out.time(facts.begin);
  out.time(facts.end);
}

SoundFacts read_sound(ByteReader& in) {
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

}  // namespace

void write(ByteWriter& out, const Error& error) {
  out.number(static_cast<std::int32_t>(error.code));
  out.text(error.message);
  out.flag(error.place.has_value());
  out.text(error.hint);
}

Error read_error(ByteReader& in, const std::filesystem::path& file, Work work) {
  // What only reads cannot fail in writing; the first four may happen to either.
  static constexpr std::array kAll{ErrorCode::NotFound, ErrorCode::Unreadable, ErrorCode::NotMedia,
                                   ErrorCode::Internal, ErrorCode::Malformed,  ErrorCode::WriteFailed,
                                   ErrorCode::Cancelled};
  constexpr std::size_t kOfReading = 4;
  const std::span<const ErrorCode> kPossible(kAll.data(), work == Work::Writes ? kAll.size() : kOfReading);
  const auto code = in.number<std::int32_t>(0, kAnyPositive);
  const auto found = std::find_if(kPossible.begin(), kPossible.end(), [code](ErrorCode possible) {
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

void write(ByteWriter& out, const ClipFacts& facts) {
  out.time(facts.duration);
  out.flag(facts.duration_source == DurationSource::Packets);
  out.text(facts.container);
  out.flag(facts.picture.has_value());
  if (facts.picture) write(out, *facts.picture);
  const auto sounds = std::min(facts.sound.size(), kMostSounds);
  out.number(static_cast<std::uint32_t>(sounds));
  for (std::size_t i = 0; i < sounds; ++i) write(out, facts.sound[i]);
  out.maybe(facts.timecode);
  out.maybe(facts.recorded);
  const auto warnings = std::min(facts.warnings.size(), kMostWarnings);
  out.number(static_cast<std::uint32_t>(warnings));
  for (std::size_t i = 0; i < warnings; ++i) out.text(facts.warnings[i]);
}

ClipFacts read_clip_facts(ByteReader& in, const std::filesystem::path& file) {
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
  return facts;
}

void write(ByteWriter& out, const Still& still) {
  out.number(still.width);
  out.number(still.height);
  out.time(still.time);
  out.bytes(still.jpeg);
}

Still read_still_picture(ByteReader& in, int longest_side) {
  Still still;
  const int most = std::max(kSmallestStill, longest_side);
  still.width = in.number(1, most);
  still.height = in.number(1, most);
  still.time = in.time();
  still.jpeg = in.bytes(kLargestAnswer);
  in.require(still.jpeg.starts_with("\xFF\xD8\xFF") && still.jpeg.ends_with("\xFF\xD9"));
  return still;
}

}  // namespace panslate::worker
