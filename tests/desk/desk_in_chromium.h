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

/// What every driver needs.
constexpr const char* kHands = R"js(
const wait = (ms) => new Promise((done) => setTimeout(done, ms));
const until = async (what) => { for (let i = 0; i < 500 && !what(); i += 1) await wait(20); };
const by = (id) => document.getElementById(id);
const press = (key, more) => document.body.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, ...more }));
const results = [];
const tell = (words) => { results.push(words); document.documentElement.dataset.result = results.join("; "); };
await until(() => document.documentElement.classList.contains("ready"));
)js";

/// What the driver told of the page.
inline std::string result_of(ServedDesk& desk, const std::string& page, const std::string& driver, int runs) {
  desk.driver = driver;
  const auto dom = page_in_chromium(desk, page, runs);
  const std::string name = "data-result=\"";
  const auto at = dom.find(name);
  if (at == std::string::npos) return "nothing told: " + dom.substr(0, 300);
  const auto begin = at + name.size();
  return dom.substr(begin, dom.find('"', begin) - begin);
}

}  // namespace panslate::testing
