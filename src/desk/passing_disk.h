#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/file_system.h"

namespace panslate {

/// Hands every call on to the disk below it: for what is otherwise in a call or two.
class PassingDisk : public FileSystem {
 public:
  /// `disk` must outlive it.
  explicit PassingDisk(FileSystem& disk) : disk_(disk) {}

  [[nodiscard]] Result<std::string> read(const std::filesystem::path& path,
                                         std::uintmax_t limit) const override {
    return disk_.read(path, limit);
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
};

}  // namespace panslate
