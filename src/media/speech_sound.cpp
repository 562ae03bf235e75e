#include "panslate/media/speech_sound.h"

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <optional>
#include <utility>

#include "media/clip_reader.h"
#include "media/sound_choice.h"
#include "media/sound_decoder.h"

namespace panslate {

namespace {

// To choose by, and then for each stretch.
constexpr std::chrono::seconds kPatience{30};
// Time stamps are rounded to their time base, and clocks drift: only what is further off is a gap (or a jump
// back), and anything nearer stays in one piece.
constexpr std::int64_t kGap = kSpeechRate / 50;
// A decoder needs some sound before that which it is asked for.
constexpr MediaTime kRunUp = MediaTime::from_seconds(1);

// Sound at its place: samples by their number on the clip's clock.
class Line {
 public:
  explicit Line(std::int64_t start) : start_(start) {}

  void write(std::int64_t at, const Samples& samples) {
    // Nothing is written twice, and nothing kept that lies beyond the longest sound.
    for (std::size_t i = at < start_ ? static_cast<std::size_t>(start_ - at) : 0; i < samples.size();) {
      const auto place = static_cast<std::size_t>(at + static_cast<std::int64_t>(i) - start_);
      const auto most = static_cast<std::size_t>(2 * sample_at(kLongestStretch));
      if (place >= most) return;
      const auto count = std::min(samples.size() - i, most - place);
      if (samples_.size() < place + count) samples_.resize(place + count);
      std::copy_n(samples.begin() + static_cast<std::ptrdiff_t>(i), count,
                  samples_.begin() + static_cast<std::ptrdiff_t>(place));
      i += count;
    }
  }

  // The samples from `from` on, which are then forgotten, as all before them.
  Samples take(std::int64_t from, std::size_t count) {
    drop_before(from);
    Samples taken(count);
    const auto there = std::min(count, samples_.size());
    std::copy_n(samples_.begin(), there, taken.begin());
    drop_before(from + static_cast<std::int64_t>(count));
    return taken;
  }

 private:
  void drop_before(std::int64_t place) {
    if (place <= start_) return;
    const auto count = std::min(samples_.size(), static_cast<std::size_t>(place - start_));
    samples_.erase(samples_.begin(), samples_.begin() + static_cast<std::ptrdiff_t>(count));
    start_ = place;
  }

  std::int64_t start_;
  Samples samples_;
};

// Reads one track from a place on, onto the line.
class TrackReader {
 public:
  TrackReader(av::ClipReader& reader, av::SoundDecoder decoder, av::SoundChoice choice, std::int64_t start)
      : reader_(&reader),
        decoder_(std::move(decoder)),
        choice_(std::move(choice)),
        line_(start),
        packet_(av::make_packet()) {}

  // Decodes until all before `end` is on the line.
  Status read_until(std::int64_t end) {
    while (!ended_ && reached_ < end) {
      PANSLATE_TRY(const auto read, reader_->read(*packet_));
      ended_ = read == av::ClipReader::Read::End;
      if (!ended_ && packet_->stream_index != track().index) continue;
      decoder_.send(ended_ ? nullptr : packet_.get());
      std::optional<MediaTime> time;
      while (const av::Frame frame = decoder_.receive(time)) put(*frame, time);
    }
    if (ended_) finish();
    return {};
  }

  [[nodiscard]] Line& line() { return line_; }

 private:
  [[nodiscard]] const AVStream& track() const { return *reader_->sounds()[choice_.track]; }

  void put(const AVFrame& frame, std::optional<MediaTime> time) {
    const auto most = sample_at(kLongestSound);
    const std::int64_t at = time ? std::clamp(sample_at(*time), -most, 2 * most) : expected();
    if (!form_ || !form_->fits(frame) || std::abs(at - expected()) > kGap) {
      finish();
      form_ = av::SoundForm::sum(frame, choice_.weights, kSpeechRate);
      piece_ = at;
      written_ = at;
      read_ = 0;
      rate_ = frame.sample_rate;
    }
    read_ += frame.nb_samples;
    reached_ = expected();
    if (form_) write(&frame);
  }

  // Where the next frame begins if it follows the last.
  [[nodiscard]] std::int64_t expected() const {
    return rate_ == 0 ? 0 : piece_ + read_ * kSpeechRate / rate_;
  }

  void write(const AVFrame* frame) {
    Samples samples;
    form_->convert(frame, samples);
    line_.write(written_, samples);
    written_ += static_cast<std::int64_t>(samples.size());
  }

  void finish() {
    if (form_) write(nullptr);
    form_.reset();
  }

  av::ClipReader* reader_;
  av::SoundDecoder decoder_;
  av::SoundChoice choice_;
  Line line_;
  av::Packet packet_;
  std::optional<av::SoundForm> form_;
  std::int64_t piece_ = 0;    // where what is in one piece began
  std::int64_t read_ = 0;     // samples of it, at the track's rate
  std::int64_t written_ = 0;  // where the next sample of it belongs
  std::int64_t reached_ = std::numeric_limits<std::int64_t>::min();
  int rate_ = 0;
  bool ended_ = false;
};

}  // namespace

Status take_sound(const std::filesystem::path& file, std::span<const MediaTime> times, MediaTime length,
                  const SoundTaken& taken) {
  PANSLATE_TRY(auto reader, av::ClipReader::open(file, kPatience));
  PANSLATE_TRY(auto choice, av::choose_sound(reader));
  for (std::size_t i = 0; i < reader.sounds().size(); ++i)
    if (i != choice.track) reader.sounds()[i]->discard = AVDISCARD_ALL;
  AVStream& track = *reader.sounds()[choice.track];
  PANSLATE_TRY(auto decoder, av::SoundDecoder::open(reader, track));
  if (times.empty()) return {};

  reader.be_patient(kPatience);
  const MediaTime first = reader.clock_start() + times.front() - kRunUp;
  if (times.front() <= kRunUp || !reader.seek(track, av::to_stamp(first, track.time_base, AV_ROUND_DOWN)))
    reader.rewind();
  length = std::clamp(length, time_of_sample(1), kLongestStretch);
  TrackReader sound(reader, std::move(decoder), std::move(choice), sample_at(times.front()));
  for (std::size_t i = 0; i < times.size(); ++i) {
    reader.be_patient(kPatience);
    const auto begin = sample_at(times[i]);
    const auto count = sample_at(length);
    const auto read = sound.read_until(begin + count);
    const bool goes_on = read ? taken(i, sound.line().take(begin, static_cast<std::size_t>(count)))
                              : taken(i, tl::unexpected(read.error()));
    if (!goes_on) break;
  }
  return {};
}

}  // namespace panslate
