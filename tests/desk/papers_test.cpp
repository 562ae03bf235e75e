// What else the desk hands out: what the other commands write, the strip of a clip, the copy that plays.
#include "desk/papers.h"

#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "desk/clip_strip.h"
#include "desk/desk_folder.h"
#include "desk/playable.h"

namespace panslate {
namespace {

using nlohmann::json;
using testing::DeskFolder;

TEST(Papers, AreWhatTheCommandsWrite) {
  DeskFolder folder;
  struct Case {
    const char* name;
    const char* type;
    const char* holds;
  };
  for (const auto& one :
       {Case{"report.html", "text/html", "Lentil pot"}, Case{"shot-list.html", "text/html", "Lentil pot"},
        Case{"pickups.csv", "text/plain", "thyme"}, Case{"overlay.srt", "text/plain", "-->"},
        Case{"overlay.vtt", "text/plain", "WEBVTT"}}) {
    const auto reply = folder.get("paper", {{"name", one.name}});
    EXPECT_EQ(reply.status, 200) << one.name;
    EXPECT_TRUE(reply.type.starts_with(one.type)) << one.name;
    EXPECT_NE(reply.body.find(one.holds), std::string::npos) << one.name;
  }
  for (const auto* name : {"", "report", "../report.html", "project.json", "secret.txt", "report.html/"})
    EXPECT_EQ(folder.get("paper", {{"name", name}}).status, 404) << name;
}

// Their style is in them, so their policy is another one: still no script, and nothing from elsewhere.
TEST(Papers, RunNoScript) {
  DeskFolder folder;
  for (const auto* name : {"report.html", "shot-list.html"}) {
    const auto reply = folder.get("paper", {{"name", name}});
    std::size_t policies = 0;
    for (const auto& [header, value] : reply.headers)
      if (header == "Content-Security-Policy") {
        ++policies;
        EXPECT_TRUE(value.starts_with("default-src 'none'")) << value;
        EXPECT_EQ(value.find("script-src"), std::string::npos) << value;
        EXPECT_NE(value.find("frame-ancestors 'none'"), std::string::npos) << value;
      }
    EXPECT_EQ(policies, 1U) << name;
  }
}

TEST(ClipStrip, TellsShotsSpeechAndFaults) {
  EXPECT_EQ(json::parse(clip_strip(std::nullopt)), json({{"logged", false}}));
  ClipLog log;
  const auto range = [](int begin, int end) {
    return TimeRange{MediaTime::from_ms(begin), MediaTime::from_ms(end)};
  };
  log.shots.push_back({range(0, 4'200), 0, 104, std::nullopt, std::nullopt});
  log.shots.push_back({range(4'200, 9'000), 105, 224, ShotStart::Cut, std::nullopt});
  log.speech.push_back(range(1'000, 3'000));
  log.faults.push_back({FaultKind::Frozen, range(5'000, 6'000), ""});
  EXPECT_EQ(
      json::parse(clip_strip(log)),
      json::parse(R"({"logged": true, "shots": [[0.0, 4.2, ""], [4.2, 9.0, "cut"]], "speech": [[1.0, 3.0]],
                            "faults": [[5.0, 6.0, "frozen"]]})"));
  DeskFolder folder;
  EXPECT_EQ(json::parse(folder.get("strip", {{"clip", "pan"}}).body).at("logged"), false);
  folder.log = log;
  EXPECT_EQ(json::parse(folder.get("strip", {{"clip", "pan"}}).body).at("shots").size(), 2U);
  EXPECT_EQ(folder.get("strip", {{"clip", "gone"}}).status, 404);
}

TEST(Playable, IsWhatBrowsersHaveInCommon) {
  struct Case {
    const char* container;
    const char* picture;
    const char* sound;
    bool plays;
  };
  // "Web media containers" and the codec guides, developer.mozilla.org.
  for (const auto& one :
       {Case{"mov,mp4,m4a,3gp,3g2,mj2", "h264", "aac", true},
        Case{"mov,mp4,m4a,3gp,3g2,mj2", "h264", "", true}, Case{"matroska,webm", "vp9", "opus", true},
        Case{"wav", "", "pcm_s16le", true}, Case{"mov,mp4,m4a,3gp,3g2,mj2", "", "aac", true},
        // A QuickTime film with PCM plays without its sound; HEVC without its picture.
        Case{"mov,mp4,m4a,3gp,3g2,mj2", "h264", "pcm_s16le", false},
        Case{"mov,mp4,m4a,3gp,3g2,mj2", "hevc", "aac", false},
        Case{"mov,mp4,m4a,3gp,3g2,mj2", "prores", "aac", false}, Case{"avi", "h264", "aac", false},
        Case{"mpegts", "h264", "aac", false}, Case{"mpeg", "mpeg2video", "mp2", false},
        Case{"matroska,webm", "h264", "aac", false}, Case{"wav", "", "pcm_s32be", false},
        Case{"", "", "", false}}) {
    ClipFacts facts;
    facts.container = one.container;
    if (*one.picture != '\0') {
      facts.picture.emplace();
      facts.picture->codec = one.picture;
    }
    if (*one.sound != '\0') {
      facts.sound.emplace_back();
      facts.sound.back().codec = one.sound;
    }
    EXPECT_EQ(plays_in_browsers(facts), one.plays) << one.container << " " << one.picture << " " << one.sound;
    if (one.plays && facts.picture) {
      facts.picture->hdr = true;
      EXPECT_FALSE(plays_in_browsers(facts)) << "grey and pale";
    }
  }
}

TEST(ProxyRoute, SendsTheCopyOnceItIsThere) {
  DeskFolder folder;
  folder.write("copy.mp4", "0123456789");
  folder.proxy = {DeskProxy::State::Making, 34, {}, {}};
  EXPECT_EQ(json::parse(folder.get("proxy", {{"clip", "pan"}}).body),
            json::parse(R"({"is": "making", "percent": 34, "why": ""})"));
  EXPECT_EQ(folder.proxies_wanted, 0) << "looking begins nothing";
  EXPECT_EQ(folder.get("clip", {{"id", "pan"}, {"as", "proxy"}}).status, 404);
  EXPECT_EQ(folder.post("proxy", {{"clip", "pan"}}).status, 200);
  EXPECT_EQ(folder.proxies_wanted, 1);
  EXPECT_EQ(folder.post("proxy", {{"clip", "../pan"}}).status, 404);
  EXPECT_EQ(folder.post("proxy", {{"clip", "gone"}}).status, 404);
  EXPECT_EQ(folder.post("proxy", {{"clip", 5}}).status, 400);
  EXPECT_EQ(folder.proxies_wanted, 1);
  folder.proxy = {DeskProxy::State::Ready, 100, {}, folder.path() / "copy.mp4"};
  const auto part = folder.get("clip", {{"id", "pan"}, {"as", "proxy"}}, "bytes=2-5");
  EXPECT_EQ(part.status, 206);
  EXPECT_EQ(part.type, "video/mp4");
  EXPECT_EQ(testing::bytes_of(part.file), "2345");
  EXPECT_EQ(folder.get("clip", {{"id", "pan"}}).status, 200) << "the clip itself is there all the same";
}

}  // namespace
}  // namespace panslate
