// What strangers in her network can do to the desk without its code: each case does it, over bare sockets.
// 127.0.0.2 stands for the home address; who comes from 127.0.0.N is another peer.
#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include "desk/served_desk.h"

namespace panslate {
namespace {

using std::chrono::milliseconds;
using Clock = std::chrono::steady_clock;

constexpr const char* kHome = "127.0.0.2";
constexpr std::size_t kOfOnePeer = 8;
constexpr std::size_t kInAll = 64;

sockaddr_in at(const std::string& address, int port) {
  sockaddr_in found{};
  found.sin_family = AF_INET;
  found.sin_port = htons(static_cast<std::uint16_t>(port));
  ::inet_pton(AF_INET, address.c_str(), &found.sin_addr);
  return found;
}

class Stranger {
 public:
  Stranger(const std::string& from, int port, const std::string& to = kHome)
      : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    const auto own = at(from, 0);
    const auto desk = at(to, port);
    connected_ = ::bind(socket_.get(), reinterpret_cast<const sockaddr*>(&own), sizeof own) == 0 &&
                 ::connect(socket_.get(), reinterpret_cast<const sockaddr*>(&desk), sizeof desk) == 0;
  }
  [[nodiscard]] bool connected() const { return connected_; }
  /// False once the other side has hung up.
  [[nodiscard]] bool send(const std::string& bytes) const {
    return ::send(socket_.get(), bytes.data(), bytes.size(), MSG_NOSIGNAL) > 0;
  }
  /// Whether the other side hangs up within this time; what it said before that is thrown away.
  [[nodiscard]] bool is_left_within(milliseconds most) const {
    const auto until = Clock::now() + most;
    for (;;) {
      const auto left = std::chrono::duration_cast<milliseconds>(until - Clock::now()).count();
      pollfd watched{socket_.get(), POLLIN, 0};
      if (::poll(&watched, 1, static_cast<int>(std::max<std::int64_t>(0, left))) <= 0) return false;
      char piece[4096];
      if (::recv(socket_.get(), piece, sizeof piece, 0) <= 0) return true;
    }
  }
  [[nodiscard]] std::string everything() const {
    std::string got;
    for (auto next = first_words(); !next.empty(); next = first_words()) got += next;
    return got;
  }
  [[nodiscard]] std::string first_words() const {
    std::string got(64, '\0');
    const auto n = ::recv(socket_.get(), got.data(), got.size(), 0);
    got.resize(n > 0 ? static_cast<std::size_t>(n) : 0);
    return got;
  }

 private:
  Descriptor socket_;
  bool connected_ = false;
};

struct Shared {
  testing::Served served{[](const DeskRequest&) -> std::optional<DeskReply> { return std::nullopt; },
                         [](const DeskRequest& asked) {
                           return DeskReply{200, "text/plain", "for " + asked.peer, {}, {}};
                         },
                         kHome};

  [[nodiscard]] std::vector<std::unique_ptr<Stranger>> crowd(const std::string& from,
                                                             std::size_t size) const {
    std::vector<std::unique_ptr<Stranger>> all;
    for (std::size_t i = 0; i < size; ++i) {
      all.push_back(std::make_unique<Stranger>(from, served.home_port()));
      static_cast<void>(all.back()->send("GET / HTTP/1.1\r\n"));
    }
    return all;
  }
  [[nodiscard]] bool phone_is_answered(const std::string& from) const {
    const Stranger phone(from, served.home_port());
    return phone.send("GET / HTTP/1.1\r\nHost: x\r\n\r\n") && phone.first_words().starts_with("HTTP/1.1 200");
  }
  [[nodiscard]] bool desk_is_answered() const {
    const auto got = httplib::Client("127.0.0.1", served.port()).Get("/");
    return got && got->status == 200;
  }
};

std::size_t left_of(const std::vector<std::unique_ptr<Stranger>>& crowd, milliseconds each) {
  std::size_t left = 0;
  for (const auto& one : crowd) left += one->is_left_within(each) ? 1U : 0U;
  return left;
}

TEST(DeskCrowd, KnowsWhoAsks) {
  const Shared shared;
  const Stranger phone("127.0.0.9", shared.served.home_port());
  ASSERT_TRUE(
      phone.send("GET / HTTP/1.1\r\nHost: x\r\nX-Forwarded-For: 10.0.0.1\r\nConnection: close\r\n\r\n"));
  EXPECT_TRUE(phone.everything().ends_with("\r\n\r\nfor 127.0.0.9"));
}

// RSS of this process (proc(5)), in which the desk runs.
std::size_t memory_mb() {
  std::ifstream file("/proc/self/statm");
  std::size_t whole = 0;
  std::size_t resident = 0;
  file >> whole >> resident;
  return resident * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE)) >> 20U;
}

TEST(DeskCrowd, TakesNoHeadWithoutEnd) {
  const Shared shared;
  const auto before = memory_mb();
  struct Case {
    const char* what;
    std::string begin;
    std::string piece;
  };
  for (const auto& one :
       {Case{"one line", "GET / HTTP/1.1\r\nA: ", std::string(4096, 'a')},
        Case{"a long address", "GET /", std::string(4096, 'a')},
        Case{"long lines", "GET / HTTP/1.1\r\n", "A: " + std::string(4000, 'a') + "\r\n"},
        Case{"short lines", "GET / HTTP/1.1\r\n", "a:b\r\n"},
        Case{"empty lines", "GET / HTTP/1.1\n", "\n\n\n\n"}, Case{"no lines", "", std::string(4096, '\r')}}) {
    for (const auto& [to, port] : {std::pair<std::string, int>{kHome, shared.served.home_port()},
                                   std::pair<std::string, int>{"127.0.0.1", shared.served.port()}}) {
      const Stranger stranger("127.0.0.5", port, to);
      ASSERT_TRUE(stranger.connected());
      std::size_t sent = 0;
      for (auto next = one.begin; sent < (std::size_t{32} << 20U) && (next.empty() || stranger.send(next));
           next = one.piece)
        sent += next.size();
      // Some megabytes stand in the system's own buffers.
      EXPECT_LT(sent, std::size_t{16} << 20U) << one.what;
    }
  }
  EXPECT_LT(memory_mb(), before + 64);
  EXPECT_TRUE(shared.phone_is_answered("127.0.0.6"));
}

// A browser's head with long cookies of other pages at this address still comes in.
TEST(DeskCrowd, TakesALongHeadThatEnds) {
  const Shared shared;
  std::string head = "GET / HTTP/1.1\r\nHost: x\r\n";
  for (int i = 0; i < 100; ++i) head += "A" + std::to_string(i) + ": " + std::string(200, 'a') + "\r\n";
  const Stranger phone("127.0.0.6", shared.served.home_port());
  ASSERT_TRUE(phone.send(head + "\r\n"));
  EXPECT_TRUE(phone.first_words().starts_with("HTTP/1.1 200"));
}

TEST(DeskCrowd, WaitsForASlowHeadOnlySoLong) {
  const Shared shared;  // with a patience of half a second
  // The second request of a connection too.
  for (const auto* first : {"", "GET / HTTP/1.1\r\nHost: x\r\n\r\n"}) {
    const Stranger slow("127.0.0.5", shared.served.home_port());
    ASSERT_TRUE(slow.send(first + std::string("GET / HTTP/1.1\r\nA: ")));
    int bytes = 0;
    for (; bytes < 100 && slow.send("a"); ++bytes) std::this_thread::sleep_for(milliseconds(50));
    EXPECT_GT(bytes, 5) << first;
    EXPECT_LT(bytes, 60) << first;
  }
}

TEST(DeskCrowd, OnePeerHasEightConnections) {
  const Shared shared;
  const auto crowd = shared.crowd("127.0.0.5", 40);
  EXPECT_TRUE(shared.phone_is_answered("127.0.0.6"));
  EXPECT_TRUE(shared.desk_is_answered());
  EXPECT_EQ(left_of(crowd, milliseconds(2000)), crowd.size());
  // All are gone, and he may ask as anybody may.
  EXPECT_TRUE(shared.phone_is_answered("127.0.0.5"));
}

TEST(DeskCrowd, CountsThoseThatAreOpen) {
  const Shared shared;
  std::vector<std::unique_ptr<Stranger>> silent;
  for (std::size_t peer = 0; peer < 10; ++peer)
    for (std::size_t i = 0; i < kOfOnePeer + 2; ++i)
      silent.push_back(
          std::make_unique<Stranger>("127.0.1." + std::to_string(peer + 1), shared.served.home_port()));
  // Those above the bounds are left at once; the others when they have been silent for a second.
  std::size_t at_once = 0;
  const auto until = Clock::now() + milliseconds(500);
  for (const auto& one : silent) {
    const auto left = std::chrono::duration_cast<milliseconds>(until - Clock::now());
    at_once += one->is_left_within(std::max(left, milliseconds(1))) ? 1U : 0U;
  }
  EXPECT_EQ(silent.size() - at_once, kInAll);
  EXPECT_TRUE(shared.desk_is_answered());
}

TEST(DeskCrowd, TakesNoDescriptorsFromTheDesk) {
  const Shared shared;
  const auto open = [] {
    return std::distance(std::filesystem::directory_iterator("/proc/self/fd"),
                         std::filesystem::directory_iterator());
  };
  const auto before = open();
  // The strangers' own ends are of this process too: 300 of them.
  const auto crowd = shared.crowd("127.0.0.5", 300);
  EXPECT_TRUE(shared.desk_is_answered());
  EXPECT_LT(open(), before + 300 + 20);
}

// A client that takes what is sent to it byte by byte, and one that never ends asking.
TEST(DeskCrowd, KeepsNobodyFromClosingTheDesk) {
  const std::string large(std::size_t{64} << 20U, 'x');
  testing::Served served([](const DeskRequest&) -> std::optional<DeskReply> { return std::nullopt; },
                         [&](const DeskRequest&) {
                           return DeskReply{200, "text/plain", large, {}, {}};
                         },
                         kHome);
  const Stranger slow("127.0.0.5", served.home_port());
  ASSERT_TRUE(slow.send("GET / HTTP/1.1\r\nHost: x\r\n\r\n"));
  std::atomic<bool> done{false};
  std::thread dribble([&] {
    while (!done) {
      if (slow.first_words().empty()) return;
      std::this_thread::sleep_for(milliseconds(100));
    }
  });
  std::this_thread::sleep_for(milliseconds(300));
  const auto begin = Clock::now();
  served.stop();
  EXPECT_LT(Clock::now() - begin, milliseconds(4000));
  done = true;
  dribble.join();
}

}  // namespace
}  // namespace panslate
