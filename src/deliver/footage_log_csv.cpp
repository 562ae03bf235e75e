#include "panslate/base/timestamp.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/footage_log_files.h"

namespace panslate {

namespace {

std::string clock(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Clock);
}

class Table {
 public:
  void add(const std::string& what, const TimeRange& when, const std::string& frames,
           const std::string& detail) {
    out_ += csv_row({clip_, what, clock(when.begin), clock(when.end), frames, detail});
  }
  void add_clip(const LoggedClip& clip) {
    clip_ = clip.file.string();
    if (!clip.log) {
      out_ += csv_row({clip_, "cannot be read", "", "", "", clip.why ? clip.why->message : ""});
      return;
    }
    const auto& log = *clip.log;
    add("clip", {{}, log.facts.duration}, log.facts.picture ? std::to_string(log.frames) : "",
        kind_words(log.facts));
    for (const auto& shot : log.shots)
      add("shot", shot.when, std::to_string(shot.first_frame) + "-" + std::to_string(shot.last_frame),
          shot.into ? std::string(spelling_of(*shot.into)) : "");
    for (const auto& speech : log.speech) add("speech", speech, "", "");
    for (const auto& fault : log.faults)
      add(std::string(fault_words(fault.kind)), fault.when, "", fault.detail);
  }
  [[nodiscard]] std::string take() && { return std::move(out_); }

 private:
  std::string out_ = std::string(kFootageCsvMark) + "\r\n";
  std::string clip_;
};

}  // namespace

std::string footage_log_csv(const FootageLog& log) {
  Table table;
  for (const auto& clip : log.clips) table.add_clip(clip);
  return std::move(table).take();
}

}  // namespace panslate
