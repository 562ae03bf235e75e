#include "kitchen/scan_words.h"

#include "kitchen/number_words.h"

namespace panslate {

using Tokens = std::span<const Token>;

namespace {

// "c. 200 g"
bool is_circa(Tokens tokens, std::size_t i) {
  return is_text(tokens, i, "c") && is_text(tokens, i + 1, ".") && i + 2 < tokens.size() &&
         tokens[i + 2].kind == TokenKind::Number;
}

}  // namespace

AboutWords about_words_at(Tokens tokens, std::size_t at) {
  AboutWords words{at, false};
  for (int round = 0; round < 3; ++round) {
    const auto i = words.end;
    if (i >= tokens.size() || tokens[i].kind == TokenKind::Number) break;
    if (is_any(tokens, i, "about|around|roughly|approximately|approx|appr|circa|ca|almost|nearly|~|≈")) {
      words = {i + 1, true};
      if (is_text(tokens, i + 1, ".") && is_any(tokens, i, "approx|appr|ca")) ++words.end;
    } else if (is_any(tokens, i, "just|slightly") && is_any(tokens, i + 1, "over|under|about|shy")) {
      words = {i + 2, true};
      if (is_any(tokens, i + 2, "of")) ++words.end;
    } else if (is_any(tokens, i, "a") && is_any(tokens, i + 1, "little|bit|touch|shade|tad|smidge") &&
               is_any(tokens, i + 2, "over|under|more|less")) {
      words = {i + 3, true};
      if (is_any(tokens, i + 3, "than")) ++words.end;
    } else if (is_any(tokens, i, "somewhere|something") &&
               is_any(tokens, i + 1, "around|between|like|near")) {
      words = {is_text(tokens, i + 1, "between") ? i + 1 : i + 2, true};
    } else if ((is_text(tokens, i, "close") && is_text(tokens, i + 1, "to")) || is_circa(tokens, i)) {
      words = {i + 2, true};
    } else if (is_any(tokens, i, "slightly|just|bit|little") && is_any(tokens, i + 1, "more|less") &&
               is_text(tokens, i + 2, "than")) {
      words = {i + 3, true};
    } else if ((is_text(tokens, i, "at") && is_any(tokens, i + 1, "least|most")) ||
               (is_text(tokens, i, "up") && is_text(tokens, i + 1, "to"))) {
      words.end = i + 2;
    } else if (is_text(tokens, i, "no") && is_any(tokens, i + 1, "more|less") &&
               is_text(tokens, i + 2, "than")) {
      words.end = i + 3;
    } else {
      break;
    }
  }
  return words;
}

AboutWords about_tail_at(Tokens tokens, std::size_t at) {
  if (is_text(tokens, at, "or") && is_any(tokens, at + 1, "so|thereabouts")) return {at + 2, true};
  if (is_text(tokens, at, "give") && is_text(tokens, at + 1, "or") && is_text(tokens, at + 2, "take"))
    return {at + 3, true};
  if (is_text(tokens, at, "ish")) return {at + 1, true};
  if (is_text(tokens, at, "-") && is_text(tokens, at + 1, "ish")) return {at + 2, true};
  return {at, false};
}

SizeWord size_word_at(Tokens tokens, std::size_t at) {
  SizeWord word{std::nullopt, false, at};
  for (int round = 0; round < 3; ++round) {
    auto i = word.end;
    if (i >= tokens.size() || tokens[i].kind != TokenKind::Word) break;
    if (is_any(tokens, i,
               "nice|really|very|big|large|small|good|generous|decent|tiny|wee|little|hefty|healthy|fat|"
               "proper|whole|"
               "full|huge|"
               "well|medium|standard|metric|us|imperial|american|british|australian|uk|lg|lge|lrg|sm|med")) {
      word.about = word.about || is_any(tokens, i, "good|generous|decent|hefty|healthy");
      word.end = i + 1;
      if (is_text(tokens, i + 1, "-") && is_any(tokens, i + 2, "sized|heaped|rounded")) word.end = i + 2;
      // "1 sm. can"
      if (is_any(tokens, i, "lg|lge|lrg|sm|med") && is_text(tokens, i + 1, ".")) word.end = i + 2;
      continue;
    }
    if (is_any(tokens, i, "heaped|heaping|rounded|heap|round")) {
      word.size = SpoonSize::Heaped;
    } else if (is_any(tokens, i, "level|flat")) {
      word.size = SpoonSize::Level;
    } else if (is_any(tokens, i, "scant")) {
      word.size = SpoonSize::Scant;
    } else {
      break;
    }
    word.end = i + 1;
  }
  return word;
}

}  // namespace panslate
