#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"
#include "panslate/media/clip_facts.h"
#include "panslate/media/still.h"

/// What is in a clip from its first to its last picture and sound: found in one pass that decodes everything.
/// All times are on the clip's clock.
namespace panslate {

/// How a shot takes over from the one before.
enum class ShotStart : std::uint8_t { Cut, Dissolve, Fade };
[[nodiscard]] std::string_view spelling_of(ShotStart start);  ///< "cut", "dissolve", "fade"

struct LoggedShot {
  TimeRange when;                 ///< a dissolve or fade starts the new shot at its middle
  std::int64_t first_frame = 0;   ///< counted from 0
  std::int64_t last_frame = 0;    ///< inclusive
  std::optional<ShotStart> into;  ///< empty for the first
  std::optional<Still> still;     ///< the sharpest frame of it
};

/// By ITU-R BS.1770-4 and EBU R 128, Tech 3342.
struct Loudness {
  std::optional<double> integrated;  ///< LUFS; empty where nothing is above the gate
  double range = 0;                  ///< LU
  double true_peak = 0;              ///< dBTP, the loudest channel's
};

enum class FaultKind : std::uint8_t {
  Black,
  Frozen,
  Blurred,
  Shaky,
  Dark,
  Bright,
  ClippedSound,
  Silent,
  OneChannel,
  Hum,
  Damaged,
  ShortSound,
  DroppedFrames,
};
inline constexpr int kFaultKinds = 13;
[[nodiscard]] std::string_view spelling_of(FaultKind kind);  ///< "black", "clipped-sound", …

struct ClipFault {
  FaultKind kind = FaultKind::Damaged;
  TimeRange when;
  std::string detail;  ///< in a cook's words; may be empty
};

/// Loudness by the moment, as one byte for each 1/kLevelsASecond s: 0 is nothing, then half decibels up from
/// -127 dBFS, root mean square of all channels together.
inline constexpr std::int64_t kLevelsASecond = 100;
/// How often the look of the picture is kept.
inline constexpr std::int64_t kLooksASecond = 2;
/// The longest side of a shot's still, in pixels.
inline constexpr int kShotStillSide = 320;
/// What is logged of a longer clip ends here, with a fault that says so.
inline constexpr MediaTime kLongestLogged = MediaTime::from_seconds(std::int64_t{12} * 3600);

struct ClipLog {
  ClipFacts facts;
  std::int64_t frames = 0;  ///< decoded
  std::vector<LoggedShot> shots;
  std::vector<TimeRange> speech;
  std::size_t sound_track = 0;       ///< the one of facts.sound that was listened to: where most is said
  std::optional<Loudness> loudness;  ///< empty where there is no sound
  std::vector<ClipFault> faults;     ///< in the order of time
  std::string levels;                ///< see kLevelsASecond; from the start of the clock
  /// For each 1/kLooksASecond s of picture 64 bits that tell its look: whether it is lighter than its
  /// neighbour to the right, in 8 × 8 places.
  std::vector<std::uint64_t> looks;

  /// The damage that costs most, which is the longest, the first of equals; null where there is none.
  [[nodiscard]] const ClipFault* damage() const;
};

struct LogSetup {
  int threads = 1;  ///< of the picture's decoder
  /// Stops there, since reading broke off soon after it the last time, and says so; zero: everything is read.
  MediaTime until = {};
};

/// How far reading has come.
struct LogSoFar {
  MediaTime time;          ///< on the clip's clock
  std::int64_t bytes = 0;  ///< of the file
};

/// Told a few times a second; returns whether to go on.
using LogWatcher = std::function<bool(const LogSoFar&)>;

/// Reads the whole clip. Damage is passed over as far as it can be, and becomes faults. Errors as probe_clip;
/// Cancelled where the watcher said so.
[[nodiscard]] Result<ClipLog> log_clip(const std::filesystem::path& file, const LogSetup& setup,
                                       const LogWatcher& watcher);

}  // namespace panslate
