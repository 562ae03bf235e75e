#include "project/footage_guess.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "panslate/base/text.h"

namespace panslate {

namespace {

// Containers that cameras, sound recorders and editing programs write.
constexpr std::array<std::string_view, 30> kMediaExtensions{
    ".3g2", ".3gp",  ".aac", ".aif", ".aiff", ".amr", ".avi",  ".caf", ".dv",   ".flac",
    ".flv", ".m2ts", ".m4a", ".m4v", ".mka",  ".mkv", ".mov",  ".mp3", ".mp4",  ".mpeg",
    ".mpg", ".mts",  ".mxf", ".oga", ".ogg",  ".ogv", ".opus", ".wav", ".webm", ".wmv"};
constexpr std::array<std::string_view, 3> kTimedTextExtensions{".srt", ".txt", ".vtt"};

constexpr std::array<std::string_view, 6> kVoiceWords{"commentary", "narration", "narrator",
                                                      "vo",         "voice",     "voiceover"};
constexpr std::array<std::string_view, 5> kSureEditWords{"edit", "edited", "export", "exported", "master"};
constexpr std::array<std::string_view, 2> kLikelyEditWords{"final", "finished"};
constexpr std::array<std::string_view, 6> kOnScreenWords{"onscreen", "overlay", "overlays",
                                                         "text",     "title",   "titles"};

template <std::size_t N>
bool holds_any(const std::vector<std::string>& words, const std::array<std::string_view, N>& wanted) {
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return std::find(wanted.begin(), wanted.end(), word) != wanted.end();
  });
}

enum class CharacterKind { Upper, Lower, Digit, Other };

CharacterKind character_kind(char32_t c) {
  if (c >= 'A' && c <= 'Z') return CharacterKind::Upper;
  if (c >= '0' && c <= '9') return CharacterKind::Digit;
  return is_word_character(c) ? CharacterKind::Lower : CharacterKind::Other;
}

}  // namespace

FileKind kind_of(const std::filesystem::path& file) {
  const auto extension = fold_case(to_utf8(file.extension().string()));
  const auto is_one_of = [&](const auto& list) {
    return std::find(list.begin(), list.end(), extension) != list.end();
  };
  if (is_one_of(kMediaExtensions)) return FileKind::Media;
  return is_one_of(kTimedTextExtensions) ? FileKind::TimedText : FileKind::Neither;
}

std::vector<std::string> name_words(const std::filesystem::path& file) {
  const auto name = to_utf8(file.stem().string());
  std::vector<std::string> words;
  std::string word;
  auto last = CharacterKind::Other;
  const auto end_word = [&] {
    if (!word.empty()) words.push_back(fold_case(std::exchange(word, {})));
  };
  for (std::size_t i = 0; i < name.size();) {
    const auto [value, next] = code_point_at(name, i);
    const auto kind = character_kind(value);
    const bool goes_on = kind == last || (last == CharacterKind::Upper && kind == CharacterKind::Lower);
    if (!goes_on) end_word();
    if (kind != CharacterKind::Other) word.append(name, i, next - i);
    last = kind;
    i = next;
  }
  end_word();
  return words;
}

MediaRole guess_role(const std::filesystem::path& file, const ClipFacts& facts) {
  if (!facts.picture || holds_any(name_words(file), kVoiceWords)) return MediaRole::Narration;
  return edit_likeness(file) > 0 ? MediaRole::Edit : MediaRole::Camera;
}

int edit_likeness(const std::filesystem::path& file) {
  const auto words = name_words(file);
  if (holds_any(words, kSureEditWords)) return 2;
  return holds_any(words, kLikelyEditWords) ? 1 : 0;
}

bool is_on_screen_text(const std::filesystem::path& file) {
  return holds_any(name_words(file), kOnScreenWords);
}

std::string new_id(const std::filesystem::path& file, const std::vector<std::string>& taken) {
  std::string base = collapse_spaces(to_utf8(file.stem().string()));
  std::replace(base.begin(), base.end(), ' ', '-');
  if (base.empty()) base = "clip";
  std::string id = base;
  for (int count = 2; std::find(taken.begin(), taken.end(), id) != taken.end(); ++count)
    id = base + "-" + std::to_string(count);
  return id;
}

}  // namespace panslate
