#pragma once

#include "panslate/desk/accept_parts.h"

#include "desk/decision_book.h"

namespace panslate {

/// Proposals as edits of the project file as it stands now, and what becomes of each.
struct AcceptEdits {
  DecisionBook::Edits edits;
  AcceptedParts accepted;
};

/// Exists where the file, a clip's words or a clip itself were changed since `seen`.
[[nodiscard]] Result<AcceptEdits> accept_edits(const PartProposals& proposals, const ProposedFrom& seen,
                                               const DeskFilm& film, const ProjectText& text);

}  // namespace panslate
