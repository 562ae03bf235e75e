#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/result.h"

/// The disk behind an interface, so that tests can fail each call in turn and prove that nothing of the
/// user's is lost.
namespace panslate {

/// What tells, without reading a file, that it is still the same: any writing to it and any other file put in
/// its place changes one of these.
struct FileStamp {
  std::uintmax_t size = 0;    ///< bytes
  std::int64_t modified = 0;  ///< nanoseconds since 1970: when its content was written last
  std::int64_t changed = 0;   ///< … when anything about it changed last; no program sets this
  std::uint64_t node = 0;     ///< the system's number of the file

  friend bool operator==(const FileStamp&, const FileStamp&) = default;
};

class FileSystem {
 public:
  virtual ~FileSystem() = default;

  /// The bytes of a file. NotFound, or Unreadable (a folder, no right, larger than `limit` bytes).
  [[nodiscard]] virtual Result<std::string> read(const std::filesystem::path& path,
                                                 std::uintmax_t limit) const = 0;
  /// Writes a new file and syncs it to the disk; fails (WriteFailed) when it exists already.
  [[nodiscard]] virtual Status write_and_sync(const std::filesystem::path& path, std::string_view bytes) = 0;
  /// The same without waiting for the disk: a power cut may leave a part of it or nothing.
  [[nodiscard]] virtual Status write(const std::filesystem::path& path, std::string_view bytes) = 0;
  [[nodiscard]] virtual Status rename(const std::filesystem::path& from, const std::filesystem::path& to) = 0;
  virtual void remove(const std::filesystem::path& path) noexcept = 0;
  [[nodiscard]] virtual bool exists(const std::filesystem::path& path) const = 0;
  [[nodiscard]] virtual bool is_directory(const std::filesystem::path& path) const = 0;
  [[nodiscard]] virtual Status create_directories(const std::filesystem::path& path) = 0;
  /// NotFound, or Unreadable where it is no plain file.
  [[nodiscard]] virtual Result<FileStamp> stamp(const std::filesystem::path& path) const = 0;
  /// Files (not folders) directly in a folder, sorted by name.
  [[nodiscard]] virtual Result<std::vector<std::filesystem::path>> list(
      const std::filesystem::path& path) const = 0;
};

/// Largest text file that is read whole; larger ones are refused by name rather than filling the memory.
inline constexpr std::uintmax_t kTextFileLimit = std::uintmax_t{64} * 1024 * 1024;

/// The real disk.
[[nodiscard]] FileSystem& real_file_system();

/// Reads a text file through `to_utf8`.
[[nodiscard]] Result<std::string> read_text(const FileSystem& fs, const std::filesystem::path& path);

/// Replaces `target` by `bytes`, or leaves it exactly as it was: a temporary file beside it is written,
/// synced and renamed over it. The temporary name is unique, so two programs saving at once do not meet.
[[nodiscard]] Status save_atomically(FileSystem& fs, const std::filesystem::path& target,
                                     std::string_view bytes);

/// As save_atomically, for what can be made again: whole or not there to every reader, but not after a power
/// cut. Waiting for the disk takes longer than measuring a clip does.
[[nodiscard]] Status save_quickly(FileSystem& fs, const std::filesystem::path& target,
                                  std::string_view bytes);

}  // namespace panslate
