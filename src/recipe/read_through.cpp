#include <algorithm>
#include <tuple>
#include <utility>

#include "panslate/recipe/reading.h"

#include "recipe/findings.h"
#include "recipe/flow_parts.h"

namespace panslate {

std::string_view spelling_of(ReadLevel level) {
  switch (level) {
    case ReadLevel::Error:
      return "error";
    case ReadLevel::Warning:
      return "warning";
    case ReadLevel::Note:
      return "note";
  }
  return "note";
}

bool RecipeReading::wants_attention() const {
  return std::any_of(findings.begin(), findings.end(),
                     [](const ReadFinding& finding) { return finding.level != ReadLevel::Note; });
}

std::string line_name(int line) {
  return line > 0 ? "line " + std::to_string(line) : std::string{};
}

ReadFinding& ReadContext::at_line(int line, std::string code, ReadLevel level, std::string message) const {
  auto& finding = reading.findings.emplace_back();
  finding.code = std::move(code);
  finding.level = level;
  finding.line = line;
  finding.column = line > 0 ? 1 : 0;
  finding.message = std::move(message);
  return finding;
}

ReadFinding& ReadContext::at_ingredient(std::size_t ingredient, std::string code, ReadLevel level,
                                        std::string message) const {
  const auto& line = recipe.ingredients[ingredient];
  auto& finding = at_line(line.line, std::move(code), level, std::move(message));
  finding.column = line.column;
  return finding;
}

ReadFinding& ReadContext::in_step(std::size_t step, std::size_t offset, std::string code, ReadLevel level,
                                  std::string message) const {
  const auto place = place_in(recipe.steps[step], offset);
  auto& finding = at_line(place.line, std::move(code), level, std::move(message));
  finding.column = place.line > 0 ? place.column : 0;
  return finding;
}

RecipeReading read_through(const Recipe& recipe, const ReadOptions& options) {
  const auto words = words_of_method(recipe);
  RecipeReading reading;
  reading.flow = flow_of(MethodView{recipe, words});
  const ReadContext context{recipe, words, options, reading};
  for (const auto find :
       {find_use_faults, find_part_faults, find_pair_faults, find_yield_faults, find_time_faults,
        find_limit_faults, find_claim_faults, find_cautions, find_wording_notes})
    find(context);
  if (options.serves) {
    reading.scaled = scale(recipe, *options.serves);
    if (!reading.scaled) {
      auto& note =
          context.at_line(0, "not-scaled", ReadLevel::Note,
                          "The recipe is not written for other servings: it does not say how many it "
                          "serves, or the number asked for is too far from it.");
      note.advice = "Write \"Serves 4\" at the top.";
    }
  }
  std::stable_sort(reading.findings.begin(), reading.findings.end(), [](const auto& a, const auto& b) {
    return std::tie(a.line, a.level, a.column) < std::tie(b.line, b.level, b.column);
  });
  return reading;
}

}  // namespace panslate
