// The same over a socket, judged by another client: the library's own, and bare bytes.
#include <chrono>
#include <string>
#include <thread>
#include <vector>

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <sys/socket.h>
#include <unistd.h>

#include "panslate/desk/desk_server.h"

#include "desk/served_desk.h"

namespace panslate {
namespace {

using testing::ServedDesk;

httplib::Client client_of(const ServedDesk& desk) {
  return httplib::Client("127.0.0.1", desk.served.port());
}

class Connection {
 public:
  explicit Connection(int port) : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    connected_ = ::connect(socket_.get(), reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0;
  }
  [[nodiscard]] bool connected() const { return connected_; }
  /// Everything that comes back until the other side closes.
  [[nodiscard]] std::string say(const std::string& bytes) const {
    if (::send(socket_.get(), bytes.data(), bytes.size(), MSG_NOSIGNAL) < 0) return {};
    std::string got;
    char piece[4096];
    for (ssize_t n = 0; (n = ::recv(socket_.get(), piece, sizeof piece, 0)) > 0;)
      got.append(piece, static_cast<std::size_t>(n));
    return got;
  }

  /// Sends pieces until the other side hangs up, for no more than `most` bytes; how many went out.
  [[nodiscard]] std::size_t pour(const std::string& head, const std::string& piece, std::size_t most) const {
    std::size_t sent = 0;
    for (auto next = head; sent < most; next = piece) {
      const auto n = ::send(socket_.get(), next.data(), next.size(), MSG_NOSIGNAL);
      if (n < 0) break;
      sent += static_cast<std::size_t>(n);
    }
    return sent;
  }

 private:
  Descriptor socket_;
  bool connected_ = false;
};

TEST(ServeDesk, SendsThePageAndStretchesOfClips) {
  ServedDesk desk;
  auto client = client_of(desk);
  const auto page = client.Get(desk.path(""));
  ASSERT_TRUE(page);
  EXPECT_EQ(page->status, 200);
  EXPECT_NE(page->body.find("<title>"), std::string::npos);
  EXPECT_NE(page->get_header_value("Content-Security-Policy").find("default-src 'none'"), std::string::npos);
  const auto clip = desk.path("clip?id=pan");
  const auto whole = client.Get(clip);
  ASSERT_TRUE(whole);
  EXPECT_EQ(whole->status, 200);
  EXPECT_EQ(whole->body.size(), testing::DeskFolder::kClipSize);
  EXPECT_EQ(whole->get_header_value("Accept-Ranges"), "bytes");
  struct Case {
    const char* range;
    int status;
    const char* content_range;
    std::size_t size;
  };
  // RFC 9110, 14.1.2 and 15.5.17.
  for (const auto& one :
       {Case{"bytes=0-25", 206, "bytes 0-25/1000", 26}, Case{"bytes=990-2000", 206, "bytes 990-999/1000", 10},
        Case{"bytes=-5", 206, "bytes 995-999/1000", 5}, Case{"bytes=1000-", 416, "bytes */1000", 25},
        Case{"bytes=0-1,5-6", 200, "", 1000}, Case{"bytes=a-b", 200, "", 1000},
        Case{"items=0-5", 200, "", 1000}, Case{"bytes=500-100", 200, "", 1000}}) {
    const auto part = client.Get(clip, {{"Range", one.range}});
    ASSERT_TRUE(part) << one.range;
    EXPECT_EQ(part->status, one.status) << one.range;
    EXPECT_EQ(part->get_header_value("Content-Range"), one.content_range) << one.range;
    EXPECT_EQ(part->body.size(), one.size) << one.range;
    EXPECT_EQ(part->get_header_value_count("Content-Security-Policy"), 1U) << one.range;
  }
  const auto head = client.Head(clip);
  ASSERT_TRUE(head);
  EXPECT_EQ(head->get_header_value("Content-Length"), "1000");
  // The same connection still says what it should.
  EXPECT_EQ(client.Get(desk.path("state"))->status, 200);
}

TEST(ServeDesk, ReachesNoOtherFileHoweverItIsWritten) {
  ServedDesk desk;
  for (const auto* target : {"/../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt",
                             "/%2e%2e%2fsecret.txt", "//secret.txt", "/....//secret.txt"}) {
    const Connection connection(desk.served.port());
    ASSERT_TRUE(connection.connected());
    const auto got = connection.say("GET /" + std::string(testing::DeskFolder::kToken) + target +
                                    " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(desk.served.port()) +
                                    "\r\nConnection: close\r\n\r\n");
    EXPECT_TRUE(got.starts_with("HTTP/1.1 404")) << target << ": " << got.substr(0, 40);
    EXPECT_EQ(got.find("not for the page"), std::string::npos) << target;
  }
}

TEST(ServeDesk, RefusesStrangersAndLargeBodies) {
  ServedDesk desk;
  const auto before = desk.folder.project_text();
  auto client = client_of(desk);
  EXPECT_EQ(client.Get("/")->status, 404);
  EXPECT_EQ(client.Get(desk.path("state"), {{"Host", "evil.example"}})->status, 403);
  const auto origin = "http://127.0.0.1:" + std::to_string(desk.served.port());
  const auto large =
      client.Post(desk.path("answer"), {{"Origin", origin}}, std::string(70'000, ' '), "application/json");
  ASSERT_TRUE(large);
  EXPECT_EQ(large->status, 413);
  const auto doubt =
      testing::doubt_about(nlohmann::json::parse(client.Get(desk.path("state"))->body), "2 tsp dried thyme");
  const auto body = testing::answer_to(doubt, "yes").dump();
  EXPECT_EQ(
      client.Post(desk.path("answer"), {{"Origin", "http://evil.example"}}, body, "application/json")->status,
      403);
  EXPECT_EQ(desk.folder.project_text(), before);
  EXPECT_EQ(client.Post(desk.path("answer"), {{"Origin", origin}}, body, "application/json")->status, 200);
  EXPECT_NE(desk.folder.project_text(), before);
}

// What the desk would hold in memory is what it takes in: a stranger's is left unread, hers above a bound
// too.
TEST(ServeDesk, TakesNoBodyWithoutEnd) {
  ServedDesk desk;
  const auto port = std::to_string(desk.served.port());
  const auto head = [&](const std::string& path, const std::string& how_long) {
    return "POST " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + port + "\r\nOrigin: http://127.0.0.1:" + port +
           "\r\nContent-Type: application/json\r\n" + how_long + "\r\n";
  };
  const std::string chunk = "10000\r\n" + std::string(0x10000, ' ') + "\r\n";
  const std::size_t most = std::size_t{64} << 20U;
  struct Case {
    const char* path;
    const char* how_long;
    const char* reply;
  };
  for (const auto& one :
       {Case{"answer", "Transfer-Encoding: chunked\r\n", "HTTP/1.1 411"}, Case{"answer", "", "HTTP/1.1 411"},
        Case{"answer", "Content-Length: 300000000\r\n", "HTTP/1.1 413"},
        Case{"", "Transfer-Encoding: chunked\r\n", "HTTP/1.1 404"}, Case{"", "", "HTTP/1.1 404"},
        Case{"", "Content-Length: 300000000\r\n", "HTTP/1.1 404"}}) {
    const auto path = *one.path == '\0' ? "/wrong/answer" : desk.path(one.path);
    const Connection poured(desk.served.port());
    // What stands in the system's own buffers was not taken in by anybody.
    EXPECT_LT(poured.pour(head(path, one.how_long), chunk, most), most / 2) << path << " " << one.how_long;
    const Connection asked(desk.served.port());
    const auto got = asked.say(head(path, one.how_long) + std::string(0x50000, ' '));
    EXPECT_TRUE(got.starts_with(one.reply)) << path << " " << one.how_long << got.substr(0, 40);
  }
}

TEST(ServeDesk, WaitsForASlowBodyOnlySoLong) {
  ServedDesk desk;
  const auto port = std::to_string(desk.served.port());
  const Connection slow(desk.served.port());
  ASSERT_GT(slow.pour("POST " + desk.path("answer") + " HTTP/1.1\r\nHost: 127.0.0.1:" + port +
                          "\r\nOrigin: http://127.0.0.1:" + port +
                          "\r\nContent-Type: application/json\r\nContent-Length: 60000\r\n\r\n",
                      "", 1),
            0U);
  // One byte at a time: no silence that the read timeout would notice.
  int bytes = 0;
  for (; bytes < 100; ++bytes) {
    if (slow.pour(" ", "", 1) == 0) break;
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  }
  EXPECT_LT(bytes, 50);
  EXPECT_GT(bytes, 3);
}

TEST(ServeDesk, OutlivesWhatIsNoRequest) {
  ServedDesk desk;
  for (const auto& bytes : std::vector<std::string>{
           std::string("\r\n\r\n"), std::string("GET\r\n\r\n"), std::string(100, '\xFF') + "\r\n\r\n",
           "GET /" + std::string(20'000, 'a') + " HTTP/1.1\r\n\r\n",
           "GET / HTTP/1.1\r\nRange: bytes=" + std::string(8'000, ',') + "\r\n\r\n",
           "POST / HTTP/1.1\r\nContent-Length: -5\r\nConnection: close\r\n\r\n"}) {
    const Connection connection(desk.served.port());
    ASSERT_TRUE(connection.connected());
    static_cast<void>(connection.say(bytes));
  }
  std::string many = "bytes=0-0";
  for (int i = 0; i < 1900; ++i) many += ",0-0";
  auto client = client_of(desk);
  const auto whole = client.Get(desk.path("clip?id=pan"), {{"Range", many}});
  ASSERT_TRUE(whole);
  EXPECT_EQ(whole->body.size(), testing::DeskFolder::kClipSize);
}

TEST(ServeDesk, IsOnThisMachineAlone) {
  ServedDesk desk;
  const Descriptor socket(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0));
  // 127.0.0.2 is this machine too, by another address: only what listens on all of them answers there.
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(static_cast<std::uint16_t>(desk.served.port()));
  to.sin_addr.s_addr = htonl(INADDR_LOOPBACK + 1);
  EXPECT_NE(::connect(socket.get(), reinterpret_cast<const sockaddr*>(&to), sizeof to), 0);
}

TEST(ServeDesk, TellsThatAPortIsTaken) {
  ServedDesk desk;
  DeskServing second;
  second.port = desk.served.port();
  second.listening = [](const DeskPorts&) { FAIL() << "two servers at one port"; };
  second.stopped = [] { return true; };
  const auto status = serve_desk(second);
  ASSERT_FALSE(status);
  EXPECT_EQ(status.error().code, ErrorCode::Usage);
}

}  // namespace
}  // namespace panslate
