#include "desk/phone_entrance.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include <nlohmann/json.hpp>

#include "panslate/desk/desk.h"

#include "desk/page_files.h"
#include "desk/requests.h"

namespace panslate {

namespace {

constexpr std::string_view kCodePath = "/code";
constexpr std::size_t kLongestCode = 40;  // bytes
// Of the page that asks for the code: they tell nothing about her.
constexpr std::array<std::string_view, 4> kOpenFiles{"phone.html", "phone.js", "desk.css", "desk.svg"};

// "/" is the page itself.
const PageFile* open_file(std::string_view path) {
  const auto name = path == "/" ? kOpenFiles.front() : path.substr(std::min<std::size_t>(1, path.size()));
  return std::find(kOpenFiles.begin(), kOpenFiles.end(), name) == kOpenFiles.end() ? nullptr
                                                                                   : page_file(name);
}

DeskReply in_json(int status, const char* name, std::string_view value) {
  return {status, "application/json", nlohmann::json{{name, value}}.dump(), {}, {}};
}

}  // namespace

PhoneEntrance::PhoneEntrance(std::string home, int port)
    : address_{new_desk_token(), port, std::move(home)} {}

DeskAddress PhoneEntrance::address() const {
  const std::lock_guard lock(mutex_);
  return address_;
}

void PhoneEntrance::new_code() {
  auto token = new_desk_token();
  const std::lock_guard lock(mutex_);
  address_.token = std::move(token);
  code_.renew();
}

std::string PhoneEntrance::shown_address() const {
  // Neither changes ever.
  return "http://" + address_.home + ":" + std::to_string(address_.port) + "/";
}

std::optional<DeskReply> PhoneEntrance::refusal(const DeskRequest& request) const {
  const bool is_open =
      request.method == "POST" ? request.path == kCodePath : open_file(request.path) != nullptr;
  if (!is_open) return admit(request, address()).refusal;
  if (auto another = asked_by_another(request, address())) return another;
  return asked_wrongly(request);
}

std::optional<DeskReply> PhoneEntrance::enter(const DeskRequest& request) {
  if (request.method == "POST") {
    if (request.path != kCodePath) return std::nullopt;
    const auto fields = RequestFields::read(request.body);
    const auto typed = fields ? fields->given_text("code", kLongestCode) : std::nullopt;
    if (!typed) return in_json(400, "what", "This is not what the page sends.");
    const std::lock_guard lock(mutex_);
    switch (code_.enter(*typed, request.peer)) {
      case PhoneCode::Outcome::Right:
        return in_json(200, "to", "/" + address_.token + "/#stove");
      case PhoneCode::Outcome::Wrong:
        return in_json(
            403, "what",
            "That is another code. Look again: it stands in the terminal and on the desk, at the stove.");
      case PhoneCode::Outcome::TooOften:
        return in_json(403, "what",
                       "Wrong codes were typed here too often. On the desk, at the stove, press New code.");
      case PhoneCode::Outcome::Void:
        break;
    }
    return in_json(403, "what", "No code is good now. On the desk, at the stove, press New code.");
  }
  const auto* file = open_file(request.path);
  if (file == nullptr) return std::nullopt;
  return DeskReply{200, std::string(file->type), std::string(file->text), {}, {}};
}

}  // namespace panslate
