#include <algorithm>
#include <array>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/kitchen/food.h"
#include "panslate/speech/pronunciation.h"

#include "check/action_words.h"
#include "check/amount_reach.h"
#include "check/filler_words.h"
#include "check/phrase.h"
#include "check/span_search.h"
#include "check/talk.h"

/// Amounts of other pots than this one: how the shop sells it, what was done last year, what a sister does,
/// how much of it a diet allows. They are heard, and belong to no line.
namespace panslate {

namespace {

using Words = std::string_view;

// How food is bought and what is left of it. Common practice, no source.
constexpr std::array<Words, 26> kBought{
    "asked the",  "i asked for",   "come in",       "comes in",      "came in",     "sold in",
    "sell them",  "sells them",    "sell it",       "bought",        "buy",         "the tin is",
    "the can is", "the bag is",    "the box is",    "the packet is", "the pack is", "the tub is",
    "the jar is", "the carton is", "the bottle is", "buying",        "tin holds",   "bag holds",
    "can holds",  "they come"};
constexpr std::array<Words, 9> kLeft{"off them since", "went back",           "goes back",
                                     "left over",      "for next time",       "is plenty",
                                     "will be plenty", "is more than enough", "to spare"};
// Another time, another cook. Common practice, no source.
constexpr std::array<Words, 24> kOtherTime{
    "i once",       "once did",    "that one time",  "last year",   "last winter", "last summer",
    "last spring",  "last autumn", "last christmas", "last time",   "last week",   "last month",
    "at christmas", "when i was",  "used to",        "when we did", "back then",   "back in the day",
    "years ago",    "once i put",  "one time i",     "in camp",     "in the army", "in the navy"};
constexpr std::array<Words, 38> kOtherCook{
    "lola",     "lolo",    "nonna",   "oma",      "opa",         "abuela",  "nani",   "dadi",
    "amma",     "tita",    "grandad", "granddad", "grandpa",     "nanna",   "yiayia", "babcia",
    "sister",   "brother", "mother",  "mum",      "mom",         "gran",    "granny", "nan",
    "nana",     "aunt",    "auntie",  "dad",      "father",      "husband", "wife",   "neighbour",
    "neighbor", "cousin",  "friend",  "uncle",    "grandmother", "grandma"};
constexpr std::array<Words, 24> kDoes{"eats",  "ate",     "drinks", "has",    "goes",    "likes",
                                      "takes", "insists", "has a",  "made a", "makes a", "makes",
                                      "cooks", "uses",    "puts",   "does",   "adds",    "used",
                                      "put",   "doubles", "had",    "did",    "swears",  "gave it"};
// What a diet counts.
constexpr std::array<Words, 12> kDiet{"a sitting",   "a serve",  "a serving", "per serve",
                                      "per serving", "carbs",    "calories",  "of protein",
                                      "of fibre",    "of fiber", "fodmap",    "has got about"};
// Dishes; one that the recipe does not speak of is another pot. Common practice, no source.
constexpr std::array<Words, 24> kDishes{"tart",    "pie",       "cake",  "pudding",  "soup",   "stew",
                                        "curry",   "casserole", "salad", "bread",    "loaf",   "crumble",
                                        "scones",  "trifle",    "jam",   "chutney",  "pickle", "biscuits",
                                        "cookies", "pancakes",  "roast", "omelette", "quiche", "dal"};
// From here on she speaks of this pot again.
constexpr std::array<Words, 20> kHere{"this one", "this one's", "then",    "i ve got", "i've got",
                                      "i have",   "but",        "today",   "here",     "now",
                                      "we re",    "we're",      "we need", "i use",    "i'm using",
                                      "i need",   "you need",   "we use",  "so i",     "for this"};

constexpr std::array<Words, 17> kMoney{"dollars",   "dollar", "bucks", "pounds", "quid",  "euros",
                                       "euro",      "cents",  "pence", "rupees", "rupee", "naira",
                                       "shillings", "rand",   "pesos", "yen",    "francs"};

class Asides {
 public:
  Asides(Talk& talk, const Recipe& recipe) : talk_(talk), text_(talk.text) {
    const auto add = [&](const std::string& words) {
      for (const auto& token : tokenize(words))
        if (token.kind == TokenKind::Word) written_.insert(name_stem(token.text));
    };
    add(recipe.title);
    for (const auto& ingredient : recipe.ingredients) add(ingredient.text + " " + ingredient.group);
    for (const auto& step : recipe.steps) add(step.text + " " + step.part);
    for (const auto dish : kDishes)
      if (!written_.contains(name_stem(dish))) other_dishes_.push_back(dish);
  }

  void run() {
    const SpokenAmount* hers = nullptr;
    for (auto& amount : talk_.amounts) {
      const bool other_pot = is_of_another_pot(amount) || (hers != nullptr && goes_on(*hers, amount));
      hers = other_pot ? &amount : nullptr;
      amount.beside = other_pot || is_a_wait(amount) || is_of_a_story(amount) || is_left_open(amount) ||
                      is_likened_first(amount) ||
                      (is_food_amount(amount.scan) &&
                       (is_an_age(amount) || is_of_the_shop(amount) || is_a_price(amount) ||
                        is_of_a_diet(amount) || is_a_vessel(amount) || is_drunk(amount)));
    }
  }

 private:
  // "My mum puts five shallots, a teaspoon of salt, two teaspoons of turmeric": the list goes on being hers.
  [[nodiscard]] bool goes_on(const SpokenAmount& hers, const SpokenAmount& amount) const {
    constexpr std::size_t kReach = 7;
    constexpr std::array<Words, 15> kMine{"this", "this one's", "i",    "we", "me",   "my",  "mine", "here",
                                          "now",  "but",        "then", "so", "i've", "i'm", "today"};
    bool listed = false;
    if (amount.span.begin - hers.span.end > kReach) return false;
    for (auto at = hers.span.end; at < amount.span.begin; ++at) {
      if (text_.sentence(at) != text_.sentence(amount.span.begin) || is_any_word(text_, at, kMine))
        return false;
      listed = listed || text_.is_word(at, ",");
    }
    return listed;
  }

  // Where the nearest of some phrases begins before an amount, in the same sentence; none where the talk has
  // come back to this pot since.
  template <class Phrases>
  [[nodiscard]] bool stands_before(const SpokenAmount& amount, const Phrases& phrases,
                                   std::size_t reach) const {
    // "I burned myself like that last time so half a teaspoon"
    const std::size_t first =
        amount.span.begin > 0 && text_.is_word(amount.span.begin - 1, "so") ? reach + 1 : 1;
    for (std::size_t back = first; back <= reach && back <= amount.span.begin; ++back) {
      const auto at = amount.span.begin - back;
      if (text_.sentence(at) != text_.sentence(amount.span.begin)) return false;
      if (holds_phrase(text_, {at, at + 1}, phrases) && !is_how_it_is_measured(at) && !is_over(at))
        return true;
      if (holds_phrase(text_, {at, at + 1}, kHere)) return false;
    }
    return false;
  }

  // "this is the bottle I used to measure it"
  [[nodiscard]] bool is_how_it_is_measured(std::size_t at) const {
    return text_.is_word(at, "used") && text_.is_word(at + 1, "to") &&
           (text_.is_word(at + 2, "measure") || text_.is_word(at + 2, "weigh")) &&
           text_.is_word(at + 3, "it");
  }

  // "you'll forget and I did forget the last time spuds six hundred grams": the food begins another matter.
  [[nodiscard]] bool is_over(std::size_t at) const {
    if (at < 2 || !text_.is_word(at - 1, "the") || !text_.is_word(at, "last") ||
        !text_.is_word(at + 1, "time") || text_.sentence(at - 2) != text_.sentence(at))
      return false;
    const auto next = first_from(talk_.sightings, at + 2);
    return next != talk_.sightings.end() && next->span.begin == at + 2;
  }

  template <class Phrases>
  [[nodiscard]] bool stands_after(const SpokenAmount& amount, const Phrases& phrases,
                                  std::size_t reach) const {
    std::size_t end = amount.span.end;
    while (end < text_.size() && end - amount.span.end < reach &&
           text_.sentence(end) == text_.sentence(amount.span.begin))
      ++end;
    return holds_phrase(text_, {amount.span.end, end}, phrases);
  }

  // "mine's called bruce he's nine"
  [[nodiscard]] bool is_an_age(const SpokenAmount& amount) const {
    constexpr std::array<Words, 5> kIs{"he's", "she's", "aged", "turned", "turning"};
    return !amount.scan.has_unit && !text_.is_word(amount.span.end, "of") && stands_before(amount, kIs, 1);
  }

  [[nodiscard]] bool is_of_the_shop(const SpokenAmount& amount) const {
    constexpr std::size_t kNear = 4;
    // "three eggs a week", "ten grams of salt for every kilo", "save 200 g of flour for the next cake"
    constexpr std::array<Words, 5> kRate{"a week", "a day", "for every", "a month", "on its own"};
    constexpr std::array<Words, 4> kKeep{"save", "keep", "keep back", "saving"};
    constexpr std::array<Words, 6> kFor{"for the next", "for tomorrow", "tomorrow's",
                                        "for later",    "back for",     "of it back"};
    if (stands_after(amount, kRate, 4) || (stands_before(amount, kKeep, 2) && stands_after(amount, kFor, 7)))
      return true;
    // "one teaspoon is already too much for me"
    constexpr std::array<Words, 4> kTooMuch{"is too much", "is already too much", "is far too much",
                                            "would be too much"};
    if (stands_after(amount, kTooMuch, 2)) return true;
    // "it was a kilo and a bit whole, but once it's peeled you're looking at six hundred grams"
    constexpr std::array<Words, 8> kWas{"was",     "were",  "weighed",   "came in at",
                                        "started", "began", "start out", "starts out"};
    constexpr std::array<Words, 14> kBefore{"whole",
                                            "unpeeled",
                                            "before",
                                            "to start with",
                                            "with the skin",
                                            "with the bone",
                                            "raw",
                                            "untrimmed",
                                            "in the shell",
                                            "when i",
                                            "with the shells",
                                            "with the stones",
                                            "out of the shop",
                                            "from the market"};
    if (stands_before(amount, kWas, kNear) && stands_after(amount, kBefore, kNear)) return true;
    // "three quarters of a block, if you buy the two hundred gram ones"
    constexpr std::array<Words, 5> kIf{"if you buy", "if you get", "if you've only", "if you can only",
                                       "if yours"};
    if (stands_before(amount, kIf, kNear)) return true;
    // "I bought coriander, a small bunch": what goes in.
    const auto named = first_from(talk_.sightings, amount.span.begin - std::min(kNear, amount.span.begin));
    constexpr std::array<Words, 6> kNotIn{"threw", "left", "broke", "it's for", "they're for", "i mean"};
    const bool shown = !stands_after(amount, kNotIn, kNear) && named != talk_.sightings.end() &&
                       named->span.end <= amount.span.begin && text_.is_word(named->span.end, ",") &&
                       named->span.end + 1 == amount.span.begin;
    return (!shown && stands_before(amount, kBought, kNear)) || stands_after(amount, kLeft, kNear);
  }

  [[nodiscard]] bool is_of_another_pot(const SpokenAmount& amount) const {
    constexpr std::size_t kReach = 10;
    if (stands_before(amount, kOtherTime, kReach) || is_for_another_dish(amount) || is_in_named_pot(amount))
      return true;
    for (std::size_t back = 1; back <= kReach && back <= amount.span.begin; ++back) {
      const auto at = amount.span.begin - back;
      if (text_.sentence(at) != text_.sentence(amount.span.begin)) return false;
      if (holds_phrase(text_, {at, at + 1}, kHere) || is_told_after_hers(amount, at)) return false;
      if (!holds_phrase(text_, {at, at + 1}, kOtherCook)) continue;
      // "my brother-in-law goes a tablespoon"
      const std::size_t kVerbReach = text_.is_word(at + 1, "-") || text_.is_word(at + 1, "in") ? 7 : 4;
      if (holds_phrase(text_, {at, std::min(amount.span.begin, at + kVerbReach)}, kDoes)) return true;
    }
    return false;
  }

  // "My wife would put six, God rest her. Mustard seeds one teaspoon": the six are hers, and no more than
  // that unless an "and" goes on.
  [[nodiscard]] bool is_told_after_hers(const SpokenAmount& amount, std::size_t from) const {
    const auto hers = first_from(talk_.amounts, from);
    if (hers == talk_.amounts.end() || hers->span.begin < from || hers->span.end > amount.span.begin)
      return false;
    // … where captions have no stops; with commas the list goes on being hers.
    for (auto at = hers->span.end; at < amount.span.begin; ++at)
      if (text_.is_word(at, "and") || text_[at].kind == TokenKind::Mark) return false;
    const auto named = first_from(talk_.sightings, hers->span.end);
    constexpr std::size_t kApart = 2;
    return named != talk_.sightings.end() && named->span.begin > hers->span.end + kApart &&
           named->span.end == amount.span.begin;
  }

  // "the lodeh take four hundred ml", "she is making sorpotel on the back flame, that one is having a
  // teaspoon": a name that neither the recipe nor the kitchen knows, and what it takes.
  [[nodiscard]] bool is_in_named_pot(const SpokenAmount& amount) const {
    constexpr std::size_t kReach = 16;
    constexpr std::array<Words, 13> kTakes{"take",  "takes",           "took",       "gets", "get",
                                           "need",  "needs",           "wants",      "has",  "have",
                                           "i put", "is on the other", "on the back"};
    constexpr std::array<Words, 3> kMaking{"making", "makes", "cooking"};
    for (std::size_t back = 1; back <= kReach && back <= amount.span.begin; ++back) {
      const auto at = amount.span.begin - back;
      if (text_.sentence(at) != text_.sentence(amount.span.begin)) return false;
      if (text_.is_word(at, "but") || text_.is_word(at, "then") || text_.is_word(at, "now")) return false;
      if (at == 0 || text_[at].kind != TokenKind::Word || !is_unknown_name(at)) continue;
      constexpr std::array<Words, 6> kArticles{"the", "my", "a", "her", "his", "our"};
      const bool subject = is_any_word(text_, at - 1, kArticles) || is_any_word(text_, at - 1, kMaking);
      if (subject && std::any_of(kTakes.begin(), kTakes.end(), [&](const auto phrase) {
            return match_phrase(text_, at + 1, phrase) > at + 1;
          }))
        return true;
    }
    return false;
  }

  [[nodiscard]] bool is_unknown_name(std::size_t at) const {
    const auto& word = text_[at].text;
    constexpr std::size_t kShortest = 4;
    if (word.size() < kShortest || is_english_word(word) || is_food_word(word) ||
        written_.contains(name_stem(word)))
      return false;
    const auto known = first_from(talk_.sightings, at);
    return known == talk_.sightings.end() || known->span.begin > at;
  }

  // "I spent fifteen minutes on the phone", "the bus was an hour late": of her day.
  [[nodiscard]] bool is_of_a_story(const SpokenAmount& amount) const {
    constexpr std::array<Words, 13> kBefore{"spent",    "queued",  "walked",     "drove",   "waited",
                                            "took me",  "took us", "i walk",     "i drive", "i live",
                                            "takes me", "the bus", "had to wait"};
    constexpr std::array<Words, 4> kOfMine{"i was", "we were", "was only", "i had"};
    constexpr std::array<Words, 8> kAfter{"on the phone", "on the bus",   "on hold",    "i was",
                                          "we were",      "in the queue", "in traffic", "down the road"};
    // "it is 15 minutes he has been standing there"
    constexpr std::array<Words, 6> kBeen{"he has been", "she has been", "i have been",
                                         "he's been",   "she's been",   "they've been"};
    // "took sixteen minutes to get the door shut"
    if (stands_after(amount, kBeen, 1) ||
        (stands_before(amount, std::array<Words, 1>{"took"}, 1) && text_.is_word(amount.span.end, "to") &&
         amount.span.end + 1 < text_.size() && !is_action_word(text_[amount.span.end + 1].text)))
      return true;
    // "an hour late", "a ten minute walk": at once, or it is the pan that is old.
    constexpr std::array<Words, 6> kAtOnce{"late", "early", "walk", "drive", "old", "ago"};
    // "fifteen minutes and the kids are home"
    constexpr std::array<Words, 8> kComing{"are home",   "is home",       "get home", "gets home",
                                           "comes home", "guests arrive", "be home",  "are back"};
    constexpr std::size_t kNear = 6;
    constexpr std::size_t kNearer = 4;
    if (dimension_of(amount.scan.amount.unit) != Dimension::Time) return false;
    // "I make 1900 a month", "six bucks an hour"
    if (is_a_rate(amount)) return true;
    // "don't be opening it every five minutes like somebody looking for news"
    // "sorry one minute": to somebody at the door; after another time it puts that right.
    constexpr std::array<Words, 5> kBearWithMe{"sorry", "hang on", "hold on", "excuse me", "with me"};
    if (amount.scan.amount.value == Ratio(1) && stands_before(amount, kBearWithMe, 2) &&
        !follows_a_time(amount))
      return true;
    // "if yours are small then twenty minutes again is too long"
    constexpr std::array<Words, 3> kTooMuch{"is too long", "is too much", "would be too long"};
    if (stands_after(amount, kTooMuch, 2)) return true;
    if (is_of_other_work(amount) || is_asked_of_else(amount)) return true;
    // "twenty minutes a pound", "ten minutes isn't enough"
    constexpr std::array<Words, 8> kRate{"a pound",      "per pound",     "a kilo",   "per kilo",
                                         "isn't enough", "is not enough", "won't do", "isnt enough"};
    if (stands_after(amount, kRate, 1)) return true;
    // "Baste it every fifteen minutes."
    constexpr std::array<Words, 2> kBeforeEnd{"before the end", "before it's done"};
    if ((amount.span.begin > 0 && text_.is_word(amount.span.begin - 1, "every") &&
         !written_.contains(name_stem("every"))) ||
        stands_after(amount, kBeforeEnd, 1))
      return true;
    constexpr std::array<Words, 6> kNever{"don't", "dont", "never", "do not", "stop", "no need to"};
    if (amount.span.begin > 0 && text_.is_word(amount.span.begin - 1, "every") &&
        stands_before(amount, kNever, kNear))
      return true;
    return stands_before(amount, kBefore, kNear) || stands_before(amount, kOfMine, 2) ||
           stands_after(amount, kAfter, kNear) ||
           (text_.is_word(amount.span.end, "and") && stands_after(amount, kComing, kNearer)) ||
           stands_after(amount, kAtOnce, 1);
  }

  [[nodiscard]] bool is_a_rate(const SpokenAmount& amount) const {
    constexpr std::array<Words, 3> kA{"a", "an", "per"};
    const auto begin = amount.span.begin;
    return begin > 0 && is_any_word(text_, begin, kA) &&
           (text_[begin - 1].kind == TokenKind::Number || is_any_word(text_, begin - 1, kMoney));
  }

  // "Fifteen minutes to peel potatoes", "In five minutes my programme is on", "five more if they're old".
  [[nodiscard]] bool is_of_other_work(const SpokenAmount& amount) const {
    const auto end = amount.span.end;
    constexpr std::array<Words, 10> kWork{"peel", "wash", "clean", "chop", "eat",
                                          "get",  "find", "tidy",  "shop", "walk"};
    if (text_.is_word(end, "to") && end + 1 < text_.size() &&
        !written_.contains(name_stem(text_[end + 1].text)) && is_any_word(text_, end + 1, kWork))
      return true;
    constexpr std::array<Words, 9> kElse{"my", "the", "i", "i'll", "we", "turn", "check", "he", "she"};
    const auto begin = amount.span.begin;
    const bool opens = begin > 0 && text_.is_word(begin - 1, "in") &&
                       (begin == 1 || text_.sentence(begin - 2) != text_.sentence(begin));
    if (opens && is_any_word(text_, end, kElse)) return true;
    return amount.scan.is_more && text_.is_word(end, "if");
  }

  // "How long have we got till the bus? Fifteen minutes."
  [[nodiscard]] bool is_asked_of_else(const SpokenAmount& amount) const {
    constexpr std::array<Words, 15> kPlain{"take", "takes", "leave", "cook", "need", "want", "go", "goes",
                                           "wait", "keep",  "long",  "say",  "said", "give", "was"};
    constexpr std::size_t kQuestion = 14;
    auto first = amount.span.begin;
    while (first > 0 && text_[first - 1].kind == TokenKind::Mark &&
           text_.sentence(first - 1) == text_.sentence(first))
      --first;
    if (first == 0 || text_.sentence(first - 1) == text_.sentence(amount.span.begin)) return false;
    const auto question = sentence_around(text_, first - 1, kQuestion);
    if (match_phrase(text_, question.begin, "how long") == question.begin) return false;
    if (any_overlaps(talk_.sightings, question)) return false;
    bool of_else = false;
    for (auto at = question.begin + 2; at < question.end; ++at) {
      if (text_[at].kind != TokenKind::Word || is_filler(text_[at].text)) continue;
      if (written_.contains(name_stem(text_[at].text)) || is_action_word(text_[at].text)) return false;
      const auto is = [&](const auto word) { return text_.is_word(at, word); };
      of_else = of_else || (std::none_of(kPlain.begin(), kPlain.end(), is) &&
                            std::none_of(kOtherCook.begin(), kOtherCook.end(), is));
    }
    return of_else;
  }

  // "fifteen mils of cornflour in a cup, with a bit of water": where it goes, not how much.
  [[nodiscard]] bool is_a_vessel(const SpokenAmount& amount) const {
    const auto begin = amount.span.begin;
    const auto unit = amount.scan.amount.unit;
    const bool holds = unit == Unit::Cup || unit == Unit::Jar || unit == Unit::Can || unit == Unit::Packet;
    return holds && begin > 0 && (text_.is_word(begin, "a") || text_.is_word(begin, "the")) &&
           (text_.is_word(begin - 1, "in") || text_.is_word(begin - 1, "into")) &&
           !text_.is_word(amount.span.end, "of");
  }

  [[nodiscard]] bool follows_a_time(const SpokenAmount& amount) const {
    constexpr std::size_t kReach = 15;
    return std::any_of(talk_.amounts.begin(), talk_.amounts.end(), [&](const SpokenAmount& other) {
      return other.span.end <= amount.span.begin && amount.span.begin - other.span.end <= kReach &&
             dimension_of(other.scan.amount.unit) == Dimension::Time;
    });
  }

  // "six dollars a head"
  [[nodiscard]] bool is_a_price(const SpokenAmount& amount) const {
    // "two pounds, a head of garlic" is none.
    return amount.span.begin > 0 && text_.is_word(amount.span.begin, "a") &&
           !text_.is_word(amount.span.end, "of") && is_any_word(text_, amount.span.begin - 1, kMoney);
  }

  // "taste it, and you could add another tablespoon": it may be, and so it is none of what goes in.
  [[nodiscard]] bool is_left_open(const SpokenAmount& amount) const {
    constexpr std::array<Words, 6> kMay{"could add", "might add",  "may add",
                                        "could put", "might need", "can always add"};
    // "now you can add another three tablespoons" goes in.
    constexpr std::array<Words, 4> kDepends{"if", "taste", "like", "fancy"};
    constexpr std::size_t kSentence = 18;
    const auto begin = amount.span.begin;
    const bool more = amount.scan.is_more || text_.is_word(begin, "another") ||
                      (begin > 0 && text_.is_word(begin - 1, "another"));
    return more && stands_before(amount, kMay, 4) &&
           holds_phrase(text_, {sentence_around(text_, begin, kSentence).begin, begin}, kDepends);
  }

  // "toor dal, just half of that, fifty grams": the numbers follow.
  [[nodiscard]] bool is_likened_first(const SpokenAmount& amount) const {
    const bool that = text_.is_word(amount.span.end, "that") ||
                      (text_.is_word(amount.span.end, "of") && text_.is_word(amount.span.end + 1, "that"));
    const auto after = amount.span.end + (text_.is_word(amount.span.end, "of") ? 2 : 1);
    const auto next = first_from(talk_.amounts, amount.span.end);
    return that && amount.scan.is_share && text_.is_word(after, ",") && next != talk_.amounts.end() &&
           next->span.begin == after + 1;
  }

  // "and a cup of tea in your hand", "long enough to drink a glass of tea"
  [[nodiscard]] bool is_drunk(const SpokenAmount& amount) const {
    constexpr std::array<Words, 7> kDrinks{"tea", "coffee", "cocoa", "wine", "beer", "water", "juice"};
    constexpr std::array<Words, 12> kDrinking{"drink",    "drinking", "drank",      "sip",
                                              "sipping",  "enjoy",    "serve with", "have with",
                                              "yourself", "sit down", "eat",        "with"};
    constexpr std::array<Words, 7> kSurely{"drink",   "drinking", "drank", "sip",
                                           "sipping", "yourself", "myself"};
    constexpr std::array<Words, 7> kInHand{"in your hand", "in my hand", "in hand", "while you wait",
                                           "for the cook", "for myself", "for me"};
    constexpr std::size_t kNear = 4;
    const auto end = amount.span.end;
    if (amount.scan.amount.unit != Unit::Cup && amount.scan.amount.unit != Unit::Piece) return false;
    if (!text_.is_word(end, "of")) return false;
    auto named = end + 1;  // "a glass of red wine"
    while (named < text_.size() && is_descriptor(text_[named].text)) ++named;
    const bool drink = is_any_word(text_, named, kDrinks);
    // What the recipe speaks of is not for the cook: "soak the fruit with a cup of tea".
    if (!drink) return false;
    if (written_.contains(name_stem(text_[named].text)))
      return stands_before(amount, kSurely, kNear) || stands_after(amount, kInHand, 2 * kNear);
    // "mix it with a cup of water" puts it in.
    const bool at_table = !text_.is_word(named, "water") && !text_.is_word(named, "juice") &&
                          !text_.is_word(named, "wine") && !text_.is_word(named, "beer");
    const std::span<const Words> words(kDrinking.data(), at_table ? kDrinking.size() : kDrinking.size() - 1);
    return stands_before(amount, words, kNear) || stands_after(amount, kInHand, 2 * kNear);
  }

  // "one minute, let me see her diary"
  [[nodiscard]] bool is_a_wait(const SpokenAmount& amount) const {
    constexpr std::array<Words, 3> kWaiting{"let me", "hold on", "hang on"};
    if (dimension_of(amount.scan.amount.unit) != Dimension::Time || amount.scan.amount.value != Ratio(1))
      return false;
    return std::any_of(kWaiting.begin(), kWaiting.end(), [&](const auto phrase) {
      const auto at = text_.is_word(amount.span.end, ",") ? amount.span.end + 1 : amount.span.end;
      return match_phrase(text_, at, phrase) > at;
    });
  }

  // "For the apple tart you'd only six ounces of butter."
  [[nodiscard]] bool is_for_another_dish(const SpokenAmount& amount) const {
    constexpr std::array<Words, 6> kFor{"for the", "for my", "for her", "for a", "for his", "in my"};
    constexpr std::size_t kReach = 9;
    constexpr std::size_t kDishReach = 5;
    for (std::size_t back = 3; back <= kReach && back <= amount.span.begin; ++back) {
      const auto at = amount.span.begin - back;
      if (text_.sentence(at) != text_.sentence(amount.span.begin)) return false;
      if (holds_phrase(text_, {at, at + 1}, kFor))
        return holds_phrase(text_, {at + 2, std::min(amount.span.begin, at + kDishReach)}, other_dishes_);
    }
    return false;
  }

  [[nodiscard]] bool is_of_a_diet(const SpokenAmount& amount) const {
    constexpr std::size_t kBefore = 2;
    constexpr std::size_t kAfter = 6;
    if (stands_after(amount, kDiet, kAfter)) return true;
    // "tahini's fine up to thirty grams"
    constexpr std::array<Words, 4> kAllowed{"fine", "safe", "allowed", "okay"};
    return text_.is_word(amount.span.begin, "up") && stands_before(amount, kAllowed, kBefore);
  }

  Talk& talk_;
  const SpokenText& text_;
  std::set<std::string> written_;  // stems of the words of the recipe
  std::vector<Words> other_dishes_;
};

}  // namespace

void find_asides(Talk& talk, const Recipe& recipe) {
  Asides(talk, recipe).run();
}

}  // namespace panslate
