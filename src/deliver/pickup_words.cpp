#include "panslate/deliver/pickup_words.h"

#include "panslate/base/timestamp.h"

namespace panslate {

std::string pickup_place(const Pickup& pickup) {
  if (!pickup.at) return {};
  const auto time = format_timestamp(*pickup.at, TimestampStyle::Spoken, Round::Down);
  return pickup.media.empty() ? time : time + " in " + pickup.media;
}

}  // namespace panslate
