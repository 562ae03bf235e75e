#include "recipe/actions.h"

#include <algorithm>
#include <array>
#include <string>
#include <unordered_map>

namespace panslate {

namespace {

struct Verb {
  std::string_view verb;
  ActionKind kind;
};

using enum ActionKind;

// Verbs of the trade: common practice, no source.
constexpr std::array kVerbs = {
    Verb{"bake", Heat},        Verb{"roast", Heat},         Verb{"simmer", Heat},   Verb{"boil", Heat},
    Verb{"fry", Heat},         Verb{"saute", Heat},         Verb{"toast", Heat},    Verb{"grill", Heat},
    Verb{"broil", Heat},       Verb{"braise", Heat},        Verb{"steam", Heat},    Verb{"poach", Heat},
    Verb{"cook", Heat},        Verb{"heat", Heat},          Verb{"preheat", Heat},  Verb{"reheat", Heat},
    Verb{"warm", Heat},        Verb{"sweat", Heat},         Verb{"sear", Heat},     Verb{"brown", Heat},
    Verb{"caramelise", Heat},  Verb{"caramelize", Heat},    Verb{"reduce", Heat},   Verb{"blanch", Heat},
    Verb{"char", Heat},        Verb{"microwave", Heat},     Verb{"stew", Heat},     Verb{"bubble", Heat},
    Verb{"soften", Heat},      Verb{"deep-fry", Heat},      Verb{"smoke", Heat},    Verb{"barbecue", Heat},
    Verb{"parboil", Heat},     Verb{"melt", Heat},          Verb{"scald", Heat},    Verb{"refry", Heat},
    Verb{"fire", Heat},        Verb{"crisp", Heat},         Verb{"griddle", Heat},  Verb{"temper", Heat},
    Verb{"rest", Wait},        Verb{"chill", Wait},         Verb{"soak", Wait},     Verb{"prove", Wait},
    Verb{"proof", Wait},       Verb{"rise", Wait},          Verb{"marinate", Wait}, Verb{"cool", Wait},
    Verb{"refrigerate", Wait}, Verb{"freeze", Wait},        Verb{"stand", Wait},    Verb{"leave", Wait},
    Verb{"set", Wait},         Verb{"infuse", Wait},        Verb{"steep", Wait},    Verb{"ferment", Wait},
    Verb{"wait", Wait},        Verb{"sit", Wait},           Verb{"dry", Wait},      Verb{"cure", Wait},
    Verb{"pickle", Wait},      Verb{"brine", Wait},         Verb{"thaw", Wait},     Verb{"defrost", Wait},
    Verb{"bloom", Wait},       Verb{"hydrate", Wait},       Verb{"macerate", Wait}, Verb{"drain", Wait},
    Verb{"salt", Wait},        Verb{"let", Wait},           Verb{"keep", Wait},     Verb{"store", Wait},
    Verb{"mature", Wait},      Verb{"draw", Wait},          Verb{"hang", Wait},     Verb{"brew", Wait},
    Verb{"autolyse", Wait},    Verb{"relax", Wait},         Verb{"swell", Wait},    Verb{"sprout", Wait},
    Verb{"strain", Wait},      Verb{"firm", Wait},          Verb{"settle", Wait},   Verb{"knead", Work},
    Verb{"whisk", Work},       Verb{"beat", Work},          Verb{"whip", Work},     Verb{"cream", Work},
    Verb{"mix", Work},         Verb{"blend", Work},         Verb{"blitz", Work},    Verb{"pulse", Work},
    Verb{"process", Work},     Verb{"chop", Work},          Verb{"slice", Work},    Verb{"dice", Work},
    Verb{"mince", Work},       Verb{"grate", Work},         Verb{"peel", Work},     Verb{"cut", Work},
    Verb{"add", Work},         Verb{"pour", Work},          Verb{"fold", Work},     Verb{"roll", Work},
    Verb{"shape", Work},       Verb{"divide", Work},        Verb{"spread", Work},   Verb{"sprinkle", Work},
    Verb{"season", Work},      Verb{"combine", Work},       Verb{"place", Work},    Verb{"put", Work},
    Verb{"transfer", Work},    Verb{"serve", Work},         Verb{"mash", Work},     Verb{"crush", Work},
    Verb{"squeeze", Work},     Verb{"rub", Work},           Verb{"press", Work},    Verb{"pound", Work},
    Verb{"grind", Work},       Verb{"crack", Work},         Verb{"separate", Work}, Verb{"sift", Work},
    Verb{"dissolve", Work},    Verb{"drizzle", Work},       Verb{"scatter", Work},  Verb{"garnish", Work},
    Verb{"top", Work},         Verb{"fill", Work},          Verb{"stuff", Work},    Verb{"layer", Work},
    Verb{"arrange", Work},     Verb{"cover", Work},         Verb{"remove", Work},   Verb{"take", Work},
    Verb{"discard", Work},     Verb{"rinse", Work},         Verb{"wash", Work},     Verb{"trim", Work},
    Verb{"dust", Work},        Verb{"grease", Work},        Verb{"line", Work},     Verb{"butter", Work},
    Verb{"oil", Work},         Verb{"prick", Work},         Verb{"score", Work},    Verb{"dip", Work},
    Verb{"coat", Work},        Verb{"dredge", Work},        Verb{"assemble", Work}, Verb{"prepare", Work},
    Verb{"make", Work},        Verb{"bring", Work},         Verb{"lower", Work},    Verb{"increase", Work},
    Verb{"raise", Work},       Verb{"return", Work},        Verb{"continue", Work}, Verb{"repeat", Work},
    Verb{"work", Work},        Verb{"process", Work},       Verb{"puree", Work},    Verb{"shred", Work},
    Verb{"tear", Work},        Verb{"halve", Work},         Verb{"quarter", Work},  Verb{"core", Work},
    Verb{"pit", Work},         Verb{"juice", Work},         Verb{"zest", Work},     Verb{"measure", Work},
    Verb{"weigh", Work},       Verb{"ladle", Work},         Verb{"spoon", Work},    Verb{"deglaze", Work},
    Verb{"throw", Work},       Verb{"tip", Work},           Verb{"scrape", Work},   Verb{"lay", Work},
    Verb{"wrap", Work},        Verb{"seal", Work},          Verb{"crimp", Work},    Verb{"brush", Work},
    Verb{"glaze", Work},       Verb{"decorate", Work},      Verb{"pile", Work},     Verb{"use", Work},
    Verb{"start", Work},       Verb{"turn", Attend},        Verb{"stir", Attend},   Verb{"toss", Attend},
    Verb{"flip", Attend},      Verb{"baste", Attend},       Verb{"shake", Attend},  Verb{"check", Attend},
    Verb{"swirl", Attend},     Verb{"skim", Attend},        Verb{"rotate", Attend}, Verb{"reserve", Work},
    Verb{"taste", Attend},     Verb{"enjoy", Work},         Verb{"pop", Work},      Verb{"gather", Work},
    Verb{"form", Work},        Verb{"pat", Work},           Verb{"open", Work},     Verb{"dunk", Work},
    Verb{"massage", Work},     Verb{"truss", Work},         Verb{"lift", Work},     Verb{"slide", Work},
    Verb{"slow-cook", Heat},   Verb{"pressure-cook", Heat}, Verb{"stir-fry", Heat}, Verb{"pan-fry", Heat},
    Verb{"switch", Work},      Verb{"tie", Work},           Verb{"skewer", Work},   Verb{"drop", Work},
    Verb{"plunge", Work},      Verb{"submerge", Work},
};

bool vowel(char c) {
  return c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u';
}

bool doubles_last(std::string_view verb) {
  if (verb.size() < 3) return false;
  // "simmering", "seasoning": only a stressed last syllable doubles.
  if (std::count_if(verb.begin(), verb.end(), vowel) > 1) return false;
  const char last = verb.back();
  const auto before = verb[verb.size() - 2];
  const auto third = verb[verb.size() - 3];
  return !vowel(last) && last != 'w' && last != 'y' && last != 'x' && vowel(before) && !vowel(third);
}

// Irregular pasts that a method uses.
constexpr std::array<std::pair<std::string_view, std::string_view>, 14> kIrregular = {{
    {"left", "leave"},
    {"risen", "rise"},
    {"frozen", "freeze"},
    {"beaten", "beat"},
    {"ground", "grind"},
    {"taken", "take"},
    {"torn", "tear"},
    {"made", "make"},
    {"kept", "keep"},
    {"brought", "bring"},
    {"stood", "stand"},
    {"sat", "sit"},
    {"hung", "hang"},
    {"proven", "prove"},
}};

std::unordered_map<std::string, Action> all_forms() {
  std::unordered_map<std::string, Action> forms;
  for (const auto& [verb, kind] : kVerbs) {
    const std::string base(verb);
    const bool ends_e = base.back() == 'e';
    const bool ends_y = base.back() == 'y' && !vowel(base[base.size() - 2]);
    const std::string cut = ends_e || ends_y ? base.substr(0, base.size() - 1) : base;
    const std::string stem = doubles_last(base) ? base + base.back() : base;
    forms.try_emplace(base, Action{kind, verb, false, false});
    forms.try_emplace(base + "s", Action{kind, verb, false, false});
    forms.try_emplace((ends_e ? cut : stem) + "ing", Action{kind, verb, true, false});
    forms.try_emplace(ends_e   ? base + "d"
                      : ends_y ? cut + "ied"
                               : stem + "ed",
                      Action{kind, verb, false, true});
  }
  for (const auto& [form, verb] : kIrregular) {
    const auto base = forms.find(std::string(verb));
    if (base != forms.end())
      forms.try_emplace(std::string(form), Action{base->second.kind, verb, false, true});
  }
  return forms;
}

}  // namespace

Action action_of(std::string_view folded_word) {
  static const auto forms = all_forms();
  const auto found = forms.find(std::string(folded_word));
  return found == forms.end() ? Action{} : found->second;
}

}  // namespace panslate
