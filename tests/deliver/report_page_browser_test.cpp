// The page as a browser shows it: report_page_browser.html looks at it in headless Chromium.
#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <ostream>
#include <string>

#include <gtest/gtest.h>
#include <unistd.h>

#include "panslate/deliver/report_page.h"

#include "deliver/long_film.h"

namespace panslate {
namespace {

bool succeeds(const std::string& command) {
  return std::system(command.c_str()) == 0;  // NOLINT(cert-env33-c,concurrency-mt-unsafe)
}

std::string contents(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// A folder that vanishes with the test.
class Folder {
 public:
  Folder()
      : path_(std::filesystem::temp_directory_path() / ("panslate-browser-" + std::to_string(::getpid()))) {
    std::filesystem::create_directories(path_);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

struct Window {
  const char* name;
  int width, height;
  bool dark;
};

void PrintTo(const Window& window, std::ostream* out) {
  *out << window.name;
}

bool has_chromium() {
  return succeeds("chromium --version > /dev/null 2>&1");
}

constexpr const char* kNoChromium =
    "Chromium is missing here, so nobody looked at the page: apt-get install chromium";

// What is wrong with the page, one fault a line.
std::string faults_of(const std::string& page, const Window& window) {
  const Folder folder;
  std::ofstream(folder.path() / "report.html", std::ios::binary) << page;
  const auto looker = std::string(PANSLATE_SOURCE_DIR) + "/tests/deliver/report_page_browser.html";
  const auto url = "file://" + looker + "?file=file://" + (folder.path() / "report.html").string() +
                   "&width=" + std::to_string(window.width) + "&height=" + std::to_string(window.height);
  const auto out = folder.path() / "dom.html";
  // The page's own policy stays; only the looker may see into a file beside it.
  const std::string command =
      "timeout 180 chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run "
      "--disable-background-networking --disable-component-update --disable-sync "
      "--allow-file-access-from-files "
      "--enable-blink-features=ComputedAccessibilityInfo --window-size=1500,1000 " +
      std::string(window.dark ? "--blink-settings=preferredColorScheme=0 " : "") + "--user-data-dir='" +
      (folder.path() / "profile").string() + "' --dump-dom '" + url + "' > '" + out.string() +
      "' 2> /dev/null";
  if (!succeeds(command)) return "Chromium failed";
  const auto dom = contents(out);
  const auto begin = dom.find("BEGIN\n");
  const auto end = dom.find("\nEND");
  if (begin == std::string::npos || end == std::string::npos)
    return "Chromium told nothing: " + dom.substr(0, 400);
  return begin + 6 < end ? dom.substr(begin + 6, end - begin - 6) : std::string{};
}

class ReportPageInBrowser : public ::testing::TestWithParam<Window> {};

TEST_P(ReportPageInBrowser, IsLegibleReachableAndNamed) {
  if (!has_chromium()) GTEST_SKIP() << kNoChromium;
  const auto film = testing::long_film(60, "\xFF\xD8 no picture");
  EXPECT_EQ(faults_of(report_page(film.input()), GetParam()), "");
}

// Each field in turn holds each of them.
std::string hostile() {
  static constexpr std::array kTexts{
      "</style></script><script>document.documentElement.dataset.hacked=1</script>",
      "\"'><img src=x onerror=document.documentElement.dataset.hacked=1>",
      "]]> --> </title></svg><svg onload=document.documentElement.dataset.hacked=1>",
      "\u202E\u2066\u200F\u05D0\u05D1 right to left {{title}}{{{css}}}"};
  static std::size_t next = 0;
  return kTexts.at(next++ % kTexts.size());
}

TEST(HostileReportPageInBrowser, ExecutesNothing) {
  if (!has_chromium()) GTEST_SKIP() << kNoChromium;
  auto film = testing::long_film(12, "\xFF\xD8 no picture");
  for (auto& ingredient : film.recipe.ingredients) ingredient.group = hostile();
  for (auto& step : film.recipe.steps) {
    step.part = hostile();
    step.text = hostile();
  }
  for (auto& requirement : film.report.requirements) {
    requirement.text = hostile();
    requirement.name = hostile();
    requirement.why = hostile();
    requirement.said.mentions.front().text = hostile();
  }
  for (auto& word : film.transcript.words) word.text = hostile();
  for (auto& pickup : film.pickups) {
    pickup.what = hostile();
    pickup.line = hostile();
    pickup.instead_of = hostile();
  }
  for (auto& segment : film.segments) segment.clip = hostile();
  film.report.extras = {{testing::ms_range(0, 1), hostile(), hostile(), std::nullopt}};
  film.report.warnings = {{"x", WarningLevel::Note, hostile(), 1, MediaTime()}};
  film.recipe.file = hostile();
  for (int title = 0; title < 4; ++title) {
    film.recipe.title = hostile();
    auto input = film.input();
    input.looked_in = hostile();
    input.changes = {{hostile(), hostile(), hostile()}};
    input.decide_again = {{hostile(), hostile(), hostile()}};
    input.playable = {{"", hostile()}, {hostile(), hostile()}};
    EXPECT_EQ(faults_of(report_page(input), {"wide", 1440, 900, false}), "") << film.recipe.title;
  }
}

INSTANTIATE_TEST_SUITE_P(Windows, ReportPageInBrowser,
                         ::testing::Values(Window{"wide", 1440, 900, false},
                                           Window{"wide_dark", 1440, 900, true},
                                           Window{"phone", 390, 844, false},
                                           Window{"phone_dark", 390, 844, true},
                                           // WCAG 1.4.4: 1280 x 720 at a zoom of 200 %.
                                           Window{"zoomed", 640, 360, false}),
                         [](const auto& param) { return std::string(param.param.name); });

}  // namespace
}  // namespace panslate
