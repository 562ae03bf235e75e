#include "speech/script_takes.h"

#include <algorithm>

namespace panslate {

namespace {

constexpr std::int64_t kSecond = kSpeechRate;
// Other speech within this of a few words makes them part of it.
constexpr std::int64_t kNear = kSecond * 4 / 10;
constexpr std::size_t kFewWords = 2;
// A pause within one amount: "fifty … grams".
constexpr std::int64_t kHesitation = kSecond * 4 / 10;
// Phones of other speech closer than this are one stretch of it.
constexpr std::int64_t kBreath = kSecond * 6 / 10;
constexpr std::int64_t kShortestOther = kSecond * 25 / 100;

// A take while it is put together, and what stands around it.
struct Fragment {
  FoundTake take;
  std::int64_t other_before = kSecond * 100;  // to the last phone of other speech before it
  std::int64_t other_after = kSecond * 100;
};

bool can_be_said(const ScriptWord& word, PronouncingDictionary& dictionary) {
  return std::any_of(word.readings.begin(), word.readings.end(), [&](const auto& reading) {
    return !reading.empty() && std::all_of(reading.begin(), reading.end(), [&](const auto& spoken) {
      return !dictionary.ways(spoken).empty();
    });
  });
}

std::vector<Fragment> fragments_of(std::span<const FoundWord> found) {
  std::vector<Fragment> fragments;
  std::int64_t last_other = -100 * kSecond;
  bool open = false;
  for (const auto& heard : found) {
    if (!heard.place) {
      if (!fragments.empty() && heard.when.begin >= fragments.back().take.when().end)
        fragments.back().other_after =
            std::min(fragments.back().other_after, heard.when.begin - fragments.back().take.when().end);
      last_other = heard.when.end;
      open = false;
      continue;
    }
    // Phones of a slip are one word, and have no text.
    if (open && heard.text.empty() && fragments.back().take.line == heard.place->line &&
        fragments.back().take.words.back().word == heard.place->word &&
        fragments.back().take.words.back().text.empty()) {
      auto& slip = fragments.back().take.words.back();
      slip.score = (slip.score * static_cast<double>(slip.when.length()) + heard.score * kLevelStep) /
                   static_cast<double>(std::max<std::int64_t>(heard.when.end - slip.when.begin, 1));
      slip.when.end = heard.when.end;
      continue;
    }
    const PlacedWord word{
        heard.place->word, heard.text, heard.when,
        heard.score * kLevelStep / static_cast<double>(std::max<std::int64_t>(heard.when.length(), 1))};
    if (open && fragments.back().take.line == heard.place->line) {
      auto& words = fragments.back().take.words;
      // The words of one reading share their place.
      const auto pause = word.when.begin - words.back().when.end;
      if (words.back().word == word.word &&
          (pause == 0 || (words.back().text != word.text && pause <= kHesitation))) {
        words.push_back(word);
        continue;
      }
      if (word.word > words.back().word) {
        words.push_back(word);
        continue;
      }
    }
    Fragment fragment;
    fragment.take.line = heard.place->line;
    fragment.take.words.push_back(word);
    fragment.other_before = heard.when.begin - last_other;
    fragments.push_back(std::move(fragment));
    open = true;
  }
  return fragments;
}

std::vector<SoundSpan> joined(std::vector<SoundSpan> spans) {
  std::sort(spans.begin(), spans.end(), [](SoundSpan a, SoundSpan b) { return a.begin < b.begin; });
  std::vector<SoundSpan> out;
  for (const auto& span : spans) {
    if (!out.empty() && span.begin - out.back().end <= kBreath) {
      out.back().end = std::max(out.back().end, span.end);
    } else {
      out.push_back(span);
    }
  }
  return out;
}

// Other speech never lies in a take; what is left of it there and is long enough is kept.
std::vector<SoundSpan> outside(const std::vector<SoundSpan>& spans, const std::vector<FoundTake>& takes) {
  std::vector<SoundSpan> out;
  for (auto span : spans) {
    for (const auto& take : takes)
      for (const auto& word : take.words) {
        if (word.when.end <= span.begin || word.when.begin >= span.end) continue;
        if (word.when.begin - span.begin >= kShortestOther) out.push_back({span.begin, word.when.begin});
        span.begin = std::min(word.when.end, span.end);
      }
    if (span.length() >= kShortestOther) out.push_back(span);
  }
  return out;
}

}  // namespace

bool says_all(const ScriptLine& line, std::span<const PlacedWord> words, PronouncingDictionary& dictionary) {
  std::size_t at = 0;
  for (std::size_t w = 0; w < line.words.size(); ++w) {
    if (at < words.size() && words[at].word == w) {
      while (at < words.size() && words[at].word == w) ++at;
    } else if (can_be_said(line.words[w], dictionary)) {
      return false;
    }
  }
  return at == words.size();
}

FoundTakes takes_of(std::span<const ScriptLine> script, std::span<const FoundWord> found,
                    PronouncingDictionary& dictionary) {
  auto fragments = fragments_of(found);
  std::vector<SoundSpan> other;
  for (const auto& heard : found)
    if (!heard.place) other.push_back(heard.when);
  FoundTakes out;
  for (std::size_t i = 0; i < fragments.size(); ++i) {
    auto& take = fragments[i].take;
    take.complete = says_all(script[take.line], take.words, dictionary);
    const bool begun_again = i + 1 < fragments.size() && fragments[i + 1].take.line == take.line &&
                             take.words.front().word == fragments[i + 1].take.words.front().word &&
                             fragments[i + 1].take.when().begin - take.when().end < 2 * kSecond;
    const bool amid_other = fragments[i].other_before < kNear || fragments[i].other_after < kNear;
    if (!take.complete && (take.words.size() <= kFewWords && (amid_other || !begun_again))) {
      other.push_back(take.when());
      continue;
    }
    out.takes.push_back(std::move(take));
  }
  out.other = outside(joined(std::move(other)), out.takes);
  return out;
}

std::optional<double> usual_score(const FoundTakes& found) {
  double sum = 0.0;
  std::size_t count = 0;
  for (const auto& take : found.takes)
    for (const auto& word : take.words) sum += word.score, ++count;
  return count == 0 ? std::nullopt : std::optional(sum / static_cast<double>(count));
}

void part_from_takes(FoundTakes& found) {
  found.other = outside(found.other, found.takes);
}

Status go_on_after_other_speech(FoundTakes& found, std::span<const ScriptLine> script,
                                std::span<const std::int16_t> samples, Recogniser& recogniser,
                                PronouncingDictionary& dictionary, Progress& progress) {
  constexpr std::int64_t kLongestRest = 30 * kSecond;
  constexpr std::size_t kBit = 4;  // words
  const auto usual = usual_score(found);
  if (!usual) return {};

  bool changed = false;
  for (std::size_t i = 0; i < found.takes.size(); ++i) {
    auto& take = found.takes[i];
    if (take.complete) continue;
    if (progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped");
    const auto begin = take.when().end;
    // Bits of lines on the way may be other speech that was mistaken for them.
    auto next = i + 1;
    while (next < found.takes.size() && !found.takes[next].complete && found.takes[next].line != take.line &&
           found.takes[next].words.size() <= kBit)
      ++next;
    auto end = next < found.takes.size() ? found.takes[next].when().begin : std::ssize(samples);
    end = std::min(end, begin + kLongestRest);
    const bool other = std::any_of(found.other.begin(), found.other.end(),
                                   [&](SoundSpan span) { return span.begin < end && span.end > begin; });
    if (!other || end - begin < kSecond / 2) continue;
    const auto& line = script[take.line];
    const auto rest = in_order(line, {take.line, take.words.back().word + 1, line.words.size()}, dictionary,
                               {.other = 1e-4});
    PANSLATE_TRY(const auto heard,
                 recogniser.recognise(
                     samples.subspan(static_cast<std::size_t>(begin), static_cast<std::size_t>(end - begin)),
                     rest.graph, {.width = 1e-100}));
    if (!heard.complete) continue;
    std::vector<FoundWord> words;
    double score = 0.0;
    std::int64_t length = 0;
    for (const auto& word : heard.words)
      if (rest.places[word.word]) {
        words.push_back({rest.places[word.word],
                         rest.graph.words[word.word].label,
                         {begin + word.begin, begin + word.end},
                         word.score});
        score += word.score;
        length += word.end - word.begin;
      }
    if (length == 0 || score * kLevelStep / static_cast<double>(length) < *usual - kWorseThanUsual) continue;
    for (auto& fragment : fragments_of(words))
      take.words.insert(take.words.end(), fragment.take.words.begin(), fragment.take.words.end());
    take.complete = says_all(line, take.words, dictionary);
    changed = true;
    for (auto bit = i + 1; bit < next; ++bit) found.other.push_back(found.takes[bit].when());
    found.takes.erase(found.takes.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                      found.takes.begin() + static_cast<std::ptrdiff_t>(next));
  }
  if (changed) {
    found.other = joined(std::move(found.other));
    part_from_takes(found);
  }
  return {};
}

}  // namespace panslate
