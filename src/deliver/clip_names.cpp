#include "deliver/clip_names.h"

#include <set>

#include "panslate/base/text.h"

namespace panslate {

std::vector<std::string> names_of_clips(const FootageLog& log, const std::vector<std::size_t>& clips) {
  std::vector<std::string> names;
  names.reserve(clips.size());
  std::set<std::string> seen;
  for (const auto clip : clips) names.push_back(log.clips[clip].file.filename().string());
  for (const auto& name : names) seen.insert(name);
  if (seen.size() == names.size()) return names;
  for (std::size_t i = 0; i < names.size(); ++i)
    names[i] = log.clips[clips[i]].file.lexically_normal().string();
  return names;
}

std::string list_words(std::vector<std::string> names) {
  constexpr std::size_t kNamed = 3;
  const auto rest = names.size() > kNamed ? names.size() - kNamed : 0;
  names.resize(names.size() - rest);
  return join(names, ", ") + (rest > 0 ? " and " + std::to_string(rest) + " more" : "");
}

}  // namespace panslate
