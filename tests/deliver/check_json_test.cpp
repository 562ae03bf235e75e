#include "panslate/deliver/check_json.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/golden.h"
#include "support/sample_check.h"

namespace panslate {
namespace {

using nlohmann::json;

TEST(CheckJson, IsTheContractsForm) {
  const auto sample = testing::sample_check();
  testing::expect_golden("check.json", check_json(sample.report, sample.recipe));
}

// The keys that programs rely on, from the contract of the check report, version 2.
TEST(CheckJson, HasEveryKeyOfTheContract) {
  const auto sample = testing::sample_check();
  const auto report = json::parse(check_json(sample.report, sample.recipe));
  for (const auto* key : {"panslate_report", "recipe", "duration", "requirements", "extras", "heard",
                          "warnings", "corrections", "summary"})
    EXPECT_TRUE(report.contains(key)) << key;
  for (const auto* key : {"title", "file", "serves", "makes", "measures"})
    EXPECT_TRUE(report["recipe"].contains(key)) << key;
  for (const auto& requirement : report["requirements"])
    for (const auto* key : {"id", "key", "kind", "line", "text", "name", "optional", "amounts", "said",
                            "shown", "on_text", "covered", "why"})
      EXPECT_TRUE(requirement.contains(key)) << key;
  for (const auto* key : {"start", "end", "precision", "text", "amount", "alternates", "refs", "media"})
    EXPECT_TRUE(report["requirements"][0]["said"]["mentions"][0].contains(key)) << key;
  for (const auto* key : {"start", "end", "text", "amount", "alternates", "role", "requirement"})
    EXPECT_TRUE(report["heard"][0].contains(key)) << key;
  for (const auto* key : {"code", "level", "message", "line", "at"})
    EXPECT_TRUE(report["warnings"][0].contains(key)) << key;
  for (const auto* key : {"start", "end", "heard", "meant", "requirement", "sure", "media"})
    EXPECT_TRUE(report["corrections"][0].contains(key)) << key;
  EXPECT_EQ(report["corrections"][0]["requirement"], "ingredient:2");
  EXPECT_EQ(report["summary"], (json{{"requirements", 6}, {"covered", 2}, {"attention", 2}}));
  EXPECT_EQ(report["duration"], 90.5);
  EXPECT_EQ(report["heard"][0]["requirement"], "ingredient:1");
}

TEST(CheckJson, WritesAmountsInFull) {
  auto sample = testing::sample_check();
  Amount range = testing::amount_of(*Ratio::make(5, 4), Unit::Cup);
  range.to = *Ratio::make(3, 2);
  range.size = SpoonSize::Heaped;
  range.about = true;
  Amount cans = testing::amount_of(2, Unit::Can);
  cans.each = Package{400, Unit::Gram};
  Amount oven = testing::amount_of(160, Unit::Celsius);
  oven.fan = true;
  Amount taste;
  Amount pasties = testing::amount_of(24, Unit::Other);
  pasties.noun = "pasties";
  sample.report.requirements[0].amounts = {range, cans, oven, taste, pasties};
  const auto report = json::parse(check_json(sample.report, sample.recipe));
  const auto& amounts = report["requirements"][0]["amounts"];
  EXPECT_EQ(amounts[0],
            json::parse(R"({"value": 1.25, "exact": "5/4", "unit": "cup", "to": 1.5, "to_exact": "3/2",
                                        "size": "heaped", "about": true})"));
  EXPECT_EQ(amounts[1],
            json::parse(R"({"value": 2, "exact": "2", "unit": "can", "each": {"value": 400, "unit": "g"}})"));
  EXPECT_EQ(amounts[2], json::parse(R"({"value": 160, "exact": "160", "unit": "C", "fan": true})"));
  EXPECT_EQ(amounts[3], json::parse(R"({"value": null, "exact": null, "unit": "piece"})"));
  EXPECT_EQ(amounts[4], json::parse(R"({"value": 24, "exact": "24", "unit": "pasties"})"));
}

TEST(CheckJson, HostileTextStaysText) {
  auto sample = testing::sample_check();
  const std::string hostile = "\"}],\\ </script>\x01\xFF\n\u2028";
  sample.recipe.title = hostile;
  sample.report.requirements[0].text = hostile;
  const auto report = json::parse(check_json(sample.report, sample.recipe));
  EXPECT_EQ(report["recipe"]["title"], "\"}],\\ </script>\x01\uFFFD\n\u2028");
  EXPECT_EQ(report["requirements"].size(), 6U);
}

}  // namespace
}  // namespace panslate
