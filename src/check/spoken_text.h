#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/check/check.h"
#include "panslate/kitchen/token.h"
#include "panslate/speech/corrected_captions.h"

/// The words of the transcripts as one run of tokens, each tied back to its word, time and cue. Captions
/// break lines inside amounts and food names, so nothing here stops at a cue's edge; only sentences do.
namespace panslate {

/// A half-open stretch of tokens.
struct TokenSpan {
  std::size_t begin = 0;
  std::size_t end = 0;

  [[nodiscard]] bool empty() const { return end <= begin; }
  [[nodiscard]] bool overlaps(const TokenSpan& other) const { return begin < other.end && other.begin < end; }
};

/// Speech runs on over cues; each text on the picture stands for itself.
enum class TextKind : std::uint8_t { Speech, OnPicture };

class SpokenText {
 public:
  /// Several sources (clips with captions of their own) are read one after the other.
  SpokenText(const std::vector<TimedText>& sources, TextKind kind);

  [[nodiscard]] const std::vector<Token>& tokens() const { return tokens_; }
  [[nodiscard]] std::size_t size() const { return tokens_.size(); }
  [[nodiscard]] const Token& operator[](std::size_t i) const { return tokens_[i]; }
  /// Number of the sentence a token stands in. Without punctuation a pause of two seconds ends one.
  [[nodiscard]] std::uint32_t sentence(std::size_t i) const { return sentence_of_[i]; }
  /// Stretches of at most about 25 words that are judged together when asking which step is spoken.
  [[nodiscard]] const std::vector<TokenSpan>& utterances() const { return utterances_; }
  [[nodiscard]] std::size_t utterance_of(std::size_t token) const { return utterance_of_[token]; }
  /// First token after the farewell ("thanks for watching, bye"); size() when there is none. What follows is
  /// looked at last.
  [[nodiscard]] std::size_t farewell() const { return farewell_; }
  [[nodiscard]] bool is_word(std::size_t i, std::string_view folded) const {
    return i < tokens_.size() && tokens_[i].text == folded;
  }

  /// From now on the tokens of a stretch are these folded words, as many as there is room for; what is left
  /// over says nothing. What is told of the stretch stays as it was heard.
  void read_as(TokenSpan span, const std::vector<std::string>& words);

  /// Time, words, cues of a stretch, ready for the report.
  [[nodiscard]] Mention mention(TokenSpan span) const;
  [[nodiscard]] std::string text(TokenSpan span) const;
  [[nodiscard]] TimeRange when(TokenSpan span) const;
  /// Where a stretch stands in the captions that hold it; of several captions, those that it begins in.
  struct Source {
    std::size_t source = 0;  ///< index into the sources
    WordChange words;        ///< without a text
  };
  [[nodiscard]] Source source_of(TokenSpan span) const;
  [[nodiscard]] const std::string& media_of(std::size_t token) const {
    return *words_[word_of_[token]].media;
  }
  /// The token spoken at a time of a clip's clock, or the last one before it; empty when the clip is not
  /// spoken over before that.
  [[nodiscard]] std::optional<std::size_t> token_at(MediaTime time, const std::string& media) const;
  [[nodiscard]] TextKind kind() const { return kind_; }

 private:
  void find_sentences();
  void find_utterances();
  void find_farewell();

  struct SourceWord {
    const Word* word;
    const Cue* cue;
    const std::string* media;
    std::size_t source;  ///< index into the sources
    std::size_t index;   ///< into Transcript::words
    std::size_t begin;   ///< in joined_
  };

  std::vector<SourceWord> words_;
  TextKind kind_;
  std::string joined_;
  std::vector<Token> tokens_;
  std::vector<std::uint32_t> word_of_;
  std::vector<std::uint32_t> sentence_of_;
  std::vector<TokenSpan> utterances_;
  std::vector<std::size_t> utterance_of_;
  std::size_t farewell_ = 0;
};

}  // namespace panslate
