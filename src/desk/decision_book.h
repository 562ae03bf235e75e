#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "panslate/base/file_system.h"
#include "panslate/base/result.h"
#include "panslate/desk/desk.h"
#include "panslate/project/project_text.h"

#include "desk/undo_record.h"

namespace panslate {

/// The project file while she works on it: every decision is read into the file as it stands at that moment,
/// tried out (the project must still load and check), and saved whole or not at all. Several tabs, and her
/// editor beside them, lose nothing: what somebody else changed meanwhile is refused and told.
class DecisionBook {
 public:
  DecisionBook(FileSystem& disk, std::filesystem::path file, DeskWork& work);

  struct Page {
    std::shared_ptr<const DeskFilm> film;
    std::string version;  ///< another where a file changed
    std::string to_undo;  ///< what was done last, in words; empty: nothing
    std::string to_redo;
  };

  /// As the files stand now; they are read and checked again where they changed.
  [[nodiscard]] Checked<Page> current();

  using Edits = std::vector<ProjectEdit>;
  /// What to change, seeing how things stand.
  using Deciding = std::function<Result<Edits>(const DeskFilm& film, const ProjectText& text)>;
  /// Makes the changes of one decision, which `what` names. Exists: somebody changed the same meanwhile.
  [[nodiscard]] Checked<Page> decide(std::string what, const Deciding& deciding);

  [[nodiscard]] Checked<Page> undo();
  [[nodiscard]] Checked<Page> redo();

 private:
  [[nodiscard]] Checked<void> refresh();
  [[nodiscard]] Checked<Edits> save(const Deciding& deciding);
  [[nodiscard]] bool files_changed() const;
  void remember_files();
  [[nodiscard]] std::string stamp_of(const std::filesystem::path& file) const;
  [[nodiscard]] Page page() const;
  [[nodiscard]] Checked<Page> take(std::vector<MadeDecision>& from, std::vector<MadeDecision>& to);
  void keep_record();

  FileSystem& disk_;
  std::filesystem::path file_;
  DeskWork& work_;
  std::mutex mutex_;
  std::shared_ptr<const DeskFilm> film_;
  std::vector<std::pair<std::filesystem::path, std::string>> stamps_;
  std::filesystem::path record_file_;
  UndoRecord record_;
};

}  // namespace panslate
