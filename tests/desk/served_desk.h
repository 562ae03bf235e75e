#pragma once

#include <atomic>
#include <chrono>
#include <functional>
#include <future>
#include <mutex>
#include <optional>
#include <shared_mutex>
#include <string>
#include <thread>
#include <utility>

#include "panslate/desk/desk_server.h"

#include "desk/desk_folder.h"

namespace panslate::testing {

/// A server that ends with the test.
class Served {
 public:
  Served(std::function<std::optional<DeskReply>(const DeskRequest&)> refusal,
         std::function<DeskReply(const DeskRequest&)> answer, std::string home = {},
         std::function<void(const DeskPorts&)> listening = {}) {
    std::promise<DeskPorts> ports;
    auto known = ports.get_future();
    DeskServing serving;
    serving.home = std::move(home);
    serving.listening = [&ports, &listening](const DeskPorts& at) {
      if (listening) listening(at);
      ports.set_value(at);
    };
    serving.refusal = std::move(refusal);
    serving.answer = std::move(answer);
    serving.headers = Desk::headers();
    serving.patience = std::chrono::milliseconds(500);
    serving.stopped = [this] { return stop_.load(); };
    thread_ = std::thread([this, serving] { status_ = serve_desk(serving); });
    ports_ = known.get();
  }
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;
  ~Served() { stop(); }
  /// As by Ctrl-C.
  void stop() {
    stop_ = true;
    if (thread_.joinable()) thread_.join();
  }
  [[nodiscard]] int port() const { return ports_.here; }
  [[nodiscard]] int home_port() const { return ports_.home; }

 private:
  std::atomic<bool> stop_{false};
  std::thread thread_;
  Status status_;
  DeskPorts ports_;
};

/// The desk of a DeskFolder at a port of its own.
struct ServedDesk {
  DeskFolder folder;
  /// A module that runs in the page after its own: it does what she would do.
  std::string driver;
  std::shared_mutex ends;  ///< of the desk, by another one after it
  // The desk of the folder knows port 4321: what comes in for the real one is handed over as for that.
  Served served{[this](const DeskRequest& asked) {
                  const std::shared_lock lock(ends);
                  return folder.desk().refusal(as_for_4321(asked));
                },
                [this](const DeskRequest& asked) { return answer(asked); }};

  /// "end" is for the tests' own drivers: the desk is gone, and another one opened on what it left on the
  /// disk; "ready": so is the copy of the clip.
  DeskReply answer(const DeskRequest& asked) {
    if (!driver.empty() && asked.path == path("end")) {
      const std::unique_lock lock(ends);
      folder.open_again();
      return {200, "text/plain", "gone", {}, Desk::headers()};
    }
    if (!driver.empty() && asked.path == path("ready")) {
      const std::unique_lock lock(ends);
      folder.proxy = {DeskProxy::State::Ready, 100, {}, folder.path() / "pan.mp4"};
      return {200, "text/plain", "ready", {}, Desk::headers()};
    }
    const std::shared_lock lock(ends);
    return driven(asked, folder.desk().answer(as_for_4321(asked)));
  }

  [[nodiscard]] DeskReply driven(const DeskRequest& asked, DeskReply reply) const {
    if (driver.empty()) return reply;
    if (asked.path == path("driver.js")) {
      reply = {200, "text/javascript; charset=utf-8", driver, {}, Desk::headers()};
    } else if (const auto head = reply.body.find("</head>");
               reply.type.starts_with("text/html") && head != std::string::npos) {
      reply.body.insert(head, "<script type=\"module\" src=\"driver.js\"></script>");
    }
    return reply;
  }

  [[nodiscard]] DeskRequest as_for_4321(DeskRequest request) const {
    const auto real = ":" + std::to_string(served.port());
    for (const auto* name : {"host", "origin"})
      if (auto at = request.headers.find(name); at != request.headers.end())
        if (const auto colon = at->second.rfind(real); colon != std::string::npos)
          at->second.replace(colon, real.size(), ":4321");
    return request;
  }
  [[nodiscard]] std::string path(const std::string& route) const {
    return std::string("/") + DeskFolder::kToken + "/" + route;
  }
};

}  // namespace panslate::testing
