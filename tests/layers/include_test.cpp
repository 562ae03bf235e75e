// Holds the house together: a floor includes only the floors below it, and each outside library has one home.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace {

namespace fs = std::filesystem;

using Names = std::set<std::string>;

// The layer table: a folder and the folders it may include besides itself.
const std::map<std::string, Names> kMayInclude{
    {"base", {}},
    {"kitchen", {"base"}},
    {"recipe", {"base", "kitchen"}},
    {"media", {"base"}},
    {"speech", {"base", "media"}},
    {"project", {"base", "kitchen", "recipe", "media", "speech"}},
    {"check", {"base", "kitchen", "recipe", "media", "speech", "project"}},
    {"plan", {"base", "kitchen", "recipe", "media", "speech", "project", "check"}},
    {"deliver", {"base", "kitchen", "recipe", "media", "speech", "project", "check", "plan"}},
    {"desk", {"base", "kitchen", "recipe", "media", "speech", "project", "check", "plan", "deliver"}},
    {"app", {"base", "kitchen", "recipe", "media", "speech", "project", "check", "plan", "deliver", "desk"}},
};

// Outside libraries by the start of the included name, and the layers that may know them.
const std::vector<std::pair<std::string, Names>> kHomes{
    {"libav", {"media"}},
    {"libsw", {"media"}},
    {"ebur128.h", {"media"}},
    {"unicode/", {"base", "kitchen"}},
    {"libstemmer.h", {"kitchen"}},
    {"pocketsphinx", {"speech"}},
    {"flite", {"speech"}},
    {"valijson/", {"project"}},
    {"nlohmann/", {"recipe", "project", "deliver", "desk"}},
    {"kainjow/", {"deliver", "desk"}},
    {"gumbo.h", {"recipe"}},
    {"httplib.h", {"desk"}},
    {"CLI/", {"app"}},
};

struct Include {
  std::string layer, name;
  fs::path file;
};

std::vector<Include> includes_of_the_house() {
  std::vector<Include> found;
  const fs::path root = PANSLATE_SOURCE_DIR;
  for (const auto& top : {root / "include" / "panslate", root / "src"}) {
    for (const auto& entry : fs::recursive_directory_iterator(top)) {
      const auto extension = entry.path().extension();
      if (extension != ".h" && extension != ".cpp") continue;
      const auto layer = fs::relative(entry.path(), top).begin()->string();
      std::ifstream in(entry.path());
      for (std::string line; std::getline(in, line);) {
        const auto hash = line.find("#include ");
        if (hash != 0) continue;
        const auto open = line.find_first_of("\"<");
        const auto close = line.find_first_of("\">", open + 1);
        if (open == std::string::npos || close == std::string::npos) continue;
        found.push_back({layer, line.substr(open + 1, close - open - 1), entry.path()});
      }
    }
  }
  return found;
}

TEST(House, EachFloorIncludesOnlyTheFloorsBelow) {
  const auto includes = includes_of_the_house();
  ASSERT_GT(includes.size(), 50U);
  for (const auto& [layer, name, file] : includes) {
    ASSERT_TRUE(kMayInclude.contains(layer)) << file << ": no such floor in the layer table";
    std::string rest = name.starts_with("panslate/") ? name.substr(9) : name;
    const auto slash = rest.find('/');
    const auto target = slash == std::string::npos ? std::string{} : rest.substr(0, slash);
    if (!kMayInclude.contains(target)) continue;  // an outside library or embedded data
    const bool allowed = target == layer || kMayInclude.at(layer).contains(target);
    EXPECT_TRUE(allowed) << file << " may not include " << name;
    const bool is_private = !name.starts_with("panslate/");
    EXPECT_TRUE(!is_private || target == layer)
        << file << " includes a private header of another floor: " << name;
  }
}

TEST(House, EachOutsideLibraryHasItsHome) {
  for (const auto& [layer, name, file] : includes_of_the_house())
    for (const auto& [prefix, homes] : kHomes)
      EXPECT_TRUE(!name.starts_with(prefix) || homes.contains(layer)) << file << " may not know " << name;
}

TEST(House, PublicHeadersStayFreeOfHeavyLibraries) {
  for (const auto& [layer, name, file] : includes_of_the_house()) {
    if (file.string().find("/include/panslate/") == std::string::npos) continue;
    for (const auto& prefix : {"libav", "nlohmann/", "CLI/", "kainjow/", "valijson/", "unicode/"})
      EXPECT_FALSE(name.starts_with(prefix)) << file << " pulls " << name << " into every user";
  }
}

// Two types of one name in one namespace are undefined behaviour that no compiler reports: the linker takes
// one of the two destructors for both.
TEST(House, EachTypeOfAHeaderHasOneHome) {
  const std::regex definition("^(?:struct|class|enum class) (\\w+(?:::\\w+)*)[^;]*$");
  std::map<std::string, std::set<std::string>> homes;
  for (const auto& top : {"include", "src"})
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(PANSLATE_SOURCE_DIR) / top)) {
      if (entry.path().extension() != ".h") continue;
      std::ifstream in(entry.path());
      std::smatch match;
      for (std::string line; std::getline(in, line);)
        if (std::regex_match(line, match, definition)) homes[match[1]].insert(entry.path().string());
    }
  ASSERT_GT(homes.size(), 50U);
  for (const auto& [type, files] : homes)
    EXPECT_EQ(files.size(), 1U) << type << " is in " << *files.begin() << " and " << *files.rbegin();
}

TEST(House, SourceFilesStaySmall) {
  for (const auto& top : {"include", "src"})
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(PANSLATE_SOURCE_DIR) / top)) {
      if (entry.path().extension() != ".h" && entry.path().extension() != ".cpp") continue;
      std::ifstream in(entry.path());
      const auto lines =
          std::count(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>(), '\n');
      EXPECT_LE(lines, 500) << entry.path() << ": one subject a file";
    }
}

}  // namespace
