// Lists for terminals and for other programs: survey and treatment, faults.
#pragma once

#include <string>
#include <vector>

#include "diagnostics/diagnostics.h"
#include "estimate/choice.h"
#include "estimate/otherwise.h"

namespace soundsill::listing {

/// What `measure` tells of a case.
struct Measures {
  const Basis& basis;
  const std::vector<Treatment>& treatments;
  const std::vector<Estimate>& estimates;  ///< alongside
};

/// Survey and treatment as a readable table; with `explain` the working and the source of each figure.
[[nodiscard]] std::string measures_text(const Measures& measures, bool explain);
/// The same as JSON, "version": 2; keys are only ever added.
[[nodiscard]] std::string measures_json(const Measures& measures);

/// Survey and treatment apart, the price: measure x rate = amount, line by line. With `explain`, how each measure was
/// reached.
[[nodiscard]] std::string estimate_text(const Measures& measures, bool explain);
[[nodiscard]] std::string estimate_json(const Measures& measures);
/// One row a line, RFC 4180; cells that a spreadsheet would run as a formula begin with an apostrophe.
[[nodiscard]] std::string estimate_csv(const Measures& measures);
/// The owner's private sheet: cost, margin, price a foot, both ways to price, and where prices elsewhere lie; `given`
/// is a price to place among them.
[[nodiscard]] std::string owner_text(const Measures& measures, std::optional<Money> given);
/// Which choice a ceiling leaves, and why.
[[nodiscard]] std::string ceiling_text(const Basis& basis, const std::deque<Choice>& all, Money ceiling);

/// Faults as JSON, "version": 1.
[[nodiscard]] std::string faults_json(const Faults& faults);
/// "5 errors, 1 warning"
[[nodiscard]] std::string tally(std::size_t errors, std::size_t warnings);

}  // namespace soundsill::listing
