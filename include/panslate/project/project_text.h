#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "panslate/base/result.h"

namespace panslate {

/// One decision as a change of the project file: an entry of a list ("answers", "segments"), or a member of a
/// group ("measures" of "settings"). All texts are JSON as it stands, or will stand, in the file.
struct ProjectEdit {
  /// What stands round an entry of a list, up to its neighbours or the list's brackets; and what stands there
  /// instead where the entry does not. Only blanks and commas.
  struct Gap {
    std::string before;
    std::string behind;
    std::string without;

    friend bool operator==(const Gap&, const Gap&) = default;
  };

  std::string list;                       ///< name of the list or group at the top of the file
  std::string member;                     ///< of a group; empty for a list
  std::size_t index = 0;                  ///< in a list: where the entry stands, or will stand
  std::optional<std::string> before;      ///< what must stand there now; empty: nothing does
  std::optional<std::string> after;       ///< what will; empty: nothing
  bool makes_list = false;                ///< the list or group comes, or goes, with the entry
  std::optional<Gap> gap = std::nullopt;  ///< of a list: known once the edit was made
};

/// The edit that takes back this one.
[[nodiscard]] ProjectEdit taken_back(const ProjectEdit& edit);

/// A project file as she wrote it, changed one entry at a time: everything else stays byte for byte, a new
/// entry stands as its neighbours do, and an edit taken back leaves the very bytes that were there.
///
///     PANSLATE_TRY(auto text, ProjectText::read(bytes, file));
///     PANSLATE_CHECK(text.apply({"answers", "", text.count("answers"), std::nullopt, R"({"line": …})"}));
class ProjectText {
 public:
  ProjectText(ProjectText&&) noexcept;
  ProjectText& operator=(ProjectText&&) noexcept;
  ~ProjectText();

  /// Malformed: no JSON, more than one { } or none, or not in UTF-8 (a file in UTF-16 would not stay as it
  /// is).
  [[nodiscard]] static Result<ProjectText> read(std::string bytes, const std::filesystem::path& file);

  [[nodiscard]] const std::string& bytes() const { return bytes_; }

  /// Entries of a list; 0 where there is none.
  [[nodiscard]] std::size_t count(std::string_view list) const;
  /// An entry as it stands there; `index` is below count.
  [[nodiscard]] std::string entry(std::string_view list, std::size_t index) const;
  /// A member of a group as it stands there; empty where there is none.
  [[nodiscard]] std::optional<std::string> member(std::string_view group, std::string_view name) const;

  /// Makes the change. An entry that was moved in the list since is found by its text. Returns the edit as it
  /// was made (with its index, makes_list and gap), to be taken back later. Exists: somebody changed that
  /// entry since; then nothing is changed. Malformed where the list is no list.
  [[nodiscard]] Result<ProjectEdit> apply(ProjectEdit edit);

 private:
  struct Parsed;
  ProjectText(std::string bytes, std::filesystem::path file);
  [[nodiscard]] Status parse();
  [[nodiscard]] Status replace(std::size_t begin, std::size_t end, std::string_view text);
  [[nodiscard]] Status apply_to_list(ProjectEdit& edit);
  [[nodiscard]] Status apply_to_group(ProjectEdit& edit);
  [[nodiscard]] Status insert(ProjectEdit& edit);
  [[nodiscard]] Status remove(ProjectEdit& edit);
  [[nodiscard]] Status add_member(std::string_view group, std::string_view name, std::string_view value);
  [[nodiscard]] Status remove_member(std::string_view group, std::string_view name);
  [[nodiscard]] tl::unexpected<Error> changed_since(std::string_view list) const;

  std::string bytes_;
  std::filesystem::path file_;
  std::unique_ptr<Parsed> parsed_;
};

/// Text in JSON's quotes.
[[nodiscard]] std::string in_json_quotes(std::string_view text);

}  // namespace panslate
