#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "panslate/project/project.h"
#include "panslate/project/store.h"

#include "app/context.h"

namespace panslate::app {

/// What `log` was asked to read.
struct FootageToLog {
  std::vector<std::filesystem::path> files;
  std::optional<Project> project;          ///< then files are its media, in their order, each once
  Footage footage;                         ///< of the project
  std::vector<std::size_t> file_of_media;  ///< by index of Project::media: index into files
  Store store;
};

/// A project, a folder, or clips; all errors of a project at once. What is kept of clips without a project
/// lies in `.panslate` in the folder of the first.
[[nodiscard]] Checked<FootageToLog> footage_to_log(const std::vector<std::string>& named, Context& context);

}  // namespace panslate::app
