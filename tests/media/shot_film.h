#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "panslate/media/clip_log.h"

/// Films of shots joined at known frames, drawn here: textures under a moving camera, with what kitchens do
/// to a picture. Nothing of the finder's code is used.
namespace panslate::shot_film {

enum class Happens {
  Nothing,
  Hands,     ///< two hands go over a table from above
  Steam,     ///< a cloud comes and goes
  Exposure,  ///< brightness is pumped up and down
  Flash,     ///< one to three frames lit up
  WhipPan,   ///< the camera is swept to the side and back
  Lid,       ///< a lid is put down until it fills the picture, and taken away
  Pan,       ///< the camera goes slowly to the side
  Shake,     ///< the camera is held in a hand
  Busy,      ///< everything moves all the time
};

struct Piece {
  int frames = 60;
  int seed = 1;
  Happens happens = Happens::Nothing;
  std::string source = {};  ///< a lavfi source or a clip to take the pictures from, in place of a drawing
};

/// How a piece follows the one before.
struct Join {
  ShotStart how = ShotStart::Cut;
  int frames = 0;  ///< of a dissolve or fade; both pieces lie under it
};

struct Film {
  std::string name;
  std::vector<Piece> pieces;
  std::vector<Join> joins;  ///< one fewer than pieces
  std::string rate = "25";
  std::string coding;  ///< arguments of the ffmpeg command
  std::string ending = ".mp4";
};

/// Where a shot changes: frames from `begin` up to `end`, not inclusive; a cut is one frame.
struct Truth {
  ShotStart how = ShotStart::Cut;
  int begin = 0;
  int end = 0;
};

/// Draws the film with the ffmpeg program as the encoder; what is true of it. Empty where it cannot be made.
[[nodiscard]] std::vector<Truth> make(const Film& film, const std::filesystem::path& out);

/// Films with cuts, dissolves and fades, of many sources and codings. Real clips are among the pieces where
/// `clips` holds some.
[[nodiscard]] std::vector<Film> development_set(const std::filesystem::path& clips);
/// The same kinds with other seeds.
[[nodiscard]] std::vector<Film> held_out_set(const std::filesystem::path& clips);
/// Without any change of shot.
[[nodiscard]] std::vector<Film> hard_material();

/// How a list of found changes compares with the truth.
struct Score {
  int right = 0;
  int missed = 0;
  int wrong = 0;
  void add(const Score& other);
  [[nodiscard]] double precision() const;
  [[nodiscard]] double recall() const;
  [[nodiscard]] double f1() const;
};

/// `found`: first frames of new shots. A cut must be found at ±1 frame; a dissolve or fade where the start
/// lies inside of it. `which`: only these count as missed; what lies in others is not wrong.
[[nodiscard]] Score compare(const std::vector<Truth>& truth, const std::vector<int>& found,
                            const std::vector<ShotStart>& which);

}  // namespace panslate::shot_film
