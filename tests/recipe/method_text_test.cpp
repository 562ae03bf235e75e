#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/recipe/recipe.h"

#include "recipe/recipe_dump.h"

namespace panslate {
namespace {

// What a cook reads in a step, by hand: "action: time", temperatures with the other scales after "=", amounts
// with their food, cues as written.
struct StepCase {
  const char* text;
  const char* times;
  const char* temperatures;
  const char* amounts;
  const char* cues;
};

std::string shown_times(const Step& step) {
  std::vector<std::string> out;
  for (const auto& time : step.times) {
    auto text = time.action + ": " + dump(time.amount);
    for (const auto& other : time.also) text += " or " + dump(other);
    out.push_back(text);
  }
  return join(out, "; ");
}

std::string shown_temperatures(const Step& step) {
  std::vector<std::string> out;
  for (const auto& one : step.temperatures) {
    auto text = one.action + ": " + dump(one.amount);
    for (const auto& other : one.also) text += " = " + dump(other);
    out.push_back(text);
  }
  return join(out, "; ");
}

std::string shown_amounts(const Step& step) {
  std::vector<std::string> out;
  for (const auto& one : step.amounts)
    out.push_back((one.is_share ? "share " : "") + dump(one.amount) + " of " + one.food);
  return join(out, "; ");
}

class MethodText : public testing::TestWithParam<StepCase> {};

TEST_P(MethodText, ReadsAsACookDoes) {
  Step step;
  step.text = GetParam().text;
  read_method_text(step);
  EXPECT_EQ(shown_times(step), GetParam().times);
  EXPECT_EQ(shown_temperatures(step), GetParam().temperatures);
  EXPECT_EQ(shown_amounts(step), GetParam().amounts);
  EXPECT_EQ(join(step.cues, "; "), GetParam().cues);
}

INSTANTIATE_TEST_SUITE_P(
    Durations, MethodText,
    testing::Values(
        StepCase{"Bake for 25–30 minutes, until golden.", "bake: 25..30 min", "", "", "until golden"},
        StepCase{"Simmer, stirring occasionally, for 10 minutes.", "simmer: 10 min", "", "", ""},
        StepCase{"Bring to the boil, then simmer for an hour and a half.", "simmer: 3/2 h", "", "", ""},
        StepCase{"Bring to the boil and boil for 2 minutes.", "boil: 2 min", "", "", ""},
        StepCase{"Leave to rest for 10 minutes before slicing.", "rest: 10 min", "", "", ""},
        StepCase{"Let it stand for 5 mins. before serving.", "stand: 5 min", "", "", ""},
        StepCase{"Soak the beans overnight in plenty of cold water.", "soak: - h", "", "", ""},
        StepCase{"Chill for 1 hour or overnight.", "chill: 1 h or - h", "", "", ""},
        StepCase{"Fry the onion until softened, about 5 minutes.", "fry: about 5 min", "", "",
                 "until softened"},
        StepCase{"Roast for 20 minutes, turn, and roast for another 10.", "roast: 20 min; roast: 10 min", "",
                 "", ""},
        StepCase{"Roast for 25 minutes. Rest for 25 minutes.", "roast: 25 min; rest: 25 min", "", "", ""},
        StepCase{"After 10 minutes, stir in the cream.", "stir: 10 min", "", "", ""},
        StepCase{"Cook for 1 hour 20 minutes, basting once.", "cook: 4/3 h", "", "", ""},
        StepCase{"Toast the seeds for 30 seconds.", "toast: 30 s", "", "", ""},
        StepCase{"Prove in a warm place for 1½–2 hours, until doubled in size.", "prove: 3/2..2 h", "", "",
                 "until doubled in size"},
        StepCase{"Knead for 8 minutes, then prove for an hour.", "knead: 8 min; prove: 1 h", "", "", ""},
        StepCase{"Simmer for 25/30 minutes.", "simmer: 25..30 min", "", "", ""},
        StepCase{"Simmer for 1h30/2h.", "simmer: 3/2..2 h", "", "", ""},
        StepCase{"Rest for at least 1 hour and up to 2 days.", "rest: 1 h or 2 day", "", "", ""},
        StepCase{"Cook until 2-3 minutes before the end.", "", "", "", ""},
        StepCase{"Turn halfway through the 30 minutes.", "", "", "", ""},
        StepCase{"Fry for 5 mins each side, then a further 10.", "fry: 5 min; fry: 10 min", "", "", ""},
        StepCase{"Bake until the top is golden brown and a skewer put in the middle comes out clean, 25-30 "
                 "minutes.",
                 "bake: 25..30 min", "", "",
                 "until the top is golden brown and a skewer put in the middle comes out clean"},
        StepCase{"Fry it in olive oil and butter for 3 minutes.", "fry: 3 min", "", "", ""},
        StepCase{"Leave it on low heat for 2 hours.", "leave: 2 h", "", "", ""},
        StepCase{"Plunge the tomatoes into boiling water for a minute.", "plunge: 1 min", "", "", ""},
        StepCase{"Toss the wings in 1 tsp baking soda for 15 minutes.", "toss: 15 min", "",
                 "1 tsp of baking soda", ""},
        StepCase{"Leave overnight.", "leave: - h", "", "", ""},
        StepCase{"After 2 hours the stew will be thicker.", "", "", "", ""},
        StepCase{"Use a 20 cm tin of 1987 and 3-day-old bread.", "", "", "", ""},
        StepCase{"A minute before it is done, add the dill.", "", "", "", ""},
        StepCase{"Whisk the whites to soft peaks, about 3 minutes.", "whisk: about 3 min", "", "",
                 "to soft peaks"},
        StepCase{"Turn every 5 minutes.", "", "", "", ""}));

INSTANTIATE_TEST_SUITE_P(
    Temperatures, MethodText,
    testing::Values(
        StepCase{"Preheat the oven to 180C/160C fan/gas 4.", "", "preheat: 180 C = 160 C fan = 4 gas", "",
                 ""},
        StepCase{"Let it rise at 80°-85°F (25°-30°C).", "", "rise: 80..85 F = 25..30 C", "", ""},
        StepCase{"Bake at 180-200°C.", "", "bake: 180..200 C", "", ""},
        StepCase{"Heat the oven to 350°F (175°C).", "", "preheat: 350 F = 175 C", "", ""},
        StepCase{"Bake at 200 °C for 20 minutes.", "bake: 20 min", "bake: 200 C", "", ""},
        StepCase{"Turn the oven down to 160C and bake for a further 30 minutes.", "bake: 30 min",
                 "turn: 160 C", "", ""},
        StepCase{"Heat the oil to 170°C and fry for 3 minutes.", "fry: 3 min", "heat: 170 C", "", ""},
        StepCase{"Preheat the oven to 220C (200C fan).", "", "preheat: 220 C = 200 C fan", "", ""}));

INSTANTIATE_TEST_SUITE_P(
    Amounts, MethodText,
    testing::Values(
        StepCase{"Pour over 500 ml boiling water.", "", "", "500 ml of boiling water", ""},
        StepCase{"Add the remaining 40 g butter.", "", "", "40 g of butter", ""},
        StepCase{"Stir in half the butter.", "", "", "share 1/2 piece of butter", ""},
        StepCase{"Add two thirds of the stock and simmer.", "", "", "share 2/3 piece of stock", ""},
        StepCase{"Divide into 8 balls.", "", "", "", ""}, StepCase{"Cut into 2 cm cubes.", "", "", "", ""},
        StepCase{"Squeeze over the lemon juice.", "", "", "", ""},
        StepCase{"Whisk in 1/4 cup lime juice and stir.", "", "", "1/4 cup of lime juice", ""},
        StepCase{"Bring a large pot of salted water to the boil.", "", "", "", ""},
        StepCase{"Salt it to taste, a teaspoon will do.", "", "", "", ""},
        StepCase{"Whisk 2 tbsp of the dressing into the yoghurt.", "", "", "2 tbsp of dressing", ""}));

INSTANTIATE_TEST_SUITE_P(
    Cues, MethodText,
    testing::Values(
        StepCase{"Cook until a skewer comes out clean.", "", "", "", "until a skewer comes out clean"},
        StepCase{"The leeks should be soft but not coloured.", "", "", "", "should be soft but not coloured"},
        StepCase{"Whisk until thick, glossy and smooth.", "", "", "", "until thick, glossy and smooth"},
        StepCase{"Fry until golden and set aside.", "", "", "", "until golden"},
        StepCase{"It should no longer stick.", "", "", "", "should no longer stick"},
        StepCase{"The dough is ready when it springs back.", "", "", "", "when it springs back"},
        StepCase{"There should be a clear line between them.", "", "", "", ""},
        StepCase{"Wait until you stir it in.", "", "", "", ""},
        StepCase{"Cook until no longer raw seasoning with soy sauce.", "", "", "", "until no longer raw"},
        StepCase{"Chill until needed.", "", "", "", ""},
        StepCase{"Keep warm until ready to serve.", "", "", "", ""},
        StepCase{"Knead for 5 minutes or until smooth.", "knead: 5 min", "", "", "until smooth"}));

TEST(MethodText, ColumnsCountCharacters) {
  Step step;
  step.text = "Purée, then bake at 180 °C for 20 minutes.";
  read_method_text(step);
  ASSERT_EQ(step.temperatures.size(), 1U);
  ASSERT_EQ(step.times.size(), 1U);
  EXPECT_EQ(step.temperatures[0].column, 21);
  EXPECT_EQ(step.times[0].column, 32);
}

}  // namespace
}  // namespace panslate
