#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/desk/desk.h"

/// What she is asked, and in which order: first what is most likely wrong and would do most harm.
namespace panslate {

/// A moment of a clip.
struct DeskMoment {
  std::string media;  ///< id of the clip
  TimeRange when;     ///< on its clock
};

struct Doubt {
  std::size_t requirement = 0;  ///< index into CheckReport::requirements
  Answer::About about = Answer::About::Said;
  std::string question;
  int weight = 0;  ///< likelihood × harm; only for order
  std::optional<DeskMoment> moment;
};

/// The open doubts, the weightiest first, those of one weight in the order of the recipe. What she answered
/// is none of them, as long as the answer holds.
[[nodiscard]] std::vector<Doubt> doubts_of(const DeskFilm& film);

/// Where in the footage a line is to be looked at: where it is said, else the text on the picture, else where
/// it should be said or is filmed; empty where nothing tells.
[[nodiscard]] std::optional<DeskMoment> moment_of(const DeskFilm& film, std::size_t requirement,
                                                  Answer::About about);

/// "KEY/said": the doubt's name, as long as the line reads the same.
[[nodiscard]] std::string doubt_id(const Requirement& line, Answer::About about);

}  // namespace panslate
