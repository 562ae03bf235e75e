#include "panslate/check/listening.h"

#include <algorithm>

namespace panslate {

bool Listening::wants_attention() const {
  return status == ListenStatus::Failed ||
         std::any_of(amounts.begin(), amounts.end(),
                     [](const HeardAmount& amount) { return amount.verdict != HeardVerdict::AsWritten; }) ||
         std::any_of(lines.begin(), lines.end(), [](const HeardLine& line) { return line.takes.empty(); });
}

std::string_view spelling_of(ListenStatus status) {
  switch (status) {
    case ListenStatus::Aligned:
      return "aligned";
    case ListenStatus::Partly:
      return "partly";
    case ListenStatus::Failed:
      return "failed";
  }
  return "failed";
}

std::string_view spelling_of(HeardVerdict verdict) {
  switch (verdict) {
    case HeardVerdict::AsWritten:
      return "as-written";
    case HeardVerdict::Differs:
      return "differs";
    case HeardVerdict::Unsure:
      return "unsure";
  }
  return "unsure";
}

}  // namespace panslate
