// What commands share: writing to streams and files, and what a run amounts to.
#pragma once

#include <cstdio>
#include <string>
#include <string_view>

#include "cli/commands.h"
#include "cli/paper.h"

namespace soundsill::cli {

/// While it lives, what its thread puts on standard error is kept for its turn.
class Aside {
 public:
  Aside();
  ~Aside();
  Aside(const Aside&) = delete;
  Aside& operator=(const Aside&) = delete;
  [[nodiscard]] std::string take();

 private:
  std::string said_;
};

/// Writes to a stream and says whether all of it arrived (a closed pipe, a full disk).
bool put(std::FILE* to, std::string_view text);
/// The same for a piece of a long text, which may wait for the next.
bool put_piece(std::FILE* to, std::string_view text);
/// Why something that was put on standard output did not arrive; empty when all did.
[[nodiscard]] std::string lost_output();
/// Says on standard error why nothing is done. Gives the status of a command that was called wrongly.
ExitStatus refuse(const std::string& why);
void print_faults(std::FILE* to, const Faults& faults, bool color);
/// The day to judge by: the one that was given, else today by the clock, where the person is.
[[nodiscard]] Date today_of(const Where& where);
[[nodiscard]] bool stops(const Faults& faults, bool strict);
[[nodiscard]] ExitStatus worse(ExitStatus a, ExitStatus b);
[[nodiscard]] ExitStatus verdict(const Loaded& loaded, bool strict);
/// Forms, words and template that cannot be read stop every case.
bool shared_or_say(Shared& shared, const Request& request, const Files& files);
[[nodiscard]] pdf::Flavour flavour(const Request& request);
/// Where a paper goes: as named, else into the folder of its case. A translation stands beside the paper that counts,
/// and a draft beside the final one, never in its place.
[[nodiscard]] std::string paper_path(const Request& request, const Loaded& loaded, const Shared& shared,
                                     const std::string& name, const std::string& ending);
/// Writes one paper to its place, unless what stands there is to stay.
ExitStatus write_paper(const Request& request, const Made& made, const std::string& path, const Shared& shared,
                       const Files& files, ExitStatus status);

}  // namespace soundsill::cli
