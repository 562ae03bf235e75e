#include "project/find_moved.h"

#include <algorithm>
#include <charconv>
#include <set>
#include <system_error>

#include "panslate/media/content_key.h"

namespace panslate {

namespace fs = std::filesystem;

namespace {

constexpr int kDeepest = 3;
constexpr std::size_t kMostFiles = 20'000;

// A content key begins with the size.
std::optional<std::uintmax_t> size_in(const std::string& key) {
  std::uintmax_t size = 0;
  const auto [past, error] = std::from_chars(key.data(), key.data() + key.size(), size);
  if (error != std::errc{} || past == key.data() + key.size() || *past != '-') return std::nullopt;
  return size;
}

fs::path settled(const fs::path& path) {
  std::error_code error;
  auto out = fs::weakly_canonical(path.empty() ? fs::path(".") : path, error);
  return error ? path : out;
}

}  // namespace

void MovedClips::list_candidates() {
  candidates_.emplace();
  std::set<fs::path> in_use;
  std::set<fs::path> folders{settled(project_.file.parent_path())};
  for (const auto& media : project_.media) {
    in_use.insert(settled(media.file));
    folders.insert(settled(media.file.parent_path()));
  }
  std::set<fs::path> seen;
  for (const auto& folder : folders) {
    std::error_code error;
    fs::recursive_directory_iterator at(folder, fs::directory_options::skip_permission_denied, error);
    for (const fs::recursive_directory_iterator end; !error && at != end; at.increment(error)) {
      const bool hidden = at->path().filename().native().front() == '.';
      if (at.depth() >= kDeepest || hidden) at.disable_recursion_pending();
      std::error_code of_file;
      if (hidden || !at->is_regular_file(of_file) || in_use.contains(at->path()) ||
          !seen.insert(at->path()).second)
        continue;
      if (candidates_->size() == kMostFiles) return;
      const auto size = at->file_size(of_file);
      if (!of_file) candidates_->push_back({at->path(), size});
    }
  }
}

std::optional<fs::path> MovedClips::find(const MediaEntry& media) {
  auto key = media.content;
  if (const auto seen = store_.last_seen(media.file)) key = seen->key;
  const auto size = key ? size_in(*key) : std::nullopt;
  if (!size) return std::nullopt;
  if (!candidates_) list_candidates();
  for (const auto& candidate : *candidates_) {
    if (candidate.size != *size) continue;
    const auto found = content_key(candidate.file);
    if (found && *found == *key) return candidate.file;
  }
  return std::nullopt;
}

}  // namespace panslate
