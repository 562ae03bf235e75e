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
  const ClipFault* worst = nullptr;
  for (const auto& fault : faults)
    if (fault.kind == FaultKind::Damaged &&
        (worst == nullptr || fault.when.duration() > worst->when.duration()))
      worst = &fault;
  return worst;
}

}  // namespace panslate
