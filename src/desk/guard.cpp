#include "desk/guard.h"

#include <utility>

#include "desk/secret.h"

namespace panslate {

namespace {

bool is_ours(std::string_view host, const DeskAddress& address) {
  const auto colon_port = ":" + std::to_string(address.port);
  if (!address.home.empty()) return host == address.home + colon_port;
  return host == "127.0.0.1" + colon_port || host == "localhost" + colon_port;
}

bool is_our_origin(std::string_view origin, std::string_view host) {
  return origin == "http://" + std::string(host);
}

}  // namespace

DeskReply plain_reply(int status, std::string_view words) {
  return {status, "text/plain; charset=utf-8", std::string(words) + "\n", {}, {}};
}

const std::vector<std::pair<std::string, std::string>>& common_headers() {
  static const std::vector<std::pair<std::string, std::string>> kHeaders{
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; "
       "connect-src "
       "'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cache-Control", "no-store"},
  };
  return kHeaders;
}

std::optional<DeskReply> asked_by_another(const DeskRequest& request, const DeskAddress& address) {
  const auto host = request.header("host");
  if (!is_ours(host, address)) return plain_reply(403, "This desk answers only to its own address.");
  const auto origin = request.header("origin");
  const auto site = request.header("sec-fetch-site");
  const bool changes = request.method == "POST";
  if ((changes || !origin.empty()) && !is_our_origin(origin, host))
    return plain_reply(403, "Another page asked for this: it is not answered.");
  if (!site.empty() && site != "same-origin" && site != "none")
    return plain_reply(403, "Another page asked for this: it is not answered.");
  return std::nullopt;
}

std::optional<DeskReply> asked_wrongly(const DeskRequest& request) {
  const bool changes = request.method == "POST";
  if (request.method != "GET" && request.method != "HEAD" && !changes)
    return plain_reply(405, "This cannot be done here.");
  if (changes && !request.header("content-type").starts_with("application/json"))
    return plain_reply(415, "This must be JSON.");
  return std::nullopt;
}

Admission admit(const DeskRequest& request, const DeskAddress& address) {
  if (auto refusal = asked_by_another(request, address)) return {{}, std::move(refusal)};
  const std::string_view path = request.path;
  const auto slash = path.find('/', 1);
  const bool known = path.starts_with('/') && slash != std::string_view::npos &&
                     same_secret(path.substr(1, slash - 1), address.token);
  if (!known)
    return {{}, plain_reply(404, "There is nothing here. Open the address that panslate desk told.")};
  if (auto refusal = asked_wrongly(request)) return {{}, std::move(refusal)};
  return {std::string(path.substr(slash + 1)), std::nullopt};
}

}  // namespace panslate
