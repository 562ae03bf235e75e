#include "project/near_spelling.h"

#include <algorithm>
#include <array>

#include "panslate/base/text.h"

namespace panslate {

namespace {

constexpr std::size_t kLongest = 64;

std::u32string letters(std::string_view word) {
  std::u32string out;
  const auto folded = fold_accents(word);
  for (std::size_t i = 0; i < folded.size() && out.size() < kLongest;) {
    const auto [value, next] = code_point_at(folded, i);
    out += value;
    i = next;
  }
  return out;
}

}  // namespace

std::size_t spelling_distance(std::string_view first, std::string_view second) {
  const auto a = letters(first);
  const auto b = letters(second);
  using Row = std::array<std::size_t, kLongest + 1>;
  Row before_last{};
  Row last{};
  Row now{};
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        now[j] = std::min(now[j], before_last[j - 2] + 1);
    }
    before_last = last;
    last = now;
  }
  return last[b.size()];
}

std::optional<std::string> nearest_spelling(std::string_view written, const std::vector<std::string>& words) {
  const std::size_t length = character_count(written);
  std::optional<std::string> best;
  std::size_t least = std::max<std::size_t>(1, length / 3) + 1;
  for (const auto& word : words) {
    const auto distance = spelling_distance(written, word);
    if (distance >= least) continue;
    least = distance;
    best = word;
  }
  return best;
}

}  // namespace panslate
