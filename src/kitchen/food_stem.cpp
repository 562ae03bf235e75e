#include <algorithm>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>

#include <libstemmer.h>

#include "embedded/food_words_csv.h"
#include "kitchen/food_words.h"

namespace panslate {

namespace {

struct StemmerDeleter {
  void operator()(sb_stemmer* stemmer) const { sb_stemmer_delete(stemmer); }
};

// A stemmer keeps state between calls: each thread has its own.
sb_stemmer* stemmer_of_this_thread() {
  thread_local const std::unique_ptr<sb_stemmer, StemmerDeleter> stemmer(sb_stemmer_new("english", "UTF_8"));
  return stemmer.get();
}

using StemTable = std::unordered_map<std::string, std::string>;

const StemTable& irregular_stems() {
  static const StemTable table = [] {
    StemTable out;
    for (const auto& fields : table_rows(embedded::food_words_csv))
      if (fields[0] == "stem") out.emplace(fields[1], fields[2]);
    return out;
  }();
  return table;
}

constexpr std::string_view kCurlyApostrophe = "\u2019";

std::string without_apostrophes(std::string_view word) {
  std::string out;
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (word[i] == '\'') continue;
    if (word.substr(i).starts_with(kCurlyApostrophe)) {
      i += kCurlyApostrophe.size() - 1;
      continue;
    }
    out.push_back(word[i]);
  }
  return out;
}

std::string compute_name_stem(std::string word) {
  if (const auto it = irregular_stems().find(word); it != irregular_stems().end()) return it->second;
  // Plurals of nouns in -ing keep their ending: "dumplings", "puddings".
  if (word.size() > 5 && word.ends_with("ings")) word.pop_back();
  // What was done to a food is not the food: "salted water", "oiling the tin".
  if (word.size() > 3 && (word.ends_with("ed") || word.ends_with("ing"))) return word;
  if (word.ends_with("leaves")) word.replace(word.size() - 3, 3, "f");  // "bayleaves"
  return stem(word);
}

constexpr std::size_t kMostRemembered = 20000;

}  // namespace

std::string stem(std::string_view folded_word) {
  auto* stemmer = stemmer_of_this_thread();
  // Words longer than any in a language are no words; the stemmer counts in int.
  if (stemmer == nullptr || folded_word.size() > 200) return std::string(folded_word);
  const auto* result = sb_stemmer_stem(stemmer, reinterpret_cast<const sb_symbol*>(folded_word.data()),
                                       static_cast<int>(folded_word.size()));
  if (result == nullptr) return std::string(folded_word);
  return {reinterpret_cast<const char*>(result), static_cast<std::size_t>(sb_stemmer_length(stemmer))};
}

std::string name_stem(std::string_view folded_word) {
  thread_local StemTable remembered;
  std::string key(folded_word);
  if (const auto it = remembered.find(key); it != remembered.end()) return it->second;
  auto result = compute_name_stem(without_apostrophes(folded_word));
  if (remembered.size() >= kMostRemembered) remembered.clear();
  remembered.emplace(std::move(key), result);
  return result;
}

}  // namespace panslate
