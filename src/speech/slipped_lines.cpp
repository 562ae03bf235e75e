#include "speech/slipped_lines.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace panslate {

namespace {

constexpr std::int64_t kShortest = kSpeechRate * 6 / 10;           // something is said
constexpr std::int64_t kLongest = std::int64_t{60} * kSpeechRate;  // a gap is listened to
constexpr std::size_t kAround = 6;  // lines before or after the only one that is known
constexpr std::size_t kMost = 12;   // lines at once
constexpr Beam kBeam{1e-80};

struct Gap {
  SoundSpan when;
  std::optional<std::size_t> before;  // the lines that are known around it
  std::optional<std::size_t> after;
};

bool may_slip(const ScriptLine& line) {
  return std::any_of(line.words.begin(), line.words.end(),
                     [](const ScriptWord& word) { return word.slips != nullptr; });
}

std::int64_t spoken_in(SoundSpan gap, const FoundTakes& found) {
  std::int64_t spoken = 0;
  const auto add = [&](SoundSpan span) {
    spoken += std::max<std::int64_t>(0, std::min(span.end, gap.end) - std::max(span.begin, gap.begin));
  };
  for (const auto& span : found.other) add(span);
  for (const auto& take : found.takes)
    if (!take.complete) add(take.when());
  return spoken;
}

std::vector<Gap> gaps_of(const FoundTakes& found, std::int64_t length) {
  std::vector<Gap> gaps;
  Gap gap;
  const auto close = [&](std::int64_t end) {
    gap.when.end = end;
    if (gap.when.length() >= kShortest && gap.when.length() <= kLongest &&
        spoken_in(gap.when, found) >= kShortest)
      gaps.push_back(gap);
  };
  for (const auto& take : found.takes) {
    if (!take.complete) continue;
    gap.after = take.line;
    close(take.when().begin);
    gap = {{take.when().end, 0}, take.line, std::nullopt};
  }
  close(length);
  return gaps;
}

// Lines around the gap that nothing is known of and that may have slipped.
std::vector<LinePart> missing_parts(const Gap& gap, std::span<const LinePart> parts,
                                    const std::vector<bool>& known, std::span<const ScriptLine> script) {
  auto first = gap.before ? *gap.before : gap.after ? *gap.after - std::min(*gap.after, kAround) : 0;
  auto last = gap.after ? *gap.after : gap.before ? *gap.before + kAround : script.size();
  if (first > last) std::swap(first, last);
  first -= std::min<std::size_t>(first, 1);
  std::vector<LinePart> missing;
  std::size_t lines = 0;
  for (const auto& part : parts) {
    if (part.line < first || part.line > last + 1 || known[part.line] || !may_slip(script[part.line]))
      continue;
    if (missing.empty() || missing.back().line != part.line) ++lines;
    if (lines > kMost) break;
    missing.push_back(part);
  }
  return missing;
}

// What is the script's own in it fits its sound as words of this voice do.
bool fits(const FoundTake& take, const ScriptLine& line, double usual) {
  double score = 0.0;
  std::int64_t length = 0;
  for (const auto& word : take.words) {
    if (line.words[word.word].slips) continue;
    score += word.score * static_cast<double>(word.when.length());
    length += word.when.length();
  }
  return length > 0 && score / static_cast<double>(length) >= usual - kWorseThanUsual;
}

}  // namespace

Status find_slipped_lines(FoundTakes& found, std::span<const ScriptLine> script,
                          std::span<const std::int16_t> samples, Recogniser& recogniser,
                          PronouncingDictionary& dictionary, Progress& progress) {
  const auto usual = usual_score(found);
  if (!usual) return {};
  std::vector<bool> known(script.size(), false);
  for (const auto& take : found.takes)
    if (take.complete) known[take.line] = true;
  const auto parts = parts_of(script);
  const auto weights = with_slips({.other = other_weight(*usual)}, *usual);
  bool changed = false;
  for (const auto& gap : gaps_of(found, std::ssize(samples))) {
    if (progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped");
    const auto missing = missing_parts(gap, parts, known, script);
    if (missing.empty()) continue;
    const auto graph = any_order(script, missing, 0, missing.size(), dictionary, weights);
    PANSLATE_TRY(const auto heard,
                 recogniser.recognise(samples.subspan(static_cast<std::size_t>(gap.when.begin),
                                                      static_cast<std::size_t>(gap.when.length())),
                                      graph.graph, kBeam));
    std::vector<FoundWord> words;
    for (const auto& word : heard.words)
      words.push_back({graph.places[word.word],
                       graph.graph.words[word.word].label,
                       {gap.when.begin + word.begin, gap.when.begin + word.end},
                       word.score});
    for (auto& take : takes_of(script, words, dictionary).takes) {
      if (!take.complete || !fits(take, script[take.line], *usual)) continue;
      known[take.line] = true;
      changed = true;
      const auto when = take.when();
      std::erase_if(found.takes, [&](const FoundTake& other) {
        return !other.complete && other.when().begin < when.end && other.when().end > when.begin;
      });
      found.takes.push_back(std::move(take));
    }
  }
  if (!changed) return {};
  std::sort(found.takes.begin(), found.takes.end(),
            [](const FoundTake& a, const FoundTake& b) { return a.when().begin < b.when().begin; });
  part_from_takes(found);
  return {};
}

}  // namespace panslate
