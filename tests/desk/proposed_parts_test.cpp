// Proposed parts of clips on the page: shown while they hold, taken one by one, taken back.
#include <string>

#include <gtest/gtest.h>

#include "desk/desk_folder.h"

namespace panslate {
namespace {

using nlohmann::json;
using testing::DeskFolder;

class ProposedParts : public ::testing::Test {
 protected:
  ProposedParts() { folder_.tell_two_steps_in_the_clip(); }
  json proposed() { return json::parse(folder_.get("proposed").body); }
  static json wanted(const json& part) {
    return {
        {"clip", part.at("clip")}, {"in", part.at("in")}, {"out", part.at("out")}, {"step", part.at("step")}};
  }

  DeskFolder folder_;
};

TEST_F(ProposedParts, AreTakenOneByOneAndTakenBack) {
  const auto before = folder_.project_text();
  const auto all = proposed();
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[1].at("step"), folder_.state().at("recipe").at("steps")[2].at("key"));
  EXPECT_LE(all[1].at("in").get<double>(), 10.0);
  EXPECT_NE(all[1].at("said").get<std::string>().find("simmer"), std::string::npos) << all[1];

  const auto reply = folder_.post("take", wanted(all[1]));
  ASSERT_EQ(reply.status, 200) << reply.body;
  const auto parts = json::parse(reply.body).at("state").at("parts");
  ASSERT_EQ(parts.size(), 1U);
  EXPECT_EQ(parts[0].at("in"), all[1].at("in"));
  EXPECT_EQ(parts[0].at("steps"), json::array({all[1].at("step")}));
  // The other one stays; what was taken is hers now.
  ASSERT_EQ(proposed().size(), 1U);
  EXPECT_EQ(wanted(proposed()[0]), wanted(all[0]));
  EXPECT_EQ(folder_.post("take", wanted(all[1])).status, 409);

  ASSERT_EQ(folder_.post("undo", json::object()).status, 200);
  EXPECT_EQ(folder_.project_text(), before);
  EXPECT_EQ(proposed(), all);
}

TEST_F(ProposedParts, OfOtherKindsAreRefusedAndNothingIsWritten) {
  const auto before = folder_.project_text();
  auto shifted = wanted(proposed()[0]);
  shifted["out"] = shifted.at("out").get<double>() + 1;
  auto elsewhere = wanted(proposed()[0]);
  elsewhere["step"] = wanted(proposed()[1]).at("step");
  struct Case {
    const char* what;
    json body;
    int status;
  };
  const Case cases[] = {
      {"another end", shifted, 409},
      {"another step", elsewhere, 409},
      {"no such clip", {{"clip", "gone"}, {"in", 0}, {"out", 1}, {"step", "x"}}, 409},
      {"no step", {{"clip", "pan"}, {"in", 0}, {"out", 1}}, 400},
      {"no number", {{"clip", "pan"}, {"in", "0"}, {"out", 1}, {"step", "x"}}, 400},
      {"before the clip", {{"clip", "pan"}, {"in", -1}, {"out", 1}, {"step", "x"}}, 400},
      {"no object", json::array(), 400},
  };
  for (const auto& one : cases) EXPECT_EQ(folder_.post("take", one.body).status, one.status) << one.what;
  EXPECT_EQ(folder_.project_text(), before);
}

TEST_F(ProposedParts, AreNoneWhereTheFootageWasNotRead) {
  folder_.log.reset();
  EXPECT_EQ(proposed(), json::array());
}

}  // namespace
}  // namespace panslate
