#include "estimate/estimate.h"

#include "estimate/cost.h"

#include <algorithm>
#include <array>

namespace soundsill {
namespace {

/// How much of a run there is, in one of the measures that its kind is priced by.
Ratio measure_of(const Run& run, Per per) {
  switch (per) {
    case Per::ft:
      return run.length.in_feet();
    case Per::hole:
      return Ratio(run.holes);
    case Per::gal:
      return run.gallons;
    case Per::each:
    case Per::station:
      return Ratio(run.count);
    case Per::job:
      return Ratio(1);
    case Per::sq_ft:  // each coat is work of its own
      return facts(run.kind).size == RunSize::coats ? run.sq_ft * Ratio(run.count) : run.sq_ft;
    case Per::thousand_cu_ft:
      return run.cu_ft / 1000;
    case Per::cu_ft:
      return run.cu_ft;
  }
  return {};
}

struct Pricing {
  const Basis& basis;
  Faults& faults;
  Estimate& estimate;

  void add(const Task& task, std::optional<std::size_t> run, const Rate& rate, const Ratio& exact) {
    PricedLine line{task.line,   task.work, task.method, run, *rate.per, exact.rounded_to(decimals(*rate.per)),
                    *rate.price, {}};
    line.amount = times(line.measure, line.rate);
    estimate.lines.push_back(line);
  }

  void no_price(const Task& task, std::string_view measure, Per per) {
    const std::string method = *task.method->name;
    for (const Rate& r : items(basis.company.rates))  // one that could not be read was reported
      if (r.does && *r.does == method && (r.price.unread() || r.per.unread())) return;
    faults.add(
        Rule::no_price, task.line->does_at,
        "`" + method + "` has no rate for " + std::string(measure) + " in the company's file",
        "the estimate would leave work without a price, or give it away",
        "add to the company's `rates:`  - {do: " + method + ", per: " + std::string(yaml::word(per)) + ", price: ...}");
  }

  void task(const Treatment& treatment, const Task& task) {
    const std::string& method = *task.method->name;
    for (const std::size_t index : task.runs) {
      const Run& run = treatment.runs[index];
      bool priced = false;
      const RunMeasures& offered = facts(run.kind).measures;
      for (const Per per : offered)  // a rate for this product, in whatever measure, before one for any
        if (const Rate* own = priced ? nullptr : basis.company.rate(method, per, task.product); own && own->product) {
          add(task, index, *own, measure_of(run, per));
          priced = true;
        }
      for (const Per per : offered)
        if (const Rate* rate = priced ? nullptr : basis.company.rate(method, per, task.product)) {
          add(task, index, *rate, measure_of(run, per));
          priced = true;
        }
      if (!priced) no_price(task, "any measure of what it does", *offered.begin());
    }
    const Takes takes = task.method->takes.value_or(Takes::once);
    if (takes == Takes::count || takes == Takes::once) {
      if (const Rate* each = basis.company.rate(method, Per::each, task.product))
        add(task, {}, *each, Ratio(task.count));
      else if (const Rate* job = basis.company.rate(method, Per::job, task.product))
        add(task, {}, *job, Ratio(1));
      else
        no_price(task, "each or job", takes == Takes::count ? Per::each : Per::job);
    }
  }
};

Money sum_of(const std::vector<PricedLine>& lines) {
  Money sum;
  for (const PricedLine& line : lines) sum += line.amount;
  return sum;
}

/// The lines are reached by measure; where the company prices by cost, their rates are exchanged.
void settle_way(const Basis& basis, const Treatment& treatment, Estimate& estimate, Faults& faults) {
  estimate.way = basis.company.way.value_or(Way::measure);
  estimate.cost = pricing::cost_of(basis, treatment);
  if (estimate.lines.empty()) return;
  estimate.by_measure = sum_of(estimate.lines);
  std::vector<PricedLine> lines = estimate.lines;
  if (estimate.cost) {
    pricing::rate_by_cost(basis, treatment, *estimate.cost, lines);
    estimate.by_cost = sum_of(lines);
  }
  if (estimate.way != Way::cost) return;
  if (estimate.cost) {
    estimate.lines = std::move(lines);
    return;
  }
  faults.add(Rule::no_cost, basis.company.way.at, "option `" + treatment.id + "` cannot be priced by cost",
             "without hours, costs and the price of each package the price would be guessed",
             "give `costs:`, a whole `crew:`, and `cost:` of packages, or write `pricing: measure`");
}

bool holds_for(const resolved::Adjustment& adjustment, const std::string& option) {
  const auto& only = adjustment.options;
  return adjustment.every_option || std::find(only.begin(), only.end(), option) != only.end();
}

/// Each adjustment is reckoned on the sum of the lines, not on one another.
void adjust(const Basis& basis, const Treatment& treatment, Estimate& estimate) {
  if (estimate.lines.empty()) return;
  for (const resolved::Adjustment& one : basis.resolved.adjustments) {
    if (!holds_for(one, treatment.id)) continue;
    AdjustedLine line;
    line.of = &one;
    line.facts = one.typed;
    line.base = estimate.lines_total;
    line.amount = one.percent ? share_of(line.base, *one.percent) : one.amount;
    if (one.kind == AdjustmentKind::discount) line.amount = Money{} - line.amount;
    estimate.total += line.amount;
    estimate.adjustments.push_back(line);
  }
}

void put_tax(const Basis& basis, Estimate& estimate) {
  for (const Tax& tax : items(basis.company.tax)) {
    if (!tax.percent || !tax.on) continue;
    TaxLine line{*tax.percent, {}, {}};
    for (const PricedLine& one : estimate.lines)
      if (std::find(tax.on->begin(), tax.on->end(), *one.method->name) != tax.on->end()) line.base += one.amount;
    if (line.base == Money{}) continue;
    line.amount = share_of(line.base, line.percent);
    estimate.total += line.amount;
    estimate.taxes.push_back(line);
  }
}

}  // namespace

int decimals(Per per) {
  switch (per) {
    case Per::ft:
    case Per::gal:
    case Per::sq_ft:
    case Per::cu_ft:
      return 1;
    case Per::thousand_cu_ft:
      return 3;
    case Per::hole:
    case Per::each:
    case Per::job:
    case Per::station:
      break;
  }
  return 0;
}

Estimate price(const Basis& basis, const Treatment& treatment, Faults& faults) {
  Estimate estimate;
  estimate.option = treatment.id;
  Pricing pricing{basis, faults, estimate};
  for (const Task& task : treatment.tasks) {
    if (!task.method || task.method->takes.value_or(Takes::once) == Takes::nothing) continue;
    if (task.line->ours())
      pricing.task(treatment, task);
    else
      estimate.others.push_back({task.line, task.work, task.method});
  }
  settle_way(basis, treatment, estimate, faults);
  for (const PricedLine& line : estimate.lines) estimate.lines_total += line.amount;
  estimate.total = estimate.lines_total;
  adjust(basis, treatment, estimate);
  const Money minimum = basis.company.minimum_charge.value_or(Money{});
  if (!estimate.lines.empty() && estimate.total < minimum) {
    estimate.to_minimum = minimum - estimate.total;
    estimate.total = minimum;
  }
  put_tax(basis, estimate);
  const auto& signature = basis.resolved.signature;
  if (signature && signature->on && basis.company.price_holds_days)
    estimate.holds_until = plus_days(*signature->on, *basis.company.price_holds_days);
  return estimate;
}

Money amount_of(const Estimate& estimate, const resolved::Line& line) {
  Money sum;
  for (const PricedLine& one : estimate.lines)
    if (one.line == &line) sum += one.amount;
  return sum;
}

Money amount_of(const Estimate& estimate, const Work& work) {
  Money sum;
  for (const PricedLine& line : estimate.lines)
    if (line.work == &work) sum += line.amount;
  return sum;
}

}  // namespace soundsill
