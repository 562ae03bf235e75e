// What a footage worker may answer once its decoder was taken over by a clip: any bytes are facts, a still,
// sound, an error or nothing; what is read once is written and read the same again.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "media/worker_message.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace panslate::worker;
  const std::string_view body(reinterpret_cast<const char*>(data), size);
  FrameReader frames(kLargestAnswer);
  frames.add(body);
  while (frames.next()) {
  }
  if (const auto facts = read_facts(body, "clip.mp4"); facts && !read_facts(body_of(*facts), "clip.mp4"))
    std::abort();
  if (const auto still = read_still(body, "clip.mp4", 320);
      still && !read_still(body_of(*still), "clip.mp4", 320))
    std::abort();
  if (const auto sound = read_samples(body, "clip.mp4", 8);
      sound && !read_samples(body_of(*sound), "clip.mp4", 8))
    std::abort();
  return 0;
}
