#include "kitchen/share_scan.h"

#include "kitchen/number_words.h"
#include "kitchen/scan_words.h"
#include "kitchen/unit_words.h"

namespace panslate {

namespace {

using Tokens = std::span<const Token>;

// Index after "the rest of the", "rest of your", "the remaining"; `at` when none stand there.
std::size_t rest_end(Tokens tokens, std::size_t at) {
  const bool the = is_text(tokens, at, "the");
  const auto word = the ? at + 1 : at;
  const bool of = is_text(tokens, word + 1, "of");
  if (is_any(tokens, word, "rest|remainder") && (the || of)) {
    const auto end = of ? word + 2 : word + 1;
    return is_any(tokens, end, "the|that|your|my|our|this|those|these") ? end + 1 : end;
  }
  const auto next = word + 1;
  if (is_text(tokens, word, "remaining") && next < tokens.size() && tokens[next].kind == TokenKind::Word &&
      !number_at(tokens, next) && !unit_word_at(tokens, next, false) &&
      !is_any(tokens, next, "time|a|an|about"))
    return next;
  return at;
}

}  // namespace

std::optional<ScannedAmount> share_at(Tokens tokens, std::size_t at) {
  ScannedAmount found;
  found.begin = at;
  found.is_share = true;
  if (const auto rest = rest_end(tokens, at); rest > at) {
    found.end = rest;
    return found;
  }
  const auto lead = about_words_at(tokens, at);
  const auto part = number_at(tokens, lead.end);
  if (!part || Ratio(1) <= part->value || part->value.is_zero()) return std::nullopt;
  const bool of = is_text(tokens, part->end, "of");
  const auto whole = of ? part->end + 1 : part->end;
  if (!is_any(tokens, whole, "the|that|this|those|these|your|my|our|it") &&
      !(of && is_any(tokens, whole, "them|his|her|each|all|what")))
    return std::nullopt;
  found.amount.value = part->value;
  found.amount.about = lead.about;
  found.end = whole + 1;
  return found;
}

}  // namespace panslate
