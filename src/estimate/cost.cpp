#include "estimate/cost.h"

#include <algorithm>

namespace soundsill {

Money share_of(Money amount, const Percent& percent) { return times(percent.value / 100, amount); }

namespace pricing {
namespace {

Ratio cents(Money m) { return Ratio(m.cents); }
Money money(const Ratio& cents) { return {cents.rounded()}; }

/// What a line costs by itself, in cents: the product of its run, and its minutes.
Ratio direct(const Basis& basis, const Treatment& t, const PricedLine& line) {
  const Costs& costs = *basis.company.costs;
  Ratio minutes, product;
  if (line.run) {
    const Run& run = t.runs[*line.run];
    minutes = run.minutes;
    for (const Mix& mix : t.mixes)
      if (mix.product == run.product && mix.strength == run.strength && mix.cost && mix.gallons > Ratio(0))
        product = cents(*mix.cost) * run.gallons / mix.gallons;
  } else {
    for (const Task& task : t.tasks)
      if (task.line == line.line) minutes = task.minutes;
  }
  return Ratio((product + minutes / 60 * cents(*costs.hour)).rounded());
}

}  // namespace

std::optional<Cost> cost_of(const Basis& basis, const Treatment& t) {
  const auto& costs = basis.company.costs;
  if (!costs || !t.timed || !costs->hour || !costs->equipment || !costs->travel || !costs->overhead || !costs->margin)
    return std::nullopt;
  if (costs->margin->value >= Ratio(100)) return std::nullopt;
  constexpr Money most{100'000'00};  // beyond it a slip of the keyboard, which the rules report
  if (*costs->hour > most || *costs->equipment > most || *costs->travel > most) return std::nullopt;
  for (const Task& task : t.tasks) {  // bait, or what a line by the piece takes: nobody said how much
    const bool mixed =
        std::any_of(t.mixes.begin(), t.mixes.end(), [&](const Mix& m) { return m.product == task.product; });
    if (task.product && !mixed) return std::nullopt;
  }
  Cost cost;
  for (const Mix& mix : t.mixes) {
    if (!mix.cost || *mix.cost > most) return std::nullopt;
    cost.product += *mix.cost;
  }
  cost.labor = money(t.minutes / 60 * cents(*costs->hour));
  cost.equipment = *costs->equipment;
  cost.travel = *costs->travel;
  cost.overhead = share_of(cost.product + cost.labor + cost.equipment + cost.travel, *costs->overhead);
  cost.price = money(cents(cost.sum()) * Ratio(100) / (Ratio(100) - costs->margin->value));
  return cost;
}

void rate_by_cost(const Basis& basis, const Treatment& t, const Cost& cost, std::vector<PricedLine>& lines) {
  Ratio sum;
  for (const PricedLine& line : lines) sum += direct(basis, t, line);
  for (PricedLine& line : lines) {
    const Ratio share =
        sum > Ratio(0) ? direct(basis, t, line) / sum : Ratio(1, static_cast<std::int64_t>(lines.size()));
    if (line.measure <= Ratio(0)) continue;
    line.rate = {std::max<std::int64_t>(1, (cents(cost.price) * share / line.measure).rounded())};
    line.amount = times(line.measure, line.rate);
  }
}

}  // namespace pricing
}  // namespace soundsill
