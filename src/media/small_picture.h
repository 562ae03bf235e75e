#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

extern "C" {
#include <libswscale/swscale.h>
}

#include "media/av.h"

/// A picture as small as detectors need it, made from every decoded one: so it must cost next to nothing.
namespace panslate::av {

inline constexpr int kWide = 64;
inline constexpr int kHigh = 36;
inline constexpr std::size_t kPictureCells = std::size_t{kWide} * kHigh;
inline constexpr int kRowsACell = 4;
inline constexpr int kColumnBins = 256;
inline constexpr int kRowBins = kHigh * kRowsACell;

/// Where the value at x, y stands in rows of `wide`.
constexpr std::size_t place_of(int x, int y, int wide) {
  return static_cast<std::size_t>(y) * static_cast<std::size_t>(wide) + static_cast<std::size_t>(x);
}

struct SmallPicture {
  /// Means of a grid laid over the stored picture, whatever its shape.
  std::array<std::uint8_t, kPictureCells> luma{};
  std::array<std::uint8_t, kPictureCells / 4> cb{};
  std::array<std::uint8_t, kPictureCells / 4> cr{};
  /// Means of columns and of rows, for the motion of the whole picture.
  std::array<float, kColumnBins> columns{};
  std::array<float, kRowBins> rows{};
  float mean = 0;    ///< of the luma, 0 to 255
  float spread = 0;  ///< its standard deviation over the grid
  /// How much of the contrast is in the finest detail, 0 to about 1: less where it is blurred.
  float sharpness = 0;
  bool colour = false;
};

/// Makes small pictures from frames of any form.
class PictureShrinker {
 public:
  /// False for a frame that cannot be looked at.
  bool shrink(const AVFrame& frame, SmallPicture& out);

 private:
  struct FreeScaler {
    void operator()(SwsContext* scaler) const { sws_freeContext(scaler); }
  };
  const AVFrame* converted(const AVFrame& frame);

  std::vector<std::uint8_t> row_;
  std::vector<std::uint16_t> band_;
  std::vector<std::uint32_t> columns_;
  std::unique_ptr<SwsContext, FreeScaler> scaler_;
  Frame small_;
  int scaled_width_ = 0;
  int scaled_height_ = 0;
  int scaled_format_ = -1;
};

}  // namespace panslate::av
