#include <algorithm>
#include <string>

#include <CLI/CLI.hpp>

#include "app/commands.h"
#include "app/help.h"
#include "app/version.h"

namespace panslate::app {

namespace {

ExitStatus wrong_usage(const CLI::App& root, const std::string& message, const Context& context) {
  const auto asked = root.get_subcommands();
  const auto verb = asked.empty() ? std::string{} : " " + asked.front()->get_name();
  context.tell({ErrorCode::Usage, message, std::nullopt, "panslate" + verb + " --help shows how it is used"});
  return ExitStatus::Usage;
}

}  // namespace

ExitStatus run_command_line(std::vector<std::string> arguments, Context& context) {
  CLI::App root("panslate checks that a recipe video says and shows what the written recipe says.",
                "panslate");
  set_help(root, "  panslate VERB …");
  root.set_version_flag("--version", std::string("panslate ") + kVersion, "Show the version");
  root.require_subcommand(0, 1);
  root.footer("panslate VERB --help tells more about one of them.");
  Action chosen;
  add_new(root, chosen);
  add_read(root, chosen);
  add_check(root, chosen);
  add_log(root, chosen);
  add_listen(root, chosen);
  add_plan(root, chosen);
  add_overlay(root, chosen);
  add_desk(root, chosen);

  std::reverse(arguments.begin(), arguments.end());  // CLI11 takes them from the back
  try {
    root.parse(std::move(arguments));
  } catch (const CLI::CallForHelp&) {
    const auto asked = root.get_subcommands();
    context.out << (asked.empty() ? root.help() : asked.front()->help());
    return ExitStatus::Ok;
  } catch (const CLI::CallForVersion&) {
    context.out << root.version() << "\n";
    return ExitStatus::Ok;
  } catch (const CLI::ParseError& error) {
    return wrong_usage(root, error.what(), context);
  }
  if (!chosen) {
    context.messages << root.help();
    return ExitStatus::Usage;
  }
  return chosen(context);
}

}  // namespace panslate::app
