#include <algorithm>

#include "panslate/base/timestamp.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/overlay.h"

namespace panslate {

namespace {

// SMPTE ST 2046-1 and EBU R 95: titles stay within the middle 90 % of the picture.
constexpr int kSafePercent = 5;
// Upright film is watched under the controls of a telephone: common practice, no source.
constexpr int kUprightTopPercent = 12;
constexpr int kUprightBottomPercent = 20;
constexpr int kFontPercent = 5;

struct AssLayout {
  int font = 0, outline = 0, side = 0, vertical = 0;
};

AssLayout layout_for(int width, int height) {
  AssLayout layout;
  layout.font = std::max(8, std::min(width, height) * kFontPercent / 100);
  layout.outline = std::max(2, layout.font / 5);
  // The box reaches beyond the text by its outline, so the text keeps that much more distance.
  layout.side = width * kSafePercent / 100 + layout.outline + 1;
  const bool upright = height > width;
  layout.vertical = height * (upright ? kUprightTopPercent : kSafePercent) / 100 + layout.outline + 1;
  static_assert(kUprightTopPercent + kUprightBottomPercent < 100);
  return layout;
}

}  // namespace

std::string write_subrip(const OverlayTrack& track) {
  std::string out;
  std::size_t number = 0;
  for (const auto& text : track.texts) {
    out += std::to_string(++number) + "\n" + format_timestamp(text.when.begin, TimestampStyle::Comma) +
           " --> " + format_timestamp(text.when.end, TimestampStyle::Comma) + "\n" +
           escape_subrip(text.text) + "\n\n";
  }
  return out;
}

std::string write_webvtt(const OverlayTrack& track) {
  std::string out = "WEBVTT\n\nNOTE On-screen text made by panslate from the written recipe\n\n";
  std::size_t number = 0;
  for (const auto& text : track.texts) {
    out += std::to_string(++number) + "\n" + format_timestamp(text.when.begin, TimestampStyle::Clock) +
           " --> " + format_timestamp(text.when.end, TimestampStyle::Clock) +
           " align:start position:5% line:10% size:60%\n" + escape_webvtt(text.text) + "\n\n";
  }
  return out;
}

std::string write_ass(const OverlayTrack& track, int width, int height) {
  if (width <= 0 || height <= 0) {
    width = PictureSize{}.width;
    height = PictureSize{}.height;
  }
  const auto layout = layout_for(width, height);
  const auto text = [](int value) { return std::to_string(value); };
  // Colours are &HAABBGGRR, AA 00 opaque: a warm white on a dark box that lets a little of the picture
  // through.
  std::string out =
      "[Script Info]\n"
      "; On-screen text made by panslate from the written recipe\n"
      "ScriptType: v4.00+\n"
      "PlayResX: " +
      text(width) + "\nPlayResY: " + text(height) +
      "\n"
      "WrapStyle: 0\n"
      "ScaledBorderAndShadow: yes\n\n"
      "[V4+ Styles]\n"
      "Format: Name, Fontname, Fontsize, PrimaryColour, SecondaryColour, OutlineColour, BackColour, Bold, "
      "Italic, "
      "Underline, StrikeOut, ScaleX, ScaleY, Spacing, Angle, BorderStyle, Outline, Shadow, Alignment, "
      "MarginL, "
      "MarginR, MarginV, Encoding\n"
      "Style: Amount,Sans," +
      text(layout.font) + ",&H00F2F8FC,&H00F2F8FC,&H40241C18,&H40241C18,-1,0,0,0,100,100,0,0,3," +
      text(layout.outline) + ",0,7," + text(layout.side) + "," + text(layout.side) + "," +
      text(layout.vertical) +
      ",1\n\n"
      "[Events]\n"
      "Format: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text\n";
  for (const auto& entry : track.texts)
    out += "Dialogue: 0," + format_timestamp(entry.when.begin, TimestampStyle::Centi) + "," +
           format_timestamp(entry.when.end, TimestampStyle::Centi) + ",Amount,,0,0,0,," +
           escape_ass(entry.text) + "\n";
  return out;
}

}  // namespace panslate
