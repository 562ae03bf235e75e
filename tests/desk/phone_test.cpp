// The way in over her network: each case tries to get in without the code, or with one that is no longer
// good.
#include <chrono>
#include <string>

#include <gtest/gtest.h>
#include <httplib.h>
#include <nlohmann/json.hpp>

#include "panslate/desk/desk.h"

#include "desk/desk_folder.h"
#include "desk/phone_code.h"
#include "desk/served_desk.h"

namespace panslate {
namespace {

using nlohmann::json;
using testing::DeskFolder;
using Outcome = PhoneCode::Outcome;

constexpr const char* kHome = "192.168.1.20";
constexpr int kHomePort = 4444;
const std::string kPeer = "192.168.1.7";
const std::string kFront = "192.168.1.20:4444";

std::string wrong(const std::string& code) {
  return (code[0] == '9' ? "0" : "9") + code.substr(1);
}

TEST(PhoneCode, IsGoodOnce) {
  PhoneCode code;
  const auto digits = code.shown().code;
  EXPECT_EQ(digits.size(), 6U);
  EXPECT_EQ(digits.find_first_not_of("0123456789"), std::string::npos);
  EXPECT_EQ(code.enter(wrong(digits), kPeer), Outcome::Wrong);
  EXPECT_EQ(code.enter(digits.substr(0, 3) + " " + digits.substr(3), kPeer), Outcome::Right);
  EXPECT_EQ(code.shown().code, "");
  EXPECT_EQ(code.enter(digits, kPeer), Outcome::Void);
  EXPECT_EQ(code.enter("", kPeer), Outcome::Void);
}

// Whoever types wrong codes tires himself, and not her phone.
TEST(PhoneCode, EndsAfterAFewTriesOfOnePeer) {
  PhoneCode code;
  const auto digits = code.shown().code;
  for (int i = 1; i < PhoneCode::kTries; ++i)
    EXPECT_EQ(code.enter(wrong(digits), "192.168.1.66"), Outcome::Wrong) << i;
  EXPECT_FALSE(code.shown().too_often);
  EXPECT_EQ(code.enter(wrong(digits), "192.168.1.66"), Outcome::TooOften);
  EXPECT_EQ(code.enter(digits, "192.168.1.66"), Outcome::TooOften);
  EXPECT_TRUE(code.shown().too_often);
  EXPECT_EQ(code.shown().code, digits);
  EXPECT_EQ(code.enter(wrong(digits), kPeer), Outcome::Wrong);
  EXPECT_EQ(code.enter(digits, kPeer), Outcome::Right);
  code.renew();
  EXPECT_FALSE(code.shown().too_often);
  EXPECT_EQ(code.enter(code.shown().code, "192.168.1.66"), Outcome::Right);
}

// Fifty of a million, however many addresses somebody takes for himself.
TEST(PhoneCode, EndsAfterFiftyTriesOfAll) {
  PhoneCode code;
  const auto digits = code.shown().code;
  int tries = 0;
  for (int peer = 0; peer < 250 && !code.shown().code.empty(); ++peer, ++tries)
    static_cast<void>(code.enter(wrong(digits), "192.168.1." + std::to_string(peer)));
  EXPECT_EQ(tries, 50);
  EXPECT_EQ(code.enter(digits, kPeer), Outcome::Void);
  EXPECT_TRUE(code.shown().too_often);
  code.renew();
  EXPECT_EQ(code.enter(code.shown().code, kPeer), Outcome::Right);
}

TEST(PhoneCode, GrowsOld) {
  auto now = PhoneCode::Clock::time_point{};
  PhoneCode code([&] { return now; });
  const auto digits = code.shown().code;
  EXPECT_EQ(code.shown().left, PhoneCode::kGood);
  now += PhoneCode::kGood - std::chrono::seconds(1);
  EXPECT_EQ(code.shown().code, digits);
  now += std::chrono::seconds(1);
  EXPECT_EQ(code.shown().code, "");
  EXPECT_EQ(code.enter(digits, kPeer), Outcome::Void);
  code.renew();
  EXPECT_EQ(code.enter(code.shown().code, kPeer), Outcome::Right);
}

// The folder's desk, shared.
struct SharedDesk {
  DeskFolder folder;
  Desk desk{
      real_file_system(), folder.work(),
      Desk::Setup{folder.path() / "project.json", DeskFolder::kToken, DeskFolder::kPort, kHome, kHomePort}};

  static DeskRequest from_home(const std::string& method, const std::string& path) {
    DeskRequest request;
    request.from_home = true;
    request.method = method;
    request.path = path;
    request.headers.emplace("host", kFront);
    if (method == "POST") {
      request.headers.emplace("origin", "http://" + kFront);
      request.headers.emplace("content-type", "application/json");
    }
    return request;
  }
  DeskReply enter(const std::string& code, const std::string& peer = kPeer) {
    auto request = from_home("POST", "/code");
    request.peer = peer;
    request.body = json{{"code", code}}.dump();
    return desk.answer(request);
  }
  /// As after the code was typed: "/TOKEN/".
  std::string let_in() {
    const auto to = json::parse(enter(desk.phone_code()).body).at("to").get<std::string>();
    return to.substr(0, to.find('#'));
  }
};

TEST(Phone, IsLetInByItsCodeAlone) {
  SharedDesk shared;
  EXPECT_EQ(shared.desk.phone_address(), "http://" + kFront + "/");
  const auto page = shared.desk.answer(SharedDesk::from_home("GET", "/"));
  EXPECT_EQ(page.status, 200);
  EXPECT_NE(page.body.find("id=\"code\""), std::string::npos);
  EXPECT_EQ(page.body.find("Lentil"), std::string::npos);
  for (const auto* file : {"/phone.js", "/desk.css", "/desk.svg"})
    EXPECT_EQ(shared.desk.answer(SharedDesk::from_home("GET", file)).status, 200) << file;
  // Nothing else is there before, and nothing that opens this machine's own desk.
  const auto token = std::string(DeskFolder::kToken);
  for (const auto& path :
       {std::string("/state"), std::string("/desk.js"), std::string("//state"), "/" + token + "/state",
        "/" + token + "/", std::string("/phone"), std::string("/code/state"), std::string()})
    EXPECT_EQ(shared.desk.answer(SharedDesk::from_home("GET", path)).status, 404) << path;
  const auto code = shared.desk.phone_code();
  EXPECT_EQ(shared.enter(wrong(code)).status, 403);
  const auto entered = shared.enter(code);
  ASSERT_EQ(entered.status, 200);
  const auto to = json::parse(entered.body).at("to").get<std::string>();
  EXPECT_EQ(to.find(token), std::string::npos);
  ASSERT_TRUE(to.ends_with("/#stove"));
  const auto front = to.substr(0, to.find('#'));
  EXPECT_EQ(shared.desk.answer(SharedDesk::from_home("GET", front + "state")).status, 200);
  EXPECT_NE(shared.desk.answer(SharedDesk::from_home("GET", front + "state")).body.find("Lentil"),
            std::string::npos);
  EXPECT_EQ(shared.enter(code).status, 403);
  // It is the phone's way in, not this machine's.
  auto here = DeskFolder::request("GET", "state");
  here.path = front + "state";
  EXPECT_EQ(shared.desk.answer(here).status, 404);
  // Nor does the phone see or make codes for others.
  EXPECT_EQ(shared.desk.answer(SharedDesk::from_home("GET", front + "phone")).status, 404);
  EXPECT_EQ(shared.desk.answer(SharedDesk::from_home("POST", front + "phone/again")).status, 404);
}

TEST(Phone, DecidesAsTheDeskDoes) {
  SharedDesk shared;
  const auto front = shared.let_in();
  const auto state = json::parse(shared.desk.answer(SharedDesk::from_home("GET", front + "state")).body);
  auto request = SharedDesk::from_home("POST", front + "answer");
  request.body = testing::answer_to(testing::doubt_about(state, "2 tsp dried thyme"), "yes").dump();
  EXPECT_EQ(shared.desk.answer(request).status, 200);
  EXPECT_NE(shared.folder.project_text().find("\"answers\""), std::string::npos);
}

struct BreakIn {
  const char* what;
  void (*change)(DeskRequest&);
  int status;
};
const BreakIn kBreakIns[] = {
    {"a name of another's that leads here (DNS rebinding)",
     [](DeskRequest& r) { r.headers["host"] = "evil.example:4444"; }, 403},
    {"this machine's name", [](DeskRequest& r) { r.headers["host"] = "127.0.0.1:4444"; }, 403},
    {"localhost", [](DeskRequest& r) { r.headers["host"] = "localhost:4444"; }, 403},
    {"this machine's address", [](DeskRequest& r) { r.headers["host"] = "127.0.0.1:4321"; }, 403},
    {"without a port", [](DeskRequest& r) { r.headers["host"] = "192.168.1.20"; }, 403},
    {"a name that begins right", [](DeskRequest& r) { r.headers["host"] = "192.168.1.20:4444.evil.example"; },
     403},
    {"no host", [](DeskRequest& r) { r.headers.erase("host"); }, 403},
    {"another page", [](DeskRequest& r) { r.headers["origin"] = "http://evil.example"; }, 403},
    {"another of this machine", [](DeskRequest& r) { r.headers["origin"] = "http://127.0.0.1:4321"; }, 403},
    {"a page from a file", [](DeskRequest& r) { r.headers["origin"] = "null"; }, 403},
    {"a link on another page", [](DeskRequest& r) { r.headers["sec-fetch-site"] = "cross-site"; }, 403},
};

// Neither with the code nor behind it; and nobody who is refused uses up a try.
TEST(Phone, AnswersToItsOwnAddressAlone) {
  SharedDesk shared;
  for (int round = 0; round < 2; ++round)
    for (const auto& one : kBreakIns) {
      auto request = SharedDesk::from_home("POST", "/code");
      request.body =
          json{{"code", round == 0 ? wrong(shared.desk.phone_code()) : shared.desk.phone_code()}}.dump();
      one.change(request);
      EXPECT_EQ(shared.desk.answer(request).status, one.status) << one.what;
      EXPECT_TRUE(shared.desk.refusal(request)) << one.what;
    }
  for (const auto& one :
       std::vector<BreakIn>{{"a form", [](DeskRequest& r) { r.headers["content-type"] = "text/plain"; }, 415},
                            {"no origin", [](DeskRequest& r) { r.headers.erase("origin"); }, 403},
                            {"by an address", [](DeskRequest& r) { r.method = "GET"; }, 404},
                            {"no code", [](DeskRequest& r) { r.body = "{}"; }, 400},
                            {"no JSON", [](DeskRequest& r) { r.body = "code=1"; }, 400},
                            {"a long one",
                             [](DeskRequest& r) {
                               r.body = json{{"code", std::string(41, '1')}}.dump();
                             },
                             400}}) {
    auto request = SharedDesk::from_home("POST", "/code");
    request.body = json{{"code", shared.desk.phone_code()}}.dump();
    one.change(request);
    EXPECT_EQ(shared.desk.answer(request).status, one.status) << one.what;
  }
  const auto front = shared.let_in();
  for (const auto& one : kBreakIns) {
    auto request = SharedDesk::from_home("GET", front + "state");
    one.change(request);
    EXPECT_EQ(shared.desk.answer(request).status, one.status) << one.what;
  }
}

TEST(Phone, HasANewCodeFromTheDeskAlone) {
  SharedDesk shared;
  const auto asked = [&](const char* method, const char* route) {
    return shared.desk.answer(DeskFolder::request(method, route));
  };
  const auto first = json::parse(asked("GET", "phone").body);
  EXPECT_EQ(first.at("code"), shared.desk.phone_code());
  EXPECT_EQ(first.at("address"), shared.desk.phone_address());
  for (int i = 0; i < PhoneCode::kTries; ++i) EXPECT_EQ(shared.enter(wrong(first.at("code"))).status, 403);
  EXPECT_EQ(shared.enter(first.at("code")).status, 403);
  EXPECT_EQ(json::parse(asked("GET", "phone").body).at("too_often"), true);
  EXPECT_EQ(shared.enter(first.at("code"), "192.168.1.8").status, 200);
  EXPECT_EQ(json::parse(asked("GET", "phone").body).at("code"), "");
  EXPECT_EQ(asked("GET", "phone/again").status, 404);
  EXPECT_EQ(shared.desk.phone_code(), "");
  const auto again = json::parse(asked("POST", "phone/again").body);
  EXPECT_EQ(shared.enter(again.at("code")).status, 200);
}

TEST(Phone, IsPutOutByANewCode) {
  SharedDesk shared;
  const auto before = shared.let_in();
  EXPECT_EQ(shared.desk.answer(SharedDesk::from_home("GET", before + "state")).status, 200);
  EXPECT_EQ(shared.desk.answer(DeskFolder::request("POST", "phone/again")).status, 200);
  EXPECT_EQ(shared.desk.answer(SharedDesk::from_home("GET", before + "state")).status, 404);
  const auto after = shared.let_in();
  EXPECT_NE(after, before);
  EXPECT_EQ(shared.desk.answer(SharedDesk::from_home("GET", after + "state")).status, 200);
  // This machine's own desk stays as it is.
  EXPECT_EQ(shared.desk.answer(DeskFolder::request("GET", "state")).status, 200);
}

TEST(Phone, IsNotThereUnlessAskedFor) {
  DeskFolder folder;
  EXPECT_EQ(folder.desk().phone_address(), "");
  EXPECT_EQ(folder.desk().phone_code(), "");
  EXPECT_EQ(folder.get("phone").body, "null");
  EXPECT_EQ(folder.desk().answer(SharedDesk::from_home("GET", "/")).status, 403);
  auto with_token = DeskFolder::request("GET", "state");
  with_token.from_home = true;
  EXPECT_EQ(folder.desk().answer(with_token).status, 403);
}

// Over sockets: 127.0.0.2 stands for the home network.
TEST(Phone, ComesInByItsOwnDoor) {
  DeskFolder folder;
  std::unique_ptr<Desk> desk;
  const auto get_ready = [&](const DeskPorts& ports) {
    desk = std::make_unique<Desk>(
        real_file_system(), folder.work(),
        Desk::Setup{folder.path() / "project.json", DeskFolder::kToken, ports.here, "127.0.0.2", ports.home});
  };
  testing::Served served([&](const DeskRequest& asked) { return desk->refusal(asked); },
                         [&](const DeskRequest& asked) { return desk->answer(asked); }, "127.0.0.2",
                         get_ready);
  httplib::Client here("127.0.0.1", served.port());
  httplib::Client home("127.0.0.2", served.home_port());
  const auto route = "/" + std::string(DeskFolder::kToken) + "/state";
  EXPECT_EQ(here.Get(route)->status, 200);
  // The door counts, whatever the request says of itself.
  EXPECT_EQ(home.Get(route)->status, 404);
  EXPECT_EQ(home.Get(route, {{"Host", "127.0.0.1:" + std::to_string(served.port())}})->status, 403);
  EXPECT_EQ(here.Get("/")->status, 404);
  EXPECT_EQ(home.Get("/")->status, 200);
  const auto origin = "http://127.0.0.2:" + std::to_string(served.home_port());
  const auto entered =
      home.Post("/code", {{"Origin", origin}}, json{{"code", desk->phone_code()}}.dump(), "application/json");
  ASSERT_EQ(entered->status, 200);
  const auto to = json::parse(entered->body).at("to").get<std::string>();
  const auto front = to.substr(0, to.find('#'));
  EXPECT_EQ(home.Get(front + "state")->status, 200);
  EXPECT_EQ(here.Get(front + "state")->status, 404);
  // Another address of this machine has no door.
  httplib::Client elsewhere("127.0.0.3", served.port());
  EXPECT_FALSE(elsewhere.Get(route));
}

}  // namespace
}  // namespace panslate
