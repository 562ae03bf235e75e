#include "panslate/media/content_key.h"

#include <chrono>
#include <fstream>
#include <string>

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include "media/judge.h"
#include "media/samples.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kWhole = std::size_t{4} * 1024 * 1024;
constexpr std::size_t kWindow = std::size_t{64} * 1024;

// The same bytes every run, without a pattern that windows could share.
std::string bytes_of(std::size_t size) {
  std::string bytes(size, '\0');
  std::uint32_t chance = 2463534242;
  for (auto& byte : bytes) {
    chance ^= chance << 13U;
    chance ^= chance >> 17U;
    chance ^= chance << 5U;
    byte = static_cast<char>(chance);
  }
  return bytes;
}

fs::path saved(const std::string& name, const std::string& bytes) {
  auto file = samples::folder() / name;
  std::ofstream(file, std::ios::binary | std::ios::trunc) << bytes;
  return file;
}

std::string key_of(const fs::path& file) {
  const auto key = content_key(file);
  EXPECT_TRUE(key) << render(key.error());
  return key.value_or("");
}

// The outside judge: coreutils' sha256sum.
std::string judged(const fs::path& file) {
  return outside::shell("sha256sum < '" + file.string() + "'").substr(0, 64);
}

TEST(ContentKey, OfSmallFilesIsTheirSizeAndSha256) {
  for (const std::size_t size : {std::size_t{0}, std::size_t{1}, std::size_t{1000}, kWindow, kWhole}) {
    const auto file = saved("small.key", bytes_of(size));
    EXPECT_EQ(key_of(file), std::to_string(size) + "-" + judged(file)) << size;
  }
  EXPECT_EQ(key_of(saved("abc.key", "abc")),  // FIPS 180-4, example of the 256-bit hash
            "3-ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

// Windows cut out by hand as the header says.
TEST(ContentKey, OfLargeFilesIsOfSixtyFourWindows) {
  for (const std::size_t size : {kWhole + 1, std::size_t{5'000'011}, std::size_t{40'000'000}}) {
    const auto bytes = bytes_of(size);
    std::string windows;
    for (std::size_t i = 0; i < 64; ++i) windows += bytes.substr(i * (size - kWindow) / 63, kWindow);
    EXPECT_TRUE(windows.starts_with(bytes.substr(0, kWindow)));
    EXPECT_TRUE(windows.ends_with(bytes.substr(size - kWindow)));
    const auto key = key_of(saved("large.key", bytes));
    EXPECT_EQ(key, std::to_string(size) + "-" + judged(saved("windows.key", windows))) << size;
  }
}

TEST(ContentKey, DependsOnWhatIsInTheFileOnly) {
  const auto bytes = bytes_of(kWhole + 77);
  const auto file = saved("a.key", bytes);
  const auto key = key_of(file);
  const auto copy = saved("another name.mov", bytes);
  fs::last_write_time(copy, fs::file_time_type::clock::now() - std::chrono::hours(1000));
  EXPECT_EQ(key_of(copy), key);
  for (const std::size_t at : {std::size_t{0}, kWindow - 1, bytes.size() - kWindow, bytes.size() - 1}) {
    auto changed = bytes;
    changed[at] ^= 1;
    EXPECT_NE(key_of(saved("changed.key", changed)), key) << at;
  }
  EXPECT_NE(key_of(saved("longer.key", bytes + '\0')), key);
}

TEST(ContentKey, TakesNoLongerForALongFilm) {
  const auto file = samples::folder() / "ten hours.key";
  std::ofstream(file).close();
  fs::resize_file(file, std::uintmax_t{200} * 1024 * 1024 * 1024);  // a hole: takes no space
  const auto begin = std::chrono::steady_clock::now();
  EXPECT_TRUE(key_of(file).starts_with("214748364800-"));
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(2));
  fs::remove(file);
}

TEST(ContentKey, RefusesWhatIsNoFile) {
  const auto missing = content_key(samples::folder() / "missing.mp4");
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.error().code, ErrorCode::NotFound);
  const auto folder = content_key(samples::folder());
  ASSERT_FALSE(folder);
  EXPECT_EQ(render(folder.error()), samples::folder().string() + ": error: this is a folder, not a clip");
  const auto pipe = samples::folder() / "pipe";
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  const auto waited = content_key(pipe);
  ASSERT_FALSE(waited) << "and does not wait for a writer";
  EXPECT_EQ(waited.error().code, ErrorCode::Unreadable);
  if (::geteuid() != 0) {
    const auto locked = saved("locked.key", "abc");
    fs::permissions(locked, fs::perms::none);
    EXPECT_EQ(content_key(locked).error().code, ErrorCode::Unreadable);
  }
}

}  // namespace
}  // namespace panslate
