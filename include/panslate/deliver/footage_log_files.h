#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/deliver/output_folder.h"
#include "panslate/project/log_footage.h"

/// The footage log for programs, spreadsheets and people.
namespace panslate {

/// Form: contracts/log-report.md. `stills`: whether the stills are saved beside it (footage_stills), so that
/// it may name them.
enum class Stills : std::uint8_t { NotSaved, Saved };
[[nodiscard]] std::string footage_log_json(const FootageLog& log, Stills stills);

/// How such a table begins.
inline constexpr std::string_view kFootageCsvMark = "clip,what,start,end,frames,detail";
/// A row for each clip, shot, stretch of speech and fault (RFC 4180).
[[nodiscard]] std::string footage_log_csv(const FootageLog& log);

/// A page with a row for each clip: its stills, its sound, what is wrong with it. `folder`: where it will
/// lie, so that clips can be played from there.
[[nodiscard]] std::string contact_sheet(const FootageLog& log, const std::filesystem::path& folder);

/// The stills of all shots as pictures of their own.
[[nodiscard]] std::vector<OutputFile> footage_stills(const FootageLog& log);

/// "the picture is frozen"; what a fault is called in a sentence of its own.
[[nodiscard]] std::string_view fault_words(FaultKind kind);

/// "IMG_2041.mov and IMG_2042.mov show the same moment: …"
[[nodiscard]] std::string duplicate_words(const FootageLog& log, const Duplicate& duplicate);

/// "29.97 a second", "about 27.4 a second, varying".
[[nodiscard]] std::string rate_words(const PictureFacts& picture);

}  // namespace panslate
