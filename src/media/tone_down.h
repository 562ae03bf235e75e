#pragma once

#include <array>
#include <cstdint>
#include <vector>

/// High dynamic range on a usual screen. Phones film in HLG and screens of today show it brighter than white;
/// shown as it is on others, it is grey and pale.
namespace panslate::av {

enum class HdrTransfer : std::uint8_t {
  Pq,   ///< perceptual quantizer: SMPTE ST 2084, ITU-R BT.2100 table 4
  Hlg,  ///< hybrid log-gamma: BT.2100 table 5
};

/// Light in cd/m² (nits).
inline constexpr double kReferenceWhite = 203;  ///< white paper: ITU-R BT.2408 table 1
/// The display that HLG is defined by (BT.2100), and for which PQ is mastered where it does not say.
inline constexpr double kUsualPeak = 1000;

/// The light that a PQ signal of 0…1 stands for, and back (BT.2100 table 4).
[[nodiscard]] double pq_light(double signal);
[[nodiscard]] double pq_signal(double light);

/// The light of a channel of an HLG picture that is grey, on the display of kUsualPeak (BT.2100 table 5,
/// system gamma 1.2).
[[nodiscard]] double hlg_grey_light(double signal);

/// Light of a display of `peak` as a display shows it whose brightest is kReferenceWhite: what is dark stays,
/// what is bright is pressed together (the EETF of ITU-R BT.2390-10, section 5.4.1).
[[nodiscard]] double pressed(double light, double peak);

/// One picture of BT.2020 colours, 16 bits a channel, as BT.709 colours with the curve of sRGB, 8 bits: what
/// a JPEG is taken for. Colours keep their hue while their brightest channel is pressed; what BT.709 does not
/// have is cut.
class ToneDown {
 public:
  /// `peak`: the brightest light in the clip; HLG is shown at kUsualPeak whatever it says.
  ToneDown(HdrTransfer transfer, double peak);
  [[nodiscard]] std::array<std::uint8_t, 3> operator()(const std::array<std::uint16_t, 3>& rgb) const;

 private:
  HdrTransfer transfer_;
  double peak_;
  std::vector<float> light_;     ///< PQ: in nits; HLG: of the scene, 0…1; by the upper 12 bits
  std::vector<float> pressing_;  ///< factor by the PQ signal, in as many steps
  std::vector<std::uint8_t> shown_;
};

}  // namespace panslate::av
