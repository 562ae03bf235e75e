#include "speech/find_lines.h"

#include <algorithm>
#include <cstdlib>

namespace panslate {

namespace {

constexpr std::int64_t kWindow = 30 * kSpeechRate;
constexpr std::int64_t kLongestWindow = 90 * kSpeechRate;
// What the last second of a window says may come out otherwise once its rest is heard.
constexpr std::int64_t kUnsure = kSpeechRate;
// Parts of the script that are listened for at once, and how many near the last one are entered easily.
constexpr std::size_t kMostParts = 400;
constexpr std::size_t kNearBefore = 12;
constexpr std::size_t kNearAfter = 24;

double env(const char* name, double value) {
  const char* const text = std::getenv(name);
  return text == nullptr ? value : std::atof(text);
}

// Where the next window begins: in the last pause between lines, of those at least a second before the end.
std::optional<std::size_t> last_sure(const std::vector<FoundWord>& found, std::int64_t window_end) {
  for (auto i = found.size(); i-- > 1;) {
    const auto& word = found[i];
    if (word.when.begin > window_end - kUnsure) continue;
    const auto& before = found[i - 1];
    const bool in_line = word.place && before.place && word.place->line == before.place->line &&
                         word.place->word >= before.place->word;
    if (!in_line && word.when.begin - before.when.end >= kSpeechRate / 20) return i;
  }
  for (auto i = found.size(); i-- > 1;)
    if (found[i].when.begin <= window_end - kUnsure &&
        (!found[i].place || !found[i - 1].place || found[i].place->line != found[i - 1].place->line))
      return i;
  return std::nullopt;
}

}  // namespace

Result<std::vector<FoundWord>> find_lines(std::span<const ScriptLine> script,
                                          std::span<const std::int16_t> samples, const SoundLevel& level,
                                          Recogniser& recogniser, PronouncingDictionary& dictionary,
                                          Progress& progress) {
  static const JumpWeights weights{env("W_LEAVE", 1e-3), env("W_BREAK", 1e-6), env("W_ENTER", 1e-3),
                                   env("W_FAR", 1e-5), env("W_OTHER", 1e-3)};
  static const Beam beam{env("W_BEAM", 1e-80)};
  const auto parts = parts_of(script);
  const auto length = std::ssize(samples);
  std::vector<FoundWord> found;
  std::size_t position = 0;
  for (std::int64_t begin = 0; begin < length;) {
    if (progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped");
    progress.step("listening", begin, length);
    auto window = kWindow;
    std::vector<FoundWord> here;
    std::int64_t end = 0;
    std::optional<std::size_t> sure;
    for (;; window = std::min(2 * window, kLongestWindow)) {
      end = begin + window >= length ? length : level.quietest({begin + window * 3 / 4, begin + window});
      const auto first = position > kMostParts / 3 ? position - kMostParts / 3 : 0;
      const auto last = std::min(parts.size(), first + kMostParts);
      const auto near_first = position > kNearBefore ? position - kNearBefore : 0;
      const auto graph = any_order(script, std::span(parts).subspan(first, last - first), near_first - first,
                                   position + kNearAfter - first, dictionary, weights);
      PANSLATE_TRY(const auto heard,
                   recogniser.recognise(samples.subspan(static_cast<std::size_t>(begin),
                                                        static_cast<std::size_t>(end - begin)),
                                        graph.graph, beam));
      here.clear();
      for (const auto& word : heard.words)
        here.push_back({graph.places[word.word], {begin + word.begin, begin + word.end}, word.score});
      sure = last_sure(here, end);
      if (end == length || sure || window >= kLongestWindow) break;
    }
    auto next = end;
    if (end < length && sure) {
      next = (here[*sure - 1].when.end + here[*sure].when.begin) / 2;
      here.resize(*sure);
    }
    for (const auto& word : here)
      if (word.place)
        for (std::size_t p = position > 0 ? position - 1 : 0, n = 0; n < parts.size();
             ++n, p = (p + 1) % parts.size())
          if (parts[p].line == word.place->line && parts[p].first <= word.place->word &&
              word.place->word < parts[p].last) {
            position = p;
            break;
          }
    found.insert(found.end(), here.begin(), here.end());
    begin = next;
  }
  return found;
}

}  // namespace panslate
