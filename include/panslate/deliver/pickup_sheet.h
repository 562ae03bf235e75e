#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "panslate/check/pickup.h"
#include "panslate/check/report.h"
#include "panslate/deliver/output_folder.h"

/// The pick-ups as they are done: all lines in one recording, then the shots set-up by set-up.
namespace panslate {

struct LineToRecord {
  std::string words;
  std::string instead_of;  ///< may be empty
  std::string place;       ///< "1:36", "0:41 in voice"; may be empty
  std::optional<MediaTime> at;
  std::string media;
  std::optional<MediaTime> room;  ///< of a pause that several lines share: what the ones before leave
  std::optional<MediaTime> takes;
  std::vector<std::size_t> requirements;  ///< indices into CheckReport::requirements
};

struct ShotToFilm {
  std::string setup;               ///< "A": one place of camera and light, as in the shot list; may be empty
  std::string framing;             ///< "insert", "overhead", …
  std::string subject;             ///< "coconut oil, 40 g"
  std::vector<std::string> shows;  ///< what must be visible, where the subject does not say it
  std::string place;               ///< where in the film it belongs; may be empty
  std::vector<std::size_t> requirements;
};

/// Something to listen to, or a text on the picture to put right.
struct MomentToMend {
  std::string what;
  std::string text;  ///< as it should read; empty for what is to be listened to
  std::string place;
  std::optional<MediaTime> at;
  std::string media;
  std::size_t requirement = 0;
};

struct PickupSheet {
  std::vector<MomentToMend> listen;
  std::vector<LineToRecord> lines;  ///< in the order of the film; one where a sentence mends several lines
  std::vector<ShotToFilm> shots;    ///< by set-up
  std::vector<MomentToMend> texts;

  [[nodiscard]] bool empty() const {
    return listen.empty() && lines.empty() && shots.empty() && texts.empty();
  }
};

/// From pick-ups in the order that pickups_of gives.
[[nodiscard]] PickupSheet pickup_sheet(const std::vector<Pickup>& pickups, const CheckReport& report,
                                       const Recipe& recipe);

/// "about 3.1 s to say, 2.8 s there: hold the picture a little longer"; empty where nothing is known.
[[nodiscard]] std::string fit_in_words(const std::optional<MediaTime>& room,
                                       const std::optional<MediaTime>& takes);

/// pickups.csv: RFC 4180, CRLF line ends, a heading first, one row a line, shot or moment; no field is read
/// as a formula. The heading of its last, empty column tells a table as panslate left it from one that
/// somebody worked in: only the former is renewed unasked.
[[nodiscard]] OutputFile pickups_csv(const PickupSheet& sheet, const CheckReport& report);

}  // namespace panslate
