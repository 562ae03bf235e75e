#include <algorithm>
#include <unordered_map>
#include <vector>

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
  for (auto& amount : talk.amounts) amount.repeated = any_overlaps(talk.repeated_lines, amount.span);
}

}  // namespace panslate
