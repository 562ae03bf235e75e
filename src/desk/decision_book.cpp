#include "desk/decision_book.h"

#include <algorithm>
#include <utility>

#include "panslate/base/lasting_key.h"

#include "desk/proposed_file.h"

namespace panslate {

namespace {

constexpr int kLooks = 3;  // at files that are written while they are read

std::string text_of(const std::optional<FileStamp>& stamp) {
  if (!stamp) return "none";
  return lasting_key({std::to_string(stamp->size), std::to_string(stamp->modified),
                      std::to_string(stamp->changed), std::to_string(stamp->node)});
}

// What the decision was made about, or the decision itself, cannot be: waiting does not help.
bool is_lasting(const std::vector<Error>& errors) {
  return std::any_of(errors.begin(), errors.end(), [](const Error& error) {
    return error.code == ErrorCode::Exists || error.code == ErrorCode::Malformed;
  });
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

bool DecisionBook::files_changed() const {
  return film_ == nullptr || std::any_of(stamps_.begin(), stamps_.end(), [&](const auto& known) {
           return stamp_on(disk_, known.first) != known.second;
         });
}

// Everything that the check read counts, as it was before it was read: what she writes, her clips, and what
// was heard in them.
void DecisionBook::remember(std::shared_ptr<const DeskFilm> film, const WatchedDisk& read) {
  film_ = std::move(film);
  film_bytes_ = read.kept_bytes();
  stamps_ = read.seen();
  const auto& project = *film_->project;
  std::vector<std::filesystem::path> files{file_, project.recipe.file};
  for (const auto* texts : {&project.captions, &project.on_screen_text})
    for (const auto& entry : *texts) files.push_back(entry.text.file);
  for (const auto& media : project.media) files.push_back(media.file);
  for (const auto& file : files)
    if (!file.empty() && !stamps_.contains(file)) stamps_.emplace(file, stamp_on(disk_, file));
}

// Another program may have saved right behind: the stamp is the one of these bytes, or none that ever fits.
void DecisionBook::remember_saved(std::string bytes) {
  auto stamp = stamp_on(disk_, file_);
  const auto there = disk_.read(file_, kTextFileLimit);
  if (!there || *there != bytes) stamp = FileStamp{};
  stamps_.insert_or_assign(file_, stamp);
  film_bytes_ = std::move(bytes);
}

Checked<void> DecisionBook::refresh() {
  for (int looks = 0; looks < kLooks && files_changed(); ++looks) {
    WatchedDisk watched(disk_, file_);
    auto film = work_.look(watched);
    if (!film) return tl::unexpected(std::move(film).error());
    remember(*std::move(film), watched);
  }
  return {};
}

DecisionBook::Page DecisionBook::page() const {
  std::string version;
  for (const auto& [file, stamp] : stamps_) version = lasting_key({version, text_of(stamp)});
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

tl::expected<DecisionBook::Edits, DecisionBook::Refusal> DecisionBook::save(const Deciding& deciding) {
  const auto refused = [](Error error, bool passes) {
    return tl::unexpected(Refusal{{std::move(error)}, passes});
  };
  const auto saved_meanwhile = [&] {
    return refused({ErrorCode::Exists, "the project file was saved by another program just now", Place{file_},
                    "decide once more"},
                   true);
  };
  if (auto read = refresh(); !read) return tl::unexpected(Refusal{std::move(read).error(), true});
  auto bytes = disk_.read(file_, kTextFileLimit);
  if (!bytes) return refused(std::move(bytes).error(), true);
  // What she decides about and what is changed are of one moment.
  if (*bytes != film_bytes_) return saved_meanwhile();
  auto text = ProjectText::read(*bytes, file_);
  if (!text) return refused(std::move(text).error(), true);
  auto wanted = deciding(*film_, *text);
  if (!wanted) return refused(std::move(wanted).error(), false);
  Edits made;
  for (auto& edit : *wanted) {
    auto one = text->apply(std::move(edit));
    if (!one) return refused(std::move(one).error(), false);
    if (one->before != one->after) made.push_back(*std::move(one));
  }
  if (text->bytes() == *bytes) return Edits{};
  ProposedFile proposed(disk_, file_, text->bytes());
  WatchedDisk watched(proposed, file_);
  auto film = work_.look(watched);
  if (!film) {
    const bool lasting = is_lasting(film.error());
    return tl::unexpected(Refusal{std::move(film).error(), !lasting});
  }
  // Her editor may have saved while the check ran.
  if (const auto now = disk_.read(file_, kTextFileLimit); !now || *now != *bytes) return saved_meanwhile();
  // A link stays one: what it leads to is saved.
  std::error_code no_link;
  const auto itself =
      std::filesystem::is_symlink(file_, no_link) ? std::filesystem::canonical(file_, no_link) : file_;
  if (auto saved = save_atomically(disk_, no_link ? file_ : itself, text->bytes()); !saved)
    return refused(std::move(saved).error(), true);
  remember(*std::move(film), watched);
  remember_saved(text->bytes());
  return made;
}

Checked<DecisionBook::Page> DecisionBook::decide(std::string what, const Deciding& deciding) {
  const std::lock_guard lock(mutex_);
  auto made = save(deciding);
  if (!made) return tl::unexpected(std::move(made).error().errors);
  if (!made->empty()) {
    record_.done.push_back({std::move(what), *std::move(made)});
    record_.undone.clear();
    keep_record();
  }
  return page();
}

Checked<DecisionBook::Page> DecisionBook::take(std::vector<MadeDecision>& from, std::vector<MadeDecision>& to,
                                               std::string_view refused) {
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
    auto refusal = std::move(made).error();
    if (refusal.passes) return tl::unexpected(std::move(refusal.errors));
    // What no longer fits is left as it is; what was done before it can still be taken back.
    refusal.errors.insert(refusal.errors.begin(),
                          {ErrorCode::Exists, std::string(refused) + ": " + from.back().what, Place{file_},
                           "it stays as it is now"});
    from.pop_back();
    keep_record();
    return tl::unexpected(std::move(refusal.errors));
  }
  to.push_back({from.back().what, *std::move(made)});
  from.pop_back();
  keep_record();
  return page();
}

Checked<DecisionBook::Page> DecisionBook::undo() {
  const std::lock_guard lock(mutex_);
  return take(record_.done, record_.undone, "this can no longer be taken back");
}

Checked<DecisionBook::Page> DecisionBook::redo() {
  const std::lock_guard lock(mutex_);
  return take(record_.undone, record_.done, "this can no longer be done again");
}

}  // namespace panslate
