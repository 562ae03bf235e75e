#include "desk/request_stream.h"

#include <algorithm>
#include <cerrno>

#include <poll.h>
#include <sys/socket.h>

#include "desk/open_connections.h"

namespace panslate {

namespace {

// Whether one of `events` comes to the socket within this time; a hang-up counts as such.
bool comes(int socket, short events, std::chrono::milliseconds within) {
  const auto until = RequestStream::Clock::now() + within;
  for (;;) {
    const auto left =
        std::chrono::duration_cast<std::chrono::milliseconds>(until - RequestStream::Clock::now());
    pollfd watched{socket, events, 0};
    const int ready = ::poll(&watched, 1, static_cast<int>(std::max<std::int64_t>(0, left.count())));
    if (ready > 0) return true;
    if (ready == 0 || errno != EINTR) return false;
  }
}

}  // namespace

bool RequestStream::waits_for_reading(std::chrono::milliseconds within) const {
  return comes(socket_, POLLIN, within);
}

bool RequestStream::is_writable() const {
  return comes(socket_, POLLOUT, silence_);
}

bool RequestStream::begins(std::chrono::milliseconds within) {
  if (at_ == filled_ && !(waits_for_reading(within) && fill())) return false;
  head_is_whole_ = false;
  head_until_ = Clock::now() + patience_;
  head_size_ = lines_ = in_line_ = 0;
  before_ = '\0';
  return true;
}

bool RequestStream::fill() {
  const auto got = ::recv(socket_, buffer_.data(), buffer_.size(), MSG_DONTWAIT);
  at_ = 0;
  filled_ = got > 0 ? static_cast<std::size_t>(got) : 0;
  return filled_ > 0;
}

// A head ends where the library sees its end: at a line of nothing but \r\n, after the first one. False where
// there is too much of it.
bool RequestStream::take_of_head(char byte) {
  if (++head_size_ > kLongestHead) return false;
  ++in_line_;
  if (byte == '\n') {
    head_is_whole_ = lines_ > 0 && in_line_ == 2 && before_ == '\r';
    in_line_ = 0;
    if (++lines_ > kMostLines) return head_is_whole_;
  }
  before_ = byte;
  return true;
}

ssize_t RequestStream::read(char* to, std::size_t size) {
  if (size == 0) return 0;
  if (at_ == filled_) {
    auto within = silence_;
    if (!head_is_whole_)
      within =
          std::min(within, std::chrono::duration_cast<std::chrono::milliseconds>(head_until_ - Clock::now()));
    if (within.count() < 0 || !waits_for_reading(within)) return -1;
    if (!fill()) return 0;
  }
  if (!head_is_whole_) {
    // Byte by byte, as the library does it too: behind the head comes the body.
    if (!take_of_head(buffer_[at_])) return -1;
    *to = buffer_[at_++];
    return 1;
  }
  const auto given = std::min(size, filled_ - at_);
  std::copy_n(buffer_.data() + at_, given, to);
  at_ += given;
  return static_cast<ssize_t>(given);
}

ssize_t RequestStream::write(const char* from, std::size_t size) {
  if (!comes(socket_, POLLOUT, silence_)) return -1;
  return ::send(socket_, from, size, MSG_NOSIGNAL | MSG_DONTWAIT);
}

void RequestStream::get_remote_ip_and_port(std::string& ip, int& port) const {
  const auto peer = peer_of(socket_);
  ip = peer.address;
  port = peer.port;
}

void RequestStream::get_local_ip_and_port(std::string& ip, int& port) const {
  const auto own = own_end_of(socket_);
  ip = own.address;
  port = own.port;
}

}  // namespace panslate
