#pragma once

namespace panslate::app {

/// From now on the first Ctrl-C only raises a flag, so that work can stop at a safe point; a second one ends
/// the program at once. A reader that closes its pipe early no longer ends it.
void watch_for_interrupt();

/// True once the user pressed Ctrl-C.
[[nodiscard]] bool was_interrupted() noexcept;

}  // namespace panslate::app
