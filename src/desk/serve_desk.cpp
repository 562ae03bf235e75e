#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <memory>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include <httplib.h>
#include <unistd.h>

#include "panslate/base/text.h"
#include "panslate/desk/desk_server.h"

#include "desk/open_connections.h"
#include "desk/request_stream.h"

namespace panslate {

namespace {

constexpr const char* kThisMachine = "127.0.0.1";
constexpr std::size_t kLargestBody = std::size_t{64} * 1024;  // bytes: a decision is a few hundred
// Bytes of a body that is not wanted: who hangs up on a client that is still sending is not heard by it.
constexpr std::size_t kMostThrownAway = 4 * kLargestBody;
// A thread for each connection, asking or silent: none waits for another's end.
constexpr OpenConnections::Bounds kHere{256, 256};
constexpr OpenConnections::Bounds kAtHome{64, 8};       // a phone has six
constexpr std::size_t kPiece = std::size_t{32} * 1024;  // bytes of a clip read at once
constexpr std::chrono::seconds kSilence{5};
// A connection that is kept holds a thread: not for long where nothing comes.
constexpr std::chrono::seconds kKept{1};
constexpr int kMostRequests = 100;         // of one connection
constexpr std::chrono::seconds kGrace{2};  // for what is being answered when the desk is closed

DeskRequest request_of(const httplib::Request& asked, bool from_home) {
  DeskRequest request;
  request.from_home = from_home;
  request.peer = asked.remote_addr;
  request.method = asked.method;
  request.path = asked.path;
  for (const auto& [name, value] : asked.params) request.query.emplace(name, value);
  // Of a header that is there twice the first counts; two of what is checked are as good as none.
  for (const auto& [name, value] : asked.headers) {
    const auto [at, is_new] = request.headers.emplace(fold_case(to_utf8(name)), value);
    if (!is_new && (at->first == "host" || at->first == "origin")) at->second = "twice";
  }
  return request;
}

// Written by itself piece by piece with its own length: the library's way of sending stretches looks at the
// request's range once more, and past the end of the file.
void send_stretch(const DeskReply& reply, httplib::Response& response) {
  response.set_header("Content-Length", std::to_string(reply.file.length));
  auto stretch = reply.file;
  response.set_content_provider(reply.type, [stretch](std::size_t, httplib::DataSink& sink) mutable {
    std::array<char, kPiece> piece{};
    const auto want = static_cast<std::size_t>(std::min<std::uint64_t>(stretch.length, piece.size()));
    const auto got = ::pread(stretch.file->get(), piece.data(), want, static_cast<off_t>(stretch.begin));
    if (got <= 0 || !sink.write(piece.data(), static_cast<std::size_t>(got))) return false;
    stretch.length -= static_cast<std::uint64_t>(got);
    stretch.begin += static_cast<std::uint64_t>(got);
    if (stretch.length == 0) sink.done();
    return true;
  });
}

void set_head(const DeskReply& reply, httplib::Response& response) {
  response.status = reply.status;
  for (const auto& [name, value] : reply.headers) {
    response.headers.erase(name);  // the library would send its default beside it
    response.set_header(name, value);
  }
}

void send(const DeskReply& reply, const httplib::Request& asked, httplib::Response& response) {
  set_head(reply, response);
  const bool in_pieces = reply.file.file && reply.file.length > 0 && asked.method != "HEAD";
  if (in_pieces) return send_stretch(reply, response);
  if (!reply.type.empty()) response.set_header("Content-Type", reply.type);
  if (reply.file.file)
    response.set_header("Content-Length", std::to_string(reply.file.length));
  else
    response.body = reply.body;
}

// Where some of the request was not read, what comes next on this connection is no request. The library hangs
// up only where a reply fails: so it is written whole, and then fails.
void send_and_hang_up(const DeskReply& reply, httplib::Response& response) {
  set_head(reply, response);
  response.set_header("Connection", "close");
  response.set_header("Content-Length", std::to_string(reply.body.size()));
  response.set_content_provider(reply.type, [words = reply.body](std::size_t, httplib::DataSink& sink) {
    static_cast<void>(sink.write(words.data(), words.size()));
    return false;
  });
}

DeskReply in_words(int status, const char* words) {
  return {status, "text/plain; charset=utf-8", std::string(words) + "\n", {}, {}};
}

// The stretch of a clip is settled by the desk: the library would cut the reply a second time. It hands over
// its own request, which is not constant there.
void without_ranges(const httplib::Request& asked) {
  const_cast<httplib::Request&>(asked).ranges.clear();
}

struct Body {
  std::string bytes;  ///< no more than kLargestBody of it
  std::size_t size = 0;
  bool whole = false;
  bool slow = false;
};

Body read_body(const httplib::ContentReader& reader, std::chrono::milliseconds within) {
  Body body;
  const auto until = std::chrono::steady_clock::now() + within;
  body.whole = reader([&](const char* data, std::size_t size) {
    body.size += size;
    if (body.size <= kLargestBody) body.bytes.append(data, size);
    body.slow = std::chrono::steady_clock::now() > until;
    return !body.slow && body.size <= kMostThrownAway;
  });
  return body;
}

// Who asks is looked at before a byte of the body is kept.
void answer_post(const DeskServing& serving, DeskRequest request, const httplib::Request& asked,
                 httplib::Response& response, const httplib::ContentReader& reader) {
  without_ranges(asked);
  auto refusal = serving.refusal(request);
  // Not to be thrown away piece by piece either: the library keeps what it reads of such a body, and the
  // lines between chunks.
  const bool has_length = asked.has_header("Content-Length") && !asked.has_header("Transfer-Encoding");
  if (!refusal && !has_length) refusal = in_words(411, "This must say how long it is.");
  if (!has_length || asked.is_multipart_form_data())
    return send_and_hang_up(refusal ? *refusal : in_words(415, "This must be JSON."), response);
  auto body = read_body(reader, serving.patience);
  if (!refusal && body.slow) refusal = in_words(408, "This took too long to come.");
  if (!refusal && body.size > kLargestBody) refusal = in_words(413, "This is too large for a decision.");
  if (!refusal && !body.whole) refusal = in_words(400, "This did not come whole.");
  if (!body.whole) return send_and_hang_up(*refusal, response);
  request.body = std::move(body.bytes);
  send(refusal ? *refusal : serving.answer(request), asked, response);
}

/// The library's server, with connections that are counted, bounded and can be ended.
class BoundedServer final : public httplib::Server {
 public:
  BoundedServer(OpenConnections::Bounds bounds, std::chrono::milliseconds patience)
      : patience_(patience), open_(bounds) {
    new_task_queue = [this, threads = bounds.in_all] {
      auto queue = std::make_unique<AtOnce>(threads);
      pool_ = &queue->pool;
      return queue.release();
    };
  }
  [[nodiscard]] OpenConnections& open() { return open_; }
  /// Once it is bound: the library lets five wait to be taken in, and the sixth tries again a second later.
  void let_many_wait() { ::listen(svr_sock_, SOMAXCONN); }

 private:
  // The library would queue every connection, however many there are: so that each is looked at as it comes,
  // what it queues is run at once, and what is taken in then goes to the threads.
  struct AtOnce final : httplib::TaskQueue {
    explicit AtOnce(std::size_t threads) : pool(threads) {}
    void enqueue(std::function<void()> task) override { task(); }
    void shutdown() override { pool.shutdown(); }
    httplib::ThreadPool pool;
  };

  bool process_and_close_socket(socket_t socket) override {
    if (!open_.take(socket)) {
      open_.end(socket);
      return false;
    }
    pool_->enqueue([this, socket] {
      serve(socket);
      open_.end(socket);
    });
    return true;
  }

  void serve(socket_t socket) {
    RequestStream stream(socket, patience_, kSilence);
    bool closed = false;
    for (int left = kMostRequests; left > 0 && !closed && stream.begins(kKept); --left) {
      const bool good = process_request(stream, left == 1, closed, nullptr);
      if (!good || !stream.head_is_whole()) return;
    }
  }

  std::chrono::milliseconds patience_;
  OpenConnections open_;
  httplib::ThreadPool* pool_ = nullptr;  // while it listens
};

/// One address and everything that comes in by it.
class Entrance {
 public:
  Entrance(const DeskServing& serving, std::string address, bool is_home)
      : serving_(serving),
        address_(std::move(address)),
        is_home_(is_home),
        server_(is_home ? kAtHome : kHere, serving.patience) {
    // What the library tells of them to clients; they are kept by serve().
    server_.set_keep_alive_timeout(kKept.count());
    server_.set_keep_alive_max_count(kMostRequests);
    server_.set_tcp_nodelay(true);
    // Not the library's SO_REUSEPORT, by which two programs may listen at one port.
    server_.set_socket_options([](socket_t socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    // Of what the library refuses by itself too.
    server_.set_default_headers({serving.headers.begin(), serving.headers.end()});
    set_handlers();
  }

  /// At this port, or at any that is free (0); the port, or 0 where it cannot be used.
  int bind(int port) {
    const int bound = port == 0                              ? std::max(0, server_.bind_to_any_port(address_))
                      : server_.bind_to_port(address_, port) ? port
                                                             : 0;
    if (bound != 0) server_.let_many_wait();
    return bound;
  }
  /// Until stop(), or until the system closes its port.
  void listen() {
    static_cast<void>(server_.listen_after_bind());
    ended_ = true;
  }
  [[nodiscard]] bool ended() const { return ended_; }
  void stop() {
    // One that does not run yet cannot be stopped.
    while (!ended_ && !server_.is_running()) std::this_thread::sleep_for(std::chrono::milliseconds(1));
    server_.stop();
    server_.open().close_for_reading();
  }
  /// After stop(): whoever is still being answered has had his time.
  void hang_up() { server_.open().close_for_all(); }

 private:
  void set_handlers() {
    server_.set_pre_routing_handler([this](const httplib::Request& asked, httplib::Response& response) {
      if (asked.method == "POST") return httplib::Server::HandlerResponse::Unhandled;  // its body comes yet
      without_ranges(asked);
      const auto reply = serving_.answer(request_of(asked, is_home_));
      if (asked.has_header("Transfer-Encoding") || asked.has_header("Content-Length"))
        send_and_hang_up(reply.file.file ? in_words(400, "This has a body.") : reply, response);
      else
        send(reply, asked, response);
      return httplib::Server::HandlerResponse::Handled;
    });
    server_.Post(".*", [this](const httplib::Request& asked, httplib::Response& response,
                              const httplib::ContentReader& reader) {
      answer_post(serving_, request_of(asked, is_home_), asked, response, reader);
    });
    // A range that is none is to be ignored (RFC 9110, 14.2); the library refuses it before anybody is asked.
    // The desk's own refusal says how long the file is.
    server_.set_error_handler(httplib::Server::HandlerWithResponse(
        [this](const httplib::Request& asked, httplib::Response& response) {
          if (response.status != 416 || response.has_header("Content-Range") || asked.method == "POST")
            return httplib::Server::HandlerResponse::Unhandled;
          without_ranges(asked);
          send(serving_.answer(request_of(asked, is_home_)), asked, response);
          return httplib::Server::HandlerResponse::Handled;
        }));
    server_.set_exception_handler(
        [](const httplib::Request&, httplib::Response& response, const std::exception_ptr&) {
          // Every expected failure is a value: this is a defect, and what it says is not for the page.
          response.status = 500;
          response.set_content("The desk met a defect of its own.\n", "text/plain; charset=utf-8");
        });
  }

  const DeskServing& serving_;
  std::string address_;
  bool is_home_;
  std::atomic<bool> ended_{false};
  BoundedServer server_;
};

Error port_is_taken(int port) {
  return {ErrorCode::Usage, "port " + std::to_string(port) + " cannot be used", std::nullopt,
          "leave --port out, and a free one is taken"};
}

/// Listens at all entrances, each in a thread of its own, and asks meanwhile whether to stop. False where one
/// of them ended by itself.
bool listen_until(const std::vector<std::unique_ptr<Entrance>>& entrances,
                  const std::function<bool()>& stopped) {
  std::vector<std::thread> threads;
  threads.reserve(entrances.size());
  for (const auto& entrance : entrances) threads.emplace_back([&entrance = *entrance] { entrance.listen(); });
  const auto one_ended = [&] {
    return std::any_of(entrances.begin(), entrances.end(), [](const auto& one) { return one->ended(); });
  };
  while (!stopped() && !one_ended()) std::this_thread::sleep_for(std::chrono::milliseconds(50));
  for (const auto& entrance : entrances) entrance->stop();
  const auto all_ended = [&] {
    return std::all_of(entrances.begin(), entrances.end(), [](const auto& one) { return one->ended(); });
  };
  const auto until = std::chrono::steady_clock::now() + kGrace;
  while (!all_ended() && std::chrono::steady_clock::now() < until)
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  for (const auto& entrance : entrances) entrance->hang_up();
  for (auto& thread : threads) thread.join();
  return stopped();
}

}  // namespace

Status serve_desk(const DeskServing& serving) {
  std::vector<std::unique_ptr<Entrance>> entrances;
  entrances.push_back(std::make_unique<Entrance>(serving, kThisMachine, false));
  DeskPorts ports{entrances.front()->bind(serving.port), 0};
  if (ports.here == 0) return tl::unexpected(port_is_taken(serving.port));
  if (!serving.home.empty()) {
    entrances.push_back(std::make_unique<Entrance>(serving, serving.home, true));
    ports.home = entrances.back()->bind(ports.here);  // the same, where it is free: one number to know
    if (ports.home == 0 && serving.port == 0) ports.home = entrances.back()->bind(0);
    if (ports.home == 0) return tl::unexpected(port_is_taken(ports.here));
  }
  serving.listening(ports);
  if (!listen_until(entrances, serving.stopped))
    return fail(ErrorCode::Unreadable, "the desk can no longer be reached: the system closed its port",
                std::nullopt, "everything you decided is saved; start panslate desk again");
  return {};
}

}  // namespace panslate
