#include <algorithm>
#include <chrono>
#include <limits>
#include <string>
#include <utility>

#include "panslate/base/timestamp.h"
#include "panslate/media/clip_log.h"

#include "media/clip_reader.h"
#include "media/log_picture.h"
#include "media/log_sound.h"
#include "media/picture_decoder.h"
#include "media/sound_choice.h"
#include "media/sound_decoder.h"
#include "media/sound_header.h"
#include "media/survey.h"

namespace panslate {

namespace {

using Clock = std::chrono::steady_clock;

constexpr std::chrono::seconds kPatience{30};
constexpr std::chrono::milliseconds kBetweenReports{200};
constexpr int kMostRefusals = 10'000;
constexpr std::size_t kMostTracks = 64;  // that are tried
constexpr MediaTime kBridgedDamage = MediaTime::from_seconds(1);
// A header that counts samples is no further off than that.
constexpr MediaTime kCountedOff = MediaTime::from_ms(20);
// Shorter than this, sound that ends early is how encoders write it.
constexpr MediaTime kShortSound = MediaTime::from_ms(250);

std::string spoken(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Spoken);
}

// One pass over a clip: packets in, what the pictures and the sound tell out.
class Logging {
 public:
  Logging(av::ClipReader& reader, ClipLog& log, const LogSetup& setup, const LogWatcher& watcher)
      : reader_(reader), log_(log), setup_(setup), watcher_(watcher), picture_log_(reader) {}

  // `track`: of the sound, which is listened to where it can be decoded; else the first that can.
  Status open(std::size_t track) {
    std::optional<Error> no_picture;
    std::optional<Error> no_sound;
    if (reader_.picture() != nullptr) {
      auto opened = av::open_picture_codec(reader_, setup_.threads, av::Doubtful::LeftOut);
      if (opened) {
        picture_ = *std::move(opened);
      } else {
        no_picture = opened.error();
        reader_.picture()->discard = AVDISCARD_ALL;
      }
    }
    const auto& sounds = reader_.sounds();
    for (AVStream* stream : sounds) stream->discard = AVDISCARD_ALL;
    for (std::size_t i = 0; i < std::min(sounds.size(), kMostTracks) && !sound_; ++i) {
      // The chosen one first, then the others in their order.
      const auto tried = i == 0 ? track : i <= track ? i - 1 : i;
      auto opened = av::SoundDecoder::open(reader_, *sounds[tried]);
      if (opened) {
        sound_ = *std::move(opened);
        sounds[tried]->discard = AVDISCARD_DEFAULT;
        sound_index_ = sounds[tried]->index;
        log_.sound_track = tried;
      } else if (!no_sound) {
        no_sound = opened.error();
      }
    }
    if (!picture_ && !sound_ && no_picture) return tl::unexpected(*no_picture);
    if (!picture_ && !sound_ && no_sound) return tl::unexpected(*no_sound);
    // A coding that is not known here is no damage.
    if (no_picture) log_.facts.warnings.push_back(no_picture->message);
    if (no_sound && !sound_) log_.facts.warnings.push_back(no_sound->message);
    return {};
  }

  Status run() {
    const av::Packet packet = av::make_packet();
    reader_.be_patient(kPatience);
    for (;;) {
      const auto read = reader_.read(*packet);
      if (!read) {
        took_too_long_ = true;
        break;
      }
      if (*read == av::ClipReader::Read::End) break;
      if (packet->pos > 0) so_far_.bytes = packet->pos;
      if (picture_ && packet->stream_index == reader_.picture()->index) take_picture(packet.get());
      if (sound_ && packet->stream_index == sound_index_) take_sound(packet.get());
      if (setup_.until > MediaTime{} && reached_ >= setup_.until) break;
      if (reached_ >= kLongestLogged) break;
      if (!report()) return fail(ErrorCode::Cancelled, "stopped while reading the footage");
    }
    if (picture_) take_picture(nullptr);
    if (sound_) take_sound(nullptr);
    finish();
    return {};
  }

 private:
  bool report() {
    const auto now = Clock::now();
    if (now - reported_ < kBetweenReports) return true;
    reported_ = now;
    reader_.be_patient(kPatience);
    so_far_.time = reached_;
    return !watcher_ || watcher_(so_far_);
  }

  void damage(MediaTime begin, MediaTime end, std::string what) {
    begin = std::max(MediaTime{}, begin);
    end = std::max(begin, end);
    if (!damaged_.empty() && begin <= damaged_.back().when.end + kBridgedDamage &&
        damaged_.back().detail == what) {
      damaged_.back().when.end = std::max(damaged_.back().when.end, end);
      return;
    }
    constexpr std::size_t kMost = 1000;
    if (damaged_.size() < kMost) damaged_.push_back({FaultKind::Damaged, {begin, end}, std::move(what)});
  }

  void damaged_picture() {
    damage(last_picture_, last_picture_ + frame_length(), "the picture is damaged here");
  }

  [[nodiscard]] MediaTime frame_length() const {
    const auto rate = log_.facts.picture ? log_.facts.picture->frame_rate : FrameRate{};
    return MediaTime::from_frames(1, rate);
  }

  void take_picture(const AVPacket* packet) {
    if (refused_ > kMostRefusals) return;
    if (packet != nullptr && (packet->flags & AV_PKT_FLAG_CORRUPT) != 0) damaged_picture();
    int sent = avcodec_send_packet(picture_.get(), packet);
    if (sent < 0 && sent != AVERROR_EOF) {
      ++refused_;
      damaged_picture();
    }
    for (;;) {
      av::Frame frame = av::make_frame();
      const int got = avcodec_receive_frame(picture_.get(), frame.get());
      if (got == AVERROR(EAGAIN) || got == AVERROR_EOF) return;
      if (got < 0) {
        if (++refused_ > kMostRefusals) return;
        damaged_picture();
        continue;
      }
      take_frame(*frame);
    }
  }

  void take_frame(const AVFrame& frame) {
    constexpr std::int64_t kMostFrames = 5'000'000;
    const auto shown = av::to_time(frame.best_effort_timestamp, reader_.picture()->time_base);
    auto time = shown ? *shown - reader_.clock_start() : last_picture_ + frame_length();
    if (log_.frames > 0 && time <= last_picture_) time = last_picture_ + MediaTime::from_ticks(1);
    ++log_.frames;
    if (log_.frames > kMostFrames || time > kLongestLogged) return;
    last_picture_ = time;
    const auto length = av::to_time(frame.pkt_duration, reader_.picture()->time_base);
    picture_end_ =
        time +
        (length && *length > MediaTime{} && *length < MediaTime::from_seconds(10) ? *length : frame_length());
    reached_ = std::max(reached_, time);
    if (frame.decode_error_flags != 0 || (frame.flags & AV_FRAME_FLAG_CORRUPT) != 0) damaged_picture();
    picture_log_.add(frame, time);
  }

  void take_sound(const AVPacket* packet) {
    sound_->send(packet);
    std::optional<MediaTime> time;
    while (const av::Frame frame = sound_->receive(time)) {
      sound_log_.add(*frame, time);
      if (!picture_) reached_ = std::max(reached_, sound_log_.end());
    }
  }

  void finish() {
    tell_where_it_broke_off();
    for (auto& fault : damaged_) log_.faults.push_back(std::move(fault));
    picture_log_.finish(log_, picture_end_);
    sound_log_.finish(log_);
    const bool whole = !took_too_long_ && setup_.until == MediaTime{};
    if (sound_ && picture_ && log_.frames > 0 && whole && log_.damage() == nullptr) {
      const auto sound_end = sound_log_.end();
      if (picture_end_ - sound_end > kShortSound)
        log_.faults.push_back({FaultKind::ShortSound,
                               {std::max(MediaTime{}, sound_end), picture_end_},
                               "the sound ends before the picture"});
    }
    std::stable_sort(log_.faults.begin(), log_.faults.end(),
                     [](const ClipFault& a, const ClipFault& b) { return a.when.begin < b.when.begin; });
  }

  void tell_where_it_broke_off() {
    const auto end = std::max(picture_end_, sound_log_.end());
    if (setup_.until > MediaTime{} && reached_ >= setup_.until)
      return damage(end, std::max(end, log_.facts.duration),
                    "reading breaks off at " + spoken(end) + "; what follows cannot be read");
    if (took_too_long_)
      return damage(end, std::max(end, log_.facts.duration),
                    "reading takes too long from " + spoken(end) + " on");
    if (reached_ >= kLongestLogged)
      return damage(end, std::max(end, log_.facts.duration), "the clip is longer than can be logged");
    if (picture_ && log_.frames == 0) damage({}, log_.facts.duration, "no picture in it can be decoded");
    // What is missing at the end comes first: a frame that breaks off with it is the least of it.
    const auto counted = av::length_in_header(reader_).value_or(MediaTime{});
    const auto should = std::max(should_last(), counted);
    if (counted > end + kCountedOff || (end < should && !av::agree(should, end)))
      return damage(end, should,
                    "the clip breaks off at " + spoken(end) + ", but should last until " + spoken(should));
    if (av::ends_within_page(reader_))
      return damage(end, end,
                    "the sound breaks off at " + spoken(end) + "; how much is missing is not known");
    tell_lost_frames();
  }

  // What the header says of all that is decoded, where it is not absurd.
  [[nodiscard]] MediaTime should_last() const {
    const auto& facts = log_.facts;
    const bool everything = (reader_.picture() == nullptr || picture_) &&
                            reader_.sounds().size() == static_cast<std::size_t>(sound_ ? 1 : 0);
    MediaTime found;
    MediaTime claimed;
    const auto count = [&](const AVStream& stream, MediaTime end) {
      found = std::max(found, end);
      claimed = std::max(claimed, av::to_time(stream.duration, stream.time_base).value_or(end));
    };
    if (everything) {
      found = facts.duration;
      claimed = av::claimed_duration(reader_).value_or(found);
    } else {
      if (picture_ && facts.picture) count(*reader_.picture(), facts.picture->duration);
      if (sound_ && log_.sound_track < facts.sound.size())
        count(*reader_.sounds()[log_.sound_track], facts.sound[log_.sound_track].end);
    }
    constexpr std::int64_t kFewestBytesPerSecond = 16;
    const bool plausible =
        reader_.file_size() / (1 + claimed.to_ms(Round::Up) / 1000) >= kFewestBytesPerSecond;
    return plausible ? std::max(claimed, found) : found;
  }

  void tell_lost_frames() {
    const auto& picture = log_.facts.picture;
    if (!picture_ || log_.frames == 0 || !picture || log_.frames >= picture->frames.value_or(0)) return;
    if (picture->duration - picture_end_ > frame_length() + frame_length())
      return damage(picture_end_, picture->duration,
                    "the picture ends at " + spoken(picture_end_) + ", but should last until " +
                        spoken(picture->duration));
    // Where damage was seen, they were lost there.
    const auto lost = *picture->frames - log_.frames;
    TimeRange when{{}, picture->duration};
    if (!damaged_.empty()) when = {damaged_.front().when.begin, damaged_.back().when.end};
    damage(when.begin, when.end,
           std::to_string(lost) + (lost == 1 ? " frame" : " frames") + " cannot be decoded");
  }

  av::ClipReader& reader_;
  ClipLog& log_;
  const LogSetup& setup_;
  const LogWatcher& watcher_;
  av::CodecContext picture_;
  std::optional<av::SoundDecoder> sound_;
  int sound_index_ = -1;
  av::PictureLog picture_log_;
  av::SoundLog sound_log_;
  std::vector<ClipFault> damaged_;
  MediaTime last_picture_;
  MediaTime picture_end_;
  MediaTime reached_;
  bool took_too_long_ = false;
  int refused_ = 0;
  LogSoFar so_far_;
  Clock::time_point reported_ = Clock::now();
};

// The same that is listened to for words.
std::size_t track_to_hear(const std::filesystem::path& file, std::size_t tracks, const LogSetup& setup) {
  // Where reading broke off the last time, it is not looked into here and there.
  if (tracks < 2 || setup.until > MediaTime{}) return 0;
  auto reader = av::ClipReader::open(file, kPatience);
  if (!reader) return 0;
  const auto choice = av::choose_sound(*reader);
  return choice && choice->track < tracks ? choice->track : 0;
}

}  // namespace

Result<ClipLog> log_clip(const std::filesystem::path& file, const LogSetup& setup,
                         const LogWatcher& watcher) {
  ClipLog log;
  PANSLATE_TRY(log.facts, probe_clip(file));
  PANSLATE_TRY(auto reader, av::ClipReader::open(file, kPatience));
  if (reader.picture() == nullptr && reader.sounds().empty()) return log;  // timecode alone
  Logging logging(reader, log, setup, watcher);
  PANSLATE_CHECK(logging.open(track_to_hear(file, reader.sounds().size(), setup)));
  PANSLATE_CHECK(logging.run());
  return log;
}

}  // namespace panslate
