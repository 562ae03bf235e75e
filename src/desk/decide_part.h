#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/decision_book.h"

/// Parts of clips as she marks them: in, out, the step, the framing, what is seen.
namespace panslate {

struct PartRequest {
  std::string id;                  ///< empty: a new part
  std::string was;                 ///< its stamp on her page; empty for a new one
  bool gone = false;               ///< take it away
  std::string clip;                ///< of a new part
  MediaTime in, out;               ///< on the clip's clock, out behind in
  std::vector<std::string> steps;  ///< keys
  std::vector<std::string> shows;  ///< keys of ingredients
  Framing framing = Framing::Unknown;
  std::string note;
};

/// Usage where it is none.
[[nodiscard]] Result<PartRequest> part_request(std::string_view body);

/// Another where anything about the part is otherwise.
[[nodiscard]] std::string stamp_of(const Segment& segment);

/// Exists where the part is not as she saw it. What the request does not speak of (names that panslate does
/// not know, a time written as timecode that did not change) stays as it is written.
[[nodiscard]] Result<DecisionBook::Edits> edits_of(const PartRequest& request, const DeskFilm& film,
                                                   const ProjectText& text);

}  // namespace panslate
