#include "app/proxies.h"

#include <system_error>
#include <utility>

#include "panslate/media/content_key.h"
#include "panslate/media/proxy.h"

namespace panslate::app {

using State = DeskProxy::State;

class Proxies::Telling final : public Progress {
 public:
  Telling(Proxies& proxies, std::filesystem::path out) : proxies_(proxies), out_(std::move(out)) {}
  void step(std::string_view /*phase*/, std::int64_t done, std::int64_t total) override {
    const std::lock_guard lock(proxies_.mutex_);
    ends_ = proxies_.ends_;
    if (total > 0) proxies_.known_[out_].proxy.percent = static_cast<int>(done * 100 / total);
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

DeskProxy Proxies::look(const std::filesystem::path& out, const std::string& content, const ClipFacts& clip,
                        bool make) {
  const std::lock_guard lock(mutex_);
  if (!std::exchange(cleared_, true)) remove_half_copies(out.parent_path());
  auto& [known, again] = known_[out];
  const bool at_work = known.state == State::Waiting || known.state == State::Making;
  if (at_work) return known;
  std::error_code failed;
  if (std::filesystem::is_regular_file(out, failed)) {
    known = {State::Ready, 100, {}, out};
  } else if (make && (known.state != State::Failed || again)) {
    known = {State::Waiting, 0, {}, {}};
    wanted_.push_back({out, content, clip.file, clip.duration});
    wake_.notify_all();
  } else if (known.state == State::Ready) {
    known = {};  // the store was emptied
  }
  return known;
}

// It is named by its content, for good: what was put in the clip's place meanwhile must not get that name.
Status Proxies::make(const Wanted& wanted) {
  const auto is_still_it = [&] {
    const auto key = content_key(wanted.clip);
    return key && *key == wanted.content;
  };
  const auto another = [&] {
    return fail(ErrorCode::NotFound, "the clip was changed meanwhile", Place{wanted.clip});
  };
  if (!is_still_it()) return another();
  Telling telling(*this, wanted.out);
  auto made = workers_.proxy(wanted.clip, wanted.duration, wanted.out, telling);
  if (!made || is_still_it()) return made;
  std::error_code failed;
  std::filesystem::remove(wanted.out, failed);
  return another();
}

void Proxies::end_one(const std::filesystem::path& out, const Status& made) {
  const std::lock_guard lock(mutex_);
  if (made) {
    known_[out] = {{State::Ready, 100, {}, out}, false};
    return;
  }
  const auto& error = made.error();
  // A clip that is gone, or another one: the project is read again, and then asks for what is there.
  const bool is_another = error.code == ErrorCode::NotFound;
  known_[out] = {{is_another ? State::None : State::Failed, 0, error.message, {}},
                 error.code == ErrorCode::WriteFailed};
}

void Proxies::work() {
  for (;;) {
    std::unique_lock lock(mutex_);
    wake_.wait(lock, [this] { return ends_ || !wanted_.empty(); });
    if (ends_) return;
    const auto next = std::move(wanted_.front());
    wanted_.pop_front();
    known_[next.out].proxy.state = State::Making;
    lock.unlock();
    end_one(next.out, make(next));
  }
}

}  // namespace panslate::app
