// Recipes with planted faults and recipes without any: what the read-through finds, misses and makes up.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/recipe/reading.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

std::string file_text(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return to_utf8(std::string((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>()));
}

const fs::path& data_folder() {
  static const fs::path kFolder = fs::path(PANSLATE_SOURCE_DIR) / "tests" / "data";
  return kFolder;
}

struct Planted {
  std::string file, code, words;
};

std::vector<Planted> planted_faults() {
  std::vector<Planted> all;
  const auto text = file_text(data_folder() / "read" / "faults.tsv");
  for (const auto& line : split_lines(text)) {
    const auto fields = split(line.text, '\t');
    if (fields.size() == 3 && fields[0] != "file") all.push_back({fields[0], fields[1], fields[2]});
  }
  return all;
}

std::string line_at(const std::string& text, int line) {
  const auto lines = split_lines(text);
  return line > 0 && static_cast<std::size_t>(line) <= lines.size()
             ? fold_case(lines[static_cast<std::size_t>(line) - 1].text)
             : std::string{};
}

// A planted fault is found where its code stands at its line. What is found besides, at level error or
// warning, is wrong, unless it repeats a planted fault of the line.
TEST(PlantedFaults, AreFoundAndNothingIsMadeUp) {
  const auto faults = planted_faults();
  ASSERT_GE(faults.size(), 45U);
  std::map<std::string, std::pair<int, int>> by_code;  // found, planted
  std::set<std::string> files;
  int found = 0;
  int right = 0;
  int wrong = 0;
  std::string misses;
  for (const auto& fault : faults) files.insert(fault.file);
  for (const auto& file : files) {
    const auto path = data_folder() / "read" / "faults" / (file + ".md");
    const auto text = file_text(path);
    const auto recipe = read_recipe(text, path);
    ASSERT_TRUE(recipe) << file;
    const auto reading = read_through(*recipe);
    const auto is_of = [&](const ReadFinding& finding, const Planted& fault) {
      const auto places = split(fault.words, '|');
      return fault.file == file && finding.code == fault.code &&
             std::any_of(places.begin(), places.end(), [&](const std::string& words) {
               return line_at(text, finding.line).find(fold_case(words)) != std::string::npos;
             });
    };
    for (const auto& fault : faults) {
      if (fault.file != file) continue;
      const bool hit = std::any_of(reading.findings.begin(), reading.findings.end(),
                                   [&](const auto& finding) { return is_of(finding, fault); });
      ++by_code[fault.code].second;
      if (hit)
        ++found, ++by_code[fault.code].first;
      else
        misses += "  not found: " + fault.file + ": " + fault.code + " at \"" + fault.words + "\"\n";
    }
    for (const auto& finding : reading.findings) {
      if (finding.level == ReadLevel::Note) continue;
      const bool planted = std::any_of(faults.begin(), faults.end(),
                                       [&](const Planted& fault) { return is_of(finding, fault); });
      ++(planted ? right : wrong);
      if (!planted)
        misses += "  wrong: " + file + ":" + std::to_string(finding.line) + ": " + finding.code + ": " +
                  finding.message + "\n";
    }
  }
  std::printf("%-28s found of planted\n", "code");
  for (const auto& [code, counts] : by_code)
    std::printf("%-28s %5d of %d\n", code.c_str(), counts.first, counts.second);
  std::printf("%-28s %5d of %zu\n", "all", found, faults.size());
  std::printf("%-28s %5d right, %d wrong\n%s", "errors and warnings", right, wrong, misses.c_str());
  EXPECT_GE(found * 100, static_cast<int>(faults.size()) * 92);
  EXPECT_GE(right * 100, (right + wrong) * 90);
}

std::vector<fs::path> recipes_below(const fs::path& folder) {
  std::vector<fs::path> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const auto name = entry.path().filename().string();
    const bool recipe = name.starts_with("recipe.") || folder.filename() == "clean";
    if (entry.is_regular_file() && recipe) found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

// Recipes that nobody planted anything in: those written to be read, and those of the other tests.
TEST(CleanRecipes, AreSilent) {
  std::vector<fs::path> files;
  for (const auto* folder : {"read/clean", "check", "check_held_out"})
    for (const auto& file : recipes_below(data_folder() / folder)) files.push_back(file);
  files.push_back(fs::path(PANSLATE_SOURCE_DIR) / "projects" / "demo" / "recipe.md");
  ASSERT_GE(files.size(), 100U);
  for (const auto& file : files) {
    const auto recipe = read_recipe(file_text(file), file);
    ASSERT_TRUE(recipe) << file;
    // Its last step takes icing sugar that no line lists, so that the check has such an amount to ask for.
    const bool one_unlisted = file.parent_path().filename() == "ondine-galette";
    for (const auto& finding : read_through(*recipe).findings) {
      if (one_unlisted && finding.code == "unlisted-ingredient") continue;
      EXPECT_EQ(finding.level, ReadLevel::Note)
          << file << ":" << finding.line << ": " << finding.code << ": " << finding.message;
    }
  }
}

TEST(Cautions, AreNotesWithASource) {
  int told = 0;
  for (const auto& file : recipes_below(data_folder() / "check")) {
    const auto recipe = read_recipe(file_text(file), file);
    ASSERT_TRUE(recipe) << file;
    for (const auto& finding : read_through(*recipe).findings) {
      if (finding.code != "caution") continue;
      ++told;
      EXPECT_EQ(finding.level, ReadLevel::Note);
      EXPECT_FALSE(finding.source.empty()) << finding.message;
      EXPECT_NE(finding.advice.find("medical advice"), std::string::npos);
    }
  }
  EXPECT_GT(told, 20);
}

}  // namespace
}  // namespace panslate
