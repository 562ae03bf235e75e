#include "deliver/film_place.h"

#include <algorithm>
#include <utility>

#include "deliver/page_marks.h"

namespace panslate {

namespace {
constexpr MediaTime kLead = MediaTime::from_seconds(1);
}

std::string relative_url(std::string_view path) {
  static constexpr std::string_view kPlain =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~/";
  static constexpr std::string_view kHex = "0123456789ABCDEF";
  // Two slashes at the start would name a host, a word and a colon a scheme.
  const bool rooted = path.starts_with('/');
  while (path.starts_with('/')) path.remove_prefix(1);
  if (path.empty()) return {};
  std::string out = rooted ? "/" : (path.starts_with("../") ? "" : "./");
  for (const char c : path) {
    if (kPlain.find(c) != std::string_view::npos) {
      out += c;
      continue;
    }
    const auto byte = static_cast<unsigned char>(c);
    out += '%';
    out += kHex[byte >> 4U];
    out += kHex[byte & 15U];
  }
  return out;
}

FilmPlace::FilmPlace(const std::vector<PlayableClip>& clips) {
  for (const auto& clip : clips) {
    auto url = relative_url(clip.path);
    if (url.empty()) continue;
    if (film_.empty()) film_ = url;
    urls_.emplace(clip.id, std::move(url));
  }
}

std::string FilmPlace::url_of(std::string_view media) const {
  const auto found = urls_.find(media);
  return found == urls_.end() ? std::string{} : found->second;
}

void FilmPlace::set_play(PageData& data, MediaTime at, std::string_view media) const {
  if (!plays(media)) {
    set_flag(data, "play", false);
    return;
  }
  const auto from = std::max(MediaTime(), at - kLead);
  PageData play;
  play.set("url", url_of(media));
  play.set("t", seconds_text(from));
  play.set("time", spoken(from));
  data.set("play", play);
}

}  // namespace panslate
