// What the page may cost: bytes for a film of ten minutes, time that grows with the lines, and nothing that a
// hostile field can make of it.
#include <algorithm>
#include <chrono>

#include <gtest/gtest.h>

#include "panslate/base/text.h"
#include "panslate/deliver/report_page.h"

#include "deliver/film_place.h"
#include "deliver/long_film.h"

namespace panslate {
namespace {

constexpr std::size_t kMegabyte = 1'000'000;

double seconds_for(std::size_t lines) {
  const auto film = testing::long_film(lines, "\xFF\xD8 no picture");
  const auto input = film.input();
  double best = 1e9;
  for (int run = 0; run < 3; ++run) {
    const auto begin = std::chrono::steady_clock::now();
    EXPECT_FALSE(report_page(input).empty());
    best = std::min(best, std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
  }
  return best;
}

TEST(ReportPageCost, GrowsWithTheLines) {
  // Eight times the lines: eight times the time, sixty-four times if it grew with their square.
  const auto few = seconds_for(150);
  const auto many = seconds_for(1200);
  EXPECT_LT(many / few, 16.0) << few << " s and " << many << " s";
}

TEST(ReportPageCost, AFilmOfTenMinutesStaysBelowThreeMegabytes) {
  // Stills of 320 pixels are 5 to 25 kB; the largest, one for each line and part.
  const auto film = testing::long_film(60, std::string(25'000, '\xAB'));
  EXPECT_LT(report_page(film.input()).size(), 3 * kMegabyte);
  // However many there are.
  const auto long_one = testing::long_film(240, std::string(25'000, '\xAB'));
  const auto page = report_page(long_one.input());
  EXPECT_LT(page.size(), 3 * kMegabyte);
  EXPECT_NE(page.find("left out to keep this page light"), std::string::npos);
}

TEST(ReportPageCost, AWordOfTenMegabytesIsShortened) {
  const std::string word(10 * kMegabyte, 'w');
  auto film = testing::long_film(8, "x");
  film.recipe.title = word;
  for (auto& ingredient : film.recipe.ingredients)
    ingredient.text = ingredient.name = ingredient.group = word;
  film.recipe.steps[0].text = film.recipe.steps[0].part = word;
  film.report.requirements[1].text = film.report.requirements[1].name = film.report.requirements[1].why =
      word;
  film.report.requirements[1].said.mentions[0].text = film.report.requirements[1].said.mentions[0].media =
      word;
  film.transcript.words[3].text = word;
  film.pickups[0].what = film.pickups[0].line = film.pickups[0].instead_of = word;
  auto input = film.input();
  input.looked_in = input.changes[0].what = input.decide_again[0].after = word;
  EXPECT_LT(report_page(input).size(), kMegabyte);
}

TEST(ReportPageCost, APictureShownTwiceIsCarriedOnce) {
  auto film = testing::long_film(8, "\xFF\xD8 picture");
  film.moments.clear();
  const auto page = report_page(film.input());
  std::size_t carried = 0;
  std::size_t shown = 0;
  for (auto at = page.find("data:image"); at != std::string::npos; at = page.find("data:image", at + 1))
    ++carried;
  for (auto at = page.find("<use "); at != std::string::npos; at = page.find("<use ", at + 1)) ++shown;
  EXPECT_EQ(carried, 2U);
  EXPECT_GT(shown, carried);
}

struct UrlCase {
  const char* path;
  const char* url;
  const char* why;
};

// RFC 3986: 2.1 percent-encoding, 3.1 scheme, 3.2 authority, 4.2 "./" before a first segment with a colon.
TEST(FilmPlace, StaysOnHerOwnDisk) {
  for (const auto& [path, url, why] :
       {UrlCase{"", "", "no film"}, UrlCase{"film.mp4", "./film.mp4", "beside the page"},
        UrlCase{"../footage/edit.mp4", "../footage/edit.mp4", "one folder up"},
        UrlCase{"my film #2?.mp4", "./my%20film%20%232%3F.mp4", "marks that end a path"},
        UrlCase{"100%.mp4", "./100%25.mp4", "a percent sign"},
        UrlCase{"javascript:alert(1)", "./javascript%3Aalert%281%29", "no scheme"},
        UrlCase{"//host/film.mp4", "/host/film.mp4", "no host"},
        UrlCase{"/home/ann/film.mp4", "/home/ann/film.mp4", "from the root"},
        UrlCase{"C:/film.mp4", "./C%3A/film.mp4", "no scheme"},
        UrlCase{"crème.mp4", "./cr%C3%A8me.mp4", "UTF-8"},
        UrlCase{"a\"><b>.mp4", "./a%22%3E%3Cb%3E.mp4", "markup"}})
    EXPECT_EQ(relative_url(path), url) << why;
}

TEST(FilmPlace, PlaysOnlyWhatRunsOnItsClock) {
  const auto film = testing::long_film(4, "x");
  auto input = film.input();
  // "ninety" is the third of eleven words from 4 s to 8 s: at 4.726 s.
  EXPECT_NE(report_page(input).find("the%20film.mp4#t=3.726"), std::string::npos) << "a second before";
  input.segments.clear();
  input.playable[0].id = "edit";  // and everything is said on a clock without a name
  EXPECT_EQ(report_page(input).find("film.mp4#t="), std::string::npos);
  // Of several clips each moment plays its own.
  input.playable.push_back({"", "voice.wav"});
  const auto page = report_page(input);
  EXPECT_NE(page.find("./voice.wav#t=3.726"), std::string::npos);
  EXPECT_NE(page.find("data-plays=\"./voice.wav\""), std::string::npos);
  EXPECT_NE(page.find("<video controls preload=\"none\" src=\"../footage/the%20film.mp4\""),
            std::string::npos);
}

}  // namespace
}  // namespace panslate
