#include "recipe/cues.h"

#include <algorithm>
#include <optional>
#include <unordered_set>

#include "panslate/kitchen/amount_scan.h"

#include "recipe/actions.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// How food looks, feels and smells when it is done: common practice, no source.
bool tells_state(std::string_view word) {
  static const std::unordered_set<std::string_view> words = {
      "golden",      "brown",      "browned",      "soft",        "softened",   "tender",      "smooth",
      "thick",       "thickened",  "crisp",        "crispy",      "firm",       "set",         "cooked",
      "clean",       "clear",      "translucent",  "bubbling",    "melted",     "dissolved",   "fragrant",
      "aromatic",    "glossy",     "shiny",        "fluffy",      "pale",       "dark",        "doubled",
      "elastic",     "stiff",      "opaque",       "pink",        "hot",        "warm",        "cool",
      "cold",        "dry",        "sticky",       "silky",       "creamy",     "charred",     "caramelised",
      "caramelized", "wilted",     "risen",        "puffed",      "springy",    "flaky",       "juicy",
      "hollow",      "combined",   "incorporated", "absorbed",    "evaporated", "reduced",     "toasted",
      "coated",      "crumbly",    "wobbly",       "jammy",       "blistered",  "syrupy",      "foamy",
      "frothy",      "al",         "done",         "cooled",      "chilled",    "crunchy",     "steaming",
      "smoking",     "shimmering", "boiling",      "simmering",   "light",      "breadcrumbs", "peaks",
      "mushy",       "sizzling",   "grainy",       "velvety",     "tacky",      "crusty",      "floppy",
      "squashy",     "runny",      "lukewarm",     "homogeneous", "uniform"};
  return words.find(word) != words.end();
}

class CueReader {
 public:
  CueReader(const std::vector<Token>& tokens, std::string_view text, std::vector<std::string>& cues)
      : tokens_(tokens), text_(text), cues_(cues) {}

  void read() {
    for (std::size_t at = 0; at < tokens_.size();) {
      const auto end = one(at);
      at = std::max(end, at + 1);
    }
  }

 private:
  std::string_view word(std::size_t at) const {
    return at < tokens_.size() ? std::string_view(tokens_[at].text) : std::string_view{};
  }

  std::size_t one(std::size_t at) {
    const auto here = word(at);
    if (is_one_of(here, {"until", "till", "til"})) return until(at);
    if (here == "should" && is_one_of(word(at + 1), {"be", "look", "feel", "have", "come", "smell", "sound",
                                                     "taste", "hold", "wobble", "still"}))
      return state_within(at) ? plain(at, 1) : at + 1;
    // "should reach 75C" is a temperature, and asked for as one.
    const bool of_thermometer = is_one_of(word(at + 1), {"reach", "register", "read", "measure"});
    if (here == "should" && !of_thermometer && is_sign(at + 1)) return plain(at, 1);
    // "whisk the whites to soft peaks"
    if (here == "to" && is_one_of(word(at + 1), {"soft", "firm", "stiff", "medium", "floppy", "glossy"}) &&
        is_one_of(word(at + 2), {"peak", "peaks"})) {
      const auto begin = tokens_[at].begin;
      cues_.emplace_back(text_.substr(begin, tokens_[at + 2].end - begin));
      return at + 3;
    }
    if (is_one_of(here, {"once", "when"}) && (state_soon(at) || sign_soon(at))) return plain(at, 1);
    return at;
  }

  bool state_within(std::size_t at) const {
    constexpr std::size_t kNear = 8;
    for (auto i = at + 1; i < tokens_.size() && i < at + kNear && word(i) != "."; ++i)
      if (tells_state(word(i)) && !describes_next(i)) return true;
    return false;
  }

  // "a clear distinction", "a light meal": no state of the food.
  bool describes_next(std::size_t at) const {
    return is_one_of(word(at), {"clear", "light", "cold", "warm", "hot", "dry", "set"}) &&
           at + 1 < tokens_.size() && tokens_[at + 1].kind == TokenKind::Word &&
           !is_one_of(word(at + 1), {"and", "but", "or", "in", "with", "on", "to", "when", "all", "golden",
                                     "brown", "at", "enough", "after", "through", "around"});
  }

  // What food does when it is done: "it springs back", "no longer sticks", "coats the spoon".
  bool is_sign(std::size_t at) const {
    if (word(at) == "no") return word(at + 1) == "longer";
    return is_one_of(
        word(at),
        {"spring", "springs", "hold",     "holds",     "coat",     "coats",  "pull",   "pulls",   "float",
         "floats", "sizzle",  "sizzles",  "bubble",    "bubbles",  "slide",  "slides", "run",     "runs",
         "reach",  "reaches", "register", "registers", "sound",    "sounds", "wobble", "wobbles", "leave",
         "leaves", "flake",   "flakes",   "thicken",   "thickens", "puff",   "puffs",  "bounce",  "bounces"});
  }

  // "when it springs back", "once the edges pull away".
  bool sign_soon(std::size_t at) const {
    if (!is_one_of(word(at + 1), {"it", "they", "the"})) return false;
    const auto last = word(at + 1) == "the" ? at + 4 : at + 2;
    for (auto i = at + 2; i <= last && i < tokens_.size(); ++i) {
      if (tokens_[i].kind == TokenKind::Mark) return false;
      if (is_sign(i)) return true;
    }
    return false;
  }

  // "when golden", "once it is soft": a state within a few words, before a comma.
  bool state_soon(std::size_t at) const {
    for (auto i = at + 1; i < tokens_.size() && i < at + 7; ++i) {
      if (tokens_[i].kind == TokenKind::Mark) return false;
      if (tells_state(word(i)) &&
          is_one_of(word(at + 1), {"golden", "brown", "browned", "soft", "tender", "it", "they", "the", "a",
                                   "cooked", "crisp", "thick", "bubbling", "set"}))
        return !is_one_of(word(i), {"hot", "cool", "cold", "cooled", "dry", "chilled", "melted", "combined"});
    }
    return false;
  }

  std::size_t until(std::size_t at) {
    const auto next = word(at + 1);
    if (next.empty() || is_one_of(next, {"needed", "required", "then", "next", "use", "serving", "ready",
                                         "later", "now", "using"})) {
      const bool done = next == "ready" && !is_one_of(word(at + 2), {"to", "for"});
      if (!done) return at + 1;
    }
    if (is_one_of(next, {"you", "you're", "you've"}) &&
        (is_one_of(word(at + 2), {"are", "need", "want", "ready", "use"}) || order_at(at + 2)))
      return at + 1;
    if (scan_amount(tokens_, at + 1, SpokenOrWritten::Written) && is_time(at + 1)) return at + 1;
    return plain(at, 1);
  }

  bool is_time(std::size_t at) const {
    const auto scanned = scan_amount(tokens_, at, SpokenOrWritten::Written);
    return scanned && dimension_of(scanned->amount.unit) == Dimension::Time;
  }

  // An order begins: "and set aside", "then add", "and serve".
  bool order_at(std::size_t at) const {
    const auto action = action_of(word(at));
    if (action.kind == ActionKind::None || action.is_past || action.is_ing) return false;
    if (word(at) == "set") return word(at + 1) == "aside" || word(at + 1) == "to";
    return !tells_state(word(at));
  }

  std::size_t plain(std::size_t from, std::size_t least) {
    constexpr std::size_t kLongest = 24;
    auto at = from + least;
    for (; at < tokens_.size() && at < from + kLongest; ++at) {
      const auto here = word(at);
      const bool is_mark = tokens_[at].kind == TokenKind::Mark;
      if (is_mark && is_one_of(here, {".", ";", "(", ")", "!", "?", ":"})) break;
      if (is_mark && here == "-" && tokens_[at].space_before) break;
      if (is_mark && here == "," && !list_goes_on(at)) break;
      if (is_one_of(here, {"then", "about", "approximately", "approx", "before", "stirring", "turning",
                           "while", "until"}) &&
          at > from + 1)
        break;
      if (is_one_of(here, {"and", "or", "for", "at"}) && at > from + 1 &&
          (order_at(at + 1) || is_time(at + 1) || word(at + 1) == "then"))
        break;
      if (at > from + 1 && is_time(at)) break;
      // "until no longer raw seasoning with soy sauce": done besides.
      const auto action = action_of(here);
      if (at > from + 2 && action.is_ing && !tells_state(here) && action.kind != ActionKind::Heat &&
          action.kind != ActionKind::Wait)
        break;
    }
    auto end = at;
    while (end > from + 1 &&
           (tokens_[end - 1].kind == TokenKind::Mark || is_one_of(word(end - 1), {"and", "or", "for"})))
      --end;
    if (end <= from + 1) return at;
    cues_.emplace_back(text_.substr(tokens_[from].begin, tokens_[end - 1].end - tokens_[from].begin));
    return end;
  }

  // "thick, glossy and smooth": a list of states.
  bool list_goes_on(std::size_t comma) const {
    if (!tells_state(word(comma + 1))) return false;
    return !order_at(comma + 1);
  }

  const std::vector<Token>& tokens_;
  std::string_view text_;
  std::vector<std::string>& cues_;
};

}  // namespace

void read_cues(const std::vector<Token>& tokens, std::string_view text, std::vector<std::string>& cues) {
  CueReader(tokens, text, cues).read();
}

}  // namespace panslate
