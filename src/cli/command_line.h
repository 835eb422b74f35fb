// The command line: which commands there are, what of it all of them share, and what is said of a word that none knows.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "cli/commands.h"

namespace soundsill::cli {

/// Options that every command takes.
struct CommonOptions {
  std::string forms, templates;  ///< folders, or empty
  std::optional<Date> today;
  std::string color = "auto";

  /// Whether faults are shown in color on standard output.
  [[nodiscard]] bool colored() const;
};

class CommandLine {
 public:
  /// What a command does once its options are read. Throws CLI::ValidationError for options that do not go together.
  using Action = std::function<ExitStatus(const CommonOptions&)>;

  CommandLine();
  /// Adds a command; its options are declared on what is given back.
  CLI::App& add(const std::string& name, const std::string& help, Action action);
  /// Reads the arguments and runs the command that they name. Gives the exit status.
  [[nodiscard]] int run(int argc, char** argv);

 private:
  [[nodiscard]] int refuse(const CLI::ParseError& error) const;
  [[nodiscard]] std::string unknown_word() const;
  [[nodiscard]] std::string unknown_option(const CLI::App& command, const std::string& word) const;

  struct Command {
    CLI::App* app;
    Action action;
  };
  CLI::App app_;
  CommonOptions common_;
  std::vector<Command> commands_;
  std::vector<std::string> arguments_;
};

/// An option with a day written YYYY-MM-DD.
CLI::Option* add_date(CLI::App& app, const std::string& name, std::optional<Date>& into, const std::string& help);
/// An option with an amount of money.
CLI::Option* add_money(CLI::App& app, const std::string& name, std::optional<Money>& into, const std::string& help);

/// Declares every command; declare_commands.cpp.
void declare_commands(CommandLine& line);

}  // namespace soundsill::cli
