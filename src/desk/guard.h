#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "panslate/desk/desk_request.h"

/// Who may ask: the page that the desk itself gave out, and nobody else. Other pages in her browser can reach
/// 127.0.0.1 too, and can point a name of theirs at it (DNS rebinding); neither knows the token, and both
/// show in Host or Origin.
namespace panslate {

struct DeskAddress {
  std::string token;
  int port = 0;
};

/// What is asked for, behind the token ("state"; "" is the page); or the refusal. One refusal for a wrong
/// token and a wrong path, so that neither tells of the other.
struct Admission {
  std::string route;
  std::optional<DeskReply> refusal;
};
[[nodiscard]] Admission admit(const DeskRequest& request, const DeskAddress& address);

/// A reply in words for people who see it bare.
[[nodiscard]] DeskReply plain_reply(int status, std::string_view words);

/// Headers of every reply: what the page may load (itself only), and that nobody keeps or frames it.
[[nodiscard]] const std::vector<std::pair<std::string, std::string>>& common_headers();

/// Whether both are the same, in a time that does not tell where they differ.
[[nodiscard]] bool same_secret(std::string_view a, std::string_view b);

}  // namespace panslate
