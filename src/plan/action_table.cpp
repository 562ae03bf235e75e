#include "plan/action_table.h"

#include <map>
#include <set>

#include "panslate/base/csv.h"
#include "panslate/base/text.h"

#include "embedded/actions_csv.h"

namespace panslate {

namespace {

std::map<std::string, FilmedAction> index_of(const CsvTable& rows) {
  std::map<std::string, FilmedAction> table;
  for (std::size_t r = 0; r < rows.row_count(); ++r)
    table.emplace(fold_accents(rows.field(r, "verb")),
                  FilmedAction{rows.field(r, "verb"),
                               framing_from_spelling(rows.field(r, "framing")).value_or(Framing::Overhead),
                               rows.field(r, "repeatable") == "no" ? Repeatable::No : Repeatable::Yes,
                               rows.field(r, "see")});
  return table;
}

const std::map<std::string, FilmedAction>& table() {
  static const auto rows = CsvTable::read(embedded::actions_csv);  // the index points into it
  static const auto index = index_of(rows);
  return index;
}

bool is_adverb(const std::string& word) {
  static const std::set<std::string> kOthers{"meanwhile", "now",   "next", "then", "first",
                                             "once",      "again", "just", "well"};
  return (word.size() > 3 && word.ends_with("ly")) || kOthers.contains(word);
}

struct ClauseWord {
  std::string word;
  bool starts_clause = false;
};

// Words with whether a clause may start at them: first of the sentence, after a mark, after and, or, then.
std::vector<ClauseWord> clause_words(std::string_view sentence) {
  std::vector<ClauseWord> words;
  bool starts = true;
  std::string word;
  const auto flush = [&] {
    if (word.empty()) return;
    auto folded = fold_accents(word);
    word.clear();
    const bool joins =
        folded == "and" || folded == "or" || folded == "then" || folded == "to" || folded == "before";
    // "leave to cool", "before serving": what follows them is no new picture.
    const bool starts_next = (joins && folded != "to" && folded != "before") || (starts && is_adverb(folded));
    words.push_back({folded, starts && !joins});
    starts = starts_next;
  };
  for (std::size_t i = 0; i < sentence.size();) {
    const auto [value, next] = code_point_at(sentence, i);
    if (is_word_character(value)) {
      append_utf8(word, value);
    } else {
      flush();
      if (value == ',' || value == ';' || value == ':' || value == '.' || value == 0x2013 || value == 0x2014)
        starts = true;
    }
    i = next;
  }
  flush();
  return words;
}

bool ends_sentence(std::string_view text, std::size_t at) {
  if (text[at] == '!' || text[at] == '?') return true;
  std::size_t start = at;
  while (start > 0 && text[start - 1] != ' ') --start;
  const auto word = fold_case(text.substr(start, at - start));
  static const std::set<std::string> kShort{"approx", "e.g",  "i.e", "no", "c",  "ca", "min",
                                            "mins",   "tbsp", "tsp", "oz", "lb", "g"};
  if (kShort.contains(word)) {
    // A sentence may well end in "5 min."; then the next one starts with a capital.
    std::size_t next = at + 1;
    while (next < text.size() && text[next] == ' ') ++next;
    return next >= text.size() || (text[next] >= 'A' && text[next] <= 'Z' && word != "e.g" && word != "i.e");
  }
  return true;
}

}  // namespace

std::optional<FilmedAction> filmed_action_of(std::string_view verb) {
  const auto found = table().find(fold_accents(verb));
  if (found == table().end()) return std::nullopt;
  return found->second;
}

std::vector<FilmedAction> filmed_actions_in(std::string_view sentence) {
  std::vector<FilmedAction> actions;
  for (const auto& [word, starts_clause] : clause_words(sentence)) {
    if (!starts_clause) continue;
    if (const auto action = filmed_action_of(word)) actions.push_back(*action);
  }
  return actions;
}

std::vector<std::string> method_sentences(std::string_view text) {
  std::vector<std::string> sentences;
  const auto plain = collapse_spaces(text);
  std::size_t start = 0;
  for (std::size_t i = 0; i < plain.size(); ++i) {
    const char c = plain[i];
    if (c != '.' && c != '!' && c != '?') continue;
    const bool at_gap = i + 1 >= plain.size() || plain[i + 1] == ' ';
    if (!at_gap || !ends_sentence(plain, i)) continue;
    const auto sentence = trim(std::string_view(plain).substr(start, i + 1 - start));
    if (!sentence.empty()) sentences.emplace_back(sentence);
    start = i + 1;
  }
  const auto rest = trim(std::string_view(plain).substr(start));
  if (!rest.empty()) sentences.emplace_back(rest);
  return sentences;
}

}  // namespace panslate
