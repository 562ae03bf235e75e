#include "check/line_to_say.h"

#include <algorithm>
#include <array>
#include <set>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

namespace panslate {

namespace {

constexpr std::size_t kLongestLine = 40;  // words; longer is no sentence to say in one breath

// "220 g leeks, washed (see note)" is said as "220 g leeks"; brackets may hold a comma of their own.
std::string without_preparation(const std::string& line) {
  int depth = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '(') ++depth;
    if (line[i] == ')') --depth;
    if (line[i] == ',' && depth == 0 && i + 1 < line.size() && line[i + 1] == ' ') return line.substr(0, i);
  }
  return line;
}

std::string written_amount(const Requirement& requirement, bool with_alternate) {
  if (requirement.amounts.empty()) return {};
  auto text = to_text(requirement.amounts.front());
  if (with_alternate && requirement.amounts.size() > 1 && !text.empty()) {
    const auto other = to_text(requirement.amounts[1]);
    if (!other.empty()) text += " (" + other + ")";
  }
  return text;
}

bool is_wrong(const Requirement& requirement) {
  return requirement.said.verdict == Verdict::Differs || requirement.said.verdict == Verdict::NoAmount;
}

bool is_one_of(const std::string& word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_determiner(const std::string& word) {
  return is_one_of(word, {"some", "the", "a", "an", "your", "my", "our", "that", "this", "these", "those"});
}

// "half the leeks", "the rest of the stock": a share of what was told before, and no place for the whole.
bool is_share_word(const std::string& word) {
  return is_one_of(
      word, {"half", "third", "thirds", "quarter", "quarters", "rest", "remaining", "other", "all", "most",
             "more", "another", "last", "both", "each", "every", "no", "without", "instead"});
}

// "some lovely mustard", "a bit of mustard": where the words begin that the amount takes the place of. Empty
// where an amount or a share stands there already.
std::optional<std::size_t> begin_of_vague_amount(const std::vector<Token>& tokens, std::size_t name) {
  constexpr std::size_t kReach = 4;
  auto begin = name;
  for (std::size_t back = 1; back <= kReach && back <= name; ++back) {
    const auto& token = tokens[name - back];
    if (token.kind == TokenKind::Number || is_share_word(token.text)) return std::nullopt;
    if (token.kind == TokenKind::Mark && token.text != "-") break;
    if (begin == name && is_determiner(token.text)) begin = name - back;
    // "a bit of", "just enough of": the little word goes with its article.
    if (begin == name && back == 1 && token.text == "of") {
      for (std::size_t more = 2; more <= kReach && more <= name; ++more)
        if (is_determiner(tokens[name - more].text) ||
            is_one_of(tokens[name - more].text, {"plenty", "lots"}))
          return name - more;
      return std::nullopt;
    }
  }
  if (begin > 0 && begin < name && tokens[begin - 1].text == "of") return std::nullopt;
  return begin;
}

// "one plum" made eight: the food in the number that the recipe writes.
std::string counted_name(const Requirement& requirement, const std::string& said) {
  if (requirement.amounts.empty() || requirement.amounts.front().unit != Unit::Piece) return said;
  for (const auto& word : split(collapse_spaces(requirement.name), ' '))
    if (name_stem(fold_accents(word)) == name_stem(fold_accents(said))) return word;
  return said;
}

bool spoken_amount_before(const std::vector<Token>& tokens, std::size_t begin, std::size_t name) {
  for (const auto& amount : scan_amounts(tokens, SpokenOrWritten::Spoken))
    if (amount.end > (begin > 2 ? begin - 2 : 0) && amount.begin < name && amount.amount.value) return true;
  return false;
}

}  // namespace

LineWriter::LineWriter(const CheckReport& report, const Recipe& recipe, const SpokenIndex& spoken)
    : report_(report), recipe_(recipe), spoken_(spoken) {
  heard_of_.resize(report.requirements.size());
  for (std::size_t h = 0; h < report.heard.size(); ++h) {
    const auto& requirement = report.heard[h].requirement;
    if (requirement && *requirement < heard_of_.size()) heard_of_[*requirement].push_back(h);
  }
  for (std::size_t r = 0; r < report.requirements.size(); ++r) {
    const auto& requirement = report.requirements[r];
    if (!is_wrong(requirement) || requirement.said.mentions.empty()) continue;
    const auto& mention = requirement.said.mentions.front();
    wrong_at_[{mention.media, mention.when.begin}].push_back(r);
  }
  first_use_.resize(recipe.ingredients.size());
  for (std::size_t s = 0; s < recipe.steps.size(); ++s)
    for (const auto i : recipe.steps[s].uses)
      if (i < first_use_.size() && !first_use_[i]) first_use_[i] = s;
}

LineToSay LineWriter::line_for(std::size_t index) const {
  const auto& requirement = report_.requirements[index];
  LineToSay line;
  if (is_wrong(requirement) && !requirement.said.mentions.empty()) {
    const auto& mention = requirement.said.mentions.front();
    const auto sentence = spoken_.sentence_around(spoken_.find(mention.media, mention.when));
    if (!sentence.empty() && sentence.end - sentence.begin <= kLongestLine) {
      auto text = sentence.text();
      std::vector<Edit> edits;
      if (auto own = edit_for(index, sentence, text)) {
        edits.push_back(*std::move(own));
        const auto when = sentence.when();
        for (auto at = wrong_at_.lower_bound({mention.media, when.begin});
             at != wrong_at_.end() && at->first.first == mention.media && at->first.second < when.end; ++at)
          for (const auto other : at->second)
            if (other != index)
              if (auto edit = edit_for(other, sentence, text)) edits.push_back(*std::move(edit));
        std::sort(edits.begin(), edits.end(), [](const Edit& a, const Edit& b) { return a.begin > b.begin; });
        auto from = text.size() + 1;
        for (const auto& edit : edits) {
          if (edit.end > from) continue;  // two lines that mean the same words
          text.replace(edit.begin, edit.end - edit.begin, edit.text);
          from = edit.begin;
        }
        return {collapse_spaces(text), sentence};
      }
    }
  }
  line.words = line_of_recipe(requirement);
  return line;
}

std::optional<LineWriter::Edit> LineWriter::edit_for(std::size_t index, SpokenSpan sentence,
                                                     const std::string& text) const {
  const auto& requirement = report_.requirements[index];
  const auto& mention = requirement.said.mentions.front();
  const auto& heard = heard_of_[index];
  if (requirement.said.verdict == Verdict::Differs) {
    if (heard.size() != 1) return std::nullopt;
    return amount_put_right(requirement, report_.heard[heard.front()], sentence, text);
  }
  const auto named = spoken_.find(mention.media, mention.when);
  const auto written = written_amount(requirement, false);
  if (named.empty() || named.begin < sentence.begin || named.end > sentence.end || written.empty() ||
      !heard.empty())
    return std::nullopt;
  const auto offset = SpokenSpan{sentence.transcript, sentence.begin, named.begin}.text().size();
  const auto name_begin = text.find(mention.text, offset);
  if (name_begin == std::string::npos || name_begin > offset + 2) return std::nullopt;
  const auto tokens = tokenize(text);
  const auto name = static_cast<std::size_t>(
      std::find_if(tokens.begin(), tokens.end(), [&](const Token& t) { return t.begin >= name_begin; }) -
      tokens.begin());
  if (name >= tokens.size()) return std::nullopt;
  const auto begin = begin_of_vague_amount(tokens, name);
  if (!begin || spoken_amount_before(tokens, *begin, name)) return std::nullopt;
  const auto between = std::string(collapse_spaces(
      std::string_view(text).substr(tokens[*begin].begin, tokens[name].begin - tokens[*begin].begin)));
  std::string adjectives;
  if (*begin < name) {
    const auto first_space = between.find(' ');
    const auto of = between.find(" of");
    if (of == std::string::npos && first_space != std::string::npos)
      adjectives = between.substr(first_space + 1);
  }
  return Edit{tokens[*begin].begin, tokens[name].end,
              written + " " + (adjectives.empty() ? "" : adjectives + " ") +
                  counted_name(requirement, tokens[name].raw)};
}

std::optional<LineWriter::Edit> LineWriter::amount_put_right(const Requirement& requirement,
                                                             const Heard& heard, SpokenSpan sentence,
                                                             const std::string& text) const {
  const auto written = written_amount(requirement, !heard.alternates.empty());
  const auto span = spoken_.find(requirement.said.mentions.front().media, heard.when);
  if (written.empty() || span.empty() || span.begin < sentence.begin || span.end > sentence.end)
    return std::nullopt;
  const auto offset = SpokenSpan{sentence.transcript, sentence.begin, span.begin}.text().size();
  const auto begin = text.find(heard.text, offset);
  if (begin == std::string::npos || begin > offset + 2) return std::nullopt;
  Edit edit{begin, begin + heard.text.size(), written};
  const auto tokens = tokenize(text);
  const auto after =
      std::find_if(tokens.begin(), tokens.end(), [&](const Token& token) { return token.begin >= edit.end; });
  if (after != tokens.begin()) {
    const auto first = std::find_if(tokens.begin(), tokens.end(),
                                    [&](const Token& token) { return token.begin >= edit.begin; });
    // "a 200 gram tin" keeps its article; "a hundred grams" that was heard without it does not.
    if (first != tokens.begin() && is_one_of(std::prev(first)->text, {"a", "an"}))
      edit.begin = std::prev(first)->begin;
  }
  if (after != tokens.end() && after->kind == TokenKind::Word && heard.amount.unit == Unit::Piece) {
    const auto counted = counted_name(requirement, after->raw);
    if (counted != after->raw) {
      edit.text += text.substr(edit.end, after->begin - edit.end) + counted;
      edit.end = after->end;
    }
  }
  return edit;
}

std::string LineWriter::line_of_recipe(const Requirement& requirement) const {
  switch (requirement.kind) {
    case RequirementKind::Ingredient:
    case RequirementKind::MethodAmount:
    case RequirementKind::Temperature:
    case RequirementKind::Time: {
      auto sentence = sentence_of_step(requirement);
      if (!sentence.empty()) return sentence;
      if (requirement.kind == RequirementKind::Ingredient)
        return "You need " + without_preparation(collapse_spaces(requirement.text)) + ".";
      break;
    }
    case RequirementKind::Step:
    case RequirementKind::Yield:
    case RequirementKind::Cue:
      break;
  }
  return collapse_spaces(requirement.text);
}

// The recipe's own sentence: with the time or temperature it holds, or with the amount before the food's
// name.
std::string LineWriter::sentence_of_step(const Requirement& requirement) const {
  const bool food = requirement.kind == RequirementKind::Ingredient;
  std::optional<std::size_t> step;
  if (!food)
    step = requirement.index;
  else if (requirement.index < first_use_.size() && recipe_.ingredients[requirement.index].foods.size() <= 1)
    step = first_use_[requirement.index];
  if (!step || *step >= recipe_.steps.size()) return {};
  const auto words = split(collapse_spaces(recipe_.steps[*step].text), ' ');
  std::set<std::string> heads;
  if (food)
    for (const auto i : recipe_.steps[*step].uses)
      if (i < recipe_.ingredients.size() && i != requirement.index)
        heads.insert(
            name_stem(fold_accents(split(collapse_spaces(recipe_.ingredients[i].name), ' ').back())));
  const auto name = split(collapse_spaces(requirement.name), ' ');
  const auto head = name.empty() ? std::string{} : name_stem(fold_accents(name.back()));
  for (std::size_t begin = 0; begin < words.size();) {
    auto end = begin;
    while (end < words.size() && (end == begin || !closes_sentence(words[end - 1]))) ++end;
    auto sentence = join({words.begin() + static_cast<std::ptrdiff_t>(begin),
                          words.begin() + static_cast<std::ptrdiff_t>(end)},
                         " ");
    const bool short_enough = end - begin <= kLongestLine;
    begin = end;
    if (!food) {
      if (short_enough && sentence.find(collapse_spaces(requirement.text)) != std::string::npos)
        return sentence;
      continue;
    }
    if (head.empty() || heads.contains(head)) return {};
    const auto tokens = tokenize(sentence);
    for (std::size_t t = 0; t < tokens.size(); ++t) {
      if (tokens[t].kind != TokenKind::Word || name_stem(tokens[t].text) != head) continue;
      if (!short_enough) return {};
      const auto written = written_amount(requirement, false);
      if (written.empty()) return sentence;
      auto first = t;  // the name's other words before its head
      for (auto n = name.size() - 1;
           n > 0 && first > 0 && tokens[first - 1].text == fold_accents(name[n - 1]); --n)
        --first;
      const auto at = begin_of_vague_amount(tokens, first);
      if (!at || spoken_amount_before(tokens, *at, first)) return {};
      return sentence.substr(0, tokens[*at].begin) + written + " " + sentence.substr(tokens[first].begin);
    }
  }
  return {};
}

}  // namespace panslate
