#include "desk/undo_record.h"

#include <algorithm>
#include <array>

#include <nlohmann/json.hpp>

namespace panslate {

namespace {

using nlohmann::json;

constexpr int kVersion = 1;
constexpr std::size_t kMost = 10'000;  // decisions: beyond that the oldest are forgotten
constexpr std::array<std::string_view, 3> kLists{"answers", "segments", "settings"};

json json_of(const std::optional<std::string>& text) {
  return text ? json(*text) : json();
}

json json_of(const std::optional<ProjectEdit::Gap>& gap) {
  return gap ? json{{"before", gap->before}, {"behind", gap->behind}, {"without", gap->without}} : json();
}

json json_of(const std::vector<MadeDecision>& decisions) {
  json list = json::array();
  for (std::size_t i = decisions.size() - std::min(decisions.size(), kMost); i < decisions.size(); ++i) {
    json edits = json::array();
    for (const auto& edit : decisions[i].edits)
      edits.push_back({{"list", edit.list},
                       {"member", edit.member},
                       {"index", edit.index},
                       {"before", json_of(edit.before)},
                       {"after", json_of(edit.after)},
                       {"makes", edit.makes_list},
                       {"gap", json_of(edit.gap)}});
    list.push_back({{"what", decisions[i].what}, {"edits", std::move(edits)}});
  }
  return list;
}

// What is missing or of another kind throws; caught where the text is read.
std::optional<std::string> text_or_nothing(const json& value) {
  if (value.is_null()) return std::nullopt;
  return value.get<std::string>();
}

// A record of before gaps were kept has none.
std::optional<ProjectEdit::Gap> gap_from(const json& edit) {
  const auto found = edit.find("gap");
  if (found == edit.end() || found->is_null()) return std::nullopt;
  return ProjectEdit::Gap{found->at("before").get<std::string>(), found->at("behind").get<std::string>(),
                          found->at("without").get<std::string>()};
}

std::vector<MadeDecision> decisions_from(const json& list) {
  std::vector<MadeDecision> decisions;
  for (const auto& one : list) {
    MadeDecision decision{one.at("what").get<std::string>(), {}};
    for (const auto& edit : one.at("edits")) {
      decision.edits.push_back({edit.at("list").get<std::string>(), edit.at("member").get<std::string>(),
                                edit.at("index").get<std::size_t>(), text_or_nothing(edit.at("before")),
                                text_or_nothing(edit.at("after")), edit.at("makes").get<bool>(),
                                gap_from(edit)});
      if (std::find(kLists.begin(), kLists.end(), decision.edits.back().list) == kLists.end()) return {};
    }
    decisions.push_back(std::move(decision));
  }
  return decisions;
}

}  // namespace

std::string undo_record_text(const UndoRecord& record) {
  const json out{{"desk", kVersion}, {"done", json_of(record.done)}, {"undone", json_of(record.undone)}};
  return out.dump(-1, ' ', false, json::error_handler_t::replace);
}

std::optional<UndoRecord> undo_record_from(std::string_view text) {
  const auto value = json::parse(text.begin(), text.end(), nullptr, /*allow_exceptions=*/false);
  if (!value.is_object()) return std::nullopt;
  try {
    if (value.at("desk") != kVersion) return std::nullopt;
    return UndoRecord{decisions_from(value.at("done")), decisions_from(value.at("undone"))};
  } catch (const json::exception&) {
    return std::nullopt;
  }
}

}  // namespace panslate
