#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/speech/recogniser.h"

namespace panslate {

/// The ways a word may be said, for a recogniser: the en-us dictionary (CMU), a table of food words, and what
/// she wrote down herself, all together; a word in none of them by the rules of spelling. Of a word with r
/// after a vowel the British way is added. For one thread at a time.
class PronouncingDictionary {
 public:
  /// `model` as for open_recogniser. Fails (NotFound, Unreadable) when its dictionary cannot be read.
  [[nodiscard]] static Result<PronouncingDictionary> open(
      const std::filesystem::path& model = default_speech_model());

  /// Her own words: a text with a word and how it sounds in a line ("gochujang  go choo jang": English words
  /// or syllables that sound like it, at most 12), "#" before a remark. Replaces what was added before. Every
  /// line that cannot be read is told (Malformed, with its place); then nothing is added.
  [[nodiscard]] Checked<std::size_t> add_own_words(std::string_view text, const std::filesystem::path& file);

  /// Phones with spaces between ("W IH S K"), the usual way first, at most eight ways. `word` is one spoken
  /// word in any case; accents are passed over. Empty when it has no letter that English could say.
  [[nodiscard]] const std::vector<std::string>& ways(std::string_view word);

  /// False when ways() had to go by the spelling: her own words would help.
  [[nodiscard]] bool knows(std::string_view word);

 private:
  struct Ways {
    std::vector<std::string> phones;
    bool known = false;
  };

  const Ways& look_up(std::string_view word);
  [[nodiscard]] Ways listed(const std::string& word) const;
  [[nodiscard]] Ways spelled(const std::string& word) const;

  std::string dictionary_;            // the file's text
  std::vector<std::uint32_t> lines_;  // where its lines begin, by word
  std::unordered_map<std::string, std::vector<std::string>> food_;
  std::unordered_map<std::string, std::vector<std::string>> own_;
  std::unordered_map<std::string, Ways> asked_;
};

}  // namespace panslate
