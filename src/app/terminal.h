#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace panslate::app {

/// How a stretch of terminal text stands out. Colour only underlines what the words say already.
enum class Look : std::uint8_t { Plain, Heading, Wrong, Doubtful, Good, Quiet };

/// What is known of the terminal that text goes to.
struct Terminal {
  std::size_t width = 80;  ///< columns
  bool colour = false;

  /// `text` between the escape sequences for `look`; unchanged without colour.
  [[nodiscard]] std::string styled(std::string_view text, Look look) const;
};

/// The terminal of a file descriptor: its width (80 where it tells none), colour only on a terminal and only
/// where neither NO_COLOR is set nor TERM is "dumb".
[[nodiscard]] Terminal terminal_of(int descriptor);

[[nodiscard]] bool is_terminal(int descriptor);

}  // namespace panslate::app
