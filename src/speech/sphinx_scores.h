#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include <sphinxbase/fe.h>
#include <sphinxbase/feat.h>
#include <sphinxbase/logmath.h>

#include "speech/sphinx_handles.h"
#include "speech/sphinx_model.h"

/// How well each senone of the model fits each frame of a sound. PocketSphinx reckons that anew for every
/// graph a sound is followed through, one number at a time, and that was 85 % of all listening. Here it is
/// done once, many numbers at a time; what comes out are the library's own scores
/// (tests/speech/sphinx_scores_test.cpp).
namespace panslate {

class SphinxScorer {
 public:
  SphinxScorer(MixtureModel model, logmath_t* logarithms);

  [[nodiscard]] std::size_t senones() const { return model_.senones.size(); }
  [[nodiscard]] bool takes(feat_t* features) const;

  /// Negative logarithms in steps of 1024, 0 for the best senone. `streams`: the features of one frame.
  void score(const mfcc_t* const* streams, std::span<std::int16_t> scores);

 private:
  static constexpr std::size_t kTop = 4;    // densities that count, the library's -topn
  static constexpr std::size_t kSteps = 7;  // of the table of sums of logarithms

  struct Near {
    std::size_t density = 0;
    std::int32_t score = 0;
  };
  using Nearest = std::array<Near, kTop>;

  void find_nearest(std::size_t stream, std::size_t codebook, const mfcc_t* values, Nearest& nearest);
  void add_up(std::size_t codebook);

  MixtureModel model_;
  std::array<std::int16_t, kSteps>
      steps_{};                     // the sum of two logarithms is one step more up to this distance
  std::vector<Nearest> nearest_;    // by stream and codebook
  std::vector<float> fits_;         // by density
  std::vector<std::int16_t> sums_;  // in the order of the model's senones
};

/// The features of a sound and their scores; scores of a sound of up to half a minute are kept (1 MB a
/// second).
class SoundScores {
 public:
  /// Null where the sound has no features.
  [[nodiscard]] static std::unique_ptr<SoundScores> of(std::span<const std::int16_t> samples, fe_t* front_end,
                                                       feat_t* features);

  [[nodiscard]] std::size_t frames() const { return frames_; }
  [[nodiscard]] bool is_of(std::span<const std::int16_t> samples) const;
  /// Of one frame; ask for frames in order. Valid until the next call.
  [[nodiscard]] std::span<const std::int16_t> at(std::size_t frame, SphinxScorer& scorer);

 private:
  SoundScores() = default;

  std::vector<std::int16_t> samples_;
  SphinxFeatures features_;
  std::size_t frames_ = 0;
  std::size_t scored_ = 0;
  std::vector<std::int16_t> scores_;
};

}  // namespace panslate
