#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <ostream>
#include <string_view>

#include "panslate/base/progress.h"

namespace panslate::app {

/// Draws how far the work is on one line of a terminal, and learns of Ctrl-C. The line is taken away by
/// clear(), which the end of the work and every message call.
class ProgressLine final : public Progress {
 public:
  enum class Draw : std::uint8_t { Yes, No };

  ProgressLine(std::ostream& out, std::size_t width, Draw draw) : out_(out), width_(width), draw_(draw) {}
  ~ProgressLine() override { clear(); }
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  void step(std::string_view phase, std::int64_t done, std::int64_t total) override;
  [[nodiscard]] bool cancelled() const noexcept override;
  void clear();
  /// From now on nothing is drawn (--quiet).
  void silence();

 private:
  std::ostream& out_;
  std::size_t width_;
  Draw draw_;
  bool drawn_ = false;
  std::chrono::steady_clock::time_point last_{};
};

}  // namespace panslate::app
