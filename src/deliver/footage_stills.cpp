#include <algorithm>

#include "panslate/deliver/footage_log_files.h"

#include "deliver/still_names.h"

namespace panslate {

namespace {

// In a comment of the picture (ITU-T T.81, B.2.4.5), so that it can be told from one of hers.
constexpr std::string_view kMark = "a still by panslate";

std::string with_mark(std::string_view jpeg) {
  constexpr std::size_t kStart = 2;  // the marker that every JPEG begins with
  std::string out(jpeg.substr(0, kStart));
  const std::size_t length = kMark.size() + 2;
  out += {'\xFF', '\xFE', static_cast<char>(length >> 8U), static_cast<char>(length & 0xFFU)};
  out += kMark;
  return out += jpeg.substr(kStart);
}

}  // namespace

std::string still_name(const FootageLog& log, std::size_t clip, std::size_t shot) {
  const auto stem = log.clips[clip].file.stem();
  const auto namesakes = std::count_if(log.clips.begin(), log.clips.end(),
                                       [&](const LoggedClip& other) { return other.file.stem() == stem; });
  auto name = stem.string();
  if (namesakes > 1) name += "-clip-" + std::to_string(clip + 1);
  return name + "-shot-" + std::to_string(shot + 1) + ".jpg";
}

std::vector<OutputFile> footage_stills(const FootageLog& log) {
  std::vector<OutputFile> files;
  for (std::size_t i = 0; i < log.clips.size(); ++i) {
    if (!log.clips[i].log) continue;
    const auto& shots = log.clips[i].log->shots;
    for (std::size_t k = 0; k < shots.size(); ++k)
      if (shots[k].still)
        files.push_back({still_name(log, i, k), with_mark(shots[k].still->jpeg), std::string(kMark)});
  }
  return files;
}

}  // namespace panslate
