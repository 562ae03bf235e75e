#include "check/filler_words.h"

#include <string>
#include <unordered_set>

namespace panslate {

bool is_filler(const std::string& word) {
  // Function words and the small talk of cooking to a camera. Common practice, no source.
  static const std::unordered_set<std::string> kFillers{
      "a",       "about",      "actually",    "after",    "again",     "all",         "also",        "am",
      "an",      "and",        "any",         "are",      "as",        "at",          "back",        "be",
      "because", "been",       "before",      "being",    "bit",       "but",         "by",          "can",
      "come",    "could",      "did",         "do",       "does",      "doing",       "don",         "done",
      "down",    "each",       "enough",      "even",     "every",     "few",         "first",       "for",
      "from",    "get",        "getting",     "give",     "go",        "goes",        "going",       "gonna",
      "good",    "got",        "had",         "has",      "have",      "he",          "her",         "here",
      "him",     "his",        "how",         "i",        "if",        "in",          "into",        "is",
      "isn",     "it",         "its",         "just",     "keep",      "kind",        "know",        "last",
      "let",     "lets",       "like",        "little",   "ll",        "look",        "looking",     "lot",
      "lots",    "love",       "lovely",      "m",        "make",      "makes",       "making",      "many",
      "may",     "maybe",      "me",          "might",    "more",      "most",        "much",        "must",
      "my",      "need",       "needs",       "new",      "next",      "nice",        "no",          "not",
      "now",     "of",         "off",         "oh",       "ok",        "okay",        "on",          "once",
      "one",     "only",       "onto",        "or",       "other",     "our",         "out",         "over",
      "perfect", "pretty",     "put",         "quite",    "re",        "ready",       "really",      "right",
      "s",       "said",       "same",        "say",      "see",       "she",         "should",      "so",
      "some",    "something",  "start",       "still",    "stuff",     "such",        "sure",        "t",
      "take",    "tell",       "than",        "that",     "the",       "their",       "them",        "then",
      "there",   "these",      "they",        "thing",    "things",    "think",       "this",        "those",
      "three",   "through",    "time",        "to",       "today",     "together",    "too",         "two",
      "up",      "us",         "use",         "using",    "ve",        "very",        "want",        "wants",
      "was",     "way",        "we",          "well",     "were",      "what",        "when",        "where",
      "which",   "while",      "who",         "why",      "will",      "with",        "work",        "would",
      "yeah",    "yes",        "you",         "your",     "until",     "till",        "gram",        "grams",
      "minute",  "minutes",    "hour",        "hours",    "degrees",   "second",      "seconds",     "cup",
      "cups",    "tablespoon", "tablespoons", "teaspoon", "teaspoons", "millilitres", "milliliters", "mils",
      "half",    "another",    "recipe",      "video",    "everyone",  "everybody",   "hello",       "hi",
      "welcome", "channel",    "kitchen",     "beautiful"};
  return kFillers.contains(word);
}

}  // namespace panslate
