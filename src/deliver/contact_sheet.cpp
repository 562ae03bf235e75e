#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "panslate/base/text.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/footage_log_files.h"

#include "deliver/data_uri.h"
#include "deliver/film_place.h"
#include "deliver/page_marks.h"
#include "deliver/page_template.h"
#include "deliver/wave_drawing.h"
#include "embedded/contact_sheet_css.h"
#include "embedded/contact_sheet_mustache.h"
#include "embedded/page_css.h"

namespace panslate {

namespace {

constexpr std::size_t kBars = 600;
constexpr double kWaveWidth = 1200;
constexpr std::size_t kMostStills = 60;
constexpr std::size_t kMostFaults = 40;

// Levels of any length as so many heights.
std::vector<std::uint8_t> bars_of(const std::string& levels) {
  std::vector<std::uint8_t> bars(std::min(kBars, levels.size()));
  for (std::size_t i = 0; i < bars.size(); ++i) {
    const auto from = i * levels.size() / bars.size();
    const auto to = std::max(from + 1, (i + 1) * levels.size() / bars.size());
    std::uint8_t loudest = 0;
    for (auto k = from; k < to; ++k) loudest = std::max(loudest, static_cast<std::uint8_t>(levels[k]));
    // Sixty decibels fill the box; the drawing takes a root of what it is given.
    const double share = std::clamp((loudest / 2.0 - 127 + 66) / 60, 0.0, 1.0);
    bars[i] = static_cast<std::uint8_t>(std::lround(255 * share * share));
  }
  return bars;
}

class ClipRow {
 public:
  ClipRow(const FootageLog& log, std::size_t index, const std::filesystem::path& folder,
          const LoggedProposals* proposals)
      : clip_(log.clips[index]),
        url_(relative_url(path_seen_from(folder, clip_.file))),
        number_(index + 1),
        proposals_(proposals) {}

  [[nodiscard]] PageData data() const {
    PageData data;
    data.set("number", std::to_string(number_));
    data.set("name", page_text(clip_.file.filename().string(), 200));
    data.set("url", url_);
    set_flag(data, "unreadable", !clip_.log);
    if (!clip_.log) {
      data.set("why", page_text(clip_.why ? clip_.why->message : "it cannot be opened"));
      return data;
    }
    const auto& log = *clip_.log;
    data.set("facts", facts_words(log));
    set_if(data, "sound", join(sound_words(log, LoudnessWords::Full), " · "));
    const auto all = std::count_if(log.shots.begin(), log.shots.end(),
                                   [](const LoggedShot& shot) { return shot.still.has_value(); });
    set_list(data, "stills", stills(log));
    set_more(data, "more_stills", static_cast<std::size_t>(all), kMostStills);
    set_flag(data, "has_wave", !log.levels.empty());
    data.set("path", wave_path(bars_of(log.levels), kWaveWidth));
    const MediaTime sounding = MediaTime::from_ms(static_cast<std::int64_t>(log.levels.size()) * 10);
    set_list(data, "speech", stretches(log, sounding));
    set_list(data, "faults", faults(log));
    set_more(data, "more_faults", log.faults.size(), kMostFaults);
    set_list(data, "parts", parts());
    set_flag(data, "parts_written", proposals_ != nullptr && proposals_->written);
    return data;
  }

 private:
  static void set_more(PageData& data, const char* name, std::size_t all, std::size_t most) {
    set_if(data, name, all > most ? more_words(all - most) : std::string{});
  }
  static std::string facts_words(const ClipLog& log) {
    std::string out = spoken(log.facts.duration) + " min · " + kind_words(log.facts);
    if (log.facts.picture) out += " · " + count_in_words(log.shots.size(), "shot", "shots");
    if (log.facts.timecode) out += " · from " + page_text(*log.facts.timecode, 40);
    if (log.facts.recorded) out += " · recorded " + page_text(*log.facts.recorded, 40);
    return out;
  }

  void set_moment(PageData& data, const TimeRange& when) const {
    data.set("url", url_);
    data.set("t", seconds_text(when.begin));
    data.set("e", seconds_text(when.end));
    data.set("time", spoken(when.begin));
  }

  [[nodiscard]] PageData stills(const ClipLog& log) const {
    PageData list(PageData::type::list);
    std::size_t shown = 0;
    for (std::size_t i = 0; i < log.shots.size() && shown < kMostStills; ++i) {
      const auto& shot = log.shots[i];
      if (!shot.still) continue;
      ++shown;
      PageData data;
      set_moment(data, shot.when);
      data.set("picture", jpeg_data_uri(shot.still->jpeg));
      data.set("width", std::to_string(shot.still->width));
      data.set("height", std::to_string(shot.still->height));
      data.set("shot", std::to_string(i + 1));
      data.set("length", fmt::format("{:.1f} s", shot.when.duration().seconds()));
      set_if(
          data, "into",
          shot.into && *shot.into != ShotStart::Cut ? std::string(spelling_of(*shot.into)) : std::string{});
      list.push_back(data);
    }
    return list;
  }

  [[nodiscard]] PageData stretches(const ClipLog& log, MediaTime whole) const {
    PageData list(PageData::type::list);
    for (const auto& when : log.speech) {
      PageData data;
      set_moment(data, when);
      data.set("x", fmt::format("{:.3f}", when.begin.seconds() / whole.seconds() * 100));
      data.set("w", fmt::format("{:.3f}", when.duration().seconds() / whole.seconds() * 100));
      list.push_back(data);
    }
    return list;
  }

  [[nodiscard]] PageData faults(const ClipLog& log) const {
    PageData list(PageData::type::list);
    const auto worst = worst_first(log);
    for (std::size_t i = 0; i < std::min(kMostFaults, worst.size()); ++i) {
      const auto& fault = worst[i];
      PageData data;
      set_moment(data, fault.when);
      data.set("until", spoken(fault.when.end));
      data.set("words", std::string(fault_words(fault.kind)));
      set_if(data, "detail", page_text(fault.detail));
      list.push_back(data);
    }
    return list;
  }

  [[nodiscard]] PageData parts() const {
    PageData list(PageData::type::list);
    if (proposals_ == nullptr) return list;
    for (const auto& part : proposals_->found.parts) {
      if (proposals_->clips[part.media] + 1 != number_) continue;
      PageData data;
      set_moment(data, part.range);
      data.set("moments", part_moments(part));
      data.set("reason", page_text(part_reason(proposals_->project, part)));
      list.push_back(data);
    }
    return list;
  }

  const LoggedClip& clip_;
  std::string url_;
  std::size_t number_;
  const LoggedProposals* proposals_;
};

PageData sentences(const std::vector<std::string>& texts) {
  PageData list(PageData::type::list);
  for (const auto& text : texts) {
    PageData data;
    data.set("text", page_text(text));
    list.push_back(data);
  }
  return list;
}

std::string summary_of(const FootageLog& log) {
  std::size_t faulty = 0;
  std::size_t unread = 0;
  MediaTime whole;
  for (const auto& clip : log.clips) {
    if (!clip.log) ++unread;
    if (clip.log && !clip.log->faults.empty()) ++faulty;
    if (clip.log) whole += clip.log->facts.duration;
  }
  auto out = spoken(whole) + " of footage in " + count_in_words(log.clips.size(), "clip", "clips") + ". ";
  if (faulty == 0)
    out += "Nothing is wrong with what could be read.";
  else
    out +=
        "Something is wrong with " + (log.clips.size() == 1 ? "it." : std::to_string(faulty) + " of them.");
  if (unread > 0) out += " " + count_in_words(unread, "clip", "clips") + " cannot be read.";
  return out;
}

}  // namespace

std::string contact_sheet(const FootageLog& log, const std::filesystem::path& folder,
                          const LoggedProposals* proposals) {
  PageData page;
  page.set("css", std::string(embedded::page_css) + std::string(embedded::contact_sheet_css));
  page.set("summary", summary_of(log));
  std::vector<std::string> notes;
  for (const auto& one : log.duplicates) notes.push_back(duplicate_words(log, one));
  for (const auto& one : log.warnings) notes.push_back(warning_words(log, one));
  if (proposals != nullptr)
    for (auto& words : left_out_words(log, *proposals)) notes.push_back(std::move(words));
  set_list(page, "notes", sentences(notes));
  PageData clips(PageData::type::list);
  for (std::size_t i = 0; i < log.clips.size(); ++i)
    clips.push_back(ClipRow(log, i, folder, proposals).data());
  set_list(page, "clips", clips);
  return fill_template(embedded::contact_sheet_mustache, page);
}

}  // namespace panslate
