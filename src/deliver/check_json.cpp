#include "panslate/deliver/check_json.h"

#include "deliver/amount_json.h"
#include "deliver/recipe_json.h"

namespace panslate {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kReportVersion = 2;

Json text_or_null(const std::string& text) {
  return text.empty() ? Json() : Json(text);
}

Json mention_json(const Mention& mention) {
  Json json;
  json["start"] = seconds_json(mention.when.begin);
  json["end"] = seconds_json(mention.when.end);
  json["precision"] = seconds_json(mention.precision);
  json["text"] = mention.text;
  json["amount"] = amount_or_null(mention.amount);
  json["alternates"] = amounts_json(mention.alternates);
  json["refs"] = mention.refs;
  json["media"] = text_or_null(mention.media);
  return json;
}

Json channel_json(const ChannelFinding& channel) {
  Json json;
  json["verdict"] = spelling_of(channel.verdict);
  json["mentions"] = Json::array();
  for (const auto& mention : channel.mentions) json["mentions"].push_back(mention_json(mention));
  return json;
}

Json requirement_json(const Requirement& requirement) {
  Json json;
  json["id"] = CheckReport::id_of(requirement);
  json["key"] = requirement.key;
  json["kind"] = spelling_of(requirement.kind);
  json["line"] = requirement.line > 0 ? Json(requirement.line) : Json();
  json["text"] = requirement.text;
  json["name"] = text_or_null(requirement.name);
  json["optional"] = requirement.optional;
  json["amounts"] = amounts_json(requirement.amounts);
  json["said"] = channel_json(requirement.said);
  json["shown"]["verdict"] = spelling_of(requirement.shown.verdict);
  json["shown"]["segments"] = requirement.shown.segments;
  json["on_text"] = channel_json(requirement.on_text);
  json["covered"] = requirement.covered;
  json["why"] = requirement.why;
  if (requirement.answered) json["answered"] = true;
  if (requirement.said_in_raw) json["said_in_raw"] = channel_json(*requirement.said_in_raw);
  return json;
}

Json extra_json(const Extra& extra) {
  Json json;
  json["start"] = seconds_json(extra.when.begin);
  json["end"] = seconds_json(extra.when.end);
  json["text"] = extra.text;
  json["name"] = text_or_null(extra.name);
  json["amount"] = amount_or_null(extra.amount);
  return json;
}

Json heard_json(const Heard& heard, const CheckReport& report) {
  Json json;
  json["start"] = seconds_json(heard.when.begin);
  json["end"] = seconds_json(heard.when.end);
  json["text"] = heard.text;
  json["amount"] = amount_json(heard.amount);
  json["alternates"] = amounts_json(heard.alternates);
  json["role"] = spelling_of(heard.role);
  json["requirement"] = heard.requirement && *heard.requirement < report.requirements.size()
                            ? Json(CheckReport::id_of(report.requirements[*heard.requirement]))
                            : Json();
  return json;
}

Json correction_json(const CaptionCorrection& correction, const CheckReport& report) {
  Json json;
  json["start"] = seconds_json(correction.when.begin);
  json["end"] = seconds_json(correction.when.end);
  json["heard"] = correction.heard;
  json["meant"] = correction.meant;
  json["requirement"] = correction.requirement < report.requirements.size()
                            ? Json(CheckReport::id_of(report.requirements[correction.requirement]))
                            : Json();
  json["sure"] = correction.sure;
  json["media"] = text_or_null(correction.media);
  return json;
}

Json warning_json(const CheckWarning& warning) {
  Json json;
  json["code"] = warning.code;
  json["level"] = warning.level == WarningLevel::Warning ? "warning" : "note";
  json["message"] = warning.message;
  json["line"] = warning.line ? Json(*warning.line) : Json();
  json["at"] = warning.at ? Json(seconds_json(*warning.at)) : Json();
  return json;
}

}  // namespace

std::string check_json(const CheckReport& report, const Recipe& recipe, const ReportSetting& setting) {
  Json json;
  json["panslate_report"] = kReportVersion;
  json["recipe"] = recipe_json(recipe);
  json["duration"] = report.duration ? Json(seconds_json(*report.duration)) : Json();
  json["requirements"] = Json::array();
  for (const auto& requirement : report.requirements)
    json["requirements"].push_back(requirement_json(requirement));
  json["extras"] = Json::array();
  for (const auto& extra : report.extras) json["extras"].push_back(extra_json(extra));
  json["heard"] = Json::array();
  for (const auto& heard : report.heard) json["heard"].push_back(heard_json(heard, report));
  json["warnings"] = Json::array();
  for (const auto& warning : report.warnings) json["warnings"].push_back(warning_json(warning));
  json["corrections"] = Json::array();
  for (const auto& correction : report.corrections)
    json["corrections"].push_back(correction_json(correction, report));
  json["looked_in"] = text_or_null(setting.looked_in);
  json["changes"] = Json::array();
  for (const auto& change : setting.changes)
    json["changes"].push_back({{"what", change.what}, {"before", change.before}, {"after", change.after}});
  json["summary"]["requirements"] = report.requirements.size();
  json["summary"]["covered"] = report.covered_count();
  json["summary"]["attention"] = report.attention_count();
  return report_text(json);
}

}  // namespace panslate
