#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "panslate/base/text.h"
#include "panslate/deliver/footage_log_files.h"

#include "deliver/clip_names.h"
#include "deliver/page_marks.h"

namespace panslate {

namespace {

std::string opening_words(FootageWarning::Kind kind) {
  switch (kind) {
    case FootageWarning::Kind::MixedRates:
      return "The clips have different frame rates";
    case FootageWarning::Kind::MixedShapes:
      return "The pictures have different shapes";
    default:
      return "Brightness is recorded in different ways";
  }
}

std::string value_words(FootageWarning::Kind kind, const PictureFacts& picture) {
  switch (kind) {
    case FootageWarning::Kind::MixedRates:
      return picture.variable_rate ? "a varying rate" : rate_words(picture);
    case FootageWarning::Kind::MixedShapes:
      return picture.shown_width > picture.shown_height   ? "a wide picture"
             : picture.shown_width < picture.shown_height ? "an upright picture"
                                                          : "a square picture";
    default:
      return picture.hdr ? "high dynamic range" : "standard range";
  }
}

}  // namespace

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

std::vector<ClipFault> worst_first(const ClipLog& log) {
  // What is lost; then what cannot be mended in the edit; then the rest.
  static constexpr std::array kOrder{FaultKind::Damaged, FaultKind::ShortSound,   FaultKind::DroppedFrames,
                                     FaultKind::Silent,  FaultKind::ClippedSound, FaultKind::Black,
                                     FaultKind::Frozen,  FaultKind::OneChannel,   FaultKind::Blurred,
                                     FaultKind::Shaky,   FaultKind::Hum,          FaultKind::Dark,
                                     FaultKind::Bright};
  static_assert(kOrder.size() == kFaultKinds);
  const auto place = [](const ClipFault& fault) {
    return std::find(kOrder.begin(), kOrder.end(), fault.kind) - kOrder.begin();
  };
  auto out = log.faults;
  std::stable_sort(out.begin(), out.end(),
                   [&](const ClipFault& a, const ClipFault& b) { return place(a) < place(b); });
  return out;
}

std::string more_words(std::size_t left_out) {
  return "and " + std::to_string(left_out) + " more, see log.csv";
}

std::string duplicate_words(const FootageLog& log, const Duplicate& duplicate) {
  const auto names = names_of_clips(log, duplicate.clips);
  if (duplicate.kind == Duplicate::Kind::SameFile) {
    const std::vector<std::string> firsts(names.begin(), names.end() - 1);
    return join(firsts, ", ") + " and " + names.back() + " are the same clip";
  }
  const bool second_is_later = duplicate.offset >= MediaTime{};
  const auto off = second_is_later ? duplicate.offset : -duplicate.offset;
  return fmt::format("{} and {} hold the same moment: {} begins {:.2f} s later", names[0], names[1],
                     names[second_is_later ? 1 : 0], off.seconds());
}

std::string warning_words(const FootageLog& log, const FootageWarning& warning) {
  const auto facts = [&](std::size_t clip) -> const ClipFacts& { return log.clips[clip].log->facts; };
  if (warning.kind == FootageWarning::Kind::Odd) {
    const auto clip = warning.groups.front().front();
    return names_of_clips(log, {clip}).front() + ": " + join(facts(clip).warnings, "; ");
  }
  std::size_t all = 0;
  for (const auto& group : warning.groups) all += group.size();
  std::string out;
  for (const auto& group : warning.groups) {
    const auto value = value_words(warning.kind, *facts(group.front()).picture);
    out += out.empty() ? opening_words(warning.kind) + ": " : "; ";
    out += group.size() * 2 > all ? "most have " + value
                                  : value + " in " + list_words(names_of_clips(log, group));
  }
  return out;
}

std::string kind_words(const ClipFacts& facts) {
  const auto& picture = facts.picture;
  if (!picture) return facts.sound.empty() ? "timecode only" : "sound only";
  return fmt::format("{} × {}{}, {}", picture->shown_width, picture->shown_height,
                     picture->hdr ? ", HDR" : "", rate_words(*picture));
}

std::vector<std::string> sound_words(const ClipLog& log, LoudnessWords loudness) {
  const auto tracks = log.facts.sound.size();
  if (tracks == 0) return {"no sound"};
  MediaTime speech;
  for (const auto& when : log.speech) speech += when.duration();
  std::vector<std::string> out{speech > MediaTime{} ? "speech " + spoken(speech) : "no speech"};
  if (log.loudness && log.loudness->integrated)
    out.push_back(loudness == LoudnessWords::Short
                      ? fmt::format("{:.0f} LUFS", *log.loudness->integrated)
                      : fmt::format("loudness {:.1f} LUFS, range {:.1f} LU, peak {:.1f} dBTP",
                                    *log.loudness->integrated, log.loudness->range, log.loudness->true_peak));
  if (tracks > 1) out.push_back(fmt::format("track {} of {}", log.sound_track + 1, tracks));
  return out;
}

std::string rate_words(const PictureFacts& picture) {
  const double rate = picture.frame_rate.per_second();
  if (picture.variable_rate) return fmt::format("about {:.1f} a second, varying", rate);
  return std::abs(rate - std::round(rate)) < 0.001 ? fmt::format("{:.0f} a second", rate)
                                                   : fmt::format("{:.2f} a second", rate);
}

}  // namespace panslate
