#pragma once

#include <algorithm>
#include <cstddef>
#include <string_view>

#include "check/spoken_text.h"

namespace panslate {

/// True when the token at `at` is one of `words` (folded words); false behind the last token.
template <class Words>
[[nodiscard]] bool is_any_word(const SpokenText& text, std::size_t at, const Words& words) {
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string_view word) { return text.is_word(at, word); });
}

/// Looks for short phrases, written as folded words with single spaces, in a stretch of tokens (marks are
/// passed over). True when any phrase of `phrases` starts inside `span`.
template <class Phrases>
[[nodiscard]] bool holds_phrase(const SpokenText& text, TokenSpan span, const Phrases& phrases);

/// Index after the phrase when it stands at `at`, else `at`.
[[nodiscard]] inline std::size_t match_phrase(const SpokenText& text, std::size_t at,
                                              std::string_view phrase) {
  std::size_t i = at;
  while (!phrase.empty()) {
    const auto space = phrase.find(' ');
    const auto word = phrase.substr(0, space);
    while (i < text.size() && i > at && text[i].kind == TokenKind::Mark) ++i;
    if (!text.is_word(i, word)) return at;
    ++i;
    phrase = space == std::string_view::npos ? std::string_view{} : phrase.substr(space + 1);
  }
  return i;
}

template <class Phrases>
bool holds_phrase(const SpokenText& text, TokenSpan span, const Phrases& phrases) {
  for (std::size_t i = span.begin; i < span.end; ++i)
    for (const std::string_view phrase : phrases)
      if (text[i].text.front() == phrase.front() && match_phrase(text, i, phrase) > i) return true;
  return false;
}

/// At most `reach` tokens before the one at `at`, of its own sentence.
[[nodiscard]] inline TokenSpan words_before(const SpokenText& text, std::size_t at, std::size_t reach) {
  auto first = at;
  while (first > 0 && at - first < reach && text.sentence(first - 1) == text.sentence(at)) --first;
  return {first, at};
}

/// The sentence a token stands in, cut to at most `reach` tokens on either side: unpunctuated talk has no
/// sentences.
[[nodiscard]] inline TokenSpan sentence_around(const SpokenText& text, std::size_t token, std::size_t reach) {
  TokenSpan span{token, token};
  while (span.begin > 0 && token - span.begin < reach &&
         text.sentence(span.begin - 1) == text.sentence(token))
    --span.begin;
  while (span.end < text.size() && span.end - token < reach &&
         text.sentence(span.end) == text.sentence(token))
    ++span.end;
  return span;
}

}  // namespace panslate
