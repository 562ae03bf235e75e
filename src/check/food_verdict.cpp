#include "check/food_verdict.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/kitchen/density.h"

#include "check/amount_reading.h"
#include "check/phrase.h"

namespace panslate {

namespace {

std::string clock_of(MediaTime time) {
  return format_timestamp(time, TimestampStyle::Spoken);
}

class Judging {
 public:
  Judging(const Talk& talk, const std::vector<FoodTarget>& targets, const Recipe& recipe,
          const std::vector<Requirement>& requirements, const LineChoice& lines)
      : talk_(talk), targets_(targets), recipe_(recipe), requirements_(requirements), lines_(lines) {}

  std::vector<FoodFinding> run() {
    std::vector<FoodFinding> findings(requirements_.size());
    std::map<std::size_t, std::vector<std::size_t>> targets_by_requirement;
    for (std::size_t t = 0; t < targets_.size(); ++t)
      targets_by_requirement[targets_[t].requirement].push_back(t);
    for (const auto& [requirement, own] : targets_by_requirement)
      findings[requirement] = judge(requirement, own);
    return findings;
  }

 private:
  struct Evidence {
    std::vector<std::size_t> sightings;       ///< that mean this line for certain
    std::vector<std::size_t> open_sightings;  ///< that may mean it
    std::vector<std::size_t> amounts;
    std::vector<std::size_t> open_amounts;
    bool shared_amount = false;  ///< an amount said for it and another measured food together
  };

  FoodFinding judge(std::size_t index, const std::vector<std::size_t>& own) {
    const auto& requirement = requirements_[index];
    FoodFinding finding;
    const auto evidence = gather(own, requirement);
    if (evidence.sightings.empty() && evidence.open_sightings.empty()) {
      finding.channel.verdict = Verdict::Missing;
      finding.why = missing_words(requirement.name);
      return finding;
    }
    if (const auto absent = unnamed_part(own)) {
      finding.channel.verdict = Verdict::Missing;
      finding.why = missing_words(*absent);
      add_sightings(finding, evidence.sightings);
      return finding;
    }
    judge_amounts(finding, requirement, evidence);
    return finding;
  }

  [[nodiscard]] std::string missing_words(const std::string& name) const {
    return talk_.text.kind() == TextKind::Speech ? name + " is never said"
                                                 : name + " is not written on the picture";
  }

  // "a glass of water" measures it only where the recipe counts glasses.
  [[nodiscard]] bool is_vessel(const SpokenAmount& amount) const {
    constexpr std::array<std::string_view, 6> kVessels{"glass", "mug", "jug", "bowl", "glasses", "mugs"};
    return amount.scan.amount.unit == Unit::Piece && is_any_word(talk_.text, amount.span.end - 1, kVessels);
  }

  // "is that the whole carton?": one of it only where the recipe counts cartons.
  [[nodiscard]] bool is_unnumbered(const SpokenAmount& amount) const {
    return talk_.text.is_word(amount.span.begin, "whole");
  }

  // "push one piece of egg into each", "a green lump of soda": a part of one, unless the recipe counts so.
  [[nodiscard]] bool is_piece_of(const SpokenAmount& amount, const Requirement& requirement) const {
    constexpr std::array<std::string_view, 2> kParts{"piece", "lump"};
    if (amount.scan.amount.unit != Unit::Piece || amount.scan.amount.value != Ratio(1) ||
        !talk_.text.is_word(amount.span.end, "of"))
      return false;
    return std::any_of(kParts.begin(), kParts.end(), [&](const auto part) {
      return talk_.text.is_word(amount.span.end - 1, part) &&
             requirement.text.find(part) == std::string::npos;
    });
  }

  static bool is_written_in(Unit unit, const Requirement& requirement) {
    return std::any_of(requirement.amounts.begin(), requirement.amounts.end(),
                       [&](const Amount& a) { return a.unit == unit; });
  }

  // "Put the veg in": of many foods, none of them named.
  [[nodiscard]] static bool names_a_kind(const FoodSighting& sighting) {
    return sighting.strength == NameStrength::Category && sighting.targets.size() > 1;
  }

  [[nodiscard]] Evidence gather(const std::vector<std::size_t>& own, const Requirement& requirement) const {
    const auto is_own = [&](std::size_t target) {
      return std::find(own.begin(), own.end(), target) != own.end();
    };
    Evidence evidence;
    std::vector<char> certain(talk_.sightings.size(), 0);
    std::vector<char> open(talk_.sightings.size(), 0);
    for (std::size_t s = 0; s < talk_.sightings.size(); ++s) {
      const auto& left = lines_.targets_of[s];
      if (!std::any_of(left.begin(), left.end(), is_own)) continue;
      if (std::all_of(left.begin(), left.end(), is_own)) {
        evidence.sightings.push_back(s);
        certain[s] = 1;
      } else if (!names_a_kind(talk_.sightings[s])) {
        evidence.open_sightings.push_back(s);
        open[s] = 1;
      }
    }
    for (std::size_t a = 0; a < talk_.amounts.size(); ++a) {
      const auto& amount = talk_.amounts[a];
      if (!amount.food || amount.taken_back || amount.suggested || amount.portion) continue;
      if (is_vessel(amount) && !is_written_in(Unit::Piece, requirement)) continue;
      if (is_piece_of(amount, requirement)) continue;
      if (is_unnumbered(amount) && !is_written_in(amount.scan.amount.unit, requirement)) continue;
      if (certain[*amount.food]) {
        evidence.amounts.push_back(a);
        evidence.shared_amount = evidence.shared_amount || amount.shared_with_next;
      } else if (open[*amount.food]) {
        evidence.open_amounts.push_back(a);
      }
      for (const auto other : amount.also_foods)
        if (certain[other]) {
          if (amount.shared_with_next)
            evidence.shared_amount = true;
          else
            evidence.amounts.push_back(a);
        }
    }
    drop_late(evidence.amounts);
    drop_denied_articles(evidence.amounts, requirement);
    return evidence;
  }

  // "Not one of them can wash a cucumber. … Four cucumbers.": what is denied counts nothing beside a number
  // that is as written.
  void drop_denied_articles(std::vector<std::size_t>& amounts, const Requirement& requirement) const {
    constexpr std::array<std::string_view, 2> kArticles{"a", "an"};
    constexpr std::array<std::string_view, 6> kDenied{"not", "never", "nobody", "can't", "cannot", "no"};
    constexpr std::size_t kReach = 14;
    if (requirement.amounts.empty() || requirement.amounts.front().unit != Unit::Piece) return;
    const auto& written = requirement.amounts.front().value;
    const auto is_article = [&](std::size_t a) {
      const auto& amount = talk_.amounts[a];
      return !amount.scan.has_unit && amount.scan.amount.value == Ratio(1) && !amount.scan.is_more &&
             is_any_word(talk_.text, amount.span.begin, kArticles) &&
             holds_phrase(talk_.text, words_before(talk_.text, amount.span.begin, kReach), kDenied);
    };
    const bool is_counted = std::any_of(amounts.begin(), amounts.end(), [&](std::size_t a) {
      return !is_article(a) && talk_.amounts[a].scan.amount.value == written;
    });
    if (is_counted) std::erase_if(amounts, is_article);
  }

  // What follows the farewell is looked at last: only where nothing was said before it.
  void drop_late(std::vector<std::size_t>& amounts) const {
    const auto is_late = [&](std::size_t a) { return talk_.amounts[a].late; };
    if (std::all_of(amounts.begin(), amounts.end(), is_late)) return;
    amounts.erase(std::remove_if(amounts.begin(), amounts.end(), is_late), amounts.end());
  }

  // "salt and pepper" is one line and two foods: both must be named.
  [[nodiscard]] std::optional<std::string> unnamed_part(const std::vector<std::size_t>& own) const {
    if (own.size() < 2) return std::nullopt;
    std::map<std::size_t, bool> named;
    for (const auto target : own) named[targets_[target].part] = named[targets_[target].part];
    for (std::size_t s = 0; s < talk_.sightings.size(); ++s)
      for (const auto target : lines_.targets_of[s])
        if (std::find(own.begin(), own.end(), target) != own.end()) named[targets_[target].part] = true;
    for (const auto target : own)
      if (!named[targets_[target].part]) return targets_[target].name;
    return std::nullopt;
  }

  void add_sightings(FoodFinding& finding, const std::vector<std::size_t>& sightings) const {
    constexpr std::size_t kMost = 8;
    for (const auto s : sightings) {
      if (finding.channel.mentions.size() >= kMost) break;
      finding.channel.mentions.push_back(talk_.text.mention(talk_.sightings[s].span));
    }
  }

  [[nodiscard]] Mention amount_mention(std::size_t a) const {
    const auto& amount = talk_.amounts[a];
    TokenSpan span = amount.span;
    if (amount.food) {
      const auto& food = talk_.sightings[*amount.food].span;
      const std::size_t far = std::max(food.end, span.end) - std::min(food.begin, span.begin);
      if (far <= 24) span = {std::min(food.begin, span.begin), std::max(food.end, span.end)};
    }
    auto mention = talk_.text.mention(span);
    mention.amount = amount.scan.amount;
    mention.alternates = amount.scan.alternates;
    return mention;
  }

  void judge_amounts(FoodFinding& finding, const Requirement& requirement, const Evidence& evidence) {
    std::vector<SaidAmount> said;
    for (const auto a : evidence.amounts) {
      const auto& amount = talk_.amounts[a];
      const bool repeated = amount.repeated || is_told_again(a, evidence.amounts);
      said.push_back({&amount.scan.amount, &amount.scan.alternates, amount.scan.is_share, amount.scan.is_more,
                      amount.scan.is_total, repeated, amount.tie == Tie::Distant, amount.corrects,
                      is_partitive(amount)});
    }
    const auto reading = read_amounts(said, requirement.amounts, recipe_.measures, weighed_as(requirement));
    finding.amounts = evidence.amounts;
    for (const auto i : reading.extra) finding.extra_amounts.push_back(evidence.amounts[i]);
    finding.channel.verdict = reading.verdict;

    const bool decided_by_amount = !evidence.amounts.empty() && reading.verdict != Verdict::NoAmount;
    if (decided_by_amount)
      finding.channel.mentions.push_back(amount_mention(evidence.amounts[reading.deciding]));
    for (std::size_t i = 0; i < evidence.amounts.size(); ++i)
      if (!decided_by_amount || i != reading.deciding)
        finding.channel.mentions.push_back(amount_mention(evidence.amounts[i]));
    std::set<std::size_t> with_amount;
    for (const auto a : evidence.amounts)
      if (talk_.amounts[a].food) with_amount.insert(*talk_.amounts[a].food);
    std::vector<std::size_t> rest;
    for (const auto s : evidence.sightings)
      if (!with_amount.contains(s)) rest.push_back(s);
    add_sightings(finding, rest);
    // Where words may mean another line as well, they are all there is to show.
    if (finding.channel.mentions.empty()) add_sightings(finding, evidence.open_sightings);
    if (decided_by_amount) settle_otherwise(finding, evidence, reading.deciding);
    settle_doubts(finding, requirement, evidence);
    settle_mishearing(finding, requirement, evidence);
    explain(finding, requirement, reading.how);
    warn(finding, requirement, reading);
  }

  // The name under which the density table may have it: "2 cups shredded sharp cheddar" fills the cup
  // shredded. What is done after measuring ("walnuts, chopped") does not change what a cup of it weighs.
  [[nodiscard]] std::string weighed_as(const Requirement& requirement) const {
    if (requirement.kind != RequirementKind::Ingredient || density_of(requirement.name))
      return requirement.name;
    const auto text = fold_case(requirement.text);
    const auto words = split(fold_case(requirement.name), ' ');
    const auto named = words.empty() ? std::string::npos : text.find(words.front());
    if (named == std::string::npos) return requirement.name;
    for (const auto& form : split(fold_case(recipe_.ingredients[requirement.index].preparation), ' ')) {
      if (form.empty() || text.find(form) >= named) continue;
      for (std::size_t first = 0; first < words.size(); ++first) {
        std::string food(form);
        for (auto w = first; w < words.size(); ++w) food += ' ' + std::string(words[w]);
        if (density_of(food)) return food;
      }
    }
    return requirement.name;
  }

  // "50 grams of the butter", "the second onion"
  [[nodiscard]] bool is_partitive(const SpokenAmount& amount) const {
    constexpr std::array<std::string_view, 5> kFurther{"second", "other", "last", "third", "remaining"};
    const auto begin = amount.span.begin;
    if (begin > 0 && talk_.text.is_word(begin - 1, "the") && is_any_word(talk_.text, begin, kFurther))
      return true;
    constexpr std::array<std::string_view, 5> kPartOf{"of the", "of that", "of this", "of our", "of my"};
    return std::any_of(kPartOf.begin(), kPartOf.end(), [&](const auto phrase) {
      return match_phrase(talk_.text, amount.span.end, phrase) > amount.span.end;
    });
  }

  // The same amount and food in a line that is nearly the same words: a second try at the line.
  [[nodiscard]] bool is_told_again(std::size_t a, const std::vector<std::size_t>& among) const {
    const auto& amount = talk_.amounts[a];
    if (amount.scan.is_more) return false;
    const auto words_of = [&](std::size_t k) {
      std::multiset<std::string> words;
      const auto sentence = sentence_around(talk_.text, talk_.amounts[k].span.begin, 8);
      for (std::size_t i = sentence.begin; i < sentence.end; ++i)
        if (talk_.text[i].kind != TokenKind::Mark) words.insert(talk_.text[i].text);
      return words;
    };
    const auto here = words_of(a);
    constexpr std::size_t kTries = 12;  // a second try follows soon
    const auto own = std::lower_bound(among.begin(), among.end(), a);
    for (auto it = own; it != among.begin() && static_cast<std::size_t>(own - it) < kTries;) {
      const auto k = *--it;
      if (k >= a || !(talk_.amounts[k].scan.amount == amount.scan.amount)) continue;
      if (amount.span.begin - talk_.amounts[k].span.end < 8) continue;  // "50 grams now and 50 grams later"
      const auto there = words_of(k);
      std::vector<std::string> shared;
      std::set_intersection(here.begin(), here.end(), there.begin(), there.end(), std::back_inserter(shared));
      if (here.size() >= 4 && shared.size() * 10 >= std::max(here.size(), there.size()) * 7) return true;
    }
    return false;
  }

  // "Officially it's two eggs, but I never bother with the second": told, and perhaps not done.
  void settle_otherwise(FoodFinding& finding, const Evidence& evidence, std::size_t deciding) const {
    auto& verdict = finding.channel.verdict;
    const auto& told = talk_.amounts[evidence.amounts[deciding]];
    const bool plainly = std::any_of(evidence.amounts.begin(), evidence.amounts.end(), [&](std::size_t a) {
      const auto& other = talk_.amounts[a];
      return !other.qualified && other.scan.amount == told.scan.amount;
    });
    if (verdict != Verdict::Match || !told.qualified || plainly) return;
    verdict = Verdict::Unsure;
    finding.why = "please check: it is told, but she may do otherwise";
  }

  // Evidence that may belong elsewhere turns "not said" into "please check", never into "said".
  void settle_doubts(FoodFinding& finding, const Requirement& requirement, const Evidence& evidence) const {
    auto& verdict = finding.channel.verdict;
    const bool states_number = std::any_of(requirement.amounts.begin(), requirement.amounts.end(),
                                           [](const Amount& a) { return a.value.has_value(); });
    if (verdict == Verdict::NoAmount && evidence.shared_amount) {
      verdict = Verdict::Unsure;
      finding.why = "one amount is said for " + requirement.name + " and another food together";
      return;
    }
    const bool decided = verdict == Verdict::Match || verdict == Verdict::Differs;
    if (decided && evidence.shared_amount && states_number && evidence.amounts.size() == 1) {
      verdict = Verdict::Unsure;
      finding.why = "one amount is said for " + requirement.name + " and another food together";
      return;
    }
    if (verdict == Verdict::NoAmount && !evidence.open_amounts.empty()) {
      verdict = Verdict::Unsure;
      finding.why = "an amount is said that may be for " + requirement.name + " or for another line";
      finding.channel.mentions.insert(finding.channel.mentions.begin(),
                                      amount_mention(evidence.open_amounts.front()));
    }
  }

  // What was read through a mishearing, or by a part of its name, that is not sure enough settles nothing by
  // itself.
  void settle_mishearing(FoodFinding& finding, const Requirement& requirement,
                         const Evidence& evidence) const {
    const auto is_doubtful = [&](std::size_t s) { return talk_.sightings[s].doubtful; };
    const bool named =
        !std::all_of(evidence.sightings.begin(), evidence.sightings.end(), is_doubtful) ||
        !std::all_of(evidence.open_sightings.begin(), evidence.open_sightings.end(), is_doubtful);
    const bool amount_doubtful = std::any_of(
        evidence.amounts.begin(), evidence.amounts.end(),
        [&](std::size_t a) { return talk_.amounts[a].food && is_doubtful(*talk_.amounts[a].food); });
    auto& verdict = finding.channel.verdict;
    const bool by_amount = verdict == Verdict::Match || verdict == Verdict::Differs;
    if (verdict == Verdict::Unsure || (named && !(by_amount && amount_doubtful))) return;
    verdict = Verdict::Unsure;
    finding.why = "please check: " +
                  (finding.channel.mentions.empty() ? "something"
                                                    : "\"" + finding.channel.mentions.front().text + "\"") +
                  " may mean " + requirement.name;
  }

  void explain(FoodFinding& finding, const Requirement& requirement, const std::string& how) const {
    if (!finding.why.empty()) return;
    const auto& mentions = finding.channel.mentions;
    const std::string at = mentions.empty() ? std::string{} : " at " + clock_of(mentions.front().when.begin);
    const std::string more = how.empty() ? std::string{} : " (" + how + ")";
    const bool speech = talk_.text.kind() == TextKind::Speech;
    const std::string verb = speech ? "said" : "on the picture";
    switch (finding.channel.verdict) {
      case Verdict::Match:
        finding.why = verb + at + more;
        break;
      case Verdict::Differs: {
        const auto& amount = mentions.front().amount;
        finding.why =
            (amount ? to_text(*amount) : mentions.front().text) + " " +
            (speech ? "is said" : "is on the picture") + at +
            (requirement.amounts.empty() ? "" : ", the recipe has " + to_text(requirement.amounts.front())) +
            more;
        break;
      }
      case Verdict::NoAmount:
        finding.why = requirement.name + " is named" + at + ", without an amount";
        break;
      case Verdict::Unsure:
        finding.why = "please check what is " + verb + at + more;
        break;
      case Verdict::Missing:
      case Verdict::NotChecked:
        break;
    }
  }

  void warn(FoodFinding& finding, const Requirement& requirement, const Reading& reading) const {
    const auto& mentions = finding.channel.mentions;
    if (mentions.empty() || finding.channel.verdict != Verdict::Match) return;
    const auto add = [&](std::string code, std::string message) {
      finding.warnings.push_back({std::move(code), WarningLevel::Note, std::move(message), requirement.line,
                                  mentions.front().when.begin});
    };
    if (reading.loose_pair)
      add("pair-loose", requirement.name + ": near enough, though not close: " + reading.how);
    if (reading.size_differs)
      add("size-differs", requirement.name + ": heaped, level or scant is not as written (\"" +
                              mentions.front().text + "\")");
  }

  const Talk& talk_;
  const std::vector<FoodTarget>& targets_;
  const Recipe& recipe_;
  const std::vector<Requirement>& requirements_;
  const LineChoice& lines_;
};

}  // namespace

std::vector<FoodFinding> judge_foods(const Talk& talk, const std::vector<FoodTarget>& targets,
                                     const Recipe& recipe, const std::vector<Requirement>& requirements,
                                     const LineChoice& lines) {
  return Judging(talk, targets, recipe, requirements, lines).run();
}

}  // namespace panslate
