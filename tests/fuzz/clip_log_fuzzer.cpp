// What is kept of a logged clip, and what a worker answers: whatever the bytes, it is read whole or not at
// all.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "panslate/media/measured_bytes.h"

#include "media/worker_message.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  (void)panslate::worker::read_so_far(bytes);
  // What can be read is written the same.
  if (const auto log = panslate::clip_log_from(bytes, {})) {
    const auto written = panslate::bytes_of(*log);
    const auto again = panslate::clip_log_from(written, {});
    if (!again || panslate::bytes_of(*again) != written) std::abort();
  }
  return 0;
}
