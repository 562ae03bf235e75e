#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "panslate/media/clip_facts.h"
#include "panslate/project/project.h"

/// What a file of the footage folder is taken for when a project is started: proposals by its name, which the
/// user sees in the project file and changes there.
namespace panslate {

/// By its extension alone: what it is worth trying to open it as.
enum class FileKind : std::uint8_t { Media, TimedText, Neither };
[[nodiscard]] FileKind kind_of(const std::filesystem::path& file);

/// The words of a file's name, lower case: "FinalEdit_v2.mp4" is final, edit, v, 2.
[[nodiscard]] std::vector<std::string> name_words(const std::filesystem::path& file);

/// Sound without picture, or a name that speaks of a voice: narration. A name that speaks of an edit or an
/// export: edit. Anything else came from a camera.
[[nodiscard]] MediaRole guess_role(const std::filesystem::path& file, const ClipFacts& facts);

/// How surely a name speaks of the edit: 2 for "edit" or "export", 1 for "final", 0 for neither.
[[nodiscard]] int edit_likeness(const std::filesystem::path& file);

/// True where the name speaks of text on the picture ("titles.srt") and not of speech.
[[nodiscard]] bool is_on_screen_text(const std::filesystem::path& file);

/// An id from the file's name that is not in `taken`: "pan-1", then "pan-1-2".
[[nodiscard]] std::string new_id(const std::filesystem::path& file, const std::vector<std::string>& taken);

}  // namespace panslate
