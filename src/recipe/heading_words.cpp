#include "recipe/heading_words.h"

#include <algorithm>
#include <vector>

#include "panslate/base/text.h"

#include "recipe/word_list.h"

namespace panslate {

namespace {

// Words of the trade: common practice, no source.
constexpr std::string_view kIngredients =
    "|ingredients|ingredient|ingredient list|ingredients list|list of ingredients|the ingredients|"
    "what you need|what you will need|what you'll need|you will need|you'll need|you need|"
    "shopping list|what goes in|what goes into it|what's in it|recipe ingredients|";

constexpr std::string_view kMethod =
    "|method|methods|the method|directions|direction|instructions|instruction|preparation|"
    "preparations|steps|the steps|procedure|procedures|process|how to make it|how to make this|"
    "how to|how to cook it|how to do it|how it's made|how to prepare|how to make|making it|"
    "what to do|to make|let's cook|preparation method|preparation steps|cooking instructions|"
    "cooking method|cooking directions|cooking steps|recipe steps|step by step|step-by-step|"
    "what you do|here's how|step by step method|making and baking|step-by-step instructions|";

constexpr std::string_view kNotes =
    "|note|notes|recipe notes|cook's notes|cooks notes|tip|tips|top tips|top tip|cook's tips|"
    "cook's tip|chef's tips|hints|storage|storing|to store|how to store|keeping|leftovers|"
    "make ahead|make-ahead|freezing|variations|variation|variants|substitutions|swaps|"
    "serving suggestions|serving suggestion|served with|serve with|nutrition|"
    "nutritional information|nutrition information|nutrition facts|allergens|allergen information|"
    "about|about this recipe|background|comments|faq|questions|source|sources|credits|credit|"
    "references|see also|storage and reheating|introduction|history|consumption recommendation|"
    "storage notes|remarks|good to know|allergies|related recipes|more recipes|you may also like|"
    "you might also like|leave a reply|leave a comment|reviews|newsletter|share this|did you make this|"
    "did you make this recipe|about the author|popular recipes|latest recipes|";

constexpr std::string_view kEquipment =
    "|equipment|tools|utensils|special equipment|equipment needed|kit|kitchen tools|"
    "you will need (equipment)|hardware|cookware|equipment list|tools needed|";

bool listed(std::string_view words, std::string_view word) {
  return !word.empty() && word.find('|') == std::string_view::npos &&
         words.find("|" + std::string(word) + "|") != std::string_view::npos;
}

// Letters, digits, inner marks; outer marks, pictures and a bracket at the end are gone.
std::string bare_words(std::string_view heading) {
  std::string folded = fold_accents(heading);
  for (std::size_t at = 0; (at = folded.find("\xE2\x80\x99")) != std::string::npos;)
    folded.replace(at, 3, "'");
  const auto bracket = folded.find('(');
  if (bracket != std::string::npos && bracket > 0) folded.resize(bracket);
  const auto is_inner = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0xC3;
  };
  std::size_t begin = 0;
  while (begin < folded.size()) {
    const auto [value, next] = code_point_at(folded, begin);
    if (is_word_character(value)) break;
    begin = next;
  }
  std::size_t end = folded.size();
  while (end > begin && !is_inner(folded[end - 1])) --end;
  return collapse_spaces(std::string_view(folded).substr(begin, end - begin));
}

std::vector<std::string> words_of(std::string_view text) {
  auto words = split(text, ' ');
  for (auto& word : words)
    while (!word.empty() && std::string_view(":,.;-").find(word.back()) != std::string_view::npos)
      word.pop_back();
  return words;
}

bool has_word(const std::vector<std::string>& words, std::initializer_list<std::string_view> wanted) {
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return std::find(wanted.begin(), wanted.end(), word) != wanted.end();
  });
}

SectionKind listed_section(std::string_view bare) {
  if (listed(kIngredients, bare)) return SectionKind::Ingredients;
  if (listed(kMethod, bare)) return SectionKind::Method;
  if (listed(kNotes, bare)) return SectionKind::Notes;
  if (listed(kEquipment, bare)) return SectionKind::Equipment;
  return SectionKind::None;
}

constexpr std::size_t kLongestHeading = 80;

}  // namespace

SectionKind section_of(std::string_view heading, HeadingShape shape) {
  if (heading.size() > kLongestHeading) return SectionKind::None;
  const auto bare = bare_words(heading);
  if (const auto kind = listed_section(bare); kind != SectionKind::None) return kind;
  if (starts_with(bare, "ingredients for ") && words_of(bare).size() <= 6) return SectionKind::Ingredients;
  if (shape == HeadingShape::Bare) return SectionKind::None;
  const auto words = words_of(bare);
  if (has_word(words, {"note", "notes", "tip", "tips", "variations", "nutrition", "storage", "substitutions",
                       "faq", "faqs", "leftovers"}))
    return SectionKind::Notes;
  if (has_word(words, {"equipment", "utensils"})) return SectionKind::Equipment;
  if (has_word(words, {"ingredients", "ingredient"})) return SectionKind::Ingredients;
  if (starts_with(bare, "how to store") || starts_with(bare, "how to freeze") ||
      starts_with(bare, "how to serve"))
    return SectionKind::Notes;
  if (has_word(words, {"method", "directions", "instructions", "procedure"}) ||
      starts_with(bare, "how to make") || starts_with(bare, "how to cook") ||
      starts_with(bare, "how to prepare") || starts_with(bare, "how i make"))
    return SectionKind::Method;
  return SectionKind::None;
}

std::size_t inline_section(std::string_view line, SectionKind& kind) {
  constexpr std::size_t kLongestWord = 24;
  const auto colon = line.substr(0, kLongestWord).find(':');
  if (colon == std::string_view::npos || trim(line.substr(colon + 1)).empty()) return 0;
  kind = listed_section(bare_words(line.substr(0, colon)));
  if (kind != SectionKind::Ingredients && kind != SectionKind::Method) return 0;
  return colon + 1;
}

std::string part_in_section_heading(std::string_view heading) {
  const auto bare = bare_words(heading);
  if (listed_section(bare) != SectionKind::None) return {};
  const auto shown = group_name(heading.substr(0, heading.find('(')));
  const auto folded = fold_case(shown);
  for (const std::string_view word : {"ingredients", "method", "directions", "instructions"}) {
    const auto at = folded.find(word);
    if (at == std::string::npos || folded.size() != shown.size()) continue;
    auto rest = std::string(trim(std::string_view(shown).substr(at + word.size())));
    auto start = std::string(trim(std::string_view(shown).substr(0, at)));
    const auto folded_rest = fold_case(rest);
    if (!rest.empty() && (rest[0] == ':' || rest[0] == '-'))
      rest = std::string(trim(std::string_view(rest).substr(1)));
    if (starts_with(folded_rest, "for ")) rest[0] = 'F';
    if (!rest.empty()) return rest;
    const auto folded_start = fold_case(start);
    if (folded_start == "the" || folded_start == "main" || folded_start == "my") return {};
    return start;
  }
  return {};
}

std::string group_name(std::string_view heading) {
  auto name = trim(heading);
  while (!name.empty()) {
    const auto [value, next] = code_point_at(name, 0);
    if (is_word_character(value) || value == U'"' || value == U'(' || value == 0x201C || value == 0x2018)
      break;
    name.remove_prefix(next);
  }
  name = trim(name);
  while (!name.empty() && (name.back() == ':' || name.back() == '-'))
    name = trim(name.substr(0, name.size() - 1));
  return std::string(name);
}

std::string part_name(std::string_view heading) {
  auto name = group_name(heading);
  const auto folded = fold_case(name);
  if (folded.size() != name.size()) return name;
  for (const std::string_view start : {"for the ", "to make the ", "make the ", "for a ", "for "})
    if (starts_with(folded, start)) return name.substr(start.size());
  return name;
}

bool is_aside(std::string_view line) {
  const auto colon = line.substr(0, 24).find_first_of(":-");
  const auto folded = bare_words(line.substr(0, colon == std::string_view::npos ? 6 : colon));
  if (colon == std::string_view::npos) return starts_with(fold_case(line.substr(0, 5)), "note ");
  for (const std::string_view word :
       {"note", "notes", "tip", "top tip", "n.b", "nb", "hint", "cook's note", "cook's tip", "side note",
        "ps", "p.s", "variation", "storage", "credits", "source"})
    if (folded == word) return true;
  for (const std::string_view start :
       {"nutrition", "calories", "per serving", "allergen", "serving suggestion", "make ahead", "to store",
        "to freeze", "leftovers"})
    if (starts_with(folded, start)) return line[colon] == ':';
  return false;
}

}  // namespace panslate
