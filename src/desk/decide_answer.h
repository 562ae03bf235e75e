#pragma once

#include "desk/decision_book.h"
#include "desk/requests.h"

/// What a request of the page changes in the project file, as the file stands at that moment.
namespace panslate {

/// The one answer about this line and channel: put there, put in the place of the one that stands there, or
/// taken away. Exists where the line, what was found or the answer is not what she saw.
[[nodiscard]] Result<DecisionBook::Edits> edits_of(const AnswerRequest& request, const DeskFilm& film,
                                                   const ProjectText& text);
/// Exists where somebody else decided about the measures since.
[[nodiscard]] Result<DecisionBook::Edits> edits_of(const MeasuresRequest& request, const DeskFilm& film,
                                                   const ProjectText& text);
[[nodiscard]] Result<DecisionBook::Edits> edits_of(const ForgetRequest& request, const DeskFilm& film,
                                                   const ProjectText& text);

}  // namespace panslate
