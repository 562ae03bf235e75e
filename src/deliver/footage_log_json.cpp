#include <cmath>

#include "panslate/base/text.h"
#include "panslate/deliver/footage_log_files.h"

#include "deliver/amount_json.h"
#include "deliver/still_names.h"

namespace panslate {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kReportVersion = 1;

double rounded(double value) {
  return std::round(value * 10) / 10;
}

Json text_or_null(const std::optional<std::string>& text) {
  return text ? Json(*text) : Json();
}

void set_range(Json& json, const TimeRange& when) {
  json["start"] = seconds_json(when.begin);
  json["end"] = seconds_json(when.end);
}

void set_facts(Json& json, const ClipLog& log) {
  const auto& facts = log.facts;
  json["duration"] = seconds_json(facts.duration);
  json["frames"] = log.frames;
  const auto& picture = facts.picture;
  json["frame_rate"] =
      picture ? Json(std::to_string(picture->frame_rate.num) + "/" + std::to_string(picture->frame_rate.den))
              : Json();
  json["variable_rate"] = picture && picture->variable_rate;
  json["width"] = picture ? Json(picture->width) : Json();
  json["height"] = picture ? Json(picture->height) : Json();
  json["rotation"] = picture ? Json(picture->rotation) : Json();
  json["hdr"] = picture && picture->hdr;
  json["timecode"] = text_or_null(facts.timecode);
  json["recorded"] = text_or_null(facts.recorded);
  json["video_codec"] = picture ? Json(picture->codec) : Json();
  const bool has_sound = log.sound_track < facts.sound.size();
  json["audio_codec"] = has_sound ? Json(facts.sound[log.sound_track].codec) : Json();
  json["channels"] = has_sound ? facts.sound[log.sound_track].channels : 0;
  json["sound_track"] = has_sound ? Json(log.sound_track + 1) : Json();
  json["sound_tracks"] = facts.sound.size();
}

Json shots_json(const FootageLog& log, std::size_t clip, Stills stills) {
  Json list = Json::array();
  const auto& shots = log.clips[clip].log->shots;
  for (std::size_t i = 0; i < shots.size(); ++i) {
    const auto& shot = shots[i];
    Json one;
    set_range(one, shot.when);
    one["first_frame"] = shot.first_frame;
    one["last_frame"] = shot.last_frame;
    one["into"] = shot.into ? Json(spelling_of(*shot.into)) : Json();
    one["still"] = shot.still && stills == Stills::Saved ? Json(still_name(log, clip, i)) : Json();
    if (shot.still) one["still_at"] = seconds_json(shot.still->time);
    list.push_back(std::move(one));
  }
  return list;
}

Json clip_json(const FootageLog& log, std::size_t index, Stills stills) {
  const auto& clip = log.clips[index];
  Json json;
  json["file"] = clip.file.string();
  if (!clip.log) {
    json["status"] = "unreadable";
    json["reason"] = clip.why ? Json(clip.why->message) : Json("it cannot be opened");
    for (const char* list : {"shots", "speech", "faults"}) json[list] = Json::array();
    json["loudness"] = Json();
    return json;
  }
  const auto* damage = clip.log->damage();
  json["status"] = damage != nullptr ? "damaged" : "ok";
  json["reason"] = damage != nullptr ? Json(damage->detail) : Json();
  set_facts(json, *clip.log);
  json["shots"] = shots_json(log, index, stills);
  json["speech"] = Json::array();
  for (const auto& when : clip.log->speech) {
    Json one;
    set_range(one, when);
    json["speech"].push_back(std::move(one));
  }
  json["loudness"] = Json();
  if (const auto& loudness = clip.log->loudness)
    json["loudness"] = {{"integrated", loudness->integrated ? Json(rounded(*loudness->integrated)) : Json()},
                        {"range", rounded(loudness->range)},
                        {"true_peak", rounded(loudness->true_peak)}};
  json["faults"] = Json::array();
  for (const auto& fault : clip.log->faults) {
    Json one;
    one["kind"] = spelling_of(fault.kind);
    set_range(one, fault.when);
    one["detail"] = fault.detail;
    json["faults"].push_back(std::move(one));
  }
  return json;
}

Json proposals_json(const LoggedProposals& proposals) {
  Json list = Json::array();
  for (const auto& part : proposals.found.parts) {
    Json one;
    one["media"] = proposals.project.media[part.media].id;
    one["in"] = seconds_json(part.range.begin);
    one["out"] = seconds_json(part.range.end);
    one["step"] = part.step + 1;
    one["key"] = proposals.project.recipe.steps[part.step].key;
    one["reason"] = part_reason(proposals.project, part);
    one["said"] = part.said.text;
    set_range(one["said_at"], part.said.when);
    one["refs"] = part.said.refs;
    one["draft"] = part.draft;
    list.push_back(std::move(one));
  }
  return list;
}

// What is not proposed, by the reason.
Json not_proposed_json(const LoggedProposals& proposals) {
  const auto ids = [&](const std::vector<std::size_t>& media) {
    Json list = Json::array();
    for (const auto index : media) list.push_back(proposals.project.media[index].id);
    return list;
  };
  const auto& found = proposals.found;
  return {{"no_step", found.untold},
          {"two_steps", found.between_steps},
          {"marked", found.marked},
          {"without_words", ids(found.without_words)},
          {"without_voice", ids(found.without_voice)}};
}

}  // namespace

std::string footage_log_json(const FootageLog& log, Stills stills, const LoggedProposals* proposals) {
  Json json;
  json["panslate_log"] = kReportVersion;
  json["clips"] = Json::array();
  for (std::size_t i = 0; i < log.clips.size(); ++i) json["clips"].push_back(clip_json(log, i, stills));
  json["duplicates"] = Json::array();
  for (const auto& one : log.duplicates) {
    Json files = Json::array();
    for (const auto clip : one.clips) files.push_back(log.clips[clip].file.string());
    json["duplicates"].push_back(
        {{"files", std::move(files)},
         {"kind", one.kind == Duplicate::Kind::SameFile ? "same-file" : "same-moment"},
         {"offset", seconds_json(one.offset)}});
  }
  json["warnings"] = Json::array();
  for (const auto& one : log.warnings)
    json["warnings"].push_back({{"code", spelling_of(one.kind)}, {"message", warning_words(log, one)}});
  json["proposals"] = proposals != nullptr ? proposals_json(*proposals) : Json::array();
  if (proposals != nullptr) json["not_proposed"] = not_proposed_json(*proposals);
  return report_text(json);
}

}  // namespace panslate
