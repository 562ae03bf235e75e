#pragma once

#include <string>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/check/report.h"
#include "panslate/project/project.h"

namespace panslate {

/// One on-screen text: an ingredient with its amount, a temperature or a time, at the moment it is spoken.
struct OverlayText {
  TimeRange when;                 ///< on a 10 ms grid, so that SubRip, WebVTT and ASS say the same
  std::string text;               ///< "chickpeas · 2 × 400 g cans"; LF between lines
  std::size_t requirement = 0;    ///< index into CheckReport::requirements, of the first line
  std::vector<std::size_t> also;  ///< of the further lines, where texts of one moment stand together
  bool coarse = false;            ///< the moment is not known better than half a second
};

struct OverlayTrack {
  std::string clock;               ///< id of the media it belongs to; empty without a project
  std::vector<OverlayText> texts;  ///< in order, never two at once
  std::vector<std::string> notes;  ///< for the cook: what could not be placed, which moments are coarse
};

/// The on-screen text for what the check found, amounts as written: at the spoken moment, at its segment
/// where nothing is said; long enough to read (at least 2 s, or 1 s plus 0.33 s a word: BBC Subtitle
/// Guidelines 4.1 and 4.3.3), moved or shortened so that no two meet.
[[nodiscard]] OverlayTrack plan_overlay(const CheckReport& report, const Recipe& recipe,
                                        const Project* project);

[[nodiscard]] std::string write_subrip(const OverlayTrack& track);
[[nodiscard]] std::string write_webvtt(const OverlayTrack& track);
/// Pixels of the picture as a viewer sees it.
struct PictureSize {
  int width = 1920;
  int height = 1080;
};

/// Styled, inside the title-safe area of a picture of this shape.
[[nodiscard]] std::string write_ass(const OverlayTrack& track, int width, int height);

}  // namespace panslate
