#pragma once

#include <filesystem>
#include <string>

#include "panslate/base/result.h"

namespace panslate {

/// A key of what is in a clip, the same under any name, in any folder and at any date: what was measured of
/// it is kept under this key. It is `SIZE-SHA256`: the size in bytes, and 64 hexadecimal digits of SHA-256
/// (FIPS 180-4)
///
/// - for files of up to 4 MiB: over the whole file, as `sha256sum` prints it;
/// - for larger ones: over 64 windows of 64 KiB, one behind the other; window i of 0…63 begins at
///   floor(i × (size − 65536) / 63), so that the first and the last 64 KiB are among them.
///
/// So it takes as long for a film of ten hours as for one of a minute. Two large files of one size that
/// differ only between the windows have one key: for an export this means a change that leaves the size, the
/// header, the index at the end and 62 places between alone, which encoders do not make.
///
/// Needs neither FFmpeg nor a worker: nothing in the file is interpreted. NotFound, or Unreadable (a folder,
/// no plain file, no right, or cut short while it was read).
[[nodiscard]] Result<std::string> content_key(const std::filesystem::path& file);

}  // namespace panslate
