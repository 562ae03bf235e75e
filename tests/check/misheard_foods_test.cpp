// Foods found by their sound: mishearings with what was meant (tests/data/misheard_foods.txt), and talk in
// which none may be found (tests/data/kitchen_talk.txt).
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/file_system.h"
#include "panslate/base/text.h"
#include "panslate/check/check.h"

namespace panslate {
namespace {

struct Talk {
  int line = 0;
  std::string text;
  std::vector<std::string> meant;  ///< "leaks -> leeks"
};

struct Kitchen {
  std::string recipe;
  std::vector<Talk> talks;
};

std::string data(const std::string& name) {
  const auto text =
      read_text(real_file_system(), std::filesystem::path(PANSLATE_SOURCE_DIR) / "tests/data" / name);
  return text ? *text : std::string{};
}

std::vector<Kitchen> read_kitchens() {
  std::vector<Kitchen> kitchens;
  int number = 0;
  const auto text = data("misheard_foods.txt");
  for (const auto& one : split_lines(text)) {
    ++number;
    const std::string line(one.text);
    if (line.empty() || line.front() == '#') continue;
    if (line == "=")
      kitchens.push_back({"# Pot\n\n## Ingredients\n\n", {}});
    else if (line.front() == '-')
      kitchens.back().recipe += line + "\n";
    else if (line.front() == '>')
      kitchens.back().talks.push_back({number, line.substr(2), {}});
    else
      kitchens.back().talks.back().meant.push_back(line);
  }
  return kitchens;
}

CheckReport report_on(const std::string& recipe_text, const std::string& talk) {
  const auto recipe = read_recipe(recipe_text, "pot.md");
  const auto captions = read_captions(talk, "talk.txt");
  EXPECT_TRUE(recipe && captions) << talk;
  if (!recipe || !captions) return {};
  CheckInput input;
  input.recipe = &*recipe;
  input.said.push_back({&*captions, ""});
  return check(input);
}

// Some names are known in two words as well ("chick peas"): then there is nothing to put right, and the line
// is said.
bool is_said(const CheckReport& report, const std::string& meant) {
  const auto food = fold_accents(meant.substr(meant.find(" -> ") + 4));
  return std::any_of(report.requirements.begin(), report.requirements.end(),
                     [&](const Requirement& requirement) {
                       return fold_accents(requirement.text).find(food) != std::string::npos &&
                              requirement.said.verdict == Verdict::Match;
                     });
}

std::string words_of(const CaptionCorrection& correction) {
  return correction.heard + " -> " + correction.meant;
}

// "keen wah -> quinoa" where only the end of a longer name is told, too: the food is what counts.
bool tells(const std::string& wanted, const CaptionCorrection& given) {
  const auto heard = wanted.substr(0, wanted.find(" -> "));
  const auto meant = wanted.substr(wanted.find(" -> ") + 4);
  const auto common = [](const std::string& a, const std::string& b) {
    return a.find(b) != std::string::npos || b.find(a) != std::string::npos;
  };
  return common(heard, given.heard) && common(meant, given.meant);
}

TEST(MisheardFoods, AreUnderstood) {
  int asked = 0;
  int exactly = 0;
  int understood = 0;
  int known = 0;
  int doubted = 0;
  int wrong = 0;
  for (const auto& kitchen : read_kitchens())
    for (const auto& talk : kitchen.talks) {
      const auto report = report_on(kitchen.recipe + "\n## Method\n\n1. Cook it.\n", "[0:05] " + talk.text);
      const auto& found = report.corrections;
      for (const auto& meant : talk.meant) {
        ++asked;
        const auto told =
            std::find_if(found.begin(), found.end(), [&](const auto& c) { return tells(meant, c); });
        if (told == found.end() && is_said(report, meant)) {
          ++known;
          continue;
        }
        const bool right = told != found.end();
        if (right && !told->sure) ++doubted;
        if (right && told->sure) ++understood;
        if (right && words_of(*told) == meant) ++exactly;
        if (!right || !told->sure || words_of(*told) != meant)
          std::cout << "  line " << talk.line << ": " << meant
                    << (right ? told->sure ? ", told as " + words_of(*told) : ", doubted: " + words_of(*told)
                              : ", not understood")
                    << '\n';
      }
      for (const auto& correction : found) {
        const bool wanted = std::any_of(talk.meant.begin(), talk.meant.end(),
                                        [&](const auto& meant) { return tells(meant, correction); });
        if (wanted) continue;
        if (correction.sure) ++wrong;
        std::cout << "  line " << talk.line << ": " << (correction.sure ? "WRONG " : "wrong doubt ")
                  << words_of(correction) << '\n';
      }
    }
  std::cout << asked << " mishearings, " << understood << " understood (" << exactly << " to the word), "
            << known << " known in two words, " << doubted << " doubted, " << wrong
            << " taken for another food\n";

  ASSERT_GE(asked, 120);
  EXPECT_EQ(wrong, 0);
  EXPECT_GE((understood + known) * 100, asked * 93);
}

// Where no amount is said, what the method does with a food, or the foods beside it, must speak for it.
TEST(MisheardFoods, NeedAReasonToBeFoods) {
  const std::string recipe =
      "# Pie\n\n## Ingredients\n- 2 leeks, sliced\n- thyme leaves, to serve\n- 300 g plain flour\n- 100 g "
      "ghee\n"
      "- 200 g mussels\n- salt\n\n## Method\n1. Rinse the leeks and fry them in the ghee for 10 minutes.\n"
      "2. Sift the flour and rub in the rest of the ghee.\n3. Steam the mussels, stir in the thyme and "
      "season.\n";
  const std::vector<std::pair<std::string, std::string>> cases{
      {"Rinse the leaks well.", "leaks -> leeks"},
      {"Fry the leaks in the gee until soft.", "leaks -> leeks, gee -> ghee"},
      {"Sift the flower into a bowl and rub in the gee.", "flower -> flour, gee -> ghee"},
      {"Steam the muscles with the lid on.", "muscles -> mussels"},
      {"Stir in the time and season with salt.", "time -> thyme"},
      {"You'll need leaks, flower, gee and salt.", "leaks -> leeks, flower -> flour, gee -> ghee"},
      {"Salt, time and gee.", "time -> thyme, gee -> ghee"},
      {"Stir all the time and don't stop. Season it in good time.", ""},
      {"Stir it from time to time, and fry it one more time.", ""},
      {"Steam it, then rub your muscles and take your time.", ""},
      {"That flower over there is a gift.", ""},
      {"The tap leaks, sorry, it leaks all day.", ""},
      {"Gee, that went well.", ""},
      {"Salt it and time it.", ""},
      {"Season with salt, time for a rest.", ""}};
  for (const auto& [talk, expected] : cases) {
    std::string told;
    for (const auto& correction : report_on(recipe, "[0:05] " + talk).corrections)
      told += (told.empty() ? "" : ", ") + words_of(correction);
    EXPECT_EQ(told, expected) << talk;
  }
}

TEST(MisheardFoods, AreNotFoundInOrdinaryTalk) {
  std::string apart;
  std::string whole = "[0:05] ";
  int seconds = 5;
  int sentences = 0;
  const auto text = data("kitchen_talk.txt");
  for (const auto& line : split_lines(text)) {
    if (line.text.starts_with("#")) continue;
    ++sentences;
    apart += "[" + std::to_string(seconds / 60) + ":" + (seconds % 60 < 10 ? "0" : "") +
             std::to_string(seconds % 60) + "] " + std::string(line.text) + "\n";
    seconds += 20;
    // As a recogniser writes it, all in one.
    whole += fold_case(line.text.substr(0, line.text.size() - 1)) + " ";
  }
  EXPECT_GE(sentences, 150);
  for (const auto& kitchen : read_kitchens()) {
    const auto recipe = kitchen.recipe + "\n## Method\n\n1. Beat it, stir it, add all of it and cook it.\n";
    for (const auto& correction : report_on(recipe, apart).corrections)
      ADD_FAILURE() << words_of(correction) << (correction.sure ? "" : " (doubted)");
    for (const auto& correction : report_on(recipe, whole).corrections)
      ADD_FAILURE() << "without punctuation: " << words_of(correction)
                    << (correction.sure ? "" : " (doubted)");
  }
}

struct Case {
  std::string name;
  Recipe recipe;
  std::string bytes;  ///< of the captions
  Transcript captions;
  std::vector<CaptionCorrection> own;
};

CheckReport report_on(const Recipe& recipe, const Transcript& captions) {
  CheckInput input;
  input.recipe = &recipe;
  input.said.push_back({&captions, ""});
  return check(input);
}

// Every case of both sets, with what its captions misheard.
std::vector<Case> read_cases() {
  namespace fs = std::filesystem;
  std::vector<Case> cases;
  for (const auto* set : {"check", "check_held_out"})
    for (const auto& folder : fs::directory_iterator(fs::path(PANSLATE_SOURCE_DIR) / "tests/data" / set)) {
      if (!folder.is_directory()) continue;
      Case one{folder.path().filename().string(), {}, {}, {}, {}};
      for (const auto& file : fs::directory_iterator(folder)) {
        const auto stem = file.path().stem();
        const auto bytes = real_file_system().read(file.path(), kTextFileLimit);
        if (bytes && stem == "recipe") {
          if (auto recipe = read_recipe(*bytes, file.path())) one.recipe = *std::move(recipe);
        } else if (bytes && stem == "captions") {
          one.bytes = *bytes;
          if (auto captions = read_captions(*bytes, file.path())) one.captions = *std::move(captions);
        }
      }
      one.own = report_on(one.recipe, one.captions).corrections;
      cases.push_back(std::move(one));
    }
  std::sort(cases.begin(), cases.end(), [](const Case& a, const Case& b) { return a.name < b.name; });
  return cases;
}

// The talk of one case against the recipe of another: what is heard as one of its foods must have been a
// mishearing in its own case as well.
TEST(MisheardFoods, AreNotFoundInTheTalkOfOtherRecipes) {
  const auto cases = read_cases();
  int pairs = 0;
  int doubts = 0;
  // Some others for each recipe: all pairs take long, and grow with the square of the cases.
  // Fewer where all takes four times as long.
#ifdef PANSLATE_SANITIZED
  const std::vector<std::size_t> others{1, 31};
#else
  const std::vector<std::size_t> others{1, 13, 31};
#endif
  for (std::size_t r = 0; r < cases.size(); ++r)
    for (const auto apart : others) {
      const auto c = (r + apart) % cases.size();
      ++pairs;
      for (const auto& found : report_on(cases[r].recipe, cases[c].captions).corrections) {
        const bool known = std::any_of(cases[c].own.begin(), cases[c].own.end(), [&](const auto& own) {
          return own.when.begin < found.when.end && found.when.begin < own.when.end;
        });
        if (known) continue;
        if (found.sure)
          ADD_FAILURE() << cases[r].name << " in the talk of " << cases[c].name << ": " << words_of(found);
        ++doubts;
      }
    }
  std::cout << pairs << " pairs, " << doubts << " doubts\n";
  EXPECT_GE(pairs, 250);
  EXPECT_LE(doubts, pairs / 50);
}

// Captions mishear; text on the picture is what its writer wrote, and its viewers see the slip.
TEST(MisheardFoods, AreNotReadIntoThePicture) {
  const auto recipe = read_recipe(
      "# Pot\n\n## Ingredients\n- 200 g quinoa\n- 2 leeks\n\n## Method\n1. Cook all.\n", "recipe.md");
  ASSERT_TRUE(recipe);
  const auto text = read_captions("[0:01] 200 g kee no ah, 2 leaks", "picture.txt");
  ASSERT_TRUE(text);
  CheckInput input;
  input.recipe = &*recipe;
  input.on_text.push_back({&*text, ""});
  const auto seen = check(input);
  input.said = std::exchange(input.on_text, {});
  const auto heard = check(input);
  for (std::size_t r = 0; r < seen.requirements.size(); ++r) {
    if (seen.requirements[r].kind != RequirementKind::Ingredient) continue;
    EXPECT_EQ(spelling_of(seen.requirements[r].on_text.verdict), "missing") << seen.requirements[r].text;
    EXPECT_EQ(spelling_of(heard.requirements[r].said.verdict), "match") << heard.requirements[r].text;
  }
}

// The captions put right say the same, with nothing left to put right, and differ from those read in those
// words alone.
TEST(MisheardFoods, PutRightTheFindingsAreTheSame) {
  std::size_t put_right = 0;
  for (const auto& one : read_cases()) {
    std::vector<WordChange> changes;
    for (const auto& correction : one.own)
      if (correction.sure) changes.push_back(correction.change);
    const auto corrected = correct_captions(one.bytes, one.captions, changes);
    EXPECT_TRUE(corrected.left_out.empty()) << one.name;
    if (changes.empty()) {
      EXPECT_EQ(corrected.bytes, one.bytes) << one.name;
    }
    const auto captions = read_captions(corrected.bytes, "captions");
    ASSERT_TRUE(captions) << one.name;
    ASSERT_EQ(captions->cues.size(), one.captions.cues.size()) << one.name;
    for (std::size_t c = 0; c < captions->cues.size(); ++c)
      EXPECT_EQ(captions->cues[c].when, one.captions.cues[c].when) << one.name;
    put_right += changes.size();

    const auto before = report_on(one.recipe, one.captions);
    const auto after = report_on(one.recipe, *captions);
    for (const auto& left : after.corrections) EXPECT_FALSE(left.sure) << one.name << ": " << words_of(left);
    ASSERT_EQ(before.requirements.size(), after.requirements.size());
    for (std::size_t r = 0; r < before.requirements.size(); ++r) {
      const auto& requirement = before.requirements[r];
      // Talk without punctuation is cut by its count of words, so times may fall to another step with fewer
      // of them.
      const bool food = requirement.kind == RequirementKind::Ingredient ||
                        requirement.kind == RequirementKind::MethodAmount;
      if (!food) continue;
      EXPECT_EQ(spelling_of(requirement.said.verdict), spelling_of(after.requirements[r].said.verdict))
          << one.name << ": " << requirement.text;
    }
  }
  std::cout << put_right << " put right\n";
  EXPECT_GE(put_right, 25U);
}

}  // namespace
}  // namespace panslate
