#include "app/progress_line.h"

#include <algorithm>
#include <string>

#include "panslate/deliver/escape.h"
#include "panslate/deliver/plain_text.h"

#include "app/interrupt.h"
#include "app/terminal.h"

namespace panslate::app {

namespace {

constexpr auto kBetweenDrawings = std::chrono::milliseconds(80);
constexpr std::int64_t kBarWidth = 20;

std::string bar(std::int64_t done, std::int64_t total) {
  if (total <= 0) return {};
  const auto filled = std::clamp<std::int64_t>(done * kBarWidth / total, 0, kBarWidth);
  std::string out = " [";
  for (std::int64_t i = 0; i < kBarWidth; ++i) out += i < filled ? '=' : ' ';
  return out + "] " + std::to_string(done) + " of " + std::to_string(total);
}

}  // namespace

void ProgressLine::step(std::string_view phase, std::int64_t done, std::int64_t total) {
  if (draw_ == Draw::No) return;
  const auto now = std::chrono::steady_clock::now();
  if (drawn_ && now - last_ < kBetweenDrawings) return;
  last_ = now;
  drawn_ = true;
  out_ << "\r\x1b[K" << shortened(escape_terminal(phase) + bar(done, total), width_ > 1 ? width_ - 1 : 1)
       << std::flush;
}

bool ProgressLine::cancelled() const noexcept {
  return was_interrupted();
}

void ProgressLine::clear() {
  if (!drawn_) return;
  out_ << "\r\x1b[K" << std::flush;
  drawn_ = false;
}

void ProgressLine::silence() {
  clear();
  draw_ = Draw::No;
}

}  // namespace panslate::app
