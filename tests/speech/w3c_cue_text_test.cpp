// Runs the tables of the W3C's WebVTT cue text tests (web-platform-tests,
// webvtt/parsing/cue-text-parsing/dat) on parse_cue_text. The tests are no part of this repository.
#include <charconv>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/speech/webvtt.h"

#include "speech/cue_tree_print.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

/// The escapes that the tables use, which are Python's: \n, \t, \xNN, \uNNNN.
std::string unescaped(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\' || i + 1 >= text.size()) {
      out += text[i];
      continue;
    }
    const char c = text[++i];
    const std::size_t digits = c == 'x' ? 2 : c == 'u' ? 4 : 0;
    if (digits == 0) {
      out += c == 'n' ? '\n' : c == 't' ? '\t' : c == 'f' ? '\f' : c == 'r' ? '\r' : c;
      continue;
    }
    std::uint32_t code = 0;
    std::from_chars(text.data() + i + 1, text.data() + i + 1 + digits, code, 16);
    if (code == 0)
      out += '\0';
    else
      append_utf8(out, code);
    i += digits;
  }
  return out;
}

struct TableCase {
  int line = 0;
  std::string input;
  std::string expected;
};

std::vector<TableCase> read_table(const fs::path& path) {
  std::vector<TableCase> cases;
  std::ifstream in(path);
  enum class Part { None, Data, Errors, Tree };
  auto part = Part::None;
  int number = 0;
  for (std::string line; std::getline(in, line);) {
    ++number;
    if (line == "#data") {
      part = Part::Data;
      cases.push_back({number, {}, {}});
    } else if (line == "#errors") {
      part = Part::Errors;
    } else if (line == "#document-fragment") {
      part = Part::Tree;
    } else if (part == Part::Data) {
      cases.back().input += unescaped(line) + "\n";
    } else if (part == Part::Tree && !line.empty()) {
      cases.back().expected += unescaped(line) + "\n";
    }
  }
  for (auto& one : cases)
    if (!one.input.empty()) one.input.pop_back();
  return cases;
}

TEST(W3cCueText, EveryRowGivesItsTree) {
  const auto folder = fs::path(PANSLATE_SOURCE_DIR) / "../shared/media/webvtt/parsing/cue-text-parsing/dat";
  if (!fs::exists(folder)) GTEST_SKIP() << "the W3C's tests are not at " << folder;
  std::size_t rows = 0;
  for (const auto* name : {"entities", "tags", "text", "timestamps", "tree-building"}) {
    for (const auto& row : read_table(folder / (std::string(name) + ".dat"))) {
      ++rows;
      // The tests put the row into a file, so that the rules of files come first.
      const auto file = parse_webvtt("WEBVTT\n\n00:00.000 --> 00:01.000\n" + row.input, "row.vtt");
      ASSERT_TRUE(file);
      ASSERT_FALSE(file->cues.empty());
      EXPECT_EQ(printed_tree(parse_cue_text(file->cues[0].text)), row.expected)
          << name << ".dat:" << row.line << ": " << row.input;
    }
  }
  EXPECT_GE(rows, 77U);  // counted in the five tables
}

}  // namespace
}  // namespace panslate
