#pragma once

#include <condition_variable>
#include <deque>
#include <filesystem>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "panslate/desk/desk.h"
#include "panslate/media/footage_workers.h"

namespace panslate::app {

/// Makes proxies one after the other, by a worker of its own, in a thread that ends with this object; what
/// was not finished then leaves nothing.
class Proxies {
 public:
  /// Workers like `like`, one of them.
  explicit Proxies(const FootageWorkers& like);
  ~Proxies();
  Proxies(const Proxies&) = delete;
  Proxies& operator=(const Proxies&) = delete;

  /// How far the proxy at `out` is, of this clip; `make`: it is to be made.
  [[nodiscard]] DeskProxy look(const std::filesystem::path& out, const ClipFacts& clip, bool make);

 private:
  struct Wanted {
    std::filesystem::path out;
    std::filesystem::path clip;
    MediaTime duration;
  };
  class Telling;
  void work();
  void end_one(const std::filesystem::path& out, const Status& made);

  FootageWorkers workers_;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool ends_ = false;
  std::deque<Wanted> wanted_;
  std::map<std::filesystem::path, DeskProxy> known_;  ///< by where it is to be
  std::thread thread_;                                // last: it uses all of it
};

}  // namespace panslate::app
