#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"

/// Narration with known word times: what a recogniser is measured on. The voices are SYNTHETIC (flite's
/// diphone and statistical voices, espeak-ng's formant voices), and the times of the words are their
/// synthesiser's own account of what it did (flite: the segments of the utterance; espeak-ng: its word and
/// phoneme events), not what a phonetician would mark. They say how well times are found again, not how well
/// people are understood.
///
/// Sound is 16 kHz mono, 16 bits. Everything is the same for the same arguments. Functions may be called from
/// any thread; the synthesisers work for one at a time.
namespace panslate::testing {

inline constexpr int kSampleRate = 16000;

enum class Speaker : std::uint8_t {
  Kal16,  // flite, American men, the third Scottish; slt a woman
  Rms,
  Awb,
  Slt,
  EspeakUs,
  EspeakGb,
  EspeakScotland,
  EspeakCaribbean,
};

/// `stretch` above 1 speaks slowly: 0.8, 1 and 1.25 are fast, usual and slow.
struct Voice {
  Speaker speaker = Speaker::Kal16;
  double stretch = 1.0;
};
[[nodiscard]] std::string to_string(Voice voice);  ///< "flite rms, 0.8"

/// One thing said in one breath: words as they are spoken ("two hundred grams", never "200 g"), with commas
/// and full stops for pauses.
struct Said {
  std::string text;
  std::optional<std::size_t> line;        ///< of the script, from 0; none: an ad-lib between lines
  std::optional<std::size_t> broken_off;  ///< after so many of its words
  /// Words put in after so many words of the line.
  struct Inside {
    std::size_t after = 0;
    std::string text;
  };
  std::optional<Inside> ad_lib;
};

/// Every line once, in order.
[[nodiscard]] std::vector<Said> read_out(std::span<const std::string> lines);

struct NarratedWord {
  std::string word;                 ///< lower case, without the marks around it
  std::size_t said = 0;             ///< index into what was said
  std::optional<std::size_t> line;  ///< of the script; none for ad-libs
  std::size_t in_line = 0;          ///< which word of the script's line; 0 for ad-libs
  TimeRange when;
  /// espeak-ng speaks a few pairs ("from a") as one word and does not tell where the second begins; `when` is
  /// then the pair's.
  bool time_known = true;
};

struct Narration {
  std::vector<std::int16_t> samples;
  std::vector<NarratedWord> words;  ///< in the order of time
  [[nodiscard]] double seconds() const { return static_cast<double>(samples.size()) / kSampleRate; }
};

struct Pauses {
  double between_lines = 0.45;  ///< seconds, ± a third of it at random
  double at_ends = 0.5;         ///< before the first and after the last
  std::uint32_t seed = 1;
};

/// Speaks it. Throws std::runtime_error when a synthesiser fails, or does not give as many words as the text
/// has.
[[nodiscard]] Narration narrate(std::span<const Said> said, Voice voice, Pauses pauses = {});

enum class Noise : std::uint8_t {
  White,
  Pink,    ///< an extractor hood, a fan: −3 dB an octave
  Frying,  ///< hiss between 1.5 and 7 kHz with thousands of crackles: modelled by ear, no source
};

/// Mixes noise in at a ratio of the mean power inside words to the mean power of the noise.
void add_noise(Narration& narration, Noise noise, double snr_db, std::uint32_t seed = 1);

/// A room as its response would be if sound came back equally from everywhere: noise that decays by 60 dB in
/// `decay_seconds` (sparse: ±1 at random places, "velvet noise"), `direct_to_reverberant_db` below the direct
/// sound. Times stay those of the direct sound.
struct Room {
  double decay_seconds = 0.4;
  double direct_to_reverberant_db = 3.0;
  std::uint32_t seed = 1;
};
void put_in_room(Narration& narration, const Room& room);

/// A script with the ways it is spoken, from tests/data/speech (the files tell their form).
struct ScriptAmount {
  std::string written;               ///< "200 g"
  std::string spoken;                ///< "two hundred grams"
  std::vector<std::string> instead;  ///< slips of the tongue: "three hundred grams"
};
struct ScriptLine {
  int number = 0;       ///< of the file
  std::string written;  ///< as the script has it, without brackets
  std::vector<ScriptAmount> amounts;
  /// Between them stand the words of the line: pieces.size() == amounts.size() + 1.
  std::vector<std::string> pieces;

  /// The line as it is spoken; with an amount replaced where `slip` names one.
  struct Slip {
    std::size_t amount = 0;
    std::size_t instead = 0;
  };
  [[nodiscard]] std::string spoken(std::optional<Slip> slip = std::nullopt) const;
};

/// Throws std::runtime_error with the line where the file is not in its form.
[[nodiscard]] std::vector<ScriptLine> read_spoken_script(const std::filesystem::path& file);

/// The words of a text as `narrate` counts them: lower case, without the marks around them.
[[nodiscard]] std::vector<std::string> words_spoken(std::string_view text);

/// A PCM WAVE file (RIFF, 16 kHz, mono, 16 bits) for programs that read files.
void write_wav(const std::filesystem::path& file, const Narration& narration);

}  // namespace panslate::testing
