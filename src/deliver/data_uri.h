#pragma once

#include <string>
#include <string_view>

namespace panslate {

/// A JPEG picture as a data URI (RFC 2397, base64 of RFC 4648), so that a page carries it.
[[nodiscard]] std::string jpeg_data_uri(std::string_view jpeg);

}  // namespace panslate
