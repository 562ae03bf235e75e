#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <unordered_map>
#include <vector>

#include "panslate/speech/pronunciation.h"

namespace panslate {

/// Finds what may sound like a stretch of speech without comparing it with everything: entries and stretches
/// are filed under their consonants, coarsely (p and b are one, so are s, z and sh; w, y, h and an r at the
/// end of a syllable are left out), and under the same with any one left out. What differs in two or more
/// consonants is not found; sound_distance decides about the rest.
class SoundIndex {
 public:
  using Key = std::string;

  /// Entries count from 0 in the order they are added.
  void add(Sounds sounds);
  [[nodiscard]] std::size_t size() const { return entries_.size(); }
  [[nodiscard]] const Sounds& operator[](std::size_t entry) const { return entries_[entry]; }
  /// Sounds of the longest entry.
  [[nodiscard]] std::size_t longest() const { return longest_; }

  /// The consonants of a stretch, one letter each.
  [[nodiscard]] static Key key_of(std::span<const Sound> sounds);
  /// Entries that may sound like a stretch with this key, ascending; kept for the next time it is asked for.
  [[nodiscard]] const std::vector<std::uint32_t>& near(const Key& key);

 private:
  std::vector<Sounds> entries_;
  std::size_t longest_ = 0;
  std::unordered_map<Key, std::vector<std::uint32_t>> filed_;
  std::unordered_map<Key, std::vector<std::uint32_t>> asked_;
};

}  // namespace panslate
