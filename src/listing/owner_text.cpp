// Serves listing/listing.h. The owner's private sheet. Nothing of it stands in any paper.
#include <fmt/core.h>

#include <algorithm>

#include "listing/listing.h"

namespace soundsill::listing {
namespace {

std::string percent(const Ratio& r) { return decimal(r * Ratio(100), 1) + " %"; }

/// Feet of soil along faces, or along which bait is set: what prices by the foot are compared on.
Ratio faces(const Treatment& t) {
  Length sum;
  for (const Run& run : t.runs)
    if (run.kind == RunKind::stations) sum += run.length;
  for (const Run& run : t.runs)
    if (is_soil(run.kind) && !has(run.kind, run_traits::round)) sum += run.length;
  return sum.in_feet();
}

void carried(std::string& out, const Cost& cost, Money paid) {
  const auto line = [&](std::string_view what, Money m) { out += fmt::format("    {:<12} {:>12}\n", what, print(m)); };
  line("product", cost.product);
  line("hours", cost.labor);
  line("equipment", cost.equipment);
  line("travel", cost.travel);
  line("overhead", cost.overhead);
  line("cost", cost.sum());
  const Money left = paid - cost.sum();
  const Ratio share = paid.cents > 0 ? Ratio(left.cents, paid.cents) : Ratio(0);
  out += fmt::format("    {:<12} {:>12}   {} of the price{}\n", "left",
                     left.cents < 0 ? "-" + print(Money{-left.cents}) : print(left), percent(share),
                     left.cents < 0 ? ": THE PRICE DOES NOT CARRY THE WORK" : "");
}

void ways(std::string& out, const Estimate& e) {
  if (!e.by_measure || !e.by_cost) return;
  out += fmt::format("    by measure {}, by cost with the margin asked {}: {} is printed\n", print(*e.by_measure),
                     print(*e.by_cost), e.way == Way::cost ? "by cost" : "by measure");
}

std::string place(Money unit, const Band& band) {
  if (unit < *band.low) return "below";
  return unit > *band.high ? "above" : "within";
}

bool compares(const Band& band, const Treatment& t) {
  if (!band.of) return true;
  return std::any_of(t.tasks.begin(), t.tasks.end(), [&](const Task& task) {
    return task.line->ours() && std::find(band.of->begin(), band.of->end(), *task.method->name) != band.of->end();
  });
}

/// A price beside what is asked elsewhere for a foot, a square foot, or a job.
void bands(std::string& out, const Basis& basis, const Treatment& t, Money price, const Ratio& feet,
           const Ratio& sqft) {
  for (const Band& band : items(basis.trade.bands)) {
    if (!band.per || !band.low || !band.high || !compares(band, t)) continue;
    const Ratio measure = *band.per == Per::ft ? feet : *band.per == Per::sq_ft ? sqft : Ratio(1);
    if (measure <= Ratio(0)) continue;
    const Money unit{(Ratio(price.cents) / measure).rounded()};
    out += fmt::format("    {} a {} is {} {} to {} ({}; {}, {})\n", print(unit), yaml::word(*band.per),
                       place(unit, band), print(*band.low), print(*band.high), band.what.value_or(""),
                       band.cite.value_or(""), yaml::word(*band.status));
  }
}

void spread(std::string& out, Money given, Money ours) {
  if (ours.cents <= 0) return;
  out += fmt::format("    that is {} times ours; quotes for one house differ fourfold (common practice, no source)\n",
                     decimal(Ratio(given.cents, ours.cents), 2));
}

}  // namespace

std::string owner_text(const Measures& m, std::optional<Money> given) {
  std::string out = "FOR THE OWNER OF THE COMPANY ONLY: not for the buyer, and in no packet\n";
  Ratio sqft;
  for (const SurveyedStructure& s : m.basis.survey.structures)
    for (const SurveyedPart& p : s.parts) sqft += p.area_sqft;
  for (std::size_t i = 0; i < m.treatments.size() && i < m.estimates.size(); ++i) {
    const Treatment& t = m.treatments[i];
    const Estimate& e = m.estimates[i];
    out += fmt::format("\noption {}: {}\n", t.id, print(e.total));
    if (e.lines.empty()) {
      out += "    nothing of ours to price\n";
      continue;
    }
    Money taxes;
    for (const TaxLine& tax : e.taxes) taxes += tax.amount;
    if (e.cost)
      carried(out, *e.cost, e.total - taxes);
    else
      out += "    cost not known: give `costs:`, a whole `crew:` and `cost:` of packages in the company's file\n";
    ways(out, e);
    const Ratio feet = faces(t);
    if (feet > Ratio(0))
      out += fmt::format("    {} a foot of treated face ({} ft)\n",
                         print(Money{(Ratio(e.total.cents) / feet).rounded()}), decimal(feet, 1));
    bands(out, m.basis, t, e.total, feet, sqft);
    if (!given) continue;
    out += fmt::format("  a price of {}\n", print(*given));
    if (e.cost) carried(out, *e.cost, *given);
    spread(out, *given, e.total);
    bands(out, m.basis, t, *given, feet, sqft);
  }
  return out;
}

}  // namespace soundsill::listing
