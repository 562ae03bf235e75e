// Who is let in, and what of her disk can be reached: each case tries to break in one way.
#include "desk/guard.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "desk/desk_folder.h"
#include "desk/secret.h"

namespace panslate {
namespace {

using testing::DeskFolder;

struct BreakIn {
  const char* what;
  void (*change)(DeskRequest&);
  int status;
};

const BreakIn kBreakIns[] = {
    {"nothing is wrong", [](DeskRequest&) {}, 200},
    {"by the other name of this machine", [](DeskRequest& r) { r.headers["host"] = "localhost:4321"; }, 200},
    {"no token", [](DeskRequest& r) { r.path = "/state"; }, 404},
    {"the root", [](DeskRequest& r) { r.path = "/"; }, 404},
    {"another token", [](DeskRequest& r) { r.path = "/0123456789abcdee/state"; }, 404},
    {"a part of the token", [](DeskRequest& r) { r.path = "/0123456789abcde/state"; }, 404},
    {"the token and more", [](DeskRequest& r) { r.path = "/0123456789abcdef0/state"; }, 404},
    {"an empty token", [](DeskRequest& r) { r.path = "//state"; }, 404},
    {"a name of another's that leads here (DNS rebinding)",
     [](DeskRequest& r) { r.headers["host"] = "evil.example:4321"; }, 403},
    {"the same without a port", [](DeskRequest& r) { r.headers["host"] = "127.0.0.1"; }, 403},
    {"another port", [](DeskRequest& r) { r.headers["host"] = "127.0.0.1:80"; }, 403},
    {"a name that begins right", [](DeskRequest& r) { r.headers["host"] = "127.0.0.1:4321.evil.example"; },
     403},
    {"no host", [](DeskRequest& r) { r.headers.erase("host"); }, 403},
    {"another page reads", [](DeskRequest& r) { r.headers["origin"] = "https://evil.example"; }, 403},
    {"a page from a file", [](DeskRequest& r) { r.headers["origin"] = "null"; }, 403},
    {"another server on this machine", [](DeskRequest& r) { r.headers["origin"] = "http://127.0.0.1:8000"; },
     403},
    {"a link on another page", [](DeskRequest& r) { r.headers["sec-fetch-site"] = "cross-site"; }, 403},
    {"another port of this machine", [](DeskRequest& r) { r.headers["sec-fetch-site"] = "same-site"; }, 403},
    {"she typed the address", [](DeskRequest& r) { r.headers["sec-fetch-site"] = "none"; }, 200},
    {"another method", [](DeskRequest& r) { r.method = "DELETE"; }, 405},
};

TEST(Guard, LetsInThePageItselfAlone) {
  DeskFolder folder;
  for (const auto& one : kBreakIns) {
    auto request = DeskFolder::request("GET", "state");
    one.change(request);
    const auto reply = folder.desk().answer(request);
    EXPECT_EQ(reply.status, one.status) << one.what;
    EXPECT_EQ(reply.body.find("Lentil") != std::string::npos, one.status == 200) << one.what;
  }
}

TEST(Guard, ChangesNothingForAnotherPage) {
  DeskFolder folder;
  const auto before = folder.project_text();
  const auto doubt = testing::doubt_about(folder.state(), "2 tsp dried thyme");
  ASSERT_FALSE(doubt.is_null());
  const std::vector<BreakIn> attempts = {
      {"no origin", [](DeskRequest& r) { r.headers.erase("origin"); }, 403},
      {"another origin", [](DeskRequest& r) { r.headers["origin"] = "http://evil.example"; }, 403},
      {"the origin of another host that is ours",
       [](DeskRequest& r) { r.headers["origin"] = "http://localhost:4321"; }, 403},
      {"a form", [](DeskRequest& r) { r.headers["content-type"] = "text/plain"; }, 415},
      {"another token", [](DeskRequest& r) { r.path = "/x/answer"; }, 404},
      {"by an address alone", [](DeskRequest& r) { r.method = "GET"; }, 404},
  };
  for (const auto& one : attempts) {
    auto request = DeskFolder::request("POST", "answer");
    request.body = testing::answer_to(doubt, "yes").dump();
    one.change(request);
    EXPECT_EQ(folder.desk().answer(request).status, one.status) << one.what;
    EXPECT_EQ(folder.project_text(), before) << one.what;
  }
}

TEST(Guard, SendsNoFileButTheClipsOfTheProject) {
  DeskFolder folder;
  EXPECT_EQ(folder.get("clip", {{"id", "pan"}}).status, 200);
  for (const auto* id : {"", "gone", "secret.txt", "pan.mp4", "../pan", "/etc/passwd", "..%2f..%2fetc/passwd",
                         "pan/../../secret.txt", "pan ", "./pan", "\xC0\xAE\xC0\xAE/secret.txt"})
    EXPECT_EQ(folder.get("clip", {{"id", id}}).status, 404) << id;
  for (const auto* route : {"../secret.txt", "secret.txt", "project.json", "recipe.md", "./desk.js",
                            "desk.js/", "%2e%2e/secret.txt", "clip/../secret.txt", "..", "desk.html"})
    EXPECT_EQ(folder.get(route).status, 404) << route;
  EXPECT_EQ(folder.get("still", {{"clip", "pan"}, {"ms", "1500"}}).status, 200);
  EXPECT_EQ(folder.get("still", {{"clip", "gone"}, {"ms", "1500"}}).status, 404);
  for (const auto* ms : {"", "-1", "1e3", "99999999999999999999", "1;2"})
    EXPECT_EQ(folder.get("still", {{"clip", "pan"}, {"ms", ms}}).status, 400) << ms;
  // Far past the end is the last picture, not a number that runs over.
  EXPECT_NE(folder.get("still", {{"clip", "pan"}, {"ms", "9223372036854775807"}}).body.find(" 20000"),
            std::string::npos);
}

TEST(Guard, SendsAClipInStretches) {
  DeskFolder folder;
  const auto part = folder.get("clip", {{"id", "pan"}}, "bytes=26-51");
  EXPECT_EQ(part.status, 206);
  EXPECT_EQ(testing::bytes_of(part.file), "abcdefghijklmnopqrstuvwxyz");
  EXPECT_NE(std::find(part.headers.begin(), part.headers.end(),
                      std::pair<std::string, std::string>("Content-Range", "bytes 26-51/1000")),
            part.headers.end());
  const auto past = folder.get("clip", {{"id", "pan"}}, "bytes=1000-");
  EXPECT_EQ(past.status, 416);
  EXPECT_NE(std::find(past.headers.begin(), past.headers.end(),
                      std::pair<std::string, std::string>("Content-Range", "bytes */1000")),
            past.headers.end());
  // Not a clip any more: what took its name is not sent.
  std::filesystem::remove(folder.path() / "pan.mp4");
  std::filesystem::create_directory(folder.path() / "pan.mp4");
  EXPECT_EQ(folder.get("clip", {{"id", "pan"}}).status, 404);
}

TEST(Guard, EveryReplyCarriesThePolicy) {
  DeskFolder folder;
  auto stranger = DeskFolder::request("GET", "state");
  stranger.headers["host"] = "evil.example";
  for (const auto& reply : {folder.get(""), folder.get("desk.js"), folder.get("state"), folder.get("nothing"),
                            folder.desk().answer(stranger)}) {
    std::map<std::string, std::string> headers(reply.headers.begin(), reply.headers.end());
    const auto& policy = headers["Content-Security-Policy"];
    EXPECT_NE(policy.find("default-src 'none'"), std::string::npos);
    EXPECT_EQ(policy.find("unsafe"), std::string::npos);
    EXPECT_NE(policy.find("frame-ancestors 'none'"), std::string::npos);
    EXPECT_EQ(headers["X-Content-Type-Options"], "nosniff");
    EXPECT_EQ(headers["Referrer-Policy"], "no-referrer");  // the token is in the address
    EXPECT_EQ(headers.count("Access-Control-Allow-Origin"), 0U);
  }
}

TEST(Guard, ThePageHoldsNoScriptNorStyleOfItsOwn) {
  DeskFolder folder;
  const auto page = folder.get("").body;
  for (const auto* forbidden : {"<style", "style=", "onclick", "http://", "https://", "javascript:"})
    EXPECT_EQ(page.find(forbidden), std::string::npos) << forbidden;
}

TEST(Guard, TokensAreLongAndNeverTheSame) {
  const auto one = new_desk_token();
  EXPECT_EQ(one.size(), 64U);
  EXPECT_EQ(one.find_first_not_of("0123456789abcdef"), std::string::npos);
  EXPECT_NE(one, new_desk_token());
  EXPECT_TRUE(same_secret("ab", "ab"));
  EXPECT_FALSE(same_secret("ab", "a"));
  EXPECT_FALSE(same_secret("", "a"));
  EXPECT_FALSE(same_secret("ab", "ac"));
}

// What stands in a command line opens the page once, and does nothing else.
TEST(Guard, OpensOnceWithoutTellingItsToken) {
  testing::DeskFolder folder;
  const auto address = folder.desk().opening_address();
  EXPECT_EQ(address.find(testing::DeskFolder::kToken), std::string::npos);
  const std::string front = "http://127.0.0.1:4321";
  ASSERT_TRUE(address.starts_with(front + "/"));
  auto asked = testing::DeskFolder::request("GET", "");
  asked.path = address.substr(front.size());
  auto elsewhere = asked;
  elsewhere.path += "state";
  EXPECT_EQ(folder.desk().answer(elsewhere).status, 404);
  auto foreign = asked;
  foreign.headers["host"] = "evil.example:4321";
  EXPECT_EQ(folder.desk().answer(foreign).status, 403);
  auto posted = testing::DeskFolder::request("POST", "");
  posted.path = asked.path;
  EXPECT_EQ(folder.desk().answer(posted).status, 404);
  const auto opened = folder.desk().answer(asked);
  EXPECT_EQ(opened.status, 303);
  const auto location = std::find_if(opened.headers.begin(), opened.headers.end(),
                                     [](const auto& header) { return header.first == "Location"; });
  ASSERT_NE(location, opened.headers.end());
  EXPECT_EQ(location->second, "/" + std::string(testing::DeskFolder::kToken) + "/");
  EXPECT_EQ(folder.desk().answer(asked).status, 404);
}

}  // namespace
}  // namespace panslate
