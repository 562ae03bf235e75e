#include "panslate/speech/corrected_captions.h"

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <map>
#include <numeric>
#include <optional>
#include <unordered_map>
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
    std::vector<TextEdit> edits;
    edits.reserve(edits_.size());
    for (const auto& [begin, edit] : edits_) edits.push_back(edit);
    if (auto corrected = apply_edits(bytes_, decoded_, edits)) {
      result.bytes = *std::move(corrected);
      return result;
    }
    // Broken letters: the text cannot be laid over the bytes at all.
    result.bytes = bytes_;
    result.left_out.resize(changes.size());
    std::iota(result.left_out.begin(), result.left_out.end(), std::size_t{0});
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
        auto edit = edit_of(change, w, shown, text, opens_line(shown, gone));
        if (!edit) return false;
        edits.push_back(*std::move(edit));
        if (text.empty()) gone.push_back(shown);
      }
    }
    if (leaves_empty_line(gone) || overlaps(edits)) return false;
    for (auto& edit : edits) edits_.emplace(edit.begin, std::move(edit));
    for (const auto& word : gone) ++gone_of_line_[line_of(word)];
    return true;
  }

  // No word of its line stands before it, once those in `gone` are taken out.
  [[nodiscard]] bool opens_line(const Shown& word, const std::vector<Shown>& gone) const {
    const auto& words = words_of_[word.cue];
    for (auto at = word.at; !words[at].starts_line; --at) {
      const bool goes = at > 0 && std::any_of(gone.begin(), gone.end(), [&](const Shown& other) {
                          return other.cue == word.cue && other.at == at - 1;
                        });
      if (!goes) return false;
    }
    return true;
  }

  std::optional<TextEdit> edit_of(const WordChange& change, std::size_t w, Shown shown,
                                  const std::string& text, bool opens_line) {
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
      if (begin == word.begin && !opens_line)
        while (begin > 0 && cue.text[begin - 1] == ' ' && places->find(begin - 1, end)) --begin;
      else if (begin == word.begin && end == word.end)
        while (end < cue.text.size() && cue.text[end] == ' ' && places->find(begin, end + 1)) ++end;
    }
    const auto stretch = places->find(begin, end);
    if (!stretch) return std::nullopt;
    return TextEdit{stretch->begin, stretch->end, text};
  }

  const CuePlaces* places_of(std::uint32_t cue) {
    const auto [known, is_new] = places_.try_emplace(cue);
    if (is_new) known->second = find_cue_places(decoded_.text, transcript_.cues[cue]);
    return known->second ? &*known->second : nullptr;
  }

  /// A line of a cue, by its first word.
  using Line = std::pair<std::uint32_t, std::size_t>;

  [[nodiscard]] Line line_of(const Shown& word) const {
    const auto& words = words_of_[word.cue];
    auto first = word.at;
    while (first > 0 && !words[first].starts_line) --first;
    return {word.cue, first};
  }

  [[nodiscard]] std::size_t words_in(const Line& line) const {
    const auto& words = words_of_[line.first];
    auto end = line.second + 1;
    while (end < words.size() && !words[end].starts_line) ++end;
    return end - line.second;
  }

  // A blank line ends a caption, and one without words is none.
  [[nodiscard]] bool leaves_empty_line(const std::vector<Shown>& gone) const {
    std::map<Line, std::size_t> removed;
    for (const auto& word : gone) ++removed[line_of(word)];
    return std::any_of(removed.begin(), removed.end(), [&](const auto& of_line) {
      const auto before = gone_of_line_.find(of_line.first);
      return of_line.second + (before == gone_of_line_.end() ? 0 : before->second) >= words_in(of_line.first);
    });
  }

  [[nodiscard]] bool overlaps(const std::vector<TextEdit>& edits) const {
    return std::any_of(edits.begin(), edits.end(), [&](const TextEdit& edit) {
      const auto next = edits_.lower_bound(edit.begin);
      return (next != edits_.end() && (next->first < edit.end || next->first == edit.begin)) ||
             (next != edits_.begin() && edit.begin < std::prev(next)->second.end);
    });
  }

  std::string_view bytes_;
  const Transcript& transcript_;
  CaptionText decoded_;
  std::vector<std::vector<SpokenWord>> words_of_;                       ///< by cue
  std::vector<std::vector<Shown>> shown_;                               ///< by word
  std::unordered_map<std::uint32_t, std::optional<CuePlaces>> places_;  ///< by cue
  std::map<std::size_t, TextEdit> edits_;                               ///< by where they begin
  std::map<Line, std::size_t> gone_of_line_;                            ///< words that go
};

}  // namespace

CorrectedCaptions correct_captions(std::string_view bytes, const Transcript& transcript,
                                   const std::vector<WordChange>& changes) {
  return Correcting(bytes, transcript).run(changes);
}

}  // namespace panslate
