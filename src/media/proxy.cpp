#include "panslate/media/proxy.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string>
#include <utility>

#include "panslate/media/clip_facts.h"
#include "panslate/media/render.h"

#include "media/clip_reader.h"

namespace panslate {

namespace {

constexpr std::chrono::milliseconds kPatience{30'000};
constexpr int kDecoderThreads = 2;

std::string seconds(MediaTime time) {
  return std::to_string(time.ticks()) + "/" + std::to_string(MediaTime::from_seconds(1).ticks());
}

int even(double pixels) {
  return std::max(2, static_cast<int>(std::lround(pixels / 2)) * 2);
}

// The picture as a viewer sees it: the stored one is scaled, then turned.
std::string upright(const PictureFacts& picture) {
  const double shrink =
      std::min(1.0, static_cast<double>(kProxySide) / std::max(picture.shown_width, picture.shown_height));
  int width = even(picture.shown_width * shrink);
  int height = even(picture.shown_height * shrink);
  if (picture.rotation % 180 != 0) std::swap(width, height);
  std::string chain =
      ",scale=w=" + std::to_string(width) + ":h=" + std::to_string(height) + ":flags=bicubic,setsar=1";
  if (picture.rotation == 90) chain += ",transpose=dir=clock";
  if (picture.rotation == 180) chain += ",hflip,vflip";
  if (picture.rotation == 270) chain += ",transpose=dir=cclock";
  if (picture.mirrored) chain += ",hflip";
  return chain;
}

// Light in linear numbers whose 1 is white paper (ITU-R BT.2408 table 1), pressed, in BT.709's colours.
constexpr const char* kPressed =
    ",zscale=transfer=linear:npl=203,format=gbrpf32le,zscale=primaries=bt709,tonemap=tonemap=mobius:desat=0,"
    "zscale=transfer=bt709:matrix=bt709:range=limited";

}  // namespace

Status make_proxy(const std::filesystem::path& clip, const std::filesystem::path& out, Progress& progress) {
  PANSLATE_TRY(const auto facts, probe_clip(clip));
  PANSLATE_TRY(const auto reader, av::ClipReader::open(clip, kPatience));
  const auto* picture = facts.picture ? reader.picture() : nullptr;
  const auto* sound = reader.sounds().empty() ? nullptr : reader.sounds().front();
  std::string streams;
  for (const auto* stream : {picture, sound})
    if (stream != nullptr) streams += (streams.empty() ? "" : "+") + std::to_string(stream->index);
  if (streams.empty())
    return fail(ErrorCode::NotMedia, "there is neither a picture nor sound in it", Place{clip});
  // The demuxer that was chosen when it was measured, and no other file whatever stands in it.
  const std::string form = reader.format().iformat->name;
  const auto begin = reader.clock_start();
  RenderSpec spec;
  spec.graph = "movie=filename=" + graph_value("file:" + clip.string()) +
               ":f=" + graph_value(form.substr(0, form.find(','))) + ":streams=" + graph_value(streams) +
               ":dec_threads=" + std::to_string(kDecoderThreads) +
               ":format_opts=" + graph_value("protocol_whitelist=file");
  spec.graph += picture != nullptr && sound != nullptr ? "[p][s]" : picture != nullptr ? "[p]" : "[s]";
  if (picture != nullptr) {
    spec.graph += ";[p]setpts=PTS-" + seconds(begin) + "/TB,yadif=mode=send_frame:deint=interlaced";
    if (facts.picture->hdr) spec.graph += kPressed;
    spec.graph += upright(*facts.picture) + "[v]";
    spec.rate = facts.picture->frame_rate;
  } else {
    spec.rate = {25, 1};
  }
  if (sound != nullptr) spec.graph += ";[s]asetpts=PTS-" + seconds(begin) + "/TB[a]";
  spec.timing = PictureTiming::AsDrawn;
  spec.duration = facts.duration;
  return render_film(spec, out, progress);
}

}  // namespace panslate
