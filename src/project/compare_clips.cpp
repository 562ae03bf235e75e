#include <algorithm>
#include <map>
#include <set>

#include "panslate/project/log_footage.h"

#include "project/same_moment.h"

namespace panslate {

namespace {

std::string name_of(const LoggedClip& clip) {
  return clip.file.filename().string();
}

// "a.mp4, b.mp4 and 3 others"
std::string names_of(const std::vector<const LoggedClip*>& clips) {
  constexpr std::size_t kNamed = 3;
  std::string out;
  for (std::size_t i = 0; i < std::min(kNamed, clips.size()); ++i)
    out += (i == 0 ? "" : ", ") + name_of(*clips[i]);
  if (clips.size() > kNamed) out += " and " + std::to_string(clips.size() - kNamed) + " more";
  return out;
}

// Where clips differ in something that an edit wants to be one: what most of them have, and who has not.
void warn_where_mixed(std::vector<FootageWarning>& warnings,
                      const std::map<std::string, std::vector<const LoggedClip*>>& by_value,
                      const std::string& code, const std::string& what) {
  if (by_value.size() < 2) return;
  const auto usual = std::max_element(by_value.begin(), by_value.end(), [](const auto& a, const auto& b) {
    return a.second.size() < b.second.size();
  });
  std::string message = what + ": most have " + usual->first;
  for (const auto& [value, clips] : by_value)
    if (value != usual->first) message += "; " + value + " in " + names_of(clips);
  warnings.push_back({code, message});
}

std::string rate_words(const PictureFacts& picture) {
  if (picture.variable_rate) return "a varying rate";
  const auto& rate = picture.frame_rate;
  return rate.den == 1 ? std::to_string(rate.num) + " frames a second"
                       : std::to_string(rate.num) + "/" + std::to_string(rate.den) + " frames a second";
}

std::vector<FootageWarning> mixed(const std::vector<LoggedClip>& clips) {
  std::map<std::string, std::vector<const LoggedClip*>> rates;
  std::map<std::string, std::vector<const LoggedClip*>> shapes;
  std::map<std::string, std::vector<const LoggedClip*>> ranges;
  for (const auto& clip : clips) {
    if (!clip.log || !clip.log->facts.picture) continue;
    const auto& picture = *clip.log->facts.picture;
    rates[rate_words(picture)].push_back(&clip);
    shapes[picture.shown_width > picture.shown_height   ? "a wide picture"
           : picture.shown_width < picture.shown_height ? "an upright picture"
                                                        : "a square picture"]
        .push_back(&clip);
    ranges[picture.hdr ? "high dynamic range" : "standard range"].push_back(&clip);
  }
  std::vector<FootageWarning> out;
  warn_where_mixed(out, rates, "mixed-rates", "The clips have different frame rates");
  warn_where_mixed(out, shapes, "mixed-shapes", "Some clips are wide, some upright");
  warn_where_mixed(out, ranges, "mixed-ranges", "Brightness is recorded in different ways");
  return out;
}

}  // namespace

FootageLog compare_clips(std::vector<LoggedClip> clips) {
  FootageLog out;
  out.clips = std::move(clips);
  out.warnings = mixed(out.clips);
  out.duplicates = find_duplicates(out.clips);
  return out;
}

}  // namespace panslate
