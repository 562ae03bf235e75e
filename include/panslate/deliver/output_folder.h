#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/file_system.h"
#include "panslate/base/result.h"

namespace panslate {

/// One file of a folder of results.
struct OutputFile {
  std::string name;  ///< without a folder: "report.html"
  std::string bytes;
  /// Stands in every file of this kind that panslate wrote. A file with it is a result to be renewed; a file
  /// without it is the user's own and is never replaced. Empty: nobody can tell whose the file is.
  std::string own_mark = {};
  /// For kinds that hold no mark of ours once their rows are changed: whether these bytes are as panslate
  /// left them. Such a file is renewed; any other content is replaced only when asked. Used without an
  /// own_mark.
  std::function<bool(std::string_view)> as_left = {};
};

/// What to do where a file with other content stands already and has no mark of whose it is.
enum class Replace : std::uint8_t { Never, WhenAsked };

/// Whether `bytes` are to be written to `target`: not where it holds them already. Exists where a folder
/// stands there, or a file with other content that may be the user's. `other_way` ends the hint: "choose
/// another name with --corrected".
[[nodiscard]] Result<bool> must_be_written(const FileSystem& disk, const std::filesystem::path& target,
                                           std::string_view bytes, Replace replace,
                                           const std::string& other_way);

/// Saves the files into `directory` (made when absent). All of them are looked at before the first is
/// written: Exists when one would replace something that may be the user's. A file that holds the same bytes
/// already is left alone. Each is saved atomically.
[[nodiscard]] Status save_outputs(FileSystem& disk, const std::filesystem::path& directory,
                                  const std::vector<OutputFile>& files, Replace replace);

/// The mark in our pages.
inline constexpr std::string_view kPageMark = R"(<meta name="generator" content="panslate">)";

/// A file's path as seen from an output folder (which need not be there yet), with / between folders, so that
/// both may be moved together; its whole path where it lies on another disk.
[[nodiscard]] std::string path_seen_from(const std::filesystem::path& folder,
                                         const std::filesystem::path& file);

}  // namespace panslate
