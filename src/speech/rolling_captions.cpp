#include "speech/rolling_captions.h"

#include <algorithm>

namespace panslate {

namespace {

constexpr MediaTime kAdjacent = MediaTime::from_ms(500);
constexpr MediaTime kPause = MediaTime::from_seconds(10);
constexpr std::size_t kEnoughWords = 3;

/// Lengths of the borders of `words`: for each prefix, its longest proper prefix that is also its end.
std::vector<std::size_t> border_lengths(const std::vector<std::string_view>& words) {
  std::vector<std::size_t> border(words.size(), 0);
  for (std::size_t i = 1; i < words.size(); ++i) {
    std::size_t k = border[i - 1];
    while (k > 0 && words[i] != words[k]) k = border[k - 1];
    border[i] = words[i] == words[k] ? k + 1 : 0;
  }
  return border;
}

/// The longest acceptable run of words that ends `before` and begins `after`.
std::size_t shared_words(const std::vector<RollingWord>& before, const std::vector<RollingWord>& after) {
  const auto untimed = static_cast<std::size_t>(
      std::find_if(after.begin(), after.end(), [](const RollingWord& word) { return word.timed; }) -
      after.begin());
  const std::size_t longest = std::min(untimed, before.size());
  if (longest == 0) return 0;
  // Prefix of `after`, a separator no word equals, end of `before`: the borders of this are the shared runs.
  std::vector<std::string_view> words;
  words.reserve(2 * longest + 1);
  for (std::size_t i = 0; i < longest; ++i) words.push_back(after[i].text);
  words.emplace_back("\n");
  for (std::size_t i = before.size() - longest; i < before.size(); ++i) words.push_back(before[i].text);
  const auto border = border_lengths(words);
  for (std::size_t k = border.back(); k > 0; k = border[k - 1]) {
    const bool whole_lines =
        before[before.size() - k].starts_line && (k == after.size() || after[k].starts_line);
    if (whole_lines || k == before.size() || k >= kEnoughWords) return k;
  }
  return 0;
}

}  // namespace

std::vector<RolledCue> find_rolling(const std::vector<RollingCue>& all_cues) {
  std::vector<RolledCue> rolled(all_cues.size());
  std::vector<std::size_t> spoken;  // cues without words (a pause, a sound note) do not end a run
  for (std::size_t i = 0; i < all_cues.size(); ++i)
    if (!all_cues[i].words.empty()) spoken.push_back(i);
  const auto cue = [&](std::size_t i) -> const RollingCue& { return all_cues[spoken[i]]; };

  std::vector<std::size_t> shared(spoken.size(), 0);
  const auto adds_words = [&](std::size_t i) { return shared[i] > 0 && shared[i] < cue(i).words.size(); };
  const auto gap_before = [&](std::size_t i) { return cue(i).when.begin - cue(i - 1).when.end; };
  for (std::size_t i = 1; i < spoken.size(); ++i)
    if (gap_before(i) <= kPause) shared[i] = shared_words(cue(i - 1).words, cue(i).words);

  std::size_t rolling_cues = 0;
  for (std::size_t first = 1; first < spoken.size();) {
    std::size_t last = first;
    std::size_t additions = 0;
    while (last < spoken.size() && shared[last] > 0 && gap_before(last) <= kAdjacent)
      additions += adds_words(last++) ? 1 : 0;
    if (additions >= 2) {
      rolled[spoken[first - 1]].rolls = true;
      for (std::size_t i = first; i < last; ++i) rolled[spoken[i]] = {shared[i], true};
      rolling_cues += last - first + 1;
    }
    first = std::max(last, first + 1);
  }
  if (2 * rolling_cues > spoken.size())
    for (std::size_t i = 1; i < spoken.size(); ++i)
      if (adds_words(i)) rolled[spoken[i]] = {shared[i], true};
  return rolled;
}

}  // namespace panslate
