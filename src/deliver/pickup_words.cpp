#include "panslate/deliver/pickup_words.h"

#include <set>
#include <string_view>

#include "panslate/base/timestamp.h"

namespace panslate {

ClockNaming clock_naming(const std::vector<Pickup>& pickups) {
  std::set<std::string_view> clocks;
  for (const auto& pickup : pickups)
    if (pickup.at) clocks.insert(pickup.media);
  return clocks.size() > 1 ? ClockNaming::Named : ClockNaming::Unnamed;
}

std::string pickup_place(const Pickup& pickup, ClockNaming naming) {
  if (!pickup.at) return {};
  const auto time = format_timestamp(*pickup.at, TimestampStyle::Spoken, Round::Down);
  return pickup.media.empty() || naming == ClockNaming::Unnamed ? time : time + " in " + pickup.media;
}

}  // namespace panslate
