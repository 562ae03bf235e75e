#pragma once

#include "project/entry.h"

namespace panslate {

/// Holds the file against the form that ships with panslate (data/project.schema.json) and adds every value
/// that does not fit it: its name, its place, what was expected, what was found.
void check_form(const JsonText& text, ProblemList& problems);

/// Names that the form does not have, but that are a slip of the fingers away from one that is not used
/// beside them ("stpe"): to be decided, since unknown names are allowed.
[[nodiscard]] std::vector<Error> near_names(const JsonText& text, const std::filesystem::path& file);

}  // namespace panslate
