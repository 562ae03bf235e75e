// The page as a browser has it: its own policy lets its own modules run, and nothing that a recipe holds.
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "desk/desk_in_chromium.h"

namespace panslate {
namespace {

TEST(DeskInBrowser, ShowsItsPagesAndRunsNothingElse) {
  if (!testing::has_chromium()) GTEST_SKIP() << testing::kNoChromium;
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
    const auto dom = testing::page_in_chromium(desk, page);
    EXPECT_NE(dom.find("class=\"ready\""), std::string::npos) << page << ": " << dom.substr(0, 300);
    EXPECT_NE(dom.find(shows), std::string::npos) << page;
    EXPECT_EQ(dom.find("data-hacked"), std::string::npos) << page;
    EXPECT_EQ(dom.find("<img src=\"x\""), std::string::npos) << page;
  }
}

}  // namespace
}  // namespace panslate
