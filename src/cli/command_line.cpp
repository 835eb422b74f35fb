#include "cli/command_line.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include "cli/disk.h"
#include "cli/output.h"

namespace soundsill::cli {
namespace {

std::vector<const CLI::App*> commands_of(const CLI::App& app) {
  return app.get_subcommands([](const CLI::App*) { return true; });
}

/// "--lang" or "-o", without what follows a "=".
std::string option_name(const std::string& word) { return word.substr(0, word.find('=')); }

bool is_option(std::string_view word) { return word.size() > 1 && word.starts_with('-'); }

std::string guess(const std::string& word, const std::vector<std::string>& names) {
  const std::vector<std::string_view> known(names.begin(), names.end());
  const std::string near = nearest(word, known);
  return near.empty() ? "" : fmt::format("; did you mean `{}`?", near);
}

/// For options that name a file or folder: an empty name would be taken for none, and the paper go elsewhere.
std::string empty_name(std::string& value) { return value.empty() ? "wants a name, and got an empty one" : ""; }

template <class T, class Read>
CLI::Option* add_value(CLI::App& app, const std::string& name, std::optional<T>& into, const std::string& help,
                       const std::string& wants, Read read) {
  const auto take = [&into, name, wants, read](const std::string& text) {
    into = read(text);
    if (!into) throw CLI::ValidationError(fmt::format("{} wants {}", name, wants));
  };
  return app.add_option_function<std::string>(name, take, help);
}

}  // namespace

CLI::Option* add_date(CLI::App& app, const std::string& name, std::optional<Date>& into, const std::string& help) {
  return add_value(app, name, into, help, "a day written YYYY-MM-DD", read_date)->type_name("DATE");
}

CLI::Option* add_money(CLI::App& app, const std::string& name, std::optional<Money>& into, const std::string& help) {
  return add_value(app, name, into, help, "an amount like 1200 or $1200.00", read_money)->type_name("$N");
}

bool CommonOptions::colored() const {
  if (color != "auto") return color == "always";
  const char* no_color = std::getenv("NO_COLOR");
  const char* term = std::getenv("TERM");
  return isatty(STDOUT_FILENO) == 1 && !(no_color && *no_color) && !(term && std::string_view(term) == "dumb");
}

Where where_of(const CommonOptions& common) {
  Where where;
  where.forms = common.forms;
  where.templates = common.templates;
  where.today = common.today;
  return where;
}

void Request::take(const CommonOptions& common) {
  where.forms = common.forms;
  where.templates = common.templates;
  where.today = common.today;
  color = common.colored();
}

CommandLine::CommandLine()
    : app_(
          "soundsill turns one inspection case into the papers that it owes, and refuses to print papers that "
          "contradict each other.\nA CASE is a case file or its folder. Exit status: 0 fine, 1 faults, 2 usage or a "
          "file that cannot be read or written, 3 our own fault.") {
  app_.name("soundsill");
  app_.require_subcommand(1);
  app_.fallthrough();
  app_.set_version_flag("--version", std::string("soundsill ") + SOUNDSILL_VERSION);
  app_.add_option("--forms", common_.forms, "folder with forms that come before the built-in ones")->type_name("DIR");
  app_.add_option("--templates", common_.templates,
                  "folder with templates and words that come before the built-in ones")
      ->type_name("DIR");
  add_date(app_, "--today", common_.today,
           "the day to judge by, YYYY-MM-DD; today by this computer's clock when not said");
  app_.add_option("--color", common_.color, "when to use color")->check(CLI::IsMember({"auto", "always", "never"}));
}

CLI::App& CommandLine::add(const std::string& name, const std::string& help, Action action) {
  CLI::App* command = app_.add_subcommand(name, help);
  commands_.push_back({command, std::move(action)});
  return *command;
}

/// What is wrong with the first word that no command and no option is named after; empty when there is none.
std::string CommandLine::unknown_word() const {
  const CLI::App* command = nullptr;
  for (std::size_t i = 0; i < arguments_.size() && arguments_[i] != "--"; ++i) {
    const std::string& word = arguments_[i];
    if (is_option(word)) {
      const CLI::Option* option = command ? command->get_option_no_throw(option_name(word)) : nullptr;
      if (!option) option = app_.get_option_no_throw(option_name(word));
      const bool joined = !word.starts_with("--") && word.size() > 2;  // -oFILE
      if (!option && joined && command) option = command->get_option_no_throw(word.substr(0, 2));
      if (!option) return unknown_option(command ? *command : app_, option_name(word));
      if (option->get_items_expected_max() > 0 && !joined && word.find('=') == std::string::npos) ++i;
      continue;
    }
    if (command) continue;
    std::vector<std::string> names;
    for (const CLI::App* one : commands_of(app_)) {
      names.push_back(one->get_name());
      if (word == one->get_name()) command = one;
    }
    if (!command) return fmt::format("`{}` is not a command{}", word, guess(word, names));
  }
  return {};
}

std::string CommandLine::unknown_option(const CLI::App& command, const std::string& word) const {
  std::vector<std::string> names;
  for (const CLI::App* app : {&command, &app_})
    for (const CLI::Option* option : app->get_options())
      for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  if (&command != &app_)
    return fmt::format("`{}` is not an option of `{}`{}", word, command.get_name(), guess(word, names));
  for (const CLI::App* one : commands_of(app_))
    if (one->get_option_no_throw(word))
      return fmt::format("`{}` is an option of a command; write it after the command", word);
  return fmt::format("`{}` is not an option{}", word, guess(word, names));
}

int CommandLine::refuse(const CLI::ParseError& error) const {
  const std::string unknown = unknown_word();
  const std::string why = unknown.empty() ? error.what() : unknown;
  const auto parsed = app_.get_subcommands();
  const std::string help = parsed.empty() ? "" : parsed.front()->get_name() + " ";
  put(stderr, fmt::format("soundsill: {}\nTry `soundsill {}--help`.\n", safe_line(why), help));
  return static_cast<int>(ExitStatus::usage);
}

int CommandLine::run(int argc, char** argv) {
  arguments_.assign(argv + std::min(argc, 1), argv + argc);
  const CLI::Validator named(&empty_name, "");
  std::vector<CLI::App*> all{&app_};
  for (const Command& command : commands_) all.push_back(command.app);
  for (CLI::App* one : all)
    for (CLI::Option* option : one->get_options())
      if (const std::string type = option->get_type_name(); type == "FILE" || type == "DIR") option->check(named);
  try {
    app_.parse(argc, argv);
    for (const std::string& folder : {common_.forms, common_.templates})
      if (!folder.empty() && !is_folder(folder)) throw CLI::ValidationError("`" + folder + "` is no folder");
    for (const Command& command : commands_)
      if (*command.app) return static_cast<int>(command.action(common_));
    throw CLI::RequiredError("A subcommand");
  } catch (const CLI::CallForVersion& version) {
    put(stdout, std::string(version.what()) + "\n");
    return static_cast<int>(ExitStatus::fine);
  } catch (const CLI::CallForHelp&) {
    const auto parsed = app_.get_subcommands();
    put(stdout, (parsed.empty() ? app_ : *parsed.front()).help());
    return static_cast<int>(ExitStatus::fine);
  } catch (const CLI::ParseError& error) {
    return refuse(error);
  }
}

}  // namespace soundsill::cli
