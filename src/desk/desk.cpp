#include "panslate/desk/desk.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <charconv>
#include <set>
#include <string_view>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"
#include "panslate/project/answer_spelling.h"

#include "desk/accept_edits.h"
#include "desk/clip_bytes.h"
#include "desk/clip_strip.h"
#include "desk/decide_answer.h"
#include "desk/decide_part.h"
#include "desk/decision_book.h"
#include "desk/desk_state.h"
#include "desk/doubts.h"
#include "desk/guard.h"
#include "desk/page_files.h"
#include "desk/papers.h"
#include "desk/phone_entrance.h"
#include "desk/proposed_parts.h"
#include "desk/requests.h"

namespace panslate {

namespace {

using nlohmann::json;

constexpr int kStillSide = 480;  // pixels: sharp on a card, small enough to come at once

std::string text_of(const json& value) {
  return value.dump(-1, ' ', false, json::error_handler_t::replace);
}

DeskReply json_reply(int status, std::string body) {
  return {status, "application/json", std::move(body), {}, {}};
}

// What she is told of a decision that was not saved.
DeskReply told(const std::vector<Error>& errors) {
  json list = json::array();
  for (const auto& error : errors) list.push_back({{"what", error.message}, {"hint", error.hint}});
  const auto code = errors.front().code;
  const int status = code == ErrorCode::Exists ? 409 : code == ErrorCode::Usage ? 400 : 422;
  return json_reply(status, text_of({{"errors", std::move(list)}}));
}

// What the project cannot be read for: the same as the terminal says, place and all.
DeskReply broken(const std::vector<Error>& errors) {
  json list = json::array();
  for (const auto& error : errors) list.push_back({{"what", render(error)}, {"hint", ""}});
  return json_reply(422, text_of({{"errors", std::move(list)}}));
}

std::set<std::string> open_doubts(const DeskFilm& film) {
  std::set<std::string> open;
  for (const auto& doubt : doubts_of(film))
    open.insert(doubt_id(film.report.requirements[doubt.requirement], doubt.about));
  return open;
}

}  // namespace

std::string DeskRequest::header(std::string_view name) const {
  const auto found = headers.find(name);
  return found == headers.end() ? std::string() : found->second;
}

std::string DeskRequest::parameter(std::string_view name) const {
  const auto found = query.find(name);
  return found == query.end() ? std::string() : found->second;
}

class Desk::Routes {
 public:
  Routes(FileSystem& disk, DeskWork& work, Setup setup)
      : work_(work), address_{setup.token, setup.port, {}}, book_(disk, std::move(setup.project), work) {
    if (!setup.home.empty()) phone_.emplace(std::move(setup.home), setup.home_port);
  }

  [[nodiscard]] std::optional<DeskReply> refusal(const DeskRequest& request) const {
    auto refused = request.from_home ? refused_at_home(request) : admit(request, address_).refusal;
    return refused ? std::optional(with_common_headers(*std::move(refused))) : std::nullopt;
  }

  DeskReply answer(const DeskRequest& request) { return with_common_headers(route(request)); }

  static DeskReply with_common_headers(DeskReply reply) {
    const auto& common = common_headers();
    for (const auto& header : common)
      if (std::none_of(reply.headers.begin(), reply.headers.end(),
                       [&](const auto& own) { return own.first == header.first; }))
        reply.headers.push_back(header);
    return reply;
  }

  [[nodiscard]] std::string address() const {
    return "http://127.0.0.1:" + std::to_string(address_.port) + "/" + address_.token + "/";
  }

  [[nodiscard]] std::string opening_address() const {
    return "http://127.0.0.1:" + std::to_string(address_.port) + "/" + opening_ + "/";
  }

  [[nodiscard]] const std::optional<PhoneEntrance>& phone() const { return phone_; }

 private:
  std::optional<DeskReply> open_once(const DeskRequest& request) {
    const auto [name, refusal] = admit(request, {opening_, address_.port, {}});
    if (refusal || !name.empty() || request.method != "GET" || opened_.exchange(true)) return std::nullopt;
    return DeskReply{303, {}, {}, {}, {{"Location", "/" + address_.token + "/"}}};
  }

  [[nodiscard]] std::optional<DeskReply> refused_at_home(const DeskRequest& request) const {
    return phone_ ? phone_->refusal(request) : plain_reply(403, "This desk is for its own machine alone.");
  }

  // A phone is let in by its code, and has the same page then.
  DeskReply route_at_home(const DeskRequest& request) {
    if (auto refused = refused_at_home(request)) return *std::move(refused);
    if (auto entered = phone_->enter(request)) return *std::move(entered);
    auto [name, refusal] = admit(request, phone_->address());
    if (refusal) return *std::move(refusal);
    return request.method == "POST" ? change(name, request) : show(name, request);
  }

  // For whoever sits at this machine: how a phone is let in, and a new code for it.
  std::optional<DeskReply> about_phone(const std::string& name, const DeskRequest& request) {
    if (name != "phone" && name != "phone/again") return std::nullopt;
    const bool again = name == "phone/again";
    if (again != (request.method == "POST")) return plain_reply(404, "There is nothing here.");
    if (!phone_) return json_reply(200, "null");
    if (again) phone_->new_code();
    const auto [code, left, too_often] = phone_->code();
    return json_reply(200, text_of({{"address", phone_->shown_address()},
                                    {"code", code},
                                    {"seconds", left.count()},
                                    {"too_often", too_often}}));
  }

  DeskReply route(const DeskRequest& request) {
    if (request.from_home) return route_at_home(request);
    if (auto opened = open_once(request)) return *std::move(opened);
    auto [name, refusal] = admit(request, address_);
    if (refusal) return *std::move(refusal);
    if (auto told = about_phone(name, request)) return *std::move(told);
    return request.method == "POST" ? change(name, request) : show(name, request);
  }

  DeskReply show(const std::string& name, const DeskRequest& request) {
    if (const auto* file = page_file(name))
      return {200, std::string(file->type), std::string(file->text), {}, {}};
    if (name == "state") return state(request.parameter("have"));
    if (name == "clip") return clip(request);
    if (name == "still") return still(request);
    if (name == "proxy") return proxy(request.parameter("clip"), false);
    if (name == "strip") return strip(request.parameter("clip"));
    if (name == "proposed") return proposed();
    if (name == "paper") return paper_named(request.parameter("name"));
    return plain_reply(404, "There is nothing here.");
  }

  DeskReply change(const std::string& name, const DeskRequest& request) {
    if (name == "answer") {
      const auto wanted = answer_request(request.body);
      if (!wanted) return told({wanted.error()});
      const auto what =
          wanted->is ? "\"" + std::string(words_for(*wanted->is)) + "\" for \"" + wanted->written + "\""
                     : "no answer for \"" + wanted->written + "\"";
      return decide(what, *wanted, wanted->line + "/" + std::string(spelling_of(wanted->about)));
    }
    if (name == "measures") {
      const auto wanted = measures_request(request.body);
      if (!wanted) return told({wanted.error()});
      return decide("cups and spoons: " + std::string(spelling_of(wanted->measures)), *wanted, {});
    }
    if (name == "forget") {
      const auto wanted = forget_request(request.body);
      if (!wanted) return told({wanted.error()});
      return decide("an answer that no longer fits, forgotten", *wanted, {});
    }
    if (name == "part") {
      const auto wanted = part_request(request.body);
      if (!wanted) return told({wanted.error()});
      return decide(wanted->gone ? "part " + wanted->id + " taken away"
                                 : "part " + (wanted->id.empty() ? "of " + wanted->clip : wanted->id),
                    *wanted, {});
    }
    if (name == "take") {
      const auto wanted = take_request(request.body);
      if (!wanted) return told({wanted.error()});
      return after(take(*wanted));
    }
    if (name == "proxy") {
      const auto fields = RequestFields::read(request.body);
      const auto clip = fields ? fields->text("clip") : std::nullopt;
      return clip ? proxy(*clip, true) : told({Error(no_request().value())});
    }
    if (name == "undo") return after(book_.undo());
    if (name == "redo") return after(book_.redo());
    return plain_reply(404, "There is nothing here.");
  }

  // `own`: the doubt she looked at; what else is no longer open was settled with it.
  template <class Request>
  DeskReply decide(const std::string& what, const Request& wanted, const std::string& own) {
    std::set<std::string> before;
    auto page = book_.decide(what, [&](const DeskFilm& film, const ProjectText& text) {
      before = open_doubts(film);
      return edits_of(wanted, film, text);
    });
    if (!page) return told(page.error());
    for (const auto& id : open_doubts(*page->film)) before.erase(id);
    before.erase(own);
    return json_reply(
        200, "{\"settled\":" + std::to_string(before.size()) + ",\"state\":" + desk_state(*page) + "}");
  }

  static DeskReply after(const Checked<DecisionBook::Page>& page) {
    if (!page) return told(page.error());
    return json_reply(200, "{\"settled\":0,\"state\":" + desk_state(*page) + "}");
  }

  DeskReply state(const std::string& have) {
    const auto page = book_.current();
    if (!page) return broken(page.error());
    if (page->version == have) return {204, {}, {}, {}, {}};
    return json_reply(200, desk_state(*page));
  }

  struct FoundClip {
    const MediaEntry* media = nullptr;
    const ClipFacts* facts = nullptr;
    std::string content;
  };

  // Only what the project names and FFmpeg could open as a clip.
  static std::optional<FoundClip> find_clip(const DeskFilm& film, const std::string& id) {
    const auto& project = *film.project;
    const auto* media = project.find_media(id);
    if (media == nullptr) return std::nullopt;
    const auto index = static_cast<std::size_t>(media - project.media.data());
    const auto& facts = film.footage->clips[index];
    if (!facts) return std::nullopt;
    return FoundClip{media, &*facts, film.footage->contents[index]};
  }

  DeskReply clip(const DeskRequest& request) {
    const auto page = book_.current();
    if (!page) return broken(page.error());
    const auto found = find_clip(*page->film, request.parameter("id"));
    if (!found) return plain_reply(404, "The project names no such clip.");
    const auto range = request.header("range");
    if (request.parameter("as") != "proxy")
      return clip_bytes(found->media->file, type_of_clip(found->media->file), range);
    const auto proxy = work_.proxy(found->content, *found->facts, false);
    if (proxy.state != DeskProxy::State::Ready) return plain_reply(404, "There is no copy of this clip yet.");
    return clip_bytes(proxy.file, "video/mp4", range);
  }

  // How far the copy is that her browser can play; begun where she wants it.
  DeskReply proxy(const std::string& id, bool make) {
    const auto page = book_.current();
    if (!page) return broken(page.error());
    const auto found = find_clip(*page->film, id);
    if (!found) return plain_reply(404, "The project names no such clip.");
    const auto proxy = work_.proxy(found->content, *found->facts, make);
    static constexpr std::array<const char*, 5> kStates{"none", "waiting", "making", "ready", "failed"};
    return json_reply(200, text_of({{"is", kStates.at(static_cast<std::size_t>(proxy.state))},
                                    {"percent", proxy.percent},
                                    {"why", proxy.why}}));
  }

  DeskReply strip(const std::string& id) {
    const auto page = book_.current();
    if (!page) return broken(page.error());
    const auto found = find_clip(*page->film, id);
    if (!found) return plain_reply(404, "The project names no such clip.");
    return json_reply(200, clip_strip(work_.logged(found->content, found->media->file)));
  }

  // By what is said in the clips that were logged.
  PartProposals proposals_of(const DeskFilm& film) {
    const auto& media = film.project->media;
    std::vector<std::optional<ClipLog>> logs(media.size());
    std::vector<const ClipLog*> known(media.size(), nullptr);
    for (std::size_t i = 0; i < media.size(); ++i) {
      if (media[i].role != MediaRole::Camera || !film.footage->clips[i]) continue;
      logs[i] = work_.logged(film.footage->contents[i], media[i].file);
      if (logs[i]) known[i] = &*logs[i];
    }
    return propose_parts(*film.project, known);
  }

  DeskReply proposed() {
    const auto page = book_.current();
    if (!page) return broken(page.error());
    return json_reply(200, proposed_parts(*page->film, proposals_of(*page->film)));
  }

  Checked<DecisionBook::Page> take(const TakeRequest& wanted) {
    return book_.decide(
        "a proposed part of " + wanted.clip,
        [&](const DeskFilm& film, const ProjectText& text) -> Result<DecisionBook::Edits> {
          PANSLATE_TRY(const auto one, taken_from(proposals_of(film), film, wanted));
          PANSLATE_TRY(auto made, accept_edits(one, {*film.project, film.footage->contents}, film, text));
          if (made.accepted.written.empty())
            return seen_otherwise("a part of yours stands there: change that one");
          return std::move(made.edits);
        });
  }

  DeskReply paper_named(const std::string& name) {
    const auto page = book_.current();
    if (!page) return broken(page.error());
    const auto still = [&](const std::string& clip, MediaTime time) -> std::optional<Still> {
      const auto found = find_clip(*page->film, clip);
      if (!found || !found->facts->picture) return std::nullopt;
      auto taken = still_of(*found, time);
      return taken ? std::optional(*std::move(taken)) : std::nullopt;
    };
    auto made = paper(name, *page->film, still);
    return made ? *std::move(made) : plain_reply(404, "There is nothing here.");
  }

  Result<Still> still_of(const FoundClip& clip, MediaTime time) {
    if (!clip.content.empty())
      if (auto kept = work_.kept_still(clip.content, time, kStillSide)) return *std::move(kept);
    auto taken = work_.take_still(clip.media->file, time, kStillSide);
    if (!taken || clip.content.empty()) return taken;
    // The clip may have been replaced meanwhile: then nobody knows of which content this still is.
    const auto now = book_.current();
    const auto same = now ? find_clip(*now->film, clip.media->id) : std::nullopt;
    if (same && same->content == clip.content) work_.keep_still(clip.content, time, kStillSide, *taken);
    return taken;
  }

  DeskReply still(const DeskRequest& request) {
    const auto page = book_.current();
    if (!page) return broken(page.error());
    const auto found = find_clip(*page->film, request.parameter("clip"));
    if (!found || !found->facts->picture) return plain_reply(404, "There is no picture of it.");
    const auto text = request.parameter("ms");
    std::int64_t ms = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), ms);
    if (error != std::errc() || end != text.data() + text.size() || ms < 0)
      return plain_reply(400, "That is no moment.");
    const auto last = found->facts->duration;
    const auto time = ms > last.to_ms(Round::Up) ? last : MediaTime::from_ms(ms);
    const auto still = still_of(*found, time);
    if (!still) return plain_reply(404, still.error().message);
    DeskReply reply{200, "image/jpeg", still->jpeg, {}, {}};
    // The address holds the clip's name, not its content: kept for this sitting only, and asked for again.
    reply.headers.emplace_back("Cache-Control", "private, max-age=60");
    return reply;
  }

  DeskWork& work_;
  DeskAddress address_;
  std::string opening_ = new_desk_token();
  std::atomic<bool> opened_{false};
  std::optional<PhoneEntrance> phone_;  ///< where she shares it
  DecisionBook book_;
};

Desk::Desk(FileSystem& disk, DeskWork& work, Setup setup)
    : routes_(std::make_unique<Routes>(disk, work, std::move(setup))) {}
Desk::~Desk() = default;

DeskReply Desk::answer(const DeskRequest& request) {
  return routes_->answer(request);
}

std::optional<DeskReply> Desk::refusal(const DeskRequest& request) const {
  return routes_->refusal(request);
}

const std::vector<std::pair<std::string, std::string>>& Desk::headers() {
  return common_headers();
}

std::string Desk::address() const {
  return routes_->address();
}

std::string Desk::phone_address() const {
  return routes_->phone() ? routes_->phone()->shown_address() : std::string();
}

std::string Desk::phone_code() const {
  return routes_->phone() ? routes_->phone()->code().code : std::string();
}

std::string Desk::opening_address() const {
  return routes_->opening_address();
}

}  // namespace panslate
