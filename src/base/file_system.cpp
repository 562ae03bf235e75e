#include "panslate/base/file_system.h"

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <string>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "panslate/base/descriptor.h"
#include "panslate/base/text.h"

namespace panslate {

namespace fs = std::filesystem;

namespace {

constexpr std::uintmax_t kMegabyte = std::uintmax_t{1024} * 1024;

std::string reason(int number) {
  return std::strerror(number);  // NOLINT(concurrency-mt-unsafe): glibc's is thread-safe
}

class RealFileSystem final : public FileSystem {
 public:
  [[nodiscard]] Result<std::string> read(const fs::path& path, std::uintmax_t limit) const override {
    std::error_code error;
    const auto status = fs::status(path, error);
    if (!fs::exists(status))
      return fail(ErrorCode::NotFound, "there is no such file", Place{path}, "check the name and the folder");
    if (fs::is_directory(status))
      return fail(ErrorCode::Unreadable, "this is a folder, a file is needed", Place{path});
    std::ifstream in(path, std::ios::binary);
    if (!in) return fail(ErrorCode::Unreadable, "cannot be opened: " + reason(errno), Place{path});
    std::string bytes;
    std::string block(std::size_t{1} << 16, '\0');
    while (in.read(block.data(), static_cast<std::streamsize>(block.size())) || in.gcount() > 0) {
      bytes.append(block, 0, static_cast<std::size_t>(in.gcount()));
      if (bytes.size() > limit)
        return fail(ErrorCode::Unreadable,
                    "larger than " + std::to_string(limit / kMegabyte) + " MB, so not read", Place{path});
    }
    if (in.bad()) return fail(ErrorCode::Unreadable, "cannot be read: " + reason(errno), Place{path});
    return bytes;
  }

  [[nodiscard]] Status write_and_sync(const fs::path& path, std::string_view bytes) override {
    return write_new(path, bytes, Sync::Yes);
  }

  [[nodiscard]] Status write(const fs::path& path, std::string_view bytes) override {
    return write_new(path, bytes, Sync::No);
  }

  [[nodiscard]] Status rename(const fs::path& from, const fs::path& to) override {
    std::error_code error;
    fs::rename(from, to, error);
    if (error) return fail(ErrorCode::WriteFailed, "cannot be saved: " + error.message(), Place{to});
    return {};
  }

  void remove(const fs::path& path) noexcept override {
    std::error_code error;
    fs::remove(path, error);
  }

  [[nodiscard]] bool exists(const fs::path& path) const override {
    std::error_code error;
    return fs::exists(path, error);
  }

  [[nodiscard]] bool is_directory(const fs::path& path) const override {
    std::error_code error;
    return fs::is_directory(path, error);
  }

  [[nodiscard]] Status create_directories(const fs::path& path) override {
    std::error_code error;
    fs::create_directories(path, error);
    if (error)
      return fail(ErrorCode::WriteFailed, "the folder cannot be made: " + error.message(), Place{path});
    return {};
  }

  [[nodiscard]] Result<FileStamp> stamp(const fs::path& path) const override {
    struct stat found = {};
    if (::stat(path.c_str(), &found) != 0)
      return fail(errno == ENOENT || errno == ENOTDIR ? ErrorCode::NotFound : ErrorCode::Unreadable,
                  "cannot be found: " + reason(errno), Place{path});
    if (!S_ISREG(found.st_mode)) return fail(ErrorCode::Unreadable, "this is no plain file", Place{path});
    const auto nanoseconds = [](const timespec& time) {
      return std::int64_t{time.tv_sec} * 1'000'000'000 + time.tv_nsec;
    };
    return FileStamp{static_cast<std::uintmax_t>(found.st_size), nanoseconds(found.st_mtim),
                     nanoseconds(found.st_ctim), found.st_ino};
  }

  [[nodiscard]] Result<std::vector<fs::path>> list(const fs::path& path) const override {
    std::error_code error;
    std::vector<fs::path> files;
    for (fs::directory_iterator it(path, error), end; !error && it != end; it.increment(error)) {
      std::error_code entry_error;
      if (it->is_regular_file(entry_error)) files.push_back(it->path());
    }
    if (error) {
      const auto code = exists(path) ? ErrorCode::Unreadable : ErrorCode::NotFound;
      return fail(code, "the folder cannot be read: " + error.message(), Place{path});
    }
    std::sort(files.begin(), files.end());
    return files;
  }

 private:
  enum class Sync : std::uint8_t { Yes, No };

  static Status write_new(const fs::path& path, std::string_view bytes, Sync sync) {
    const Descriptor file(::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
    if (file.get() < 0) return write_failed(path);
    while (!bytes.empty()) {
      const auto written = ::write(file.get(), bytes.data(), bytes.size());
      if (written < 0 && errno == EINTR) continue;
      if (written <= 0) return write_failed(path);
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    if (sync == Sync::Yes && ::fsync(file.get()) != 0) return write_failed(path);
    return {};
  }

  static Status write_failed(const fs::path& path) {
    return fail(ErrorCode::WriteFailed, "cannot be written: " + reason(errno), Place{path},
                "check the free space and whether you may write in this folder");
  }
};

}  // namespace

FileSystem& real_file_system() {
  static RealFileSystem disk;
  return disk;
}

Result<std::string> read_text(const FileSystem& disk, const fs::path& path) {
  PANSLATE_TRY(const auto bytes, disk.read(path, kTextFileLimit));
  return to_utf8(bytes);
}

namespace {

using Write = Status (FileSystem::*)(const fs::path&, std::string_view);

Status save_over(FileSystem& disk, const fs::path& target, std::string_view bytes, Write write) {
  static std::atomic<unsigned> counter{0};
  fs::path temporary = target;
  temporary += "." + std::to_string(::getpid()) + "-" + std::to_string(counter++) + ".tmp";
  Status status = (disk.*write)(temporary, bytes);
  if (status) status = disk.rename(temporary, target);
  if (!status) {
    disk.remove(temporary);
    // The user knows the file she saves to, not the one beside it.
    auto error = std::move(status).error();
    error.place = Place{target};
    return tl::unexpected(std::move(error));
  }
  return status;
}

}  // namespace

Status save_atomically(FileSystem& disk, const fs::path& target, std::string_view bytes) {
  return save_over(disk, target, bytes, &FileSystem::write_and_sync);
}

Status save_quickly(FileSystem& disk, const fs::path& target, std::string_view bytes) {
  return save_over(disk, target, bytes, &FileSystem::write);
}

}  // namespace panslate
