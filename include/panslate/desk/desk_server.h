#pragma once

#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/desk/desk_request.h"

namespace panslate {

/// Where it is to be reached.
struct DeskPorts {
  int here = 0;  ///< of 127.0.0.1
  int home = 0;  ///< of DeskServing::home; 0 where there is none
};

/// What a server on this machine needs to know.
struct DeskServing {
  int port = 0;  ///< 0: any that is free
  std::string
      home;  ///< serves at this address in her network too: "192.168.1.20"; empty: on this machine alone
  /// Called once it listens, before the first request.
  std::function<void(const DeskPorts& ports)> listening;
  /// What a request is refused with by its head alone, before its body is read; from several threads.
  std::function<std::optional<DeskReply>(const DeskRequest&)> refusal;
  std::function<DeskReply(const DeskRequest&)> answer;  ///< from several threads
  /// Of every reply, also where nobody is asked; a reply's own come before them.
  std::vector<std::pair<std::string, std::string>> headers;
  std::chrono::milliseconds patience{10'000};  ///< with a head, and with a body, that comes slowly
  std::function<bool()> stopped;               ///< asked some ten times a second
};

/// Serves on 127.0.0.1, and at the home address with connections of its own (nobody in her network can keep
/// this machine from its desk), until it is stopped; requests that are being answered then have two seconds.
/// Of 256 connections here, of 64 at the home address and of eight of one peer there, every further one is
/// closed at once. Clients that say nothing for five seconds are left. The head of a request has at most 32
/// KiB and 128 lines, and comes within the patience (else 400). A body is read only behind Content-Length
/// (else 411); above 64 KiB it is refused with 413, and one that takes longer than the patience with 408.
/// Usage where the port is taken, Unreadable where the system closes it.
[[nodiscard]] Status serve_desk(const DeskServing& serving);

}  // namespace panslate
