#include "speech/cue_places.h"

#include "panslate/base/text.h"

#include "speech/character_reference.h"

namespace panslate {

namespace {

constexpr std::size_t kLongestTag = 2000;

bool is_blank(std::string_view character) {
  return trim(character).empty();
}

std::string_view character_at(std::string_view text, std::size_t at) {
  return text.substr(at, code_point_at(text, at).next - at);
}

// Behind the tag or code that begins at `at`; empty when none does.
std::optional<std::size_t> past_tag(std::string_view text, std::size_t at) {
  const char close = text[at] == '<' ? '>' : text[at] == '{' ? '}' : '\0';
  if (close == '\0') return std::nullopt;
  const auto end = text.substr(at, kLongestTag).find(close);
  if (end == std::string_view::npos) return std::nullopt;
  return at + end + 1;
}

}  // namespace

std::optional<CuePlaces> find_cue_places(std::string_view text, const Cue& cue) {
  CuePlaces places;
  places.begin.reserve(cue.text.size());
  places.end.reserve(cue.text.size());
  const auto take = [&](std::size_t bytes, std::size_t begin, std::size_t end) {
    places.begin.insert(places.begin.end(), bytes, begin);
    places.end.insert(places.end.end(), bytes, end);
  };
  std::size_t at = cue.text_at;
  for (std::size_t i = 0; i < cue.text.size();) {
    const auto wanted = character_at(cue.text, i);
    if (at >= text.size()) {
      if (!is_blank(wanted)) return std::nullopt;
      take(wanted.size(), at, at);
      i += wanted.size();
      continue;
    }
    const auto here = character_at(text, at);
    if (text[at] == '&') {
      const auto reference = character_reference_at(text, at);
      if (reference && std::string_view(cue.text).substr(i).starts_with(reference->text)) {
        take(reference->text.size(), at, at + reference->length);
        i += reference->text.size();
        at += reference->length;
        continue;
      }
    }
    if (wanted == "\n" && text.substr(at, 2) == "\r\n") {
      take(1, at, at + 2);
      ++i;
      at += 2;
    } else if (here == wanted || (wanted == "\n" && here == "\r")) {
      for (std::size_t b = 0; b < wanted.size(); ++b) take(1, at + b, at + b + 1);
      i += wanted.size();
      at += here.size();
    } else if (const auto behind = past_tag(text, at)) {
      // A break written as a tag stands for the line end.
      if (wanted == "\n" && fold_case(text.substr(at, 3)) == "<br") {
        take(1, at, *behind);
        ++i;
      }
      at = *behind;
    } else if (is_blank(here)) {
      at += here.size();
    } else if (is_blank(wanted)) {
      take(wanted.size(), at, at);
      i += wanted.size();
    } else {
      return std::nullopt;
    }
  }
  return places;
}

std::optional<CuePlaces::Stretch> CuePlaces::find(std::size_t first, std::size_t last) const {
  if (first >= last || last > begin.size()) return std::nullopt;
  for (std::size_t i = first + 1; i < last; ++i) {
    const bool same_character = begin[i] == begin[i - 1] && end[i] == end[i - 1];
    if (!same_character && begin[i] != end[i - 1]) return std::nullopt;
  }
  return Stretch{begin[first], end[last - 1]};
}

}  // namespace panslate
