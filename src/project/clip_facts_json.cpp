#include "project/clip_facts_json.h"

#include <cstdint>
#include <limits>
#include <string>
#include <utility>

#include <nlohmann/json.hpp>

namespace panslate {

namespace {

using Json = nlohmann::ordered_json;

// Reads members one after the other; one that does not fit spoils all.
class Reading {
 public:
  explicit Reading(const Json& json) : json_(json) {}
  [[nodiscard]] bool good() const { return good_; }

  void into(const char* name, std::string& out) {
    const auto* member = find(name);
    if (member == nullptr || !member->is_string()) return spoil();
    out = member->get_ref<const std::string&>();
  }
  void into(const char* name, bool& out) {
    const auto* member = find(name);
    if (member == nullptr || !member->is_boolean()) return spoil();
    out = member->get<bool>();
  }
  void into(const char* name, std::int64_t& out, std::int64_t least, std::int64_t most) {
    const auto* member = find(name);
    if (member == nullptr || !member->is_number_integer()) return spoil();
    // An unsigned number beyond the signed range would come out negative.
    if (member->is_number_unsigned() &&
        member->get<std::uint64_t>() > static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max()))
      return spoil();
    out = member->get<std::int64_t>();
    if (out < least || out > most) spoil();
  }
  void into(const char* name, std::int32_t& out, std::int32_t least,
            std::int32_t most = std::numeric_limits<std::int32_t>::max()) {
    std::int64_t value = 0;
    into(name, value, least, most);
    if (good_) out = static_cast<std::int32_t>(value);
  }
  void into(const char* name, MediaTime& out) {
    constexpr std::int64_t kLongest = MediaTime::from_seconds(std::int64_t{10} * 366 * 86'400).ticks();
    std::int64_t ticks = 0;
    into(name, ticks, -kLongest, kLongest);
    out = MediaTime::from_ticks(ticks);
  }
  void into(const char* name, std::optional<std::string>& out) {
    if (json_.contains(name)) into(name, out.emplace());
  }

 private:
  const Json* find(const char* name) const {
    if (!json_.is_object()) return nullptr;
    const auto found = json_.find(name);
    return found == json_.end() ? nullptr : &*found;
  }
  void spoil() { good_ = false; }

  const Json& json_;
  bool good_ = true;
};

Json json_of(const PictureFacts& picture) {
  Json json = {{"width", picture.width},
               {"height", picture.height},
               {"shown_width", picture.shown_width},
               {"shown_height", picture.shown_height},
               {"rotation", picture.rotation},
               {"mirrored", picture.mirrored},
               {"rate_num", picture.frame_rate.num},
               {"rate_den", picture.frame_rate.den},
               {"variable_rate", picture.variable_rate},
               {"duration", picture.duration.ticks()},
               {"codec", picture.codec},
               {"hdr", picture.hdr}};
  if (picture.frames) json["frames"] = *picture.frames;
  return json;
}

std::optional<PictureFacts> picture_from(const Json& json) {
  PictureFacts picture;
  Reading reading(json);
  reading.into("width", picture.width, 0);
  reading.into("height", picture.height, 0);
  reading.into("shown_width", picture.shown_width, 0);
  reading.into("shown_height", picture.shown_height, 0);
  reading.into("rotation", picture.rotation, 0, 270);
  reading.into("mirrored", picture.mirrored);
  reading.into("rate_num", picture.frame_rate.num, 1);
  reading.into("rate_den", picture.frame_rate.den, 1);
  reading.into("variable_rate", picture.variable_rate);
  reading.into("duration", picture.duration);
  reading.into("codec", picture.codec);
  reading.into("hdr", picture.hdr);
  if (json.is_object() && json.contains("frames"))
    reading.into("frames", picture.frames.emplace(), 0, std::numeric_limits<std::int64_t>::max());
  return reading.good() ? std::optional(picture) : std::nullopt;
}

Json json_of(const SoundFacts& sound) {
  return {{"channels", sound.channels}, {"sample_rate", sound.sample_rate}, {"layout", sound.layout},
          {"codec", sound.codec},       {"begin", sound.begin.ticks()},     {"end", sound.end.ticks()}};
}

std::optional<SoundFacts> sound_from(const Json& json) {
  SoundFacts sound;
  Reading reading(json);
  reading.into("channels", sound.channels, 0);
  reading.into("sample_rate", sound.sample_rate, 0);
  reading.into("layout", sound.layout);
  reading.into("codec", sound.codec);
  reading.into("begin", sound.begin);
  reading.into("end", sound.end);
  return reading.good() ? std::optional(sound) : std::nullopt;
}

}  // namespace

Json json_of(const ClipFacts& facts) {
  Json json = {{"duration", facts.duration.ticks()},
               {"from_header", facts.duration_source == DurationSource::Header},
               {"container", facts.container}};
  if (facts.picture) json["picture"] = json_of(*facts.picture);
  json["sound"] = Json::array();
  for (const auto& sound : facts.sound) json["sound"].push_back(json_of(sound));
  if (facts.timecode) json["timecode"] = *facts.timecode;
  if (facts.recorded) json["recorded"] = *facts.recorded;
  json["warnings"] = facts.warnings;
  return json;
}

std::optional<ClipFacts> clip_facts_from(const Json& json, const std::filesystem::path& file) {
  ClipFacts facts;
  facts.file = file;
  bool from_header = false;
  Reading reading(json);
  reading.into("duration", facts.duration);
  reading.into("from_header", from_header);
  reading.into("container", facts.container);
  reading.into("timecode", facts.timecode);
  reading.into("recorded", facts.recorded);
  if (!reading.good() || !json.contains("sound") || !json["sound"].is_array() || !json.contains("warnings") ||
      !json["warnings"].is_array())
    return std::nullopt;
  facts.duration_source = from_header ? DurationSource::Header : DurationSource::Packets;
  if (json.contains("picture")) {
    facts.picture = picture_from(json["picture"]);
    if (!facts.picture) return std::nullopt;
  }
  for (const auto& one : json["sound"]) {
    auto sound = sound_from(one);
    if (!sound) return std::nullopt;
    facts.sound.push_back(*std::move(sound));
  }
  for (const auto& warning : json["warnings"]) {
    if (!warning.is_string()) return std::nullopt;
    facts.warnings.push_back(warning.get<std::string>());
  }
  return facts;
}

}  // namespace panslate
