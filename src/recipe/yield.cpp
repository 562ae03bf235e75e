#include "recipe/yield.h"

#include <algorithm>
#include <array>
#include <optional>
#include <span>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/token.h"

#include "recipe/word_list.h"

namespace panslate {

namespace {

using Tokens = std::vector<Token>;

bool is_person_word(std::string_view word) {
  return is_one_of(word, {"serving", "servings", "portion", "portions", "people", "persons", "person",
                          "guests", "adults", "diners", "eaters", "serves"});
}

bool ends_noun(std::string_view word) {
  return is_one_of(
      word, {"in",    "for",  "of",    "with", "or",   "and",   "to",      "as",         "depending",
             "from",  "each", "using", "per",  "when", "plus",  "serves",  "makes",      "at",
             "about", "if",   "that",  "cook", "prep", "total", "serving", "generously", "approximately",
             "enough"});
}

class YieldScanner {
 public:
  YieldScanner(std::string_view text, int line) : text_(text), line_(line), tokens_(tokenize(text)) {}

  std::vector<RecipeYield> run() {
    for (std::size_t at = 0; at < tokens_.size();) {
      const auto next = one(at);
      at = next > at ? next : at + 1;
    }
    return std::move(found_);
  }

  /// Index of the first token of the first yield.
  [[nodiscard]] std::size_t first() const { return first_; }

 private:
  std::string_view word(std::size_t at) const {
    return at < tokens_.size() ? std::string_view(tokens_[at].text) : std::string_view{};
  }

  std::size_t skip_between(std::size_t at) const {
    while (at < tokens_.size() &&
           (is_one_of(word(at), {":", "-", "=", "|", "enough", "for", "yield", "size", "up", "to", "between",
                                 ".", "around", "makes", "serves"})))
      ++at;
    return at;
  }

  std::optional<ScannedNumber> number(std::size_t at) const { return scan_number(tokens_, at); }

  // The noun after a count: "pasties", "large muffins"; `at` moves past it.
  std::string noun(std::size_t& at) const {
    std::string out;
    int words = 0;
    while (at < tokens_.size() && words < 4) {
      const auto& token = tokens_[at];
      if (token.kind == TokenKind::Mark && token.text == "-" && words > 0 && at + 1 < tokens_.size() &&
          !token.space_before) {
        out += "-";
        ++at;
        continue;
      }
      if (token.kind != TokenKind::Word || ends_noun(token.text)) break;
      if (!out.empty() && out.back() != '-') out += ' ';
      out += token.raw;
      ++words;
      ++at;
    }
    return out;
  }

  void add(RecipeYield::Kind kind, Amount amount, std::size_t from, std::size_t to) {
    if (found_.empty()) first_ = from;
    const auto begin = tokens_[from].begin;
    const auto end = tokens_[std::min(to, tokens_.size()) - 1].end;
    found_.push_back({kind, std::move(amount), line_, std::string(text_.substr(begin, end - begin))});
  }

  static Amount counted(const ScannedNumber& n, Unit unit) {
    Amount amount;
    amount.value = n.value;
    amount.to = n.to;
    amount.about = n.about;
    amount.unit = unit;
    return amount;
  }

  std::size_t serves(std::size_t at, std::size_t from) {
    const auto n = number(at);
    if (!n) return from;
    auto end = n->end;
    // "Servings: 10 breads": a count of things after all.
    auto after = end;
    const auto thing = noun(after);
    const bool alone = after >= tokens_.size() || word(after) == "(" || word(after) == "|";
    if (!thing.empty() && alone && thing.find(' ') == std::string::npos &&
        !is_person_word(fold_accents(thing)) && thing.back() == 's' &&
        !is_one_of(fold_accents(thing), {"minutes", "mins", "hours", "hrs"})) {
      auto amount = counted(*n, Unit::Other);
      amount.noun = thing;
      add(RecipeYield::Kind::Makes, std::move(amount), from, after);
      return after;
    }
    if (is_person_word(word(end))) ++end;
    add(RecipeYield::Kind::Serves, counted(*n, Unit::Serving), from, end);
    return end;
  }

  std::size_t makes(std::size_t at, std::size_t from, bool bare_is_servings) {
    const auto scanned = scan_amount(tokens_, at, SpokenOrWritten::Written);
    if (scanned && scanned->has_unit) {
      const auto dimension = dimension_of(scanned->amount.unit);
      if (dimension == Dimension::Mass || dimension == Dimension::Volume) {
        add(RecipeYield::Kind::Makes, scanned->amount, from, scanned->end);
        return scanned->end;
      }
      if (dimension == Dimension::Time || dimension == Dimension::Temperature) return from;
    }
    auto n = number(at);
    // "Makes a loaf", on a line of its own; prose "makes a great supper" says nothing.
    if (!n && is_one_of(word(at), {"a", "an"}) && from <= 1 && tokens_.size() <= 8 &&
        !is_one_of(word(at + 1), {"lot", "great", "good", "lovely", "really", "nice", "perfect"}))
      n = ScannedNumber{Ratio{1}, std::nullopt, false, at + 1};
    if (!n) return from;
    auto end = n->end;
    if (word(end) == "x" || word(end) == "\xC3\x97") ++end;
    // "one 23 cm cake": the size is no part of the noun.
    if (const auto size =
            end < tokens_.size() ? scan_amount(tokens_, end, SpokenOrWritten::Written) : std::nullopt;
        size && size->has_unit && dimension_of(size->amount.unit) != Dimension::Count)
      end = size->end;
    while (word(end) == "-") ++end;
    const auto thing = noun(end);
    const auto words = split(fold_accents(thing), ' ');
    if (std::any_of(words.begin(), words.end(), [](const std::string& w) { return is_person_word(w); }) ||
        (thing.empty() && bare_is_servings)) {
      add(RecipeYield::Kind::Serves, counted(*n, Unit::Serving), from, std::max(end, n->end));
      return end;
    }
    auto amount = counted(*n, thing.empty() ? Unit::Piece : Unit::Other);
    amount.noun = thing;
    add(RecipeYield::Kind::Makes, std::move(amount), from, end);
    return end;
  }

  std::size_t one(std::size_t at) {
    const auto here = word(at);
    if (is_one_of(here, {"serves", "feeds", "servings", "portions", "serving", "portion"})) {
      const bool colon = word(at + 1) == ":" || word(at + 1) == "-" || word(at + 1) == "=";
      if (is_one_of(here, {"serving", "portion", "portions"}) && !colon) return at;
      return serves(skip_between(at + 1), at);
    }
    if (here == "serve" && word(at + 1) == ":") return serves(at + 2, at);
    if (is_one_of(here, {"makes", "yields", "yield", "make"})) {
      if (here == "make" && (at > 0 || word(at + 1) == ":")) return at;
      const auto after = skip_between(at + 1);
      const bool enough_for = after > at + 1 && word(after - 1) == "for";
      if (enough_for) return serves(after, at);
      return makes(after, at, here == "yield" || word(after - 1) == "serves");
    }
    // "Cuts into 15 slices"
    if (here == "cuts" && word(at + 1) == "into") return makes(skip_between(at + 2), at, false);
    if (here == "for" && at <= 1) return for_people(at);
    if (at == 0 || is_one_of(word(at - 1), {"(", "|", ",", ".", ";", "-", "for", "about"})) {
      const auto n = number(at);
      if (n && is_one_of(word(n->end), {"servings", "portions", "serves", "people", "persons"}) && at <= 20) {
        add(RecipeYield::Kind::Serves, counted(*n, Unit::Serving), at, n->end + 1);
        return n->end + 1;
      }
    }
    return at;
  }

  // "For 4 people", "For 4", "(for 13 cookies, …)", "for 1 litre".
  std::size_t for_people(std::size_t at) {
    const auto n = number(at + 1);
    if (!n) return at;
    const bool alone = n->end >= tokens_.size() || (word(n->end) == ")" && n->end + 1 >= tokens_.size());
    if (alone || is_person_word(word(n->end))) {
      const auto end = alone ? n->end : n->end + 1;
      add(RecipeYield::Kind::Serves, counted(*n, Unit::Serving), at, end);
      return end;
    }
    constexpr std::size_t kShortLine = 14;
    if (tokens_.size() > kShortLine) return at;
    return makes(at + 1, at, false);
  }

  std::string_view text_;
  int line_;
  Tokens tokens_;
  std::vector<RecipeYield> found_;
  std::size_t first_ = 0;
};

bool might_tell_yield(std::string_view text) {
  constexpr std::size_t kLongestLine = 2000;
  return text.size() <= kLongestLine;
}

}  // namespace

std::vector<RecipeYield> yields_in(std::string_view text, int line) {
  if (!might_tell_yield(text)) return {};
  return YieldScanner(text, line).run();
}

bool is_yield_line(std::string_view text) {
  if (!might_tell_yield(text)) return false;
  // "Low FODMAP, gluten free. Serves 4": the last sentence of a short line.
  constexpr std::size_t kShortLine = 60;
  if (const auto stop = text.rfind(". "); stop != std::string_view::npos && text.size() <= kShortLine)
    return is_yield_line(text.substr(stop + 2));
  YieldScanner scanner(text, 0);
  return !scanner.run().empty() && scanner.first() <= 1;
}

void add_yields(std::vector<RecipeYield> found, std::vector<RecipeYield>& yields) {
  for (auto& one : found) {
    const bool told = std::any_of(yields.begin(), yields.end(), [&](const RecipeYield& known) {
      return known.kind == one.kind && known.amount.value == one.amount.value &&
             known.amount.to == one.amount.to &&
             (known.amount.noun == one.amount.noun || known.amount.noun.empty() || one.amount.noun.empty());
    });
    if (!told) yields.push_back(std::move(one));
  }
}

std::vector<StatedTime> stated_times_in(std::string_view text, int line) {
  constexpr std::size_t kLongestLine = 300;
  std::vector<StatedTime> out;
  if (text.size() > kLongestLine) return out;
  const auto tokens = tokenize(text);
  auto kind = StatedTime::Kind::Other;
  bool named = false;
  for (std::size_t at = 0; at < tokens.size();) {
    const std::string_view word = tokens[at].text;
    if (is_one_of(word, {"prep", "preparation", "preparing"})) kind = StatedTime::Kind::Prep, named = true;
    if (is_one_of(word, {"cook", "cooking", "bake", "baking"})) kind = StatedTime::Kind::Cook, named = true;
    if (is_one_of(word, {"total", "ready", "overall"})) kind = StatedTime::Kind::Total, named = true;
    if (is_one_of(word, {"rest", "resting", "chill", "chilling", "soak", "soaking", "rise", "rising",
                         "proving", "time"}) &&
        !named)
      kind = StatedTime::Kind::Other, named = true;
    const auto scanned = named ? scan_amount(tokens, at, SpokenOrWritten::Written) : std::nullopt;
    if (scanned && dimension_of(scanned->amount.unit) == Dimension::Time) {
      const auto begin = tokens[scanned->begin].begin;
      out.push_back({kind, scanned->amount, line,
                     std::string(text.substr(begin, tokens[scanned->end - 1].end - begin))});
      named = false;
      at = scanned->end;
    } else {
      ++at;
    }
  }
  return out;
}

}  // namespace panslate
