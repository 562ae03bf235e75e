#include "panslate/media/still.h"

#include <algorithm>

#include "media/clip_reader.h"
#include "media/jpeg.h"
#include "media/orientation.h"
#include "media/picture_decoder.h"

namespace panslate {

namespace {

constexpr std::chrono::seconds kPatience{30};
constexpr int kSmallestSide = 16;

}  // namespace

Result<Still> take_still(const std::filesystem::path& file, MediaTime time, int longest_side) {
  PANSLATE_TRY(auto reader, av::ClipReader::open(file, kPatience));
  PANSLATE_TRY(auto decoder, av::PictureDecoder::open(reader));
  PANSLATE_TRY(const av::Frame frame, decoder.frame_at(time));
  AVStream& stream = *reader.picture();
  av::Development how;
  how.orientation = av::orientation_of(stream);
  how.pixel = av_guess_sample_aspect_ratio(&reader.format(), &stream, frame.get());
  how.longest_side = std::clamp(longest_side, kSmallestSide, av::kLargestSide);
  PANSLATE_TRY(auto still, av::develop(*frame, how, file));
  still.time = decoder.time_of(*frame);
  return still;
}

}  // namespace panslate
