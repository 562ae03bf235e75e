#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <string>
#include <thread>

#include <httplib.h>
#include <unistd.h>

#include "panslate/base/text.h"
#include "panslate/desk/desk_server.h"

namespace panslate {

namespace {

constexpr const char* kThisMachine = "127.0.0.1";
constexpr std::size_t kLargestBody = std::size_t{64} * 1024;  // bytes: a decision is a few hundred
// Bytes of a body that is not wanted: who hangs up on a client that is still sending is not heard by it.
constexpr std::size_t kMostThrownAway = 4 * kLargestBody;
// Each holds one connection, asking or silent: fewer than there are connections, and one waits for another's
// end.
constexpr std::size_t kThreads = 256;
constexpr std::size_t kPiece = std::size_t{32} * 1024;  // bytes of a clip read at once
constexpr std::chrono::seconds kPatience{5};

DeskRequest request_of(const httplib::Request& asked) {
  DeskRequest request;
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
void answer_post(const DeskServing& serving, const httplib::Request& asked, httplib::Response& response,
                 const httplib::ContentReader& reader) {
  without_ranges(asked);
  auto request = request_of(asked);
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

/// Asks whether to stop while the server listens.
class Watch {
 public:
  Watch(httplib::Server& server, const std::function<bool()>& stopped)
      : thread_([this, &server, &stopped] {
          while (!over_) {
            if (stopped() && server.is_running()) {
              server.stop();
              return;
            }
            std::this_thread::sleep_for(std::chrono::milliseconds(50));
          }
        }) {}
  Watch(const Watch&) = delete;
  Watch& operator=(const Watch&) = delete;
  ~Watch() {
    over_ = true;
    thread_.join();
  }

 private:
  std::atomic<bool> over_{false};
  std::thread thread_;
};

}  // namespace

Status serve_desk(const DeskServing& serving) {
  httplib::Server server;
  server.new_task_queue = [] { return new httplib::ThreadPool(kThreads); };
  server.set_read_timeout(kPatience);
  server.set_write_timeout(kPatience);
  // A connection that is kept holds a thread: not for long where nothing comes.
  server.set_keep_alive_timeout(1);
  server.set_keep_alive_max_count(100);
  server.set_tcp_nodelay(true);
  // Not the library's SO_REUSEPORT, by which two programs may listen at one port.
  server.set_socket_options([](socket_t socket) {
    const int yes = 1;
    ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
  // Of what the library refuses by itself too.
  server.set_default_headers({serving.headers.begin(), serving.headers.end()});
  server.set_pre_routing_handler([&](const httplib::Request& asked, httplib::Response& response) {
    if (asked.method == "POST") return httplib::Server::HandlerResponse::Unhandled;  // its body comes yet
    without_ranges(asked);
    const auto reply = serving.answer(request_of(asked));
    if (asked.has_header("Transfer-Encoding") || asked.has_header("Content-Length"))
      send_and_hang_up(reply.file.file ? in_words(400, "This has a body.") : reply, response);
    else
      send(reply, asked, response);
    return httplib::Server::HandlerResponse::Handled;
  });
  server.Post(".*",
              [&](const httplib::Request& asked, httplib::Response& response,
                  const httplib::ContentReader& reader) { answer_post(serving, asked, response, reader); });
  // A range that is none is to be ignored (RFC 9110, 14.2); the library refuses it before anybody is asked.
  // The desk's own refusal says how long the file is.
  server.set_error_handler(
      httplib::Server::HandlerWithResponse([&](const httplib::Request& asked, httplib::Response& response) {
        if (response.status != 416 || response.has_header("Content-Range") || asked.method == "POST")
          return httplib::Server::HandlerResponse::Unhandled;
        without_ranges(asked);
        send(serving.answer(request_of(asked)), asked, response);
        return httplib::Server::HandlerResponse::Handled;
      }));
  server.set_exception_handler(
      [](const httplib::Request&, httplib::Response& response, const std::exception_ptr&) {
        // Every expected failure is a value: this is a defect, and what it says is not for the page.
        response.status = 500;
        response.set_content("The desk met a defect of its own.\n", "text/plain; charset=utf-8");
      });
  int port = serving.port;
  const bool bound = port == 0 ? (port = server.bind_to_any_port(kThisMachine)) > 0
                               : server.bind_to_port(kThisMachine, port);
  if (!bound)
    return fail(ErrorCode::Usage, "port " + std::to_string(serving.port) + " cannot be used", std::nullopt,
                "leave --port out, and a free one is taken");
  serving.listening(port);
  const Watch watch(server, serving.stopped);
  if (!server.listen_after_bind() && !serving.stopped())
    return fail(ErrorCode::Unreadable, "the desk can no longer be reached: the system closed its port",
                std::nullopt, "everything you decided is saved; start panslate desk again");
  return {};
}

}  // namespace panslate
