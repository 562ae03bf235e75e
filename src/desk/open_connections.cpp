#include "desk/open_connections.h"

#include <array>
#include <utility>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

namespace panslate {

namespace {

// The desk listens at addresses of IPv4 alone.
Peer named(const sockaddr_in& address) {
  std::array<char, INET_ADDRSTRLEN> text{};
  if (address.sin_family != AF_INET ||
      ::inet_ntop(AF_INET, &address.sin_addr, text.data(), text.size()) == nullptr)
    return {};
  return {text.data(), ntohs(address.sin_port)};
}

template <typename Ask>
Peer end_of(int socket, Ask ask) {
  sockaddr_in address{};
  socklen_t size = sizeof address;
  return ask(socket, reinterpret_cast<sockaddr*>(&address), &size) == 0 ? named(address) : Peer{};
}

}  // namespace

Peer peer_of(int socket) {
  return end_of(socket, ::getpeername);
}

Peer own_end_of(int socket) {
  return end_of(socket, ::getsockname);
}

bool OpenConnections::take(int socket) {
  auto address = peer_of(socket).address;
  const std::lock_guard lock(mutex_);
  if (closes_ || open_.size() >= bounds_.in_all) return false;
  auto& of_this_peer = peers_[address];
  if (of_this_peer >= bounds_.of_one_peer) return false;
  ++of_this_peer;
  open_.emplace(socket, std::move(address));
  return true;
}

void OpenConnections::end(int socket) {
  const std::lock_guard lock(mutex_);
  // Closed only once it is known here no more: the system gives its number to the next one.
  if (const auto at = open_.find(socket); at != open_.end()) {
    if (const auto peer = peers_.find(at->second); --peer->second == 0) peers_.erase(peer);
    open_.erase(at);
  }
  ::shutdown(socket, SHUT_RDWR);
  ::close(socket);
}

void OpenConnections::shut(int how) {
  const std::lock_guard lock(mutex_);
  closes_ = true;
  for (const auto& one : open_) ::shutdown(one.first, how);
}

void OpenConnections::close_for_reading() {
  shut(SHUT_RD);
}

void OpenConnections::close_for_all() {
  shut(SHUT_RDWR);
}

}  // namespace panslate
