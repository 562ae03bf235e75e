#pragma once

#include <string>
#include <string_view>

#include "panslate/base/media_time.h"

#include "deliver/page_template.h"

namespace panslate {

/// The film beside the page: where to play from.
class FilmPlace {
 public:
  /// `path` is relative to the page's folder (UTF-8); `clock` the media whose clock the film runs on.
  FilmPlace(std::string_view path, std::string clock);

  [[nodiscard]] bool empty() const { return url_.empty(); }
  [[nodiscard]] const std::string& url() const { return url_; }

  /// Sets `play` to {url, t, time} a second before a moment (so that she hears it coming), or to false where
  /// the moment is on another clock.
  void set_play(PageData& data, MediaTime at, std::string_view media) const;

  /// Whether a moment of this clip's clock can be played.
  [[nodiscard]] bool plays(std::string_view media) const { return !url_.empty() && media == clock_; }

 private:
  std::string url_;
  std::string clock_;
};

/// A path as a URL that stays on her own disk, whatever the path holds: percent-encoded (RFC 3986), never
/// with a scheme or a host.
[[nodiscard]] std::string relative_url(std::string_view path);

}  // namespace panslate
