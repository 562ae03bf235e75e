#include "panslate/deliver/listen_page.h"

#include <algorithm>
#include <map>
#include <span>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/listen_words.h"
#include "panslate/deliver/output_folder.h"

#include "deliver/film_place.h"
#include "deliver/page_marks.h"
#include "deliver/page_template.h"
#include "deliver/wave_drawing.h"
#include "embedded/listen_css.h"
#include "embedded/listen_js.h"
#include "embedded/listen_mustache.h"
#include "embedded/page_css.h"

namespace panslate {

namespace {

constexpr MediaTime kRow = MediaTime::from_seconds(60);
constexpr std::size_t kPeaksInRow = 1200;  // twenty a second
constexpr double kRowWidth = 1200;
constexpr std::size_t kMostRows = 600;

void set_moment(PageData& data, const std::string& url, TimeRange when) {
  data.set("url", url);
  data.set("t", seconds_text(when.begin));
  data.set("e", seconds_text(when.end));
  data.set("time", spoken(when.begin));
}

// One clip on the page.
class ClipOnPage {
 public:
  ClipOnPage(const Listening& clip, const std::filesystem::path& folder, std::size_t number)
      : clip_(clip), number_(number) {
    url_ = relative_url(path_seen_from(folder, clip.file));
    for (const auto& word : clip.words) words_[word.line].push_back(&word);
  }

  [[nodiscard]] PageData data() const {
    PageData data;
    data.set("number", std::to_string(number_));
    data.set("name", page_text(clip_.file.filename().string(), 200));
    data.set("url", url_);
    data.set("facts",
             spoken(clip_.duration) + " min" + (clip_.draft ? " · a draft, written by ear" : noise_words()));
    data.set("summary", page_text(listening_summary(clip_)));
    set_flag(data, "good", !clip_.wants_attention());
    set_flag(data, "draft", clip_.draft);
    set_flag(data, "sound_only", !clip_.has_picture);
    set_list(data, "doubts", doubts());
    set_list(data, "rows", rows());
    set_list(data, "lines", lines());
    set_list(data, "other", other_speech());
    return data;
  }

 private:
  // Common practice, no source.
  [[nodiscard]] std::string noise_words() const {
    if (!clip_.snr_db) return {};
    if (*clip_.snr_db < 10) return " · loud noise beside the voice";
    if (*clip_.snr_db < 20) return " · some noise beside the voice";
    return " · a quiet room";
  }

  [[nodiscard]] const std::string* text_of(int line) const {
    const auto found = std::find_if(clip_.lines.begin(), clip_.lines.end(),
                                    [line](const SpokenLine& one) { return one.number == line; });
    return found == clip_.lines.end() ? nullptr : &found->text;
  }

  [[nodiscard]] PageData doubts() const {
    PageData list(PageData::type::list);
    for (const auto verdict : {Heeded::Differs, Heeded::Unsure})
      for (const auto& amount : clip_.amounts) {
        if (amount.verdict != verdict) continue;
        PageData data;
        const bool differs = verdict == Heeded::Differs;
        data.set("class", std::string(differs ? "wrong" : "doubt"));
        data.set("shape", std::string(differs ? "▲" : "◆"));
        data.set("kind", std::string(differs ? "said otherwise" : "please listen"));
        set_flag(data, "draft", clip_.draft);
        data.set("source", std::string(clip_.of_captions ? "The captions have" : "The script has"));
        data.set("written", page_text(to_text(amount.script)));
        set_if(data, "heard", page_text(amount.heard_text));
        set_if(data, "why", page_text(amount.why));
        const auto* text = text_of(amount.line);
        set_if(data, "line", text == nullptr ? std::string{} : page_text(*text));
        set_moment(data, url_, amount.when);
        list.push_back(data);
      }
    return list;
  }

  [[nodiscard]] PageData rows() const {
    PageData list(PageData::type::list);
    for (std::size_t row = 0; row * kPeaksInRow < clip_.peaks.size() && row < kMostRows; ++row) {
      const std::size_t first = row * kPeaksInRow;
      const auto count = std::min(kPeaksInRow, clip_.peaks.size() - first);
      const TimeRange when{kRow * static_cast<std::int64_t>(row), kRow * static_cast<std::int64_t>(row + 1)};
      PageData data;
      data.set("from", spoken(when.begin));
      const double width = kRowWidth * static_cast<double>(count) / kPeaksInRow;
      data.set("path", wave_path(std::span(clip_.peaks).subspan(first, count), width));
      set_list(data, "takes", takes_in(when));
      list.push_back(data);
    }
    return list;
  }

  [[nodiscard]] PageData takes_in(TimeRange row) const {
    PageData list(PageData::type::list);
    const double length = kRow.seconds();
    for (const auto& line : clip_.lines)
      for (const auto& take : line.takes) {
        if (!row.overlaps(take.when)) continue;
        const auto begin = std::max(row.begin, take.when.begin);
        const auto end = std::min(row.end, take.when.end);
        PageData data;
        data.set("x", std::to_string((begin - row.begin).seconds() / length * 100));
        data.set("w", std::to_string((end - begin).seconds() / length * 100));
        data.set("line", std::to_string(line.number));
        data.set("class", std::string(take.chosen ? "chosen" : take.complete ? "spare" : "broken"));
        data.set("text", page_text(line.text, 200));
        set_moment(data, url_, take.when);
        list.push_back(data);
      }
    return list;
  }

  [[nodiscard]] PageData lines() const {
    PageData list(PageData::type::list);
    for (const auto& line : clip_.lines) {
      PageData data;
      data.set("number", std::to_string(line.number));
      set_flag(data, "never", line.never_spoken());
      set_flag(data, "elsewhere", line.in_other_clip);
      set_if(data, "text", page_text(line.text));
      PageData takes(PageData::type::list);
      const bool plain = line.takes.size() == 1 && line.takes[0].complete && line.takes[0].why.empty();
      for (const auto& take : line.takes) {
        PageData one;
        set_moment(one, url_, take.when);
        set_if(one, "words", plain ? std::string{} : take_words(take));
        takes.push_back(one);
      }
      set_list(data, "takes", takes);
      set_list(data, "words", words_of_chosen(line));
      list.push_back(data);
    }
    return list;
  }

  [[nodiscard]] PageData words_of_chosen(const SpokenLine& line) const {
    PageData list(PageData::type::list);
    const auto words = words_.find(line.number);
    if (words == words_.end()) return list;
    for (const auto& take : line.takes) {
      if (!take.chosen) continue;
      for (const auto* word : words->second) {
        if (!take.when.contains(word->when.begin)) continue;
        PageData data;
        data.set("word", page_text(word->text, 60));
        set_moment(data, url_, {word->when.begin, take.when.end});
        list.push_back(data);
      }
    }
    return list;
  }

  [[nodiscard]] PageData other_speech() const {
    PageData list(PageData::type::list);
    for (const auto& when : clip_.other_speech) {
      PageData data;
      set_moment(data, url_, when);
      data.set("until", spoken(when.end));
      list.push_back(data);
    }
    return list;
  }

  const Listening& clip_;
  std::size_t number_;
  std::string url_;
  std::map<int, std::vector<const TimedWord*>> words_;
};

}  // namespace

std::string listen_page(const ListenPageInput& input) {
  PageData page;
  page.set("css", std::string(embedded::page_css) + std::string(embedded::listen_css));
  page.set("script", std::string(embedded::listen_js));
  page.set("script_hash", std::string(PANSLATE_LISTEN_SCRIPT_HASH));
  const bool alone = input.clips.size() == 1;
  page.set("title", alone ? page_text(input.clips[0].file.filename().string(), 200)
                          : count_in_words(input.clips.size(), "clip", "clips"));
  PageData clips(PageData::type::list);
  for (std::size_t i = 0; i < input.clips.size(); ++i) {
    auto clip = ClipOnPage(input.clips[i], input.folder, i + 1).data();
    set_flag(clip, "alone", alone);
    clips.push_back(clip);
  }
  set_list(page, "clips", clips);
  return fill_template(embedded::listen_mustache, page);
}

}  // namespace panslate
