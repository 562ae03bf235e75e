#pragma once

#include <filesystem>
#include <string>
#include <utility>

#include "desk/passing_disk.h"

namespace panslate {

/// The disk as it would be with another text in one file: what a change leads to is seen before it is saved.
class ProposedFile final : public PassingDisk {
 public:
  ProposedFile(FileSystem& disk, std::filesystem::path file, std::string bytes)
      : PassingDisk(disk), file_(std::move(file)), bytes_(std::move(bytes)) {}

  [[nodiscard]] Result<std::string> read(const std::filesystem::path& path,
                                         std::uintmax_t limit) const override {
    if (path != file_) return PassingDisk::read(path, limit);
    if (bytes_.size() > limit)
      return fail(ErrorCode::Unreadable, "the file would grow too large", Place{path});
    return bytes_;
  }

 private:
  std::filesystem::path file_;
  std::string bytes_;
};

}  // namespace panslate
