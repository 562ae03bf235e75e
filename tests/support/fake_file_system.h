#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "panslate/base/file_system.h"

namespace panslate::testing {

/// A disk in memory whose n-th writing call fails, so that each failure can be tried in turn:
///
///     for (int n = 1; ; ++n) { FakeFileSystem disk; …; disk.fail_write_call(n); if (save(disk)) break; }
class FakeFileSystem final : public FileSystem {
 public:
  /// Puts a file there, with its folders.
  FakeFileSystem& add(const std::filesystem::path& path, std::string bytes) {
    const auto file = normal(path);
    add_folders(file.parent_path());
    files_[file] = std::move(bytes);
    return *this;
  }
  FakeFileSystem& add_folder(const std::filesystem::path& path) {
    add_folders(normal(path));
    return *this;
  }
  /// Reading this file fails as if the disk had a fault.
  FakeFileSystem& make_unreadable(const std::filesystem::path& path) {
    unreadable_.insert(normal(path));
    return *this;
  }
  /// The n-th call from now on that would change the disk fails; 1 is the next.
  void fail_write_call(int n) { calls_until_failure_ = n; }

  [[nodiscard]] const std::map<std::filesystem::path, std::string>& files() const { return files_; }
  /// Calls that changed the disk or failed to: "write a", "rename a b", "remove a", "folder a".
  [[nodiscard]] const std::vector<std::string>& calls() const { return calls_; }

  [[nodiscard]] Result<std::string> read(const std::filesystem::path& path,
                                         std::uintmax_t limit) const override {
    const auto file = normal(path);
    if (folders_.contains(file))
      return fail(ErrorCode::Unreadable, "this is a folder, a file is needed", Place{path});
    const auto found = files_.find(file);
    if (found == files_.end())
      return fail(ErrorCode::NotFound, "there is no such file", Place{path}, "check the name and the folder");
    if (unreadable_.contains(file))
      return fail(ErrorCode::Unreadable, "cannot be read: Input/output error", Place{path});
    if (found->second.size() > limit)
      return fail(ErrorCode::Unreadable,
                  "larger than " + std::to_string(limit / (std::uintmax_t{1024} * 1024)) + " MB, so not read",
                  Place{path});
    return found->second;
  }

  [[nodiscard]] Status write_and_sync(const std::filesystem::path& path, std::string_view bytes) override {
    const auto file = normal(path);
    if (!allowed("write " + file.string())) {
      // A full disk leaves a part of the file behind.
      files_.emplace(file, bytes.substr(0, bytes.size() / 2));
      return fail(ErrorCode::WriteFailed, "cannot be written: No space left on device", Place{path});
    }
    if (exists(file)) return fail(ErrorCode::WriteFailed, "cannot be written: File exists", Place{path});
    if (!folders_.contains(file.parent_path()))
      return fail(ErrorCode::WriteFailed, "cannot be written: No such file or directory", Place{path});
    files_.emplace(file, bytes);
    return {};
  }

  [[nodiscard]] Status write(const std::filesystem::path& path, std::string_view bytes) override {
    return write_and_sync(path, bytes);
  }

  [[nodiscard]] Status rename(const std::filesystem::path& from, const std::filesystem::path& to) override {
    const auto source = normal(from);
    const auto target = normal(to);
    const auto found = files_.find(source);
    if (!allowed("rename " + source.string() + " " + target.string()) || found == files_.end())
      return fail(ErrorCode::WriteFailed, "cannot be saved: Input/output error", Place{to});
    files_[target] = std::move(found->second);
    files_.erase(source);
    return {};
  }

  void remove(const std::filesystem::path& path) noexcept override {
    const auto file = normal(path);
    calls_.push_back("remove " + file.string());
    files_.erase(file);
  }

  [[nodiscard]] bool exists(const std::filesystem::path& path) const override {
    return files_.contains(normal(path)) || is_directory(path);
  }

  [[nodiscard]] bool is_directory(const std::filesystem::path& path) const override {
    return folders_.contains(normal(path));
  }

  [[nodiscard]] Status create_directories(const std::filesystem::path& path) override {
    const auto folder = normal(path);
    if (!allowed("folder " + folder.string()) || files_.contains(folder))
      return fail(ErrorCode::WriteFailed, "the folder cannot be made: Permission denied", Place{path});
    add_folders(folder);
    return {};
  }

  [[nodiscard]] Result<FileStamp> stamp(const std::filesystem::path& path) const override {
    const auto found = files_.find(normal(path));
    if (found == files_.end())
      return fail(ErrorCode::NotFound, "cannot be found: No such file or directory", Place{path});
    // The content itself stands for the moment it was written.
    return FileStamp{found->second.size(), 0, 0, std::hash<std::string>{}(found->second)};
  }

  [[nodiscard]] Result<std::vector<std::filesystem::path>> list(
      const std::filesystem::path& path) const override {
    const auto folder = normal(path);
    if (!folders_.contains(folder))
      return fail(ErrorCode::NotFound, "the folder cannot be read: No such file or directory", Place{path});
    std::vector<std::filesystem::path> found;
    for (const auto& [file, bytes] : files_)
      if (file.parent_path() == folder) found.push_back(path / file.filename());
    return found;
  }

 private:
  // "a/./b", "a/x/../b" and "./a/b" are one file.
  static std::filesystem::path normal(const std::filesystem::path& path) {
    auto out = path.lexically_normal();
    if (!out.has_filename() && out.has_relative_path()) out = out.parent_path();
    return out == "." ? std::filesystem::path() : out;
  }

  void add_folders(std::filesystem::path folder) {
    for (; folders_.insert(folder).second && folder.has_relative_path(); folder = folder.parent_path()) {
    }
  }

  bool allowed(std::string call) {
    calls_.push_back(std::move(call));
    return calls_until_failure_ == 0 || --calls_until_failure_ != 0;
  }

  std::map<std::filesystem::path, std::string> files_;
  std::set<std::filesystem::path> folders_{std::filesystem::path()};
  std::set<std::filesystem::path> unreadable_;
  std::vector<std::string> calls_;
  int calls_until_failure_ = 0;
};

}  // namespace panslate::testing
