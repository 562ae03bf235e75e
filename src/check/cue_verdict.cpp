#include "check/cue_verdict.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "panslate/base/timestamp.h"
#include "panslate/kitchen/food.h"

#include "check/filler_words.h"
#include "check/phrase.h"

namespace panslate {

namespace {

using Words = std::string_view;

template <class List>
bool is_in(const List& list, std::string_view word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

/// What must be heard of a cue.
struct CueWords {
  /// Stems, by clause ("risen", "golden"): half of one clause are enough.
  std::vector<std::vector<std::string>> clauses = {{}};
  bool denied = false;     ///< "no dry flour is left"
  bool likened = false;    ///< "the size of peas"
  bool oil_parts = false;  ///< "the oil floats", "the oil separates": one thing in many words
};

// Stems that say that something comes to be so, or what it is that comes to be so, and not how it is then.
constexpr std::array<Words, 48> kSaysNothing{
    "longer", "form",  "rise",   "show",    "remain",     "look",   "turn",    "becom", "come",   "feel",
    "start",  "begin", "begun",  "get",     "just",       "light",  "complet", "goe",   "seem",   "appear",
    "sound",  "left",  "size",   "piec",    "mixtur",     "veget",  "top",     "edg",   "outsid", "insid",
    "middl",  "centr", "center", "surfac",  "underneath", "bottom", "tap",     "press", "touch",  "well",
    "insert", "mark",  "dish",   "content", "everyth",    "onto",   "remov",   "sever"};

// "until it looks like breadcrumbs", "until the pieces are the size of peas": what it is likened to, from
// `at` on.
std::vector<std::string> likeness_at(const std::vector<std::string>& words, std::size_t at) {
  const bool of = words[at] == "of" && at > 0 && (words[at - 1] == "size" || words[at - 1] == "consistency");
  std::vector<std::string> likeness;
  if (words[at] != "like" && stem(words[at]) != "resembl" && !of) return likeness;
  for (auto k = at + 1; k < words.size() && words[k] != "and" && words[k] != "when"; ++k)
    if (!is_filler(words[k])) likeness.push_back(stem(words[k]));
  return likeness;
}

CueWords words_of_cue(const std::string& cue) {
  std::vector<std::string> words;
  for (const auto& token : tokenize(cue))
    if (token.kind == TokenKind::Word || token.text == ",") words.push_back(token.text);
  CueWords wanted;
  std::vector<std::string> foods;
  bool oil = false;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto& word = words[i];
    if (auto likeness = likeness_at(words, i); !likeness.empty()) {
      wanted.clauses = {std::move(likeness)};
      wanted.likened = true;
      return wanted;
    }
    const bool some = !wanted.clauses.front().empty();
    // "when tapped", "on a cold saucer": how it is tried.
    if ((word == "when" || word == "on") && some) break;
    if (word == "no") {
      wanted.denied = true;
      wanted.clauses = {{}};
      continue;
    }
    if ((word == "and" || word == ",") && !wanted.clauses.back().empty()) wanted.clauses.emplace_back();
    const auto stemmed = stem(word);
    oil = oil || word == "oil" || word == "ghee" || word == "fat";
    constexpr std::array<Words, 5> kParting{"float", "separ", "releas", "leav", "surfac"};
    wanted.oil_parts = wanted.oil_parts || (oil && is_in(kParting, stemmed));
    if (word == "," || (is_filler(word) && word != "together") || is_in(kSaysNothing, stemmed)) continue;
    (is_food_word(word) ? foods : wanted.clauses.back()).push_back(stemmed);
  }
  // "until no dry flour is left"; where nothing else is told, the food is the cue.
  auto& first = wanted.clauses.front();
  if (wanted.denied || first.empty()) first.insert(first.end(), foods.begin(), foods.end());
  if (first.empty())
    for (const auto& word : words)
      if (word != "," && !is_filler(word)) first.push_back(stem(word));
  return wanted;
}

// What a cake is pricked with.
bool is_tester(std::string_view stemmed) {
  constexpr std::array<Words, 7> kTesters{"skewer", "needl", "toothpick", "tester", "stick", "knife", "pick"};
  return is_in(kTesters, stemmed);
}

// "softened" for soft, "crispy" for crisp; "tender" is soft.
bool tells(const std::string& heard, const std::string& wanted) {
  if (heard == wanted || (is_tester(heard) && is_tester(wanted))) return true;
  constexpr std::array<std::pair<Words, Words>, 14> kSame{{{"crunchi", "crisp"},
                                                           {"leav", "separ"},
                                                           {"bare", "pale"},
                                                           {"tender", "soft"},
                                                           {"doubl", "twice"},
                                                           {"melt", "molten"},
                                                           {"melt", "dissolv"},
                                                           {"brown", "golden"},
                                                           {"smell", "fragrant"},
                                                           {"transluc", "glassi"},
                                                           {"transpar", "transluc"},
                                                           {"togeth", "combin"},
                                                           {"puf", "risen"},
                                                           {"fallen", "collaps"}}};
  if (std::any_of(kSame.begin(), kSame.end(), [&](const auto& pair) {
        return (heard == pair.first && wanted == pair.second) ||
               (heard == pair.second && wanted == pair.first);
      }))
    return true;
  constexpr std::size_t kShortest = 4;
  constexpr std::size_t kLongestEnding = 3;
  // "gets darker" for darkens.
  const auto same = static_cast<std::size_t>(
      std::mismatch(heard.begin(), heard.end(), wanted.begin(), wanted.end()).first - heard.begin());
  const auto is_ending = [](std::string_view end) {
    return end.empty() || end == "en" || end == "er" || end == "y";
  };
  if (same >= kShortest && is_ending(std::string_view(heard).substr(same)) &&
      is_ending(std::string_view(wanted).substr(same)))
    return true;
  const auto& shorter = heard.size() < wanted.size() ? heard : wanted;
  const auto& longer = heard.size() < wanted.size() ? wanted : heard;
  return shorter.size() >= kShortest && longer.size() - shorter.size() <= kLongestEnding &&
         longer.starts_with(shorter);
}

// "It comes together", "it sticks": what holds together; mixing together is no cue.
bool holds_together(const SpokenText& text, std::size_t at) {
  constexpr std::array<Words, 8> kHolding{"come",  "hold", "stick", "clump",
                                          "bring", "came", "stay",  "gather"};
  constexpr std::size_t kFew = 4;
  for (std::size_t back = 1; back <= kFew && back <= at; ++back)
    if (is_in(kHolding, stem(text[at - back].text))) return true;
  return false;
}

// "there's no flour hiding on you", "you can't see any flour".
constexpr std::array<Words, 9> kDenying{"no",   "any",     "not",   "none", "can't",
                                        "gone", "without", "don't", "more"};
// "pieces about like peas", "no bigger than a pea", "till you've got breadcrumbs", "pea-sized".
constexpr std::array<Words, 12> kLikening{"like", "of",  "than", "as",     "into", "resemble",
                                          "got",  "get", "to",   "pieces", "be",   "lumps"};

template <class List>
bool stands_before(const SpokenText& text, std::size_t at, const List& words) {
  constexpr std::size_t kFew = 4;
  for (std::size_t back = 1; back <= kFew && back <= at; ++back)
    if (is_in(words, text[at - back].text)) return true;
  return false;
}

bool is_likened(const SpokenText& text, std::size_t at) {
  const auto after = at + 1 < text.size() && text[at + 1].kind == TokenKind::Mark ? at + 2 : at + 1;
  return stands_before(text, at, kLikening) || text.is_word(after, "sized") || text.is_word(after, "size");
}

// Does the word at a token, or it and the next as one ("bread crumbs"), tell what is wanted?
bool is_told_at(const SpokenText& text, std::size_t at, const std::string& wanted, const CueWords& cue) {
  if (text[at].kind != TokenKind::Word) return false;
  const auto heard = stem(text[at].text);
  const bool told = tells(heard, wanted) || (at + 1 < text.size() && text[at + 1].kind == TokenKind::Word &&
                                             stem(text[at].text + text[at + 1].text) == wanted);
  if (!told) return false;
  // "a transparent bowl"
  if (heard == "transpar" && at + 1 < text.size() &&
      (text.is_word(at + 1, "bowl") || text.is_word(at + 1, "dish") || text.is_word(at + 1, "lid")))
    return false;
  if (wanted == "togeth" || heard == "togeth") return holds_together(text, at);
  return (!cue.denied || stands_before(text, at, kDenying)) && (!cue.likened || is_likened(text, at));
}

// "the oil comes up to the top", "you see the oil leaving from the sides"
bool tells_oil_parts(const SpokenText& text, TokenSpan span) {
  constexpr std::array<Words, 6> kParting{"separ", "leav", "float", "releas", "rise", "split"};
  // Where it moves to, after a verb of moving: "take the paste out" is none of the oil's.
  constexpr std::array<Words, 5> kMoving{"come", "go", "sit", "ooz", "seep"};
  constexpr std::array<Words, 2> kUp{"top", "surfac"};
  constexpr std::size_t kNear = 7;
  for (auto i = span.begin; i < span.end; ++i) {
    if (!text.is_word(i, "oil") && !text.is_word(i, "ghee") && !text.is_word(i, "fat")) continue;
    std::size_t moves = 0;  // where the verb stands; 0: none yet
    // "to the sides", "from the side"; "on the side, out of the way" is where the bottle stands.
    const auto parts_at = [&](std::size_t k, const std::string& word) {
      if (is_in(kUp, word)) return true;
      if (text.is_word(k, "out")) return k == moves + 1 && !text.is_word(k + 1, "of");
      return text.is_word(k, "sides") || text.is_word(k, "edges") ||
             ((word == "side" || word == "edg") && k >= 2 && text.is_word(k - 2, "from"));
    };
    for (auto k = i + 1; k < text.size() && k <= i + kNear && text.sentence(k) == text.sentence(i); ++k) {
      const auto word = stem(text[k].text);
      if (is_in(kParting, word) || (moves > 0 && parts_at(k, word))) return true;
      if (is_in(kMoving, word)) moves = k;
    }
  }
  return false;
}

// How far egg white or cream is whipped: soft and stiff peaks are two things.
int degree_of_peaks(std::string_view stemmed) {
  if (stemmed == "soft" || stemmed == "floppi") return 1;
  if (stemmed == "medium") return 2;
  return stemmed == "firm" || stemmed == "stiff" ? 3 : 0;
}

// "to stiff peaks" where the clause asks for soft ones, or peaks of no degree.
bool are_other_peaks(const SpokenText& text, TokenSpan span, const std::vector<std::string>& clause) {
  if (std::find(clause.begin(), clause.end(), "peak") == clause.end()) return false;
  int wanted = 0;
  for (const auto& word : clause) wanted = std::max(wanted, degree_of_peaks(word));
  if (wanted == 0) return false;
  constexpr std::size_t kBefore = 4;
  for (auto i = span.begin; i < span.end; ++i) {
    if (stem(text[i].text) != "peak") continue;
    for (auto k = i > kBefore ? i - kBefore : 0; k < i; ++k)
      if (degree_of_peaks(stem(text[k].text)) == wanted) return false;
  }
  return true;
}

bool is_told_in(const SpokenText& text, TokenSpan span, const CueWords& cue) {
  if (cue.oil_parts && tells_oil_parts(text, span)) return true;
  return std::any_of(cue.clauses.begin(), cue.clauses.end(), [&](const auto& clause) {
    const auto heard =
        static_cast<std::size_t>(std::count_if(clause.begin(), clause.end(), [&](const auto& word) {
          for (auto i = span.begin; i < span.end; ++i)
            if (is_told_at(text, i, word, cue)) return true;
          return false;
        }));
    return heard > 0 && heard * 2 >= clause.size() && !are_other_peaks(text, span, clause);
  });
}

}  // namespace

Mention beginning_of(const SpokenText& text, TokenSpan span) {
  constexpr std::size_t kMost = 20;
  span.end = std::min(span.end, span.begin + kMost);
  return text.mention(span);
}

void judge_cue(const Talk& talk, const Whereabouts& where, const Requirement& requirement,
               ChannelFinding& channel, std::string& why) {
  constexpr std::size_t kBeyond = 8;  // tokens of the next stretch that still belong to it
  channel.verdict = Verdict::Missing;
  why = "not said";
  const auto cue = words_of_cue(requirement.text);
  const auto& text = talk.text;
  for (const auto& span : text.utterances()) {
    const auto step = where.step_at(span.begin);
    const bool near = step && (*step == requirement.index || *step == requirement.index + 1 ||
                               *step + 1 == requirement.index);
    if (!near) continue;
    if (!is_told_in(text, {span.begin, std::min(text.size(), span.end + kBeyond)}, cue)) continue;
    channel.verdict = Verdict::Match;
    channel.mentions.push_back(beginning_of(text, span));
    why = "said at " + format_timestamp(channel.mentions.front().when.begin, TimestampStyle::Spoken);
    return;
  }
}

}  // namespace panslate
