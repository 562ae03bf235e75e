#include "speech/phones.h"

#include <algorithm>
#include <vector>

#include "panslate/base/text.h"

namespace panslate {

namespace {

constexpr std::size_t kMostPhones = 100;

bool is_vowel_name(std::string_view phone) {
  return phone.front() == 'A' || phone.front() == 'E' || phone.front() == 'I' || phone.front() == 'O' ||
         phone.front() == 'U';
}

bool is_one_of(std::string_view phone, std::initializer_list<std::string_view> names) {
  return std::find(names.begin(), names.end(), phone) != names.end();
}

}  // namespace

std::string to_cmu(std::span<const Sound> sounds) {
  sounds = sounds.first(std::min(sounds.size(), kMostPhones));
  std::vector<std::string> phones;
  for (std::size_t i = 0; i < sounds.size(); ++i) {
    if (sounds[i].phone != Phone::Ax) {
      phones.push_back(upper_case(to_text(std::span(&sounds[i], 1)).substr(0, 2)));
    } else if (i + 1 < sounds.size() && sounds[i + 1].phone == Phone::R) {
      phones.emplace_back("ER");
      ++i;
    } else {
      phones.emplace_back("AH");
    }
  }
  return join(phones, " ");
}

std::string without_final_r(std::string_view phones) {
  const auto names = split(phones, ' ');
  std::vector<std::string> out;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const bool before_vowel = i + 1 < names.size() && is_vowel_name(names[i + 1]);
    if (names[i] == "R" && !out.empty() && is_vowel_name(out.back()) && !before_vowel) continue;
    out.push_back(names[i] == "ER" && !before_vowel ? "AH" : names[i]);
  }
  return join(out, " ");
}

std::string with_plural(std::string_view phones) {
  const auto last = phones.substr(phones.rfind(' ') + 1);
  std::string out(phones);
  if (is_one_of(last, {"S", "Z", "SH", "ZH", "CH", "JH"})) return out + " IH Z";
  return out + (is_one_of(last, {"P", "T", "K", "F", "TH"}) ? " S" : " Z");
}

}  // namespace panslate
