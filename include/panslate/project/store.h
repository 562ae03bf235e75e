#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "panslate/base/file_system.h"
#include "panslate/base/media_time.h"
#include "panslate/media/clip_facts.h"
#include "panslate/media/clip_log.h"
#include "panslate/media/still.h"

namespace panslate {

/// What was measured of a project's files, in the folder `.panslate` beside it, so that it is measured once.
/// Nothing in it is a decision: it may be deleted at any time, and is measured again.
///
/// Facts are kept under the key of a file's content (content_key), so that a clip that is renamed or moved is
/// known again; which content a file had is kept with its stamp, so that a file that did not change is not
/// even opened. Every entry is a file of its own that appears whole or not at all: two runs at once do not
/// spoil each other's. What cannot be read back (a broken disk, another version) counts as not there, and
/// what cannot be kept (a folder one may not write in) is measured again the next time: no call fails.
class Store {
 public:
  /// Of the project in this file, or where the folder beside it is not to be touched: one that keeps nothing.
  Store(FileSystem& disk, const std::filesystem::path& project_file);
  /// Keeps nothing and has nothing.
  Store() = default;

  /// The key of a file's content; empty where it is new or changed since it was kept.
  [[nodiscard]] std::optional<std::string> key_of(const std::filesystem::path& file) const;
  /// The key it had when it was there last, and its size in bytes; also of a file that is gone now.
  struct Seen {
    std::string key;
    std::uintmax_t size = 0;
  };
  [[nodiscard]] std::optional<Seen> last_seen(const std::filesystem::path& file) const;

  [[nodiscard]] std::optional<ClipFacts> facts(std::string_view key, const std::filesystem::path& file) const;
  /// `stamp`: as it was before the file was read, so that a change meanwhile is noticed the next time.
  void keep(const std::filesystem::path& file, const FileStamp& stamp, std::string_view key,
            const ClipFacts& facts);

  [[nodiscard]] std::optional<Still> still(std::string_view key, MediaTime time, int longest_side) const;
  void keep_still(std::string_view key, MediaTime time, int longest_side, const Still& still);

  /// Where the proxy of a clip with this content is kept; the folder for it is made. Empty where nothing can
  /// be kept.
  [[nodiscard]] std::optional<std::filesystem::path> place_for_proxy(std::string_view content);

  /// What was logged of a clip that has this content; empty where it was not, or by another version.
  [[nodiscard]] std::optional<ClipLog> logged(std::string_view content,
                                              const std::filesystem::path& file) const;
  void keep_logged(std::string_view content, const ClipLog& log);
  /// As it is now; empty where nothing is kept anyway, or the file cannot be looked at.
  [[nodiscard]] std::optional<FileStamp> stamp_of(const std::filesystem::path& file) const;

  /// What was heard in a clip that has this content, with this script (see listening_record); whatever form
  /// it was kept in. Empty where there is none.
  [[nodiscard]] std::optional<std::string> heard(std::string_view content, std::string_view script) const;
  /// Whether such a clip was listened to at all, with whatever script.
  [[nodiscard]] bool was_heard(std::string_view content) const;
  void keep_heard(std::string_view content, std::string_view script, std::string_view record);

  /// What the last check found, in whatever form it was kept; empty where there was none.
  [[nodiscard]] std::optional<std::string> last_check() const;
  void keep_last_check(std::string_view text);

 private:
  struct Entry {
    FileStamp stamp;
    std::string key;
    ClipFacts facts;
  };
  [[nodiscard]] std::string name_of(const std::filesystem::path& file) const;
  void read_entries();
  void save(const std::filesystem::path& file, std::string_view bytes);
  [[nodiscard]] bool make_folder(const std::filesystem::path& folder);

  FileSystem* disk_ = nullptr;
  std::filesystem::path base_;                              ///< the project's folder
  std::filesystem::path folder_;                            ///< .panslate
  std::map<std::string, Entry> entries_;                    ///< by the file's name as seen from the project
  std::map<std::string, std::string, std::less<>> by_key_;  ///< content key → name in entries_
};

}  // namespace panslate
