#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/food_traits.h"
#include "panslate/kitchen/token.h"

#include "recipe/findings.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

// A trait and the line it comes from. What only may stand in for another food is never certain.
struct LineTrait {
  std::size_t ingredient = 0;
  FoodTrait trait;
};

std::vector<LineTrait> traits_of_lines(const Recipe& recipe) {
  std::vector<LineTrait> all;
  for (std::size_t i = 0; i < recipe.ingredients.size(); ++i) {
    const auto& ingredient = recipe.ingredients[i];
    std::map<std::string_view, FoodTrait> best;
    const auto take = [&](const std::string& name, const std::string& line, bool instead) {
      for (auto trait : food_traits(name, line)) {
        if (instead) trait.certain = false, trait.breaks_claim = false;
        const auto [at, is_new] = best.try_emplace(trait.subject, trait);
        if (!is_new && trait.certain > at->second.certain) at->second = trait;
      }
    };
    // "butter or margarine": each food by itself, so that the words of one do not excuse the other.
    const bool choice = !ingredient.or_foods.empty();
    if (choice) {
      for (const auto& food : ingredient.foods) take(food, food, false);
      for (const auto& food : ingredient.or_foods) take(food, food, true);
      take(ingredient.name, ingredient.text, true);
    } else {
      take(ingredient.name, ingredient.text, false);
      for (const auto& food : ingredient.foods)
        if (food != ingredient.name) take(food, food, false);
    }
    for (const auto& [subject, trait] : best) all.push_back({i, trait});
  }
  return all;
}

void list_allergens(const ReadContext& context, const std::vector<LineTrait>& traits) {
  const auto& unlisted = context.flow().unlisted;
  for (const auto& allergen : all_allergens()) {
    AllergenFinding found;
    found.id = std::string(allergen.id);
    bool eu = false;
    bool us = false;
    for (const auto& [ingredient, trait] : traits) {
      if (trait.subject != allergen.id) continue;
      (trait.certain ? found.certain : found.check_label).push_back(ingredient);
      eu = eu || trait.in_eu;
      us = us || trait.in_us;
    }
    for (std::size_t u = 0; u < unlisted.size(); ++u)
      for (const auto& trait : food_traits(unlisted[u].name, unlisted[u].name))
        if (trait.subject == allergen.id && trait.certain) {
          found.in_method.push_back(u);
          eu = eu || trait.in_eu;
          us = us || trait.in_us;
        }
    if (found.certain.empty() && found.check_label.empty() && found.in_method.empty()) continue;
    if (eu) found.lists.emplace_back("EU");
    if (us) found.lists.emplace_back("US");
    context.reading.allergens.push_back(std::move(found));
  }
}

struct Claimed {
  const DietClaim* claim = nullptr;
  std::string words;  // as written
  int line = 0;
};

class ClaimReader {
 public:
  explicit ClaimReader(const Recipe& recipe) {
    in_text(recipe.title, recipe.title_line, true);
    for (const auto& tag : recipe.tags) in_text(tag.text, tag.line, true);
    for (const auto& line : recipe.header_lines) in_text(line.text, line.line, false);
    for (const auto& line : recipe.introduction) in_text(line.text, line.line, false);
    for (const auto& note : recipe.placed_notes) in_text(note.text, note.line, false);
  }

  [[nodiscard]] const std::vector<Claimed>& claims() const { return claims_; }

 private:
  void in_text(const std::string& text, int line, bool is_label) {
    const auto tokens = tokenize(text);
    std::vector<std::string> words;
    std::vector<std::size_t> at;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
      if (tokens[i].text == "-" && !tokens[i].space_before) continue;
      words.push_back(tokens[i].text);
      at.push_back(i);
    }
    for (const auto& phrase : claim_phrases())
      if (phrase.words.size() <= words.size()) find(phrase, text, line, is_label, tokens, words, at);
  }

  // The words of a claim, cut once.
  struct ClaimPhrase {
    const DietClaim* claim = nullptr;
    std::vector<std::string> words;  // folded, without hyphens
  };
  static const std::vector<ClaimPhrase>& claim_phrases() {
    static const auto kPhrases = [] {
      std::vector<ClaimPhrase> all;
      for (const auto& claim : all_diet_claims())
        for (const auto words : claim.words) {
          ClaimPhrase phrase{&claim, {}};
          for (const auto& token : tokenize(words))
            if (token.text != "-") phrase.words.push_back(token.text);
          if (!phrase.words.empty()) all.push_back(std::move(phrase));
        }
      return all;
    }();
    return kPhrases;
  }

  void find(const ClaimPhrase& phrase, const std::string& text, int line, bool is_label,
            const std::vector<Token>& tokens, const std::vector<std::string>& words,
            const std::vector<std::size_t>& at) {
    const auto& wanted = phrase.words;
    const auto& claim = *phrase.claim;
    for (std::size_t i = 0; i + wanted.size() <= words.size(); ++i) {
      if (!std::equal(wanted.begin(), wanted.end(), words.begin() + static_cast<std::ptrdiff_t>(i))) continue;
      if (!is_label && !is_said_of_dish(words, i, i + wanted.size())) continue;
      if (is_denied(words, i)) continue;
      Claimed found{&claim, {}, line};
      const auto begin = tokens[at[i]].begin;
      const auto end = tokens[at[i + wanted.size() - 1]].end;
      found.words = text.substr(begin, end - begin);
      add(std::move(found));
      return;
    }
  }

  // Each claim once: what no list decides by its own words.
  void add(Claimed found) {
    const auto folded = fold_accents(found.words);
    std::string key(found.claim->id);
    for (const char c : key.empty() ? folded : std::string{}) key += c == '-' ? ' ' : c;
    if (told_.insert(key).second) claims_.push_back(std::move(found));
  }

  static bool is_denied(const std::vector<std::string>& words, std::size_t at) {
    for (auto i = at; i-- > 0 && at - i < 4;) {
      if (is_one_of(words[i], {"not", "isn't", "never", "non", "nor", "n't"})) return true;
      if (is_one_of(words[i], {".", ",", ";"})) return false;
    }
    return false;
  }

  // "For a vegan version, use oil", "can be made gluten-free", "use gluten-free flour if you need to", "for
  // my vegan friends": spoken of, not claimed.
  static bool is_said_of_dish(const std::vector<std::string>& words, std::size_t begin, std::size_t end) {
    std::size_t first = begin;
    while (first > 0 && !is_one_of(words[first - 1], {".", "!", "?", ";"})) --first;
    std::size_t last = end;
    while (last < words.size() && !is_one_of(words[last], {".", "!", "?", ";"})) ++last;
    for (auto i = first; i < last; ++i)
      if (is_one_of(words[i],
                    {"version",     "option",  "can",   "could",  "if",        "swap",        "substitute",
                     "replace",     "instead", "use",   "using",  "make",      "alternative", "alternatively",
                     "guests",      "friends", "need",  "want",   "prefer",    "adapt",       "or",
                     "sub",         "buy",     "check", "choose", "unless",    "eaters",      "vegans",
                     "vegetarians", "would",   "may",   "might",  "available", "look",        "try"}))
        return false;
    // "with vegan butter": a food, not the dish.
    return end >= words.size() ||
           !is_one_of(words[end], {"butter", "flour",       "milk",      "cheese",  "cream",     "sausages",
                                   "mince",  "stock",       "yogurt",    "yoghurt", "bread",     "pasta",
                                   "oats",   "mayonnaise",  "chocolate", "spread",  "margarine", "soy",
                                   "tamari", "breadcrumbs", "self",      "plain",   "family",    "diet",
                                   "people", "salt",        "people's",  "sauce",   "fat",       "appetite"});
  }

  std::vector<Claimed> claims_;
  std::set<std::string> told_;
};

bool is_against(const DietClaim& claim, std::string_view subject) {
  return std::find(claim.against.begin(), claim.against.end(), subject) != claim.against.end();
}

std::string line_list(const Recipe& recipe, const std::vector<std::size_t>& ingredients) {
  std::string text;
  for (const auto i : ingredients) {
    if (!text.empty()) text += ", ";
    text += recipe.ingredients[i].name;
    if (recipe.ingredients[i].line > 0) text += " (" + line_name(recipe.ingredients[i].line) + ")";
  }
  return text;
}

bool limits_cover_all(const ReadContext& context) {
  if (context.options.limits == nullptr || context.options.limits->limits.empty()) return false;
  const auto& servings = context.reading.per_serving;
  std::set<std::size_t> covered;
  for (const auto& serving : servings)
    if (serving.within) covered.insert(serving.ingredient);
  for (std::size_t i = 0; i < context.recipe.ingredients.size(); ++i) {
    const auto name = fold_accents(context.recipe.ingredients[i].name);
    const bool counts = name.find("water") == std::string::npos && name != "salt" && name != "pepper" &&
                        name != "salt and pepper" && name != "sea salt";
    if (counts && !covered.contains(i)) return false;
  }
  return true;
}

void judge(const ReadContext& context, const Claimed& claimed, const std::vector<LineTrait>& traits) {
  const auto& recipe = context.recipe;
  const auto& claim = *claimed.claim;
  std::vector<std::size_t> against, by_label;
  std::string source;
  for (const auto& [ingredient, trait] : traits) {
    if (!is_against(claim, trait.subject)) continue;
    const bool optional = recipe.ingredients[ingredient].optional;
    auto& list = trait.breaks_claim && !optional ? against : by_label;
    if (list.empty() || list.back() != ingredient) list.push_back(ingredient);
    if (trait.breaks_claim && source.empty()) source = std::string(trait.source);
  }
  std::erase_if(by_label,
                [&](std::size_t i) { return std::find(against.begin(), against.end(), i) != against.end(); });
  std::string foods = line_list(recipe, against);
  for (const auto& food : context.flow().unlisted)
    for (const auto& trait : food_traits(food.name, food.name))
      if (is_against(claim, trait.subject) && trait.breaks_claim) {
        if (source.empty()) source = std::string(trait.source);
        foods += (foods.empty() ? "" : ", ") + food.name + " (step " +
                 std::to_string(recipe.steps[food.step].number) + ")";
        break;
      }
  if (!foods.empty()) {
    auto& finding =
        context.at_line(claimed.line, "claim-contradicted", ReadLevel::Error,
                        "The recipe is said to be \"" + claimed.words + "\", but takes " + foods + ".");
    finding.advice = "Take back the claim, or use another food.";
    finding.source = source;
  }
  if (!by_label.empty()) {
    auto& finding = context.at_line(claimed.line, "claim-needs-label", ReadLevel::Note,
                                    "Whether it is \"" + claimed.words + "\" depends on the label of " +
                                        line_list(recipe, by_label) + ".");
    finding.advice = "Say which product you use, and tell cooks to check the label.";
    finding.source = std::string(claim.source);
  }
}

}  // namespace

void find_claim_faults(const ReadContext& context) {
  const auto traits = traits_of_lines(context.recipe);
  list_allergens(context, traits);
  const ClaimReader reader(context.recipe);
  for (const auto& claimed : reader.claims()) {
    if (!claimed.claim->against.empty()) {
      judge(context, claimed, traits);
      continue;
    }
    if (limits_cover_all(context)) continue;
    auto& finding = context.at_line(claimed.line, "claim-not-checked", ReadLevel::Note,
                                    "\"" + claimed.words + "\" is not checked: no list of foods decides it.");
    finding.advice =
        "It is a matter for the diet's own authority and a dietitian; your own limits can be compared with "
        "--limits.";
    finding.source = std::string(claimed.claim->source);
  }
}

}  // namespace panslate
