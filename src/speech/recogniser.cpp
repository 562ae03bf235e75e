#include "panslate/speech/recogniser.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <unordered_map>
#include <utility>

#include "panslate/base/text.h"

#include "speech/phones.h"
#include "speech/score_file.h"
#include "speech/sphinx_handles.h"
#include "speech/sphinx_model.h"
#include "speech/sphinx_scores.h"
#include "speech/sphinx_sound.h"

/// The only place that knows PocketSphinx.
namespace panslate {

namespace {

constexpr std::int64_t kLongestSound = std::int64_t{20} * 60 * kSpeechRate;
constexpr std::size_t kLargestGraph = 1'000'000;
constexpr std::size_t kLongestPronunciation = 2'000;
// The search counts in whole steps of the model's logarithm (base 1.0001), 1024 at a time.
constexpr double kScoreStep = 1024 * 9.9995000333308e-5;
constexpr const char* kSearch = "graph";

Error broken_graph(std::string what) {
  return {ErrorCode::Internal, "the graph of words cannot be listened for: " + std::move(what)};
}

bool is_pronunciation(std::string_view phones) {
  return phones.size() <= kLongestPronunciation && are_phones(phones);
}

bool is_weight(double weight) {
  return weight > 0.0 && weight <= 1.0;  // false for NaN
}

bool is_beam(double width) {
  return is_weight(width) && width < 1.0;
}

Status check(const WordGraph& graph) {
  if (graph.nodes > kLargestGraph || graph.words.size() > kLargestGraph || graph.arcs.size() > kLargestGraph)
    return tl::unexpected(broken_graph("it is too large"));
  if (graph.start >= graph.nodes || graph.final >= graph.nodes)
    return tl::unexpected(broken_graph("it has no start or no end"));
  if (!is_weight(graph.pause)) return tl::unexpected(broken_graph("its pauses have no weight"));
  for (const auto& word : graph.words)
    if (!is_pronunciation(word.pronunciation))
      return tl::unexpected(
          broken_graph("'" + word.label + "' has no pronunciation: '" + word.pronunciation + "'"));
  for (const auto& arc : graph.arcs)
    if (arc.from >= graph.nodes || arc.to >= graph.nodes || !is_weight(arc.weight) ||
        (arc.word && *arc.word >= graph.words.size()))
      return tl::unexpected(broken_graph("an arc leads nowhere"));
  return {};
}

class SphinxRecogniser final : public Recogniser {
 public:
  SphinxRecogniser(SphinxConfig config, SphinxDecoder decoder, std::unique_ptr<SphinxScorer> scorer)
      : config_(std::move(config)), decoder_(std::move(decoder)), scorer_(std::move(scorer)) {}

  Result<Recognition> recognise(std::span<const std::int16_t> samples, const WordGraph& graph,
                                Beam beam) override {
    PANSLATE_CHECK(check(graph));
    if (!is_beam(beam.width) || !is_beam(beam.word_end))
      return tl::unexpected(broken_graph("the beam is none"));
    const auto length = static_cast<std::int64_t>(samples.size());
    if (length > kLongestSound) return tl::unexpected(broken_graph("the sound is longer than 20 minutes"));
    if (length < kShortestSound) return Recognition{};

    cmd_ln_set_float_r(config_.get(), "-beam", beam.width);
    cmd_ln_set_float_r(config_.get(), "-pbeam", beam.width);
    cmd_ln_set_float_r(config_.get(), "-wbeam", beam.word_end);
    PANSLATE_TRY(const auto names, names_of(graph));
    const auto searched = set_graph(graph, names);
    if (!searched) return tl::unexpected(broken_graph("the recogniser does not take it"));

    const auto heard = with_faint_noise(samples);
    if (scorer_ && !has_frames(heard)) return Recognition{};
    PANSLATE_TRY(auto partial, scorer_ ? follow_scores(heard) : follow_sound(heard));
    std::int32_t score = 0;
    if (ps_get_hyp(decoder_.get(), &score) == nullptr && !has_end()) return partial;
    auto whole = path(length);
    whole.complete = true;
    return whole;
  }

 private:
  // One word of the decoder's dictionary for each word of the graph: the n-th that sounds like this in a
  // graph is the n-th in any other, so that the dictionary stays as large as the largest graph.
  Result<std::vector<const char*>> names_of(const WordGraph& graph) {
    std::unordered_map<std::string, std::size_t> used;
    std::vector<const char*> names;
    names.reserve(graph.words.size());
    word_of_.clear();
    for (std::uint32_t i = 0; i < graph.words.size(); ++i) {
      const auto& phones = graph.words[i].pronunciation;
      auto& known = dictionary_[phones];
      const auto ordinal = used[phones]++;
      if (ordinal == known.size()) {
        auto name = "w" + std::to_string(words_++);
        if (ps_add_word(decoder_.get(), name.c_str(), phones.c_str(), FALSE) < 0)
          return tl::unexpected(broken_graph("the model has no such sounds: " + phones));
        known.push_back(std::move(name));
      }
      names.push_back(known[ordinal].c_str());
      word_of_.emplace(known[ordinal], i);
    }
    return names;
  }

  bool set_graph(const WordGraph& graph, const std::vector<const char*>& names) {
    auto* const logarithms = ps_get_logmath(decoder_.get());
    const SphinxGraph made(fsg_model_init(kSearch, logarithms, 1.0F, static_cast<std::int32_t>(graph.nodes)));
    if (made == nullptr) return false;
    made->start_state = static_cast<std::int32_t>(graph.start);
    made->final_state = static_cast<std::int32_t>(graph.final);
    std::vector<std::int32_t> ids;
    ids.reserve(names.size());
    for (const auto* name : names) ids.push_back(fsg_model_word_add(made.get(), name));
    bool has_null = false;
    for (const auto& arc : graph.arcs) {
      const auto from = static_cast<std::int32_t>(arc.from);
      const auto to = static_cast<std::int32_t>(arc.to);
      const auto weight = logmath_log(logarithms, arc.weight);
      if (arc.word) {
        fsg_model_trans_add(made.get(), from, to, weight, ids[*arc.word]);
      } else if (from != to) {
        fsg_model_null_trans_add(made.get(), from, to, weight);
        has_null = true;
      }
    }
    if (has_null) const SphinxList nulls(fsg_model_null_trans_closure(made.get(), nullptr));
    // Silence only: the decoder's own fillers (breath, noise) take an odd voice for noise, once for all.
    fsg_model_add_silence(made.get(), "<sil>", -1, static_cast<float>(graph.pause));
    // The decoder keeps a count of its own on the graph.
    return ps_set_fsg(decoder_.get(), kSearch, made.get()) == 0 &&
           ps_set_search(decoder_.get(), kSearch) == 0;
  }

  // A path without words (silence only) has no text, but it has parts.
  bool has_end() {
    ps_seg_t* const part = ps_seg_iter(decoder_.get());
    if (part == nullptr) return false;
    ps_seg_free(part);
    return true;
  }

  // Makes ready what the sound is scored from; a tenth of a second may hold not one frame.
  bool has_frames(std::span<const std::int16_t> samples) {
    if (scores_ && scores_->is_of(samples)) return true;
    scores_.reset();  // not both at once
    scores_ = SoundScores::of(samples, ps_get_fe(decoder_.get()), ps_get_feat(decoder_.get()));
    return scores_ != nullptr;
  }

  // The best path so far, whether it reaches the end of the graph or not: it can only be had before the
  // decoder is told that the sound is over.
  Result<Recognition> follow_scores(std::span<const std::int16_t> samples) {
    Recognition partial;
    const ScoreFile file(*scores_, *scorer_, logmath_get_base(ps_get_logmath(decoder_.get())),
                         [&] { partial = path(std::ssize(samples)); });
    if (file.get() == nullptr) return tl::unexpected(broken_graph("there is no memory left"));
    const auto frames = ps_decode_senscr(decoder_.get(), file.get());
    file.rethrow();
    if (frames < 0 || static_cast<std::size_t>(frames) != scores_->frames())
      return tl::unexpected(broken_graph("the recogniser stopped"));
    return partial;
  }

  Result<Recognition> follow_sound(std::span<const std::int16_t> samples) {
    // A stream of its own: else what the decoder learnt of the noise in one stretch of sound changes the
    // scores of the next.
    if (ps_start_stream(decoder_.get()) < 0 || ps_start_utt(decoder_.get()) < 0)
      return tl::unexpected(broken_graph("the recogniser does not start"));
    const auto frames = ps_process_raw(decoder_.get(), samples.data(), samples.size(), FALSE, TRUE);
    auto partial = frames < 0 ? Recognition{} : path(std::ssize(samples));
    if (ps_end_utt(decoder_.get()) < 0 || frames < 0)
      return tl::unexpected(broken_graph("the recogniser stopped"));
    return partial;
  }

  Recognition path(std::int64_t length) {
    Recognition found;
    for (ps_seg_t* part = ps_seg_iter(decoder_.get()); part != nullptr; part = ps_seg_next(part)) {
      int first = 0;
      int last = 0;
      std::int32_t acoustic = 0;
      std::int32_t weight = 0;
      std::int32_t unused = 0;
      ps_seg_frames(part, &first, &last);
      ps_seg_prob(part, &acoustic, &weight, &unused);
      found.acoustic += acoustic * kScoreStep;
      found.weighted += (double{1} * acoustic + weight) * kScoreStep;
      const auto* const name = ps_seg_word(part);
      const auto word = name == nullptr ? word_of_.end() : word_of_.find(name);
      if (word == word_of_.end()) continue;
      found.words.push_back({.word = word->second,
                             .begin = std::min(first * kFrame + kFrameMiddle, length),
                             .end = std::min((last + 1) * kFrame + kFrameMiddle, length),
                             .score = acoustic * kScoreStep});
    }
    return found;
  }

  SphinxConfig config_;
  SphinxDecoder decoder_;
  std::unique_ptr<SphinxScorer> scorer_;  // null: the decoder scores a model of another kind itself
  std::unique_ptr<SoundScores> scores_;   // of the sound listened to last: mostly the next is the same
  // By pronunciation; graphs in the making point at the names.
  std::unordered_map<std::string, std::deque<std::string>> dictionary_;
  std::unordered_map<std::string, std::uint32_t> word_of_;  // of the graph now listened for
  std::size_t words_ = 0;
};

}  // namespace

Result<std::unique_ptr<Recogniser>> open_recogniser(const std::filesystem::path& model) {
  const auto sounds = model / "en-us";
  std::error_code error;
  if (!std::filesystem::is_regular_file(sounds / "mdef", error))
    return fail(ErrorCode::NotFound, "the model of how English sounds is not there: " + sounds.string(),
                std::nullopt, "install Debian's package pocketsphinx-en-us");
  silence_the_log();
  // compallsen: scores of two graphs compare. remove_silence moves all times. lw 1: weights are what they
  // say.
  SphinxConfig config(cmd_ln_init(nullptr, ps_args(), TRUE, "-hmm", sounds.c_str(), "-compallsen", "yes",
                                  "-remove_silence", "no", "-bestpath", "no", "-lw", "1.0", "-wip", "1.0",
                                  "-fsgusefiller", "no", static_cast<const char*>(nullptr)));
  if (config == nullptr) return fail(ErrorCode::Internal, "the recogniser does not know its own options");
  SphinxDecoder decoder(ps_init(config.get()));
  if (decoder == nullptr)
    return fail(ErrorCode::Malformed, "the model of how English sounds cannot be read: " + sounds.string(),
                std::nullopt, "install Debian's package pocketsphinx-en-us again");
  std::unique_ptr<SphinxScorer> scorer;
  if (auto mixtures =
          read_mixtures(sounds, ps_get_logmath(decoder.get()), cmd_ln_float_r(config.get(), "-varfloor"))) {
    scorer = std::make_unique<SphinxScorer>(*std::move(mixtures), ps_get_logmath(decoder.get()));
    if (!scorer->takes(ps_get_feat(decoder.get()))) scorer.reset();
  }
  return std::make_unique<SphinxRecogniser>(std::move(config), std::move(decoder), std::move(scorer));
}

}  // namespace panslate
