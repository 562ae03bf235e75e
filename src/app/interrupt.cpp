#include "app/interrupt.h"

#include <atomic>
#include <csignal>

namespace panslate::app {

namespace {

std::atomic<bool> interrupted{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may only touch lock-free atomics");

void on_interrupt(int /*signal*/) {
  interrupted.store(true, std::memory_order_relaxed);
}

}  // namespace

void watch_for_interrupt() {
  struct sigaction action {};
  action.sa_handler = on_interrupt;
  // RESETHAND: whoever presses Ctrl-C twice does not want to wait for a safe point.
  action.sa_flags = static_cast<int>(SA_RESETHAND | SA_RESTART);
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, nullptr);
  struct sigaction ignore {};
  ignore.sa_handler = SIG_IGN;
  sigemptyset(&ignore.sa_mask);
  sigaction(SIGPIPE, &ignore, nullptr);
}

bool was_interrupted() noexcept {
  return interrupted.load(std::memory_order_relaxed);
}

}  // namespace panslate::app
