#include "speech/webvtt_settings.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <utility>
#include <vector>

#include "speech/webvtt_scan.h"

namespace panslate {

namespace {

std::vector<std::string_view> split_on_space(std::string_view input) {
  std::vector<std::string_view> parts;
  for (std::size_t i = 0; i < input.size();) {
    while (i < input.size() && is_vtt_space(input[i])) ++i;
    const std::size_t start = i;
    while (i < input.size() && !is_vtt_space(input[i])) ++i;
    if (i > start) parts.push_back(input.substr(start, i - start));
  }
  return parts;
}

using Setting = std::pair<std::string_view, std::string_view>;

/// Name and value around the first separator; empty when either is missing.
std::optional<Setting> split_setting(std::string_view setting, char separator) {
  const auto at = setting.find(separator);
  if (at == std::string_view::npos || at == 0 || at + 1 == setting.size()) return std::nullopt;
  return Setting{setting.substr(0, at), setting.substr(at + 1)};
}

bool all_digits(std::string_view text) {
  return std::all_of(text.begin(), text.end(), is_vtt_digit);
}

/// Digits with at most one full stop between them, after an optional minus.
bool is_plain_number(std::string_view text) {
  if (text.starts_with('-')) text.remove_prefix(1);
  const auto stop = text.find('.');
  if (stop == std::string_view::npos) return !text.empty() && all_digits(text);
  const auto whole = text.substr(0, stop);
  const auto part = text.substr(stop + 1);
  return !whole.empty() && !part.empty() && all_digits(whole) && all_digits(part);
}

/// HTML's rules for floating-point numbers on a text that is_plain_number: the nearest double, never minus
/// zero; empty when it is larger than any double.
std::optional<double> to_double(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error == std::errc::result_out_of_range) {
    const auto whole = text.substr(0, text.find('.'));
    const bool tiny = whole.find_first_not_of("-0") == std::string_view::npos;
    return tiny ? std::optional(0.0) : std::nullopt;
  }
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value == 0 ? 0.0 : value;
}

std::optional<double> parse_percentage(std::string_view text) {
  if (!text.ends_with('%') || text.starts_with('-')) return std::nullopt;
  text.remove_suffix(1);
  if (!is_plain_number(text)) return std::nullopt;
  const auto value = to_double(text);
  return value && *value <= 100 ? value : std::nullopt;
}

std::optional<VttAnchor> parse_anchor(std::string_view text) {
  const auto comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  const auto x = parse_percentage(text.substr(0, comma));
  const auto y = parse_percentage(text.substr(comma + 1));
  if (!x || !y) return std::nullopt;
  return VttAnchor{*x, *y};
}

template <class Value, std::size_t N>
std::optional<Value> look_up(const std::array<std::pair<std::string_view, Value>, N>& table,
                             std::string_view word) {
  for (const auto& [name, value] : table)
    if (name == word) return value;
  return std::nullopt;
}

constexpr std::array kVerticals{std::pair{std::string_view("rl"), VttVertical::GrowingLeft},
                                std::pair{std::string_view("lr"), VttVertical::GrowingRight}};
constexpr std::array kAligns{std::pair{std::string_view("start"), VttAlign::Start},
                             std::pair{std::string_view("center"), VttAlign::Center},
                             std::pair{std::string_view("end"), VttAlign::End},
                             std::pair{std::string_view("left"), VttAlign::Left},
                             std::pair{std::string_view("right"), VttAlign::Right}};
constexpr std::array kLineAligns{std::pair{std::string_view("start"), VttLineAlign::Start},
                                 std::pair{std::string_view("center"), VttLineAlign::Center},
                                 std::pair{std::string_view("end"), VttLineAlign::End}};
constexpr std::array kPositionAligns{std::pair{std::string_view("line-left"), VttPositionAlign::LineLeft},
                                     std::pair{std::string_view("center"), VttPositionAlign::Center},
                                     std::pair{std::string_view("line-right"), VttPositionAlign::LineRight}};

/// "50%,center" into its two parts; the second is empty when there is no comma.
std::pair<std::string_view, std::optional<std::string_view>> split_comma(std::string_view value) {
  const auto comma = value.find(',');
  if (comma == std::string_view::npos) return {value, std::nullopt};
  return {value.substr(0, comma), value.substr(comma + 1)};
}

void set_line(std::string_view value, VttCue& cue) {
  const auto [where, alignment] = split_comma(value);
  const bool percent = where.ends_with('%');
  const auto number = percent                  ? parse_percentage(where)
                      : is_plain_number(where) ? to_double(where)
                                               : std::nullopt;
  if (!number) return;
  if (alignment) {
    const auto align = look_up(kLineAligns, *alignment);
    if (!align) return;
    cue.line_align = *align;
  }
  cue.line = *number;
  cue.snap_to_lines = !percent;
}

void set_position(std::string_view value, VttCue& cue) {
  const auto [where, alignment] = split_comma(value);
  const auto number = parse_percentage(where);
  if (!number) return;
  if (alignment) {
    const auto align = look_up(kPositionAligns, *alignment);
    if (!align) return;
    cue.position_align = *align;
  }
  cue.position = *number;
}

void set_region(std::string_view value, const VttRegionIndex& regions, VttCue& cue) {
  cue.region.reset();
  if (const auto found = regions.find(std::string(value)); found != regions.end()) cue.region = found->second;
}

}  // namespace

void parse_vtt_cue_settings(std::string_view input, const VttRegionIndex& regions, VttCue& cue) {
  for (const auto part : split_on_space(input)) {
    const auto setting = split_setting(part, ':');
    if (!setting) continue;
    const auto [name, value] = *setting;
    if (name == "region") {
      set_region(value, regions, cue);
    } else if (name == "vertical") {
      cue.vertical = look_up(kVerticals, value).value_or(cue.vertical);
    } else if (name == "line") {
      set_line(value, cue);
    } else if (name == "position") {
      set_position(value, cue);
    } else if (name == "size") {
      cue.size = parse_percentage(value).value_or(cue.size);
    } else if (name == "align") {
      cue.align = look_up(kAligns, value).value_or(cue.align);
    }
  }
  // A cue in a region is laid out by the region: with a line, a size or a vertical direction it is in none.
  if (cue.line || cue.size != 100 || cue.vertical != VttVertical::Horizontal) cue.region.reset();
}

VttRegion parse_vtt_region(std::string_view input) {
  VttRegion region;
  for (const auto part : split_on_space(input)) {
    const auto setting = split_setting(part, ':');
    if (!setting) continue;
    const auto [name, value] = *setting;
    if (name == "id") {
      region.id = value;
    } else if (name == "width") {
      region.width = parse_percentage(value).value_or(region.width);
    } else if (name == "lines") {
      if (all_digits(value)) region.lines = to_double(value).value_or(region.lines);
    } else if (name == "regionanchor") {
      region.region_anchor = parse_anchor(value).value_or(region.region_anchor);
    } else if (name == "viewportanchor") {
      region.viewport_anchor = parse_anchor(value).value_or(region.viewport_anchor);
    } else if (name == "scroll") {
      if (value == "up") region.scroll = VttScroll::Up;
    }
  }
  return region;
}

}  // namespace panslate
