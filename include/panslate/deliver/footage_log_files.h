#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/check/propose_parts.h"
#include "panslate/deliver/output_folder.h"
#include "panslate/project/log_footage.h"

/// The footage log for programs, spreadsheets and people.
namespace panslate {

/// What is proposed for the clips of a project, told with the log of them.
struct LoggedProposals {
  const Project& project;
  const PartProposals& found;
  std::vector<std::size_t> clips;  ///< by index of Project::media: index into FootageLog::clips
  bool can_listen = false;         ///< whether `panslate listen` would find words in clips without
  bool written = false;            ///< the project has them as parts now
};

/// Form: contracts/log-report.md. `stills`: whether the stills are saved beside it (footage_stills), so that
/// it may name them.
enum class Stills : std::uint8_t { NotSaved, Saved };
[[nodiscard]] std::string footage_log_json(const FootageLog& log, Stills stills,
                                           const LoggedProposals* proposals = nullptr);

/// How such a table begins.
inline constexpr std::string_view kFootageCsvMark = "clip,what,start,end,frames,detail";
/// A row for each clip, shot, stretch of speech and fault (RFC 4180).
[[nodiscard]] std::string footage_log_csv(const FootageLog& log);

/// A page with a row for each clip: its stills, its sound, what is wrong with it. `folder`: where it will
/// lie, so that clips can be played from there.
[[nodiscard]] std::string contact_sheet(const FootageLog& log, const std::filesystem::path& folder,
                                        const LoggedProposals* proposals = nullptr);

/// The stills of all shots as pictures of their own.
[[nodiscard]] std::vector<OutputFile> footage_stills(const FootageLog& log);

/// What a fault is called in a list: "frozen", "sound too loud".
[[nodiscard]] std::string_view fault_words(FaultKind kind);

/// A clip's faults, those that spoil most first (what is lost before what is ugly), each kind in the order of
/// time.
[[nodiscard]] std::vector<ClipFault> worst_first(const ClipLog& log);

/// What a list says that ends before all is told: "and 12 more, see log.csv".
[[nodiscard]] std::string more_words(std::size_t left_out);

/// "a.mov and b.mov are the same clip"; "a.mov and b.mov hold the same moment: b.mov begins 1.48 s later".
/// Clips of one name are told with their folders.
[[nodiscard]] std::string duplicate_words(const FootageLog& log, const Duplicate& duplicate);

/// "The clips have different frame rates: most have 25 a second; 50 a second in b.mov"
[[nodiscard]] std::string warning_words(const FootageLog& log, const FootageWarning& warning);

/// "0:42–1:15"
[[nodiscard]] std::string part_moments(const ProposedPart& part);

/// Why a part is proposed: "now the onions go in" is said: step 3, "Add the onions and fry them …".
[[nodiscard]] std::string part_reason(const Project& project, const ProposedPart& part);

/// What is not proposed, and what would help, a sentence each; empty where all is proposed.
[[nodiscard]] std::vector<std::string> left_out_words(const FootageLog& log,
                                                      const LoggedProposals& proposals);

/// What a clip holds: "1920 × 1080, HDR, 25 a second", "sound only", "timecode only".
[[nodiscard]] std::string kind_words(const ClipFacts& facts);

/// What is told of a clip's sound, a phrase each: how long somebody speaks, how loud it is, and, of several
/// tracks, which was listened to: "speech 0:42", "-23 LUFS", "track 2 of 2". `Full`: "loudness -23.0 LUFS,
/// range 4.1 LU, peak -3.2 dBTP".
enum class LoudnessWords : std::uint8_t { Short, Full };
[[nodiscard]] std::vector<std::string> sound_words(const ClipLog& log, LoudnessWords loudness);

/// "29.97 a second", "about 27.4 a second, varying".
[[nodiscard]] std::string rate_words(const PictureFacts& picture);

}  // namespace panslate
