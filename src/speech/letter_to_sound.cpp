#include <algorithm>
#include <array>
#include <memory>
#include <mutex>

#include "panslate/base/text.h"
#include "panslate/speech/pronunciation.h"

extern "C" {
#include <flite/flite.h>
// Declared in no header of flite.
cst_lexicon* cmulex_init(void);
}

/// The only place that knows flite.
namespace panslate {

namespace {

constexpr std::array<std::string_view, kPhones> kNames{
    "aa", "ae", "ah", "ao", "aw", "ax", "ay", "eh", "ey", "ih", "iy", "ow", "oy",
    "uh", "uw", "b",  "ch", "d",  "dh", "f",  "g",  "hh", "jh", "k",  "l",  "m",
    "n",  "ng", "p",  "r",  "s",  "sh", "t",  "th", "v",  "w",  "y",  "z",  "zh"};

constexpr std::size_t kLongestWord = 40;

// Appends a phone by its name with a digit of stress; false when it is none.
bool append(std::string_view name, Sounds& out) {
  bool stressed = false;
  if (!name.empty() && name.back() >= '0' && name.back() <= '9') {
    stressed = name.back() != '0';
    name.remove_suffix(1);
  }
  if (name == "er") {
    out.push_back({Phone::Ax, stressed});
    out.push_back({Phone::R, false});
    return true;
  }
  const auto found = std::find(kNames.begin(), kNames.end(), name);
  if (found == kNames.end()) return false;
  const auto phone = static_cast<Phone>(found - kNames.begin());
  out.push_back({phone, stressed && is_vowel(phone)});
  return true;
}

struct DeleteValue {
  void operator()(cst_val* value) const { delete_val(value); }
};

/// flite's lexicon is one object of the library's, filled in when it is first asked for. The library promises
/// nothing about threads, so it is asked by one at a time.
class Lexicon {
 public:
  static Lexicon& instance() {
    static Lexicon lexicon;
    return lexicon;
  }

  Sounds look_up(const std::string& word) {
    const std::lock_guard lock(mutex_);
    const std::unique_ptr<cst_val, DeleteValue> phones(lex_lookup(lexicon_, word.c_str(), nullptr, nullptr));
    Sounds sounds;
    for (const cst_val* at = phones.get(); at != nullptr; at = val_cdr(at))
      append(val_string(val_car(at)), sounds);
    return sounds;
  }

 private:
  Lexicon() : lexicon_(cmulex_init()) {}

  std::mutex mutex_;
  const cst_lexicon* lexicon_;
};

}  // namespace

Sounds pronounce(std::string_view folded_word) {
  std::string letters;
  for (const char c : folded_word)
    if (c >= 'a' && c <= 'z' && letters.size() < kLongestWord) letters += c;
  return letters.empty() ? Sounds{} : Lexicon::instance().look_up(letters);
}

std::optional<Sounds> sounds_from_text(std::string_view text) {
  Sounds sounds;
  for (const auto& name : split(collapse_spaces(text), ' '))
    if (!append(name, sounds)) return std::nullopt;
  return sounds;
}

std::string to_text(std::span<const Sound> sounds) {
  std::string text;
  for (const auto sound : sounds) {
    if (!text.empty()) text += ' ';
    text += kNames[static_cast<std::size_t>(sound.phone)];
    if (sound.stressed) text += '1';
  }
  return text;
}

}  // namespace panslate
