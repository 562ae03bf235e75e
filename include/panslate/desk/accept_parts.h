#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

#include "panslate/base/file_system.h"
#include "panslate/base/result.h"
#include "panslate/check/propose_parts.h"
#include "panslate/desk/desk.h"

namespace panslate {

/// What proposals were made from.
struct ProposedFrom {
  const Project& project;                 ///< as it was read then
  std::span<const std::string> contents;  ///< keys of the clips that were read, by index of Project::media
};

struct AcceptedParts {
  std::vector<std::size_t> written;  ///< indices into PartProposals::parts
  std::size_t gave_way = 0;          ///< parts of a whole clip that said nothing
  std::size_t held_back = 0;  ///< proposals for clips whose whole is a part with something of her own in it
};

/// Writes all proposals into the project file as parts of clips, as if she had marked them at the desk in one
/// go: everything else stays byte for byte, the result is read and checked before it is saved, all is saved
/// or nothing, and a desk can take it back. Exists where the file, a clip's words or a clip itself were
/// changed since `seen`, so that one of them no longer fits. The caller has the desk's lock.
[[nodiscard]] Checked<AcceptedParts> accept_parts(FileSystem& disk, const std::filesystem::path& file,
                                                  DeskWork& work, const ProposedFrom& seen,
                                                  const PartProposals& proposals);

}  // namespace panslate
