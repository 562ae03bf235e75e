#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

namespace panslate::testing {

/// Compares a whole result with tests/golden/NAME. UPDATE_GOLDEN=1 rewrites the file instead; the change is
/// then read in the diff of the commit. A failure tells the first line that differs.
inline void expect_golden(std::string_view name, const std::string& actual) {
  const auto file = std::filesystem::path(PANSLATE_SOURCE_DIR) / "tests" / "golden" / name;
  const char* update = std::getenv("UPDATE_GOLDEN");  // NOLINT(concurrency-mt-unsafe)
  if (update != nullptr && std::string_view(update) == "1") {
    std::ofstream(file, std::ios::binary) << actual;
    return;
  }
  std::ifstream in(file, std::ios::binary);
  ASSERT_TRUE(in) << file << " is missing; UPDATE_GOLDEN=1 writes it";
  const std::string expected((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  if (actual == expected) return;
  const auto want = split(expected, '\n');
  const auto got = split(actual, '\n');
  std::size_t line = 0;
  while (line < want.size() && line < got.size() && want[line] == got[line]) ++line;
  ADD_FAILURE() << file.filename() << " differs from line " << line + 1
                << "\n  expected: " << (line < want.size() ? want[line] : "(the end)")
                << "\n  actual:   " << (line < got.size() ? got[line] : "(the end)");
}

}  // namespace panslate::testing
