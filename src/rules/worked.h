// Worked cases of a rule, in the form in which tests keep them: a few letters of a sound case are changed, and what is
// told then stands below. `soundsill explain` shows the first that fires, so that no example can go stale.
//
//   # words for the reader, and where a published row comes from
//   CASE the name says the behavior
//   IN company.yaml           what follows changes this file (base.yaml when not said)
//   - text that stands in the file exactly once
//   + text that takes its place (none: it is taken out); an empty line parts two changes
//   FORM us-sc, PHOTO path missing|broken|WIDTHxHEIGHT, TODAY 2026-03-01
//   PAPER agreement|work order|record|invoice|certificate      the paper asked for; the packet when not said
//   RUN check case.yaml       the program itself is run, because no other way leads there
//   SAYS                      and then every fault; nothing when the papers are sound
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace soundsill {

/// One change of a text; `now` is empty when something is taken out.
struct WorkedChange {
  std::string file, old, now;
};
struct WorkedCase {
  std::string name;
  std::vector<std::string> notes;  ///< the comment lines above it
  std::vector<WorkedChange> changes;
  std::string form, today, run, paper;
  std::vector<std::pair<std::string, std::string>> photos;  ///< path and state
  std::string says;
};

/// Throws std::runtime_error on a line that it does not understand.
[[nodiscard]] std::vector<WorkedCase> read_worked(std::string_view text);

}  // namespace soundsill
