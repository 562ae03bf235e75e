// How spoken words name the foods of a recipe. Each row was judged by hand as a cook would.
#include "panslate/kitchen/food_names.h"

#include <chrono>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "panslate/base/text.h"

namespace panslate {
namespace {

struct NameCase {
  std::string listed;  // ingredients separated by " | "
  std::string spoken;
  std::string expected;
};

std::string_view to_word(NameMatch match) {
  switch (match) {
    case NameMatch::None:
      return "none";
    case NameMatch::Category:
      return "category";
    case NameMatch::Variety:
      return "variety";
    case NameMatch::Head:
      return "head";
    case NameMatch::Regional:
      return "regional";
    case NameMatch::Synonym:
      return "synonym";
    case NameMatch::Exact:
      return "exact";
  }
  return "?";
}

// Mentions as "words=match:ingredients", other foods as "words=other", separated by "; ".
std::string found_in(const NameCase& name_case) {
  std::vector<std::string> listed;
  for (const auto& part : split(name_case.listed, '|')) listed.emplace_back(trim(part));
  std::vector<std::string> words = split(fold_accents(name_case.spoken), ' ');
  const FoodNames names(listed);
  std::vector<std::string> out;
  for (const auto& mention : names.scan(words)) {
    const auto begin = words.begin() + static_cast<std::ptrdiff_t>(mention.begin);
    std::string text = join({begin, begin + static_cast<std::ptrdiff_t>(mention.length)}, " ") + "=";
    if (mention.match == NameMatch::None)
      text += "other";
    else {
      text += std::string(to_word(mention.match)) + ":";
      for (std::size_t i = 0; i < mention.ingredients.size(); ++i)
        text += (i == 0 ? "" : "+") + listed[mention.ingredients[i]];
    }
    out.push_back(text);
  }
  return join(out, "; ");
}

const std::vector<NameCase> kCases{
    // Its own words, singular and plural, accents, possessives.
    {"onions", "chop the onion", "onion=exact:onions"},
    {"onion", "chop the onions", "onions=exact:onion"},
    {"bay leaves", "drop in a bay leaf", "bay leaf=exact:bay leaves"},
    {"bay leaf", "two bay leaves", "bay leaves=exact:bay leaf"},
    {"jalapeño", "slice the jalapenos", "jalapenos=exact:jalapeño"},
    {"crème fraîche", "a spoon of creme fraiche", "creme fraiche=exact:crème fraîche"},
    {"goat's cheese", "crumble the goats cheese", "goats cheese=exact:goat's cheese"},
    {"goat's cheese", "crumble the goat cheese", "goat cheese=exact:goat's cheese"},
    {"baker's yeast", "the baker's yeast", "baker's yeast=exact:baker's yeast"},
    {"strawberries", "hull each strawberry", "strawberry=exact:strawberries"},
    {"anchovies", "one anchovy", "anchovy=exact:anchovies"},
    {"tomatoes", "a tomato", "tomato=exact:tomatoes"},
    {"leeks", "wash the leeks", "leeks=exact:leeks"},
    {"radishes", "a radish", "radish=exact:radishes"},
    {"green chillies", "a green chilli", "green chilli=exact:green chillies"},
    {"za'atar", "sprinkle with zaatar", "zaatar=exact:za'atar"},
    // Synonyms across kitchens.
    {"aubergines", "slice the eggplant", "eggplant=synonym:aubergines"},
    {"coriander", "chop the cilantro", "cilantro=synonym:coriander"},
    {"caster sugar", "superfine sugar", "superfine sugar=synonym:caster sugar"},
    {"bicarbonate of soda", "a teaspoon of baking soda", "baking soda=synonym:bicarbonate of soda"},
    {"bicarbonate of soda", "the bicarb", "bicarb=synonym:bicarbonate of soda"},
    {"spring onions", "the scallions", "scallions=synonym:spring onions"},
    {"spring onions", "slice a green onion", "green onion=synonym:spring onions"},
    {"beef mince", "brown the ground beef", "ground beef=synonym:beef mince"},
    {"double cream", "whip the heavy cream", "heavy cream=synonym:double cream"},
    {"prawns", "peel the shrimp", "shrimp=synonym:prawns"},
    {"plain flour", "all purpose flour", "all purpose flour=synonym:plain flour"},
    {"plain flour", "all-purpose flour", "all-purpose flour=synonym:plain flour"},
    {"rocket", "a handful of arugula", "arugula=synonym:rocket"},
    {"swede", "dice the rutabaga", "rutabaga=synonym:swede"},
    {"courgettes", "grate the zucchini", "zucchini=synonym:courgettes"},
    {"beetroot", "roast the beets", "beets=synonym:beetroot"},
    {"icing sugar", "dust with powdered sugar", "powdered sugar=synonym:icing sugar"},
    {"icing sugar", "the confectioners' sugar", "confectioners' sugar=synonym:icing sugar"},
    {"chickpeas", "drain the garbanzos", "garbanzos=synonym:chickpeas"},
    {"chickpeas", "drain the garbanzo beans", "garbanzo beans=synonym:chickpeas"},
    {"broad beans", "pod the fava beans", "fava beans=synonym:broad beans"},
    {"gherkins", "a chopped dill pickle", "dill pickle=synonym:gherkins"},
    {"sultanas", "the golden raisins", "golden raisins=synonym:sultanas"},
    {"wholemeal flour", "whole wheat flour", "whole wheat flour=synonym:wholemeal flour"},
    {"natural yoghurt", "plain yogurt", "plain yogurt=synonym:natural yoghurt"},
    {"yogurt", "the yoghurt", "yoghurt=synonym:yogurt"},
    {"potatoes", "peel the spuds", "spuds=synonym:potatoes"},
    {"potatoes", "boil the tatties", "tatties=synonym:potatoes"},
    {"tomatoes", "halve the toms", "toms=synonym:tomatoes"},
    {"margarine", "melt the marge", "marge=synonym:margarine"},
    {"extra-virgin olive oil", "a glug of evoo", "evoo=synonym:extra-virgin olive oil"},
    {"parmesan", "grate the parm", "parm=synonym:parmesan"},
    {"gram flour", "sift the besan", "besan=synonym:gram flour"},
    {"cumin seeds", "toast the jeera", "jeera=synonym:cumin seeds"},
    {"asafoetida", "a pinch of hing", "hing=synonym:asafoetida"},
    {"okra", "slice the bhindi", "bhindi=synonym:okra"},
    {"filo pastry", "phyllo", "phyllo=synonym:filo pastry"},
    {"stock", "pour in the broth", "broth=synonym:stock"},
    {"makrut lime leaves", "tear the kaffir lime leaves", "kaffir lime leaves=synonym:makrut lime leaves"},
    {"soya milk", "the soy milk", "soy milk=synonym:soya milk"},
    {"ground almonds", "the almond flour", "almond flour=synonym:ground almonds"},
    {"ground flaxseed", "milled linseed", "milled linseed=synonym:ground flaxseed"},
    {"nutritional yeast", "nooch", "nooch=synonym:nutritional yeast"},
    {"red pepper flakes", "chilli flakes", "chilli flakes=synonym:red pepper flakes"},
    {"red pepper", "a red capsicum", "red capsicum=synonym:red pepper"},
    {"sorghum flour", "the jowar flour", "jowar flour=synonym:sorghum flour"},
    {"garlic-infused oil", "the garlic infused oil", "garlic infused oil=exact:garlic-infused oil"},
    {"garlic-infused oil", "the garlic oil", "garlic oil=synonym:garlic-infused oil"},
    {"desiccated coconut", "the shredded coconut", "shredded coconut=synonym:desiccated coconut"},
    // One word, two words, a hyphen.
    {"buttermilk", "pour in the butter milk", "butter milk=synonym:buttermilk"},
    {"self-raising flour", "the self raising flour", "self raising flour=exact:self-raising flour"},
    {"chickpeas", "the chick peas", "chick peas=synonym:chickpeas"},
    {"aubergine", "the egg plant", "egg plant=synonym:aubergine"},
    {"spring onion", "one springonion", "springonion=exact:spring onion"},
    {"lemongrass", "bruise the lemon grass", "lemon grass=synonym:lemongrass"},
    {"rose water", "add the rosewater", "rosewater=exact:rose water"},
    {"sun-dried tomatoes", "sundried tomatoes", "sundried tomatoes=synonym:sun-dried tomatoes"},
    {"beansprouts", "the bean sprouts", "bean sprouts=synonym:beansprouts"},
    {"butter | milk | eggs", "butter milk and eggs", "butter=exact:butter; milk=exact:milk; eggs=exact:eggs"},
    {"butter", "pour in the butter milk", "butter milk=other"},
    {"butter", "pour in the buttermilk", "buttermilk=other"},
    {"cornflour", "the corn flour", "corn flour=synonym:cornflour"},
    // The head noun.
    {"red romano peppers", "slice the peppers", "peppers=head:red romano peppers"},
    {"red romano peppers", "slice the red peppers", "red peppers=head:red romano peppers"},
    {"red romano peppers", "the romano", "romano=head:red romano peppers"},
    {"plain flour", "the flour", "flour=head:plain flour"},
    {"vegetable stock", "the stock", "stock=head:vegetable stock"},
    {"olive oil", "a bit of oil", "oil=head:olive oil"},
    {"cherry tomatoes", "the tomatoes", "tomatoes=head:cherry tomatoes"},
    {"red onion", "our onion", "onion=head:red onion"},
    {"chicken thighs", "the chicken", "chicken=head:chicken thighs"},
    {"chicken thighs", "the thighs", "thighs=head:chicken thighs"},
    {"garlic cloves", "the garlic", "garlic=synonym:garlic cloves"},
    {"cracked freekeh", "the freekeh", "freekeh=exact:cracked freekeh"},
    {"basmati rice", "rinse the rice", "rice=head:basmati rice"},
    {"basmati rice", "rinse the basmati", "basmati=synonym:basmati rice"},
    {"caster sugar", "the caster", "caster=head:caster sugar"},
    {"cannellini beans", "the beans", "beans=head:cannellini beans"},
    {"white wine vinegar", "the vinegar", "vinegar=head:white wine vinegar"},
    {"coconut milk", "pour in the milk", "milk=head:coconut milk"},
    {"capsicum", "the peppers", "peppers=head:capsicum"},
    {"leg of lamb", "the lamb", "lamb=head:leg of lamb"},
    {"juice of 1 lemon", "the lemon", "lemon=head:juice of 1 lemon"},
    {"lemon juice", "squeeze the lemon", "lemon=head:lemon juice"},
    {"dried apricots", "the apricots", "apricots=head:dried apricots"},
    {"smoked paprika", "the paprika", "paprika=head:smoked paprika"},
    {"ground almonds", "the almonds", "almonds=head:ground almonds"},
    {"tinned tomatoes", "the tomatoes", "tomatoes=head:tinned tomatoes"},
    {"maldon sea salt", "the salt", "salt=head:maldon sea salt"},
    {"maldon sea salt", "the maldon", ""},
    {"onions or shallots", "the shallots", "shallots=exact:onions or shallots"},
    {"butter/margarine", "the margarine", "margarine=exact:butter/margarine"},
    {"oat milk", "warm the milk", "milk=head:oat milk"},
    {"vegan butter", "melt the butter", "butter=head:vegan butter"},
    {"gluten-free flour blend", "the flour", "flour=head:gluten-free flour blend"},
    // Several that fit: all are told.
    {"black beans | green beans", "the beans", "beans=head:black beans+green beans"},
    {"olive oil | sunflower oil", "the oil", "oil=head:olive oil+sunflower oil"},
    {"plain flour | rice flour", "the flour", "flour=head:plain flour+rice flour"},
    {"flour | flour", "the flour", "flour=exact:flour+flour"},
    {"red onion | white onion", "the onions", "onions=head:red onion+white onion"},
    // The closest of several.
    {"onion | spring onions", "the onion", "onion=exact:onion"},
    {"onion | spring onions", "the spring onions", "spring onions=exact:spring onions"},
    {"pepper | red peppers", "some pepper", "pepper=exact:pepper"},
    {"black pepper | red pepper", "the peppers", "peppers=head:red pepper"},
    {"floury potatoes | sweet potatoes", "the potatoes", "potatoes=head:floury potatoes"},
    {"milk | coconut milk", "the milk", "milk=exact:milk"},
    {"whole milk | coconut milk", "the milk", "milk=head:whole milk"},
    {"butter | peanut butter", "the butter", "butter=exact:butter"},
    {"double cream | coconut cream", "the coconut cream", "coconut cream=exact:coconut cream"},
    {"olive oil | chilli oil", "a little oil", "oil=head:olive oil"},
    {"coriander | ground coriander", "the coriander", "coriander=exact:coriander"},
    {"coriander | ground coriander", "the ground coriander", "ground coriander=exact:ground coriander"},
    {"lemons | lemon juice", "the lemon juice", "lemon juice=exact:lemon juice"},
    {"tomatoes | tomato purée", "the tomato puree", "tomato puree=exact:tomato purée"},
    {"egg yolks | eggs", "the yolks", "yolks=head:egg yolks"},
    // Another food.
    {"milk", "the coconut milk", "coconut milk=other"},
    {"butter", "the butter beans", "butter beans=other"},
    {"butter", "the peanut butter", "peanut butter=other"},
    {"butter", "cocoa butter", "cocoa butter=other"},
    {"cheese", "the cream cheese", "cream cheese=variety:cheese"},
    {"cream", "a teaspoon of cream of tartar", "cream of tartar=other"},
    {"baking powder", "the baking soda", "baking soda=other"},
    {"bicarbonate of soda", "the baking powder", "baking powder=other"},
    {"olive oil", "the chilli oil", "chilli oil=other"},
    {"black beans", "the green beans", "green beans=other"},
    {"green beans", "the black beans", "black beans=other"},
    {"potatoes", "the sweet potatoes", "sweet potatoes=other"},
    {"onions", "the onion powder", "onion powder=other"},
    {"tomatoes", "the tomato puree", "tomato puree=other"},
    {"eggs", "the egg noodles", "egg noodles=other"},
    {"rice", "the rice vinegar", "rice vinegar=other"},
    {"rice", "the rice noodles", "rice noodles=other"},
    {"rice", "the rice flour", "rice flour=other"},
    {"lemon", "the lemongrass", "lemongrass=other"},
    {"lemon", "the lemon grass", "lemon grass=other"},
    {"ginger", "the ginger beer", "ginger beer=other"},
    {"ginger", "the ground ginger", "ground ginger=other"},
    {"sweetcorn", "the corn syrup", "corn syrup=other"},
    {"mustard", "the mustard seeds", "mustard seeds=other"},
    {"mustard seeds", "the mustard", "mustard=other"},
    {"sesame seeds", "the sesame oil", "sesame oil=other"},
    {"chicken", "the chicken stock", "chicken stock=other"},
    {"garlic", "the garlic powder", "garlic powder=other"},
    {"limes", "the lime leaves", "lime leaves=other"},
    {"fresh coriander", "the coriander seeds", "coriander seeds=other"},
    {"cod fillets", "the fish sauce", "fish sauce=other"},
    {"fish", "the fish sauce", "fish sauce=other"},
    {"oysters", "the oyster sauce", "oyster sauce=other"},
    {"soy sauce", "the soy milk", "soy milk=other"},
    {"almonds", "almond milk", "almond milk=other"},
    {"coconut milk", "coconut water", "coconut water=other"},
    {"coconut milk", "coconut oil", "coconut oil=other"},
    {"coconut oil", "coconut milk", "coconut milk=other"},
    {"red lentils", "the green lentils", "green lentils=other"},
    {"red wine", "the white wine", "white wine=other"},
    {"red wine", "the red wine vinegar", "red wine vinegar=other"},
    {"salted butter", "the unsalted butter", "unsalted butter=other"},
    {"apricots", "the dried apricots", "dried apricots=other"},
    {"peas", "the split peas", "split peas=other"},
    {"peas", "the chickpeas", "chickpeas=other"},
    {"pine nuts", "pineapple", "pineapple=other"},
    {"plain flour", "the self-raising flour", "self-raising flour=other"},
    {"caster sugar", "the icing sugar", "icing sugar=other"},
    {"light brown sugar", "the dark brown sugar", "dark brown sugar=other"},
    {"treacle", "the golden syrup", "golden syrup=other"},
    {"vegetable stock", "the chicken stock", "chicken stock=other"},
    {"nutmeg", "the nuts", ""},
    {"water", "the coconut water", "coconut water=other"},
    {"water", "rose water", "rose water=other"},
    {"wine", "the wine vinegar", "wine vinegar=other"},
    {"apples", "the apple cider vinegar", "apple cider vinegar=other"},
    {"beef", "the beef stock", "beef stock=other"},
    {"cauliflower", "the cauliflower rice", "cauliflower rice=other"},
    {"rice", "the cauliflower rice", "cauliflower rice=other"},
    {"salt", "the celery salt", "celery salt=other"},
    {"celery", "the celery salt", "celery salt=other"},
    {"parsnips", "a spoon of parsnip powder", "parsnip powder=other"},
    {"yeast", "the yeast extract", "yeast extract=other"},
    {"nutritional yeast", "the yeast", "yeast=other"},
    {"cocoa powder", "baking powder", "baking powder=other"},
    {"smoked salmon", "the salmon", "salmon=head:smoked salmon"},
    {"maple syrup", "the corn syrup", "corn syrup=other"},
    {"soy sauce", "the fish sauce", "fish sauce=other"},
    {"tamari", "the soy sauce", "soy sauce=other"},
    {"butter beans", "the butter", "butter=other"},
    {"buttermilk", "the butter", "butter=other"},
    {"peanut butter", "the butter", "butter=other"},
    {"egg noodles", "the egg", "egg=other"},
    {"cream of tartar", "the cream", "cream=other"},
    {"sweet potato", "the potatoes", "potatoes=head:sweet potato"},
    // Described.
    {"thyme", "the fresh thyme", "fresh thyme=synonym:thyme"},
    {"red onion", "our finely chopped red onion", "red onion=exact:red onion"},
    {"butter", "the softened butter", "butter=exact:butter"},
    {"red onion", "the red finely chopped onion", "red finely chopped onion=exact:red onion"},
    {"frozen peas", "the peas", "peas=head:frozen peas"},
    {"peas", "the frozen peas", "peas=exact:peas"},
    {"fresh thyme", "the thyme", "thyme=exact:fresh thyme"},
    {"large free-range eggs", "crack the eggs", "eggs=exact:large free-range eggs"},
    {"finely chopped parsley", "the parsley", "parsley=exact:finely chopped parsley"},
    {"flour", "the plain flour", "plain flour=variety:flour"},
    {"oil", "the olive oil", "olive oil=variety:oil"},
    {"tomatoes", "the cherry tomatoes", "cherry tomatoes=variety:tomatoes"},
    {"onion", "a red onion", "red onion=variety:onion"},
    {"basil", "the basil leaves", "basil leaves=synonym:basil"},
    {"garlic", "two garlic cloves", "garlic cloves=exact:garlic"},
    {"lemon", "the lemon juice", "lemon juice=variety:lemon"},
    {"salmon", "the salmon fillets", "salmon fillets=variety:salmon"},
    {"chicken", "the chicken thighs", "chicken thighs=variety:chicken"},
    {"celery", "three celery sticks", "celery sticks=exact:celery"},
    {"vinegar", "the red wine vinegar", "red wine vinegar=variety:vinegar"},
    {"tomatoes", "the chopped tomatoes", "tomatoes=exact:tomatoes"},
    {"heritage tomatoes", "the tomatoes", "tomatoes=exact:heritage tomatoes"},
    // Words of a kind.
    {"cod fillets", "lay in the fish", "fish=category:cod fillets"},
    {"halloumi", "grill the cheese", "cheese=category:halloumi"},
    {"cheddar cheese", "grate the cheese", "cheese=head:cheddar cheese"},
    {"parsley | dill | garlic", "chop the herbs", "herbs=category:parsley+dill"},
    {"walnuts", "toast the nuts", "nuts=category:walnuts"},
    {"kale | carrots", "wilt the greens", "greens=category:kale"},
    {"spaghetti", "drain the pasta", "pasta=category:spaghetti"},
    {"cinnamon | nutmeg | flour", "all the spices", "spices=category:cinnamon+nutmeg"},
    {"spaghetti | rice", "the fish", "fish=other"},
    {"baguette", "slice the bread", "bread=category:baguette"},
    {"shiitake", "fry the mushrooms", "mushrooms=category:shiitake"},
    // One name, two foods.
    {"cornflour", "the cornstarch", "cornstarch=regional:cornflour"},
    {"cornflour | cornstarch", "the cornstarch", "cornstarch=exact:cornstarch"},
    {"tomato purée", "the tomato paste", "tomato paste=regional:tomato purée"},
    {"tomato paste", "the tomato puree", "tomato puree=regional:tomato paste"},
    {"treacle", "the molasses", "molasses=regional:treacle"},
    {"cornstarch", "the cornmeal", "cornmeal=other"},
    {"sweetcorn", "the cornflour", "cornflour=other"},
    {"chilli powder", "the cayenne", "cayenne=other"},
    {"cider vinegar", "the cider", "cider=other"},
    {"biscuits", "the cookies", "cookies=regional:biscuits"},
    // Dishes and things named after a food.
    {"carrots", "these carrot fritters are lovely", ""},
    {"carrots", "carrot cake", ""},
    {"garlic", "the garlic press", ""},
    {"eggs", "set the egg timer", ""},
    {"rice", "in the rice cooker", ""},
    {"lentils", "today's lentil soup", ""},
    {"lentils | tomatoes", "the lentils soup spoon", "lentils=exact:lentils"},
    {"onions", "the onion mixture", ""},
    {"mint", "in mint condition", ""},
    {"dates", "a date night", ""},
    {"pepper", "the pepper mill", ""},
    {"bread", "on the bread board", ""},
    // Lists without pauses.
    {"butter | sugar | eggs | flour", "cream butter sugar eggs and flour",
     "butter=exact:butter; sugar=exact:sugar; eggs=exact:eggs; flour=exact:flour"},
    {"garlic | ginger | chillies", "garlic ginger and chilli",
     "garlic=exact:garlic; ginger=exact:ginger; chilli=exact:chillies"},
    {"garlic | butter beans", "garlic butter beans and stock",
     "garlic=exact:garlic; butter beans=exact:butter beans"},
    {"salt | olive oil", "salt oil", "salt=exact:salt; oil=head:olive oil"},
    {"parsley | olive oil", "the parsley , olive oil", "parsley=exact:parsley; olive oil=exact:olive oil"},
    {"coconut | milk", "the coconut , milk", "coconut=exact:coconut; milk=exact:milk"},
    // What was done is not the food.
    {"salt", "the salted water", "water=other"},
    {"butter", "a buttered tin", ""},
    {"oil", "oiling the tray", ""},
    {"curry paste", "half past four", ""},
    // Whole sentences, as captions have them.
    {"red onions | garlic cloves | olive oil | ground cumin | chickpeas | vegetable stock | lemon | "
     "flat-leaf parsley",
     "so first of all get your onion nice and fine then in with two cloves of garlic a good glug of oil and "
     "a teaspoon of cumin",
     "onion=head:red onions; garlic=synonym:garlic cloves; oil=head:olive oil; cumin=head:ground cumin"},
    {"red onions | garlic cloves | olive oil | ground cumin | chickpeas | vegetable stock | lemon | "
     "flat-leaf parsley",
     "tip in the chickpeas and the hot stock and finish with lemon juice and parsley leaves",
     "chickpeas=exact:chickpeas; stock=head:vegetable stock; lemon juice=variety:lemon; parsley "
     "leaves=head:flat-leaf parsley"},
    {"sorghum flour | tapioca starch | potato starch | xanthan gum | baking powder | caster sugar | vegan "
     "butter | oat milk",
     "whisk the sorghum the tapioca and the potato starch with half a teaspoon of xanthan",
     "sorghum=category:sorghum flour; tapioca=synonym:tapioca starch; potato starch=exact:potato starch; "
     "xanthan=synonym:xanthan gum"},
    {"sorghum flour | tapioca starch | potato starch | xanthan gum | baking powder | caster sugar | vegan "
     "butter | oat milk",
     "rub in the butter then the sugar and pour over the milk",
     "butter=head:vegan butter; sugar=head:caster sugar; milk=head:oat milk"},
    {"coconut milk | coconut oil | desiccated coconut | red curry paste | firm tofu | lime | fish sauce | "
     "Thai basil",
     "melt the coconut oil fry the curry paste pour in the coconut milk and simmer the tofu",
     "coconut oil=exact:coconut oil; curry paste=head:red curry paste; coconut milk=exact:coconut milk; "
     "tofu=head:firm tofu"},
    {"coconut milk | coconut oil | desiccated coconut | red curry paste | firm tofu | lime | fish sauce | "
     "Thai basil",
     "off the heat a squeeze of lime juice a splash of fish sauce the basil leaves and the coconut",
     "lime juice=variety:lime; fish sauce=exact:fish sauce; basil leaves=head:Thai basil; "
     "coconut=head:desiccated coconut"},
    {"black beans | green beans | kidney beans | chilli oil | olive oil",
     "the black beans then the green ones the kidney beans and a drizzle of chilli oil not the olive oil",
     "black beans=exact:black beans; kidney beans=exact:kidney beans; chilli oil=exact:chilli oil; olive "
     "oil=exact:olive oil"},
    {"plain flour | cornflour | egg | milk | unsalted butter | icing sugar | vanilla extract",
     "sift the flour with the cornflour crack in the egg add the milk and a drop of vanilla",
     "flour=head:plain flour; cornflour=exact:cornflour; egg=exact:egg; milk=exact:milk; "
     "vanilla=regional:vanilla extract"},
    {"egg yolks | egg whites | caster sugar", "beat the yolks with the sugar then whisk the whites",
     "yolks=head:egg yolks; sugar=head:caster sugar; whites=head:egg whites"},
    {"freekeh | pomegranate molasses | pomegranate seeds | mint | feta",
     "the freekeh is done so the molasses the pomegranate seeds the mint and the cheese",
     "freekeh=exact:freekeh; molasses=head:pomegranate molasses; pomegranate seeds=exact:pomegranate seeds; "
     "mint=exact:mint; cheese=category:feta"},
    {"gochujang | toasted sesame oil | sesame seeds | spring onions | rice vinegar | rice noodles",
     "a spoon of gochujang the sesame oil the vinegar the noodles and scatter the seeds",
     "gochujang=exact:gochujang; sesame oil=head:toasted sesame oil; vinegar=head:rice vinegar; "
     "noodles=head:rice noodles; seeds=head:sesame seeds"},
    {"chicken thighs | chicken stock | thyme", "brown the chicken add the chicken stock and the thyme",
     "chicken=head:chicken thighs; chicken stock=exact:chicken stock; thyme=exact:thyme"},
    {"salt | black pepper | red peppers", "salt and pepper and then the peppers",
     "salt=exact:salt; pepper=head:black pepper; peppers=head:red peppers"},
    {"tinned tomatoes | cherry tomatoes | tomato purée",
     "the tinned tomatoes the cherry tomatoes and the puree",
     "tinned tomatoes=exact:tinned tomatoes; cherry tomatoes=exact:cherry tomatoes; puree=head:tomato purée"},
    {"tinned tomatoes | cherry tomatoes | tomato purée", "the tomatoes",
     "tomatoes=head:tinned tomatoes+cherry tomatoes"},
    {"almond milk | ground almonds | flaked almonds", "the almonds",
     "almonds=head:ground almonds+flaked almonds"},
    {"self-raising flour | baking powder | bicarbonate of soda | buttermilk",
     "flour baking powder and the bicarb then the buttermilk",
     "flour=head:self-raising flour; baking powder=exact:baking powder; bicarb=synonym:bicarbonate of soda; "
     "buttermilk=exact:buttermilk"},
    {"cod fillet | lemon | capers | butter",
     "lay in the fish squeeze over the lemon scatter the capers and melt the butter",
     "fish=category:cod fillet; lemon=exact:lemon; capers=exact:capers; butter=exact:butter"},
    {"sweet potatoes | maple syrup | smoked paprika",
     "cube the sweet potato drizzle with maple and dust with paprika",
     "sweet potato=exact:sweet potatoes; maple=head:maple syrup; paprika=head:smoked paprika"},
    {"dried apricots | ground almonds | orange blossom water",
     "the dried apricots the ground almonds and the orange blossom water",
     "dried apricots=exact:dried apricots; ground almonds=exact:ground almonds; orange blossom "
     "water=exact:orange blossom water"},
    {"nutritional yeast | cashews | garlic powder | water",
     "nutritional yeast cashews the garlic powder and water",
     "nutritional yeast=exact:nutritional yeast; cashews=exact:cashews; garlic powder=exact:garlic powder; "
     "water=exact:water"},
    {"leeks | potatoes | vegetable stock | double cream",
     "today we are making leek and potato soup so slice the leeks", "leek=exact:leeks; leeks=exact:leeks"},
    {"chia seeds | flaxseed | hemp seeds", "the chia the flax and the hemp",
     "chia=synonym:chia seeds; flax=synonym:flaxseed; hemp=synonym:hemp seeds"},
    {"carrots | celery | onion | bay leaf", "carrot celery onion and a bay",
     "carrot=exact:carrots; celery=exact:celery; onion=exact:onion; bay=synonym:bay leaf"},
    {"dark chocolate | milk chocolate | cocoa powder | milk",
     "the dark chocolate the milk chocolate the cocoa and the milk",
     "dark chocolate=exact:dark chocolate; milk chocolate=exact:milk chocolate; cocoa=synonym:cocoa powder; "
     "milk=exact:milk"},
    {"jasmine rice | rice vinegar", "wash the rice and keep the rice vinegar",
     "rice=head:jasmine rice; rice vinegar=exact:rice vinegar"},
    {"ginger | ground ginger | stem ginger", "the fresh ginger the ground ginger and the stem ginger",
     "fresh ginger=synonym:ginger; ground ginger=exact:ground ginger; stem ginger=exact:stem ginger"},
    {"lemon | lemongrass | lemon thyme", "the lemongrass the lemon thyme and the lemon",
     "lemongrass=exact:lemongrass; lemon thyme=exact:lemon thyme; lemon=exact:lemon"},
    {"white miso | tahini | tamari", "the miso the tahini and the tamari",
     "miso=head:white miso; tahini=exact:tahini; tamari=exact:tamari"},
    {"tamari", "or use soy sauce", "soy sauce=other"},
    {"masa harina | salt", "the masa", "masa=synonym:masa harina"},
    {"maris piper potatoes | spring onions | butter", "mash the spuds with the onions",
     "spuds=head:maris piper potatoes; onions=head:spring onions"},
    {"king prawns | garlic", "toss in the shrimp", "shrimp=head:king prawns"},
    {"sirloin steak | salt", "season the steak with salt", "steak=head:sirloin steak; salt=exact:salt"},
    {"pak choi | choy sum", "the bok choy", "bok choy=synonym:pak choi"},
    {"brown lentils", "the green lentils", "green lentils=other"},
    {"cannellini beans", "the haricot beans", "haricot beans=other"},
    {"haricot beans", "the white beans", "white beans=head:haricot beans"},
    {"green olives", "the black olives", "black olives=other"},
    {"yellow mustard seeds", "the black mustard seeds", "black mustard seeds=other"},
    {"red quinoa", "the quinoa", "quinoa=head:red quinoa"},
    {"gruyère", "or emmental", "emmental=other"},
    {"gruyère", "the cheese", "cheese=category:gruyère"},
    {"black pepper | red peppers", "a twist of pepper", "pepper=head:black pepper"},
    {"black pepper | red peppers", "deseed a pepper", "pepper=head:red peppers"},
    {"black pepper | red peppers", "the pepper", "pepper=head:black pepper+red peppers"},
    {"buckwheat flour | teff flour", "the buckwheat and the teff",
     "buckwheat=category:buckwheat flour; teff=category:teff flour"},
    {"rice flour | rice", "rinse the rice", "rice=exact:rice"},
    {"garlic powder", "the garlic", "garlic=other"},
};

TEST(FoodNames, FindsWhatWasSaid) {
  for (const auto& name_case : kCases)
    EXPECT_EQ(found_in(name_case), name_case.expected)
        << "listed: " << name_case.listed << "; said: " << name_case.spoken;
}

// With the whole table listed, each name anywhere in it must name its own row, and no other row as closely; a
// bare head noun ("ketchup") may stay open between rows.
TEST(FoodNames, EveryNameNamesItsOwnRow) {
  std::vector<std::string> listed;
  for (const auto& food : all_foods()) listed.emplace_back(food.name);
  const FoodNames names(listed);
  int heads = 0;
  for (std::size_t row = 0; row < all_foods().size(); ++row) {
    auto said = all_foods()[row].other_names;
    said.push_back(all_foods()[row].name);
    for (const auto name : said) {
      const auto words = split(fold_accents(name), ' ');
      const auto mention = names.find(words, 0);
      EXPECT_EQ(mention.length, words.size()) << name;
      if (mention.match == NameMatch::Head) {
        EXPECT_THAT(mention.ingredients, testing::Contains(row)) << name;
        ++heads;
        continue;
      }
      EXPECT_EQ(mention.ingredients, std::vector<std::size_t>{row}) << name;
      EXPECT_GE(mention.match, NameMatch::Synonym) << name;
    }
  }
  EXPECT_LE(heads, 30);
}

TEST(FoodNames, SeveralFitAndTheRestIsTold) {
  const FoodNames names({"pepper", "red peppers", "butter"});
  const auto mention = names.find({"some", "pepper"}, 1);
  EXPECT_EQ(mention.match, NameMatch::Exact);
  EXPECT_EQ(mention.ingredients, std::vector<std::size_t>{0});
  const auto plain = names.find({"the", "pepper"}, 1);
  EXPECT_EQ(plain.ingredients, std::vector<std::size_t>{0});
  EXPECT_EQ(plain.also, std::vector<std::size_t>{1});
}

TEST(FoodNames, TellsWhatMayBeSomethingDone) {
  const FoodNames names({"butter", "olive oil"});
  EXPECT_TRUE(names.find({"butter", "the", "dish"}, 0).perhaps_verb);
  EXPECT_TRUE(names.find({"oil", "it", "well"}, 0).perhaps_verb);
  EXPECT_FALSE(names.find({"butter", "and", "sugar"}, 0).perhaps_verb);
}

TEST(FoodNames, NothingInsideALongerName) {
  const FoodNames names({"milk", "butter beans", "butter"});
  EXPECT_EQ(names.find({"coconut", "milk"}, 1).length, 0U);
  EXPECT_EQ(names.find({"butter", "beans"}, 1).length, 0U);
  const auto other = names.find({"coconut", "milk"}, 0);
  EXPECT_EQ(other.length, 2U);
  EXPECT_EQ(other.match, NameMatch::None);
  EXPECT_TRUE(other.other_food);
  EXPECT_FALSE(names.find({"milk", "float", "machine"}, 0).other_food);
}

TEST(FoodNames, OddInputIsHarmless) {
  EXPECT_TRUE(FoodNames({}).scan({"an", "onion"}).size() == 1U);
  const FoodNames names({"", "-", ",", "salt", "(optional)", "or", "\xF0\x9F\x8C\xB6"});
  EXPECT_EQ(names.find({"salt"}, 7).length, 0U);
  EXPECT_EQ(names.find({}, 0).length, 0U);
  EXPECT_EQ(names.find({"", "salt"}, 1).ingredients, std::vector<std::size_t>{3});
  EXPECT_EQ(names.find({std::string(5000, 'x')}, 0).length, 0U);
  EXPECT_EQ(names.find({"--", "-", "'s", "salt"}, 3).ingredients, std::vector<std::size_t>{3});
}

// Ten hours of speech against a long recipe: linear, well under the 2 s that a whole check may take. The
// limit is wide, since tests run unoptimised on busy machines.
TEST(FoodNames, TenHoursOfSpeechAreQuick) {
  std::vector<std::string> listed;
  for (std::size_t i = 0; i < 60; ++i) listed.emplace_back(all_foods()[i * 11].name);
  std::vector<std::string> words;
  for (std::size_t i = 0; words.size() < 90000; ++i) {
    const auto& said = kCases[i % kCases.size()].spoken;
    for (auto& word : split(said, ' ')) words.push_back(std::move(word));
    for (const auto* word :
         {"and", "then", "we", "just", "leave", "it", "there", "for", "a", "little", "while"})
      words.emplace_back(word);
  }
  const auto begin = std::chrono::steady_clock::now();
  const FoodNames names(listed);
  const auto mentions = names.scan(words);
  const auto took = std::chrono::steady_clock::now() - begin;
  EXPECT_GT(mentions.size(), 1000U);
  EXPECT_LT(std::chrono::duration_cast<std::chrono::milliseconds>(took).count(), 5000);
  RecordProperty("milliseconds",
                 static_cast<int>(std::chrono::duration_cast<std::chrono::milliseconds>(took).count()));
}

}  // namespace
}  // namespace panslate
