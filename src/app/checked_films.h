#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "panslate/desk/desk.h"
#include "panslate/project/store.h"

#include "app/context.h"
#include "app/proxies.h"

namespace panslate::app {

/// The film, read and checked as `panslate check` does it, whenever a decision about it is made.
class CheckedFilms final : public DeskWork {
 public:
  /// The context must outlive it.
  CheckedFilms(std::string project, Context& context);

  Checked<std::shared_ptr<const DeskFilm>> look(FileSystem& disk) override;
  std::optional<Still> kept_still(const std::string& content, MediaTime time, int longest_side) override;
  Result<Still> take_still(const std::filesystem::path& file, MediaTime time, int longest_side) override;
  std::optional<ClipLog> logged(const std::string& content, const std::filesystem::path& file) override;
  DeskProxy proxy(const std::string& content, const ClipFacts& clip, bool make) override;
  void keep_still(const std::string& content, MediaTime time, int longest_side, const Still& still) override;

 private:
  std::string project_;
  Context& context_;
  bool first_ = true;  // only then is anybody looking at the terminal; looks come one at a time
  std::mutex stills_mutex_;
  Store stills_;
  Proxies proxies_;
};

}  // namespace panslate::app
