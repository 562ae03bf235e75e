#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "panslate/check/check.h"
#include "panslate/check/pickup.h"
#include "panslate/check/report.h"
#include "panslate/deliver/report_change.h"
#include "panslate/media/still.h"

namespace panslate {

/// A part of a clip as the page shows it.
struct SegmentPicture {
  std::string id;
  std::string clip;  ///< id of the clip
  TimeRange range;   ///< on the clip's clock
  std::optional<MediaTime> edit_begin;
  std::vector<std::size_t> steps;  ///< indices into Recipe::steps
  std::optional<Still> still;      ///< empty where the clip gave no picture
};

/// A clip near the page.
struct PlayableClip {
  std::string id;    ///< of the media whose clock it runs on; empty without a project
  std::string path;  ///< relative to the folder of the page (UTF-8, / between folders)
};

struct ReportPageInput {
  const CheckReport* report = nullptr;
  const Recipe* recipe = nullptr;
  const std::vector<Pickup>* pickups = nullptr;
  std::vector<SegmentPicture> segments = {};
  std::map<std::size_t, Still> moments = {};  ///< the picture at the moment of a requirement, by its index
  std::vector<TimedText> said = {};        ///< the captions of the check, for the words around what was found
  std::string looked_in = {};              ///< one sentence: "Checked on the edit."; may be empty
  std::vector<ReportChange> changes = {};  ///< since the last check
  std::vector<ReportChange> decide_again = {};    ///< decisions that no longer fit, old and new
  std::vector<PlayableClip> playable = {};        ///< clips that moments play from; the film itself first
  std::optional<std::string> playable_edit = {};  ///< id of the edit, where it is one of them
};

/// The check report as one HTML page that needs nothing but itself (and the film, to play it): stills are
/// within it, as many as keep the page below 3 MB; it may be printed. Whatever a field holds stays text; very
/// long ones are shortened. Cost grows linearly with lines, mentions and parts of clips. Carries kPageMark.
[[nodiscard]] std::string report_page(const ReportPageInput& input);

}  // namespace panslate
