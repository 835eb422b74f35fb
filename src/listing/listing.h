// Lists for terminals and for other programs: survey and treatment, faults.
#pragma once

#include <string>
#include <vector>

#include "estimate/otherwise.h"
#include "rules/rules.h"

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

/// Faults as JSON, "version": 1.
[[nodiscard]] std::string faults_json(const Faults& faults);
/// "5 errors, 1 warning"
[[nodiscard]] std::string tally(std::size_t errors, std::size_t warnings);

}  // namespace soundsill::listing
