#pragma once

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>
#include <unordered_map>
#include <vector>

/// The CMU pronouncing dictionary as an outside judge (Debian's pocketsphinx-en-us), in the names of flite:
/// small letters, er as ax and r, no difference between ah and ax.
namespace panslate::testing {

using Phones = std::vector<std::string>;

inline Phones comparable(const std::string& phones) {
  std::istringstream in(phones);
  Phones out;
  for (std::string phone; in >> phone;) {
    std::string name;
    for (const char c : phone)
      if (c < '0' || c > '9') name += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (name == "er") {
      out.insert(out.end(), {"ax", "r"});
    } else {
      out.push_back(name == "ah" ? "ax" : name);
    }
  }
  return out;
}

class CmuDictionary {
 public:
  CmuDictionary() {
    std::ifstream in("/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict");
    for (std::string line; std::getline(in, line);) {
      const auto space = line.find(' ');
      if (space == std::string::npos) continue;
      auto word = line.substr(0, space);
      word = word.substr(0, word.find('('));  // "tomato(2)": another way of saying it
      ways_[word].push_back(comparable(line.substr(space)));
    }
  }

  [[nodiscard]] bool empty() const { return ways_.empty(); }
  [[nodiscard]] const std::vector<Phones>* find(const std::string& word) const {
    const auto found = ways_.find(word);
    return found == ways_.end() ? nullptr : &found->second;
  }

 private:
  std::unordered_map<std::string, std::vector<Phones>> ways_;
};

/// Phones put in, left out or changed.
inline std::size_t phones_apart(const Phones& a, const Phones& b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 0; i < a.size(); ++i) {
    auto diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const auto replaced = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j + 1] + 1, row[j] + 1});
    }
  }
  return row[b.size()];
}

}  // namespace panslate::testing
