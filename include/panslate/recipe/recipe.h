#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/kitchen/amount.h"

/// The written recipe as understood: what everything else is checked against. Lines count from 1; 0 where the
/// source has none (JSON-LD).
namespace panslate {

/// One ingredient line.
struct Ingredient {
  int line = 0;
  int column = 0;                     ///< of its first character; 0 where there is no line
  std::string key;                    ///< lasting: from the text, and a count where the text repeats
  std::string text;                   ///< as written, without list mark or emphasis
  std::string group;                  ///< "For the sauce", as written; empty when ungrouped
  std::string name;                   ///< the food alone: "freekeh", "red onions", "coconut milk"
  std::vector<std::string> foods;     ///< usually {name}; "salt and pepper" is two
  std::vector<std::string> or_foods;  ///< "butter or margarine": the foods that may stand for the first
  std::string preparation;            ///< "rinsed", "finely chopped"; may be empty
  std::vector<Amount> amounts;  ///< leading amount first, then written alternates; empty when none is written
                                ///< ("oil, for frying")
  bool optional = false;
  bool amount_is_each = false;  ///< "1 tbsp each cumin and coriander": the amount holds for each of `foods`
  bool to_taste = false;        ///< "to taste", "as needed", "for frying", "to serve": no amount is expected
};

/// A duration of the method, tied to what is done.
struct MethodTime {
  Amount amount;       ///< unit Second … Month; "overnight" has no value, unit Hour
  std::string text;    ///< as written: "25–30 minutes"
  int column = 0;      ///< in its line, characters from 1
  int line = 0;        ///< of a step that runs over several lines; 0 when read_method_text alone was asked
  std::string action;  ///< the verb it belongs to: "bake", "rest"; empty when none stands near
  bool after = false;  ///< "after 10 minutes, stir": a moment in what goes on already
  std::vector<Amount> also = {};  ///< "an hour or overnight": other times that do as well
};

struct MethodTemperature {
  Amount amount;             ///< the conventional one where it is told apart
  std::vector<Amount> also;  ///< the same setting in other scales, or the fan's
  std::string text;
  int column = 0;
  int line = 0;
  std::string action;
};

/// An amount of a food written in the method.
struct MethodAmount {
  Amount amount;
  std::vector<Amount> also;
  std::string food;  ///< the words after it: "boiling water"
  std::string text;
  int column = 0;
  int line = 0;
  bool is_share = false;  ///< "half the butter"
};

/// From `offset` on (bytes of the step's text), the words stand in the file at this place, character for
/// character, up to the next such stretch.
struct TextRun {
  std::size_t offset = 0;
  int line = 0;
  int column = 0;
};

struct Step {
  int number = 0;  ///< from 1 over the whole method
  int line = 0;
  std::string key;
  std::string text;
  std::string part;               ///< heading it stands under ("Sauce"); empty when none
  std::vector<std::size_t> uses;  ///< indices into Recipe::ingredients, by name in the step's words
  std::vector<MethodTime> times;
  std::vector<MethodTemperature> temperatures;
  std::vector<MethodAmount> amounts;
  std::vector<std::string> cues;  ///< "until golden", "until a skewer comes out clean"
  std::vector<TextRun> runs;      ///< where its words stand; empty where the source has no lines
};

/// Line and column of a byte of a step's text; without lines, the column in the step's own text.
struct WrittenPlace {
  int line = 0;
  int column = 0;
};
[[nodiscard]] WrittenPlace place_in(const Step& step, std::size_t offset);

/// "Serves 4" or "Makes 24 pasties".
struct RecipeYield {
  enum class Kind : std::uint8_t { Serves, Makes };
  Kind kind = Kind::Serves;
  Amount amount;  ///< unit Serving, or Other with the noun
  int line = 0;
  std::string text;
};

/// "Prep time: 20 minutes", beside the method: what the recipe promises, no step's own time.
struct StatedTime {
  enum class Kind : std::uint8_t { Prep, Cook, Total, Other };
  Kind kind = Kind::Other;
  Amount amount;
  int line = 0;
  std::string text;
};

/// A line outside list and method: an introduction, a note, a tag. Claims may stand in any of them.
struct RecipeNote {
  int line = 0;
  std::string text;
};

struct Recipe {
  std::string title;
  int title_line = 0;
  std::filesystem::path file;
  std::vector<RecipeYield> yields;
  std::vector<Ingredient> ingredients;
  std::vector<Step> steps;
  std::vector<std::string> notes;
  std::vector<RecipeNote> introduction;  ///< lines before the list and the method that are prose
  std::vector<RecipeNote> placed_notes;  ///< `notes` again, with their lines
  std::vector<RecipeNote> tags;          ///< of the front matter or the keywords
  std::vector<StatedTime> stated_times;
  std::vector<RecipeNote> header_lines;  ///< whole lines that told a yield or a time
  Measures measures = Measures::Metric;
  bool measures_guessed = true;
  std::string measures_reason;  ///< "1 cup (240 ml) on line 7"
};

/// Reads a recipe as people write it: plain text or Markdown, or a schema.org Recipe as JSON-LD, alone or in
/// a web page. Never drops a line of the ingredient list. Fails (Malformed, with a place) when there is no
/// ingredient list to be found or the text is empty; `file` is only named.
[[nodiscard]] Result<Recipe> read_recipe(std::string_view text, const std::filesystem::path& file);

/// One ingredient line without its list mark, into everything but line, key and group.
[[nodiscard]] Ingredient read_ingredient_line(std::string_view line);

/// Times, temperatures, amounts and cues of one step of the method.
void read_method_text(Step& step);

/// Whose cups and spoons: the written pairs ("1 cup (240 ml)") tell it, else spelling and vocabulary
/// ("all-purpose", °F → us; "tbsp (20 ml)" → au). Sets measures, measures_guessed and measures_reason.
void guess_measures(Recipe& recipe);

}  // namespace panslate
