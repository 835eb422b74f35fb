// The command line: files, exit status, and the gate: no final paper while a fault stands.
#include <fcntl.h>
#include <malloc.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <new>
#include <tuple>

#include "cli/catalogue.h"
#include "cli/commands.h"
#include "cli/output.h"
#include "cli/review.h"
#include "cli/review_list.h"
#include "cli/walk.h"

namespace {

using soundsill::cli::ExitStatus;

bool wants_color(const std::string& choice) {
  if (choice != "auto") return choice == "always";
  const char* no_color = std::getenv("NO_COLOR");
  const char* term = std::getenv("TERM");
  return isatty(STDOUT_FILENO) == 1 && !(no_color && *no_color) && !(term && std::string_view(term) == "dumb");
}

/// The word that was meant to be a command, when it is none.
int usage(const CLI::App& app, const CLI::ParseError& error, int argc, char** argv) {
  if (error.get_exit_code() == 0) {
    std::fputs(app.help().c_str(), stdout);
    return static_cast<int>(ExitStatus::fine);
  }
  std::vector<std::string> names;
  for (const CLI::App* sub : app.get_subcommands([](const CLI::App*) { return true; }))
    names.push_back(sub->get_name());
  const std::vector<std::string_view> known(names.begin(), names.end());
  std::string said = error.what();
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    const bool takes_value = word == "--forms" || word == "--templates" || word == "--today" || word == "--color";
    if (takes_value) ++i;
    if (!word.starts_with("-")) {
      if (std::find(known.begin(), known.end(), word) == known.end()) {
        const std::string near = soundsill::nearest(word, known);
        said = "`" + std::string(word) + "` is not a command" + (near.empty() ? "" : "; did you mean `" + near + "`?");
      }
      break;
    }
  }
  std::fprintf(stderr, "soundsill: %s\nTry `soundsill --help`.\n", soundsill::safe_line(said).c_str());
  return static_cast<int>(ExitStatus::usage);
}

int refused(const std::string& why) {
  soundsill::cli::put(stderr, "soundsill: " + soundsill::safe_line(why) + "\n");
  return static_cast<int>(ExitStatus::usage);
}

/// For options that name a file or folder: an empty name would be taken for none, and the paper go elsewhere.
std::string empty_name(std::string& value) { return value.empty() ? "wants a name, and got an empty one" : ""; }

/// Why a file of that name must not hold a paper of this kind: it would be opened as what it is not. Empty when it may.
std::string misnamed(const std::string& output, const std::string& kind) {
  for (const char* other : {"pdf", "html", "svg", "png"})
    if (kind != other && output.ends_with(std::string(".") + other))
      return "`" + output + "` would hold " + kind + ", not " + other;
  return {};
}

int run(int argc, char** argv) {
  soundsill::cli::Request request;
  std::string color = "auto", today;
  CLI::App app{
      "soundsill turns one inspection case into the papers that it owes, and refuses to print papers that "
      "contradict each other.\nA CASE is a case file or its folder. Exit status: 0 fine, 1 faults, 2 usage or a file "
      "that cannot be read or written, 3 our own fault."};
  app.name("soundsill");
  app.require_subcommand(1);
  app.fallthrough();
  app.set_version_flag("--version", std::string("soundsill ") + SOUNDSILL_VERSION);
  app.add_option("--forms", request.where.forms, "folder with forms that come before the built-in ones")
      ->type_name("DIR");
  app.add_option("--templates", request.where.templates,
                 "folder with templates and words that come before the built-in ones")
      ->type_name("DIR");
  app.add_option("--today", today, "the day to judge by, YYYY-MM-DD; today by this computer's clock when not said")
      ->type_name("DATE");
  app.add_option("--color", color, "when to use color")->check(CLI::IsMember({"auto", "always", "never"}));

  CLI::App* check = app.add_subcommand("check", "list the faults of cases; writes nothing");
  check->add_option("case", request.cases, "case files or folders")->required()->type_name("CASE...");
  check->add_option("--format", request.format, "how to list")->check(CLI::IsMember({"text", "json", "sarif"}));
  check->add_flag("--strict", request.strict, "warnings count as errors");

  CLI::App* measure = app.add_subcommand("measure", "feet, depths, gallons, holes and mix");
  measure->add_option("case", request.cases, "case file or folder")->required()->expected(1)->type_name("CASE");
  measure->add_option("--format", request.format, "how to list")->check(CLI::IsMember({"text", "json"}));
  measure->add_flag("--explain", request.explain, "show the working and the source of each figure");

  std::string ceiling, given;
  CLI::App* estimate = app.add_subcommand("estimate", "the price: measure x rate = amount, line by line");
  estimate->add_option("case", request.cases, "case file or folder")->required()->expected(1)->type_name("CASE");
  estimate->add_option("--format", request.format, "how to list")->check(CLI::IsMember({"text", "json", "csv"}));
  estimate->add_flag("--explain", request.explain, "show how each amount was reached");
  estimate->add_option("-o,--output", request.output, "write the estimate alone as a PDF")->type_name("FILE");
  estimate->add_option("--for", request.audience, "whom it is for; `owner` is the private sheet")
      ->check(CLI::IsMember({"buyer", "owner"}));
  estimate->add_option("--price", given, "with --for owner: a price to place among those elsewhere")->type_name("$N");
  estimate->add_option("--ceiling", ceiling, "the most complete option that costs no more than this")->type_name("$N");
  estimate->add_flag("--draft", request.draft, "write in spite of faults, with DRAFT on every page");
  estimate->add_flag("--replace", request.replace, "let a final paper give way to another revision");

  CLI::App* report = app.add_subcommand("report", "write the packet: findings and estimate as one PDF");
  report->add_option("case", request.cases, "case files or folders")->required()->type_name("CASE...");
  report->add_option("-o,--output", request.output, "file to write; - for standard output (one case)")
      ->type_name("FILE");
  report->add_flag("--draft", request.draft, "write in spite of faults, with DRAFT on every page");
  report->add_flag("--replace", request.replace, "let a final packet give way to another revision");
  report->add_flag("--apart", request.apart, "findings and estimate as two files");
  report->add_flag("--bare", request.bare, "without the data inside, for portals that refuse files with attachments");
  estimate->add_flag("--bare", request.bare, "with -o: without the data inside");
  for (CLI::App* paper : {report, estimate})
    paper
        ->add_option("--lang", request.where.language, "language of the paper, two letters: a courtesy, English counts")
        ->type_name("LANG");
  std::string report_format = "pdf";
  report->add_option("--format", report_format, "pdf, or html: the same words as one page for screens and mail")
      ->check(CLI::IsMember({"pdf", "html"}));
  report->add_option("--png", request.pictures, "pictures of the pages into this folder instead of a file")
      ->type_name("DIR");
  report->add_option("--pdfa", request.pdfa, "flavor of PDF/A")->check(CLI::IsMember({"1a", "3a"}));
  report->add_option("--jobs", request.jobs, "packets made at once; one a core when not said")
      ->check(CLI::Range(1, 256))
      ->type_name("N");
  report->add_flag("--strict", request.strict, "warnings count as errors");

  std::string draw_format;
  CLI::App* draw = app.add_subcommand("draw", "write the drawings alone");
  draw->add_option("case", request.cases, "case file or folder")->required()->expected(1)->type_name("CASE");
  draw->add_option("-o,--output", request.output, "file to write, .svg or .pdf; - for standard output")
      ->type_name("FILE");
  draw->add_option("--format", draw_format, "when the name of the file does not say it")
      ->check(CLI::IsMember({"svg", "pdf"}));
  draw->add_option("--lang", request.where.language, "language of the words, two letters")->type_name("LANG");
  draw->add_flag("--draft", request.draft, "write in spite of faults, with DRAFT on the drawing");
  draw->add_flag("--replace", request.replace, "let a final drawing give way to another revision");

  soundsill::cli::ReviewRequest review;
  CLI::App* reviewing = app.add_subcommand("review", "which of many cases are not ready, lapse, close or fall due");
  reviewing->add_option("path", review.paths, "case files, or folders with cases below them")->type_name("PATH...");
  reviewing->add_option("--list", review.list, "a file with such paths, one a line; - for standard input")
      ->type_name("FILE");
  reviewing->add_flag("--merge", review.merge, "the paths are lists that `review --format json` wrote, to be made one");
  reviewing->add_option("--format", review.format, "how to list")
      ->check(CLI::IsMember({"text", "csv", "json", "html", "sarif"}));
  reviewing->add_option("--only", review.only, "cases that ask for attention because of this; may be repeated")
      ->check(CLI::IsMember({"ready", "not ready", "lapsing", "closing", "renewal", "no record", "keep"}))
      ->type_name("WHAT");
  reviewing->add_option("--sort", review.sort, "order of the cases; by file when not said")
      ->check(CLI::IsMember({"file", "number", "closing", "holds", "renewal", "errors"}));
  reviewing->add_option("--within", review.within, "days ahead that count as near")->check(CLI::Range(0, 3660));
  reviewing->add_option("--jobs", review.jobs, "cases read at once; one a core when not said")
      ->check(CLI::Range(1, 256));
  reviewing->add_flag("--strict", review.strict, "warnings count as errors");
  soundsill::cli::CatalogueRequest catalogue;
  CLI::App* rules = app.add_subcommand("rules", "what is checked, and under which form");
  rules->add_option("--form", catalogue.name, "show which rules this form switches on")->type_name("FORM");
  rules->add_option("--format", catalogue.format, "how to list")->check(CLI::IsMember({"text", "json"}));
  CLI::App* explain = app.add_subcommand("explain", "one rule: what holds, why, and a case before and after");
  explain->add_option("rule", catalogue.name, "what stands in brackets behind a fault")->required()->type_name("RULE");
  CLI::App* forms = app.add_subcommand("forms", "the data of states and loans, with their sources");
  forms->add_option("form", catalogue.name, "every datum of this form, as a case would get it")->type_name("FORM");
  forms->add_option("--loan", catalogue.loan, "with the limits of this loan laid over it")
      ->check(CLI::IsMember({"conventional", "fha", "va", "usda"}));

  bool progress = false;
  reviewing->add_flag("--progress", progress, "tell on the error stream how far it is; a terminal is told unasked");
  CLI::App* schema = app.add_subcommand("schema", "print the JSON Schema of a case file, for editors");
  schema->add_option("--of", request.schema_of, "the schema of what; `packet` is the data inside a packet")
      ->check(CLI::IsMember({"case", "packet"}));
  const std::tuple<const char*, const char*, soundsill::Wanted> after[] = {
      {"work-order", "write the crew's work order", soundsill::Wanted::work_order},
      {"agreement", "write the proposal and service agreement", soundsill::Wanted::agreement},
      {"record", "write the treatment record, and for a lender the statement that the work is done",
       soundsill::Wanted::record},
      {"invoice", "write the invoice", soundsill::Wanted::invoice},
      {"certificate", "write the certificate of the warranty", soundsill::Wanted::certificate}};
  std::vector<std::pair<CLI::App*, soundsill::Wanted>> after_papers;
  for (const auto& [name, words, wanted] : after) {
    CLI::App* sub = app.add_subcommand(name, words);
    sub->add_option("case", request.cases, "case file or folder")->required()->expected(1)->type_name("CASE");
    sub->add_option("-o,--output", request.output, "file to write; - for standard output")->type_name("FILE");
    sub->add_option("--option", request.where.option, "the option it is made for; the accepted one when not said")
        ->type_name("ID");
    sub->add_option("--lang", request.where.language, "language of the paper, two letters: a courtesy, English counts")
        ->type_name("LANG");
    sub->add_flag("--draft", request.draft, "write in spite of faults, with DRAFT on every page");
    sub->add_flag("--replace", request.replace, "let a final paper give way to another revision");
    sub->add_option("--pdfa", request.pdfa, "flavor of PDF/A")->check(CLI::IsMember({"1a", "3a"}));
    sub->add_flag("--strict", request.strict, "warnings count as errors");
    if (wanted == soundsill::Wanted::record)
      sub->add_option("--notice", request.notice, "write the notice that is put up at the house, too")
          ->type_name("FILE");
    after_papers.emplace_back(sub, wanted);
  }
  std::string from, to;
  CLI::App* renew = app.add_subcommand("renew", "what comes due over many cases: renewals, reinspections, notices");
  renew->add_option("path", request.cases, "case files, their folders, or folders of these")
      ->required()
      ->type_name("PATH...");
  renew->add_option("--from", from, "the first day; today when not said")->type_name("DATE");
  renew->add_option("--to", to, "the last day; three months after the first when not said")->type_name("DATE");
  renew->add_option("--format", request.format, "how to list")->check(CLI::IsMember({"text", "csv", "json", "ics"}));
  renew->add_option("--letters", request.letters, "write the letters to the holders as one PDF")->type_name("FILE");
  renew->add_flag("--replace", request.replace, "let letters of another day give way");

  const CLI::Validator named(&empty_name, "");
  std::vector<CLI::App*> all = app.get_subcommands([](const CLI::App*) { return true; });
  all.push_back(&app);
  for (CLI::App* one : all)
    for (CLI::Option* option : one->get_options())
      if (const std::string type = option->get_type_name(); type == "FILE" || type == "DIR") option->check(named);

  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForVersion& version) {
    std::printf("%s\n", version.what());
    return 0;
  } catch (const CLI::CallForHelp& help) {
    for (const CLI::App* sub : app.get_subcommands()) {
      std::fputs(sub->help().c_str(), stdout);
      return 0;
    }
    return usage(app, help, argc, argv);
  } catch (const CLI::ParseError& error) {
    return usage(app, error, argc, argv);
  }
  if (!today.empty()) {
    request.where.today = soundsill::read_date(today);
    if (!request.where.today) {
      std::fprintf(stderr, "soundsill: --today wants a day written YYYY-MM-DD\n");
      return static_cast<int>(ExitStatus::usage);
    }
  }
  const std::string& language = request.where.language;
  if (language.size() != 2 || language.find_first_not_of("abcdefghijklmnopqrstuvwxyz") != std::string::npos) {
    std::fprintf(stderr, "soundsill: --lang wants two letters, like en or es\n");
    return static_cast<int>(ExitStatus::usage);
  }
  for (const auto& [text, name, into] :
       {std::tuple{&from, "--from", &request.from}, std::tuple{&to, "--to", &request.to}}) {
    if (text->empty()) continue;
    *into = soundsill::read_date(*text);
    if (!*into) {
      std::fprintf(stderr, "soundsill: %s wants a day written YYYY-MM-DD\n", name);
      return static_cast<int>(ExitStatus::usage);
    }
  }
  if (draw_format.empty()) draw_format = request.output.ends_with(".pdf") ? "pdf" : "svg";
  const bool chosen = *draw || *report;
  if (const std::string why = misnamed(request.output, *draw     ? draw_format
                                                       : *report ? report_format
                                                                 : "pdf");
      !why.empty())
    return refused(why + "; name it otherwise" + (chosen ? ", or say another --format" : ""));
  for (const std::string& folder : {request.where.forms, request.where.templates})
    if (!folder.empty() && !soundsill::cli::is_folder(folder)) return refused("`" + folder + "` is no folder");
  for (const auto& [text, name, into] :
       {std::tuple{&ceiling, "--ceiling", &request.ceiling}, std::tuple{&given, "--price", &request.given}}) {
    if (text->empty()) continue;
    *into = soundsill::read_money(*text);
    if (!*into) {
      std::fprintf(stderr, "soundsill: %s wants an amount like 1200 or $1200.00\n", name);
      return static_cast<int>(ExitStatus::usage);
    }
  }
  request.color = wants_color(color);
  if (*schema) return static_cast<int>(soundsill::cli::print_schema(request));
  if (*check) return static_cast<int>(soundsill::cli::check_cases(request));
  catalogue.where = request.where;
  if (*rules) return static_cast<int>(soundsill::cli::list_rules(catalogue));
  if (*explain) return static_cast<int>(soundsill::cli::explain_rule(catalogue));
  if (*forms) return static_cast<int>(soundsill::cli::list_forms(catalogue));
  if (*reviewing) {
    if (!review.list.empty())
      if (const std::string trouble = soundsill::cli::read_names(review.list, review.paths); !trouble.empty())
        return refused("`" + review.list + "` cannot be read: " + trouble);
    if (review.paths.empty() && review.list.empty()) return refused("review wants cases or folders, or --list FILE");
    if (review.merge && review.paths.empty()) return refused("--merge wants the files that shall be one");
    review.where = request.where;
    review.color = request.color;
    review.progress = progress || (isatty(STDERR_FILENO) == 1 && isatty(STDOUT_FILENO) == 0);
    return static_cast<int>(review.merge ? soundsill::cli::merge_reviews(review)
                                         : soundsill::cli::review_cases(review));
  }
  if (*measure) return static_cast<int>(soundsill::cli::measure_case(request));
  if (*estimate) return static_cast<int>(soundsill::cli::estimate_case(request));
  for (const auto& [sub, wanted] : after_papers)
    if (*sub) return static_cast<int>(soundsill::cli::after_paper(request, wanted));
  if (*renew) return static_cast<int>(soundsill::cli::renew(request));
  request.format = *draw ? draw_format : report_format;
  if (*draw) return static_cast<int>(soundsill::cli::draw_case(request));
  return static_cast<int>(soundsill::cli::report_cases(request));
}

/// Where a stream is closed, the next file that is opened would become it, and get what is told to the person. What is
/// put there instead takes no writing, so that the loss is noticed.
void occupy_streams() {
  for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; ++stream)
    if (::fcntl(stream, F_GETFD) < 0 && errno == EBADF) (void)::open("/dev/null", O_RDONLY);
}

/// Memory that a case gives back goes to the next one, not to the system and back.
void keep_memory() {
  constexpr int trimmed_beyond = 32'000'000, grown_by = 1'000'000, mapped_from = 16'000'000;
  ::mallopt(M_TRIM_THRESHOLD, trimmed_beyond);
  ::mallopt(M_TOP_PAD, grown_by);
  ::mallopt(M_MMAP_THRESHOLD, mapped_from);
}

}  // namespace

int main(int argc, char** argv) {
  keep_memory();
  // A reader that goes away, and a file that may grow no more, are failed writes, not the end of the program.
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  occupy_streams();
  try {
    const int status = run(argc, argv);
    const std::string lost = soundsill::cli::lost_output();
    return lost.empty() ? status : refused("standard output cannot be written: " + lost);
  } catch (const std::bad_alloc&) {
    std::fputs("soundsill: there is not enough memory; nothing more was written\n", stderr);
    return static_cast<int>(ExitStatus::usage);
  } catch (const std::exception& e) {
    std::fprintf(stderr, "soundsill: this is a fault in the program, please report it: %s\n", e.what());
    return static_cast<int>(ExitStatus::our_fault);
  }
}
