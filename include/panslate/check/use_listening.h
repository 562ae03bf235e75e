#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "panslate/check/listening.h"
#include "panslate/check/report.h"
#include "panslate/project/edit_map.h"
#include "panslate/speech/transcript.h"

/// What the sound tells, put to use in a check.
namespace panslate {

/// Puts the words of captions, and with them their cues, where they are heard. `heard` is of the same
/// captions as a script (script_of), of the clip whose clock they run on. Words that are not heard one by one
/// ("200 g" is three spoken words) stand between those that are. Cues that are not heard whole, or only more
/// than 15 s away, stay as they are.
void put_in_place(Transcript& captions, const Listening& heard);

/// What is heard in a clip as captions on its clock: of each line the take to use, where it was heard whole;
/// of a draft each line, and then the captions are a draft.
[[nodiscard]] Transcript captions_of(const Listening& heard);

/// What the words that are checked were taken from.
enum class WordsFrom : std::uint8_t {
  Captions,  ///< written down after it was said
  Script,    ///< written down before: only the sound tells whether it was said so
};

/// Amounts that were taken from captions but sound otherwise: what was said as written is then said
/// differently or, where the sound does not settle it, must be checked; what sounds as the recipe has it and
/// stands otherwise in the captions must be checked too. Amounts taken from a script are said as written only
/// where they were heard so. `media` is the clip's id as in Mention::media. What a person decided stays (call
/// this before apply_answers).
void heed_sound(CheckReport& report, std::string_view media, const Listening& heard, Measures measures,
                WordsFrom from = WordsFrom::Captions);

/// What was heard in a clip, on the clock of an edit that uses it.
struct HeardInEdit {
  Listening listening;  ///< its takes and amounts; what was cut is left out, a take cut into is not complete
  WordsFrom from = WordsFrom::Captions;
  std::vector<TimeRange> covers;  ///< where the clip stands
};
/// `media`: index into Project::media.
[[nodiscard]] HeardInEdit heard_in_edit(const Listening& heard, WordsFrom from, const EditMap& map,
                                        std::size_t media);

/// The same for an edit and all clips in it that were listened to. What stands where none of them does is
/// left as it is; where several sound at once (narration over a clip), one that follows the words is enough.
void heed_sound(CheckReport& report, std::string_view edit, std::span<const HeardInEdit> heard,
                Measures measures);

}  // namespace panslate
