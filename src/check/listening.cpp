#include "panslate/check/listening.h"

#include <algorithm>

namespace panslate {

bool Listening::wants_attention() const {
  return draft || status == ListenStatus::Failed ||
         std::any_of(amounts.begin(), amounts.end(),
                     [](const ListenedAmount& amount) { return amount.verdict != Heeded::AsWritten; }) ||
         std::any_of(lines.begin(), lines.end(), [](const SpokenLine& line) { return line.takes.empty(); });
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

std::string_view spelling_of(Heeded verdict) {
  switch (verdict) {
    case Heeded::AsWritten:
      return "as-written";
    case Heeded::Differs:
      return "differs";
    case Heeded::Unsure:
      return "unsure";
  }
  return "unsure";
}

}  // namespace panslate
