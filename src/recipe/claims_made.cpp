#include "recipe/claims_made.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/claim_words.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "recipe/word_list.h"

namespace panslate {

namespace {

// A claim found in the words [begin, end) of a text; a list ("gluten and egg free") is one span for all.
struct Match {
  const DietClaim* claim = nullptr;
  std::size_t begin = 0, end = 0;
};

// How a claim stands in its sentence.
enum class Standing : std::uint8_t { Made, InDoubt, SpokenOf };

struct ClaimPhrase {
  const DietClaim* claim = nullptr;
  std::vector<std::string> words;  // folded, without hyphens
};

// The words of all claims, cut once; the longest first, so that "FODMAP" is not told beside "low-FODMAP".
const std::vector<ClaimPhrase>& claim_phrases() {
  static const auto kPhrases = [] {
    std::vector<ClaimPhrase> all;
    for (const auto& claim : all_diet_claims())
      for (const auto words : claim.words) {
        ClaimPhrase phrase{&claim, {}};
        for (const auto& token : tokenize(words))
          if (token.text != "-") phrase.words.push_back(token.text);
        if (!phrase.words.empty()) all.push_back(std::move(phrase));
      }
    std::stable_sort(all.begin(), all.end(),
                     [](const auto& a, const auto& b) { return a.words.size() > b.words.size(); });
    return all;
  }();
  return kPhrases;
}

const DietClaim* claim_with(std::vector<std::string_view> DietClaim::*list, std::string_view word) {
  const auto stem = name_stem(word);
  for (const auto& claim : all_diet_claims())
    for (const auto one : claim.*list)
      if (name_stem(fold_accents(one)) == stem) return &claim;
  return nullptr;
}

// One line of the recipe, cut into words; hyphens within words are left out.
class ClaimText {
 public:
  ClaimText(const std::string& text, bool is_label) : text_(text), is_label_(is_label) {
    for (auto& token : tokenize(text))
      if (token.text != "-" || token.space_before) words_.push_back(std::move(token));
    find_phrases();
    find_lists_without();
    find_people();
    find_short_forms();
    const auto found = matches_;
    for (const auto& match : found) spread_left(match);
  }

  [[nodiscard]] const std::vector<Match>& matches() const { return matches_; }

  [[nodiscard]] std::string written(const Match& match) const {
    return text_.substr(words_[match.begin].begin, words_[match.end - 1].end - words_[match.begin].begin);
  }

  [[nodiscard]] Standing standing(const Match& match, std::string_view title) const {
    if (is_denied(match.begin)) return Standing::SpokenOf;
    const auto after = word(match.end);
    const bool kind_of_food = is_claim_word(ClaimWord::FoodAfter, after);
    if (is_label_) {
      const bool beside = kind_of_food && match.begin > 0 &&
                          is_one_of(word(match.begin - 1), {"with", "and", "in", "on", "use", "using", "or"});
      const bool asked = is_claim_word(ClaimWord::SpokenAfter, after) &&
                         !is_one_of(after, {"version", "versions", "alternative", "alternatives"});
      return beside || asked ? Standing::InDoubt : Standing::Made;
    }
    if (const auto told = by_next_word(match)) return *told;
    if (match.begin > 0 && is_claim_word(ClaimWord::OfSelf, word(match.begin - 1)) && is_word(match.end) &&
        !is_one_of(after, {"by", "with", "too", "as"}))
      return Standing::Made;
    if (const auto told = by_words_before(match)) return *told;
    if (kind_of_food) return food_standing(match, title);
    if (after == "?" || is_adapting(match)) return Standing::InDoubt;
    return Standing::Made;
  }

 private:
  [[nodiscard]] std::string_view word(std::size_t at) const {
    return at < words_.size() ? std::string_view(words_[at].text) : std::string_view{};
  }
  [[nodiscard]] bool is_word(std::size_t at) const {
    return at < words_.size() && words_[at].kind == TokenKind::Word;
  }
  [[nodiscard]] bool ends_sentence(std::size_t at) const {
    return at >= words_.size() || is_one_of(word(at), {".", "!", "?", ";"});
  }
  [[nodiscard]] bool ends_clause(std::size_t at) const {
    return ends_sentence(at) || is_one_of(word(at), {",", ":", "(", ")", "[", "]", "-", "–", "—"});
  }
  [[nodiscard]] bool is_covered(const Match& match) const {
    return std::any_of(matches_.begin(), matches_.end(), [&](const Match& other) {
      return other.begin <= match.begin && match.end <= other.end &&
             other.end - other.begin > match.end - match.begin;
    });
  }
  void take(const Match& match) {
    constexpr std::size_t kMost = 100;  // claims of one text; a cook makes five
    if (matches_.size() < kMost && !is_covered(match)) matches_.push_back(match);
  }

  void find_phrases() {
    for (const auto& [claim, wanted] : claim_phrases())
      for (std::size_t at = 0; at + wanted.size() <= words_.size(); ++at)
        if (std::equal(wanted.begin(), wanted.end(), words_.begin() + static_cast<std::ptrdiff_t>(at),
                       [](const std::string& want, const Token& token) { return want == token.text; }))
          take({claim, at, at + wanted.size()});
  }

  // What joins the members of a list; one past it, or `at`.
  [[nodiscard]] std::size_t after_joint(std::size_t at) const {
    while (is_one_of(word(at), {",", "and", "or", "nor", "&", "/"})) ++at;
    return at;
  }

  // The members of a list from `at` on that name claims; none where a member only begins the name of a food
  // ("without egg noodles").
  void list_from(std::size_t begin, std::size_t at, std::vector<std::string_view> DietClaim::*names) {
    std::vector<Match> list;
    while (const auto* claim = claim_with(names, word(at))) {
      ++at;
      const bool whole =
          !is_word(at) || is_one_of(word(at), {"and", "or", "nor", "in", "at", "but", "here", "whatsoever",
                                               "so", "which", "added", "as", "then"});
      if (!whole) break;
      list.push_back({claim, begin, at});
      const auto next = after_joint(at);
      if (next == at) break;
      at = next;
    }
    for (auto& match : list) match.end = list.back().end, take(match);
  }

  // "without gluten", "contains no gluten, dairy or egg", "free from gluten and nuts"
  void find_lists_without() {
    for (std::size_t at = 0; at < words_.size(); ++at) {
      if (is_one_of(word(at), {"without", "no", "zero"})) list_from(at, at + 1, &DietClaim::free_of);
      if (word(at) == "free" && is_one_of(word(at + 1), {"from", "of"}))
        list_from(at, word(at + 2) == "any" || word(at + 2) == "all" ? at + 3 : at + 2, &DietClaim::free_of);
    }
  }

  // "suitable for vegetarians and vegans"
  void find_people() {
    for (std::size_t at = 0; at + 2 < words_.size(); ++at)
      if (is_one_of(word(at), {"suitable", "safe", "fine", "ok", "okay", "perfect"}) && word(at + 1) == "for")
        list_from(at, at + 2, &DietClaim::people);
  }

  // "(GF, DF)", "GF brownies" of a title. "V" stands in brackets or by itself.
  void find_short_forms() {
    const auto is_short = [&](std::size_t at) {
      return at < words_.size() && claim_with(&DietClaim::shorts, word(at)) != nullptr &&
             is_capital(words_[at].raw);
    };
    for (std::size_t at = 0; at < words_.size(); ++at) {
      if (!is_short(at)) continue;
      const auto stands_off = [&](std::size_t beside) {
        return !is_word(beside) || is_short(beside) || is_one_of(word(beside), {"and"});
      };
      const bool alone = (at == 0 || stands_off(at - 1)) && stands_off(at + 1);
      if (alone || (is_label_ && word(at).size() > 1))
        take({claim_with(&DietClaim::shorts, word(at)), at, at + 1});
    }
  }
  static bool is_capital(std::string_view raw) { return !raw.empty() && raw[0] >= 'A' && raw[0] <= 'Z'; }

  // "gluten, dairy and egg free": the others of the list.
  void spread_left(const Match& match) {
    if (word(match.end - 1) != "free" || match.end - match.begin != 2) return;
    std::vector<const DietClaim*> others;
    auto begin = match.begin;
    while (begin > 1) {
      auto at = begin;
      while (at > 0 && is_one_of(word(at - 1), {",", "and", "or", "&", "/"})) --at;
      if (at == begin || at == 0) break;
      const auto* claim = claim_with(&DietClaim::free_of, word(at - 1));
      if (claim == nullptr) break;
      others.push_back(claim);
      begin = at - 1;
    }
    for (const auto* claim : others) take({claim, begin, match.end});
    if (!others.empty())
      for (auto& own : matches_)
        if (own.claim == match.claim && own.begin == match.begin && own.end == match.end) own.begin = begin;
  }

  [[nodiscard]] bool is_denied(std::size_t begin) const {
    for (auto at = begin; at-- > 0 && begin - at < 4;) {
      // "you would not believe this vegan cake"
      if (is_one_of(word(at), {".", ",", ";", "this", "these", "our", "believe"})) return false;
      if (is_one_of(word(at), {"not", "isn't", "aren't", "never", "non", "nor", "n't"}))
        return !is_one_of(word(at + 1), {"only", "just", "merely"});
    }
    return false;
  }

  [[nodiscard]] bool says_before(std::size_t begin, std::size_t most, std::string_view wanted) const {
    for (auto at = begin; at-- > 0 && begin - at <= most && !ends_clause(at);)
      if (word(at) == wanted) return true;
    return false;
  }

  // "vegan version", "gluten-free, if you use tamari", "my vegan friends"
  [[nodiscard]] std::optional<Standing> by_next_word(const Match& match) const {
    auto at = match.end;
    if (is_one_of(word(at), {",", "("}) && is_one_of(word(at + 1), {"if", "when", "unless"})) ++at;
    const auto after = word(at);
    if (is_claim_word(ClaimWord::SpokenAfter, after)) return Standing::SpokenOf;
    if (!is_claim_word(ClaimWord::PeopleAfter, after)) return std::nullopt;
    if (says_before(match.begin, 4, "suitable")) return Standing::Made;
    return says_before(match.begin, 3, "for") || says_before(match.begin, 1, "my") ? Standing::SpokenOf
                                                                                   : Standing::InDoubt;
  }

  // The three words before, of the same clause.
  [[nodiscard]] std::optional<Standing> by_words_before(const Match& match) const {
    std::optional<Standing> told;
    for (auto at = match.begin; at-- > 0 && match.begin - at <= 3 && !ends_clause(at);) {
      const auto here = word(at);
      const auto next = word(at + 1);
      const bool it = is_one_of(next, {"it", "this", "these", "them", "the", "your"});
      if (is_one_of(here, {"make", "makes", "making", "made", "keep"})) {
        if (it) return Standing::SpokenOf;
        if (says_before(at, 3, "can") || says_before(at, 3, "could")) return Standing::SpokenOf;
        // "easy to make gluten-free brownies"
        const bool easy =
            at >= 2 && word(at - 1) == "to" && is_one_of(word(at - 2), {"easy", "simple", "quick"});
        if (!easy) told = Standing::InDoubt;
      } else if (is_claim_word(ClaimWord::SpokenBefore, here)) {
        return Standing::SpokenOf;
      } else if (is_claim_word(ClaimWord::NeedsIf, here)) {
        if (says_before(at, 5, "if")) return Standing::SpokenOf;
        told = Standing::InDoubt;
      } else if (is_one_of(here, {"can", "could", "may", "might", "would"})) {
        if (next == "be") return Standing::SpokenOf;
        told = Standing::InDoubt;
      } else if ((here == "or" && at + 1 == match.begin) ||
                 (here == "for" && match.begin - at <= 2 && is_one_of(next, {"a", "an", "any", "those"}))) {
        told = Standing::InDoubt;
      }
    }
    return told;
  }

  // "with vegan butter": a food. "A vegan chocolate cake" of a title that has chocolate: the dish.
  [[nodiscard]] Standing food_standing(const Match& match, std::string_view title) const {
    const auto stem = name_stem(word(match.end));
    const auto title_words = tokenize(title);
    const bool of_title = std::any_of(title_words.begin(), title_words.end(),
                                      [&](const Token& token) { return name_stem(token.text) == stem; });
    const bool beside = match.begin > 0 && is_one_of(word(match.begin - 1),
                                                     {"with", "of", "some", "in", "check", "like", "and"});
    if (of_title && !beside) return Standing::Made;
    return of_title || !beside ? Standing::InDoubt : Standing::SpokenOf;
  }

  // "Swap the butter for oil and it is vegan", "vegan too if you use oil"
  [[nodiscard]] bool is_adapting(const Match& match) const {
    constexpr std::size_t kFar = 30;  // words
    for (auto at = match.begin; at-- > 0 && match.begin - at < kFar && !ends_sentence(at);)
      if (is_claim_word(ClaimWord::Adapts, word(at))) return true;
    for (auto at = match.end; at < match.end + 4 && !ends_sentence(at); ++at)
      if (is_one_of(word(at), {"if", "unless", "provided"})) return true;
    return false;
  }

  const std::string& text_;
  bool is_label_ = false;
  std::vector<Token> words_;
  std::vector<Match> matches_;
};

class ClaimList {
 public:
  explicit ClaimList(const Recipe& recipe) : title_(recipe.title) {
    in_text(recipe.title, recipe.title_line, true);
    for (const auto& tag : recipe.tags) in_text(tag.text, tag.line, true);
    for (const auto* notes : {&recipe.header_lines, &recipe.introduction, &recipe.placed_notes})
      for (const auto& note : *notes) in_text(note.text, note.line, false);
  }

  [[nodiscard]] std::vector<ClaimMade> take() { return std::move(claims_); }

 private:
  void in_text(const std::string& text, int line, bool is_label) {
    const ClaimText words(text, is_label);
    for (const auto& match : words.matches()) {
      const auto standing = words.standing(match, title_);
      if (standing != Standing::SpokenOf)
        add({match.claim, words.written(match), line, standing == Standing::InDoubt});
    }
  }

  // Each claim once: what no list decides by its own words.
  void add(ClaimMade made) {
    std::string key(made.claim->id);
    if (key.empty()) {
      if (made.in_doubt) return;
      for (const char c : fold_accents(made.words)) key += c == '-' ? ' ' : c;
    }
    const auto [at, is_new] = told_.try_emplace(std::move(key), claims_.size());
    if (is_new)
      claims_.push_back(std::move(made));
    else if (claims_[at->second].in_doubt && !made.in_doubt)
      claims_[at->second] = std::move(made);
  }

  const std::string& title_;
  std::vector<ClaimMade> claims_;
  std::map<std::string, std::size_t> told_;
};

}  // namespace

std::vector<ClaimMade> claims_made(const Recipe& recipe) {
  return ClaimList(recipe).take();
}

}  // namespace panslate
