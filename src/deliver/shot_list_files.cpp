#include "panslate/deliver/shot_list_files.h"

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/plain_text.h"

#include "deliver/amount_json.h"
#include "deliver/shot_words.h"

namespace panslate {

namespace {

constexpr std::size_t kLeastWidth = 40;

void append_indented(std::string& out, std::string_view text, std::size_t indent, std::size_t width) {
  for (const auto& line : wrap(text, width - indent)) out += std::string(indent, ' ') + line + "\n";
}

void append_heading(std::string& out, const Shot& shot, const Recipe& recipe, std::size_t width) {
  const auto number = step_number(shot, recipe);
  if (number == 0) return;
  const auto& step = recipe.steps[shot.step];
  auto text = std::to_string(number) + "  " + (step.part.empty() ? "" : collapse_spaces(step.part) + ": ") +
              collapse_spaces(step.text);
  out += "\n" + shortened(text, width) + "\n";
}

}  // namespace

std::string shot_list_csv(const ShotList& list, const Recipe& recipe, const Project* project) {
  std::string out = csv_row({"shot", "set-up", "step", "framing", "what to see", "foods", "line", "seconds",
                             "once only", "filmed"});
  for (const auto& shot : list.shots) {
    const auto number = step_number(shot, recipe);
    const auto length = length_words(shot);
    out += csv_row({shot.number, shot.setup, number > 0 ? std::to_string(number) : std::string{},
                    framing_words(shot), shot.subject, join(shot.shows, "; "), shot.line,
                    length.substr(0, length.find(' ')), shot.repeatable ? "" : "yes",
                    filmed_words(shot, project)});
  }
  return out;
}

std::string shot_list_text(const ShotList& list, const Recipe& recipe, const Project* project,
                           std::size_t width) {
  width = std::max(width, kLeastWidth);
  std::string out;
  for (const auto& line :
       wrap("Shot list: " + (recipe.title.empty() ? recipe.file.filename().string() : recipe.title), width))
    out += line + "\n";
  std::optional<std::size_t> step;
  for (const auto& shot : list.shots) {
    if (shot.framing == Framing::Beauty)
      out += "\n";
    else if (step != shot.step)
      append_heading(out, shot, recipe, width);
    step = shot.step;
    auto head = std::string(shot.covered_by.empty() ? "[ ] " : "[x] ") + shot.number;
    head.append(head.size() < 9 ? 9 - head.size() : 1, ' ');
    const auto framing = framing_words(shot);
    head += framing + std::string(framing.size() < 10 ? 10 - framing.size() : 1, ' ');
    const auto indent = head.size();
    const auto lines = wrap(shot.subject, width - indent);
    for (std::size_t l = 0; l < lines.size(); ++l)
      out += (l == 0 ? head : std::string(indent, ' ')) + lines[l] + "\n";
    const bool is_insert = shot.shows.size() == 1 && shot.shows.front() == shot.subject;
    if (!shot.shows.empty() && !is_insert)
      append_indented(out, "show: " + join(shot.shows, "; "), indent, width);
    if (!shot.line.empty()) append_indented(out, "say: " + shot.line, indent, width);
    append_indented(
        out,
        length_words(shot) + (shot.repeatable ? "" : " · once only") + " · " + filmed_words(shot, project),
        indent, width);
  }
  out += "\n";
  append_indented(out, shot_list_summary(list), 0, width);
  return out;
}

std::string shot_list_json(const ShotList& list, const Recipe& recipe) {
  using Json = nlohmann::ordered_json;
  Json json;
  json["panslate_plan"] = 1;
  json["tasks"] = Json::array();
  json["makespan"] = nullptr;
  json["lower_bound"] = nullptr;
  json["proven"] = false;
  json["resources"] = Json::array();
  json["timers"] = Json::array();
  json["shots"] = Json::array();
  MediaTime total;
  for (const auto& shot : list.shots) {
    const auto number = step_number(shot, recipe);
    Json entry;
    entry["number"] = shot.number;
    entry["setup"] = shot.setup;
    entry["step"] = number > 0 ? Json(number) : Json();
    entry["framing"] = framing_words(shot);
    entry["subject"] = shot.subject;
    entry["shows"] = shot.shows;
    entry["line"] = shot.line;
    entry["seconds"] = seconds_json(shot.length);
    entry["repeatable"] = shot.repeatable;
    entry["start"] = nullptr;
    entry["covered_by"] = shot.covered_by.empty() ? Json() : Json(shot.covered_by.front());
    entry["also_covered_by"] = Json::array();
    for (std::size_t i = 1; i < shot.covered_by.size(); ++i)
      entry["also_covered_by"].push_back(shot.covered_by[i]);
    json["shots"].push_back(std::move(entry));
    total += shot.length;
  }
  json["conflicts"] = Json::array();
  json["finished_video"]["seconds"] = seconds_json(total);
  return report_text(json);
}

}  // namespace panslate
