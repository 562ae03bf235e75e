// The pick-ups as they are done, and their table.
#include "panslate/deliver/pickup_sheet.h"

#include <gtest/gtest.h>

#include "panslate/base/csv.h"
#include "panslate/base/text.h"

#include "support/fake_file_system.h"
#include "support/golden.h"
#include "support/sample_check.h"

namespace panslate {
namespace {

Pickup line_to_say(std::size_t requirement, std::string line, std::string instead_of, int at_ms, int room_ms,
                   int takes_ms) {
  Pickup pickup{Pickup::Kind::SayAgain, requirement, "Say: “" + line + "”", MediaTime::from_ms(at_ms), {}};
  pickup.line = std::move(line);
  pickup.instead_of = std::move(instead_of);
  pickup.room = MediaTime::from_ms(room_ms);
  pickup.takes = MediaTime::from_ms(takes_ms);
  return pickup;
}

PickupSheet sheet_of(const std::vector<Pickup>& pickups) {
  const auto sample = testing::sample_check();
  return pickup_sheet(pickups, sample.report, sample.recipe);
}

TEST(PickupSheet, OneSentenceMendsSeveralLines) {
  const auto sheet =
      sheet_of({line_to_say(0, "Add 250 g barley and 2 leeks.", "Add it.", 5'000, 3'000, 3'000),
                line_to_say(1, "Add 250 g barley and 2 leeks.", "Add it.", 5'000, 3'000, 3'000)});
  ASSERT_EQ(sheet.lines.size(), 1U);
  EXPECT_EQ(sheet.lines[0].requirements, (std::vector<std::size_t>{0, 1}));
}

TEST(PickupSheet, LinesOfOnePauseShareIt) {
  const auto sheet = sheet_of({line_to_say(0, "Add the barley.", "", 5'000, 3'000, 2'000),
                               line_to_say(1, "Add the leeks.", "", 5'000, 3'000, 2'000)});
  ASSERT_EQ(sheet.lines.size(), 2U);
  EXPECT_EQ(sheet.lines[1].room, MediaTime::from_ms(1'000));
}

TEST(PickupSheet, ShotsComeBySetUpAsInTheShotList) {
  const std::vector<Pickup> pickups{{Pickup::Kind::Film, 2, "Film close up: mustard", std::nullopt, {}},
                                    {Pickup::Kind::Film, 0, "Film close up: pearl barley", std::nullopt, {}}};
  const auto sheet = sheet_of(pickups);
  ASSERT_EQ(sheet.shots.size(), 2U);
  EXPECT_EQ(sheet.shots[0].framing, "insert");
  EXPECT_EQ(sheet.shots[0].setup, sheet.shots[1].setup);
  EXPECT_EQ(sheet.shots[0].subject, "mustard, 1 tbsp");
}

struct FitCase {
  int room_ms, takes_ms;
  const char* words;
};

TEST(PickupSheet, SaysWhetherALineFits) {
  for (const auto& [room, takes, words] :
       {FitCase{3'000, 2'500, "about 2.5 s to say, 3.0 s there: it fits"},
        FitCase{3'000, 3'200, "about 3.2 s to say, 3.0 s there: it fits"},
        FitCase{3'000, 4'120, "about 4.1 s to say, 3.0 s there: hold the picture 1.1 s longer"}})
    EXPECT_EQ(fit_in_words(MediaTime::from_ms(room), MediaTime::from_ms(takes)), words);
  EXPECT_EQ(fit_in_words(std::nullopt, MediaTime::from_ms(900)), "about 0.9 s to say");
  EXPECT_EQ(fit_in_words(std::nullopt, std::nullopt), "");
}

TEST(PickupsCsv, Golden) {
  const auto sample = testing::sample_check();
  testing::expect_golden(
      "pickups.csv",
      pickups_csv(pickup_sheet(sample.pickups, sample.report, sample.recipe), sample.report).bytes);
}

// OWASP, "CSV Injection": fields that begin with = + - @, tab or return.
TEST(PickupsCsv, NoFieldIsAFormula) {
  auto sample = testing::sample_check();
  for (const std::string start : {"=", "+", "-", "@", "\t", "\r"}) {
    sample.report.requirements[0].text = start + "1+1|cmd";
    // A tab or return at the start of a line is white space and never gets this far.
    auto pickups = std::vector<Pickup>{line_to_say(0, start + "HYPERLINK(\"x\")", start + "a", 1, 2, 3)};
    const auto csv = pickups_csv(pickup_sheet(pickups, sample.report, sample.recipe), sample.report).bytes;
    const auto table = CsvTable::read(csv);
    ASSERT_EQ(table.row_count(), 1U);
    for (std::size_t c = 0; c < 12; ++c) {
      const auto& field = table.field(0, c);
      EXPECT_TRUE(field.empty() || std::string_view("=+-@\t\r").find(field[0]) == std::string_view::npos)
          << field;
    }
    EXPECT_EQ(table.field(0, "what to say or film"), "'" + start + "HYPERLINK(\"x\")");
  }
}

TEST(PickupsCsv, IsRenewedUntilSomebodyWorksInIt) {
  const auto sample = testing::sample_check();
  const auto first = pickups_csv(sheet_of(sample.pickups), sample.report);
  const auto second = pickups_csv(sheet_of({sample.pickups[0]}), sample.report);
  testing::FakeFileSystem disk;
  disk.add("out/pickups.csv", first.bytes);
  ASSERT_TRUE(save_outputs(disk, "out", {second}, Replace::Never));
  EXPECT_EQ(disk.files().at("out/pickups.csv"), second.bytes);

  testing::FakeFileSystem hers;
  auto changed = first.bytes;
  changed.replace(changed.rfind("\r\n"), 2, " done\r\n");
  hers.add("out/pickups.csv", changed);
  const auto saved = save_outputs(hers, "out", {second}, Replace::Never);
  ASSERT_FALSE(saved);
  EXPECT_EQ(saved.error().code, ErrorCode::Exists);
  EXPECT_EQ(hers.files().at("out/pickups.csv"), changed);
  EXPECT_TRUE(save_outputs(hers, "out", {second}, Replace::WhenAsked));
}

}  // namespace
}  // namespace panslate
