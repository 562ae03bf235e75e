#pragma once

#include <cstddef>
#include <optional>

#include "check/step_alignment.h"

namespace panslate {

/// Where in the recipe a stretch of a talk stands. Speech finds it in its own words; text on the picture is
/// too short for that and stands where the speech at its moment does, on the same clip's clock.
class Whereabouts {
 public:
  explicit Whereabouts(const SpokenText& text, const StepAlignment& own) : text_(text), own_(own) {}
  void follow(const SpokenText& speech, const StepAlignment& steps) {
    speech_ = &speech;
    speech_steps_ = &steps;
  }

  [[nodiscard]] std::optional<std::size_t> step_at(std::size_t token) const {
    const auto other = token_of_speech(token);
    return other ? speech_steps_->step_at(*other) : own_.step_at(token);
  }
  [[nodiscard]] bool is_grounded(std::size_t token) const {
    const auto other = token_of_speech(token);
    return other ? speech_steps_->is_grounded(speech_->utterance_of(*other))
                 : own_.is_grounded(text_.utterance_of(token));
  }
  [[nodiscard]] double support(std::size_t token, std::size_t step) const {
    const auto other = token_of_speech(token);
    return other ? speech_steps_->support(speech_->utterance_of(*other), step)
                 : own_.support(text_.utterance_of(token), step);
  }
  [[nodiscard]] const StepAlignment& own() const { return own_; }

 private:
  [[nodiscard]] std::optional<std::size_t> token_of_speech(std::size_t token) const {
    if (speech_ == nullptr || speech_->size() == 0) return std::nullopt;
    return speech_->token_at(text_.when({token, token + 1}).begin, text_.media_of(token));
  }

  const SpokenText& text_;
  const StepAlignment& own_;
  const SpokenText* speech_ = nullptr;
  const StepAlignment* speech_steps_ = nullptr;
};

}  // namespace panslate
