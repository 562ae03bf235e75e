#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/recipe/recipe.h"

#include "recipe/recipe_dump.h"

namespace panslate {
namespace {

using Strings = std::vector<std::string>;

Recipe read(const std::string& page) {
  auto recipe = read_recipe(page, "page.html");
  EXPECT_TRUE(recipe) << render(recipe.error());
  return recipe ? *recipe : Recipe{};
}

Recipe read_script(const std::string& json) {
  return read("<!doctype html><html><head><script type=\"application/ld+json\">" + json +
              "</script></head><body><p>Hello.</p></body></html>");
}

Strings lines(const Recipe& recipe) {
  Strings out;
  for (const auto& one : recipe.ingredients)
    out.push_back((one.group.empty() ? "" : one.group + ": ") + one.name + " " + dump(one.amounts));
  return out;
}

Strings steps(const Recipe& recipe) {
  Strings out;
  for (const auto& step : recipe.steps)
    out.push_back((step.part.empty() ? "" : step.part + ": ") + step.text);
  return out;
}

Strings yields(const Recipe& recipe) {
  Strings out;
  for (const auto& yield : recipe.yields) out.push_back(dump(yield.amount));
  return out;
}

Strings stated(const Recipe& recipe) {
  Strings out;
  for (const auto& time : recipe.stated_times) out.push_back(dump(time.amount));
  return out;
}

// The example of https://schema.org/Recipe, in the three forms it is given in there: its figures (3 or 4
// bananas, an egg, ¾ cup of sugar, 350 degrees, an hour, a loaf, PT15M, PT1H, low fat) in words of our own.
const Strings kBananaLines = {"bananas 3..4 piece", "egg 1 piece", "sugar 3/4 cup"};
const Strings kBananaSteps = {
    "Heat the oven to 350 degrees. Stir it all together, the flour last. Fill a loaf tin and bake for one "
    "hour."};

void expect_banana_bread(const Recipe& recipe) {
  EXPECT_EQ(recipe.title, "Banana bread of the house");
  EXPECT_EQ(lines(recipe), kBananaLines);
  EXPECT_EQ(steps(recipe), kBananaSteps);
  EXPECT_EQ(yields(recipe), Strings{"1 loaf"});
  EXPECT_EQ(stated(recipe), (Strings{"15 min", "60 min"}));
  ASSERT_EQ(recipe.tags.size(), 1U);
  EXPECT_EQ(recipe.tags[0].text.substr(recipe.tags[0].text.size() - 10), "LowFatDiet");
  ASSERT_EQ(recipe.steps.size(), 1U);
  ASSERT_EQ(recipe.steps[0].temperatures.size(), 1U);
  EXPECT_EQ(dump(recipe.steps[0].temperatures[0].amount), "350 F");
  ASSERT_EQ(recipe.steps[0].times.size(), 1U);
  EXPECT_EQ(dump(recipe.steps[0].times[0].amount), "1 h");
}

TEST(WebPage, ReadsTheExampleOfSchemaOrgAsData) {
  expect_banana_bread(read_script(R"({
    "@context": "https://schema.org", "@type": "Recipe", "author": "A. Cook", "cookTime": "PT1H",
    "datePublished": "2009-05-08", "description": "Moist, and better the day after.", "image": "loaf.jpg",
    "recipeIngredient": ["3 or 4 ripe bananas, mashed", "1 egg", "3/4 cup of sugar"],
    "interactionStatistic": {"@type": "InteractionCounter", "interactionType": "https://schema.org/Comment",
                             "userInteractionCount": "140"},
    "name": "Banana bread of the house",
    "nutrition": {"@type": "NutritionInformation", "calories": "240 calories", "fatContent": "9 grams fat"},
    "prepTime": "PT15M",
    "recipeInstructions": "Heat the oven to 350 degrees. Stir it all together, the flour last. Fill a loaf tin and bake for one hour.",
    "recipeYield": "1 loaf", "suitableForDiet": "https://schema.org/LowFatDiet"})"));
}

std::string marked_up(const std::string& item, const std::string& property) {
  const auto tag = [&](const std::string& name, const std::string& words) {
    return "<span " + property + "=\"" + name + "\">" + words + "</span>";
  };
  return "<div " + item + ">" + tag("name", "Banana bread of the house") + " by " + tag("author", "A. Cook") +
         ", <meta " + property + "=\"datePublished\" content=\"2009-05-08\">May 8, 2009 <img " + property +
         "=\"image\" src=\"loaf.jpg\" alt=\"\"> " + tag("description", "Moist.") + " Prep time: <meta " +
         property + "=\"prepTime\" content=\"PT15M\">15 minutes Cook time: <meta " + property +
         "=\"cookTime\" content=\"PT1H\">1 hour Yield: " + tag("recipeYield", "1 loaf") + " <link " +
         property + "=\"suitableForDiet\" href=\"https://schema.org/LowFatDiet\">Low fat\nIngredients:\n- " +
         tag("recipeIngredient", "3 or 4 ripe bananas, mashed") + "\n- " + tag("recipeIngredient", "1 egg") +
         "\n- " + tag("recipeIngredient", "3/4 cup of sugar") + "\nInstructions:\n" +
         tag("recipeInstructions",
             "Heat the oven to 350 degrees. Stir it all together, the flour\nlast. Fill a loaf tin and bake "
             "for "
             "one hour.") +
         " 140 comments</div>";
}

TEST(WebPage, ReadsTheExampleOfSchemaOrgAsMicrodata) {
  expect_banana_bread(read(marked_up("itemscope itemtype=\"https://schema.org/Recipe\"", "itemprop")));
}

TEST(WebPage, ReadsTheExampleOfSchemaOrgAsRdfa) {
  expect_banana_bread(read(marked_up("vocab=\"https://schema.org/\" typeof=\"Recipe\"", "property")));
}

TEST(WebPage, MendsTheDataOfRealPages) {
  const Strings cases = {
      // Commas before a closing bracket, line ends and tabs inside strings.
      "{\"@type\": \"Recipe\", \"recipeIngredient\": [\"2\tleeks\", \"1 onion\",], \"recipeInstructions\": "
      "\"Boil.\nServe.\",}",
      // Comment and CDATA marks around it, a semicolon at the end.
      "<!-- {\"@type\": \"Recipe\", \"recipeIngredient\": [\"2 leeks\", \"1 onion\"], "
      "\"recipeInstructions\": "
      "[\"Boil.\", \"Serve.\"]} -->",
      "//<![CDATA[\n{\"@type\": \"Recipe\", \"recipeIngredient\": [\"2 leeks\", \"1 onion\"], "
      "\"recipeInstructions\": [\"Boil.\", \"Serve.\"]};\n//]]>",
      // The whole script escaped.
      "{&quot;@type&quot;: &quot;Recipe&quot;, &quot;recipeIngredient&quot;: [&quot;2 leeks&quot;, &quot;1 "
      "onion&quot;], &quot;recipeInstructions&quot;: &quot;Boil.&lt;br&gt;Serve.&quot;}",
      // Quotes that JSON has no escape for, an inch mark that is none.
      R"({"@type": "Recipe", "description": "The neighbour\'s, in an 8" tin", "recipeIngredient": ["2 leeks",
          "1 onion"], "recipeInstructions": "Boil.\nServe."})"};
  for (const auto& script : cases) {
    const auto recipe = read_script(script);
    EXPECT_EQ(lines(recipe), (Strings{"leeks 2 piece", "onion 1 piece"})) << script;
    EXPECT_EQ(steps(recipe), (Strings{"Boil.", "Serve."})) << script;
  }
}

TEST(WebPage, PassesOverBrokenScriptsAndOtherRecipes) {
  const auto recipe = read(
      "<html><body><script type='application/ld+json'>{\"@type\": \"Recipe\", \"name\": </script>"
      "<script type='application/ld+json'>{\"@type\": \"ItemList\", \"itemListElement\": [{\"@type\": "
      "\"Recipe\", "
      "\"name\": \"Another soup\"}]}</script>"
      "<script type='APPLICATION/LD+JSON'>{\"@graph\": [{\"@type\": \"WebPage\", \"mainEntity\": {\"@type\": "
      "[\"https://schema.org/Recipe\"], \"name\": \"Leek soup\", \"ingredients\": \"2 leeks\"}}]}</script>");
  EXPECT_EQ(recipe.title, "Leek soup");
  EXPECT_EQ(lines(recipe), Strings{"leeks 2 piece"});
}

TEST(WebPage, ReadsGroupsAndLinesOfTheIngredientData) {
  const auto recipe = read_script(
      R"({"@type": "Recipe", "recipeYield": {"@type": "QuantitativeValue", "value": 6, "unitText": "servings"},
          "recipeIngredient": ["For the pie:", "200&amp;nbsp;g flour", "1&amp;frac12; cups milk",
          "<strong>Sauce</strong>", "1 <sup>1</sup>&frasl;<sub>2</sub> tbsp <a href=\"/x\">olive oil</a>",
          {"@type": "HowToSupply", "name": "chives", "requiredQuantity": "2 tbsp"}]})");
  EXPECT_EQ(lines(recipe), (Strings{"For the pie: flour 200 g", "For the pie: milk 3/2 cup",
                                    "Sauce: olive oil 3/2 tbsp", "Sauce: chives 2 tbsp"}));
  EXPECT_EQ(yields(recipe), Strings{"6 serving"});
}

struct MethodCase {
  const char* what;
  const char* instructions;
  Strings steps;
};

TEST(WebPage, ReadsTheMethodInAnyForm) {
  const std::vector<MethodCase> cases = {
      {"sections with steps",
       R"([{"@type": "HowToSection", "name": "The dough", "itemListElement": [
            {"@type": "HowToStep", "name": "Rub", "text": "Rub in the butter."}, {"@type": "HowToStep", "text": "Rest."}]},
           {"@type": "HowToSection", "name": "The filling", "itemListElement": {"@type": "HowToStep", "text": "Fry."}}])",
       {"The dough: Rub in the butter.", "The dough: Rest.", "The filling: Fry."}},
      {"directions and a tip",
       R"([{"@type": "HowToStep", "itemListElement": [{"@type": "HowToDirection", "text": "Melt the butter."},
            {"@type": "HowToDirection", "text": "Stir."}, {"@type": "HowToTip", "text": "Keep it slow."}]}])",
       {"Melt the butter. Stir."}},
      {"a list of items",
       R"({"@type": "ItemList", "itemListElement": [{"@type": "ListItem", "item": {"@type": "HowToStep", "text":
            "Boil."}}, {"@type": "ListItem", "position": 2, "name": "Serve."}]})",
       {"Boil.", "Serve."}},
      {"numbered lines",
       R"("1. Boil the leeks.\n2. Serve.\n\nNote: keeps a day.")",
       {"Boil the leeks.", "Serve."}},
      {"a list in HTML",
       R"("<ol><li>Boil the <b>leeks</b>.</li><li>Serve&nbsp;it.</li></ol>")",
       {"Boil the leeks.", "Serve it."}},
      {"paragraphs with a part",
       R"("<p><strong>For the sauce:</strong></p><p>Melt the butter.</p><p>Whisk.</p>")",
       {"sauce: Melt the butter.", "sauce: Whisk."}},
      {"texts with a part",
       R"(["Boil.", "For the topping:", "Fry the crumbs."])",
       {"Boil.", "topping: Fry the crumbs."}},
      {"escaped twice",
       R"("&lt;p&gt;Boil.&lt;/p&gt;&lt;p&gt;Bake at 180&amp;deg;C.&lt;/p&gt;")",
       {"Boil.", "Bake at 180°C."}},
  };
  for (const auto& one : cases)
    EXPECT_EQ(steps(read_script("{\"@type\": \"Recipe\", \"recipeIngredient\": [\"2 leeks\"], "
                                "\"recipeInstructions\": " +
                                std::string(one.instructions) + "}")),
              one.steps)
        << one.what;
}

TEST(WebPage, ReadsStepsMarkedInThePage) {
  const auto recipe = read(
      "<div itemscope itemtype='http://schema.org/Recipe'><h1 itemprop=name>Leek soup</h1>"
      "<div itemprop='nutrition' itemscope itemtype='http://schema.org/NutritionInformation'><span "
      "itemprop='name'>one bowl</span></div>"
      "<time itemprop='cookTime' datetime='PT20M'>twenty minutes</time>"
      "<ul><li itemprop='ingredients'><span>2</span><span>leeks</span>, sliced<li "
      "itemprop='ingredients'>salt</ul>"
      "<ol itemprop='recipeInstructions'><li>Boil the leeks.<li>Serve.</ol></div>");
  EXPECT_EQ(recipe.title, "Leek soup");
  EXPECT_EQ(lines(recipe), (Strings{"leeks 2 piece", "salt "}));
  EXPECT_EQ(steps(recipe), (Strings{"Boil the leeks.", "Serve."}));
  EXPECT_EQ(stated(recipe), Strings{"20 min"});
}

TEST(WebPage, ReadsTheVisibleTextWhereHeadingsTellIt) {
  const auto recipe = read(
      "<!DOCTYPE html><html><head><title>Leek soup | The stove</title><style>p {}</style></head><body>"
      "<nav><ul><li>Home</li><li>All soups</li></ul></nav><main><h1>Leek soup</h1><p>Serves 4</p>"
      "<h2>Ingredients</h2><h3>For the soup</h3><ul><li>2 leeks, sliced</li><li>1&frac12; l stock</li></ul>"
      "<h3>For the topping</h3><ul><li>50 g bread, <em>torn</em></li></ul>"
      "<h2>Method</h2><ol><li><p>Boil the leeks for 20&nbsp;minutes.</p></li><li>Fry the bread.</li></ol>"
      "<h2>Comments</h2><ul><li>I used 3 onions instead.</li></ul></main><footer>Write to "
      "us.</footer></body></html>");
  EXPECT_EQ(recipe.title, "Leek soup");
  EXPECT_EQ(lines(recipe), (Strings{"For the soup: leeks 2 piece", "For the soup: stock 3/2 l",
                                    "For the topping: bread 50 g"}));
  EXPECT_EQ(steps(recipe), (Strings{"Boil the leeks for 20 minutes.", "Fry the bread."}));
  EXPECT_EQ(yields(recipe), Strings{"4 serving"});
  EXPECT_EQ(recipe.ingredients[0].line, 0);
  ASSERT_EQ(recipe.steps[0].times.size(), 1U);
  EXPECT_EQ(recipe.steps[0].times[0].line, 0);
  EXPECT_EQ(recipe.steps[0].times[0].column, 20);
}

TEST(WebPage, TellsTheDishFromTheSite) {
  const auto recipe = read(
      "<!doctype html><html><head><title>Bean stew – A kitchen</title></head><body><header><h1>A "
      "kitchen</h1></header>"
      "<div class='post'><h2>Bean stew</h2><p>It feeds us for days.</p><p><strong>Ingredients</strong></p>"
      "<p>400g tin white beans<br>2 carrots, diced</p><p><strong>For the topping</strong><br>50g "
      "breadcrumbs</p>"
      "<p><strong>Method</strong></p><p>1. Fry the carrots.<br>2. Add the beans &amp; simmer.</p><p>3. Top "
      "it.</p>"
      "<p><strong>Notes</strong></p><p>Freezes well.</p></div>"
      "<div id='comments'><h3>3 comments</h3><p>Ann says: mine took 2 cups of "
      "lentils.</p></div></body></html>");
  EXPECT_EQ(recipe.title, "Bean stew");
  EXPECT_EQ(lines(recipe),
            (Strings{"white beans 1 can of 400 g", "carrots 2 piece", "For the topping: breadcrumbs 50 g"}));
  EXPECT_EQ(steps(recipe), (Strings{"Fry the carrots.", "Add the beans & simmer.", "Top it."}));
  EXPECT_EQ(recipe.notes, Strings{"Freezes well."});
}

TEST(WebPage, RefusesWithAHint) {
  const std::string hint = "\n  hint: copy the recipe into a text file: a title, 'Ingredients', 'Method'";
  const std::vector<std::pair<std::string, std::string>> cases = {
      {"<html><body><h1>Our shop</h1><p>Open daily.</p></body></html>",
       "page.html: error: this page carries no recipe data, and no headings tell its ingredients and its "
       "method" +
           hint},
      {"<html><body>\n<script type=\"application/ld+json\">{\"@type\": \"Recipe\"</script></body></html>",
       "page.html:2: error: the recipe data in this page is broken (line 2)" + hint},
      {"<script type=\"application/ld+json\">{\"@type\": \"Recipe\", \"name\": \"Soup\"}</script>",
       "page.html: error: the recipe data in this page lists no ingredients" + hint},
  };
  for (const auto& [page, wanted] : cases) {
    const auto recipe = read_recipe(page, "page.html");
    ASSERT_FALSE(recipe) << page;
    EXPECT_EQ(recipe.error().code, ErrorCode::Malformed);
    EXPECT_EQ(render(recipe.error()), wanted);
  }
}

// Pages made to fill the stack, the memory or the day.
TEST(WebPage, RefusesHostilePages) {
  std::string deep, tangled = "<p>", many;
  for (int i = 0; i < 10'000; ++i) deep += "<div>";
  for (int i = 0; i < 12'000; ++i) tangled += "<b id=" + std::to_string(i) + ">";
  for (int i = 0; i < 12'000; ++i) tangled += "<p>x";
  for (int i = 0; i < 40'000; ++i) many += "<i>x</i>";
  std::string stray, crowded = "<p ";
  for (int i = 0; i < 20'000; ++i) stray += "<b>";
  for (int i = 0; i < 2'000'000; ++i) stray += "</x>";
  for (int i = 0; i < 500'000; ++i) crowded += "a" + std::to_string(i) + " ";
  crowded += ">";
  const std::string start = "<!doctype html><body>";
  EXPECT_FALSE(read_recipe(start + deep, "page.html"));
  const std::string too_large =
      "page.html: error: this web page is too large to be a recipe\n  hint: save the recipe alone as plain "
      "text: a "
      "title, 'Ingredients', 'Method'";
  for (const auto& page : {tangled, many, stray, crowded}) {
    const auto recipe = read_recipe(start + page, "page.html");
    ASSERT_FALSE(recipe);
    EXPECT_EQ(render(recipe.error()), too_large);
  }
}

// Every value has a thousand names, one within the other.
TEST(WebPage, ReadsItemsOfManyNamesOnce) {
  std::string names;
  for (int i = 0; i < 1'000; ++i) names += "n" + std::to_string(i) + " ";
  std::string page =
      "<!doctype html><body><div itemscope itemtype='https://schema.org/Recipe'>"
      "<p itemprop='name'>Soup</p><p itemprop='recipeIngredient'>2 leeks</p>";
  for (int i = 0; i < 7; ++i) page += "<div itemscope itemprop='" + names + "'>";
  for (int i = 0; i < 2'000; ++i) page += "<div itemprop='" + names + "'>x";
  const auto recipe = read(page);
  EXPECT_EQ(recipe.title, "Soup");
  EXPECT_EQ(lines(recipe), Strings{"leeks 2 piece"});
}

// Pages of ticks for the shopping list stand in a form.
TEST(WebPage, ReadsWhatStandsInAForm) {
  const auto recipe = read(
      "<!doctype html><body><h1>Soup</h1><form><h2>Ingredients</h2><ul><li><input type=checkbox>2 leeks</li>"
      "<li><input type=checkbox>salt</li></ul><button>Print</button></form>"
      "<h2>Method</h2><p>Boil the leeks.</p></body></html>");
  EXPECT_EQ(lines(recipe), (Strings{"leeks 2 piece", "salt "}));
}

// ISO 8601: an M before the T is months.
TEST(WebPage, TakesNoWrongTimes) {
  for (const auto& [duration, wanted] :
       std::vector<std::pair<std::string, Strings>>{{"PT20M", {"20 min"}},
                                                    {"P1DT2H", {"1560 min"}},
                                                    {"PT1H30M15S", {"90 min"}},
                                                    {"P0Y0M0DT0H25M0.000S", {"25 min"}},
                                                    {"P2M", {}},
                                                    {"P1W", {}},
                                                    {"PT0.5H", {}},
                                                    {"PT1,5H", {}},
                                                    {"20 minutes", {}}}) {
    const auto recipe = read_script(
        "{\"@type\": \"Recipe\", \"recipeIngredient\": [\"2 leeks\"], \"cookTime\": \"" + duration + "\"}");
    EXPECT_EQ(stated(recipe), wanted) << duration;
  }
}

}  // namespace
}  // namespace panslate
