#include "desk/decision_book.h"

#include <algorithm>
#include <utility>

#include "panslate/base/lasting_key.h"

#include "desk/proposed_file.h"

namespace panslate {

namespace {

tl::unexpected<std::vector<Error>> failed(Error error) {
  return tl::unexpected(std::vector<Error>{std::move(error)});
}

}  // namespace

DecisionBook::DecisionBook(FileSystem& disk, std::filesystem::path file, DeskWork& work)
    : disk_(disk),
      file_(std::move(file)),
      work_(work),
      record_file_(file_.parent_path() / ".panslate" / (file_.stem().string() + "-desk.json")) {
  if (const auto text = disk_.read(record_file_, kTextFileLimit))
    record_ = undo_record_from(*text).value_or(UndoRecord{});
}

// Without it nothing is lost but the way back: like everything in the store it may fail.
void DecisionBook::keep_record() {
  if (disk_.create_directories(record_file_.parent_path()))
    static_cast<void>(save_quickly(disk_, record_file_, undo_record_text(record_)));
}

std::string DecisionBook::stamp_of(const std::filesystem::path& file) const {
  const auto stamp = disk_.stamp(file);
  if (!stamp) return "none";
  return lasting_key({std::to_string(stamp->size), std::to_string(stamp->modified),
                      std::to_string(stamp->changed), std::to_string(stamp->node)});
}

bool DecisionBook::files_changed() const {
  return film_ == nullptr || std::any_of(stamps_.begin(), stamps_.end(), [&](const auto& known) {
           return stamp_of(known.first) != known.second;
         });
}

// Everything that she writes and the check reads. Clips are looked at when the project is read.
void DecisionBook::remember_files() {
  const auto& project = *film_->project;
  std::vector<std::filesystem::path> files{file_, project.recipe.file};
  for (const auto* texts : {&project.captions, &project.on_screen_text})
    for (const auto& entry : *texts) files.push_back(entry.text.file);
  stamps_.clear();
  for (auto& file : files)
    if (!file.empty()) stamps_.emplace_back(file, stamp_of(file));
}

Checked<void> DecisionBook::refresh() {
  if (!files_changed()) return {};
  auto film = work_.look(disk_);
  if (!film) return tl::unexpected(std::move(film).error());
  film_ = *std::move(film);
  remember_files();
  return {};
}

DecisionBook::Page DecisionBook::page() const {
  std::string version;
  for (const auto& [file, stamp] : stamps_) version = lasting_key({version, stamp});
  return {film_,
          lasting_key({version, std::to_string(record_.done.size()), std::to_string(record_.undone.size())}),
          record_.done.empty() ? std::string() : record_.done.back().what,
          record_.undone.empty() ? std::string() : record_.undone.back().what};
}

Checked<DecisionBook::Page> DecisionBook::current() {
  const std::lock_guard lock(mutex_);
  if (auto read = refresh(); !read) return tl::unexpected(std::move(read).error());
  return page();
}

Checked<DecisionBook::Edits> DecisionBook::save(const Deciding& deciding) {
  if (auto read = refresh(); !read) return tl::unexpected(std::move(read).error());
  auto bytes = disk_.read(file_, kTextFileLimit);
  if (!bytes) return failed(std::move(bytes).error());
  auto text = ProjectText::read(*bytes, file_);
  if (!text) return failed(std::move(text).error());
  auto wanted = deciding(*film_, *text);
  if (!wanted) return failed(std::move(wanted).error());
  Edits made;
  for (auto& edit : *wanted) {
    auto one = text->apply(std::move(edit));
    if (!one) return failed(std::move(one).error());
    if (one->before != one->after) made.push_back(*std::move(one));
  }
  if (text->bytes() == *bytes) return Edits{};
  ProposedFile proposed(disk_, file_, text->bytes());
  auto film = work_.look(proposed);
  if (!film) return tl::unexpected(std::move(film).error());
  // Her editor may have saved while the check ran.
  if (const auto now = disk_.read(file_, kTextFileLimit); !now || *now != *bytes)
    return failed({ErrorCode::Exists, "the project file was saved by another program just now", Place{file_},
                   "decide once more"});
  if (auto saved = save_atomically(disk_, file_, text->bytes()); !saved)
    return failed(std::move(saved).error());
  film_ = *std::move(film);
  remember_files();
  return made;
}

Checked<DecisionBook::Page> DecisionBook::decide(std::string what, const Deciding& deciding) {
  const std::lock_guard lock(mutex_);
  auto made = save(deciding);
  if (!made) return tl::unexpected(std::move(made).error());
  if (!made->empty()) {
    record_.done.push_back({std::move(what), *std::move(made)});
    record_.undone.clear();
    keep_record();
  }
  return page();
}

Checked<DecisionBook::Page> DecisionBook::take(std::vector<MadeDecision>& from,
                                               std::vector<MadeDecision>& to) {
  if (from.empty()) {
    if (auto read = refresh(); !read) return tl::unexpected(std::move(read).error());
    return page();
  }
  auto made = save([&](const DeskFilm&, const ProjectText&) -> Result<Edits> {
    Edits back;
    for (auto edit = from.back().edits.rbegin(); edit != from.back().edits.rend(); ++edit)
      back.push_back(taken_back(*edit));
    return back;
  });
  if (!made) {
    // What somebody else changed since cannot be taken back; what was done before it still can.
    if (made.error().front().code == ErrorCode::Exists) {
      from.pop_back();
      keep_record();
    }
    return tl::unexpected(std::move(made).error());
  }
  to.push_back({from.back().what, *std::move(made)});
  from.pop_back();
  keep_record();
  return page();
}

Checked<DecisionBook::Page> DecisionBook::undo() {
  const std::lock_guard lock(mutex_);
  return take(record_.done, record_.undone);
}

Checked<DecisionBook::Page> DecisionBook::redo() {
  const std::lock_guard lock(mutex_);
  return take(record_.undone, record_.done);
}

}  // namespace panslate
