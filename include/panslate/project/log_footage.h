#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/file_system.h"
#include "panslate/base/progress.h"
#include "panslate/base/result.h"
#include "panslate/media/clip_log.h"
#include "panslate/media/footage_workers.h"
#include "panslate/project/store.h"

/// The footage read once: what was logged of a clip before is taken from the store.
namespace panslate {

struct LoggedClip {
  std::filesystem::path file;
  std::string content;         ///< its key (content_key); empty where it could not be read
  std::optional<ClipLog> log;  ///< empty where the clip cannot be opened
  std::optional<Error> why;    ///< then why
};

/// Clips that hold the same.
struct Duplicate {
  enum class Kind : std::uint8_t {
    SameFile,    ///< byte for byte, or coded again
    SameMoment,  ///< from two cameras, matched by their sound
  };
  std::vector<std::size_t> clips;  ///< their indices: two for a moment, two or more for a file
  Kind kind = Kind::SameFile;
  MediaTime offset;  ///< of a moment: the second clip begins so much after the first; negative: before it
};

/// Something about the shoot as a whole, or odd about a clip that is no fault of it.
struct FootageWarning {
  enum class Kind : std::uint8_t {
    MixedRates,   ///< frame rates differ
    MixedShapes,  ///< wide, upright, square
    MixedRanges,  ///< some clips are recorded with high dynamic range
    Odd,          ///< what ClipFacts::warnings say of one clip that is not damaged
  };
  Kind kind = Kind::Odd;
  /// Indices of clips that are alike in it, the largest group first; of Odd: that clip alone.
  std::vector<std::vector<std::size_t>> groups;
};
[[nodiscard]] std::string_view spelling_of(FootageWarning::Kind kind);  ///< "mixed-rates", …

struct FootageLog {
  std::vector<LoggedClip> clips;
  std::vector<Duplicate> duplicates;
  std::vector<FootageWarning> warnings;
};

/// What stands out where clips are compared with each other. Cancelled where `progress` says so.
[[nodiscard]] Result<FootageLog> compare_clips(std::vector<LoggedClip> clips, Progress& progress);

/// Logs every clip, in the order of `files`; those that did not change since they were logged, or whose
/// content is known under another name, are not opened. Each is kept as soon as it is done: Cancelled, where
/// `progress` says so, loses only the clips at hand.
[[nodiscard]] Result<std::vector<LoggedClip>> log_footage(std::span<const std::filesystem::path> files,
                                                          FootageWorkers& workers, Store& store,
                                                          Progress& progress);

/// The clips in a folder by their names' endings, sorted by name; folders in it are left out. NotFound,
/// Unreadable, or NotMedia where it has none.
[[nodiscard]] Result<std::vector<std::filesystem::path>> clips_in_folder(const FileSystem& disk,
                                                                         const std::filesystem::path& folder);

}  // namespace panslate
