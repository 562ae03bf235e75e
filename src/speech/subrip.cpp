#include "speech/subrip.h"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"

#include "speech/character_reference.h"

namespace panslate {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// A time at the start of `text`, which is moved behind it. Spaces inside ("00:00:01, 000") are found in
/// files.
std::optional<MediaTime> take_time(std::string_view& text) {
  std::string time;
  std::size_t i = 0;
  for (; i < text.size() && time.size() < 24; ++i) {
    const char c = text[i];
    const bool inside = !time.empty() && !is_digit(time.back());
    if (is_digit(c) || c == ':' || c == ',' || c == '.')
      time += c;
    else if (!(c == ' ' && inside))
      break;
  }
  text.remove_prefix(i);
  for (std::size_t at = time.find(':'); at != std::string::npos; at = time.find(':', at + 1)) {
    const bool one_digit = at + 1 < time.size() && (at + 2 == time.size() || !is_digit(time[at + 2]));
    if (one_digit) time.insert(at + 1, 1, '0');
  }
  return parse_timestamp(time);
}

bool take_arrow(std::string_view& text) {
  text = trim(text);
  for (const auto arrow : {std::string_view("-->"), std::string_view("->")})
    if (text.starts_with(arrow)) {
      text = trim(text.substr(arrow.size()));
      return true;
    }
  return false;
}

/// A line that was meant to hold times, whether or not they can be read.
bool looks_like_times(std::string_view line) {
  line = trim(line);
  return line.find("-->") != std::string_view::npos && (is_digit(line.front()) || line.front() == '-');
}

/// The number of a counter line; empty for any other line.
std::optional<std::int64_t> counter_of(std::string_view line) {
  line = trim(line);
  if (line.empty() || line.size() > 9 || !std::all_of(line.begin(), line.end(), is_digit))
    return std::nullopt;
  std::int64_t value = 0;
  for (const char c : line) value = value * 10 + (c - '0');
  return value;
}

constexpr std::array<std::string_view, 14> kTagNames{"i", "b",  "u",    "s",    "font", "c",  "v",
                                                     "p", "br", "span", "ruby", "rt",   "em", "strong"};

std::string_view tag_name(std::string_view inside) {
  if (inside.starts_with('/')) inside.remove_prefix(1);
  std::size_t end = 0;
  while (end < inside.size() &&
         ((inside[end] >= 'a' && inside[end] <= 'z') || (inside[end] >= 'A' && inside[end] <= 'Z')))
    ++end;
  const bool ends = end == inside.size() || inside[end] == ' ' || inside[end] == '.' || inside[end] == '/';
  return ends ? inside.substr(0, end) : std::string_view{};
}

class TagStripper {
 public:
  explicit TagStripper(std::string_view raw) : raw_(raw) {}

  DraftCue run() {
    while (at_ < raw_.size()) {
      const char c = raw_[at_];
      if ((c == '<' && take_tag()) || (c == '{' && take_code()) || (c == '&' && take_escape())) continue;
      out_.cue.text += c;
      ++at_;
    }
    return std::move(out_);
  }

 private:
  static constexpr std::size_t kLongestTag = 300;

  bool take_tag() {
    const auto window = raw_.substr(at_, kLongestTag);
    const auto end = window.find('>');
    if (end == std::string_view::npos) return false;
    const auto inside = window.substr(1, end - 1);
    if (const auto time = parse_timestamp(inside)) {
      out_.tags.push_back({out_.cue.text.size(), *time});
    } else {
      const auto name = fold_case(tag_name(inside));
      if (std::find(kTagNames.begin(), kTagNames.end(), name) == kTagNames.end()) return false;
      if (name == "br") out_.cue.text += '\n';
    }
    at_ += end + 1;
    return true;
  }

  bool take_code() {
    const auto window = raw_.substr(at_, kLongestTag);
    const auto end = window.find('}');
    if (end == std::string_view::npos || !window.starts_with("{\\")) return false;
    at_ += end + 1;
    return true;
  }

  bool take_escape() {
    const auto reference = character_reference_at(raw_, at_);
    // "salt &pepper" is no escape here, whatever HTML makes of old names without a semicolon.
    if (!reference || raw_[at_ + reference->length - 1] != ';') return false;
    out_.cue.text += reference->text;
    at_ += reference->length;
    return true;
  }

  std::string_view raw_;
  std::size_t at_ = 0;
  DraftCue out_;
};

/// Lines of a cue without blank ones, joined with LF.
std::string cue_lines(const std::vector<TextLine>& lines, std::size_t begin, std::size_t end) {
  std::string out;
  for (std::size_t i = begin; i < end; ++i) {
    const auto line = trim(lines[i].text);
    if (line.empty()) continue;
    if (!out.empty()) out += '\n';
    out += line;
  }
  return out;
}

}  // namespace

std::optional<TimeRange> parse_subrip_times(std::string_view line) {
  line = trim(line);
  if (line.empty() || !is_digit(line.front())) return std::nullopt;
  const auto begin = take_time(line);
  if (!begin || !take_arrow(line)) return std::nullopt;
  const auto end = take_time(line);
  if (!end || !(line.empty() || line.front() == ' ' || line.front() == '\t')) return std::nullopt;
  // Coordinates may follow; words may not: "0:10 --> 0:12 Stir it." is text with marks.
  for (const auto& part : split(collapse_spaces(line), ' '))
    if (!part.empty() && part.find(':') == std::string::npos) return std::nullopt;
  return TimeRange{*begin, *end};
}

DraftCue strip_subrip_tags(std::string_view raw) {
  return TagStripper(raw).run();
}

DraftTranscript read_subrip(std::string_view text) {
  const auto lines = split_lines(text);
  struct Times {
    std::size_t line = 0;
    std::optional<TimeRange> when;
  };
  std::vector<Times> starts;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (trim(lines[i].text).empty()) continue;
    if (const auto when = parse_subrip_times(lines[i].text))
      starts.push_back({i, when});
    else if (looks_like_times(lines[i].text))
      starts.push_back({i, std::nullopt});
  }

  DraftTranscript result;
  std::int64_t last_counter = 0;
  std::size_t text_begin = 0;
  std::optional<std::int64_t> counter;
  for (std::size_t n = 0; n <= starts.size(); ++n) {
    std::size_t text_end = n < starts.size() ? starts[n].line : lines.size();
    std::optional<std::int64_t> next_counter;
    if (n < starts.size() && text_end > text_begin) {
      // A number before the times is their counter when it stands apart or counts on; else it was spoken.
      const auto number = counter_of(lines[text_end - 1].text);
      const bool apart = text_end - 1 == text_begin ? n == 0 : trim(lines[text_end - 2].text).empty();
      if (number && (apart || *number == last_counter + 1)) {
        next_counter = number;
        --text_end;
      }
    }
    if (n > 0) {
      const auto& times = starts[n - 1];
      const int source_line = static_cast<int>(times.line) + 1;
      if (times.when) {
        auto draft = strip_subrip_tags(cue_lines(lines, text_begin, text_end));
        draft.cue.when = *times.when;
        draft.cue.line = source_line;
        draft.cue.text_at = text_begin < lines.size() ? lines[text_begin].offset : text.size();
        if (counter) draft.cue.id = "c" + std::to_string(*counter);
        result.cues.push_back(std::move(draft));
      } else {
        result.warnings.push_back(
            {"the times of this caption cannot be read, it is left out; expected 00:01:02,500 --> "
             "00:01:05,000",
             source_line});
      }
    } else if (const auto before = cue_lines(lines, text_begin, text_end); !before.empty()) {
      result.warnings.push_back({"text before the first caption is left out", 1});
    }
    if (next_counter) last_counter = *next_counter;
    counter = next_counter;
    text_begin = n < starts.size() ? starts[n].line + 1 : lines.size();
  }
  return result;
}

}  // namespace panslate
