// Amounts from any text: no crash, no amount out of order or beyond the text, and what is compared with
// itself is the same.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "panslate/base/text.h"
#include "panslate/kitchen/amount_scan.h"
#include "panslate/kitchen/compare.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace panslate;
  const auto text = to_utf8({reinterpret_cast<const char*>(data), size});
  const auto tokens = tokenize(text);
  for (const auto how : {SpokenOrWritten::Written, SpokenOrWritten::Spoken}) {
    std::size_t last_end = 0;
    for (const auto& found : scan_amounts(tokens, how)) {
      if (found.begin < last_end || found.end <= found.begin || tokens.size() < found.end) std::abort();
      last_end = found.end;
      (void)to_text(found.amount);
      for (const auto& other : found.alternates)
        (void)compare(other, found.amount, Measures::Uk, "plain flour");
      const auto itself = compare(found.amount, found.amount, Measures::Us, "butter").sameness;
      if (found.amount.value && itself == Sameness::Different) std::abort();
    }
  }
  return 0;
}
