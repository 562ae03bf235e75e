#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/project/project_text.h"

namespace panslate {

/// One decision that can be taken back.
struct MadeDecision {
  std::string what;                ///< in words
  std::vector<ProjectEdit> edits;  ///< as they were made
};

/// What was decided at the desk, and what of it was taken back; the last one last.
struct UndoRecord {
  std::vector<MadeDecision> done;
  std::vector<MadeDecision> undone;
};

/// For the store: a desk that is opened again can take back what the last one did.
[[nodiscard]] std::string undo_record_text(const UndoRecord& record);
/// Empty where it is none: a broken disk, another version. Only lists that the desk changes are taken from
/// it.
[[nodiscard]] std::optional<UndoRecord> undo_record_from(std::string_view text);

}  // namespace panslate
