#include "panslate/speech/sound_index.h"

#include <algorithm>

namespace panslate {

namespace {

// The coarse letter of a phone; 0 for what is left out.
char letter_of(std::span<const Sound> sounds, std::size_t at) {
  switch (sounds[at].phone) {
    case Phone::P:
    case Phone::B:
      return 'p';
    case Phone::F:
    case Phone::V:
    case Phone::Th:
    case Phone::Dh:
      return 'f';
    case Phone::T:
    case Phone::D:
      return 't';
    case Phone::S:
    case Phone::Z:
    case Phone::Sh:
    case Phone::Zh:
    case Phone::Ch:
    case Phone::Jh:
      return 's';
    case Phone::K:
    case Phone::G:
      return 'k';
    case Phone::M:
    case Phone::N:
    case Phone::Ng:
      return 'n';
    case Phone::L:
      return 'l';
    case Phone::R:
      return at + 1 < sounds.size() && is_vowel(sounds[at + 1].phone) ? 'r' : '\0';
    default:
      return '\0';
  }
}

// Keys under which something is filed and sought. Of short keys nothing is left out: too much would be near.
std::vector<SoundIndex::Key> variants(const SoundIndex::Key& key) {
  constexpr std::size_t kShort = 2;
  std::vector<SoundIndex::Key> keys{key};
  if (key.size() <= kShort) return keys;
  for (std::size_t i = 0; i < key.size(); ++i) {
    if (i > 0 && key[i] == key[i - 1]) continue;
    auto& shorter = keys.emplace_back(key);
    shorter.erase(i, 1);
  }
  return keys;
}

}  // namespace

SoundIndex::Key SoundIndex::key_of(std::span<const Sound> sounds) {
  Key key;
  for (std::size_t i = 0; i < sounds.size(); ++i)
    if (const char letter = letter_of(sounds, i); letter != '\0') key += letter;
  return key;
}

void SoundIndex::add(Sounds sounds) {
  const auto entry = static_cast<std::uint32_t>(entries_.size());
  longest_ = std::max(longest_, sounds.size());
  for (auto& key : variants(key_of(sounds))) filed_[std::move(key)].push_back(entry);
  entries_.push_back(std::move(sounds));
  asked_.clear();
}

const std::vector<std::uint32_t>& SoundIndex::near(const Key& key) {
  const auto known = asked_.find(key);
  if (known != asked_.end()) return known->second;
  std::vector<std::uint32_t> entries;
  for (const auto& variant : variants(key))
    if (const auto found = filed_.find(variant); found != filed_.end())
      entries.insert(entries.end(), found->second.begin(), found->second.end());
  std::sort(entries.begin(), entries.end());
  entries.erase(std::unique(entries.begin(), entries.end()), entries.end());
  return asked_.emplace(key, std::move(entries)).first->second;
}

}  // namespace panslate
