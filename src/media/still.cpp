#include "panslate/media/still.h"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

#include "media/clip_reader.h"
#include "media/jpeg.h"
#include "media/orientation.h"
#include "media/picture_decoder.h"

namespace panslate {

namespace {

// For each still.
constexpr std::chrono::seconds kPatience{30};

Result<Still> still_at(av::ClipReader& reader, av::PictureDecoder& decoder, MediaTime time,
                       int longest_side) {
  PANSLATE_TRY(const av::Frame frame, decoder.frame_at(time));
  AVStream& stream = *reader.picture();
  av::Development how;
  how.orientation = av::orientation_of(stream);
  how.pixel = av_guess_sample_aspect_ratio(&reader.format(), &stream, frame.get());
  how.longest_side = std::clamp(longest_side, kSmallestStill, kLargestStill);
  PANSLATE_TRY(auto still, av::develop(*frame, how, reader.file()));
  still.time = decoder.time_of(*frame);
  return still;
}

}  // namespace

Result<Still> take_still(const std::filesystem::path& file, MediaTime time, int longest_side) {
  PANSLATE_TRY(auto reader, av::ClipReader::open(file, kPatience));
  PANSLATE_TRY(auto decoder, av::PictureDecoder::open(reader));
  return still_at(reader, decoder, time, longest_side);
}

Status take_stills(const std::filesystem::path& file, std::span<const MediaTime> times, int longest_side,
                   const StillTaken& taken) {
  PANSLATE_TRY(auto reader, av::ClipReader::open(file, kPatience));
  PANSLATE_TRY(auto decoder, av::PictureDecoder::open(reader));
  std::vector<std::size_t> order(times.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [times](std::size_t a, std::size_t b) { return times[a] < times[b]; });
  for (const std::size_t index : order) {
    reader.be_patient(kPatience);
    if (!taken(index, still_at(reader, decoder, times[index], longest_side))) break;
  }
  return {};
}

}  // namespace panslate
