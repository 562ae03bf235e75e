#include "kitchen/food_listing.h"

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "panslate/base/text.h"

namespace panslate {

namespace {

constexpr std::size_t kMostWords = 6;    // of a name whose parts are tried in every choice
constexpr std::size_t kMostBetween = 2;  // descriptions that may stand inside a spoken name

void raise(Candidates& candidates, std::size_t ingredient, Closeness closeness) {
  auto [it, added] = candidates.emplace(ingredient, closeness);
  if (!added) it->second = std::max(it->second, closeness);
}

NameMatch match_of(Closeness closeness) {
  switch (closeness) {
    case Closeness::Category:
      return NameMatch::Category;
    case Closeness::Variety:
      return NameMatch::Variety;
    case Closeness::LooseHead:
    case Closeness::Head:
      return NameMatch::Head;
    case Closeness::Regional:
      return NameMatch::Regional;
    case Closeness::Synonym:
      return NameMatch::Synonym;
    case Closeness::Exact:
      return NameMatch::Exact;
  }
  return NameMatch::None;
}

// End of `stems` in the words from `at`, descriptions between them skipped; 0 when they are not there.
std::size_t end_at(const std::vector<std::string>& stems, std::span<const NameWord> words, std::size_t at) {
  std::size_t i = at, skipped = 0;
  for (std::size_t k = 0; k < stems.size();) {
    if (i >= words.size() || words[i].stem.empty()) return 0;
    if (words[i].stem == stems[k])
      ++k;
    else if (k == 0 || ++skipped > kMostBetween || !is_descriptor(words[i].text))
      return 0;
    ++i;
  }
  return i;
}

// Without brackets and what follows a comma.
std::string bare_name(std::string_view name) {
  std::string out;
  int depth = 0;
  for (const char c : name) {
    if (c == '(' || c == '[') ++depth;
    if (depth == 0 && (c == ',' || c == ';')) break;
    if (depth == 0) out.push_back(c == '/' ? '|' : c);
    if ((c == ')' || c == ']') && depth > 0) --depth;
  }
  return out;
}

// "butter or margarine", "butter/margarine": each name for itself.
std::vector<std::string> name_choices(std::string_view name) {
  std::vector<std::string> choices{""};
  for (const auto& piece : split(bare_name(name), '|')) {
    if (!choices.back().empty()) choices.emplace_back();
    for (const auto& word : split(collapse_spaces(piece), ' ')) {
      if (fold_case(word) == "or" && !choices.back().empty())
        choices.emplace_back();
      else
        choices.back() += (choices.back().empty() ? "" : " ") + word;
    }
  }
  return choices;
}

}  // namespace

FoodListing::FoodListing(const std::vector<std::string>& names) {
  for (std::size_t ingredient = 0; ingredient < names.size(); ++ingredient) {
    listed_.emplace_back();
    for (const auto& choice : name_choices(names[ingredient])) add_name(choice, ingredient);
  }
}

void FoodListing::add_name(std::string_view name, std::size_t ingredient) {
  auto words = name_words(name);
  if (words.empty()) return;
  add_key(words, ingredient, Closeness::Exact);
  auto resolved = food_table().resolve(words);
  // "leg of lamb", "juice of lemon": the food is what follows.
  const auto of =
      std::find_if(words.begin(), words.end(), [](const NameWord& word) { return word.text == "of"; });
  if (!resolved.whole && of != words.begin() && of != words.end() && of + 1 != words.end() &&
      is_of_class(WordClass::Part, std::prev(of)->stem)) {
    words.erase(words.begin(), of + 1);
    add_key(words, ingredient, Closeness::Head);
    resolved = food_table().resolve(words);
  }
  auto& listed = listed_[ingredient];
  for (const auto& word : words) listed.stems.push_back(word.stem);
  if (resolved.row != kNoFood) {
    if (listed.row == kNoFood) listed.row = resolved.row;
    listed.kinds |= food_table().rows()[resolved.row].kinds;
    relate(resolved, ingredient);
  }

  auto core = words;
  std::erase_if(core, [](const NameWord& word) {
    return is_of_class(WordClass::Descriptor, word.stem) &&
           form_of(word.text).value_or(FoodForm::Fresh) == FoodForm::Fresh;
  });
  // "whole milk" is a milk of its own in the table, "fresh thyme" is thyme.
  const auto row = food_table().row_of(words);
  if (core.empty() || (row != kNoFood && food_table().row_of(core) != row)) core = words;
  add_key(core, ingredient, Closeness::Exact);
  add_parts(core, ingredient, resolved.row, false);
  auto whole = core;
  while (whole.size() > 1 && is_of_class(WordClass::Part, whole.back().stem)) whole.pop_back();
  if (whole.size() < core.size()) add_parts(whole, ingredient, resolved.row, true);
  // "the buckwheat" of a flour mix; weakly, since the grain is another food.
  if (resolved.row != kNoFood && core.size() == 2 && core.back().text == "flour") {
    const auto grain = food_table().row_of(std::span(core).first(1));
    if (grain != kNoFood && food_table().rows()[grain].kind == FoodKind::Grain)
      add_key(std::span(core).first(1), ingredient, Closeness::Category);
  }
  if (resolved.row != kNoFood)
    for (const auto count : counts_of(food_table().rows()[resolved.row].name))
      add_key(name_words(count), ingredient, Closeness::Category);
  for (const auto& word : words)
    if (is_of_class(WordClass::Distinctive, word.stem))
      add_key(std::span(&word, 1), ingredient, Closeness::Head);
}

// Every choice of the name's words that keeps the last names it too: "red peppers", "peppers" for "red romano
// peppers"; but not where what is left is a food of another sort ("butter" of "peanut butter").
void FoodListing::add_parts(std::span<const NameWord> core, std::size_t ingredient, std::size_t row,
                            bool part_dropped) {
  const auto few = core.size() > kMostWords ? core.subspan(core.size() - kMostWords) : core;
  const auto choices = std::size_t{1} << (few.size() - 1);
  for (std::size_t choice = 0; choice < choices; ++choice) {
    std::vector<NameWord> kept;
    bool only_forms_left_out = few.size() == core.size();
    for (std::size_t i = 0; i < few.size(); ++i) {
      if (i + 1 == few.size() || (choice >> i & 1U) != 0)
        kept.push_back(few[i]);
      else if (!is_descriptor(few[i].text))
        only_forms_left_out = false;
    }
    if (kept.front().text == "of") continue;  // "a litre of lamb stock" names no leg of lamb
    auto closeness = Closeness::Head;
    const auto named = food_table().row_of(kept);
    if (named != kNoFood && row != kNoFood && !food_table().is_under(row, named)) {
      const bool same_sort = (food_table().rows()[named].kinds & food_table().rows()[row].kinds).any();
      if (!same_sort && !only_forms_left_out && !part_dropped) continue;
      if (!only_forms_left_out && !part_dropped) closeness = Closeness::LooseHead;
    }
    add_key(kept, ingredient, closeness);
  }
}

void FoodListing::relate(const ResolvedName& resolved, std::size_t ingredient) {
  const auto& table = food_table();
  raise(related_[resolved.row], ingredient, resolved.whole ? Closeness::Synonym : Closeness::Head);
  for (auto broad = table.rows()[resolved.row].broader; broad; broad = table.rows()[*broad].broader)
    raise(related_[*broad], ingredient, Closeness::Head);
  if (!resolved.whole) return;
  for (const auto narrow : table.narrower(resolved.row))
    raise(related_[narrow], ingredient, Closeness::Variety);
  for (const auto meant : table.rows()[resolved.row].may_mean)
    raise(related_[meant], ingredient, Closeness::Regional);
  for (const auto namer : table.meant_by(resolved.row))
    raise(related_[namer], ingredient, Closeness::Regional);
}

void FoodListing::add_key(std::span<const NameWord> words, std::size_t ingredient, Closeness closeness) {
  std::vector<std::string> stems;
  for (const auto& word : words) stems.push_back(word.stem);
  const auto add = [&](std::vector<std::string> key) {
    auto& keys = keys_[key.front()];
    auto it = std::find_if(keys.begin(), keys.end(), [&key](const Key& known) { return known.stems == key; });
    if (it == keys.end()) it = keys.insert(keys.end(), Key{std::move(key), {}});
    raise(it->candidates, ingredient, closeness);
  };
  if (words.size() == 2) add({name_stem(words[0].text + words[1].text)});
  add(std::move(stems));
}

FoodListing::KeyMatch FoodListing::longest_at(std::span<const NameWord> words, std::size_t at) const {
  KeyMatch best;
  if (at >= words.size()) return best;
  const auto it = keys_.find(words[at].stem);
  if (it == keys_.end()) return best;
  std::size_t most = 0;
  for (const auto& key : it->second)
    if (key.stems.size() > most)
      if (const auto end = end_at(key.stems, words, at); end != 0) {
        best = {end, key.stems.size(), &key.candidates};
        most = key.stems.size();
      }
  return best;
}

bool FoodListing::may_start(std::string_view name_stem) const {
  return keys_.contains(std::string(name_stem)) || food_table().starts_name(name_stem) ||
         kinds_of_category(name_stem).any();
}

void FoodListing::add_related(std::size_t row, std::span<const NameWord> spoken, Candidates& found) const {
  const auto it = related_.find(row);
  if (it == related_.end()) return;
  for (const auto& [ingredient, closeness] : it->second)
    // "onion" is less than "yellow onion" where a red one may be listed too, whatever the table calls it.
    if (!found.contains(ingredient) || !is_bare_ending(ingredient, spoken))
      raise(found, ingredient, closeness);
}

// Are the spoken words the end of the listed name, with words before it that tell more?
bool FoodListing::is_bare_ending(std::size_t ingredient, std::span<const NameWord> spoken) const {
  const auto& stems = listed_[ingredient].stems;
  if (spoken.size() >= stems.size()) return false;
  return std::equal(spoken.rbegin(), spoken.rend(), stems.rbegin(),
                    [](const NameWord& word, const std::string& own) { return word.stem == own; });
}

void FoodListing::add_category(std::string_view name_stem, Candidates& found) const {
  const auto kinds = kinds_of_category(name_stem);
  if (kinds.none()) return;
  for (std::size_t i = 0; i < listed_.size(); ++i) {
    if ((listed_[i].kinds & kinds).none()) continue;
    const auto it = found.find(i);
    if (it == found.end()) found.emplace(i, Closeness::Category);
    // "the cheese" for halloumi is a category word; for cheddar cheese it is its own head noun.
    else if (it->second == Closeness::Head &&
             std::find(listed_[i].stems.begin(), listed_[i].stems.end(), name_stem) == listed_[i].stems.end())
      it->second = Closeness::Category;
  }
}

bool FoodListing::is_contrasted(std::string_view name_stem) const {
  return has_contrasts(name_stem);
}

bool FoodListing::contradicts(std::size_t ingredient, std::string_view modifier,
                              std::span<const NameWord> spoken) const {
  const auto& stems = listed_[ingredient].stems;
  if (std::find(stems.begin(), stems.end(), modifier) != stems.end()) return false;
  return std::any_of(stems.begin(), stems.end(), [&](const std::string& own) {
    return words_contrast(own, modifier) &&
           std::none_of(spoken.begin(), spoken.end(),
                        [&own](const NameWord& word) { return word.stem == own; });
  });
}

void FoodListing::settle_pepper(std::span<const NameWord> words, std::size_t at, Candidates& found) const {
  if (words[at].stem != name_stem("pepper") || found.size() < 2) {
    if (words[at].text != "peppers") return;
  }
  const auto before = [&](std::size_t back) {
    return back > at ? std::string_view{} : std::string_view(words[at - back].text);
  };
  const auto is_one_of = [](std::string_view word, std::initializer_list<std::string_view> some) {
    return std::find(some.begin(), some.end(), word) != some.end();
  };
  const bool counted =
      words[at].text == "peppers" || is_one_of(before(1), {"a", "one", "another", "each", "whole"});
  const bool a_little =
      is_one_of(before(2), {"pinch", "twist", "grind", "grinding", "crack", "dash", "teaspoon", "bit"});
  const bool strewn = is_one_of(before(1), {"salt", "some", "more", "ground", "cracked", "enough"}) ||
                      (before(1) == "and" && before(2) == "salt") || (before(1) == "of" && a_little);
  if (!counted && !strewn) return;
  std::erase_if(found, [&](const auto& candidate) {
    const auto row = listed_[candidate.first].row;
    return row != kNoFood && (food_table().rows()[row].kind == FoodKind::Spice) == counted;
  });
}

void FoodListing::rank(const Candidates& found, FoodMention& mention) const {
  if (found.empty()) return;
  auto best = Closeness::Category;
  for (const auto& [ingredient, closeness] : found) best = std::max(best, closeness);
  mention.match = match_of(best);
  for (const auto& [ingredient, closeness] : found)
    (closeness == best ? mention.ingredients : mention.also).push_back(ingredient);
}

}  // namespace panslate
