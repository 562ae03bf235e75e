#include "panslate/speech/transcriber.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <utility>

#include <sphinxbase/ngram_model.h>
#include <sys/mman.h>
#include <unistd.h>

#include "speech/backoff_model.h"
#include "speech/phones.h"
#include "speech/sphinx_handles.h"
#include "speech/sphinx_sound.h"

namespace panslate {

namespace {

constexpr std::int64_t kLongestSound = std::int64_t{120} * kSpeechRate;
constexpr std::size_t kMostWords = 200'000;
constexpr int kMostWays = 20;
// How much of what is expected comes from the likely talk; the rest is general English.
constexpr float kLikely = 0.6F;

Error no_model(const std::string& what) {
  return {ErrorCode::NotFound, "the model of English words is not there: " + what, std::nullopt,
          "install Debian's package pocketsphinx-en-us"};
}

Error broken(std::string what) {
  return {ErrorCode::Internal, "the draft cannot be written: " + std::move(what)};
}

/// A text that a library can only read from a file, without one on the disk.
class MemoryFile {
 public:
  explicit MemoryFile(const std::string& text) : handle_(memfd_create("panslate", MFD_CLOEXEC)) {
    for (std::size_t done = 0; handle_ >= 0 && done < text.size();) {
      const auto written = write(handle_, text.data() + done, text.size() - done);
      if (written <= 0) return;
      done += static_cast<std::size_t>(written);
    }
    whole_ = handle_ >= 0;
  }
  ~MemoryFile() {
    if (handle_ >= 0) close(handle_);
  }
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;

  [[nodiscard]] bool whole() const { return whole_; }
  [[nodiscard]] std::string name() const { return "/proc/self/fd/" + std::to_string(handle_); }

 private:
  int handle_;
  bool whole_ = false;
};

class SphinxTranscriber final : public Transcriber {
 public:
  SphinxTranscriber(SphinxConfig config, SphinxDecoder decoder)
      : config_(std::move(config)), decoder_(std::move(decoder)) {}

  Result<std::vector<DraftWord>> transcribe(std::span<const std::int16_t> samples) override {
    const auto length = static_cast<std::int64_t>(samples.size());
    if (length > kLongestSound) return tl::unexpected(broken("the sound is longer than 2 minutes"));
    if (length < kShortestSound) return std::vector<DraftWord>{};
    if (ps_start_stream(decoder_.get()) < 0 || ps_start_utt(decoder_.get()) < 0)
      return tl::unexpected(broken("the recogniser does not start"));
    const auto heard = with_faint_noise(samples);
    const auto frames = ps_process_raw(decoder_.get(), heard.data(), heard.size(), FALSE, TRUE);
    if (ps_end_utt(decoder_.get()) < 0 || frames < 0) return tl::unexpected(broken("the recogniser stopped"));
    std::vector<DraftWord> words;
    for (ps_seg_t* part = ps_seg_iter(decoder_.get()); part != nullptr; part = ps_seg_next(part)) {
      const char* const name = ps_seg_word(part);
      const auto text = name == nullptr ? std::string_view{} : std::string_view(name);
      if (text.empty() || text.front() == '<' || text.front() == '[' || text.front() == '+') continue;
      int first = 0;
      int last = 0;
      ps_seg_frames(part, &first, &last);
      words.push_back({std::string(text.substr(0, text.find('('))),
                       std::min(first * kFrame + kFrameMiddle, length),
                       std::min((last + 1) * kFrame + kFrameMiddle, length)});
    }
    return words;
  }

 private:
  SphinxConfig config_;
  SphinxDecoder decoder_;
};

// Ways that the decoder's dictionary lacks.
Status add_ways(ps_decoder_t& decoder, const VocabularyWord& word) {
  std::vector<std::string> known;
  int next = 1;
  const auto name_of = [&](int way) {
    return way == 1 ? word.word : word.word + "(" + std::to_string(way) + ")";
  };
  for (; next <= kMostWays; ++next) {
    char* const phones = ps_lookup_word(&decoder, name_of(next).c_str());
    if (phones == nullptr) break;
    known.emplace_back(phones);
    ckd_free(phones);
  }
  for (const auto& way : word.ways) {
    if (!are_phones(way)) return tl::unexpected(broken("'" + word.word + "' has no pronunciation: " + way));
    if (next > kMostWays) break;
    if (std::find(known.begin(), known.end(), way) != known.end()) continue;
    if (ps_add_word(&decoder, name_of(next).c_str(), way.c_str(), FALSE) < 0)
      return tl::unexpected(broken("'" + word.word + "' is not taken"));
    known.push_back(way);
    ++next;
  }
  return {};
}

Status expect(ps_decoder_t& decoder, cmd_ln_t& config, const LikelyTalk& talk,
              const std::filesystem::path& general_file) {
  auto* const logarithms = ps_get_logmath(&decoder);
  const SphinxWords general(ngram_model_read(&config, general_file.c_str(), NGRAM_AUTO, logarithms));
  if (general == nullptr) return tl::unexpected(no_model(general_file.string()));
  const auto text = arpa_model(talk.sentences);
  if (text.empty()) {
    if (ps_set_lm(&decoder, "talk", general.get()) < 0) return tl::unexpected(broken("no words"));
  } else {
    const MemoryFile file(text);
    if (!file.whole()) return tl::unexpected(broken("there is no memory left"));
    const SphinxWords likely(ngram_model_read(&config, file.name().c_str(), NGRAM_ARPA, logarithms));
    if (likely == nullptr) return tl::unexpected(broken("the likely words are not taken"));
    std::array<ngram_model_t*, 2> models{likely.get(), general.get()};
    std::string likely_name = "likely";
    std::string general_name = "general";
    std::array<char*, 2> names{likely_name.data(), general_name.data()};
    const std::array<float, 2> weights{kLikely, 1 - kLikely};
    const SphinxWords both(
        ngram_model_set_init(&config, models.data(), names.data(), weights.data(), int{models.size()}));
    if (both == nullptr || ps_set_lm(&decoder, "talk", both.get()) < 0)
      return tl::unexpected(broken("the likely words are not taken"));
  }
  if (ps_set_search(&decoder, "talk") < 0) return tl::unexpected(broken("the recogniser does not start"));
  return {};
}

}  // namespace

Result<std::unique_ptr<Transcriber>> open_transcriber(const LikelyTalk& talk,
                                                      const std::filesystem::path& model) {
  std::size_t words = 0;
  for (const auto& sentence : talk.sentences) words += sentence.size();
  if (words > kMostWords || talk.words.size() > kMostWords)
    return tl::unexpected(broken("too many words are likely"));
  const auto sounds = model / "en-us";
  const auto dictionary = model / "cmudict-en-us.dict";
  const auto general = model / "en-us.lm.bin";
  std::error_code error;
  for (const auto& file : {sounds / "mdef", dictionary, general})
    if (!std::filesystem::is_regular_file(file, error)) return tl::unexpected(no_model(file.string()));
  silence_the_log();
  SphinxConfig config(cmd_ln_init(nullptr, ps_args(), TRUE, "-hmm", sounds.c_str(), "-dict",
                                  dictionary.c_str(), "-remove_silence", "no",
                                  static_cast<const char*>(nullptr)));
  if (config == nullptr) return tl::unexpected(broken("the recogniser does not know its own options"));
  SphinxDecoder decoder(ps_init(config.get()));
  if (decoder == nullptr) return tl::unexpected(no_model(sounds.string()));
  for (const auto& word : talk.words) PANSLATE_CHECK(add_ways(*decoder, word));
  PANSLATE_CHECK(expect(*decoder, *config, talk, general));
  return std::make_unique<SphinxTranscriber>(std::move(config), std::move(decoder));
}

}  // namespace panslate
