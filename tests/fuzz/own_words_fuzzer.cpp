// Her own list of how words sound, whatever is in it, and a script of the same bytes.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "panslate/speech/pronouncing.h"
#include "panslate/speech/script_lines.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static auto dictionary = panslate::PronouncingDictionary::open().value();
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto added = dictionary.add_own_words(text, "words.txt");
  const auto script = panslate::read_script(text, "script.txt");
  if (!script || size > 4096) return 0;
  for (const auto& line : *script)
    for (const auto& word : line.words)
      for (const auto& reading : word.readings)
        for (const auto& spoken : reading) static_cast<void>(dictionary.ways(spoken));
  return 0;
}
