#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <string>

#include <httplib.h>

/// A connection as the HTTP library reads it, with the bounds that the library does not set.
namespace panslate {

class RequestStream final : public httplib::Stream {
 public:
  using Clock = std::chrono::steady_clock;
  static constexpr std::size_t kLongestHead = std::size_t{32} * 1024;  ///< bytes: a browser's has some 600
  static constexpr std::size_t kMostLines = 128;                       ///< of a head: a browser's has some 15

  /// The socket outlives it. A head must be here within `patience`, counted from its first byte; `silence` is
  /// how long nothing may come or go in the middle of a request.
  RequestStream(int socket, std::chrono::milliseconds patience, std::chrono::milliseconds silence)
      : socket_(socket), patience_(patience), silence_(silence) {}

  /// Whether a request begins within this time. What is read next is its head.
  [[nodiscard]] bool begins(std::chrono::milliseconds within);
  /// Whether the head of the request was read to its end: else what comes next is no request.
  [[nodiscard]] bool head_is_whole() const { return head_is_whole_; }

  [[nodiscard]] bool is_readable() const override { return at_ < filled_ || waits_for_reading(silence_); }
  [[nodiscard]] bool is_writable() const override;
  /// -1 too where the head is too long, or took too long.
  ssize_t read(char* to, std::size_t size) override;
  ssize_t write(const char* from, std::size_t size) override;
  void get_remote_ip_and_port(std::string& ip, int& port) const override;
  void get_local_ip_and_port(std::string& ip, int& port) const override;
  [[nodiscard]] socket_t socket() const override { return socket_; }

 private:
  [[nodiscard]] bool waits_for_reading(std::chrono::milliseconds within) const;
  [[nodiscard]] bool fill();
  [[nodiscard]] bool take_of_head(char byte);

  int socket_;
  std::chrono::milliseconds patience_;
  std::chrono::milliseconds silence_;
  std::array<char, 4096> buffer_{};
  std::size_t at_ = 0;
  std::size_t filled_ = 0;
  bool head_is_whole_ = true;
  Clock::time_point head_until_;
  std::size_t head_size_ = 0;  ///< bytes
  std::size_t lines_ = 0;      ///< of the head, that are whole
  std::size_t in_line_ = 0;    ///< bytes of the line that is not
  char before_ = '\0';
};

}  // namespace panslate
