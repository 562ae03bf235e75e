#pragma once

#include <optional>

#include "panslate/base/media_time.h"

#include "media/clip_reader.h"

/// What the headers of sound files say of their length, where FFmpeg believes the size of the file instead: a
/// recording that broke off looks whole to it.
namespace panslate::av {

/// Of a WAV file (RIFF, and RF64 of EBU Tech 3306) or a Core Audio file; empty for others, and where the
/// header leaves it open, as recorders do that were switched off.
[[nodiscard]] std::optional<MediaTime> length_in_header(const ClipReader& reader);

/// Whether an Ogg file (RFC 3533) ends within a page; false for others.
[[nodiscard]] bool ends_within_page(const ClipReader& reader);

}  // namespace panslate::av
