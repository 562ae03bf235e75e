#include "media/small_picture.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

extern "C" {
#include <libavutil/pixdesc.h>
}

namespace panslate::av {

namespace {

// What any other form is turned into first.
constexpr int kScaledWidth = 384;
constexpr int kScaledHeight = 216;

struct Form {
  int depth = 0;
  int chroma_width_shift = 0;
  int chroma_height_shift = 0;
  bool colour = false;
};

// Planes of luma and chroma, 8 to 16 bits in the machine's order; anything else is converted.
bool is_planar(const AVPixFmtDescriptor& form) {
  constexpr unsigned kOther = AV_PIX_FMT_FLAG_BE | AV_PIX_FMT_FLAG_PAL | AV_PIX_FMT_FLAG_BITSTREAM |
                              AV_PIX_FMT_FLAG_HWACCEL | AV_PIX_FMT_FLAG_RGB | AV_PIX_FMT_FLAG_FLOAT |
                              AV_PIX_FMT_FLAG_BAYER;
  if ((form.flags & kOther) != 0 || form.nb_components == 2) return false;
  const int bytes = form.comp[0].depth > 8 ? 2 : 1;
  if (form.comp[0].depth > 16 || form.comp[0].shift != 0) return false;
  for (int i = 0; i < std::min<int>(form.nb_components, 3); ++i)
    if (form.comp[i].plane != i || form.comp[i].step != bytes) return false;
  return true;
}

const std::uint8_t* line_of(const AVFrame& frame, int plane, int y) {
  return frame.data[plane] + static_cast<std::ptrdiff_t>(y) * frame.linesize[plane];
}

// One line with 8 bits a sample.
const std::uint8_t* eight_bits(const std::uint8_t* line, int width, int depth,
                               std::vector<std::uint8_t>& row) {
  if (depth == 8) return line;
  row.resize(static_cast<std::size_t>(width));
  const auto* wide = reinterpret_cast<const std::uint16_t*>(line);
  const int shift = depth - 8;
  for (int x = 0; x < width; ++x)
    row[static_cast<std::size_t>(x)] = static_cast<std::uint8_t>(wide[x] >> shift);
  return row.data();
}

std::uint32_t sum_of(const std::uint8_t* line, int width) {
  std::uint32_t sum = 0;
  for (int x = 0; x < width; ++x) sum += line[x];
  return sum;
}

std::uint32_t difference(const std::uint8_t* line, int width, int apart) {
  std::uint32_t sum = 0;
  for (int x = 0; x < width - apart; ++x)
    sum +=
        static_cast<std::uint32_t>(std::abs(static_cast<int>(line[x]) - static_cast<int>(line[x + apart])));
  return sum;
}

// Means of `bins` equal parts of a line of sums.
template <class Sum, class Out>
void into_bins(const std::vector<Sum>& line, int width, int bins, int lines, Out* out) {
  for (int bin = 0; bin < bins; ++bin) {
    const int from = static_cast<int>(static_cast<std::int64_t>(bin) * width / bins);
    const int to = std::max(from + 1, static_cast<int>(static_cast<std::int64_t>(bin + 1) * width / bins));
    std::uint64_t sum = 0;
    for (int x = from; x < to; ++x) sum += line[static_cast<std::size_t>(x)];
    out[bin] = static_cast<Out>(static_cast<float>(sum) / static_cast<float>((to - from) * lines));
  }
}

}  // namespace

const AVFrame* PictureShrinker::converted(const AVFrame& frame) {
  if (!scaler_ || scaled_width_ != frame.width || scaled_height_ != frame.height ||
      scaled_format_ != frame.format) {
    scaler_.reset(sws_getContext(frame.width, frame.height, static_cast<AVPixelFormat>(frame.format),
                                 kScaledWidth, kScaledHeight, AV_PIX_FMT_YUV420P, SWS_AREA, nullptr, nullptr,
                                 nullptr));
    scaled_width_ = frame.width;
    scaled_height_ = frame.height;
    scaled_format_ = frame.format;
  }
  if (!scaler_) return nullptr;
  if (!small_) {
    small_ = make_frame();
    small_->format = AV_PIX_FMT_YUV420P;
    small_->width = kScaledWidth;
    small_->height = kScaledHeight;
    if (av_frame_get_buffer(small_.get(), 0) < 0) return nullptr;
  }
  const int made =
      sws_scale(scaler_.get(), frame.data, frame.linesize, 0, frame.height, small_->data, small_->linesize);
  return made == kScaledHeight ? small_.get() : nullptr;
}

bool PictureShrinker::shrink(const AVFrame& given, SmallPicture& out) {
  const AVFrame* frame = &given;
  const auto* form = av_pix_fmt_desc_get(static_cast<AVPixelFormat>(given.format));
  if (form == nullptr || given.width < 2 || given.height < 2) return false;
  if (!is_planar(*form)) {
    frame = converted(given);
    if (frame == nullptr) return false;
    form = av_pix_fmt_desc_get(AV_PIX_FMT_YUV420P);
  }
  const int width = frame->width;
  const int height = frame->height;
  const int depth = form->comp[0].depth;
  const auto size = static_cast<std::size_t>(width);
  columns_.assign(size, 0);
  band_.resize(size);
  // Twelve samples apart at full high definition: coarse enough to outlive the blur of a lens.
  const int apart = std::max(6, width / 160);
  std::uint64_t fine = 0;
  std::uint64_t coarse = 0;
  for (int band = 0; band < kHigh; ++band) {
    std::fill(band_.begin(), band_.end(), std::uint16_t{0});
    for (int part = 0; part < kRowsACell; ++part) {
      const int index = band * kRowsACell + part;
      const int y = static_cast<int>((static_cast<std::int64_t>(index) * 2 + 1) * height /
                                     (std::int64_t{2} * kRowBins));
      const auto* line = eight_bits(line_of(*frame, 0, y), width, depth, row_);
      for (int x = 0; x < width; ++x)
        band_[static_cast<std::size_t>(x)] =
            static_cast<std::uint16_t>(band_[static_cast<std::size_t>(x)] + line[x]);
      out.rows.at(static_cast<std::size_t>(index)) =
          static_cast<float>(sum_of(line, width)) / static_cast<float>(width);
      if (part % 2 == 0) {
        fine += difference(line, width, 1);
        coarse += difference(line, width, apart);
      }
    }
    for (std::size_t x = 0; x < size; ++x) columns_[x] += band_[x];
    into_bins(band_, width, kWide, kRowsACell, out.luma.data() + static_cast<std::ptrdiff_t>(band) * kWide);
  }
  into_bins(columns_, width, kColumnBins, kRowBins, out.columns.data());
  // A slope without any detail differs in one sample by one part of what it does in `apart`.
  const float share =
      static_cast<float>(fine) / (static_cast<float>(coarse) + static_cast<float>(width) * 36.0F);
  const float slope = 1.0F / static_cast<float>(apart);
  out.sharpness = std::max(0.0F, (share - slope) / (1 - slope));

  out.colour = form->nb_components >= 3;
  if (out.colour) {
    const int chroma_width = AV_CEIL_RSHIFT(width, form->log2_chroma_w);
    const int chroma_height = AV_CEIL_RSHIFT(height, form->log2_chroma_h);
    band_.resize(static_cast<std::size_t>(std::max(width, chroma_width)));
    for (int plane = 1; plane <= 2; ++plane) {
      auto& to = plane == 1 ? out.cb : out.cr;
      for (int band = 0; band < kHigh / 2; ++band) {
        std::fill(band_.begin(), band_.end(), std::uint16_t{0});
        for (int part = 0; part < 2; ++part) {
          const int y = static_cast<int>((std::int64_t{band} * 4 + std::int64_t{part} * 2 + 1) *
                                         chroma_height / (std::int64_t{2} * kHigh));
          const auto* line = eight_bits(line_of(*frame, plane, y), chroma_width, depth, row_);
          for (int x = 0; x < chroma_width; ++x)
            band_[static_cast<std::size_t>(x)] =
                static_cast<std::uint16_t>(band_[static_cast<std::size_t>(x)] + line[x]);
        }
        into_bins(band_, chroma_width, kWide / 2, 2,
                  to.data() + static_cast<std::ptrdiff_t>(band) * (kWide / 2));
      }
    }
  } else {
    out.cb.fill(128);
    out.cr.fill(128);
  }
  std::uint32_t sum = 0;
  std::uint64_t squares = 0;
  for (const auto value : out.luma) {
    sum += value;
    squares += std::uint64_t{value} * value;
  }
  constexpr auto kCells = static_cast<float>(kWide * kHigh);
  out.mean = static_cast<float>(sum) / kCells;
  out.spread = std::sqrt(std::max(0.0F, static_cast<float>(squares) / kCells - out.mean * out.mean));
  return true;
}

}  // namespace panslate::av
