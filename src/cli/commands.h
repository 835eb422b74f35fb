// The commands, once their options are read.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/load.h"

namespace soundsill::cli {

/// Documented, and never renumbered.
enum class ExitStatus { fine = 0, faults = 1, usage = 2, our_fault = 3 };

struct CommonOptions;
/// What the options of every command say of where things are read, and of the day.
[[nodiscard]] Where where_of(const CommonOptions& common);

struct Request {
  Where where;
  std::vector<std::string> cases;
  std::string format = "text";  ///< for papers "pdf", "html" or "svg"
  std::string output;
  std::string pictures;  ///< folder for pictures of the pages, or empty
  std::string pdfa = "3a";
  std::string audience = "buyer";
  std::optional<Money> ceiling, given;
  std::string schema_of = "case";
  bool apart = false, bare = false;
  std::string notice, letters;  ///< files to write besides
  std::optional<Date> from, to;
  int jobs = 0;    ///< threads; 0 for one a core
  int months = 3;  ///< of the window of `renew`, when --to is not given
  bool strict = false, explain = false, draft = false, replace = false, color = false;

  void take(const CommonOptions& common);
};

[[nodiscard]] ExitStatus check_cases(const Request& request);
[[nodiscard]] ExitStatus measure_case(const Request& request);
[[nodiscard]] ExitStatus estimate_case(const Request& request);
[[nodiscard]] ExitStatus report_cases(const Request& request);
[[nodiscard]] ExitStatus draw_case(const Request& request);
/// Prints the JSON Schema of a case file, or of the data inside a packet.
[[nodiscard]] ExitStatus print_schema(const Request& request);
/// Work order, agreement, record, invoice or certificate.
[[nodiscard]] ExitStatus after_paper(const Request& request, Wanted wanted);
[[nodiscard]] ExitStatus renew(const Request& request);

}  // namespace soundsill::cli
