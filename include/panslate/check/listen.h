#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "panslate/base/progress.h"
#include "panslate/base/result.h"
#include "panslate/check/listening.h"
#include "panslate/media/footage_workers.h"
#include "panslate/recipe/recipe.h"
#include "panslate/speech/recogniser.h"
#include "panslate/speech/script_lines.h"
#include "panslate/speech/transcript.h"

/// Listening to clips with their scripts at hand.
namespace panslate {

/// Lines whose amounts may be spoken in all the ways that a cook says them.
[[nodiscard]] std::vector<ScriptLine> script_to_hear(std::vector<ScriptLine> lines);

/// Captions as a script: a line for each cue that holds words, numbered as the cues are.
[[nodiscard]] std::vector<ScriptLine> script_of(const Transcript& captions);

struct ClipToHear {
  std::filesystem::path file;
  MediaTime duration;
  bool has_sound = true;
  bool has_picture = false;
  /// From script_to_hear; none where nobody wrote down what is said: then a draft of it is made.
  std::shared_ptr<const std::vector<ScriptLine>> script;
  bool script_is_captions = false;
  bool script_is_draft = false;  ///< nobody has put it right yet: see leave_to_a_person
};

struct ListenSetup {
  std::filesystem::path model = default_speech_model();
  std::string own_words;  ///< the text of her own list of words (see PronouncingDictionary)
  std::filesystem::path own_words_file;
  const Recipe* recipe = nullptr;  ///< what clips without a script speak of; must be there for a draft
  unsigned clips_at_once = 0;      ///< 0: as many as the machine has processors, at most 4
};

/// Told of each clip as soon as it was listened to, by its index, on the thread that called.
using ClipHeard = std::function<void(std::size_t index, const Listening& clip)>;

/// Listens to all of them, several at once. A clip without sound, or whose sound cannot be read or followed,
/// is a Listening with its reason; it fails only where nothing can be listened to at all: no model
/// (NotFound), her own words cannot be read (Malformed), or stopped (Cancelled; what `heard` was told of is
/// done). `progress` is told of "listening" in seconds of sound.
[[nodiscard]] Result<std::vector<Listening>> listen_to(std::span<const ClipToHear> clips,
                                                       const ListenSetup& setup, FootageWorkers& workers,
                                                       Progress& progress, const ClipHeard& heard = {});

}  // namespace panslate
