// The page as a browser has it: its own policy lets its own modules run, and nothing that a recipe holds.
#include <cstdlib>
#include <string>

#include <gtest/gtest.h>

#include "desk/served_desk.h"
#include "support/shell.h"

namespace panslate {
namespace {

bool has_chromium() {
  return testing::shell("chromium --version > /dev/null 2>&1").status == 0;
}

// What stands on a page of the desk once its scripts ran.
std::string page_in_chromium(const testing::ServedDesk& desk, const std::string& page) {
  const auto url = "http://127.0.0.1:" + std::to_string(desk.served.port()) + desk.path("#" + page);
  return testing::
      shell("timeout 60 chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run "
            "--disable-background-networking --disable-component-update --disable-sync --window-size=320,640 "
            "--virtual-time-budget=4000 --user-data-dir='" +
            (desk.folder.path() / ("profile-" + page)).string() + "' --dump-dom '" + url + "' 2> /dev/null")
          .out;
}

TEST(DeskInBrowser, ShowsItsPagesAndRunsNothingElse) {
  if (!has_chromium())
    GTEST_SKIP() << "Chromium is missing here, so nobody looked at the page: apt-get install chromium";
  testing::ServedDesk desk;
  const std::string hostile =
      "<img src=x "
      "onerror=document.documentElement.dataset.hacked=1></script><script>document.title=1</script>";
  desk.folder.write("recipe.md", "# Pot " + hostile + "\n\n## Ingredients\n\n- 2 tsp dried thyme, " +
                                     hostile + "\n- 40 g sugar\n\n## Method\n\n1. Stir the sugar in " +
                                     hostile + ".\n");
  for (const auto& [page, shows] :
       std::vector<std::pair<std::string, std::string>>{{"answer", "id=\"card-title\""},
                                                        {"recipe", "line-button"},
                                                        {"mark", "id=\"clip-title\""},
                                                        {"stove", "id=\"step-title\""}}) {
    const auto dom = page_in_chromium(desk, page);
    EXPECT_NE(dom.find("class=\"ready\""), std::string::npos) << page << ": " << dom.substr(0, 300);
    EXPECT_NE(dom.find(shows), std::string::npos) << page;
    EXPECT_EQ(dom.find("data-hacked"), std::string::npos) << page;
    EXPECT_EQ(dom.find("<img src=\"x\""), std::string::npos) << page;
  }
}

}  // namespace
}  // namespace panslate
