#include "speech/script_graph.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <string_view>

namespace panslate {

namespace {

constexpr std::array<std::string_view, 39> kSpokenPhones{
    "AA", "AE", "AH", "AO", "AW", "AY", "B",  "CH", "D", "DH", "EH", "ER", "EY",
    "F",  "G",  "HH", "IH", "IY", "JH", "K",  "L",  "M", "N",  "NG", "OW", "OY",
    "P",  "R",  "S",  "SH", "T",  "TH", "UH", "UW", "V", "W",  "Y",  "Z",  "ZH"};

constexpr std::size_t kMostReadings = 32;
constexpr std::size_t kLongestReading = 24;  // words
// A longer line is entered at several places: people go on in the middle of a paragraph.
constexpr std::size_t kLongestPart = 16;

class GraphBuilder {
 public:
  explicit GraphBuilder(PronouncingDictionary& dictionary) : dictionary_(dictionary) {}

  std::uint32_t node() { return made_.graph.nodes++; }

  void null(std::uint32_t from, std::uint32_t to, double weight) {
    if (from != to) made_.graph.arcs.push_back({from, to, weight, std::nullopt});
  }

  // The ways to say a word of the script; false when none is known.
  bool say(std::uint32_t from, std::uint32_t to, const ScriptWord& word, ScriptPlace place, double weight) {
    Rests rests;
    for (std::size_t r = 0; r < std::min(word.readings.size(), kMostReadings); ++r) {
      const auto& reading = word.readings[r];
      if (!reading.empty() && reading.size() <= kLongestReading &&
          std::all_of(reading.begin(), reading.end(),
                      [this](const auto& spoken) { return !dictionary_.ways(spoken).empty(); }))
        rests.insert(reading);
    }
    std::map<Rests, std::uint32_t> known;
    say_rests(from, to, rests, place, weight, known);
    return !rests.empty();
  }

  // Whatever is said in the place of an amount; also nothing.
  void slip(std::uint32_t from, std::uint32_t to, const ScriptWord& word, ScriptPlace place,
            const JumpWeights& weights, double enter = 1.0) {
    if (!word.slips || weights.slip <= 0.0) return;
    const auto loop = node();
    null(from, loop, weights.slip * enter);
    for (const auto& other : *word.slips)
      for (const auto& way : dictionary_.ways(other)) add(loop, loop, other, way, place, weights.slip_word);
    for (const auto phone : kSpokenPhones) add(loop, loop, {}, std::string(phone), place, weights.slip_phone);
    null(loop, to, 1.0);
  }

  void other_speech(std::uint32_t at, std::uint32_t to, double weight) {
    for (const auto phone : kSpokenPhones) add(at, to, {}, std::string(phone), std::nullopt, weight);
  }

  ScriptGraph finish(std::uint32_t start, std::uint32_t final) {
    made_.graph.start = start;
    made_.graph.final = final;
    return std::move(made_);
  }

 private:
  // What is still to be said of readings. Where that is the same they go on together: the decoder takes its
  // time for every node of a graph in every frame.
  using Rests = std::set<std::vector<std::string>>;

  void say_rests(std::uint32_t from, std::uint32_t to, const Rests& rests, ScriptPlace place, double weight,
                 std::map<Rests, std::uint32_t>& known) {
    std::map<std::string, Rests> next;
    for (const auto& rest : rests) next[rest.front()].emplace(rest.begin() + 1, rest.end());
    for (auto& [spoken, after] : next) {
      const bool ends = after.erase(std::vector<std::string>{}) > 0;
      if (ends) say_word(from, to, spoken, place, weight);
      if (after.empty()) continue;
      const auto [at, is_new] = known.try_emplace(after, 0);
      if (is_new) at->second = node();
      say_word(from, at->second, spoken, place, weight);
      if (is_new) say_rests(at->second, to, after, place, 1.0, known);
    }
  }

  void say_word(std::uint32_t from, std::uint32_t to, const std::string& spoken, ScriptPlace place,
                double weight) {
    for (const auto& way : dictionary_.ways(spoken)) add(from, to, spoken, way, place, weight);
  }

  void add(std::uint32_t from, std::uint32_t to, const std::string& label, const std::string& phones,
           std::optional<ScriptPlace> place, double weight) {
    const auto word = static_cast<std::uint32_t>(made_.graph.words.size());
    made_.graph.words.push_back({label, phones});
    made_.places.push_back(place);
    made_.graph.arcs.push_back({from, to, weight, word});
  }

  PronouncingDictionary& dictionary_;
  ScriptGraph made_;
};

}  // namespace

double other_weight(double usual) {
  return std::pow(10.0, -std::clamp((-3.1 - usual) * 8.7, 7.0, 30.0));
}

JumpWeights with_slips(JumpWeights weights, double usual) {
  weights.slip = 1e-4;
  weights.slip_word = std::pow(10.0, -std::clamp((-3.4 - usual) * 1.0 + 2.0, 2.0, 6.0));
  weights.slip_phone = std::pow(10.0, -std::clamp((-3.5 - usual) * 3.5, 3.0, 15.0));
  return weights;
}

std::vector<LinePart> parts_of(std::span<const ScriptLine> script) {
  std::vector<LinePart> parts;
  for (std::size_t line = 0; line < script.size(); ++line) {
    const auto words = script[line].words.size();
    const auto count = (words + kLongestPart - 1) / kLongestPart;
    for (std::size_t i = 0; i < count; ++i)
      parts.push_back({line, words * i / count, words * (i + 1) / count});
  }
  return parts;
}

ScriptGraph any_order(std::span<const ScriptLine> script, std::span<const LinePart> parts,
                      std::size_t near_first, std::size_t near_last, PronouncingDictionary& dictionary,
                      const JumpWeights& weights) {
  GraphBuilder graph(dictionary);
  // Between lines: silence and other speech. Each line ends where the next one begins, and from there one may
  // come here; only words lead away, since a chain of free arcs to every line would be taken at every phone.
  const auto between = graph.node();
  // Phones end at a node of their own: the decoder goes through all arcs of a node where something ends.
  const auto phone_over = graph.node();
  graph.other_speech(between, phone_over, weights.other);
  graph.null(phone_over, between, 1.0);
  auto at = graph.node();
  for (std::size_t p = 0; p < parts.size(); ++p) {
    const auto& part = parts[p];
    const auto& words = script[part.line].words;
    const bool near = near_first <= p && p < near_last;
    bool entered = false;
    for (auto w = part.first; w < part.last; ++w) {
      const auto next = graph.node();
      const ScriptPlace place{part.line, w};
      if (!graph.say(at, next, words[w], place, 1.0)) continue;  // the node stays unused
      graph.slip(at, next, words[w], place, weights);
      if (!entered) {
        const auto enter = near ? weights.enter : weights.enter_far;
        graph.say(between, next, words[w], place, enter);
        graph.slip(between, next, words[w], place, weights, enter);
      }
      entered = true;
      at = next;
      graph.null(at, between, w + 1 == part.last ? weights.leave : weights.break_off);
    }
  }
  // Never reached: the best path is wanted wherever it stands when the sound ends.
  const auto nowhere = graph.node();
  return graph.finish(between, nowhere);
}

ScriptGraph in_order(const ScriptLine& line, const LinePart& part, PronouncingDictionary& dictionary,
                     const JumpWeights& weights) {
  GraphBuilder graph(dictionary);
  const auto before = graph.node();
  graph.other_speech(before, before, weights.other);
  auto at = before;
  for (auto w = part.first; w < part.last; ++w) {
    const auto next = graph.node();
    if (!graph.say(at, next, line.words[w], {part.line, w}, 1.0)) continue;
    graph.slip(at, next, line.words[w], {part.line, w}, weights);
    at = next;
  }
  const auto after = graph.node();
  graph.other_speech(after, after, weights.other);
  graph.null(at, after, 1.0);
  return graph.finish(before, after);
}

}  // namespace panslate
