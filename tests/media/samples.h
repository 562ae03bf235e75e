#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "panslate/media/render.h"

/// Clips the tests make for themselves, so that what is in them is known by hand.
namespace panslate::samples {

/// A folder of this test run, removed at its end.
[[nodiscard]] const std::filesystem::path& folder();

/// Renders into the folder, once a run; a failure ends the test run with the reason.
[[nodiscard]] std::filesystem::path make(const std::string& name, const RenderSpec& spec);

/// A plain spec: `graph` for `ms` milliseconds at a rate.
[[nodiscard]] RenderSpec spec(std::string_view graph, std::int64_t ms, FrameRate rate = {25, 1});

/// Pictures whose grey tells their number: 16 + 8 × (number mod 25), on a small picture.
[[nodiscard]] std::string counting_grey(FrameRate rate);
/// A test card that moves, with its upper left corner red, to tell which way is up.
inline constexpr std::string_view kCorner = "testsrc=s=320x240,drawbox=x=0:y=0:w=80:h=60:color=red:t=fill";
inline constexpr std::string_view kTone = "sine=f=440";

/// A name and what is in it; used by the tests of probing, damage and fuzzing alike.
[[nodiscard]] std::filesystem::path camera_mp4();     ///< 25/s, 2 s, 64x48, tone
[[nodiscard]] std::filesystem::path phone_mp4();      ///< 30000/1001, rotated by 90, 240x320 seen, 1 s
[[nodiscard]] std::filesystem::path timecode_mov();   ///< 30000/1001 from 01:00:00;00, no sound, 1 s
[[nodiscard]] std::filesystem::path film_mkv();       ///< 24000/1001, 2 s, in milliseconds
[[nodiscard]] std::filesystem::path broadcast_ts();   ///< 25/s, 2 s, no duration in any header
[[nodiscard]] std::filesystem::path old_avi();        ///< 25/s, 2 s
[[nodiscard]] std::filesystem::path varying_mp4();    ///< 40 pictures in 3 s: 20 at 25/s, then every third
[[nodiscard]] std::filesystem::path narration_wav();  ///< 1.5 s of tone
[[nodiscard]] std::filesystem::path silent_mov();     ///< picture only, 24/s, 1.5 s

}  // namespace panslate::samples
