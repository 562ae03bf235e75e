#include "panslate/project/project_text.h"

#include <algorithm>
#include <utility>

#include "panslate/base/text.h"

#include "project/json_text.h"

namespace panslate {

namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

std::string_view white_after(std::string_view text, std::size_t offset) {
  const auto end = text.find_first_not_of(" \t\r\n", offset);
  return text.substr(offset, (end == std::string_view::npos ? text.size() : end) - offset);
}

// The values directly inside a group or list, in the order of the file, each from its name on.
struct Inside {
  std::size_t begin = 0;
  std::size_t end = 0;
};

std::vector<Inside> inside(const JsonSpot& spot) {
  std::vector<Inside> out;
  for (const auto& item : spot.items) out.push_back({item.begin, item.end});
  for (const auto& [name, member] : spot.members) out.push_back({member.key_begin, member.end});
  std::sort(out.begin(), out.end(), [](const Inside& a, const Inside& b) { return a.begin < b.begin; });
  return out;
}

// What stands between two neighbours: as between the first two; where there is one alone, a comma and what
// stands before that one.
std::string separator(std::string_view text, const JsonSpot& spot, const std::vector<Inside>& values) {
  if (values.size() > 1) return std::string(text.substr(values[0].end, values[1].begin - values[0].end));
  const auto white = white_after(text, spot.begin + 1);
  return "," + (white.empty() ? " " : std::string(white));
}

// Blanks, with a comma in them or with none.
bool is_comma_for(std::string_view text, bool neighbours) {
  return text.find_first_not_of(" \t\r\n,") == std::string_view::npos &&
         std::count(text.begin(), text.end(), ',') == (neighbours ? 1 : 0);
}

bool fits(const ProjectEdit::Gap& gap, bool has_one_before, bool has_one_behind) {
  return is_comma_for(gap.before, has_one_before) && is_comma_for(gap.behind, has_one_behind);
}

}  // namespace

struct ProjectText::Parsed {
  JsonText json;

  [[nodiscard]] const JsonSpot& root() const { return json.spot; }
  [[nodiscard]] const JsonSpot* find(std::string_view name) const {
    const auto found = json.spot.members.find(name);
    return found == json.spot.members.end() ? nullptr : &found->second;
  }
  [[nodiscard]] bool is_list(std::string_view name) const {
    const auto found = json.value.find(name);
    return found != json.value.end() && found->is_array();
  }
  [[nodiscard]] bool is_group(std::string_view name) const {
    const auto found = json.value.find(name);
    return found != json.value.end() && found->is_object();
  }
};

ProjectEdit taken_back(const ProjectEdit& edit) {
  auto back = edit;
  std::swap(back.before, back.after);
  return back;
}

std::string in_json_quotes(std::string_view text) {
  return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

ProjectText::ProjectText(std::string bytes, std::filesystem::path file)
    : bytes_(std::move(bytes)), file_(std::move(file)) {}
ProjectText::ProjectText(ProjectText&&) noexcept = default;
ProjectText& ProjectText::operator=(ProjectText&&) noexcept = default;
ProjectText::~ProjectText() = default;

Result<ProjectText> ProjectText::read(std::string bytes, const std::filesystem::path& file) {
  ProjectText text(std::move(bytes), file);
  PANSLATE_CHECK(text.parse());
  return text;
}

// Offsets count from the first byte of the file: a byte order mark is looked past, not taken out.
Status ProjectText::parse() {
  auto seen = bytes_;
  if (seen.starts_with(kByteOrderMark)) seen.replace(0, kByteOrderMark.size(), kByteOrderMark.size(), ' ');
  if (to_utf8(seen) != seen)
    return fail(ErrorCode::Malformed,
                "this file is not in UTF-8, so it cannot be changed without losing something", Place{file_},
                "save it once as UTF-8 in the editor it was made with");
  PANSLATE_TRY(auto json, read_json(seen, file_));
  if (!json.value.is_object())
    return fail(ErrorCode::Malformed, "a project in { } was expected", Place{file_});
  parsed_ = std::make_unique<Parsed>(Parsed{std::move(json)});
  return {};
}

std::size_t ProjectText::count(std::string_view list) const {
  const auto* spot = parsed_->find(list);
  return spot == nullptr ? 0 : spot->items.size();
}

std::string ProjectText::entry(std::string_view list, std::size_t index) const {
  const auto& spot = parsed_->find(list)->items[index];
  return bytes_.substr(spot.begin, spot.end - spot.begin);
}

std::optional<std::string> ProjectText::member(std::string_view group, std::string_view name) const {
  const auto* spot = parsed_->find(group);
  if (spot == nullptr) return std::nullopt;
  const auto found = spot->members.find(name);
  if (found == spot->members.end()) return std::nullopt;
  return bytes_.substr(found->second.begin, found->second.end - found->second.begin);
}

Status ProjectText::replace(std::size_t begin, std::size_t end, std::string_view text) {
  bytes_.replace(begin, end - begin, text);
  return parse();
}

tl::unexpected<Error> ProjectText::changed_since(std::string_view list) const {
  return fail(ErrorCode::Exists,
              "somebody changed this in the project file meanwhile (" + std::string(list) + ")", Place{file_},
              "look at how it stands now, and decide again");
}

Result<ProjectEdit> ProjectText::apply(ProjectEdit edit) {
  if (edit.before == edit.after) return edit;
  // What goes wrong leaves nothing half done.
  auto kept = bytes_;
  const auto done = edit.member.empty() ? apply_to_list(edit) : apply_to_group(edit);
  if (!done) {
    auto error = done.error();
    bytes_ = std::move(kept);
    PANSLATE_CHECK(parse());
    return tl::unexpected(std::move(error));
  }
  return edit;
}

Status ProjectText::apply_to_list(ProjectEdit& edit) {
  const auto* spot = parsed_->find(edit.list);
  if (spot != nullptr && !parsed_->is_list(edit.list))
    return fail(ErrorCode::Malformed, edit.list + ": a list in [ ] was expected",
                Place{file_, spot->at.line, spot->at.column});
  const auto size = count(edit.list);
  if (edit.before) {
    const auto stands_at = [&](std::size_t i) { return i < size && entry(edit.list, i) == *edit.before; };
    if (!stands_at(edit.index)) {
      edit.index = 0;
      while (edit.index < size && !stands_at(edit.index)) ++edit.index;
      if (edit.index == size) return changed_since(edit.list);
    }
    if (!edit.after) return remove(edit);
    const auto& old = spot->items[edit.index];
    return replace(old.begin, old.end, *edit.after);
  }
  edit.index = std::min(edit.index, size);
  edit.makes_list = spot == nullptr;
  return insert(edit);
}

Status ProjectText::insert(ProjectEdit& edit) {
  const auto* spot = parsed_->find(edit.list);
  if (spot == nullptr) {
    // As her own lists stand: on a line of its own, a step further in than the list's name.
    const auto white = std::string(white_after(bytes_, parsed_->root().begin + 1));
    const auto further = white.find('\n') == std::string::npos ? std::string() : white + "  ";
    return add_member({}, edit.list, "[" + further + *edit.after + (further.empty() ? "" : white) + "]");
  }
  const auto values = inside(*spot);
  const auto i = edit.index;
  const auto begin = i == 0 ? spot->begin + 1 : values[i - 1].end;
  const auto end = i == values.size() ? spot->end - 1 : values[i].begin;
  auto stands = bytes_.substr(begin, end - begin);
  // Where the entry was taken out, and nothing there was changed since, it comes back as it stood.
  if (!edit.gap || edit.gap->without != stands || !fits(*edit.gap, i > 0, i < values.size())) {
    const auto between = values.empty() ? std::string() : separator(bytes_, *spot, values);
    if (i > 0 || values.empty())
      edit.gap = {between, stands, stands};
    else
      edit.gap = {stands, between, stands};
  }
  return replace(begin, end, edit.gap->before + *edit.after + edit.gap->behind);
}

Status ProjectText::remove(ProjectEdit& edit) {
  const auto* spot = parsed_->find(edit.list);
  const auto values = inside(*spot);
  if (values.size() == 1 && edit.makes_list) return remove_member({}, edit.list);
  const auto i = edit.index;
  const auto begin = i == 0 ? spot->begin + 1 : values[i - 1].end;
  const auto end = i + 1 == values.size() ? spot->end - 1 : values[i + 1].begin;
  const auto before = bytes_.substr(begin, values[i].begin - begin);
  const auto behind = bytes_.substr(values[i].end, end - values[i].end);
  // Where it was put in, and nothing there was changed since, it leaves what stood there.
  const bool known = edit.gap && edit.gap->before == before && edit.gap->behind == behind &&
                     is_comma_for(edit.gap->without, i > 0 && i + 1 < values.size());
  if (!known) edit.gap = {before, behind, values.size() == 1 ? before + behind : i == 0 ? before : behind};
  return replace(begin, end, edit.gap->without);
}

Status ProjectText::apply_to_group(ProjectEdit& edit) {
  const auto* spot = parsed_->find(edit.list);
  if (spot != nullptr && !parsed_->is_group(edit.list))
    return fail(ErrorCode::Malformed, edit.list + ": something in { } was expected",
                Place{file_, spot->at.line, spot->at.column});
  if (member(edit.list, edit.member) != edit.before) return changed_since(edit.list);
  if (!edit.after) {
    if (edit.makes_list && spot->members.size() == 1) return remove_member({}, edit.list);
    return remove_member(edit.list, edit.member);
  }
  if (edit.before) {
    const auto& old = spot->members.find(edit.member)->second;
    return replace(old.begin, old.end, *edit.after);
  }
  edit.makes_list = spot == nullptr;
  if (spot == nullptr)
    return add_member({}, edit.list, "{" + in_json_quotes(edit.member) + ": " + *edit.after + "}");
  return add_member(edit.list, edit.member, *edit.after);
}

// Behind the last one. `group` empty: at the top of the file.
Status ProjectText::add_member(std::string_view group, std::string_view name, std::string_view value) {
  const auto& spot = group.empty() ? parsed_->root() : *parsed_->find(group);
  const auto text = in_json_quotes(name) + ": " + std::string(value);
  const auto values = inside(spot);
  if (values.empty()) return replace(spot.begin + 1, spot.begin + 1, text);
  // Not as between the first two: at the top of a file those may well share a line.
  const auto white = white_after(bytes_, spot.begin + 1);
  const auto at = values.back().end;
  return replace(at, at, "," + (white.empty() ? " " : std::string(white)) + text);
}

Status ProjectText::remove_member(std::string_view group, std::string_view name) {
  const auto& spot = group.empty() ? parsed_->root() : *parsed_->find(group);
  const auto gone = spot.members.find(name);
  if (gone == spot.members.end()) return changed_since(name);
  const auto values = inside(spot);
  const auto key = gone->second.key_begin;
  const auto i = static_cast<std::size_t>(
      std::find_if(values.begin(), values.end(), [&](const Inside& v) { return v.begin == key; }) -
      values.begin());
  if (values.size() == 1) return replace(values[0].begin, values[0].end, {});
  if (i == 0) return replace(values[0].begin, values[1].begin, {});
  return replace(values[i - 1].end, values[i].end, {});
}

}  // namespace panslate
