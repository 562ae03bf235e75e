#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include <gtest/gtest.h>
#include <unistd.h>

#include "support/shell.h"

namespace panslate::testing {

/// A folder of its own in which the program runs, gone afterwards. PANSLATE_PROGRAM says where the program
/// is.
class ProgramFolder : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = (std::filesystem::temp_directory_path() / "panslate-XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override {
    if (!folder_.empty()) std::filesystem::remove_all(folder_);
  }

  void write(const std::filesystem::path& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
  }
  [[nodiscard]] std::string read(const std::filesystem::path& name) const {
    std::ifstream in(folder_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  /// A command of other programs, in the folder.
  void shell_ok(const std::string& command) const {
    ASSERT_EQ(std::system(("cd '" + folder_.string() + "' && " + command + " </dev/null").c_str()), 0)
        << command;
  }
  /// What the program prints, its messages too unless they are turned away ("2>/dev/null").
  [[nodiscard]] Ran run(const std::string& arguments, const std::string& messages = "2>&1") const {
    return shell("cd '" + folder_.string() + "' && '" PANSLATE_PROGRAM "' " + arguments + " " + messages);
  }

  std::filesystem::path folder_;
};

}  // namespace panslate::testing
