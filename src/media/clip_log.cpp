#include "panslate/media/clip_log.h"

#include <algorithm>
#include <array>

namespace panslate {

std::string_view spelling_of(ShotStart start) {
  static constexpr std::array<std::string_view, 3> kNames{"cut", "dissolve", "fade"};
  return kNames.at(static_cast<std::size_t>(start));
}

std::string_view spelling_of(FaultKind kind) {
  static constexpr std::array<std::string_view, kFaultKinds> kNames{
      "black",  "frozen",      "blurred", "shaky",   "dark",        "bright",        "clipped-sound",
      "silent", "one-channel", "hum",     "damaged", "short-sound", "dropped-frames"};
  return kNames.at(static_cast<std::size_t>(kind));
}

const ClipFault* ClipLog::damage() const {
  const auto found = std::find_if(faults.begin(), faults.end(),
                                  [](const ClipFault& fault) { return fault.kind == FaultKind::Damaged; });
  return found == faults.end() ? nullptr : &*found;
}

}  // namespace panslate
