#pragma once

#include <string>

#include "desk/served_desk.h"
#include "support/shell.h"

namespace panslate::testing {

constexpr const char* kNoChromium =
    "Chromium is missing here, so nobody looked at the page: apt-get install chromium";

inline bool has_chromium() {
  return shell("chromium --version > /dev/null 2>&1").status == 0;
}

/// What stands on a page of the desk once its scripts ran, for so many milliseconds of the browser's own
/// clock.
inline std::string page_in_chromium(const ServedDesk& desk, const std::string& page, int runs = 4000) {
  const auto url = "http://127.0.0.1:" + std::to_string(desk.served.port()) + desk.path("#" + page);
  return shell(
             "timeout 180 chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run "
             "--disable-background-networking --disable-component-update --disable-sync "
             "--window-size=320,640 --virtual-time-budget=" +
             std::to_string(runs) + " --user-data-dir='" +
             (desk.folder.path() / ("profile-" + page)).string() + "' --dump-dom '" + url + "' 2> /dev/null")
      .out;
}

}  // namespace panslate::testing
