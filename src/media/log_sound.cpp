#include "media/log_sound.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace panslate::av {

namespace {

// The filter of the peak meter (48 taps, BS.1770-4 annex 2) makes of samples up to 1 no more than the sum of
// what its taps weigh; measured on libebur128 1.2.6 with alternating full scale it is below this.
constexpr float kMostOvershoot = 3.0F;
constexpr std::int64_t kHundredth = MediaTime::kTicksPerSecond / 100;
// Further off than this is a gap or a jump back.
constexpr double kGap = 0.04;
// Cut off at the top for three samples in a row, or more, of one channel: common practice, no source. What
// was cut off is flat there.
constexpr float kTop = 0.985F;
constexpr float kFlat = 1e-4F;
constexpr int kClipped = 3;
// Lossy coding bends what was flat, but leaves it blunt: of the time that half a wave spends within 10 % of
// its height, a sine spends 54 % within 3 % of it (arccos 0.97 / arccos 0.9), however high coding lifts it.
// Measured on AAC of FFmpeg 5.1: 58 % at most of clean tones, 75 to 95 % of tones and speech that were cut.
constexpr float kHigh = 0.9F;
constexpr float kHighest = 0.97F;
constexpr std::int64_t kBlunt = 6;  // samples; fewer say nothing of a shape
constexpr std::size_t kLongestHalfWave = 1U << 14U;
constexpr double kFarBelow = 30;  // dB
constexpr double kNothingHeard = -65;
constexpr std::int64_t kShortestSilence = 200;
constexpr std::size_t kMostHundredths = static_cast<std::size_t>(kLongestLogged.ticks() / kHundredth);

}  // namespace

std::optional<LoudnessMeter> LoudnessMeter::open(int channels, int rate) {
  LoudnessMeter made;
  const auto count = static_cast<unsigned>(channels);
  made.loudness_.reset(
      ebur128_init(count, static_cast<unsigned long>(rate), EBUR128_MODE_I | EBUR128_MODE_LRA));
  made.peak_.reset(ebur128_init(count, static_cast<unsigned long>(rate), EBUR128_MODE_TRUE_PEAK));
  if (!made.loudness_ || !made.peak_) return std::nullopt;
  // Five channels without a sixth: both behind are surround (the library takes the fourth for low effects).
  if (count == 5)
    for (unsigned i = 3; i < 5; ++i)
      (void)ebur128_set_channel(made.loudness_.get(), i,
                                i == 3 ? EBUR128_LEFT_SURROUND : EBUR128_RIGHT_SURROUND);
  made.channels_ = count;
  return made;
}

void LoudnessMeter::add(const std::vector<std::vector<float>>& channels) {
  const std::size_t samples = channels.front().size();
  mixed_.resize(samples * channels_);
  float peak = 0;
  for (std::size_t c = 0; c < channels_; ++c)
    for (std::size_t i = 0; i < samples; ++i) {
      float value = channels[c][i];
      if (!(std::abs(value) < 1000)) value = 0;  // not a number, or damage
      mixed_[i * channels_ + c] = value;
      peak = std::max(peak, std::abs(value));
    }
  (void)ebur128_add_frames_float(loudness_.get(), mixed_.data(), samples);
  find_peak(mixed_, peak);
}

// Oversampling costs more than all else; what cannot hold the highest peak is left out.
void LoudnessMeter::find_peak(const std::vector<float>& mixed, float peak) {
  true_peak_ = std::max(true_peak_, static_cast<double>(peak));
  if (peak * kMostOvershoot <= true_peak_) {
    before_ = mixed;
    saw_before_ = false;
    return;
  }
  if (!saw_before_ && !before_.empty())
    (void)ebur128_add_frames_float(peak_.get(), before_.data(), before_.size() / channels_);
  saw_before_ = true;
  (void)ebur128_add_frames_float(peak_.get(), mixed.data(), mixed.size() / channels_);
  for (std::size_t c = 0; c < channels_; ++c) {
    double found = 0;
    if (ebur128_true_peak(peak_.get(), static_cast<unsigned>(c), &found) == EBUR128_SUCCESS)
      true_peak_ = std::max(true_peak_, found);
  }
}

Loudness LoudnessMeter::measured() const {
  Loudness out;
  double value = 0;
  if (ebur128_loudness_global(loudness_.get(), &value) == EBUR128_SUCCESS && std::isfinite(value))
    out.integrated = value;
  if (ebur128_loudness_range(loudness_.get(), &value) == EBUR128_SUCCESS && std::isfinite(value))
    out.range = value;
  out.true_peak = true_peak_ > 0 ? std::max(-200.0, 20 * std::log10(true_peak_)) : -200;
  return out;
}

void SoundLog::mark(std::vector<Stretch>& stretches, std::int64_t at, std::int64_t bridged) {
  if (!stretches.empty() && at <= stretches.back().end + bridged)
    stretches.back().end = std::max(stretches.back().end, at + 1);
  else
    stretches.push_back({at, at + 1});
}

void SoundLog::begin_piece(const AVFrame& frame, std::int64_t at) {
  apart_ = SoundForm::apart(frame);
  const int channels = frame.ch_layout.nb_channels;
  voice_form_ = SoundForm::sum(frame, std::vector<double>(static_cast<std::size_t>(channels), 1.0 / channels),
                               VoiceWatch::kRate);
  rate_ = frame.sample_rate;
  next_ = at;
  // The first form of a track is the one its loudness is measured in.
  if (!meter_) {
    meter_ = LoudnessMeter::open(channels, rate_);
    meter_channels_ = channels;
    meter_rate_ = rate_;
  }
  samples_.assign(static_cast<std::size_t>(channels), {});
  power_.assign(static_cast<std::size_t>(channels), 0);
  whole_power_.resize(std::max(whole_power_.size(), static_cast<std::size_t>(channels)));
  silent_beside_.resize(whole_power_.size());
  at_the_top_.assign(static_cast<std::size_t>(channels), {});
  filled_ = 0;
  const auto hundredth = static_cast<std::size_t>(
      std::clamp<std::int64_t>(at * 100 / rate_, 0, static_cast<std::int64_t>(kMostHundredths)));
  if (levels_.size() < hundredth) levels_.resize(hundredth);
  hundredth_end_ = end_of_hundredth();
  voice_.skip_to(hundredth);
}

void SoundLog::add(const AVFrame& frame, std::optional<MediaTime> time) {
  const double rate = frame.sample_rate;
  const double most = kLongestLogged.seconds() * rate;
  const auto at =
      time ? static_cast<std::int64_t>(std::llround(std::clamp(time->seconds() * rate, -most, most))) : next_;
  const bool same = apart_ && apart_->fits(frame) && rate_ == frame.sample_rate;
  if (!same || std::abs(static_cast<double>(at - next_)) > kGap * rate) {
    // Back in time: what is there already stays.
    const auto past = static_cast<std::int64_t>(levels_.size()) * frame.sample_rate / 100;
    if (same && at < next_) {
      if (at + frame.nb_samples <= past) return;
    }
    begin_piece(frame, levels_.empty() ? at : std::max(past, at));
  }
  if (!apart_ || levels_.size() >= kMostHundredths) return;
  for (auto& channel : samples_) channel.clear();
  apart_->convert(frame, samples_);
  const std::size_t count = samples_.front().size();
  // What sounds before the first picture is no part of the clip.
  const auto before =
      static_cast<std::size_t>(std::clamp<std::int64_t>(-next_, 0, static_cast<std::int64_t>(count)));
  next_ += static_cast<std::int64_t>(before);
  if (before == count) return;
  for (auto& channel : samples_)
    channel.erase(channel.begin(), channel.begin() + static_cast<std::ptrdiff_t>(before));
  if (meter_ && static_cast<int>(samples_.size()) == meter_channels_ && rate_ == meter_rate_)
    meter_->add(samples_);
  measure(count - before);
  mono_.clear();
  if (voice_form_) voice_form_->convert(&frame, mono_);
  const auto unvoiced = std::min(mono_.size(), before * VoiceWatch::kRate / static_cast<std::size_t>(rate_));
  mono_.erase(mono_.begin(), mono_.begin() + static_cast<std::ptrdiff_t>(unvoiced));
  voice_.add(mono_);
  hum_.add(mono_);
  next_ += static_cast<std::int64_t>(count - before);
}

// Where it ends on the clip's clock, in samples: hundredths of 22050 Hz are 220 or 221 of them.
std::int64_t SoundLog::end_of_hundredth() const {
  return ((static_cast<std::int64_t>(levels_.size()) + 1) * rate_ + 99) / 100;
}

bool SoundLog::Top::is_cut_off(float value) {
  const float height = std::abs(value);
  flat = height < kTop ? 0 : flat > 0 && std::abs(value - before) < kFlat ? flat + 1 : 1;
  bool blunt = false;
  if (std::signbit(value) != std::signbit(before) || heights.size() == kLongestHalfWave) {
    blunt = is_blunt();
    heights.clear();
  }
  if (height >= kHigh * kTop) heights.push_back(height);
  before = value;
  return flat >= kClipped || blunt;
}

bool SoundLog::Top::is_blunt() const {
  if (heights.empty()) return false;
  const float peak = *std::max_element(heights.begin(), heights.end());
  if (peak < kTop) return false;
  const auto within = [&](float share) {
    return std::count_if(heights.begin(), heights.end(), [&](float one) { return one >= share * peak; });
  };
  const auto highest = within(kHighest);
  return highest >= kBlunt && highest * 4 >= within(kHigh) * 3;
}

void SoundLog::measure(std::size_t samples) {
  auto at = next_;
  for (std::size_t i = 0; i < samples; ++i) {
    bool cut_off = false;
    for (std::size_t c = 0; c < samples_.size(); ++c) {
      const float value = samples_[c][i];
      power_[c] += static_cast<double>(value) * value;
      cut_off = at_the_top_[c].is_cut_off(value) || cut_off;
    }
    if (cut_off) mark(clipped_, static_cast<std::int64_t>(levels_.size()), 50);
    ++filled_;
    if (++at >= hundredth_end_) measure_hundredth();
  }
}

void SoundLog::measure_hundredth() {
  double all = 0;
  double loudest = 0;
  for (auto& power : power_) {
    power /= static_cast<double>(filled_);
    if (!std::isfinite(power)) power = 0;
    all += power / static_cast<double>(power_.size());
    loudest = std::max(loudest, power);
  }
  levels_ += static_cast<char>(level_byte(all));
  hundredth_end_ = end_of_hundredth();
  if (10 * std::log10(loudest + 1e-20) > -60) {
    ++heard_;
    for (std::size_t c = 0; c < power_.size(); ++c) {
      whole_power_[c] += power_[c];
      if (power_[c] < loudest * std::pow(10, -kFarBelow / 10)) ++silent_beside_[c];
    }
  }
  std::fill(power_.begin(), power_.end(), 0.0);
  filled_ = 0;
}

MediaTime SoundLog::end() const {
  return rate_ == 0 ? MediaTime{} : MediaTime::from_units(next_, 1, rate_).value_or(MediaTime{});
}

void SoundLog::finish(ClipLog& log) {
  if (rate_ == 0) return;
  if (meter_) log.loudness = meter_->measured();
  log.speech = speech_stretches(voice_.track());
  const auto range = [](std::int64_t begin, std::int64_t past) {
    return TimeRange{MediaTime::from_ms(begin * 10), MediaTime::from_ms(past * 10)};
  };
  for (const auto& one : clipped_)
    log.faults.push_back({FaultKind::ClippedSound, range(one.begin, one.end), "it was recorded too loud"});
  const auto size = static_cast<std::int64_t>(levels_.size());
  bool anything = false;
  for (std::int64_t i = 0; i < size; ++i) {
    const auto quiet = [&](std::int64_t at) {
      return level_decibels(static_cast<std::uint8_t>(levels_[static_cast<std::size_t>(at)])) < kNothingHeard;
    };
    if (!quiet(i)) {
      anything = true;
      continue;
    }
    std::int64_t past = i;
    while (past < size && quiet(past)) ++past;
    if (past - i >= kShortestSilence || (i == 0 && past == size))
      log.faults.push_back({FaultKind::Silent, range(i, past), "nothing is heard"});
    i = past - 1;
  }
  // Where one side stays far below the other nearly always, its microphone or cable is dead.
  if (anything && whole_power_.size() == 2 && heard_ > 50)
    for (std::size_t c = 0; c < 2; ++c)
      if (silent_beside_[c] > heard_ * 9 / 10)
        log.faults.push_back({FaultKind::OneChannel, range(0, size),
                              c == 0 ? "only the right side has sound" : "only the left side has sound"});
  if (const int mains = hum_.found(); mains != 0)
    log.faults.push_back(
        {FaultKind::Hum, range(0, size),
         "the mains hum at " + std::to_string(mains) + " Hz: something electric is near the microphone"});
  log.levels = std::move(levels_);
}

}  // namespace panslate::av
