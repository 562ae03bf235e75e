// Which of a machine's addresses is told for a phone: never one that the whole world could reach.
#include "panslate/desk/home_network.h"

#include <gtest/gtest.h>

namespace panslate {
namespace {

TEST(HomeNetwork, KnowsTheAddressesThatOnlyAHomeHas) {
  // RFC 1918, section 3: the first and the last of each block, and their neighbours outside.
  for (const auto* home : {"10.0.0.0", "10.255.255.255", "172.16.0.0", "172.31.255.255", "192.168.0.0",
                           "192.168.255.255", "169.254.1.1"})
    EXPECT_TRUE(is_home_address(home)) << home;
  for (const auto* other :
       {"9.255.255.255", "11.0.0.0", "172.15.255.255", "172.32.0.0", "192.167.255.255", "192.169.0.0",
        "127.0.0.1", "0.0.0.0", "8.8.8.8", "", "10.0.0", "10.0.0.1:80", "::1", "010.0.0.1", "kitchen"})
    EXPECT_FALSE(is_home_address(other)) << other;
}

TEST(HomeNetwork, ChoosesTheOneThatLeadsOut) {
  const std::vector<OwnAddress> all{
      {"docker0", "172.17.0.1"}, {"wlan0", "192.168.1.20"}, {"eth0", "203.0.113.5"}};
  struct Case {
    const char* outward;
    const char* chosen;
  };
  for (const auto& one : {Case{"192.168.1.20", "192.168.1.20"}, Case{"", "172.17.0.1"},
                          Case{"203.0.113.5", "172.17.0.1"}, Case{"192.168.1.99", "172.17.0.1"}}) {
    const auto chosen = choose_home_address(all, one.outward);
    ASSERT_TRUE(chosen) << one.outward;
    EXPECT_EQ(*chosen, one.chosen) << one.outward;
  }
}

TEST(HomeNetwork, OpensToNobodyWhereThereIsNoHome) {
  const std::vector<OwnAddress> open{{"eth0", "203.0.113.5"}};
  const auto chosen = choose_home_address(open, "203.0.113.5");
  ASSERT_FALSE(chosen);
  EXPECT_EQ(chosen.error().code, ErrorCode::NotFound);
  EXPECT_FALSE(chosen.error().hint.empty());
  EXPECT_FALSE(choose_home_address({}, ""));
}

}  // namespace
}  // namespace panslate
