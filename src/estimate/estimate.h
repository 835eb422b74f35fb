// What the work costs: measure x rate = amount, each rounded once, as printed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "treatment/treatment.h"

namespace soundsill {

struct Adjustment;

/// One priced line. `measure` is already rounded as it is printed, so that measure x rate = amount on paper.
struct PricedLine {
  const resolved::Line* line = nullptr;
  const Work* work = nullptr;  ///< line->typed, until its last reader has gone over to `line`
  const Method* method = nullptr;
  std::optional<std::size_t> run;  ///< index into Treatment::runs; none for counted work and jobs
  Per per = Per::job;
  Ratio measure;
  Money rate;
  Money amount;
};

/// Work that somebody else does or pays for directly; it has no price of ours.
struct OtherLine {
  const resolved::Line* line = nullptr;
  const Work* work = nullptr;  ///< as in PricedLine
  const Method* method = nullptr;
};

/// What the measures do not show. `amount` is signed: a discount takes away.
struct AdjustedLine {
  const resolved::Adjustment* of = nullptr;
  const Adjustment* facts = nullptr;  ///< of->typed, until its last reader has gone over to `of`
  Money base;                         ///< of a percentage: the sum of the lines
  Money amount;
};
struct TaxLine {
  Percent percent;
  Money base;
  Money amount;
};

/// What the work costs the company, exact to the cent a part; nobody else's business.
struct Cost {
  Money product, labor, equipment, travel, overhead;
  [[nodiscard]] Money sum() const { return product + labor + equipment + travel + overhead; }
  Money price;  ///< that carries the margin asked
};

struct Estimate {
  std::string option;
  Way way = Way::measure;  ///< how the lines were reached
  std::vector<PricedLine> lines;
  std::vector<OtherLine> others;
  std::vector<AdjustedLine> adjustments;
  std::optional<Money> to_minimum;  ///< what is added to reach the company's minimum charge
  std::vector<TaxLine> taxes;
  Money lines_total;  ///< of the lines alone
  Money total;        ///< what is paid
  std::optional<Date> holds_until;
  std::optional<Cost> cost;                  ///< when the company's costs, hours and product are known
  std::optional<Money> by_measure, by_cost;  ///< the sum of the lines either way, where it can be told
};

/// Decimals with which a measure is printed: feet, gallons and areas to a tenth, thousands of cubic feet to a cubic
/// foot, all else whole.
[[nodiscard]] int decimals(Per per);

/// Prices one treatment the way the company prints. A measure without a rate is reported at its work line.
[[nodiscard]] Estimate price(const Basis& basis, const Treatment& treatment, Faults& faults);

/// The sum of the lines that answer a finding is not its price: a line may answer several. This gives the lines'
/// amounts.
[[nodiscard]] Money amount_of(const Estimate& estimate, const resolved::Line& line);
[[nodiscard]] Money amount_of(const Estimate& estimate, const Work& work);

/// What a part of a whole comes to: percent of an amount, rounded once to the cent, halves away from zero.
[[nodiscard]] Money share_of(Money amount, const Percent& percent);

}  // namespace soundsill
