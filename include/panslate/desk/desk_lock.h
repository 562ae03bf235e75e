#pragma once

#include <filesystem>

#include "panslate/base/descriptor.h"
#include "panslate/base/result.h"

namespace panslate {

/// Keeps every other desk away from this project as long as the result lives, also in other programs; the
/// system lets go of it with the program, however that ends. Exists where another desk has it. Where there is
/// no such project, or nothing can be written beside it (and so nothing lost), the result is empty.
[[nodiscard]] Result<Descriptor> lock_desk(const std::filesystem::path& project);

}  // namespace panslate
