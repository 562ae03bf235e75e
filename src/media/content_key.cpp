#include "panslate/media/content_key.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <cstring>
#include <vector>

#include <fcntl.h>
#include <nettle/sha2.h>
#include <sys/stat.h>
#include <unistd.h>

#include "panslate/base/descriptor.h"

namespace panslate {

namespace {

constexpr std::int64_t kWhole = std::int64_t{4} * 1024 * 1024;
constexpr std::int64_t kWindow = std::int64_t{64} * 1024;
constexpr std::int64_t kWindows = 64;

tl::unexpected<Error> unreadable(const std::string& why, const std::filesystem::path& file) {
  return fail(ErrorCode::Unreadable, why, Place{file});
}

std::string reason(int number) {
  return std::strerror(number);  // NOLINT(concurrency-mt-unsafe): glibc's is thread-safe
}

class Sha256 {
 public:
  Sha256() { sha256_init(&state_); }
  void add(const std::vector<std::uint8_t>& bytes) { sha256_update(&state_, bytes.size(), bytes.data()); }
  [[nodiscard]] std::string hex() {
    std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
    sha256_digest(&state_, digest.size(), digest.data());
    std::string text;
    for (const auto byte : digest) {
      text += "0123456789abcdef"[byte >> 4U];
      text += "0123456789abcdef"[byte & 0xFU];
    }
    return text;
  }

 private:
  sha256_ctx state_{};
};

Status read_at(const Descriptor& from, std::int64_t offset, std::vector<std::uint8_t>& bytes,
               const std::filesystem::path& file) {
  for (std::size_t have = 0; have < bytes.size();) {
    const ssize_t got = ::pread(from.get(), bytes.data() + have, bytes.size() - have,
                                static_cast<off_t>(offset) + static_cast<off_t>(have));
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return unreadable("cannot be read: " + reason(errno), file);
    if (got == 0) return unreadable("it became shorter while it was read", file);
    have += static_cast<std::size_t>(got);
  }
  return {};
}

}  // namespace

Result<std::string> content_key(const std::filesystem::path& file) {
  // Without waiting: a pipe would wait for a writer.
  const Descriptor opened(::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (opened.get() < 0 && (errno == ENOENT || errno == ENOTDIR))
    return fail(ErrorCode::NotFound, "there is no such file", Place{file},
                "check the name, or whether the card or disk is connected");
  if (opened.get() < 0) return unreadable("cannot open: " + reason(errno), file);
  struct stat about {};
  if (::fstat(opened.get(), &about) != 0) return unreadable("cannot be read: " + reason(errno), file);
  if (S_ISDIR(about.st_mode)) return unreadable("this is a folder, not a clip", file);
  if (!S_ISREG(about.st_mode)) return unreadable("this is not a plain file", file);

  const std::int64_t size = about.st_size;
  Sha256 hash;
  std::vector<std::uint8_t> bytes(static_cast<std::size_t>(size <= kWhole ? size : kWindow));
  if (size <= kWhole) {
    PANSLATE_CHECK(read_at(opened, 0, bytes, file));
    hash.add(bytes);
    return std::to_string(size) + "-" + hash.hex();
  }
  // The disk need not read ahead of what lies between.
  (void)::posix_fadvise(opened.get(), 0, 0, POSIX_FADV_RANDOM);
  for (std::int64_t i = 0; i < kWindows; ++i) {
    PANSLATE_CHECK(read_at(opened, i * (size - kWindow) / (kWindows - 1), bytes, file));
    hash.add(bytes);
  }
  return std::to_string(size) + "-" + hash.hex();
}

}  // namespace panslate
