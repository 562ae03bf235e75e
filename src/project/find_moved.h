#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "panslate/project/project.h"
#include "panslate/project/store.h"

namespace panslate {

/// Looks for clips that are no longer where the project says, by their content: in the project's folder, in
/// the folders of its other clips, and in the folders within these. Large footage folders cost a listing;
/// only files of the very size are read.
class MovedClips {
 public:
  MovedClips(const Project& project, const Store& store) : project_(project), store_(store) {}

  /// The file that has the content which this clip had last; empty where that is not known, or found nowhere.
  [[nodiscard]] std::optional<std::filesystem::path> find(const MediaEntry& media);

 private:
  struct Candidate {
    std::filesystem::path file;
    std::uintmax_t size = 0;
  };
  void list_candidates();

  const Project& project_;
  const Store& store_;
  std::optional<std::vector<Candidate>> candidates_;
};

}  // namespace panslate
