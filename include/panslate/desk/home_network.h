#pragma once

#include <span>
#include <string>
#include <vector>

#include "panslate/base/result.h"

/// Where a phone at home finds this machine.
namespace panslate {

/// An address of this machine in a network.
struct OwnAddress {
  std::string device;   ///< "wlan0"
  std::string address;  ///< "192.168.1.20"
};

/// Whether only a network at home gives such addresses: RFC 1918, section 3, and RFC 3927 (no router at all).
/// False for every other text.
[[nodiscard]] bool is_home_address(const std::string& address);

/// Of the addresses of this machine the one that a phone at home can reach: the one that leads out
/// (`outward`, empty where none does), else the first; only home addresses count. NotFound where there is
/// none: then the page would stand open to the whole world, or to nobody.
[[nodiscard]] Result<std::string> choose_home_address(std::span<const OwnAddress> all,
                                                      const std::string& outward);

/// The same of this machine as it is connected now.
[[nodiscard]] Result<std::string> home_address();

}  // namespace panslate
