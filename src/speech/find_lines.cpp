#include "speech/find_lines.h"

#include <algorithm>
#include <cmath>

namespace panslate {

namespace {

constexpr double kBeam = 1e-60;
// Narrower where words end, since each end leads to all lines: half the time. But each phone of other speech
// must get through however dear it is, or lines are heard that nobody says; and 1e-20 loses lines.
constexpr double kWordEnd = 1e-32;
constexpr double kBehindOther = 1e-25;
// Only where it is quiet: at 20 dB of speech over frying an amount as written was taken for another.
constexpr double kQuiet = 40.0;     // dB
constexpr double kDearest = 1e-30;  // a phone of other speech
constexpr std::int64_t kWindow = 30 * kSpeechRate;
constexpr std::int64_t kLongestWindow = 90 * kSpeechRate;
// What the last second of a window says may come out otherwise once its rest is heard.
constexpr std::int64_t kUnsure = kSpeechRate;
// Parts of the script that are listened for at once, and how many near the last one are entered easily.
constexpr std::size_t kMostParts = 400;
constexpr std::size_t kNearBefore = 12;
constexpr std::size_t kNearAfter = 24;

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

// In noise every word fits badly. Then leaving a line must cost more, or the path jumps from line to line
// where it should bear with a bad fit.
JumpWeights weights_for(const SoundLevel& level) {
  constexpr double kClear = 20.0;  // dB: about 15 dB of speech over noise
  if (level.speech() - level.floor() >= kClear) return {};
  return {.leave = 1e-5, .break_off = 1e-15, .enter = 1e-8, .enter_far = 1e-10};
}

Beam beam_for(const SoundLevel& level, const JumpWeights& weights) {
  const bool is_quiet = level.speech() - level.floor() >= kQuiet;
  return {.width = kBeam,
          .word_end = is_quiet ? std::clamp(weights.other * kBehindOther, kBeam, kWordEnd) : kBeam};
}

class LineFinder {
 public:
  LineFinder(std::span<const ScriptLine> script, std::span<const std::int16_t> samples,
             const SoundLevel& level, Recogniser& recogniser, PronouncingDictionary& dictionary)
      : script_(script),
        samples_(samples),
        level_(level),
        recogniser_(recogniser),
        dictionary_(dictionary),
        parts_(parts_of(script)),
        weights_(weights_for(level)) {
    weights_.other = kDearest;
  }

  Result<std::vector<FoundWord>> find(Progress& progress) {
    std::vector<FoundWord> found;
    const auto length = std::ssize(samples_);
    for (std::int64_t begin = 0; begin < length;) {
      if (progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped");
      progress.step("listening", begin, length);
      if (begin == 0) PANSLATE_CHECK(get_used_to_the_voice());
      PANSLATE_TRY(auto window, listen_on(begin, progress));
      for (const auto& word : window.words)
        if (word.place) position_ = part_of(*word.place);
      found.insert(found.end(), window.words.begin(), window.words.end());
      get_used_to(found);
      begin = window.next;
    }
    return found;
  }

 private:
  struct Window {
    std::vector<FoundWord> words;
    std::int64_t next = 0;
  };

  [[nodiscard]] static std::size_t words_in(const std::vector<FoundWord>& words) {
    return static_cast<std::size_t>(
        std::count_if(words.begin(), words.end(), [](const auto& word) { return word.place.has_value(); }));
  }

  Result<std::vector<FoundWord>> listen(SoundSpan span, std::size_t position) {
    const auto first = position > kMostParts / 3 ? position - kMostParts / 3 : 0;
    const auto last = std::min(parts_.size(), first + kMostParts);
    const auto near_first = position > kNearBefore ? position - kNearBefore : 0;
    const auto graph = any_order(script_, std::span(parts_).subspan(first, last - first), near_first - first,
                                 position + kNearAfter - first, dictionary_, weights_);
    PANSLATE_TRY(const auto heard,
                 recogniser_.recognise(samples_.subspan(static_cast<std::size_t>(span.begin),
                                                        static_cast<std::size_t>(span.length())),
                                       graph.graph, beam_for(level_, weights_)));
    std::vector<FoundWord> words;
    for (const auto& word : heard.words)
      words.push_back({graph.places[word.word],
                       graph.graph.words[word.word].label,
                       {span.begin + word.begin, span.begin + word.end},
                       word.score});
    return words;
  }

  // The first quarter of a minute, all of it as far as possible as lines of the script.
  Status get_used_to_the_voice() {
    PANSLATE_TRY(const auto words, listen({0, std::min(kWindow / 2, std::ssize(samples_))}, 0));
    get_used_to(words);
    return {};
  }

  void get_used_to(std::span<const FoundWord> words) {
    constexpr std::size_t kEnough = 10;
    constexpr std::size_t kLast = 200;
    std::vector<double> scores;
    for (auto word = words.rbegin(); word != words.rend() && scores.size() < kLast; ++word)
      if (word->place && word->when.length() > 0)
        scores.push_back(word->score * kLevelStep / static_cast<double>(word->when.length()));
    if (scores.size() < kEnough) {
      weights_.other = JumpWeights{}.other;
      return;
    }
    const auto middle = scores.begin() + std::ssize(scores) / 2;
    std::nth_element(scores.begin(), middle, scores.end());
    weights_.other = other_weight(*middle);
  }

  // Half a minute from `begin`, or more where no pause is found in that.
  Result<Window> listen_on(std::int64_t begin, Progress& progress) {
    const auto length = std::ssize(samples_);
    Window window;
    for (auto size = kWindow;; size *= 2) {
      const auto end =
          begin + size >= length ? length : level_.quietest({begin + size * 3 / 4, begin + size});
      PANSLATE_TRY(auto heard, listen({begin, end}, position_));
      window.words = std::move(heard);
      if (words_in(window.words) == 0) PANSLATE_CHECK(look_elsewhere({begin, end}, window.words, progress));
      window.next = end;
      if (end == length) return window;
      const auto sure = last_sure(window.words, end);
      if (sure) {
        const auto pause = (window.words[*sure - 1].when.end + window.words[*sure].when.begin) / 2;
        if (pause - begin >= kSpeechRate) {
          window.next = pause;
          window.words.resize(*sure);
          return window;
        }
      }
      if (window.words.empty() || size >= kLongestWindow) return window;
    }
  }

  // Nothing near the last line is spoken: perhaps something of the rest of a long script. The longer that is
  // in vain, the more seldom it is tried.
  Status look_elsewhere(SoundSpan span, std::vector<FoundWord>& words, Progress& progress) {
    if (parts_.size() <= kMostParts || words.empty()) return {};
    if (wait_ > 0) {
      --wait_;
      return {};
    }
    for (auto at = kMostParts / 3; at < parts_.size() + kMostParts / 3; at += kMostParts) {
      if (progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped");
      const auto position = std::min(at, parts_.size() - 1);
      PANSLATE_TRY(auto others, listen(span, position));
      if (words_in(others) > words_in(words)) words = std::move(others);
    }
    waits_ = words_in(words) > 0 ? 1 : 2 * waits_;
    wait_ = waits_;
    return {};
  }

  // The part with a place: parts are in the order of the script.
  [[nodiscard]] std::size_t part_of(ScriptPlace place) const {
    const auto after =
        std::upper_bound(parts_.begin(), parts_.end(), place, [](ScriptPlace p, const LinePart& part) {
          return p.line != part.line ? p.line < part.line : p.word < part.first;
        });
    return static_cast<std::size_t>(after - parts_.begin()) - 1;
  }

  std::span<const ScriptLine> script_;
  std::span<const std::int16_t> samples_;
  const SoundLevel& level_;
  Recogniser& recogniser_;
  PronouncingDictionary& dictionary_;
  std::vector<LinePart> parts_;
  JumpWeights weights_;
  std::size_t position_ = 0;
  std::size_t wait_ = 0;
  std::size_t waits_ = 1;
};

}  // namespace

Result<std::vector<FoundWord>> find_lines(std::span<const ScriptLine> script,
                                          std::span<const std::int16_t> samples, const SoundLevel& level,
                                          Recogniser& recogniser, PronouncingDictionary& dictionary,
                                          Progress& progress) {
  return LineFinder(script, samples, level, recogniser, dictionary).find(progress);
}

}  // namespace panslate
