// Pricing by cost. Not for other folders.
#pragma once

#include "estimate/estimate.h"

namespace soundsill::pricing {

/// What a treatment costs the company: the product used, hours, equipment, travel, overhead on all of them. Nothing
/// when the company's costs, a pace, or the price of a package is not known.
[[nodiscard]] std::optional<Cost> cost_of(const Basis& basis, const Treatment& treatment);

/// Exchanges the rates of lines for such that carry cost and margin: each line bears its own product and minutes, and
/// its share of what the job as a whole costs. A rate is rounded to the cent before it is multiplied, as printed.
void rate_by_cost(const Basis& basis, const Treatment& treatment, const Cost& cost, std::vector<PricedLine>& lines);

}  // namespace soundsill::pricing
