#include "panslate/speech/corrected_captions.h"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>

#include "panslate/base/text.h"

#include "speech/caption_bytes.h"
#include "speech/cue_places.h"
#include "speech/spoken_words.h"

namespace panslate {

namespace {

/// A word where a cue shows it: what was spoken once may be shown by several cues.
struct Shown {
  std::uint32_t cue = 0;
  std::size_t at = 0;  ///< which of the cue's words
};

bool is_all_capitals(std::string_view text) {
  std::size_t letters = 0;
  for (std::size_t i = 0; i < text.size();) {
    const auto [character, next] = code_point_at(text, i);
    const auto letter = text.substr(i, next - i);
    i = next;
    if (!is_word_character(character)) continue;
    if (fold_case(letter) == letter) return false;
    ++letters;
  }
  return letters > 1;
}

std::string with_capital(const std::string& text) {
  if (text.empty()) return text;
  const auto next = code_point_at(text, 0).next;
  return upper_case(std::string_view(text).substr(0, next)) + text.substr(next);
}

bool begins_with_capital(std::string_view text) {
  const auto first = text.substr(0, text.empty() ? 0 : code_point_at(text, 0).next);
  return !first.empty() && fold_case(first) != first;
}

class Correcting {
 public:
  Correcting(std::string_view bytes, const Transcript& transcript)
      : bytes_(bytes), transcript_(transcript), decoded_(decode_captions(bytes)) {
    find_shown_words();
  }

  CorrectedCaptions run(const std::vector<WordChange>& changes) {
    CorrectedCaptions result;
    for (std::size_t c = 0; c < changes.size(); ++c)
      if (!add(changes[c])) result.left_out.push_back(c);
    std::sort(edits_.begin(), edits_.end(),
              [](const TextEdit& a, const TextEdit& b) { return a.begin < b.begin; });
    if (auto corrected = apply_edits(bytes_, decoded_, edits_)) {
      result.bytes = *std::move(corrected);
      return result;
    }
    result.bytes = bytes_;
    result.left_out.clear();
    for (std::size_t c = 0; c < changes.size(); ++c) result.left_out.push_back(c);
    return result;
  }

 private:
  void find_shown_words() {
    const auto cues = transcript_.cues.size();
    words_of_.resize(cues);
    shown_.resize(transcript_.words.size());
    std::vector<std::vector<std::size_t>> own(cues);
    for (std::size_t w = 0; w < transcript_.words.size(); ++w) own[transcript_.words[w].cue].push_back(w);
    std::vector<std::size_t> before;  // the words that the cue before shows, as they were spoken
    for (std::size_t c = 0; c < cues; ++c) {
      words_of_[c] = find_spoken_words(transcript_.cues[c].text).words;
      const auto count = words_of_[c].size();
      const auto repeated = count - std::min(count, own[c].size());
      std::vector<std::size_t> spoken;
      if (repeated <= before.size())
        spoken.assign(before.end() - static_cast<std::ptrdiff_t>(repeated), before.end());
      spoken.insert(spoken.end(), own[c].begin(), own[c].end());
      if (spoken.size() == count)
        for (std::size_t k = 0; k < count; ++k)
          shown_[spoken[k]].push_back({static_cast<std::uint32_t>(c), k});
      before = std::move(spoken);
    }
  }

  enum class Places : std::uint8_t { First, Last };

  // What stands for each of the changed words, which take the places of the first or the last of them; empty
  // for one that goes.
  [[nodiscard]] static std::vector<std::string> shares(const WordChange& change, Places places) {
    const auto meant = split(change.text, ' ');
    const auto heard = change.last - change.first + 1;
    const auto skipped = places == Places::Last && heard > meant.size() ? heard - meant.size() : 0;
    std::vector<std::string> texts(heard);
    for (std::size_t m = 0; m < meant.size(); ++m) {
      auto& text = texts[std::min(skipped + m, heard - 1)];
      text += (text.empty() ? "" : " ") + meant[m];
    }
    return texts;
  }

  [[nodiscard]] std::string_view heard_part(const WordChange& change, std::size_t word) const {
    const std::string_view text = transcript_.words[word].text;
    const auto begin = word == change.first ? change.begin : 0;
    const auto end = word == change.last ? change.end : text.size();
    return begin < end && end <= text.size() ? text.substr(begin, end - begin) : std::string_view{};
  }

  bool add(const WordChange& change) {
    if (change.first > change.last || change.last >= transcript_.words.size() ||
        !can_encode(change.text, decoded_.encoding))
      return false;
    // "cay" at the end of a caption and "en" alone in the next: there the second place keeps both in words.
    return add(change, shares(change, Places::First)) || add(change, shares(change, Places::Last));
  }

  bool add(const WordChange& change, const std::vector<std::string>& texts) {
    std::vector<TextEdit> edits;
    std::vector<Shown> gone;
    bool is_first = true;
    for (std::size_t w = change.first; w <= change.last; ++w) {
      const auto heard = heard_part(change, w);
      if (heard.empty() || shown_[w].empty()) return false;
      auto text = texts[w - change.first];
      if (is_all_capitals(heard))
        text = upper_case(text);
      else if (begins_with_capital(heard) ||
               (is_first && begins_with_capital(heard_part(change, change.first))))
        text = with_capital(text);
      is_first = is_first && text.empty();
      if (text == heard) continue;
      for (const auto& shown : shown_[w]) {
        auto edit = edit_of(change, w, shown, text);
        if (!edit) return false;
        edits.push_back(*std::move(edit));
        if (text.empty()) gone.push_back(shown);
      }
    }
    if (leaves_empty_cue(gone) || overlaps(edits)) return false;
    edits_.insert(edits_.end(), std::make_move_iterator(edits.begin()), std::make_move_iterator(edits.end()));
    gone_.insert(gone_.end(), gone.begin(), gone.end());
    return true;
  }

  std::optional<TextEdit> edit_of(const WordChange& change, std::size_t w, Shown shown,
                                  const std::string& text) {
    const auto& cue = transcript_.cues[shown.cue];
    const auto* places = places_of(shown.cue);
    if (places == nullptr) return std::nullopt;
    const auto& word = words_of_[shown.cue][shown.at];
    const auto heard = heard_part(change, w);
    const auto offset = static_cast<std::size_t>(heard.data() - transcript_.words[w].text.data());
    auto begin = word.begin + offset;
    auto end = begin + heard.size();
    if (text.empty()) {
      // The space before it goes too; at the start of a line the space behind it.
      const auto& words = words_of_[shown.cue];
      const bool ends_line = shown.at + 1 == words.size() || words[shown.at + 1].starts_line;
      if (begin == word.begin && word.starts_line && ends_line)
        return std::nullopt;  // a blank line ends a caption
      if (begin == word.begin && !word.starts_line)
        while (begin > 0 && cue.text[begin - 1] == ' ' && places->find(begin - 1, end)) --begin;
      else if (begin == word.begin && end == word.end)
        while (end < cue.text.size() && cue.text[end] == ' ' && places->find(begin, end + 1)) ++end;
    }
    const auto stretch = places->find(begin, end);
    if (!stretch) return std::nullopt;
    return TextEdit{stretch->begin, stretch->end, text};
  }

  const CuePlaces* places_of(std::uint32_t cue) {
    for (const auto& [known, places] : places_)
      if (known == cue) return places ? &*places : nullptr;
    if (places_.size() > 8) places_.erase(places_.begin());
    places_.emplace_back(cue, find_cue_places(decoded_.text, transcript_.cues[cue]));
    return places_.back().second ? &*places_.back().second : nullptr;
  }

  [[nodiscard]] bool leaves_empty_cue(const std::vector<Shown>& gone) const {
    return std::any_of(gone.begin(), gone.end(), [&](const Shown& word) {
      const auto of_cue = [&](const Shown& other) { return other.cue == word.cue; };
      const auto removed =
          std::count_if(gone.begin(), gone.end(), of_cue) + std::count_if(gone_.begin(), gone_.end(), of_cue);
      return static_cast<std::size_t>(removed) >= words_of_[word.cue].size();
    });
  }

  [[nodiscard]] bool overlaps(const std::vector<TextEdit>& edits) const {
    return std::any_of(edits.begin(), edits.end(), [&](const TextEdit& edit) {
      return std::any_of(edits_.begin(), edits_.end(), [&](const TextEdit& other) {
        return edit.begin < other.end && other.begin < edit.end;
      });
    });
  }

  std::string_view bytes_;
  const Transcript& transcript_;
  CaptionText decoded_;
  std::vector<std::vector<SpokenWord>> words_of_;  ///< by cue
  std::vector<std::vector<Shown>> shown_;          ///< by word
  std::vector<std::pair<std::uint32_t, std::optional<CuePlaces>>> places_;
  std::vector<TextEdit> edits_;
  std::vector<Shown> gone_;
};

}  // namespace

CorrectedCaptions correct_captions(std::string_view bytes, const Transcript& transcript,
                                   const std::vector<WordChange>& changes) {
  return Correcting(bytes, transcript).run(changes);
}

}  // namespace panslate
