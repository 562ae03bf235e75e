#include "panslate/speech/listen_again.h"

#include <algorithm>
#include <utility>

#include "speech/sound_level.h"

namespace panslate {

namespace {

// Silence fits any sound a little: where it comes too easily it stands for words that were not thought of.
constexpr double kPause = 1e-8;
constexpr std::int64_t kFrame = kSpeechRate / 100;
// A phone lasts some 8 frames, twice that at the end of a phrase (common practice, no source).
constexpr double kLongestPhone = 16;
constexpr double kMostStretch = 2.2;
constexpr std::int64_t kMostSpeechInSilence = 6;  // frames
constexpr int kMostPassedOver = 4;

// The pieces of a line one after another, and which piece each word of the graph belongs to.
struct LineGraph {
  WordGraph graph;
  std::vector<std::size_t> piece_of;  // by word
};

std::int64_t frames_in(const SaidWord& word) {
  return (word.end - word.begin) / kFrame;
}

// What is known of a line from hearing its script: how long phones last in it and how well they fit.
struct Pace {
  double frames_a_phone = 0;
  double misfit = 0;
};

Pace pace_around(const HeardLine& line, std::size_t place) {
  double frames = 0;
  double phones = 0;
  double score = 0;
  for (std::size_t piece = 0; piece < line.pieces.size(); ++piece)
    for (const auto& word : line.pieces[piece].words)
      if (piece != place) {
        frames += static_cast<double>(frames_in(word));
        phones += static_cast<double>(word.phones);
        score += word.score;
      }
  if (frames <= 0 || phones <= 0) return {};
  return {frames / phones, -score / frames};
}

// Frames of speech before each word of a piece, and after the last, that are no word's.
std::vector<std::int64_t> speech_in_silence(const HeardLine& line, std::size_t place,
                                            const SoundLevel& level) {
  std::int64_t before = 0;
  auto after = static_cast<std::int64_t>(level.steps().size()) * kFrame;
  for (std::size_t piece = 0; piece < line.pieces.size(); ++piece) {
    const auto& words = line.pieces[piece].words;
    if (words.empty() || piece == place) continue;
    if (piece < place) before = words.back().end;
    if (piece > place) {
      after = words.front().begin;
      break;
    }
  }
  const auto loud = level.floor() + (level.speech() - level.floor()) / 2;
  const auto count = [&](std::int64_t begin, std::int64_t end) {
    std::int64_t found = 0;
    for (auto step = begin / kFrame; step < end / kFrame && step < std::ssize(level.steps()); ++step)
      if (level.steps()[static_cast<std::size_t>(step)] > loud) ++found;
    return found;
  };
  std::vector<std::int64_t> gaps;
  for (const auto& word : line.pieces[place].words) {
    gaps.push_back(count(before, word.begin));
    before = word.end;
  }
  gaps.push_back(count(before, after));
  return gaps;
}

// The word of a piece that the sound cannot hold, if there is one.
const SaidWord* implausible_word(const HeardLine& line, std::size_t place, const SoundLevel& level,
                                 const Pace& pace, std::int64_t granted) {
  const auto& words = line.pieces[place].words;
  const double longest = std::max(kLongestPhone, kMostStretch * pace.frames_a_phone);
  for (const auto& word : words)
    if (static_cast<double>(frames_in(word)) > longest * static_cast<double>(word.phones)) return &word;
  if (words.empty()) return nullptr;
  const auto gaps = speech_in_silence(line, place, level);
  const auto largest = std::max_element(gaps.begin(), gaps.end());
  if (*largest <= granted + kMostSpeechInSilence) return nullptr;
  const auto gap = static_cast<std::size_t>(largest - gaps.begin());
  return gap == 0 ? &words.front() : &words[gap - 1];
}

Result<LineGraph> graph_of(PronouncingDictionary& dictionary, std::span<const Sayings> line) {
  LineGraph made;
  auto& graph = made.graph;
  graph.nodes = 1;
  std::uint32_t begin = 0;
  for (std::size_t piece = 0; piece < line.size(); ++piece) {
    const auto& sayings = line[piece];
    // The piece's node 0 is where the one before ended; its others follow.
    const auto node = [&](std::uint32_t at) { return at == Sayings::kStart ? begin : graph.nodes + at - 1; };
    for (const auto& arc : sayings.arcs()) {
      if (arc.word.empty()) {
        graph.arcs.push_back({node(arc.from), node(arc.to), arc.weight, std::nullopt});
        continue;
      }
      const auto& ways = dictionary.ways(arc.word);
      if (ways.empty())
        return fail(ErrorCode::Malformed, "it is not known how '" + arc.word + "' sounds", std::nullopt,
                    "write how it sounds into your list of words");
      for (const auto& way : ways) {
        graph.arcs.push_back(
            {node(arc.from), node(arc.to), arc.weight, static_cast<std::uint32_t>(graph.words.size())});
        graph.words.push_back({arc.word, way});
        made.piece_of.push_back(piece);
      }
    }
    begin = node(Sayings::kEnd);
    graph.nodes += sayings.nodes() - 1;
  }
  graph.final = begin;
  graph.pause = kPause;
  return made;
}

}  // namespace

void Sayings::add_arc(std::uint32_t from, std::uint32_t to, std::string word, double weight) {
  arcs_.push_back({from, to, std::move(word), weight});
}

void Sayings::add_phrase(std::uint32_t from, std::uint32_t to, std::span<const std::string> words,
                         double weight) {
  if (words.empty()) {
    add_arc(from, to, {}, weight);
    return;
  }
  const auto goal = to;
  auto at = from;
  for (const auto& word : words.first(words.size() - 1)) {
    const auto known = std::find_if(branches_.begin(), branches_.end(), [&](const Branch& branch) {
      return branch.from == at && branch.goal == goal && branch.weight == weight && branch.word == word;
    });
    if (known != branches_.end()) {
      at = known->to;
      continue;
    }
    const auto next = add_node();
    branches_.push_back({at, next, goal, word, weight});
    // The weight stands on the first word of the phrase.
    add_arc(at, next, word, at == from ? weight : 1.0);
    at = next;
  }
  add_arc(at, to, words.back(), at == from ? weight : 1.0);
}

void Sayings::leave_out(std::string_view word) {
  std::erase_if(arcs_, [&](const SayingArc& arc) { return arc.word == word; });
  branches_.clear();
}

std::string text_of(const HeardPiece& piece) {
  std::string text;
  for (const auto& word : piece.words) text += (text.empty() ? "" : " ") + word.word;
  return text;
}

Sayings sayings_of(std::span<const std::vector<std::string>> phrases) {
  Sayings sayings;
  for (const auto& phrase : phrases) sayings.add_phrase(Sayings::kStart, Sayings::kEnd, phrase);
  return sayings;
}

Result<HeardLine> hear_line(Recogniser& recogniser, PronouncingDictionary& dictionary,
                            std::span<const std::int16_t> samples, std::span<const Sayings> line, Beam beam) {
  PANSLATE_TRY(const auto made, graph_of(dictionary, line));
  PANSLATE_TRY(const auto recognition, recogniser.recognise(samples, made.graph, beam));
  HeardLine heard;
  heard.pieces.resize(line.size());
  heard.complete = recognition.complete;
  heard.score = recognition.weighted;
  for (const auto& word : recognition.words) {
    const auto& phones = made.graph.words[word.word].pronunciation;
    const auto count = 1 + static_cast<std::size_t>(std::count(phones.begin(), phones.end(), ' '));
    heard.pieces[made.piece_of[word.word]].words.push_back(
        {made.graph.words[word.word].label, word.begin, word.end, count, word.score});
  }
  return heard;
}

Result<HeardAgain> listen_again(Recogniser& recogniser, PronouncingDictionary& dictionary,
                                std::span<const std::int16_t> samples, std::span<const Sayings> line,
                                std::size_t place, const Sayings& otherwise, const HeardLine& script,
                                Beam beam) {
  HeardAgain again;
  again.script = script;
  const auto pace = pace_around(script, place);
  again.misfit = pace.misfit;
  const SoundLevel level(samples);
  const auto silent = speech_in_silence(script, place, level);
  const auto granted = *std::max_element(silent.begin(), silent.end());
  std::vector<Sayings> other(line.begin(), line.end());
  other.at(place) = otherwise;
  for (int passed_over = 0; passed_over <= kMostPassedOver; ++passed_over) {
    PANSLATE_TRY(again.otherwise, hear_line(recogniser, dictionary, samples, other, beam));
    const auto* const word = implausible_word(again.otherwise, place, level, pace, granted);
    again.plausible = word == nullptr;
    again.least_ratio = std::min(again.least_ratio, again.script.score - again.otherwise.score);
    if (again.plausible) break;
    other[place].leave_out(word->word);
  }
  again.ratio = again.script.score - again.otherwise.score;
  return again;
}

}  // namespace panslate
