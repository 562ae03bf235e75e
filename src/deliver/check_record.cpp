#include "panslate/deliver/check_record.h"

#include <map>
#include <set>
#include <utility>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"
#include "panslate/deliver/check_digest.h"

namespace panslate {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kForm = 1;
constexpr std::size_t kMostChanges = 200;

// A line by its lasting key; a step's time and its temperature may share one.
std::string name_of(const Requirement& line) {
  return std::string(spelling_of(line.kind)) + ":" + line.key;
}

std::string found_words(const Requirement& line) {
  auto words = std::string(said_words(line.said.verdict));
  if (!line.said.mentions.empty() && line.said.verdict != Verdict::Missing)
    words += " at " + when_in_words(line.said.mentions.front());
  return words;
}

// The moment moves with every new export of the edit: what counts is what was found.
bool finds_otherwise(const Json& before, const Requirement& now) {
  return before.value("said", "") != spelling_of(now.said.verdict) ||
         before.value("shown", "") != spelling_of(now.shown.verdict) ||
         before.value("on_text", "") != spelling_of(now.on_text.verdict);
}

std::string words_after(const Json& before, const Requirement& now) {
  if (before.value("said", "") != spelling_of(now.said.verdict)) return found_words(now);
  if (before.value("shown", "") != spelling_of(now.shown.verdict))
    return std::string(shown_words(now.shown.verdict));
  return std::string(on_picture_words(now.on_text.verdict)) + " on the picture";
}

std::string words_before(const Json& before, const Requirement& now) {
  if (before.value("said", "") != spelling_of(now.said.verdict)) return before.value("said_words", "");
  if (before.value("shown", "") != spelling_of(now.shown.verdict)) return before.value("shown_words", "");
  return before.value("on_text_words", "") + " on the picture";
}

bool stands_for_itself(RequirementKind kind) {
  return kind == RequirementKind::Ingredient || kind == RequirementKind::Step ||
         kind == RequirementKind::Yield;
}

// The texts of a record; anything else in their place makes it no record.
bool is_record(const Json& record) {
  if (!record.is_object() || !record.contains("form") || record["form"] != kForm ||
      !record.contains("looked_in") || !record["looked_in"].is_string())
    return false;
  for (const auto* list : {"lines", "clips"}) {
    if (!record.contains(list) || !record[list].is_array()) return false;
    for (const auto& one : record[list]) {
      if (!one.is_object()) return false;
      for (const auto& value : one)
        if (!value.is_string()) return false;
    }
  }
  return true;
}

class Comparing {
 public:
  Comparing(const Json& record, const CheckReport& report, const std::vector<RecordedClip>& clips)
      : record_(record), report_(report), clips_(clips) {
    for (const auto& line : record["lines"]) before_.emplace(line.value("name", ""), &line);
  }

  std::vector<ReportChange> run() {
    for (const auto& line : report_.requirements) compare(line);
    for (const auto& line : record_["lines"])
      if (!seen_.contains(line.value("name", "")) && line.value("own", "") == "yes")
        add(line.value("text", ""), "in the recipe", "no longer in the recipe");
    compare_clips();
    return std::move(changes_);
  }

 private:
  void add(const std::string& what, const std::string& before, const std::string& after) {
    if (changes_.size() < kMostChanges)
      changes_.push_back({collapse_spaces(what), collapse_spaces(before), collapse_spaces(after)});
  }

  void compare(const Requirement& line) {
    const auto name = name_of(line);
    seen_.insert(name);
    const auto found = before_.find(name);
    if (found == before_.end()) {
      if (stands_for_itself(line.kind)) add(line.text, "not in the recipe", "new in the recipe");
      return;
    }
    const auto& before = *found->second;
    if (stands_for_itself(line.kind) && before.value("text", "") != line.text)
      add("The recipe", before.value("text", ""), line.text);
    if (finds_otherwise(before, line)) add(line.text, words_before(before, line), words_after(before, line));
  }

  void compare_clips() {
    std::map<std::string, std::string> before;
    for (const auto& clip : record_["clips"]) before.emplace(clip.value("id", ""), clip.value("content", ""));
    for (const auto& clip : clips_) {
      const auto found = before.find(clip.id);
      if (found == before.end())
        add("Clip " + clip.id, "not in the project", "new");
      else if (found->second != clip.content)
        add("Clip " + clip.id, found->second.empty() ? "could not be read" : "as it was",
            clip.content.empty() ? "cannot be read" : "another recording or export");
      if (found != before.end()) before.erase(found);
    }
    for (const auto& [id, content] : before) add("Clip " + id, "in the project", "no longer there");
  }

  const Json& record_;
  const CheckReport& report_;
  const std::vector<RecordedClip>& clips_;
  std::map<std::string, const Json*> before_;
  std::set<std::string> seen_;
  std::vector<ReportChange> changes_;
};

}  // namespace

std::string check_record(const CheckReport& report, const std::vector<RecordedClip>& clips,
                         std::string_view looked_in) {
  Json record = {
      {"form", kForm}, {"looked_in", looked_in}, {"lines", Json::array()}, {"clips", Json::array()}};
  for (const auto& line : report.requirements)
    record["lines"].push_back({{"name", name_of(line)},
                               {"own", stands_for_itself(line.kind) ? "yes" : "no"},
                               {"text", line.text},
                               {"said", spelling_of(line.said.verdict)},
                               {"said_words", found_words(line)},
                               {"shown", spelling_of(line.shown.verdict)},
                               {"shown_words", shown_words(line.shown.verdict)},
                               {"on_text", spelling_of(line.on_text.verdict)},
                               {"on_text_words", on_picture_words(line.on_text.verdict)}});
  for (const auto& clip : clips) record["clips"].push_back({{"id", clip.id}, {"content", clip.content}});
  return record.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::vector<ReportChange> changes_since(std::string_view record, const CheckReport& report,
                                        const std::vector<RecordedClip>& clips, std::string_view looked_in) {
  const auto before = Json::parse(record, nullptr, false);
  if (!is_record(before) || before.value("looked_in", "") != looked_in) return {};
  return Comparing(before, report, clips).run();
}

}  // namespace panslate
