#include "panslate/project/answer_spelling.h"

#include <algorithm>
#include <array>

namespace panslate {

namespace {

struct AboutName {
  Answer::About about;
  std::string_view spelling;
};
constexpr std::array kAbouts{AboutName{Answer::About::Said, "said"}, AboutName{Answer::About::Shown, "shown"},
                             AboutName{Answer::About::OnPicture, "picture"}};

struct IsName {
  Answer::Is is;
  std::string_view spelling;
  std::string_view words;
};
constexpr std::array kAnswers{IsName{Answer::Is::Yes, "yes", "yes"}, IsName{Answer::Is::No, "no", "no"},
                              IsName{Answer::Is::Leave, "leave", "leave this line alone"}};

const IsName& name_of(Answer::Is is) {
  const auto* const found =
      std::find_if(kAnswers.begin(), kAnswers.end(), [&](const IsName& name) { return name.is == is; });
  return found == kAnswers.end() ? kAnswers.front() : *found;
}

}  // namespace

std::string_view spelling_of(Answer::About about) {
  const auto* const found = std::find_if(kAbouts.begin(), kAbouts.end(),
                                         [&](const AboutName& name) { return name.about == about; });
  return found == kAbouts.end() ? kAbouts.front().spelling : found->spelling;
}

std::string_view spelling_of(Answer::Is is) {
  return name_of(is).spelling;
}

std::optional<Answer::About> about_from_spelling(std::string_view spelling) {
  for (const auto& name : kAbouts)
    if (name.spelling == spelling) return name.about;
  return std::nullopt;
}

std::optional<Answer::Is> is_from_spelling(std::string_view spelling) {
  for (const auto& name : kAnswers)
    if (name.spelling == spelling) return name.is;
  return std::nullopt;
}

std::string_view words_for(Answer::Is is) {
  return name_of(is).words;
}

}  // namespace panslate
