// The food table and the words around it. Trade facts: common practice, no source, unless told.
#include "panslate/kitchen/food.h"

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

std::vector<std::string_view> names_of(const Food& food) {
  auto names = food.other_names;
  names.insert(names.begin(), food.name);
  return names;
}

// Lines of the file itself, so that a row the reader would drop is seen.
std::vector<std::vector<std::string>> file_rows() {
  std::ifstream in(fs::path(PANSLATE_SOURCE_DIR) / "src/kitchen/data/foods.csv");
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(in, line);) rows.push_back(split(line, ','));
  return rows;
}

TEST(Foods, EveryRowIsWhole) {
  const auto rows = file_rows();
  ASSERT_GE(rows.size(), 651U);
  ASSERT_EQ(rows.size() - 1, all_foods().size());
  std::set<std::string> names;
  for (std::size_t i = 1; i < rows.size(); ++i) names.insert(rows[i][0]);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto& row = rows[i];
    ASSERT_EQ(row.size(), 7U) << row[0];
    EXPECT_FALSE(row[0].empty()) << "line " << i + 1;
    EXPECT_FALSE(row[5].empty()) << row[0] << " has no source";
    for (const auto& kind : split(row[2], '|'))
      EXPECT_TRUE(food_kind_from_spelling(kind)) << row[0] << ": " << kind;
    EXPECT_TRUE(row[3].empty() || names.contains(row[3])) << row[0] << " is under " << row[3];
    EXPECT_EQ(all_foods()[i - 1].broader.has_value(), !row[3].empty()) << row[0];
    const auto meant = row[4].empty() ? 0U : split(row[4], '|').size();
    EXPECT_EQ(all_foods()[i - 1].may_mean.size(), meant) << row[0];
  }
}

TEST(Foods, NoNameStandsInTwoRows) {
  std::map<std::string, std::string> row_of_name;
  for (const auto& food : all_foods())
    for (const auto name : names_of(food)) {
      std::string key;
      for (const auto& word : split(fold_accents(name), ' '))
        for (const auto& part : split(word, '-')) key += name_stem(part) + " ";
      const auto [it, added] = row_of_name.emplace(key, food.name);
      EXPECT_TRUE(added) << name << " stands in " << it->second << " and " << food.name;
    }
}

TEST(Foods, EachNameFindsItsRow) {
  for (const auto& food : all_foods())
    for (const auto name : names_of(food)) {
      const auto* found = find_food(name);
      ASSERT_NE(found, nullptr) << name;
      EXPECT_EQ(found->name, food.name) << name;
    }
}

}  // namespace
}  // namespace panslate
