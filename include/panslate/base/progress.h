#pragma once

#include <cstdint>
#include <string_view>

namespace panslate {

/// How long work tells how far it is, and learns that the user wants it to stop. The library never prints:
/// the program draws a line, a page gets events, tests record calls.
class Progress {
 public:
  virtual ~Progress() = default;
  /// `done` of `total` (0: unknown) of the work named `phase` in the user's words.
  virtual void step(std::string_view phase, std::int64_t done, std::int64_t total) = 0;
  /// True as soon as the user asked to stop; the work returns ErrorCode::Cancelled and leaves everything as
  /// it was.
  [[nodiscard]] virtual bool cancelled() const noexcept = 0;
};

/// For callers that do not care.
class NoProgress final : public Progress {
 public:
  void step(std::string_view phase, std::int64_t done, std::int64_t total) override;
  [[nodiscard]] bool cancelled() const noexcept override { return false; }
};

}  // namespace panslate
