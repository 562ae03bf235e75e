#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include <ebur128.h>

#include "panslate/media/clip_log.h"

#include "media/hum_watch.h"
#include "media/sound_decoder.h"
#include "media/speech_stretches.h"

namespace panslate::av {

/// Loudness by the standard: ITU-R BS.1770-4, EBU R 128.
class LoudnessMeter {
 public:
  /// Empty for what cannot be measured.
  [[nodiscard]] static std::optional<LoudnessMeter> open(int channels, int rate);
  /// Samples of one length, a vector for each channel.
  void add(const std::vector<std::vector<float>>& channels);
  [[nodiscard]] Loudness measured() const;

 private:
  struct Free {
    void operator()(ebur128_state* state) const { ebur128_destroy(&state); }
  };
  using State = std::unique_ptr<ebur128_state, Free>;
  void find_peak(const std::vector<float>& mixed, float peak);

  State loudness_;
  State peak_;
  std::size_t channels_ = 0;
  double true_peak_ = 0;
  std::vector<float> mixed_;   // one sample of each channel behind the other
  std::vector<float> before_;  // the block before, where the peak meter has not seen it
  bool saw_before_ = true;
};

/// What is told of a clip's sound, frame by frame, and at its end.
class SoundLog {
 public:
  void add(const AVFrame& frame, std::optional<MediaTime> time);
  /// Fills in speech, loudness, levels and what is wrong with the sound.
  void finish(ClipLog& log);
  [[nodiscard]] MediaTime end() const;

 private:
  struct Stretch {
    std::int64_t begin = 0;  // in hundredths of a second
    std::int64_t end = 0;
  };
  // Whether a channel stands where recording cuts it off.
  struct Top {
    int flat = 0;  // samples
    float before = 0;
    std::vector<float> heights;  // of the half-wave at hand, where it is high
    bool is_cut_off(float value);
    [[nodiscard]] bool is_blunt() const;
  };
  [[nodiscard]] std::int64_t end_of_hundredth() const;
  void begin_piece(const AVFrame& frame, std::int64_t at);
  void measure(std::size_t samples);
  void measure_hundredth();
  static void mark(std::vector<Stretch>& stretches, std::int64_t at, std::int64_t bridged);

  std::optional<SoundForm> apart_;
  std::optional<SoundForm> voice_form_;
  std::optional<LoudnessMeter> meter_;
  int meter_channels_ = 0;
  int meter_rate_ = 0;
  VoiceWatch voice_;
  HumWatch hum_;
  std::vector<std::vector<float>> samples_;
  std::vector<std::int16_t> mono_;
  int rate_ = 0;
  std::int64_t next_ = 0;  // where the next sample belongs, at this rate, on the clip's clock
  // Of the hundredth of a second at hand.
  std::vector<double> power_;
  std::int64_t filled_ = 0;
  std::int64_t hundredth_end_ = 0;  // as next_
  std::vector<Top> at_the_top_;     // by channel
  std::string levels_;
  std::vector<Stretch> clipped_;
  // Of all channels together, and how often one alone was heard.
  std::vector<double> whole_power_;
  std::int64_t heard_ = 0;
  std::vector<std::int64_t> silent_beside_;  // by channel: hundredths in which it lay far below the loudest
};

}  // namespace panslate::av
