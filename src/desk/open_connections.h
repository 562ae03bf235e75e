#pragma once

#include <cstddef>
#include <map>
#include <mutex>
#include <string>

/// Which connections are open at one entrance, and how many of whom: so that nobody in her network takes all
/// of them, nor keeps the desk from closing.
namespace panslate {

class OpenConnections {
 public:
  struct Bounds {
    std::size_t in_all = 0;
    std::size_t of_one_peer = 0;
  };
  explicit OpenConnections(Bounds bounds) : bounds_(bounds) {}

  /// Takes this socket in. False where there are too many already, or the desk closes: it is still the
  /// caller's then.
  [[nodiscard]] bool take(int socket);
  /// Closes it.
  void end(int socket);

  /// From now on nothing is taken in, nor read from what is open; what is being answered is sent.
  void close_for_reading();
  /// Nor sent.
  void close_for_all();

 private:
  void shut(int how);

  Bounds bounds_;
  std::mutex mutex_;
  bool closes_ = false;
  std::map<int, std::string> open_;           ///< socket: whose
  std::map<std::string, std::size_t> peers_;  ///< address: how many
};

/// The address of the other side, "192.168.1.7", and its port; empty where it is gone.
struct Peer {
  std::string address;
  int port = 0;
};
[[nodiscard]] Peer peer_of(int socket);
/// This side of it.
[[nodiscard]] Peer own_end_of(int socket);

}  // namespace panslate
