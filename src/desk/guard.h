#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "panslate/desk/desk_request.h"

/// Who may ask: the page that the desk itself gave out, and nobody else. Other pages in her browser can reach
/// 127.0.0.1 too, and can point a name of theirs at it (DNS rebinding); neither knows the token, and both
/// show in Host or Origin. What comes over her network is the same with an address and a token of its own.
namespace panslate {

struct DeskAddress {
  std::string token;
  int port = 0;
  std::string home;  ///< in her network; empty: on this machine
};

/// The refusal of what another page asks for, or a name of another's that was pointed here; empty where the
/// request may be ours.
[[nodiscard]] std::optional<DeskReply> asked_by_another(const DeskRequest& request,
                                                        const DeskAddress& address);
/// The refusal of what nobody asks in this way: another method, or a change that is no JSON.
[[nodiscard]] std::optional<DeskReply> asked_wrongly(const DeskRequest& request);

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

}  // namespace panslate
