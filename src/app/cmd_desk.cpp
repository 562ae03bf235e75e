#include <chrono>
#include <memory>
#include <string>
#include <thread>

#include <CLI/CLI.hpp>
#include <spawn.h>
#include <sys/wait.h>

#include "panslate/deliver/escape.h"
#include "panslate/desk/desk.h"
#include "panslate/desk/desk_lock.h"
#include "panslate/desk/desk_server.h"
#include "panslate/desk/home_network.h"

#include "app/checked_films.h"
#include "app/commands.h"
#include "app/help.h"
#include "app/interrupt.h"

extern char** environ;

namespace panslate::app {

namespace {

struct DeskOptions {
  std::string project;
  int port = 0;
  bool open = false;
  bool share = false;
};

// In her browser, by the desktop's own way; where there is none, she has the address.
bool open_in_browser(const std::string& address) {
  std::string program = "xdg-open";
  std::string argument = address;
  char* arguments[] = {program.data(), argument.data(), nullptr};
  pid_t child = 0;
  if (::posix_spawnp(&child, program.c_str(), nullptr, nullptr, arguments, environ) != 0) return false;
  // It ends at once where it handed the address on, and stays where it is the browser itself.
  for (int tries = 0; tries < 20; ++tries) {
    int status = 0;
    if (::waitpid(child, &status, WNOHANG) == child) return WIFEXITED(status) && WEXITSTATUS(status) == 0;
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  }
  return true;
}

void tell_of_phone(const Desk& desk, Context& context) {
  const auto code = desk.phone_code();
  context.out << "On your phone, in the same network: " << desk.phone_address() << " with the code "
              << code.substr(0, 3) << " " << code.substr(3) << "\n"
              << std::flush;
  context.messages << "The code is good once and for ten minutes; the desk makes a new one, at the stove.\n"
                      "What goes to the phone is not encrypted: share it at home only.\n"
                      "Ctrl-C closes the desk; everything you decide is saved at once.\n";
}

ExitStatus run_desk(const DeskOptions& options, Context& context) {
  std::string home;
  if (options.share) {
    const auto found = home_address();
    if (!found) return context.give_up(found.error());
    home = *found;
  }
  CheckedFilms films(options.project, context);
  // What cannot be read is told here, not on a page.
  if (const auto film = films.look(context.disk); !film)
    return film.error().size() == 1 ? context.give_up(film.error().front()) : context.give_up(film.error());
  // Only now: beside a file that is no project nothing is made.
  const auto lock = lock_desk(options.project);
  if (!lock) return context.give_up(lock.error());
  context.progress.clear();
  std::unique_ptr<Desk> desk;
  DeskServing serving;
  serving.port = options.port;
  serving.home = home;
  serving.listening = [&](const DeskPorts& ports) {
    desk = std::make_unique<Desk>(
        context.disk, films, Desk::Setup{options.project, new_desk_token(), ports.here, home, ports.home});
    context.out << "The desk is open: " << desk->address() << "\n" << std::flush;
    if (options.share)
      tell_of_phone(*desk, context);
    else
      context.messages
          << "It is for this machine alone. Ctrl-C closes it; everything you decide is saved at once.\n";
    if (options.open && !open_in_browser(desk->opening_address()))
      context.messages << "No browser could be opened from here: open the address yourself.\n";
  };
  serving.headers = Desk::headers();
  serving.refusal = [&](const DeskRequest& request) { return desk->refusal(request); };
  serving.answer = [&](const DeskRequest& request) { return desk->answer(request); };
  serving.stopped = [] { return was_interrupted(); };
  if (const auto served = serve_desk(serving); !served) return context.give_up(served.error());
  context.messages << "The desk is closed.\n";
  return ExitStatus::Ok;
}

}  // namespace

void add_desk(CLI::App& root, Action& chosen) {
  auto options = std::make_shared<DeskOptions>();
  auto* command = root.add_subcommand("desk", "Answer what is doubtful and mark clips, on a page");
  command->group("Verbs");
  set_help(*command, "  panslate desk PROJECT.json [--open]");
  command->add_option("project", options->project, "The project file")->type_name("PROJECT.json")->required();
  command->add_flag("--open", options->open, "Open the page in the browser");
  command->add_flag("--share", options->share, "Also for your phone, in your own network");
  command->add_option("--port", options->port, "Serve it there, not at a free port")
      ->type_name("N")
      ->check(CLI::Range(1024, 65535).description(""));
  command->footer(
      "Serves the page on this machine alone, until Ctrl-C; with --share also for a\n"
      "phone in your own network that has the code told here. Each answer, and each\n"
      "part of a clip that you mark, is saved in the project file at once; the rest of\n"
      "the file stays as it is.");
  command->callback(
      [options, &chosen] { chosen = [options](Context& context) { return run_desk(*options, context); }; });
}

}  // namespace panslate::app
