#include "app/help.h"

#include <memory>
#include <utility>

#include <CLI/CLI.hpp>

namespace panslate::app {

namespace {

constexpr std::size_t kOptionColumn = 24;

class HelpFormatter final : public CLI::Formatter {
 public:
  explicit HelpFormatter(std::string usage) : usage_(std::move(usage)) {
    column_width(kOptionColumn);
    label("Positionals", "Names");
    label("Subcommand", "Verb");
  }

  [[nodiscard]] std::string make_usage(const CLI::App* /*app*/, std::string /*name*/) const override {
    return "\n" + usage_ + "\n";
  }

 private:
  std::string usage_;
};

}  // namespace

void set_help(CLI::App& command, std::string usage) {
  command.formatter(std::make_shared<HelpFormatter>(std::move(usage)));
  command.set_help_flag("--help", "Show this help");
}

}  // namespace panslate::app
