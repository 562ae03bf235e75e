// A whole sitting at the desk, by keys alone, in Chromium: what she decided is there afterwards, whatever
// ends in the middle.
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "desk/desk_in_chromium.h"

namespace panslate {
namespace {

using nlohmann::json;
using testing::kHands;
using testing::result_of;

constexpr int kFoods = 24;

std::string long_recipe() {
  std::string recipe = "# Soup of many things\n\n## Ingredients\n\n";
  const char* foods[] = {"carrots",  "leeks",     "potatoes", "onions",    "parsnips",  "celery",
                         "fennel",   "cabbage",   "spinach",  "kale",      "peas",      "beetroot",
                         "turnips",  "pumpkin",   "tomatoes", "peppers",   "aubergine", "cauliflower",
                         "broccoli", "mushrooms", "lentils",  "chickpeas", "barley",    "rice"};
  for (int i = 0; i < kFoods; ++i) recipe += "- " + std::to_string(100 + 10 * i) + " g " + foods[i] + "\n";
  return recipe + "\n## Method\n\n1. Boil all of it for 40 minutes.\n2. Serve.\n";
}

TEST(Sitting, LosesNothingWhereTheDeskEndsInTheMiddle) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  desk.folder.write("recipe.md", long_recipe());
  ASSERT_GE(desk.folder.state().at("doubts").size(), 20U);
  // Ten parts, then twenty answers; half-way through each the desk ends, and after each the page is loaded
  // anew.
  const auto told = result_of(desk, "mark", std::string(kHands) + R"js(
const stage = sessionStorage.getItem("stage") || "mark";
const then = (next, hash) => { sessionStorage.setItem("stage", next); location.hash = hash; location.reload(); };
if (stage === "mark") {
  await until(() => !document.querySelector("video")); // the clip is none: its stills stand for it
  for (let i = 1; i <= 10; i += 1) {
    press("i"); press("]"); press("o");
    await until(() => document.querySelectorAll(".part-list li").length === i);
    if (i === 5) await fetch("end");
    press("a"); press("]");
  }
  then("answer", "#answer");
} else if (stage === "answer") {
  for (let i = 1; i <= 20; i += 1) {
    const card = by("card-title");
    press(i % 3 ? "y" : "n");
    await until(() => by("card-title") !== card);
    if (i === 10) await fetch("end");
  }
  then("look", "#answer");
} else {
  tell(`${document.querySelectorAll(".given li").length} answers`);
  location.hash = "#mark";
  await until(() => document.querySelector(".part-list"));
  tell(`${document.querySelectorAll(".part-list li").length} parts`);
}
)js",
                              120'000);
  EXPECT_EQ(told, "20 answers; 10 parts");
  const auto project = json::parse(desk.folder.project_text());
  ASSERT_EQ(project.at("segments").size(), 10U);
  for (const auto& part : project.at("segments")) EXPECT_LT(part.at("in"), part.at("out"));
  EXPECT_EQ(project.at("answers").size(), 20U);
}

// One answer about her cups settles every line in cups; the page says how many.
TEST(Sitting, TellsHowManyOthersAnAnswerSettled) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  desk.folder.write(
      "recipe.md",
      "# Pot\n\n## Ingredients\n\n- 2 cups red lentils\n- 2 cups sugar\n- 2 tbsp dried thyme\n\n## "
      "Method\n\n1. Boil all of it.\n");
  desk.folder.write(
      "captions.vtt",
      "WEBVTT\n\n00:01.000 --> 00:03.000\nFive hundred millilitres of red lentils\n\n00:04.000 --> "
      "00:06.000\nand five hundred millilitres of sugar\n\n00:07.000 --> 00:09.000\nand forty "
      "millilitres of dried thyme.\n");
  const auto state = desk.folder.state();
  const auto before = state.at("doubts").size();
  const auto reply = desk.folder.post("measures", {{"measures", "au"}, {"was", ""}});
  ASSERT_EQ(reply.status, 200) << reply.body;
  const auto after = json::parse(reply.body);
  const auto settled = after.at("settled").get<std::size_t>();
  EXPECT_EQ(settled, before - after.at("state").at("doubts").size());
  if (!state.at("measures").at("ask").get<bool>()) GTEST_SKIP() << "no line depends on it";
  ASSERT_EQ(desk.folder.post("undo", json::object()).status, 200);
  const auto told = result_of(desk, "answer", std::string(kHands) + R"js(
await until(() => document.querySelector('[data-focus="measures-au"]'));
document.querySelector('[data-focus="measures-au"]').click();
await until(() => by("told").textContent.startsWith("Saved"));
tell(by("told").textContent);
)js",
                              8'000);
  EXPECT_EQ(told, settled == 0 ? "Saved."
                               : "Saved. It settled " + std::to_string(settled) +
                                     (settled == 1 ? " other." : " others."));
}

TEST(Sitting, KeepsUpWithSixtyClips) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  auto project = json::parse(desk.folder.project_text());
  project["media"] = json::array();
  project["segments"] = json::array();
  project.erase("captions");
  for (int i = 1; i <= 60; ++i) {
    const auto id = "clip" + std::to_string(i);
    project["media"].push_back({{"id", id}, {"file", "pan.mp4"}, {"role", "camera"}});
    for (int part = 0; part < 3; ++part)
      project["segments"].push_back({{"id", id + "-" + std::to_string(part)},
                                     {"clip", id},
                                     {"in", "0:0" + std::to_string(2 * part)},
                                     {"out", "0:0" + std::to_string(2 * part + 1)}});
  }
  desk.folder.write("project.json", project.dump());
  const auto told = result_of(desk, "mark", std::string(kHands) + R"js(
tell(`${document.querySelectorAll(".clip-button").length} clips`);
for (let i = 0; i < 70; i += 1) press("n");
tell(by("clip-title").textContent);
tell(document.activeElement.dataset.focus);
press("j"); press("j");
tell(document.querySelector(".part-list [aria-pressed=true]").dataset.focus);
)js",
                              30'000);
  EXPECT_EQ(told, "60 clips; clip60; clip-clip60; part-clip60-1");
}

// At a phone's width nothing lies beside the page, and what she hits with a wet finger is large (44 CSS
// pixels: WCAG 2.2, 2.5.5).
TEST(Sitting, FitsAPhone) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  for (const auto* page : {"answer", "recipe", "mark", "stove"}) {
    testing::ServedDesk desk;
    const auto told = result_of(desk, page, std::string(kHands) + R"js(
await wait(800);
const wide = [...document.querySelectorAll("main *, header *")].filter((one) => one.getBoundingClientRect().right > innerWidth + 1 && !one.closest(".clips, .quiet, .skip"));
tell(document.documentElement.scrollWidth > innerWidth ? `${document.documentElement.scrollWidth} of ${innerWidth}` : "fits");
tell(wide.length ? wide.map((one) => one.tagName + "." + one.className).slice(0, 3).join(" ") : "all in it");
const small = [...document.querySelectorAll(".stove .tick, .turns button")].filter((one) => one.getBoundingClientRect().height < 44);
tell(small.length ? "small: " + small[0].textContent : "large");
)js",
                                4'000);
    EXPECT_EQ(told, "fits; all in it; large") << page;
  }
}

// A clip that no browser plays: its copy is asked for once, how far it is is told, and she works on
// meanwhile.
TEST(Sitting, PlaysTheCopyWhereTheClipDoesNot) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  desk.folder.proxy = {DeskProxy::State::Making, 40, {}, {}};
  const auto told = result_of(desk, "mark", std::string(kHands) + R"js(
await until(() => by("told").textContent.includes("40 %"));
tell(document.querySelector("video") ? "waits" : "stills meanwhile");
press("i"); press("]"); press("o");
await until(() => document.querySelector(".part-list li"));
tell("marked");
const seen = []; // it is none either, so it is not there for long
new MutationObserver(() => { const video = document.querySelector("video"); if (video) seen.push(video.getAttribute("src")); }).observe(by("main"), { childList: true });
await fetch("ready");
await until(() => seen.length);
tell(seen[0]);
)js",
                              20'000);
  EXPECT_EQ(told, "stills meanwhile; marked; clip?id=pan&amp;as=proxy");
  EXPECT_EQ(desk.folder.proxies_wanted, 1);
}

}  // namespace
}  // namespace panslate
