#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/speech/recogniser.h"

/// Writing down what is said where nobody wrote it before. What comes out is a draft: a person corrects it.
namespace panslate {

/// A word that may be said, in lower case, and its sounds as in GraphWord.
struct VocabularyWord {
  std::string word;
  std::vector<std::string> ways;
};

using Sentence = std::vector<std::string>;

/// What is likely to be said here; all else that English says may be said too.
struct LikelyTalk {
  std::vector<VocabularyWord>
      words;                        ///< those of the sentences; what the model knows already may be left out
  std::vector<Sentence> sentences;  ///< in lower case; the same one again counts again
};

struct DraftWord {
  std::string text;        ///< in lower case
  std::int64_t begin = 0;  ///< samples of the sound given
  std::int64_t end = 0;
};

/// For one thread at a time; several may exist.
class Transcriber {
 public:
  virtual ~Transcriber() = default;
  /// Fails (Internal) for more than 2 minutes of sound. Less than 0.1 s gives nothing.
  [[nodiscard]] virtual Result<std::vector<DraftWord>> transcribe(std::span<const std::int16_t> samples) = 0;
};

/// Expects the talk, and general English beside it, from the model of PocketSphinx (its en-us.lm.bin and
/// dictionary). Fails: NotFound where the model is not there, Internal for a word whose ways are no phones or
/// for more than 200,000 words in the sentences.
[[nodiscard]] Result<std::unique_ptr<Transcriber>> open_transcriber(
    const LikelyTalk& talk, const std::filesystem::path& model = default_speech_model());

}  // namespace panslate
