#include "panslate/project/store.h"

#include <utility>

#include <nlohmann/json.hpp>

#include "panslate/base/lasting_key.h"
#include "panslate/media/measured_bytes.h"

namespace panslate {

namespace fs = std::filesystem;

namespace {

using Json = nlohmann::ordered_json;

// Of the form of every entry. Another one is not read: its facts are measured again.
constexpr int kForm = 1;
constexpr std::uintmax_t kLargestEntry = std::uintmax_t{1} << 20U;
constexpr std::uintmax_t kLargestStillFile = std::uintmax_t{16} << 20U;
constexpr std::uintmax_t kLargestHeard = std::uintmax_t{64} << 20U;
constexpr std::uintmax_t kLargestLog = std::uintmax_t{128} << 20U;
// What detectors find changes with them: what others found is not read.
constexpr int kLogForm = 3;
constexpr int kProxyForm = 1;
constexpr std::uintmax_t kLargestCheck = std::uintmax_t{16} << 20U;
constexpr std::size_t kMostEntries = 20'000;

// The mark by which backup programs know that a folder can be made again (Cache Directory Tagging, version
// 0.6).
constexpr std::string_view kTag =
    "Signature: 8a477f597d28d172789f06886806bc55\n"
    "# What panslate has measured. It may be deleted at any time and is measured again.\n";

std::optional<std::uint64_t> whole_number(const Json& json, const char* name) {
  const auto found = json.find(name);
  if (found == json.end() || !found->is_number_integer()) return std::nullopt;
  return found->is_number_unsigned() ? found->get<std::uint64_t>()
                                     : static_cast<std::uint64_t>(found->get<std::int64_t>());
}

std::optional<FileStamp> stamp_from(const Json& json) {
  if (!json.is_object()) return std::nullopt;
  const auto size = whole_number(json, "size");
  const auto modified = whole_number(json, "modified");
  const auto changed = whole_number(json, "changed");
  const auto node = whole_number(json, "node");
  if (!size || !modified || !changed || !node) return std::nullopt;
  return FileStamp{*size, static_cast<std::int64_t>(*modified), static_cast<std::int64_t>(*changed), *node};
}

std::optional<std::string> text_from(const Json& json, const char* name) {
  const auto found = json.find(name);
  if (found == json.end() || !found->is_string()) return std::nullopt;
  return found->get<std::string>();
}

std::string still_name(std::string_view key, MediaTime time, int longest_side) {
  return lasting_key({key, std::to_string(time.ticks()), std::to_string(longest_side)}) + ".still";
}

std::string heard_prefix(std::string_view content) {
  return lasting_key({content}) + "-";
}

std::string heard_name(std::string_view content, std::string_view script) {
  return heard_prefix(content) + lasting_key({script}) + ".heard";
}

std::string log_name(std::string_view content) {
  return lasting_key({content}) + ".log";
}

// An entry: a line of JSON that says what it is, and what was measured. The key of the latter tells damage.
std::string entry_of(Json head, std::string_view measured) {
  head["form"] = kForm;
  head["sum"] = lasting_key({measured});
  auto bytes = head.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
  bytes += measured;
  return bytes;
}

struct Opened {
  Json head;
  std::string_view measured;
};

std::optional<Opened> open_entry(std::string_view bytes) {
  const auto end = bytes.find('\n');
  if (end == std::string_view::npos) return std::nullopt;
  Opened entry{Json::parse(bytes.substr(0, end), nullptr, false), bytes.substr(end + 1)};
  if (!entry.head.is_object() || whole_number(entry.head, "form") != kForm ||
      text_from(entry.head, "sum") != lasting_key({entry.measured}))
    return std::nullopt;
  return entry;
}

}  // namespace

Store::Store(FileSystem& disk, const fs::path& project_file)
    : disk_(&disk), base_(project_file.parent_path()), folder_(base_ / ".panslate") {
  read_entries();
}

// As seen from the project: the whole folder may move. What lies elsewhere keeps its full name.
std::string Store::name_of(const fs::path& file) const {
  const auto seen = file.lexically_normal().lexically_proximate(base_.lexically_normal());
  return seen.generic_string();
}

void Store::read_entries() {
  const auto files = disk_->list(folder_ / "clips");
  if (!files) return;
  for (const auto& file : *files) {
    if (entries_.size() == kMostEntries) break;
    const auto bytes = file.extension() == ".clip" ? disk_->read(file, kLargestEntry) : Result<std::string>{};
    const auto entry = bytes ? open_entry(*bytes) : std::nullopt;
    if (!entry) continue;
    auto name = text_from(entry->head, "file");
    auto key = text_from(entry->head, "content");
    const auto stamp = stamp_from(entry->head);
    auto facts = clip_facts_from(entry->measured, {});
    if (!name || !key || !stamp || !facts) continue;
    by_key_.emplace(*key, *name);
    entries_[*std::move(name)] = {*stamp, *std::move(key), *std::move(facts)};
  }
}

std::optional<std::string> Store::key_of(const fs::path& file) const {
  if (disk_ == nullptr) return std::nullopt;
  const auto entry = entries_.find(name_of(file));
  if (entry == entries_.end()) return std::nullopt;
  const auto now = disk_->stamp(file);
  if (!now || *now != entry->second.stamp) return std::nullopt;
  return entry->second.key;
}

std::optional<Store::Seen> Store::last_seen(const fs::path& file) const {
  const auto entry = entries_.find(name_of(file));
  if (entry == entries_.end()) return std::nullopt;
  return Seen{entry->second.key, entry->second.stamp.size};
}

std::optional<ClipFacts> Store::facts(std::string_view key, const fs::path& file) const {
  const auto name = by_key_.find(key);
  if (name == by_key_.end()) return std::nullopt;
  auto facts = entries_.at(name->second).facts;
  facts.file = file;
  return facts;
}

void Store::keep(const fs::path& file, const FileStamp& stamp, std::string_view key, const ClipFacts& facts) {
  if (disk_ == nullptr) return;
  const auto name = name_of(file);
  if (const auto known = entries_.find(name); known != entries_.end()) by_key_.erase(known->second.key);
  entries_[name] = {stamp, std::string(key), facts};
  by_key_[std::string(key)] = name;
  save(folder_ / "clips" / (lasting_key({name}) + ".clip"), entry_of({{"file", name},
                                                                      {"size", stamp.size},
                                                                      {"modified", stamp.modified},
                                                                      {"changed", stamp.changed},
                                                                      {"node", stamp.node},
                                                                      {"content", key}},
                                                                     bytes_of(facts)));
}

std::optional<Still> Store::still(std::string_view key, MediaTime time, int longest_side) const {
  if (disk_ == nullptr) return std::nullopt;
  const auto bytes = disk_->read(folder_ / "stills" / still_name(key, time, longest_side), kLargestStillFile);
  const auto entry = bytes ? open_entry(*bytes) : std::nullopt;
  return entry ? still_from(entry->measured, longest_side) : std::nullopt;
}

void Store::keep_still(std::string_view key, MediaTime time, int longest_side, const Still& still) {
  if (disk_ != nullptr)
    save(folder_ / "stills" / still_name(key, time, longest_side), entry_of({}, bytes_of(still)));
}

std::optional<fs::path> Store::place_for_proxy(std::string_view content) {
  if (disk_ == nullptr) return std::nullopt;
  const auto folder = folder_ / "proxies";
  if (!make_folder(folder)) return std::nullopt;
  return folder / (lasting_key({content, std::to_string(kProxyForm)}) + ".mp4");
}

std::optional<ClipLog> Store::logged(std::string_view content, const fs::path& file) const {
  if (disk_ == nullptr) return std::nullopt;
  const auto bytes = disk_->read(folder_ / "logs" / log_name(content), kLargestLog);
  const auto entry = bytes ? open_entry(*bytes) : std::nullopt;
  if (!entry || whole_number(entry->head, "log") != kLogForm) return std::nullopt;
  return clip_log_from(entry->measured, file);
}

void Store::keep_logged(std::string_view content, const ClipLog& log) {
  if (disk_ != nullptr)
    save(folder_ / "logs" / log_name(content), entry_of({{"log", kLogForm}}, bytes_of(log)));
}

std::optional<FileStamp> Store::stamp_of(const fs::path& file) const {
  if (disk_ == nullptr) return std::nullopt;
  const auto stamp = disk_->stamp(file);
  return stamp ? std::optional(*stamp) : std::nullopt;
}

std::optional<std::string> Store::heard(std::string_view content, std::string_view script) const {
  if (disk_ == nullptr) return std::nullopt;
  const auto bytes = disk_->read(folder_ / "heard" / heard_name(content, script), kLargestHeard);
  const auto entry = bytes ? open_entry(*bytes) : std::nullopt;
  return entry ? std::optional(std::string(entry->measured)) : std::nullopt;
}

bool Store::was_heard(std::string_view content) const {
  if (disk_ == nullptr) return false;
  const auto kept = disk_->list(folder_ / "heard");
  const auto prefix = heard_prefix(content);
  return kept && std::any_of(kept->begin(), kept->end(), [&](const fs::path& file) {
           return file.filename().string().starts_with(prefix);
         });
}

void Store::keep_heard(std::string_view content, std::string_view script, std::string_view record) {
  if (disk_ != nullptr) save(folder_ / "heard" / heard_name(content, script), entry_of({}, record));
}

std::optional<std::string> Store::last_check() const {
  if (disk_ == nullptr) return std::nullopt;
  auto bytes = disk_->read(folder_ / "last-check.json", kLargestCheck);
  return bytes ? std::optional(*std::move(bytes)) : std::nullopt;
}

void Store::keep_last_check(std::string_view text) {
  if (disk_ != nullptr) save(folder_ / "last-check.json", text);
}

void Store::save(const fs::path& file, std::string_view bytes) {
  if (make_folder(file.parent_path())) (void)save_quickly(*disk_, file, bytes);
}

bool Store::make_folder(const fs::path& folder) {
  if (!disk_->is_directory(folder) && !disk_->create_directories(folder)) return false;
  const auto tag = folder_ / "CACHEDIR.TAG";
  if (!disk_->exists(tag)) (void)save_quickly(*disk_, tag, kTag);
  return true;
}

}  // namespace panslate
