#include "app/checked_films.h"

#include <utility>

#include "panslate/check/pickup.h"

#include "app/film.h"

namespace panslate::app {

CheckedFilms::CheckedFilms(std::string project, Context& context)
    : project_(std::move(project)),
      context_(context),
      stills_(context.disk, project_),
      proxies_(context.footage) {}

Checked<std::shared_ptr<const DeskFilm>> CheckedFilms::look(FileSystem& disk) {
  FilmOptions named;
  named.project = project_;
  NoProgress quiet;
  auto read =
      read_film(named, disk, first_ ? static_cast<Progress&>(context_.progress) : quiet, context_.footage);
  first_ = false;
  if (!read) return tl::unexpected(std::move(read).error());
  const std::shared_ptr<Film> film = *std::move(read);
  auto check = check_and_compare(*film, named.on);
  if (context_.progress.cancelled())
    return tl::unexpected(std::vector<Error>{{ErrorCode::Cancelled, "stopped; nothing was changed"}});
  auto out = std::make_shared<DeskFilm>();
  out->project = &*film->project;
  out->footage = &film->footage;
  out->pickups = pickups_of(check.report, film->recipe(), check.input.said);
  out->input = std::move(check.input);
  out->report = std::move(check.report);
  out->looked_in = std::move(check.looked_in);
  out->owner = film;
  return out;
}

std::optional<Still> CheckedFilms::kept_still(const std::string& content, MediaTime time, int longest_side) {
  const std::lock_guard lock(stills_mutex_);
  return stills_.still(content, time, longest_side);
}

Result<Still> CheckedFilms::take_still(const std::filesystem::path& file, MediaTime time, int longest_side) {
  return context_.footage.still(file, time, longest_side);
}

void CheckedFilms::keep_still(const std::string& content, MediaTime time, int longest_side,
                              const Still& still) {
  const std::lock_guard lock(stills_mutex_);
  stills_.keep_still(content, time, longest_side, still);
}

std::optional<ClipLog> CheckedFilms::logged(const std::string& content, const std::filesystem::path& file) {
  const std::lock_guard lock(stills_mutex_);
  return content.empty() ? std::nullopt : stills_.logged(content, file);
}

DeskProxy CheckedFilms::proxy(const std::string& content, const ClipFacts& clip, bool make) {
  const auto cannot = [] {
    return DeskProxy{DeskProxy::State::Failed, 0, "a copy cannot be kept beside this project", {}};
  };
  if (content.empty()) return cannot();
  std::unique_lock lock(stills_mutex_);
  const auto place = stills_.place_for_proxy(content);
  lock.unlock();
  return place ? proxies_.look(*place, content, clip, make) : cannot();
}

}  // namespace panslate::app
