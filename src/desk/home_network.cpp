#include "panslate/desk/home_network.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <memory>

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <sys/socket.h>

#include "panslate/base/descriptor.h"

namespace panslate {

namespace {

struct Network {
  std::uint32_t base;
  int bits;
};
// RFC 1918, section 3; RFC 3927, section 2.1.
constexpr std::array<Network, 4> kHomeNetworks{
    {{0x0A000000U, 8}, {0xAC100000U, 12}, {0xC0A80000U, 16}, {0xA9FE0000U, 16}}};

std::string text_of(const sockaddr_in& address) {
  std::array<char, INET_ADDRSTRLEN> text{};
  const char* written = ::inet_ntop(AF_INET, &address.sin_addr, text.data(), text.size());
  return written == nullptr ? std::string() : std::string(written);
}

std::vector<OwnAddress> own_addresses() {
  ifaddrs* raw = nullptr;
  if (::getifaddrs(&raw) != 0) return {};
  const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> all(raw, &::freeifaddrs);
  std::vector<OwnAddress> found;
  for (const auto* one = all.get(); one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
    if ((one->ifa_flags & IFF_UP) == 0 || (one->ifa_flags & IFF_LOOPBACK) != 0) continue;
    found.push_back({one->ifa_name, text_of(*reinterpret_cast<const sockaddr_in*>(one->ifa_addr))});
  }
  return found;
}

// The address from which the way out of the network begins. Nothing is sent: a datagram socket is only told
// where it would send to.
std::string outward_address() {
  const Descriptor socket(::socket(AF_INET, SOCK_DGRAM | SOCK_CLOEXEC, 0));
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(9);
  to.sin_addr.s_addr = htonl(0xC0000201U);  // 192.0.2.1: nobody's (RFC 5737)
  if (socket.get() < 0 || ::connect(socket.get(), reinterpret_cast<const sockaddr*>(&to), sizeof to) != 0)
    return {};
  sockaddr_in own{};
  socklen_t size = sizeof own;
  if (::getsockname(socket.get(), reinterpret_cast<sockaddr*>(&own), &size) != 0) return {};
  return text_of(own);
}

}  // namespace

bool is_home_address(const std::string& address) {
  in_addr parsed{};
  if (::inet_pton(AF_INET, address.c_str(), &parsed) != 1) return false;
  const auto number = ntohl(parsed.s_addr);
  return std::any_of(kHomeNetworks.begin(), kHomeNetworks.end(), [&](const Network& network) {
    return (number >> (32 - network.bits)) == (network.base >> (32 - network.bits));
  });
}

Result<std::string> choose_home_address(std::span<const OwnAddress> all, const std::string& outward) {
  std::string first;
  for (const auto& one : all) {
    if (!is_home_address(one.address)) continue;
    if (one.address == outward) return one.address;
    if (first.empty()) first = one.address;
  }
  if (first.empty())
    return fail(ErrorCode::NotFound, "this machine is in no network at home that a phone could reach it by",
                std::nullopt,
                "connect it to the Wi-Fi that the phone is in; without --share the desk opens anyway");
  return first;
}

Result<std::string> home_address() {
  return choose_home_address(own_addresses(), outward_address());
}

}  // namespace panslate
