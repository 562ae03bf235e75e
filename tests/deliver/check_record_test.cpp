#include "panslate/deliver/check_record.h"

#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace panslate {
namespace {

using Strings = std::vector<std::string>;

CheckReport report(const std::vector<std::tuple<std::string, std::string, Verdict>>& lines) {
  CheckReport out;
  for (const auto& [key, text, said] : lines) {
    Requirement line;
    line.key = key;
    line.text = text;
    line.said.verdict = said;
    out.requirements.push_back(line);
  }
  return out;
}

Strings told(const std::vector<ReportChange>& changes) {
  Strings out;
  for (const auto& change : changes)
    out.push_back(change.what + ": " + change.before + " -> " + change.after);
  return out;
}

const std::vector<RecordedClip> kClips = {{"pan", "7-aa"}, {"voice", "9-bb"}};

TEST(CheckRecord, TellsWhatChanged) {
  const auto before = report({{"a", "200 g flour", Verdict::Missing}, {"b", "1 egg", Verdict::Match}});
  const auto record = check_record(before, kClips, "usual");
  EXPECT_TRUE(changes_since(record, before, kClips, "usual").empty());
  const auto after = report({{"c", "a pinch of salt", Verdict::Match}, {"a", "250 g flour", Verdict::Match}});
  EXPECT_EQ(
      told(changes_since(record, after, {{"pan", "8-cc"}, {"oven", "5-dd"}}, "usual")),
      (Strings{"a pinch of salt: not in the recipe -> new in the recipe",
               "The recipe: 200 g flour -> 250 g flour", "250 g flour: not said -> said",
               "1 egg: in the recipe -> no longer in the recipe",
               "Clip pan: as it was -> another recording or export", "Clip oven: not in the project -> new",
               "Clip voice: in the project -> no longer there"}));
  EXPECT_TRUE(changes_since(record, after, kClips, "edit").empty()) << "another footage was looked in";
}

TEST(CheckRecord, TakesNothingElseForARecord) {
  const auto now = report({{"a", "200 g flour", Verdict::Match}});
  const auto whole = check_record(now, kClips, "usual");
  EXPECT_TRUE(changes_since("", now, kClips, "usual").empty());
  EXPECT_TRUE(changes_since("[1, 2]", now, kClips, "usual").empty());
  EXPECT_TRUE(
      changes_since(R"({"form": 1, "looked_in": "usual", "lines": [1], "clips": []})", now, {}, "usual")
          .empty());
  EXPECT_TRUE(
      changes_since(R"({"form": 2, "looked_in": "usual", "lines": [], "clips": []})", now, {}, "usual")
          .empty());
  for (std::size_t cut = 0; cut + 2 < whole.size(); ++cut)
    EXPECT_TRUE(changes_since(whole.substr(0, cut), now, kClips, "usual").empty()) << cut;
}

}  // namespace
}  // namespace panslate
