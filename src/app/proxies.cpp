#include "app/proxies.h"

#include <system_error>
#include <utility>

namespace panslate::app {

using State = DeskProxy::State;

class Proxies::Telling final : public Progress {
 public:
  Telling(Proxies& proxies, std::filesystem::path out) : proxies_(proxies), out_(std::move(out)) {}
  void step(std::string_view /*phase*/, std::int64_t done, std::int64_t total) override {
    const std::lock_guard lock(proxies_.mutex_);
    ends_ = proxies_.ends_;
    if (total > 0) proxies_.known_[out_].percent = static_cast<int>(done * 100 / total);
  }
  [[nodiscard]] bool cancelled() const noexcept override { return ends_; }

 private:
  Proxies& proxies_;
  std::filesystem::path out_;
  bool ends_ = false;
};

Proxies::Proxies(const FootageWorkers& like)
    : workers_({like.setup().program, 1, like.setup().limits}), thread_([this] { work(); }) {}

Proxies::~Proxies() {
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
  }
  wake_.notify_all();
  thread_.join();
}

DeskProxy Proxies::look(const std::filesystem::path& out, const ClipFacts& clip, bool make) {
  const std::lock_guard lock(mutex_);
  auto& known = known_[out];
  const bool at_work = known.state == State::Waiting || known.state == State::Making;
  if (at_work) return known;
  std::error_code failed;
  if (std::filesystem::is_regular_file(out, failed)) {
    known = {State::Ready, 100, {}, out};
  } else if (make && known.state != State::Failed) {
    known = {State::Waiting, 0, {}, {}};
    wanted_.push_back({out, clip.file, clip.duration});
    wake_.notify_all();
  } else if (known.state == State::Ready) {
    known = {};  // the store was emptied
  }
  return known;
}

void Proxies::end_one(const std::filesystem::path& out, const Status& made) {
  const std::lock_guard lock(mutex_);
  if (made)
    known_[out] = {State::Ready, 100, {}, out};
  else
    known_[out] = {State::Failed, 0, made.error().message, {}};
}

void Proxies::work() {
  for (;;) {
    std::unique_lock lock(mutex_);
    wake_.wait(lock, [this] { return ends_ || !wanted_.empty(); });
    if (ends_) return;
    const auto next = std::move(wanted_.front());
    wanted_.pop_front();
    known_[next.out].state = State::Making;
    lock.unlock();
    Telling telling(*this, next.out);
    end_one(next.out, workers_.proxy(next.clip, next.duration, next.out, telling));
  }
}

}  // namespace panslate::app
