// Serves cli/command_line.h. One function a command: its options, and what is run with them.
#include <fmt/format.h>
#include <unistd.h>

#include <tuple>

#include "cli/catalogue.h"
#include "cli/command_line.h"
#include "cli/review.h"
#include "cli/review_list.h"
#include "cli/walk.h"

namespace soundsill::cli {
namespace {

using Formats = std::vector<std::string>;

/// Declares a command whose options go into a Request of its own.
CLI::App& add(CommandLine& line, const std::shared_ptr<Request>& request, const std::string& name,
              const std::string& help, ExitStatus (*run)(const Request&)) {
  return line.add(name, help, [request, run](const CommonOptions& common) {
    request->take(common);
    return run(*request);
  });
}

void one_case(CLI::App& command, Request& request) {
  command.add_option("case", request.cases, "case file or folder")->required()->expected(1)->type_name("CASE");
}

void many_cases(CLI::App& command, Request& request) {
  command.add_option("case", request.cases, "case files or folders")->required()->type_name("CASE...");
}

void format(CLI::App& command, std::string& into, const Formats& formats, const std::string& help = "how to list") {
  command.add_option("--format", into, help)->check(CLI::IsMember(formats));
}

void strict(CLI::App& command, bool& into) { command.add_flag("--strict", into, "warnings count as errors"); }

void language(CLI::App& command, Request& request, const std::string& help) {
  const auto take = [&request](const std::string& text) {
    if (text.size() != 2 || text.find_first_not_of("abcdefghijklmnopqrstuvwxyz") != std::string::npos)
      throw CLI::ValidationError("--lang wants two letters, like en or es");
    request.where.language = text;
  };
  command.add_option_function<std::string>("--lang", take, help)->type_name("LANG");
}

void flavor(CLI::App& command, Request& request) {
  command.add_option("--pdfa", request.pdfa, "flavor of PDF/A")->check(CLI::IsMember({"1a", "3a"}));
}

void output(CLI::App& command, Request& request, const std::string& help) {
  command.add_option("-o,--output", request.output, help)->type_name("FILE");
}

void draft_and_replace(CLI::App& command, Request& request, const std::string& draft, const std::string& replace) {
  command.add_flag("--draft", request.draft, draft);
  command.add_flag("--replace", request.replace, replace);
}
constexpr const char* draft_help = "write in spite of faults, with DRAFT on every page";
constexpr const char* language_help = "language of the paper, two letters: a courtesy, English counts";

/// A file whose name says another kind than it will hold would be opened as what it is not.
void check_ending(const std::string& output, const std::string& kind, const std::string& way_out = "") {
  for (const std::string other : {"pdf", "html", "svg", "png"})
    if (kind != other && output.ends_with("." + other))
      throw CLI::ValidationError(
          fmt::format("`{}` would hold {}, not {}; name it otherwise{}", output, kind, other, way_out));
}
constexpr const char* other_format = ", or say another --format";

void declare_check(CommandLine& line) {
  const auto request = std::make_shared<Request>();
  CLI::App& command = add(line, request, "check", "list the faults of cases; writes nothing", &check_cases);
  many_cases(command, *request);
  format(command, request->format, {"text", "json", "sarif"});
  strict(command, request->strict);
}

void declare_measure(CommandLine& line) {
  const auto request = std::make_shared<Request>();
  CLI::App& command = add(line, request, "measure", "feet, depths, gallons, holes and mix", &measure_case);
  one_case(command, *request);
  format(command, request->format, {"text", "json"});
  command.add_flag("--explain", request->explain, "show the working and the source of each figure");
}

void declare_estimate(CommandLine& line) {
  const auto request = std::make_shared<Request>();
  CLI::App& command =
      add(line, request, "estimate", "the price: measure x rate = amount, line by line", [](const Request& asked) {
        check_ending(asked.output, "pdf");
        return estimate_case(asked);
      });
  one_case(command, *request);
  format(command, request->format, {"text", "json", "csv"});
  command.add_flag("--explain", request->explain, "show how each amount was reached");
  output(command, *request, "write the estimate alone as a PDF");
  command.add_option("--for", request->audience, "whom it is for; `owner` is the private sheet")
      ->check(CLI::IsMember({"buyer", "owner"}));
  add_money(command, "--price", request->given, "with --for owner: a price to place among those elsewhere");
  add_money(command, "--ceiling", request->ceiling, "the most complete option that costs no more than this");
  draft_and_replace(command, *request, draft_help, "let a final paper give way to another revision");
  command.add_flag("--bare", request->bare, "with -o: without the data inside");
  language(command, *request, language_help);
}

void declare_report(CommandLine& line) {
  const auto request = std::make_shared<Request>();
  request->format = "pdf";
  CLI::App& command =
      add(line, request, "report", "write the packet: findings and estimate as one PDF", [](const Request& asked) {
        check_ending(asked.output, asked.format, other_format);
        return report_cases(asked);
      });
  many_cases(command, *request);
  output(command, *request, "file to write; - for standard output (one case)");
  draft_and_replace(command, *request, draft_help, "let a final packet give way to another revision");
  command.add_flag("--apart", request->apart, "findings and estimate as two files");
  command.add_flag("--bare", request->bare, "without the data inside, for portals that refuse files with attachments");
  language(command, *request, language_help);
  format(command, request->format, {"pdf", "html"}, "pdf, or html: the same words as one page for screens and mail");
  command.add_option("--png", request->pictures, "pictures of the pages into this folder instead of a file")
      ->type_name("DIR");
  flavor(command, *request);
  command.add_option("--jobs", request->jobs, "packets made at once; one a core when not said")
      ->check(CLI::Range(1, 256))
      ->type_name("N");
  strict(command, request->strict);
}

void declare_draw(CommandLine& line) {
  const auto request = std::make_shared<Request>();
  request->format.clear();
  CLI::App& command = add(line, request, "draw", "write the drawings alone", [](const Request& asked) {
    Request drawing = asked;
    if (drawing.format.empty()) drawing.format = asked.output.ends_with(".pdf") ? "pdf" : "svg";
    check_ending(drawing.output, drawing.format, other_format);
    return draw_case(drawing);
  });
  one_case(command, *request);
  output(command, *request, "file to write, .svg or .pdf; - for standard output");
  format(command, request->format, {"svg", "pdf"}, "when the name of the file does not say it");
  language(command, *request, "language of the words, two letters");
  draft_and_replace(command, *request, "write in spite of faults, with DRAFT on the drawing",
                    "let a final drawing give way to another revision");
}

ExitStatus run_review(ReviewRequest& request) {
  if (!request.list.empty())
    if (const std::string trouble = read_names(request.list, request.paths); !trouble.empty())
      throw CLI::ValidationError("`" + request.list + "` cannot be read: " + trouble);
  if (request.paths.empty() && request.list.empty())
    throw CLI::ValidationError("review wants cases or folders, or --list FILE");
  if (request.merge && request.paths.empty()) throw CLI::ValidationError("--merge wants the files that shall be one");
  request.progress = request.progress || (isatty(STDERR_FILENO) == 1 && isatty(STDOUT_FILENO) == 0);
  return request.merge ? merge_reviews(request) : review_cases(request);
}

void declare_review(CommandLine& line) {
  const auto request = std::make_shared<ReviewRequest>();
  CLI::App& command = line.add("review", "which of many cases are not ready, lapse, close or fall due",
                               [request](const CommonOptions& common) {
                                 request->where = where_of(common);
                                 request->color = common.colored();
                                 return run_review(*request);
                               });
  command.add_option("path", request->paths, "case files, or folders with cases below them")->type_name("PATH...");
  command.add_option("--list", request->list, "a file with such paths, one a line; - for standard input")
      ->type_name("FILE");
  command.add_flag("--merge", request->merge, "the paths are lists that `review --format json` wrote, to be made one");
  format(command, request->format, {"text", "csv", "json", "html", "sarif"});
  command.add_option("--only", request->only, "cases that ask for attention because of this; may be repeated")
      ->check(CLI::IsMember({"ready", "not ready", "lapsing", "closing", "renewal", "no record", "keep"}))
      ->type_name("WHAT");
  command.add_option("--sort", request->sort, "order of the cases; by file when not said")
      ->check(CLI::IsMember({"file", "number", "closing", "holds", "renewal", "errors"}));
  command.add_option("--within", request->within, "days ahead that count as near")->check(CLI::Range(0, 3660));
  command.add_option("--jobs", request->jobs, "cases read at once; one a core when not said")
      ->check(CLI::Range(1, 256));
  strict(command, request->strict);
  command.add_flag("--progress", request->progress,
                   "tell on the error stream how far it is; a terminal is told unasked");
}

CLI::App& add(CommandLine& line, const std::shared_ptr<CatalogueRequest>& request, const std::string& name,
              const std::string& help, ExitStatus (*run)(const CatalogueRequest&)) {
  return line.add(name, help, [request, run](const CommonOptions& common) {
    request->where = where_of(common);
    return run(*request);
  });
}

void declare_rules(CommandLine& line) {
  const auto request = std::make_shared<CatalogueRequest>();
  CLI::App& command = add(line, request, "rules", "what is checked, and under which form", &list_rules);
  command.add_option("--form", request->name, "show which rules this form switches on")->type_name("FORM");
  format(command, request->format, {"text", "json"});
}

void declare_explain(CommandLine& line) {
  const auto request = std::make_shared<CatalogueRequest>();
  CLI::App& command =
      add(line, request, "explain", "one rule: what holds, why, and a case before and after", &explain_rule);
  command.add_option("rule", request->name, "what stands in brackets behind a fault")->required()->type_name("RULE");
}

void declare_forms(CommandLine& line) {
  const auto request = std::make_shared<CatalogueRequest>();
  CLI::App& command = add(line, request, "forms", "the data of states and loans, with their sources", &list_forms);
  command.add_option("form", request->name, "every datum of this form, as a case would get it")->type_name("FORM");
  command.add_option("--loan", request->loan, "with the limits of this loan laid over it")
      ->check(CLI::IsMember({"conventional", "fha", "va", "usda"}));
  command.add_flag("--open", request->open, "what nobody has read, of this form or of all");
  command.add_option("--diff", request->diff, "what another edition of this form says otherwise")->type_name("FILE");
}

void declare_schema(CommandLine& line) {
  const auto request = std::make_shared<Request>();
  CLI::App& command = add(line, request, "schema", "print the JSON Schema of a case file, for editors", &print_schema);
  command.add_option("--of", request->schema_of, "the schema of what; `packet` is the data inside a packet")
      ->check(CLI::IsMember({"case", "packet"}));
}

/// Work order, agreement, record, invoice and certificate take the same options.
void declare_paper_after(CommandLine& line, const char* name, const char* help, Wanted wanted) {
  const auto request = std::make_shared<Request>();
  request->where.wanted = wanted;
  CLI::App& command = add(line, request, name, help, [](const Request& asked) {
    check_ending(asked.output, "pdf");
    return after_paper(asked, asked.where.wanted);
  });
  one_case(command, *request);
  output(command, *request, "file to write; - for standard output");
  command.add_option("--option", request->where.option, "the option it is made for; the accepted one when not said")
      ->type_name("ID");
  language(command, *request, language_help);
  draft_and_replace(command, *request, draft_help, "let a final paper give way to another revision");
  flavor(command, *request);
  strict(command, request->strict);
  if (wanted == Wanted::record)
    command.add_option("--notice", request->notice, "write the notice that is put up at the house, too")
        ->type_name("FILE");
}

void declare_renew(CommandLine& line) {
  const auto request = std::make_shared<Request>();
  CLI::App& command =
      add(line, request, "renew", "what comes due over many cases: renewals, reinspections, notices", &renew);
  command.add_option("path", request->cases, "case files, their folders, or folders of these")
      ->required()
      ->type_name("PATH...");
  add_date(command, "--from", request->from, "the first day; today when not said");
  add_date(command, "--to", request->to, "the last day; three months after the first when not said");
  format(command, request->format, {"text", "csv", "json", "ics"});
  command.add_option("--letters", request->letters, "write the letters to the holders as one PDF")->type_name("FILE");
  command.add_flag("--replace", request->replace, "let letters of another day give way");
}

}  // namespace

void declare_commands(CommandLine& line) {
  declare_check(line);
  declare_measure(line);
  declare_estimate(line);
  declare_report(line);
  declare_draw(line);
  declare_review(line);
  declare_rules(line);
  declare_explain(line);
  declare_forms(line);
  declare_schema(line);
  declare_paper_after(line, "work-order", "write the crew's work order", Wanted::work_order);
  declare_paper_after(line, "agreement", "write the proposal and service agreement", Wanted::agreement);
  declare_paper_after(line, "record",
                      "write the treatment record, and for a lender the statement that the work is done",
                      Wanted::record);
  declare_paper_after(line, "invoice", "write the invoice", Wanted::invoice);
  declare_paper_after(line, "certificate", "write the certificate of the warranty", Wanted::certificate);
  declare_paper_after(line, "notice", "write the notice of the inspection that is put up at the house", Wanted::notice);
  declare_renew(line);
}

}  // namespace soundsill::cli
