#include "panslate/speech/listen_again.h"

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace panslate {

namespace {

// The pieces of a line one after another, and which piece each word of the graph belongs to.
struct LineGraph {
  WordGraph graph;
  std::vector<std::size_t> piece_of;  // by word
};

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
  if (getenv("PAUSE")) graph.pause = atof(getenv("PAUSE"));
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
    auto& piece = heard.pieces[made.piece_of[word.word]];
    if (piece.words.empty()) piece.begin = word.begin;
    piece.words.push_back(made.graph.words[word.word].label);
    piece.end = word.end;
    piece.score += word.score;
  }
  return heard;
}

Result<HeardAgain> listen_again(Recogniser& recogniser, PronouncingDictionary& dictionary,
                                std::span<const std::int16_t> samples, std::span<const Sayings> line,
                                std::size_t place, const Sayings& otherwise, Beam beam) {
  HeardAgain again;
  PANSLATE_TRY(again.script, hear_line(recogniser, dictionary, samples, line, beam));
  std::vector<Sayings> other(line.begin(), line.end());
  other.at(place) = otherwise;
  PANSLATE_TRY(again.otherwise, hear_line(recogniser, dictionary, samples, other, beam));
  again.ratio = again.script.score - again.otherwise.score;
  return again;
}

}  // namespace panslate
