#include "check/spelling.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "panslate/speech/pronunciation.h"

namespace panslate {

namespace {

// Is an English word one letter away: left out, swapped with the next, changed, put in?
bool is_one_from_english(std::string_view typed) {
  std::string word;
  for (std::size_t i = 0; i <= typed.size(); ++i) {
    if (i < typed.size()) {
      word = typed;
      word.erase(i, 1);
      if (is_english_word(word)) return true;
      for (char c = 'a'; c <= 'z'; ++c) {
        word = typed;
        word[i] = c;
        if (is_english_word(word)) return true;
      }
    }
    if (i + 1 < typed.size()) {
      word = typed;
      std::swap(word[i], word[i + 1]);
      if (is_english_word(word)) return true;
    }
    for (char c = 'a'; c <= 'z'; ++c) {
      word = typed;
      word.insert(i, 1, c);
      if (is_english_word(word)) return true;
    }
  }
  return false;
}

}  // namespace

std::size_t letters_apart(std::string_view a, std::string_view b) {
  constexpr std::size_t kMost = 64;
  a = a.substr(0, kMost);
  b = b.substr(0, kMost);
  std::array<std::array<std::size_t, kMost + 1>, 3> rows{};
  for (std::size_t j = 0; j <= b.size(); ++j) rows[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    auto& row = rows[i % 3];
    const auto& above = rows[(i - 1) % 3];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], rows[(i - 2) % 3][j - 2] + 1);
    }
  }
  return rows[a.size() % 3][b.size()];
}

bool is_misspelt(std::string_view typed, std::string_view meant) {
  const auto shorter = std::min(typed.size(), meant.size());
  if (shorter < 6 || typed.front() != meant.front()) return false;
  const auto apart = letters_apart(typed, meant);
  return apart <= 1 || (apart == 2 && shorter > 8 && !is_one_from_english(typed));
}

bool is_made_from(std::string_view heard, std::string_view meant) {
  constexpr std::array<std::string_view, 9> kEndings{"y",    "ish", "ed",  "ing", "less",
                                                     "like", "er",  "ier", "iest"};
  if (meant.size() < 3) return false;
  const auto is_made = [&](std::string_view base) {
    return heard.size() > base.size() && heard.starts_with(base) &&
           std::find(kEndings.begin(), kEndings.end(), heard.substr(base.size())) != kEndings.end();
  };
  if (meant.back() == 's' && is_made_from(heard, meant.substr(0, meant.size() - 1))) return true;
  const std::string doubled = std::string(meant) + meant.back();
  return is_made(meant) || is_made(doubled) ||
         (meant.back() == 'e' && is_made(meant.substr(0, meant.size() - 1)));
}

}  // namespace panslate
