// Short stretches of talk against small recipes (tests/data/said_phrases.txt), each with the finding it must
// give. Scored like the development set.
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/file_system.h"
#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/check/check.h"

namespace panslate {
namespace {

struct Expected {
  std::string selector, finding;
};

struct PhraseCase {
  int line = 0;
  std::string recipe, talk;
  std::vector<Expected> expected;
};

std::vector<PhraseCase> read_cases(const std::string& text) {
  std::vector<PhraseCase> cases;
  std::string recipe;
  bool in_recipe = false;
  int line = 0;
  for (const auto& one : split_lines(text)) {
    ++line;
    const std::string here(one.text);
    if (here == "=") {
      in_recipe = true;
      recipe.clear();
    } else if (here.starts_with("> ")) {
      in_recipe = false;
      cases.push_back({line, recipe, here.substr(2), {}});
    } else if (in_recipe) {
      recipe += here + "\n";
    } else if (const auto colon = here.rfind(": "); colon != std::string::npos && !here.starts_with("#")) {
      cases.back().expected.push_back({here.substr(0, colon), here.substr(colon + 2)});
    }
  }
  return cases;
}

// Nine words a caption, as captions break: wherever the line is full.
std::string captions_of(const std::string& talk) {
  std::string captions = "WEBVTT\n\n";
  std::string cue;
  int words = 0;
  int ms = 0;
  const auto close = [&] {
    if (words == 0) return;
    captions += format_timestamp(MediaTime::from_ms(ms), TimestampStyle::Clock) + " --> ";
    ms += 400 * words;
    captions += format_timestamp(MediaTime::from_ms(ms), TimestampStyle::Clock) + "\n" + cue + "\n\n";
    cue.clear();
    words = 0;
  };
  for (const auto& word : split(talk, ' ')) {
    cue += (words == 0 ? "" : " ") + word;
    if (++words == 9) close();
  }
  close();
  return captions;
}

bool is_amount_kind(RequirementKind kind) {
  return kind != RequirementKind::Step && kind != RequirementKind::Cue;
}

constexpr std::string_view kCue = "cue ";  // before the words of a doneness cue

struct PhraseScore {
  int asked = 0;
  int right = 0;
  int wrong_matches = 0;
};

void score_phrases(const std::string& name, PhraseScore& score) {
  const auto file = std::filesystem::path(PANSLATE_SOURCE_DIR) / "tests/data" / name;
  const auto text = read_text(real_file_system(), file);
  ASSERT_TRUE(text);
  auto& [asked, right, wrong_matches] = score;
  for (const auto& one : read_cases(*text)) {
    const auto recipe = read_recipe(one.recipe, "recipe.md");
    ASSERT_TRUE(recipe) << one.line;
    const auto captions = read_captions(captions_of(one.talk), "captions.vtt");
    ASSERT_TRUE(captions) << one.line;
    CheckInput input;
    input.recipe = &*recipe;
    input.said.push_back({&*captions, ""});
    const auto report = check(input);
    for (const auto& expected : one.expected) {
      ++asked;
      std::string given = "(lost)";
      if (expected.selector == "extra") {
        const bool found = std::any_of(report.extras.begin(), report.extras.end(), [&](const Extra& e) {
          return (e.text + e.name).find(expected.finding) != std::string::npos;
        });
        given = found ? expected.finding : "(no extra)";
      } else {
        const bool cue = expected.selector.starts_with(kCue);
        const auto words = expected.selector.substr(cue ? kCue.size() : 0);
        const auto r =
            std::find_if(report.requirements.begin(), report.requirements.end(), [&](const Requirement& q) {
              return (cue ? q.kind == RequirementKind::Cue : is_amount_kind(q.kind)) &&
                     q.text.find(words) != std::string::npos;
            });
        if (r != report.requirements.end()) given = spelling_of(r->said.verdict);
      }
      if (given == expected.finding) {
        ++right;
        continue;
      }
      if (given == "match") ++wrong_matches;
      std::cout << "  line " << one.line << " [" << expected.selector << "] " << given << ", truth "
                << expected.finding << ": " << one.talk << '\n';
    }
  }
  std::cout << name << ": " << asked << " findings asked, " << right << " right, wrong matches "
            << wrong_matches << '\n';
}

TEST(SaidPhrases, AreTakenForWhatTheyAre) {
  PhraseScore score;
  score_phrases("said_phrases.txt", score);
  EXPECT_GE(score.asked, 1000);
  EXPECT_EQ(score.wrong_matches, 0);
  EXPECT_GE(score.right * 100, score.asked * 97);
}

// No rule is made to fit one of these.
TEST(SaidPhrases, HeldOutOnesHoldNoWrongMatch) {
  PhraseScore score;
  score_phrases("said_phrases_held_out.txt", score);
  EXPECT_GE(score.asked, 300);
  EXPECT_EQ(score.wrong_matches, 0);
  EXPECT_GE(score.right * 100, score.asked * 90);
}

}  // namespace
}  // namespace panslate
