#include <algorithm>
#include <array>
#include <functional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "check/phrase.h"
#include "check/span_search.h"
#include "check/talk.h"

namespace panslate {

namespace {

constexpr std::size_t kShortestLine =
    5;                              // words; shorter lines are said twice for good reason ("give it a stir")
constexpr std::size_t kReach = 12;  // sentences; a retake follows soon after

struct Line {
  TokenSpan span;
  std::vector<std::string> words;
};

std::vector<Line> lines_of(const SpokenText& text) {
  std::vector<Line> lines;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == 0 || text.sentence(i) != text.sentence(i - 1)) lines.push_back({{i, i}, {}});
    lines.back().span.end = i + 1;
    if (text[i].kind != TokenKind::Mark) lines.back().words.push_back(text[i].text);
  }
  return lines;
}

// Share of the shorter line's words that both have, counted with repeats.
double likeness(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  std::unordered_map<std::string, int> count;
  for (const auto& word : a) ++count[word];
  std::size_t shared = 0;
  for (const auto& word : b)
    if (count[word]-- > 0) ++shared;
  return static_cast<double>(shared) / static_cast<double>(std::max(a.size(), b.size()));
}

// How one says that a line is tried once more. Common practice, no source.
constexpr std::array<std::string_view, 9> kOnceMore{"again",       "take two",     "one more time",
                                                    "start over",  "from the top", "still rolling",
                                                    "still going", "that bit",     "is it still"};

struct Words {
  std::vector<std::size_t> token_of;
  std::vector<std::size_t> hash;  ///< of the word
};

Words words_of(const SpokenText& text) {
  Words words;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i].kind == TokenKind::Mark) continue;
    words.token_of.push_back(i);
    words.hash.push_back(std::hash<std::string>{}(text[i].text));
  }
  return words;
}

std::size_t hash_of_run(const Words& words, std::size_t begin, std::size_t length) {
  std::size_t hash = length;
  for (std::size_t i = begin; i < begin + length; ++i) hash = hash * 1099511628211U + words.hash[i];
  return hash;
}

// Captions without sentences: a measured amount said again in the very same words. Few words are enough where
// she says that she tries once more, or after the farewell.
std::vector<TokenSpan> repeated_runs(const Talk& talk, std::size_t length, bool tried_again) {
  const auto words = words_of(talk.text);
  std::vector<TokenSpan> runs;
  std::unordered_map<std::size_t, std::size_t> seen;
  for (std::size_t w = 0; w + length <= words.token_of.size(); ++w) {
    const auto [before, is_new] = seen.try_emplace(hash_of_run(words, w, length), w);
    if (is_new || before->second + length > w) continue;
    TokenSpan span{words.token_of[w], words.token_of[w + length - 1] + 1};
    if (!runs.empty() && runs.back().end >= span.begin) {
      runs.back().end = span.end;
      continue;
    }
    const auto amount = first_from(talk.amounts, span.begin);
    const bool measured = amount != talk.amounts.end() && amount->span.end <= span.end &&
                          amount->scan.has_unit && !amount->scan.is_more;
    if (!measured) continue;
    constexpr std::size_t kBefore = 14;
    const TokenSpan lead{span.begin - std::min(kBefore, span.begin), span.begin};
    const bool again = span.begin >= talk.text.farewell() || holds_phrase(talk.text, lead, kOnceMore);
    if (again == tried_again) runs.push_back(span);
  }
  return runs;
}

void add_lines(Talk& talk, const std::vector<TokenSpan>& spans) {
  for (const auto& span : spans)
    if (std::none_of(talk.repeated_lines.begin(), talk.repeated_lines.end(),
                     [&](const TokenSpan& line) { return line.overlaps(span); }))
      talk.repeated_lines.push_back(span);
  std::sort(talk.repeated_lines.begin(), talk.repeated_lines.end(),
            [](const TokenSpan& a, const TokenSpan& b) { return a.begin < b.begin; });
}

}  // namespace

void find_repeated_lines(Talk& talk) {
  if (talk.text.kind() == TextKind::OnPicture) return;  // a text shown twice is no retake
  const auto lines = lines_of(talk.text);
  for (std::size_t i = 1; i < lines.size(); ++i) {
    if (lines[i].words.size() < kShortestLine || lines[i].words.size() > 80) continue;
    const std::size_t first = i > kReach ? i - kReach : 0;
    for (std::size_t k = first; k < i; ++k) {
      if (lines[k].words.size() < kShortestLine || lines[k].words.size() > 80) continue;
      if (likeness(lines[k].words, lines[i].words) < 0.85) continue;
      talk.repeated_lines.push_back(lines[i].span);
      break;
    }
  }
  constexpr std::size_t kFewWords = 5;
  constexpr std::size_t kFewerWords = 4;
  constexpr std::size_t kManyWords = 8;
  add_lines(talk, repeated_runs(talk, kFewWords, true));
  add_lines(talk, repeated_runs(talk, kFewerWords, true));
  for (auto& amount : talk.amounts) amount.repeated = any_overlaps(talk.repeated_lines, amount.span);
  // Many words alike may still be two goes of one food ("two spoons of oil in the pan"): told, not held
  // against it.
  add_lines(talk, repeated_runs(talk, kManyWords, false));
}

}  // namespace panslate
