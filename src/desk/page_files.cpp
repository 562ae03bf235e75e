#include "desk/page_files.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "panslate/deliver/page_style.h"

#include "embedded/answer_js.h"
#include "embedded/ask_js.h"
#include "embedded/clip_source_js.h"
#include "embedded/desk_css.h"
#include "embedded/desk_html.h"
#include "embedded/desk_js.h"
#include "embedded/desk_svg.h"
#include "embedded/mark_js.h"
#include "embedded/phone_html.h"
#include "embedded/phone_js.h"
#include "embedded/player_js.h"
#include "embedded/proposed_js.h"
#include "embedded/recipe_js.h"
#include "embedded/stove_js.h"
#include "embedded/strip_js.h"

namespace panslate {

const PageFile* page_file(std::string_view name) {
  static const std::string kStyle = std::string(page_style()) + std::string(embedded::desk_css);
  static constexpr std::string_view kScript = "text/javascript; charset=utf-8";
  static const std::array<std::pair<std::string_view, PageFile>, 15> kFiles{{
      {"", {"text/html; charset=utf-8", embedded::desk_html}},
      {"desk.css", {"text/css; charset=utf-8", kStyle}},
      {"desk.svg", {"image/svg+xml", embedded::desk_svg}},
      {"desk.js", {kScript, embedded::desk_js}},
      {"ask.js", {kScript, embedded::ask_js}},
      {"player.js", {kScript, embedded::player_js}},
      {"answer.js", {kScript, embedded::answer_js}},
      {"recipe.js", {kScript, embedded::recipe_js}},
      {"mark.js", {kScript, embedded::mark_js}},
      {"stove.js", {kScript, embedded::stove_js}},
      {"clip_source.js", {kScript, embedded::clip_source_js}},
      {"proposed.js", {kScript, embedded::proposed_js}},
      {"strip.js", {kScript, embedded::strip_js}},
      {"phone.html", {"text/html; charset=utf-8", embedded::phone_html}},
      {"phone.js", {kScript, embedded::phone_js}},
  }};
  const auto found =
      std::find_if(kFiles.begin(), kFiles.end(), [&](const auto& file) { return file.first == name; });
  return found == kFiles.end() ? nullptr : &found->second;
}

}  // namespace panslate
