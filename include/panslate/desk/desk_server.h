#pragma once

#include <functional>

#include "panslate/base/result.h"
#include "panslate/desk/desk_request.h"

namespace panslate {

/// What a server on this machine alone needs to know.
struct DeskServing {
  int port = 0;  ///< 0: any that is free
  /// Called once it listens, with its port, before the first request.
  std::function<void(int port)> listening;
  std::function<DeskReply(const DeskRequest&)> answer;  ///< from several threads
  std::function<bool()> stopped;                        ///< asked some ten times a second
};

/// Serves on 127.0.0.1 until it is stopped; requests that are being answered then are finished. Bodies above
/// 64 KiB are refused with 413, clients that say nothing for five seconds are left. Usage where the port is
/// taken.
[[nodiscard]] Status serve_desk(const DeskServing& serving);

}  // namespace panslate
