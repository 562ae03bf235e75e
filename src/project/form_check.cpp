#include "project/form_check.h"

#include <charconv>
#include <string>
#include <utility>

#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include "panslate/base/text.h"

#include "embedded/project_schema.h"
#include "project/near_spelling.h"

namespace panslate {

namespace {

using nlohmann::json;

// A rule set with every $ref (there is no circle of them) put in its place; what stands beside a $ref wins.
json with_definitions(const json& rules, const json& definitions) {
  if (rules.is_array()) {
    json list = json::array();
    for (const auto& item : rules) list.push_back(with_definitions(item, definitions));
    return list;
  }
  if (!rules.is_object()) return rules;
  json merged = json::object();
  if (const auto ref = rules.find("$ref"); ref != rules.end()) {
    constexpr std::size_t kBefore = std::string_view("#/definitions/").size();
    merged = with_definitions(definitions.at(ref->get<std::string>().substr(kBefore)), definitions);
  }
  for (const auto& [key, value] : rules.items())
    if (key != "$ref") merged[key] = with_definitions(value, definitions);
  return merged;
}

// The shipped form, read once: as values (for the words of the messages) and as rules.
struct Form {
  json values;
  valijson::Schema rules;

  Form() {
    const json written = json::parse(embedded::project_schema);
    values = with_definitions(written, written.at("definitions"));
    valijson::SchemaParser parser;
    const valijson::adapters::NlohmannJsonAdapter adapter(values);
    parser.populateSchema(adapter, rules);
  }
};

const Form& form() {
  static const Form shipped;
  return shipped;
}

// A value, and the rules that it stands under.
struct Judged {
  Entry entry;
  const json* rules;
};

// Follows valijson's way to a value: "<root>", then [segments], [2], [in].
std::optional<Judged> follow(const JsonText& text, const std::vector<std::string>& way) {
  Judged at{Entry(text.value, text.spot, {}), &form().values};
  for (std::size_t i = 1; i < way.size(); ++i) {
    const auto& part = way[i];
    if (part.size() < 2) return std::nullopt;
    const std::string inner = part.substr(1, part.size() - 2);
    if (at.entry.value().is_array()) {
      std::size_t index = 0;
      const auto [end, error] = std::from_chars(inner.data(), inner.data() + inner.size(), index);
      const auto items = at.rules->find("items");
      if (error != std::errc() || end != inner.data() + inner.size() || items == at.rules->end() ||
          index >= at.entry.value().size())
        return std::nullopt;
      Entry item(at.entry.value()[index], at.entry.spot().items[index],
                 at.entry.name() + "[" + std::to_string(index) + "]");
      at = {std::move(item), &*items};
    } else {
      const auto properties = at.rules->find("properties");
      const auto member = at.entry.member(inner);
      if (properties == at.rules->end() || !properties->contains(inner) || !member) return std::nullopt;
      at = {*member, &properties->at(inner)};
    }
  }
  return at;
}

// Nearer than nearest_spelling asks for: a person's own names are not to be mistaken for slips.
bool is_slip(std::string_view written, std::string_view known) {
  if (character_count(written) > 2 * known.size()) return false;
  const auto distance = spelling_distance(written, known);
  return distance <= (known.size() >= 8 ? 2U : 1U) && known.size() > 2;
}

std::string expected_by(const json& rules) {
  return rules.value("expected", std::string("something else"));
}

std::string spelling_hint(const Judged& judged) {
  const auto words = judged.rules->find("enum");
  const auto written = judged.entry.text();
  if (words == judged.rules->end() || !written) return {};
  std::vector<std::string> known;
  for (const auto& word : *words)
    if (word.is_string()) known.push_back(word.get<std::string>());
  const auto near = nearest_spelling(*written, known);
  return near ? "did you mean \"" + *near + "\"?" : std::string{};
}

// What a number where words belong is most often meant to be.
std::string number_hint(const Judged& judged) {
  const auto& name = judged.entry.name();
  if (!judged.entry.value().is_number() || name.find(".step") == std::string::npos) return {};
  return "numbers of steps change when a step is put in; write the first words of the step";
}

// A name of this { } that looks like `wanted` and is none of the form's own.
std::optional<std::string> slip_for(const Judged& judged, const std::string& wanted) {
  for (const auto& [key, spot] : judged.entry.spot().members)
    if (!judged.rules->at("properties").contains(key) && is_slip(key, wanted)) return key;
  return std::nullopt;
}

void add_missing(const Judged& judged, ProblemList& problems) {
  for (const auto& key : judged.rules->at("required")) {
    const auto name = key.get<std::string>();
    if (judged.entry.value().contains(name)) continue;
    const Entry missing(judged.entry.value(), judged.entry.spot(),
                        judged.entry.name().empty() ? name : judged.entry.name() + "." + name);
    const auto slip = slip_for(judged, name);
    std::string hint;
    if (slip) hint = in_quotes(*slip) + " stands there: did you mean \"" + name + "\"?";
    if (name == "panslate_project") hint = "a project file begins with \"panslate_project\": 1";
    problems.add(missing,
                 expected_by(judged.rules->at("properties").at(name)) + " was expected, found nothing",
                 std::move(hint));
  }
}

void add_near_names(const Judged& judged, const std::filesystem::path& file, std::vector<Error>& found) {
  if (const auto items = judged.rules->find("items"); items != judged.rules->end())
    for (auto& item : judged.entry.items()) add_near_names({std::move(item), &*items}, file, found);
  const auto properties = judged.rules->find("properties");
  if (properties == judged.rules->end()) return;
  for (const auto& [key, spot] : judged.entry.spot().members) {
    if (properties->contains(key)) {
      add_near_names({*judged.entry.member(key), &properties->at(key)}, file, found);
      continue;
    }
    for (const auto& known : properties->items()) {
      if (judged.entry.spot().members.contains(known.key()) || !is_slip(key, known.key())) continue;
      const std::string where = judged.entry.name().empty() ? std::string{} : judged.entry.name() + ": ";
      found.push_back({ErrorCode::Malformed, where + in_quotes(key) + " means nothing here",
                       Place{file, spot.key.line, spot.key.column}, "did you mean \"" + known.key() + "\"?"});
      break;
    }
  }
}

bool is_told_by_its_parts(std::string_view description) {
  return description.starts_with("Failed to validate");
}

}  // namespace

void check_form(const JsonText& text, ProblemList& problems) {
  valijson::Validator validator;
  valijson::ValidationResults results;
  const valijson::adapters::NlohmannJsonAdapter target(text.value);
  if (validator.validate(form().rules, target, &results)) return;
  std::set<const JsonSpot*> told;
  for (const auto& result : results) {
    if (is_told_by_its_parts(result.description)) continue;
    const auto judged = follow(text, result.context);
    if (!judged || !told.insert(&judged->entry.spot()).second) continue;
    if (judged->entry.value().is_object() && judged->rules->contains("required")) {
      add_missing(*judged, problems);
      continue;
    }
    auto hint = spelling_hint(*judged);
    if (hint.empty()) hint = number_hint(*judged);
    problems.add(judged->entry,
                 expected_by(*judged->rules) + " was expected, found " + shown(judged->entry.value()),
                 std::move(hint));
  }
}

std::vector<Error> near_names(const JsonText& text, const std::filesystem::path& file) {
  std::vector<Error> found;
  add_near_names({Entry(text.value, text.spot, {}), &form().values}, file, found);
  return found;
}

}  // namespace panslate
