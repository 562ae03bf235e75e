#include <array>
#include <cmath>

#include <fmt/format.h>

#include "panslate/base/timestamp.h"
#include "panslate/deliver/footage_log_files.h"

namespace panslate {

std::string_view fault_words(FaultKind kind) {
  static constexpr std::array<std::string_view, kFaultKinds> kWords{"black",
                                                                    "frozen",
                                                                    "blurred",
                                                                    "shaky",
                                                                    "too dark",
                                                                    "too bright",
                                                                    "sound too loud",
                                                                    "silent",
                                                                    "sound on one side only",
                                                                    "hum",
                                                                    "damaged",
                                                                    "sound too short",
                                                                    "frames missing"};
  return kWords.at(static_cast<std::size_t>(kind));
}

std::string duplicate_words(const FootageLog& log, const Duplicate& duplicate) {
  const auto first = log.clips[duplicate.first].file.filename().string();
  const auto second = log.clips[duplicate.second].file.filename().string();
  if (duplicate.kind == Duplicate::Kind::SameFile) return first + " and " + second + " are the same clip";
  const auto late = duplicate.offset;
  const auto off = late < MediaTime{} ? -late : late;
  const auto& later = late < MediaTime{} ? first : second;
  return fmt::format("{} and {} hold the same moment: {} begins {:.2f} s later", first, second, later,
                     off.seconds());
}

std::string rate_words(const PictureFacts& picture) {
  const double rate = picture.frame_rate.per_second();
  if (picture.variable_rate) return fmt::format("about {:.1f} a second, varying", rate);
  return std::abs(rate - std::round(rate)) < 0.001 ? fmt::format("{:.0f} a second", rate)
                                                   : fmt::format("{:.2f} a second", rate);
}

}  // namespace panslate
