#include "check/kitchen_words.h"

#include <string_view>
#include <unordered_set>

#include "panslate/kitchen/food.h"

namespace panslate {

namespace {

// Common practice, no source.
constexpr std::string_view kWords =
    "add american bag bake ball base bash batch batter beat bin bit bite bitter "
    "blend blender blitz blunt board boil bottom bowl breakfast british brown bubble bulb bun "
    "cake camera capacity center centre check child chill chinese chop chuck chunk circle clean "
    "clock close cloth coat colander cold color colour cool core corner counter couple course "
    "cover crimp crisp crumb crunch crunchy crush crust cube cupboard cut dad dark dash "
    "day dessert diameter dice dinner dip direction dirty disc dish dollop door dough drain "
    "drawer dressing drizzle drop dry dunk dust eat edge end english enjoy evening everyone "
    "fabric family few fill filling film finger flavor flavour flip floor foam foil fold "
    "fork freeze freezer french fridge friend froth fry garden german glaze glug golden grab "
    "grain grate grater grease greek grill grind half hand handful hard head heaped heat "
    "heavy high hob hold hot hungry husband icing indian inside irish italian japanese jar "
    "jigger keep kid kind knead knife knob korean ladle lay layer leaf leave lebanese "
    "level lid lift light line liquid listen loaf look lot low lower lump lunch "
    "marinade market mash meal medium melt mexican middle mild minute mix mixer mixture morning "
    "moroccan mum night open outside oven pale palm pan paper part paste peel peeler "
    "people persian phone pick pie piece pinch pith place plate plateful plenty poach poke "
    "polish pop portion pot pour press processor prod prove pudding pull pulse push quarter "
    "rack reduce rest ribbon rim ring rinse rise roast roll root rough round runny "
    "russian salad salty sauce save scoop scottish scrape scrub sear season second seed serve "
    "serving set shake shape share sharp sheet shelf shop shred side sieve simmer sink "
    "sit size skin slice slug smash smear smell smooth snack soft soften sort soup "
    "sour spanish spatula spicy splash spoon spread stalk stand starter steam stem stew sticky "
    "stir stock stone store strain stretch strip stuff summer supermarket supper surface sweat sweet "
    "swirl table tap taste tea tear texture thai thaw thick thicken thin thing third "
    "throw thumb tidy time timer tin tip toast top topping towel tray trickle trim "
    "tuck turkish turn wait warm wash watch water way week weight welsh wet while "
    "whip whisk whole wife window winter wipe worktop wrap wrist year ";

std::unordered_set<std::string> stems_of_words() {
  std::unordered_set<std::string> stems;
  for (std::size_t begin = 0; begin < kWords.size();) {
    const auto end = kWords.find(' ', begin);
    stems.insert(stem(kWords.substr(begin, end - begin)));
    begin = end + 1;
  }
  return stems;
}

}  // namespace

bool is_kitchen_word(const std::string& folded_word) {
  static const auto kStems = stems_of_words();
  return kStems.contains(stem(folded_word));
}

}  // namespace panslate
