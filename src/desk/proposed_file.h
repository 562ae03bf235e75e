#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>

#include "panslate/base/file_system.h"

namespace panslate {

/// The disk as it would be with another text in one file: what a change leads to is seen before it is saved.
class ProposedFile final : public FileSystem {
 public:
  ProposedFile(FileSystem& disk, std::filesystem::path file, std::string bytes)
      : disk_(disk), file_(std::move(file)), bytes_(std::move(bytes)) {}

  [[nodiscard]] Result<std::string> read(const std::filesystem::path& path,
                                         std::uintmax_t limit) const override {
    if (path != file_) return disk_.read(path, limit);
    if (bytes_.size() > limit)
      return fail(ErrorCode::Unreadable, "the file would grow too large", Place{path});
    return bytes_;
  }
  [[nodiscard]] Status write_and_sync(const std::filesystem::path& path, std::string_view bytes) override {
    return disk_.write_and_sync(path, bytes);
  }
  [[nodiscard]] Status write(const std::filesystem::path& path, std::string_view bytes) override {
    return disk_.write(path, bytes);
  }
  [[nodiscard]] Status rename(const std::filesystem::path& from, const std::filesystem::path& to) override {
    return disk_.rename(from, to);
  }
  void remove(const std::filesystem::path& path) noexcept override { disk_.remove(path); }
  [[nodiscard]] bool exists(const std::filesystem::path& path) const override { return disk_.exists(path); }
  [[nodiscard]] bool is_directory(const std::filesystem::path& path) const override {
    return disk_.is_directory(path);
  }
  [[nodiscard]] Status create_directories(const std::filesystem::path& path) override {
    return disk_.create_directories(path);
  }
  [[nodiscard]] Result<FileStamp> stamp(const std::filesystem::path& path) const override {
    return disk_.stamp(path);
  }
  [[nodiscard]] Result<std::vector<std::filesystem::path>> list(
      const std::filesystem::path& path) const override {
    return disk_.list(path);
  }

 private:
  FileSystem& disk_;
  std::filesystem::path file_;
  std::string bytes_;
};

}  // namespace panslate
