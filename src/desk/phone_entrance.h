#pragma once

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
  [[nodiscard]] const DeskAddress& address() const { return address_; }
  /// What she types: without a token, "http://192.168.1.20:8000/".
  [[nodiscard]] std::string shown_address() const;
  [[nodiscard]] PhoneCode::Shown code() const { return code_.shown(); }
  void new_code() { code_.renew(); }

  /// What a request is refused with by its head alone.
  [[nodiscard]] std::optional<DeskReply> refusal(const DeskRequest& request) const;
  /// The page that asks for the code, what that is made of, and the code itself; empty for everything else.
  [[nodiscard]] std::optional<DeskReply> enter(const DeskRequest& request);

 private:
  DeskAddress address_;
  PhoneCode code_;
};

}  // namespace panslate
