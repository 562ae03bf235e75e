#include <array>
#include <cmath>

#include <fmt/format.h>

#include "panslate/base/text.h"
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
  std::vector<std::string> names;
  for (const auto clip : duplicate.clips) names.push_back(log.clips[clip].file.filename().string());
  if (duplicate.kind == Duplicate::Kind::SameFile) {
    const auto last = std::move(names.back());
    names.pop_back();
    return join(names, ", ") + " and " + last + " are the same clip";
  }
  const bool second_is_later = duplicate.offset >= MediaTime{};
  const auto off = second_is_later ? duplicate.offset : -duplicate.offset;
  return fmt::format("{} and {} hold the same moment: {} begins {:.2f} s later", names[0], names[1],
                     names[second_is_later ? 1 : 0], off.seconds());
}

std::string rate_words(const PictureFacts& picture) {
  const double rate = picture.frame_rate.per_second();
  if (picture.variable_rate) return fmt::format("about {:.1f} a second, varying", rate);
  return std::abs(rate - std::round(rate)) < 0.001 ? fmt::format("{:.0f} a second", rate)
                                                   : fmt::format("{:.2f} a second", rate);
}

}  // namespace panslate
