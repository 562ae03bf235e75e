#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/deliver/report_page.h"

#include "deliver/page_template.h"

namespace panslate {

/// The clips beside the page: where to play from. The first of them is the film, which stands in the player
/// from the start.
class FilmPlace {
 public:
  explicit FilmPlace(const std::vector<PlayableClip>& clips);

  [[nodiscard]] bool empty() const { return film_.empty(); }
  /// Of the film.
  [[nodiscard]] const std::string& url() const { return film_; }

  /// Sets `play` to {url, t, time} a second before a moment (so that she hears it coming), or to false where
  /// the clip cannot be played.
  void set_play(PageData& data, MediaTime at, std::string_view media) const;

  /// Of a clip; empty where it cannot be played.
  [[nodiscard]] std::string url_of(std::string_view media) const;
  /// Whether a moment of this clip's clock can be played.
  [[nodiscard]] bool plays(std::string_view media) const { return urls_.contains(media); }

 private:
  std::string film_;
  std::map<std::string, std::string, std::less<>> urls_;  ///< by the id of the clip
};

/// A path as a URL that stays on her own disk, whatever the path holds: percent-encoded (RFC 3986), never
/// with a scheme or a host.
[[nodiscard]] std::string relative_url(std::string_view path);

}  // namespace panslate
