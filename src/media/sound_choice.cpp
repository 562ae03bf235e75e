#include "media/sound_choice.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <utility>

#include "media/sound_decoder.h"

namespace panslate::av {

namespace {

constexpr int kPlaces = 12;
constexpr MediaTime kStretch = MediaTime::from_seconds(5);
constexpr std::size_t kMostTracks = 16;
constexpr double kWindowSeconds = 0.05;  // a syllable lasts two or three of them

// Common practice, no source: a channel so far below another holds only what spilled into it.
constexpr double kSpill = 20;
constexpr double kDead = -70;       // dB below full scale: the noise of an open input is louder
constexpr double kQuietest = -100;  // dB, for digital silence
// Where a second channel is the first one turned over, their sum is silent.
constexpr double kOpposite = -0.5;
// What the track that the file names as its own must be behind by before another is taken.
constexpr double kAdvantage = 6;

double decibels(double mean_square) {
  return std::max(kQuietest, 10 * std::log10(std::max(1e-12, mean_square)));
}

struct Channel {
  std::vector<double> levels;  // dB, of each window
  double energy = 0;
  double with_first = 0;  // its product with the channel that stands first

  [[nodiscard]] double level(double share) const {
    if (levels.empty()) return kQuietest;
    auto sorted = levels;
    const auto at =
        sorted.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(sorted.size() - 1));
    std::nth_element(sorted.begin(), at, sorted.end());
    return *at;
  }
  [[nodiscard]] double loud() const { return level(0.95); }
};

struct Track {
  std::optional<SoundDecoder> decoder;
  std::optional<SoundForm> form;
  std::vector<std::vector<float>> waiting;  // not yet a whole window
  int rate = 0;
  std::vector<Channel> channels;
  std::optional<MediaTime> heard_until;  // of the stretch at hand
};

void measure(Track& track) {
  const auto window = static_cast<std::size_t>(std::max(1.0, track.rate * kWindowSeconds));
  auto& waiting = track.waiting;
  if (waiting.empty()) return;
  std::size_t at = 0;
  for (; at + window <= waiting.front().size(); at += window)
    for (std::size_t c = 0; c < waiting.size(); ++c) {
      double square = 0;
      double product = 0;
      for (std::size_t i = at; i < at + window; ++i) {
        const double sample = waiting[c][i];
        square += sample * sample;
        product += sample * waiting.front()[i];
      }
      if (!std::isfinite(square) || !std::isfinite(product)) continue;
      Channel& channel = track.channels[c];
      channel.levels.push_back(decibels(square / static_cast<double>(window)));
      channel.energy += square;
      channel.with_first += product;
    }
  for (auto& samples : waiting)
    samples.erase(samples.begin(), samples.begin() + static_cast<std::ptrdiff_t>(at));
}

void hear(Track& track) {
  std::optional<MediaTime> time;
  while (const Frame frame = track.decoder->receive(time)) {
    if (track.form && !track.form->fits(*frame)) continue;  // what it began with decides
    if (!track.form) {
      track.form = SoundForm::apart(*frame);
      if (!track.form) continue;
      track.rate = frame->sample_rate;
      track.channels.resize(static_cast<std::size_t>(frame->ch_layout.nb_channels));
    }
    track.form->convert(*frame, track.waiting);
    measure(track);
    if (time) track.heard_until = *time;
  }
}

// Listens from where the reader stands.
void listen(ClipReader& reader, std::vector<Track>& tracks, Packet& packet) {
  std::vector<std::optional<MediaTime>> begin(tracks.size());
  for (auto& track : tracks) {
    if (track.decoder) track.decoder->flush();
    track.heard_until.reset();
    for (auto& samples : track.waiting) samples.clear();
  }
  // Bounded for streams without times: that many packets are more than five seconds of any sound.
  for (int packets = 0; packets < 2000 * static_cast<int>(tracks.size()); ++packets) {
    const auto read = reader.read(*packet);
    if (!read || *read == ClipReader::Read::End) break;
    bool enough = true;
    for (std::size_t i = 0; i < tracks.size(); ++i) {
      Track& track = tracks[i];
      if (!track.decoder) continue;
      if (packet->stream_index == reader.sounds()[i]->index) {
        track.decoder->send(packet.get());
        hear(track);
        if (!begin[i]) begin[i] = track.heard_until;
      }
      enough = enough && begin[i] && *track.heard_until - *begin[i] >= kStretch;
    }
    if (enough) break;
  }
}

double worth(const Track& track) {
  double best = kQuietest;
  // Speech is loud and quiet by turns; music and the hood over the stove are less so.
  for (const Channel& channel : track.channels)
    if (channel.loud() > kDead) best = std::max(best, channel.loud() - channel.level(0.1));
  return best;
}

std::vector<double> weights_of(const Track& track) {
  std::vector<double> loud;
  for (const Channel& channel : track.channels) loud.push_back(channel.loud());
  if (loud.empty()) return {};
  const auto loudest = static_cast<std::size_t>(std::max_element(loud.begin(), loud.end()) - loud.begin());
  std::vector<double> weights(loud.size(), 0);
  const auto lives = [&](std::size_t c) { return loud[c] > kDead && loud[c] > loud[loudest] - kSpill; };
  const Channel& first = track.channels.front();
  bool opposite = false;
  double living = 0;
  for (std::size_t c = 0; c < loud.size(); ++c) {
    if (!lives(c)) continue;
    weights[c] = 1;
    living += 1;
    const double both = std::sqrt(first.energy * track.channels[c].energy);
    opposite = opposite || (lives(0) && both > 0 && track.channels[c].with_first / both < kOpposite);
  }
  if (living == 0 || opposite) {
    weights.assign(loud.size(), 0);
    weights[loudest] = 1;
    living = 1;
  }
  for (double& weight : weights) weight /= living;
  return weights;
}

}  // namespace

Result<SoundChoice> choose_sound(ClipReader& reader) {
  const auto& sounds = reader.sounds();
  if (sounds.empty()) return fail(ErrorCode::NotMedia, "there is no sound in it", Place{reader.file()});
  if (reader.picture() != nullptr) reader.picture()->discard = AVDISCARD_ALL;
  std::vector<Track> tracks(std::min(sounds.size(), kMostTracks));
  std::optional<Error> why;
  bool any = false;
  for (std::size_t i = 0; i < tracks.size(); ++i) {
    auto decoder = SoundDecoder::open(reader, *sounds[i]);
    if (decoder)
      tracks[i].decoder = *std::move(decoder);
    else if (!why)
      why = decoder.error();
    any = any || tracks[i].decoder;
  }
  if (!any) return tl::unexpected(*why);

  Packet packet = make_packet();
  const AVStream& first = *sounds.front();
  const auto duration = to_time(reader.format().duration, AVRational{1, AV_TIME_BASE}).value_or(MediaTime{});
  for (int place = 0; place < kPlaces; ++place) {
    const MediaTime from = duration / kPlaces * place;
    if (place > 0) {
      if (duration < kStretch * 2) break;
      if (!reader.seek(first, to_stamp(from, first.time_base, AV_ROUND_DOWN))) break;
    }
    listen(reader, tracks, packet);
    if (reader.late()) break;
  }

  SoundChoice choice;
  double best = kQuietest - 2 * kAdvantage;
  for (std::size_t i = 0; i < tracks.size(); ++i) {
    if (!tracks[i].decoder) continue;
    const bool own = i == 0 || (sounds[i]->disposition & AV_DISPOSITION_DEFAULT) != 0;
    const double value = worth(tracks[i]) + (own ? kAdvantage : 0);
    if (value <= best) continue;
    best = value;
    choice.track = i;
  }
  choice.weights = weights_of(tracks[choice.track]);
  return choice;
}

}  // namespace panslate::av
