// Shared by the files that build the papers after the estimate. Not for others.
#pragma once

#include <functional>

#include "aftersale/papers.h"
#include "packet/builder.h"
#include "packet/estimate_pages.h"

namespace soundsill::document {

/// A list of facts that leaves out what has no value.
struct FactList {
  const Builder& b;
  Facts out{};
  void put(Word name, const std::string& value) {
    if (!value.empty()) out.facts.push_back({b.say(name), text(value)});
  }
};

/// The owner of the house today, or the seller.
[[nodiscard]] const std::string& owner_name(const Builder& b);
/// Whoever pays: as typed, else who accepted, else the owner.
[[nodiscard]] const std::string& payer_name(const Builder& b);
[[nodiscard]] std::string first_paper(const Builder& b);  ///< "case 2026-0417, revision 1, signed March 5, 2026"
[[nodiscard]] std::string company_line(const Builder& b);
[[nodiscard]] std::string option_title(const Builder& b);
/// Number, phases and holder of the company's license; empty while one of them is missing.
[[nodiscard]] std::string license_line(const Builder& b);
/// "first; second; third"
[[nodiscard]] std::string in_clauses(const std::vector<std::string>& clauses);
/// Every finding that a line of ours answers with a method against organisms: all of them, or what `counts` lets pass.
using Counts = std::function<bool(const Task&)>;
[[nodiscard]] std::vector<const Finding*> treated_findings(const Builder& b, const Treatment& t,
                                                           const Counts& counts = {});
/// What these lines are against: the organisms found, else those that preventive work names.
[[nodiscard]] std::vector<std::string> treated_organisms(const Builder& b, const Treatment& t,
                                                         const Counts& counts = {});
/// Plans of the structures with their runs and holes. `where` says which: all that are drawn, or those worked on.
enum class Plans { all, worked_on };
void plans(const Builder& b, const Treatment& t, Plans where, Word alt, Word caption, std::vector<Block>& blocks);
/// Where a run lies, in a few words: "walls 1, 2 and 4 to 6"
[[nodiscard]] std::string run_places(const Builder& b, const soundsill::Run& run);
/// The same shorter, for a narrow column: "walls 1 (0" to 10', 22' to 40'), 2, 4 to 6"
[[nodiscard]] std::string crew_places(const Builder& b, const soundsill::Run& run);
// cancellation.cpp
/// What stands beside the buyer's signature, in bold letters of 10 points or more.
void cancellation_statement(const Builder& b, std::vector<Block>& blocks);
/// The notice of cancellation in duplicate, in letters of the same kind.
void cancellation_notices(const Builder& b, std::vector<Section>& sections);
[[nodiscard]] Row row_of(std::vector<Runs> cells, std::string id = {});

// work_order_tables.cpp
struct WorkOrder {
  const Builder& b;
  const Treatment& t;
  [[nodiscard]] bool held(const soundsill::Run& run) const { return !unknown_dangers(b, run.structure).empty(); }
  [[nodiscard]] Facts head() const;
  [[nodiscard]] Figures figures() const;
  void dangers(std::vector<Block>& blocks) const;
  void runs(std::vector<Block>& blocks) const;
  void drill_list(std::vector<Block>& blocks) const;
  void mixing(std::vector<Block>& blocks) const;
  void dig_first(std::vector<Block>& blocks) const;
  void other_work(std::vector<Block>& blocks) const;
  void held_back(std::vector<Block>& blocks) const;
  void bring(std::vector<Block>& blocks) const;
  void photos(std::vector<Block>& blocks) const;
  void calls(std::vector<Block>& blocks) const;
  [[nodiscard]] std::string trench(const soundsill::Run& run) const;
  [[nodiscard]] std::string rods(const soundsill::Run& run) const;
  [[nodiscard]] std::string brief(const soundsill::Run& run) const;
  [[nodiscard]] std::string line_title(const soundsill::Run& run) const;
  [[nodiscard]] Row run_row(const soundsill::Run& run) const;
  [[nodiscard]] std::string answered(const soundsill::Run& run) const;  ///< numbers of findings
  [[nodiscard]] const Tip* tip(TipAt at) const;
};

}  // namespace soundsill::document
