// The pages: whole goldens, no text that becomes markup, and the verdict of HTML Tidy.

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/deliver/output_folder.h"
#include "panslate/deliver/report_page.h"
#include "panslate/deliver/shot_list_files.h"

#include "support/golden.h"
#include "support/page_checks.h"
#include "support/sample_check.h"

namespace panslate {
namespace {

ReportPageInput input_of(const testing::SampleCheck& sample) {
  ReportPageInput input{&sample.report, &sample.recipe, &sample.pickups};
  Still still;
  still.jpeg = "\xFF\xD8 not a real picture";
  still.width = 320;
  still.height = 180;
  input.segments = {{"s1", "pan-1", testing::ms_range(2'000, 9'500), MediaTime::from_ms(12'000), {0}, still},
                    {"s2", "pan-2", testing::ms_range(0, 4'000), std::nullopt, {1}, std::nullopt},
                    {"s3", "pan-3", testing::ms_range(0, 4'000), std::nullopt, {}, std::nullopt}};
  return input;
}

std::size_t times(std::string_view text, std::string_view part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string_view::npos; at = text.find(part, at + part.size()))
    ++count;
  return count;
}

TEST(ReportPage, Golden) {
  const auto sample = testing::sample_check();
  testing::expect_golden("report.html", testing::without_style(report_page(input_of(sample))));
}

TEST(ReportPage, CarriesItsMarkAndNeedsNothingElse) {
  const auto sample = testing::sample_check();
  const auto page = report_page(input_of(sample));
  EXPECT_NE(page.find(kPageMark), std::string::npos);
  for (const auto* outside : {"http:", "https:", "<script ", "<link", "url(", "@import", "src=\"", "fetch("})
    EXPECT_EQ(page.find(outside), std::string::npos) << outside;
  EXPECT_EQ(times(page, "<script"), 1U);
}

TEST(ReportPage, PicturesAreWithinThePage) {
  const auto sample = testing::sample_check();
  // base64 of FF D8 20 6E 6F 74: "/9ggbm90".
  EXPECT_NE(report_page(input_of(sample)).find("href=\"data:image/jpeg;base64,/9ggbm90"), std::string::npos);
}

TEST(ReportPage, AMomentOfTheFilmStandsBesideItsLine) {
  const auto sample = testing::sample_check();
  auto input = input_of(sample);
  Still still;
  still.jpeg = "moment";
  still.time = MediaTime::from_ms(61'500);
  input.moments.emplace(2, still);
  EXPECT_NE(report_page(input).find("aria-label=\"The film at 1:01\""), std::string::npos);
}

TEST(ReportPage, HasNoSectionWithoutContent) {
  testing::SampleCheck sample;
  sample.recipe = testing::sample_recipe();
  const ReportPageInput input{&sample.report, &sample.recipe, &sample.pickups};
  const auto page = report_page(input);
  for (const auto* heading : {"id=\"attention\"", "id=\"jobs\"", "id=\"extras\"", "id=\"noticed\"",
                              "id=\"film\"", "id=\"decide\"", "class=\"changes\"", "<video"})
    EXPECT_EQ(testing::without_style(page).find(heading), std::string::npos) << heading;
}

const std::string kHostile =
    "</style></title><script>alert(1)</script>\"'><img src=x onerror=y>{{title}}{{{css}}}&amp;";

testing::SampleCheck hostile_check() {
  auto sample = testing::sample_check();
  sample.recipe.title = sample.recipe.yields[0].text = kHostile;
  sample.recipe.file = kHostile;
  for (auto& ingredient : sample.recipe.ingredients)
    ingredient.text = ingredient.name = ingredient.group = kHostile;
  for (auto& step : sample.recipe.steps) {
    step.text = step.part = kHostile;
    step.cues = {kHostile};
  }
  for (auto& requirement : sample.report.requirements) {
    requirement.text = requirement.name = requirement.why = kHostile;
    for (auto* channel : {&requirement.said, &requirement.on_text})
      for (auto& mention : channel->mentions) mention.text = mention.media = kHostile;
  }
  for (auto& extra : sample.report.extras) extra.text = extra.name = kHostile;
  for (auto& warning : sample.report.warnings) warning.message = kHostile;
  for (auto& pickup : sample.pickups) pickup.what = pickup.media = kHostile;
  return sample;
}

TEST(ReportPage, HostileTextStaysText) {
  const auto sample = hostile_check();
  auto input = input_of(sample);
  for (auto& segment : input.segments) segment.id = segment.clip = kHostile;
  const auto page = report_page(input);
  EXPECT_EQ(times(page, "<script"), 1U);
  EXPECT_EQ(page.find("<img"), std::string::npos);
  EXPECT_NE(page.find("{{title}}{{{css}}}&amp;amp;"), std::string::npos) << "text is no template";
  EXPECT_EQ(testing::has_tidy() ? testing::tidy_verdict(page) : "", "");
}

TEST(Pages, HtmlTidyFindsNothing) {
  if (!testing::has_tidy()) GTEST_SKIP() << "no tidy here";
  const auto sample = testing::sample_check();
  EXPECT_EQ(testing::tidy_verdict(report_page(input_of(sample))), "");
  EXPECT_EQ(
      testing::tidy_verdict(shot_list_page(make_shot_list(sample.recipe, nullptr), sample.recipe, nullptr)),
      "");
}

TEST(ShotListFiles, Goldens) {
  const auto recipe = testing::sample_recipe();
  const auto list = make_shot_list(recipe, nullptr);
  testing::expect_golden("shot-list.html", testing::without_style(shot_list_page(list, recipe, nullptr)));
  testing::expect_golden("shot-list.csv", shot_list_csv(list, recipe, nullptr));
  testing::expect_golden("shot-list.txt", shot_list_text(list, recipe, nullptr, 80));
  testing::expect_golden("shot-list.json", shot_list_json(list, recipe));
}

TEST(ShotListFiles, PlainTextKeepsItsWidth) {
  const auto recipe = testing::sample_recipe();
  for (const std::size_t width : {40U, 60U, 80U}) {
    const auto text = shot_list_text(make_shot_list(recipe, nullptr), recipe, nullptr, width);
    for (const auto& line : split_lines(text)) EXPECT_LE(character_count(line.text), width) << line.text;
  }
}

TEST(ShotListFiles, HostileTextStaysText) {
  const auto recipe = hostile_check().recipe;
  const auto list = make_shot_list(recipe, nullptr);
  const auto page = shot_list_page(list, recipe, nullptr);
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_EQ(page.find("<img"), std::string::npos);
  EXPECT_EQ(testing::has_tidy() ? testing::tidy_verdict(page) : "", "");
  auto formula = testing::sample_recipe();
  formula.steps[0].text = "=1+1";
  const auto csv = shot_list_csv(make_shot_list(formula, nullptr), formula, nullptr);
  for (const auto& line : split_lines(csv)) EXPECT_EQ(line.text.find(",=1"), std::string::npos) << line.text;
}

TEST(ShotListFiles, FilmedPartsAreNamed) {
  const auto recipe = testing::sample_recipe();
  Project project;
  project.media = {{"pan", "pan.mp4", MediaRole::Camera, {}, {}}};
  Segment segment;
  segment.id = "s1";
  segment.range = testing::ms_range(12'000, 20'400);
  LastingReference step;
  step.index = 1;
  segment.steps = {step};
  project.segments = {segment};
  const auto csv = shot_list_csv(make_shot_list(recipe, &project), recipe, &project);
  EXPECT_NE(csv.find("\"s1 (pan, 0:12–0:20)\""), std::string::npos) << csv;
}

}  // namespace
}  // namespace panslate
