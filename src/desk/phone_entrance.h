#pragma once

#include <mutex>
#include <optional>
#include <string>

#include "desk/guard.h"
#include "desk/phone_code.h"

/// What comes over her network: a phone asks for the code, and gets an address of its own for it.
namespace panslate {

class PhoneEntrance {
 public:
  /// At this address of this machine: "192.168.1.20".
  PhoneEntrance(std::string home, int port);

  /// Behind its token the whole desk lies.
  [[nodiscard]] DeskAddress address() const;
  /// What she types: without a token, "http://192.168.1.20:8000/".
  [[nodiscard]] std::string shown_address() const;
  [[nodiscard]] PhoneCode::Shown code() const { return code_.shown(); }
  /// A new one; who was let in before is so no longer.
  void new_code();

  /// What a request is refused with by its head alone.
  [[nodiscard]] std::optional<DeskReply> refusal(const DeskRequest& request) const;
  /// The page that asks for the code, what that is made of, and the code itself; empty for everything else.
  [[nodiscard]] std::optional<DeskReply> enter(const DeskRequest& request);

 private:
  mutable std::mutex mutex_;  // of the address, and so that no old code opens the new one
  DeskAddress address_;
  PhoneCode code_;
};

}  // namespace panslate
