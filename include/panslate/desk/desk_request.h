#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "panslate/base/descriptor.h"

/// What the browser asks and what it gets, without sockets: so that every route can be tried by a test.
namespace panslate {

struct DeskRequest {
  std::string method = "GET";
  std::string path;                                         ///< decoded, without the query: "/TOKEN/state"
  std::map<std::string, std::string, std::less<>> query;    ///< decoded
  std::map<std::string, std::string, std::less<>> headers;  ///< names in lower case
  std::string body;
  bool from_home = false;  ///< it came over her network, not from this machine
  std::string peer;        ///< the address that it came from: "192.168.1.7"

  /// Empty where it is not there.
  [[nodiscard]] std::string header(std::string_view name) const;
  [[nodiscard]] std::string parameter(std::string_view name) const;
};

/// A stretch of an open file, sent piece by piece.
struct FileStretch {
  std::shared_ptr<const Descriptor> file;
  std::uint64_t begin = 0;   ///< bytes
  std::uint64_t length = 0;  ///< bytes
};

struct DeskReply {
  int status = 200;
  std::string type;  ///< media type; empty where there is nothing to send
  std::string body;
  FileStretch file;  ///< instead of a body, where it has a file
  std::vector<std::pair<std::string, std::string>> headers;
};

}  // namespace panslate
