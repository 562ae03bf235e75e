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

  /// How far the proxy at `out` is, of this clip with this content (see content_key); `make`: it is to be
  /// made. One that could not be written, or whose clip was another one by then, can be asked for again.
  [[nodiscard]] DeskProxy look(const std::filesystem::path& out, const std::string& content,
                               const ClipFacts& clip, bool make);

 private:
  struct Wanted {
    std::filesystem::path out;
    std::string content;
    std::filesystem::path clip;
    MediaTime duration;
  };
  struct Known {
    DeskProxy proxy;
    bool again = false;  ///< it failed, and may not the next time
  };
  class Telling;
  void work();
  [[nodiscard]] Status make(const Wanted& wanted);
  void end_one(const std::filesystem::path& out, const Status& made);

  FootageWorkers workers_;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool ends_ = false;
  std::deque<Wanted> wanted_;
  std::map<std::filesystem::path, Known> known_;  ///< by where it is to be
  bool cleared_ = false;                          ///< of what other desks left half
  std::thread thread_;                            // last: it uses all of it
};

}  // namespace panslate::app
