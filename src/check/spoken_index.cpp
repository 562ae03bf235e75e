#include "panslate/check/spoken_index.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>

#include "panslate/base/text.h"

namespace panslate {

namespace {

constexpr std::size_t kMostWords = 30;     // on either side: a sentence longer than that is no line to say
constexpr std::size_t kLongestFind = 200;  // words of one mention
constexpr MediaTime kPause = MediaTime::from_seconds(2);
// Captions without full stops break where she takes breath. Common practice, no source.
constexpr MediaTime kBreath = MediaTime::from_ms(600);
constexpr double kCalmPace = 2.5;
constexpr double kSlowest = 1.0;  // words a second; slower than that, the times hold pauses
constexpr double kFastest = 5.0;
constexpr std::size_t kEnoughWords = 20;

std::size_t spoken_digits(std::size_t digits) {
  // "5", "twenty five", "two hundred and fifty", "one thousand two hundred and fifty".
  static constexpr std::array<std::size_t, 5> kWords{0, 1, 2, 4, 6};
  return digits < kWords.size() ? kWords[digits] : digits + 2;
}

}  // namespace

bool closes_sentence(std::string_view word) {
  static constexpr std::string_view kClosing = "\"')]";
  while (!word.empty() && kClosing.find(word.back()) != std::string_view::npos) word.remove_suffix(1);
  for (const std::string_view quote : {"”", "’", "»"})
    if (word.ends_with(quote)) word.remove_suffix(quote.size());
  return word.ends_with('.') || word.ends_with('!') || word.ends_with('?') || word.ends_with(';') ||
         word.ends_with("…");
}

std::size_t spoken_word_count(std::string_view text) {
  std::size_t count = 0;
  std::size_t digits = 0;
  bool in_word = false;
  const auto flush = [&] {
    count += digits > 0 ? spoken_digits(digits) : (in_word ? 1U : 0U);
    digits = 0;
    in_word = false;
  };
  for (std::size_t i = 0; i < text.size();) {
    const auto [value, next] = code_point_at(text, i);
    const bool digit = value >= '0' && value <= '9';
    if (digit) {
      if (in_word) flush();
      ++digits;
    } else if (is_word_character(value) || value == '\'' || value == 0x2019) {
      if (digits > 0) flush();
      in_word = true;
    } else {
      flush();
    }
    i = next;
  }
  flush();
  return count;
}

TimeRange SpokenSpan::when() const {
  if (empty()) return {};
  const auto first = transcript->words[begin].when.begin;
  return {first, std::max(first, transcript->words[end - 1].when.end)};
}

std::string SpokenSpan::text() const {
  std::string out;
  if (empty()) return out;
  for (auto w = begin; w < end; ++w) {
    if (w > begin) out += ' ';
    out += transcript->words[w].text;
  }
  return out;
}

SpokenIndex::SpokenIndex(const std::vector<TimedText>& said) {
  for (const auto& one : said) {
    const auto& words = one.transcript->words;
    Source source{one.transcript, one.media, {}, false};
    source.by_time.resize(words.size());
    std::iota(source.by_time.begin(), source.by_time.end(), std::size_t{0});
    std::stable_sort(source.by_time.begin(), source.by_time.end(),
                     [&](std::size_t a, std::size_t b) { return words[a].when.begin < words[b].when.begin; });
    const auto stops = static_cast<std::size_t>(std::count_if(
        words.begin(), words.end(), [](const Word& word) { return closes_sentence(word.text); }));
    source.punctuated = stops * 40 > words.size();
    sources_.push_back(std::move(source));
  }
  measure_pace();
}

// A word spread over its cue shares the cue's time, so words over their own lengths leave the silence out.
void SpokenIndex::measure_pace() {
  std::size_t count = 0;
  MediaTime time;
  for (const auto& source : sources_)
    for (const auto& word : source.transcript->words) {
      count += spoken_word_count(word.text);
      time += word.when.duration();
    }
  words_a_second_ = count >= kEnoughWords && time > MediaTime()
                        ? std::clamp(static_cast<double>(count) / time.seconds(), kSlowest, kFastest)
                        : kCalmPace;
}

SpokenSpan SpokenIndex::find(std::string_view media, TimeRange when) const {
  for (const auto& source : sources_) {
    if (source.media != media) continue;
    const auto& words = source.transcript->words;
    const auto found =
        std::lower_bound(source.by_time.begin(), source.by_time.end(), when.begin,
                         [&](std::size_t w, MediaTime at) { return words[w].when.begin < at; });
    if (found == source.by_time.end() || words[*found].when.begin != when.begin) continue;
    auto end = *found;
    while (end < words.size() && end - *found < kLongestFind && words[end].when.begin >= when.begin &&
           words[end].when.end <= when.end)
      ++end;
    if (end > *found) return {source.transcript, *found, end};
  }
  return {};
}

bool SpokenIndex::breaks_before(const Source& source, std::size_t word) const {
  const auto& words = source.transcript->words;
  const auto& cues = source.transcript->cues;
  const auto& before = words[word - 1];
  const auto gap = words[word].when.begin - before.when.end;
  if (gap > kPause || (!source.punctuated && gap > kBreath)) return true;
  return closes_sentence(before.text) || cues[before.cue].speaker != cues[words[word].cue].speaker;
}

SpokenSpan SpokenIndex::sentence_around(SpokenSpan span) const {
  if (span.empty()) return span;
  const auto source = std::find_if(sources_.begin(), sources_.end(),
                                   [&](const Source& s) { return s.transcript == span.transcript; });
  if (source == sources_.end()) return span;
  auto out = span;
  while (out.begin > 0 && span.begin - out.begin < kMostWords && !breaks_before(*source, out.begin))
    --out.begin;
  while (out.end < span.transcript->words.size() && out.end - span.end < kMostWords &&
         !breaks_before(*source, out.end))
    ++out.end;
  return out;
}

TimeRange SpokenIndex::longest_pause(std::string_view media, TimeRange window) const {
  TimeRange longest;
  for (const auto& source : sources_) {
    if (source.media != media || window.empty()) continue;
    const auto& words = source.transcript->words;
    auto at = std::lower_bound(source.by_time.begin(), source.by_time.end(), window.begin,
                               [&](std::size_t w, MediaTime time) { return words[w].when.begin < time; });
    auto silent_from = window.begin;
    for (; at != source.by_time.end() && words[*at].when.begin < window.end; ++at) {
      const auto& when = words[*at].when;
      if (when.begin - silent_from > longest.duration()) longest = {silent_from, when.begin};
      silent_from = std::max(silent_from, when.end);
    }
    if (window.end - silent_from > longest.duration()) longest = {silent_from, window.end};
  }
  return longest;
}

}  // namespace panslate
