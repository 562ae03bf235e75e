// The page in her hands: a module of the test presses its keys in Chromium, and tells what came of it in
// data-result of the page.
#include <string>

#include <gtest/gtest.h>

#include "desk/desk_in_chromium.h"

namespace panslate {
namespace {

using testing::kHands;
using testing::result_of;

TEST(DeskInHand, CountsThePaceUntilTheAnswer) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  const auto open = desk.folder.state().at("doubts").size();
  ASSERT_GE(open, 5U);
  // Three answers, each after two minutes: as many times two minutes are left as there are questions then.
  const auto told = result_of(desk, "answer", std::string(kHands) + R"js(
for (let i = 0; i < 3; i += 1) {
  await wait(120000);
  const card = by("card-title");
  press("n");
  await until(() => by("card-title") !== card);
}
tell(by("counts").textContent);
)js",
                              500'000);
  const auto left = desk.folder.state().at("doubts").size();
  EXPECT_NE(told.find("about " + std::to_string(2 * left) + " minutes left at your pace"), std::string::npos)
      << told;
}

TEST(DeskInHand, DropsNoKeyWhileItSaves) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  const auto before = desk.folder.project_text();
  // Yes, pressed twice, answers one question; undo, pressed before the answer is saved, takes it back.
  const auto told = result_of(desk, "answer", std::string(kHands) + R"js(
press("y"); press("y"); press("u");
await until(() => !by("redo").disabled);
tell("undo: " + by("undo").title);
tell("redo: " + by("redo").title.slice(0, 5));
)js",
                              20'000);
  EXPECT_TRUE(told.starts_with("undo: ; redo: ")) << told;
  EXPECT_NE(told.find("yes"), std::string::npos) << told;
  EXPECT_EQ(desk.folder.project_text(), before);
}

// Another tab saves while she has a list open: the page waits until she leaves it.
TEST(DeskInHand, DrawsNothingOverWhatSheHolds) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  auto text = desk.folder.project_text();
  text.insert(text.find("\"mine\""),
              "\"segments\": [{\"id\": \"s1\", \"clip\": \"pan\", \"in\": \"0:01\", \"out\": \"0:02\", "
              "\"step\": \"Stir in the sugar\"}],\n  ");
  desk.folder.write("project.json", text);
  const auto told = result_of(desk, "mark", std::string(kHands) + R"js(
const part = () => document.querySelector('[data-focus="part-s1"]');
await until(() => !document.querySelector("video")); // the clip is none: the page goes on with stills
part().click();
const list = document.querySelector('[data-focus="step"]');
list.focus();
const state = await (await fetch("state")).json();
const doubt = state.doubts[0];
await fetch("answer", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(
  { line: doubt.line, about: doubt.about, is: "yes", written: doubt.written, found: doubt.found, was: "" }) });
await wait(8000);
tell(list.isConnected && document.activeElement === list ? "still in hand" : "drawn over");
list.blur();
await wait(500);
tell(list.isConnected ? "not drawn" : "drawn");
)js",
                              40'000);
  EXPECT_EQ(told, "still in hand; drawn");
}

// The browser's video, as it is while it plays: it tells of its time seldom, but knows it always.
TEST(DeskInHand, MarksWhereTheFilmIs) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  const auto told = result_of(desk, "mark", R"js(
let time = 0;
addEventListener("error", (event) => { if (event.target.tagName === "VIDEO") event.stopImmediatePropagation(); }, true);
Object.defineProperty(HTMLMediaElement.prototype, "currentTime", { get: () => time, set: (to) => { time = to; } });
)js" + std::string(kHands) + R"js(
time = 7.28;
press("i");
tell(by("told").textContent);
time = 9;
document.querySelector("video").dispatchEvent(new Event("timeupdate"));
tell(document.querySelector(".now").textContent);
press("]"); press("]", { repeat: true }); press("]", { repeat: true });
tell(time.toFixed(2));
press("i", { repeat: true });
tell(document.querySelector(".kind").textContent.includes("from 0:07.280") ? "the same part" : "another part");
)js",
                              8'000);
  EXPECT_EQ(
      told,
      "A new part begins at 0:07.280. Now press O where it ends.; 0:09.000 of 0:20; 12.00; the same part");
}

// By keys alone: look at what is proposed, take one, leave one, take it back.
TEST(DeskInHand, TakesWhatIsProposed) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  desk.folder.tell_two_steps_in_the_clip();
  const auto before = desk.folder.project_text();
  const auto told = result_of(desk, "mark", std::string(kHands) + R"js(
const offers = () => document.querySelectorAll(".proposed .line-button").length;
const parts = () => document.querySelectorAll('[data-focus^="part-"]').length;
await until(() => offers() === 2);
tell(`${offers()} proposed, ${parts()} parts`);
press("g"); press("g");
await until(() => document.querySelector(".kind").textContent.includes("proposed"));
tell(document.querySelector('.proposed [aria-pressed="true"] .written').textContent.slice(0, 24));
press("y");
await until(() => parts() === 1 && offers() === 1);
tell(`${offers()} proposed, ${parts()} parts`);
press("g"); press("x");
await until(() => offers() === 0);
tell(`${offers()} proposed, ${parts()} parts`);
press("u");
await until(() => parts() === 0 && offers() === 1);
tell(`${offers()} proposed, ${parts()} parts`);
)js",
                              20'000);
  EXPECT_EQ(told,
            "2 proposed, 0 parts; 3. Simmer the lentils wi; 1 proposed, 1 parts; 0 proposed, 1 parts; "
            "1 proposed, 0 parts");
  EXPECT_EQ(desk.folder.project_text(), before);
}

TEST(DeskInHand, StopsItsOwnMomentsOnly) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  const auto told = result_of(desk, "answer", R"js(
let time = 0, paused = true, stops = 0;
const on = HTMLMediaElement.prototype;
Object.defineProperty(on, "currentTime", { get: () => time, set: (to) => { time = to; } });
Object.defineProperty(on, "readyState", { get: () => 4 });
Object.defineProperty(on, "paused", { get: () => paused });
on.play = async () => { paused = false; };
on.pause = () => { if (!paused) stops += 1; paused = true; };
)js" + std::string(kHands) + R"js(
const { player } = await import("./player.js");
const play = player([{ id: "pan", picture: true, plays: true }], () => {});
const happens = (...names) => names.forEach((name) => play.video.dispatchEvent(new Event(name)));
const begin = (at) => { paused = true; play.play({ clip: "pan", begin: at, end: at + 3 }); happens("seeking", "seeked"); };
begin(100); time = 103.5; happens("timeupdate"); tell(`played: ${stops}`);
// She goes back a little by hand: the rest is hers.
begin(100); time = 95; happens("seeking", "seeked"); time = 103.5; happens("timeupdate"); tell(`went by hand: ${stops}`);
// A moment a long way from the one before is the page's own seek.
begin(900); time = 903.5; happens("timeupdate"); tell(`played: ${stops}`);
)js",
                              8'000);
  EXPECT_EQ(told, "played: 1; went by hand: 1; played: 2");
}

TEST(DeskInHand, KeepsTheScreenAwakeBesideTheStove) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  testing::ServedDesk desk;
  const auto told = result_of(desk, "stove", R"js(
const locks = [];
Object.defineProperty(navigator, "wakeLock", { value: { request: async () => {
  const lock = new EventTarget();
  lock.release = () => { lock.gone = true; lock.dispatchEvent(new Event("release")); };
  locks.push(lock);
  return lock;
} } });
)js" + std::string(kHands) + R"js(
await until(() => locks.length === 1);
tell(`${locks.length} asked for`);
locks[0].release(); // as the browser does where the page is hidden
document.dispatchEvent(new Event("visibilitychange"));
await wait(100);
tell(`${locks.length} asked for`);
location.hash = "#answer";
await wait(100);
tell(locks[1].gone ? "let go" : "held");
document.dispatchEvent(new Event("visibilitychange"));
await wait(100);
tell(`${locks.length} asked for`);
)js",
                              8'000);
  EXPECT_EQ(told, "1 asked for; 2 asked for; let go; 2 asked for");
}

// What is focused first must not push the way back out of sight. (Questions begin at the question, also where
// one about her cups stands before it.)
TEST(DeskInHand, BeginsEachPageWithItsTabs) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
  for (const auto* page : {"recipe", "mark", "stove"}) {
    testing::ServedDesk desk;
    const auto told = result_of(
        desk, page, std::string(kHands) + "await wait(500); tell(`${Math.round(scrollY)}`);\n", 4'000);
    EXPECT_EQ(told, "0") << page;
  }
}

}  // namespace
}  // namespace panslate
