#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "desk/passing_disk.h"

namespace panslate {

/// Files by name, and how each was.
using FileStamps = std::map<std::filesystem::path, std::optional<FileStamp>>;

/// How a file is now; empty where it is not there.
[[nodiscard]] inline std::optional<FileStamp> stamp_on(const FileSystem& disk,
                                                       const std::filesystem::path& file) {
  const auto stamp = disk.stamp(file);
  return stamp ? std::optional(*stamp) : std::nullopt;
}

/// Remembers how each file was before it was first looked at, so that whoever reads many files can tell
/// afterwards whether all of them are still what was read. For one thread.
class WatchedDisk final : public PassingDisk {
 public:
  /// The text of `kept` is remembered too.
  WatchedDisk(FileSystem& disk, std::filesystem::path kept) : PassingDisk(disk), kept_(std::move(kept)) {}

  /// A file of the store that was written through this disk counts as it was after that.
  [[nodiscard]] const FileStamps& seen() const { return seen_; }
  /// What was read of `kept` last; empty where nothing was.
  [[nodiscard]] const std::optional<std::string>& kept_bytes() const { return bytes_; }

  [[nodiscard]] Result<std::string> read(const std::filesystem::path& path,
                                         std::uintmax_t limit) const override {
    if (!seen_.contains(path)) static_cast<void>(stamp(path));
    auto bytes = PassingDisk::read(path, limit);
    if (bytes && path == kept_) bytes_ = *bytes;
    return bytes;
  }
  [[nodiscard]] Result<FileStamp> stamp(const std::filesystem::path& path) const override {
    auto stamp = PassingDisk::stamp(path);
    seen_.emplace(path, stamp ? std::optional(*stamp) : std::nullopt);
    return stamp;
  }
  [[nodiscard]] Status rename(const std::filesystem::path& from, const std::filesystem::path& to) override {
    auto renamed = PassingDisk::rename(from, to);
    if (const auto known = seen_.find(to); known != seen_.end()) {
      const auto now = PassingDisk::stamp(to);
      known->second = now ? std::optional(*now) : std::nullopt;
    }
    return renamed;
  }

 private:
  std::filesystem::path kept_;
  // Remembering is no change of the disk.
  mutable FileStamps seen_;
  mutable std::optional<std::string> bytes_;
};

}  // namespace panslate
