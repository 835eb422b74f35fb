// What the work costs: measure x rate = amount, each rounded once, as printed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "treatment/treatment.h"

namespace soundsill {

/// One priced line. `measure` is already rounded as it is printed, so that measure x rate = amount on paper.
struct PricedLine {
  const Work* work = nullptr;
  const Method* method = nullptr;
  std::optional<std::size_t> run;  ///< index into Treatment::runs; none for counted work and jobs
  Per per = Per::job;
  Ratio measure;
  Money rate;
  Money amount;
};

/// Work that somebody else does or pays for directly; it has no price of ours.
struct OtherLine {
  const Work* work = nullptr;
  const Method* method = nullptr;
};

struct Estimate {
  std::string option;
  std::vector<PricedLine> lines;
  std::vector<OtherLine> others;
  std::optional<Money> to_minimum;  ///< what is added to reach the company's minimum charge
  Money total;
  std::optional<Date> holds_until;
};

/// Decimals with which a measure is printed: feet, gallons and areas to a tenth, thousands of cubic feet to a cubic
/// foot, all else whole.
[[nodiscard]] int decimals(Per per);

/// Prices one treatment. A measure without a rate is reported at the company's rates and its work line.
[[nodiscard]] Estimate price(const Basis& basis, const Treatment& treatment, Faults& faults);

/// The sum of the lines that answer a finding is not its price: a line may answer several. This gives the lines'
/// amounts.
[[nodiscard]] Money amount_of(const Estimate& estimate, const Work& work);

}  // namespace soundsill
