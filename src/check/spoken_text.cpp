#include "check/spoken_text.h"

#include <algorithm>
#include <array>

namespace panslate {

namespace {

constexpr std::size_t kLongestUtterance = 25;
constexpr std::size_t kUnpunctuatedUtterance = 12;

bool ends_sentence(const Token& token) {
  return token.kind == TokenKind::Mark && (token.text == "." || token.text == "!" || token.text == "?" ||
                                           token.text == "…" || token.text == ";");
}

bool is_arrow(const Token& token) {
  return token.kind == TokenKind::Mark && token.text == ">";
}

// Ways to say goodbye to viewers. Common practice, no source.
constexpr std::array<std::array<std::string_view, 4>, 12> kFarewells{{
    {"thanks", "for", "watching", ""},
    {"thank", "you", "for", "watching"},
    {"thanks", "for", "joining", ""},
    {"thank", "you", "for", "joining"},
    {"thanks", "for", "cooking", ""},
    {"see", "you", "next", "time"},
    {"see", "you", "next", "week"},
    {"see", "you", "in", "the"},
    {"see", "you", "soon", ""},
    {"until", "next", "time", ""},
    {"bye", "bye", "", ""},
    {"take", "care", "bye", ""},
}};

bool is_lower(char c) {
  return 'a' <= c && c <= 'z';
}

// "twenty-" at the end of one cue and "five" at the beginning of the next: one word. A dash within a cue, or
// a long one, breaks off instead: "twenty- no, five".
bool goes_on(const Transcript& transcript, std::size_t word) {
  const auto& before = transcript.words[word - 1];
  const auto& here = transcript.words[word];
  const std::string_view head = before.text;
  return here.cue == before.cue + 1 && head.size() > 1 && head.back() == '-' &&
         is_lower(head[head.size() - 2]) && !here.text.empty() && is_lower(here.text.front());
}

}  // namespace

SpokenText::SpokenText(const std::vector<TimedText>& sources, TextKind kind) : kind_(kind) {
  for (std::size_t s = 0; s < sources.size(); ++s) {
    const auto& transcript = *sources[s].transcript;
    for (std::size_t w = 0; w < transcript.words.size(); ++w) {
      const auto& word = transcript.words[w];
      if (!joined_.empty() && !(w > 0 && goes_on(transcript, w))) joined_ += ' ';
      words_.push_back({&word, &transcript.cues[word.cue], &sources[s].media, s, w, joined_.size()});
      joined_ += word.text;
    }
  }
  tokens_ = tokenize(joined_);
  word_of_.reserve(tokens_.size());
  std::size_t word = 0;
  for (const auto& token : tokens_) {
    while (word + 1 < words_.size() && words_[word + 1].begin <= token.begin) ++word;
    word_of_.push_back(static_cast<std::uint32_t>(word));
  }
  find_sentences();
  find_utterances();
  find_farewell();
}

void SpokenText::find_sentences() {
  sentence_of_.reserve(tokens_.size());
  std::uint32_t sentence = 0;
  for (std::size_t i = 0; i < tokens_.size(); ++i) {
    if (i > 0) {
      // ">>" within a cue: somebody else speaks, as captions have it.
      const bool turn = i > 1 && is_arrow(tokens_[i - 1]) && is_arrow(tokens_[i - 2]);
      const bool after_stop = turn || (ends_sentence(tokens_[i - 1]) && tokens_[i].space_before);
      const auto& before = words_[word_of_[i - 1]];
      const auto& here = words_[word_of_[i]];
      const bool pause = here.word->when.begin - before.word->when.end > MediaTime::from_seconds(2);
      const bool other_speaker = before.cue->speaker != here.cue->speaker;
      const bool other_text = kind_ == TextKind::OnPicture && before.cue != here.cue;
      const bool other_source = before.media != here.media;
      if (after_stop || pause || other_speaker || other_text || other_source) ++sentence;
    }
    sentence_of_.push_back(sentence);
  }
}

void SpokenText::find_utterances() {
  const auto stops = std::count_if(tokens_.begin(), tokens_.end(), ends_sentence);
  const bool punctuated = static_cast<std::size_t>(stops) * 40 > tokens_.size();
  const std::size_t longest = punctuated ? kLongestUtterance : kUnpunctuatedUtterance;
  for (std::size_t i = 0; i < tokens_.size(); ++i) {
    const bool new_sentence = i == 0 || sentence_of_[i] != sentence_of_[i - 1];
    if (new_sentence || i - utterances_.back().begin >= longest) utterances_.push_back({i, i});
    utterances_.back().end = i + 1;
    utterance_of_.push_back(utterances_.size() - 1);
  }
}

void SpokenText::find_farewell() {
  farewell_ = tokens_.size();
  // A greeting may hold the same words ("thanks for joining me"): only the last third of the talk can say
  // goodbye.
  std::size_t last = tokens_.size();
  for (std::size_t i = tokens_.size() * 2 / 3; i < tokens_.size(); ++i) {
    for (const auto& words : kFarewells) {
      std::size_t k = 0;
      while (k < words.size() && !words[k].empty() && is_word(i + k, words[k])) ++k;
      if (k == words.size() || words[k].empty()) {
        if (last == tokens_.size()) last = i + k;
      }
    }
  }
  if (last == tokens_.size()) return;
  const auto sentence = sentence_of_[last - 1];
  while (last < tokens_.size() && sentence_of_[last] == sentence && last - farewell_ < kLongestUtterance)
    ++last;
  farewell_ = last;
}

TimeRange SpokenText::when(TokenSpan span) const {
  if (span.empty()) return {};
  const auto begin = words_[word_of_[span.begin]].word->when.begin;
  // Captions whose times overlap may have the last word end before the first begins.
  return {begin, std::max(begin, words_[word_of_[span.end - 1]].word->when.end)};
}

void SpokenText::read_as(TokenSpan span, const std::vector<std::string>& words) {
  for (std::size_t i = span.begin; i < span.end; ++i) {
    const auto w = i - span.begin;
    tokens_[i].kind = w < words.size() ? TokenKind::Word : TokenKind::Mark;
    tokens_[i].text = w < words.size() ? words[w] : "-";
  }
}

SpokenText::Source SpokenText::source_of(TokenSpan span) const {
  if (span.empty()) return {};
  const auto& first = words_[word_of_[span.begin]];
  const auto& last = words_[word_of_[span.end - 1]];
  return {first.source,
          {first.index,
           tokens_[span.begin].begin - first.begin,
           last.index,
           tokens_[span.end - 1].end - last.begin,
           {}}};
}

std::string SpokenText::text(TokenSpan span) const {
  if (span.empty()) return {};
  const auto begin = tokens_[span.begin].begin;
  return joined_.substr(begin, tokens_[span.end - 1].end - begin);
}

std::optional<std::size_t> SpokenText::token_at(MediaTime time, const std::string& media) const {
  // Sources stand one after the other, each in order of time.
  const auto of_media = [&](std::size_t i) { return media_of(i) == media; };
  std::size_t first = 0;
  while (first < tokens_.size() && !of_media(first)) ++first;
  std::size_t end = first;
  std::size_t step = tokens_.size() - first;
  while (step > 0) {  // the run of this clip's tokens, then the last that begins by `time`
    const auto half = step / 2;
    const auto middle = end + half;
    const bool inside = of_media(middle) && when({middle, middle + 1}).begin <= time;
    if (inside) {
      end = middle + 1;
      step -= half + 1;
    } else {
      step = half;
    }
  }
  if (end == first) return std::nullopt;
  return end - 1;
}

Mention SpokenText::mention(TokenSpan span) const {
  Mention mention;
  if (span.empty()) return mention;
  mention.when = when(span);
  mention.text = text(span);
  mention.media = *words_[word_of_[span.begin]].media;
  for (std::size_t w = word_of_[span.begin]; w <= word_of_[span.end - 1]; ++w) {
    mention.precision = std::max(mention.precision, words_[w].word->precision);
    const auto& id = words_[w].cue->id;
    if (mention.refs.empty() || mention.refs.back() != id) mention.refs.push_back(id);
  }
  return mention;
}

}  // namespace panslate
