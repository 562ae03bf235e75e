#include "panslate/media/render.h"

namespace panslate {

namespace {

// One level of quoting: a backslash before each of `special`, and before spaces at either end, which are cut
// off otherwise.
std::string escaped(std::string_view text, std::string_view special) {
  std::string out;
  const auto first = text.find_first_not_of(" \n\t\r");
  const auto last = text.find_last_not_of(" \n\t\r");
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool outer_space = first == std::string_view::npos || i < first || i > last;
    if (outer_space || special.find(text[i]) != std::string_view::npos) out += '\\';
    out += text[i];
  }
  return out;
}

}  // namespace

std::string graph_value(std::string_view text) {
  // FFmpeg takes a graph apart first, then each filter's options ("Notes on filtergraph escaping" in its
  // manual).
  return escaped(escaped(text, "\\':"), "\\'[],;");
}

}  // namespace panslate
