#include "check/kitchen_words.h"

#include <string_view>
#include <unordered_set>

#include "panslate/kitchen/food.h"

namespace panslate {

namespace {

// Common practice, no source.
constexpr std::string_view kWords =
    "add allergy american apron bag bake ball band barbecue base bash batch batter beat "
    "beautiful bin bit bite bitter blend blender blitz blunt board boil bottom bowl breakfast "
    "brilliant british brown bubble bulb bun burner cake calorie camera capacity casserole center centre "
    "check chef child chill chinese chop chopper chuck chunk circle clean cleaver cling clock "
    "close cloth coat cocktail colander cold color colour cook cooker cool core corer corner "
    "counter couple course cover crepe crimp crisp crumb crunch crunchy crush crusher crust cube "
    "cupboard cupcake cut cutter dad dairy dark dash day delicious dessert diameter dice diet "
    "dinner dip direction dirty disc dish dollop door dough drain drawer dressing drizzle drop "
    "dry dunk dust easy eat edge electric end english enjoy evening everyone fabric family "
    "fan fantastic few fill filling film finger flame flavor flavour flip floor foam foil "
    "fold fork free freeze freezer french fridge friend fritter froth fry funnel galette garden "
    "gas german glaze glove glug gluten golden gorgeous grab grain grate grater gratin grease "
    "greaseproof greek grill grind half hand handful hard head healthy heaped heat heavy high "
    "hob hold hot hungry husband icing indian induction ingredient inside irish italian japanese jar "
    "jigger keep kettle kid kind knead knife knob korean label ladle lay layer leaf "
    "leave lebanese level lid lift light line liquid listen loaf look lot low lower "
    "lump lunch mandoline marinade market mash meal medium melt method mexican microwave middle mild "
    "minute mix mixer mixture morning moroccan mortar muffin mum night open outside oven packet "
    "pale palm pan pancake paper parchment part paste patty peel peeler people perfect persian "
    "pestle phone pick pie piece pin pinch pith place plate plateful plenty poach poke "
    "polish pop portion pot pour press processor prod protein prove pudding pull pulse push "
    "quarter quick rack ramekin recipe reduce rest ribbon rim ring rinse rise roast roll "
    "rolling root rough round rubber runny russian salad salty sauce saucepan save scoop scottish "
    "scrape scrub sear season second seed serve serving set setting shake shape share sharp "
    "sheet shelf shop shred side sieve simmer simple sink sit size skewer skillet skin "
    "slice slow slug smash smear smell smoker smooth snack soft soften sort soup sour "
    "spanish spatula spicy splash spoon spread springform stalk stand starter steam steamer stem stew "
    "stick sticky stir stock stone store stovetop strain strainer stretch string strip stuff summer "
    "supermarket supper surface sweat sweet swirl table tagine tap taste tea tear texture thai "
    "thaw thermometer thick thicken thin thing third throw thumb tidy time timer tin tip "
    "toast toaster tong toothpick top topping towel tray traybake trickle trim tuck turkish turn "
    "twine vegan vegetarian wait warm wash watch water way week weight welsh wet while "
    "whip whisk whole wholegrain wholemeal wife window winter wipe wok worktop wrap wrist year zester ";

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
