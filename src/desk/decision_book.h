#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/file_system.h"
#include "panslate/base/result.h"
#include "panslate/desk/desk.h"
#include "panslate/project/project_text.h"

#include "desk/undo_record.h"
#include "desk/watched_disk.h"

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
  /// What kept a decision from being saved.
  struct Refusal {
    std::vector<Error> errors;
    bool passes = false;  ///< it is no fault of the decision: the same may be saved a moment later
  };
  [[nodiscard]] Checked<void> refresh();
  [[nodiscard]] tl::expected<Edits, Refusal> save(const Deciding& deciding);
  [[nodiscard]] bool files_changed() const;
  void remember(std::shared_ptr<const DeskFilm> film, const WatchedDisk& read);
  void remember_saved(std::string bytes);
  [[nodiscard]] Page page() const;
  [[nodiscard]] Checked<Page> take(std::vector<MadeDecision>& from, std::vector<MadeDecision>& to,
                                   std::string_view refused);
  void keep_record();

  FileSystem& disk_;
  std::filesystem::path file_;
  DeskWork& work_;
  std::mutex mutex_;
  std::shared_ptr<const DeskFilm> film_;
  std::optional<std::string> film_bytes_;  ///< of the project file, as film_ was read from it
  FileStamps stamps_;                      ///< of everything that film_ was read from, before it was read
  std::filesystem::path record_file_;
  UndoRecord record_;
};

}  // namespace panslate
