// Serves rules/each.h. The warranty of an option.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {

void no_warranty(const Papers& papers, Faults& faults) {
  for (const Offer& offer : offers(papers, faults)) {
    if (!offer.option || offer.option->warranty.written()) continue;
    const auto treating = [&](const Work* w) {
      const Method* method = method_of(papers, *w);
      return method && method->uses_product.value_or(false) && w->who() == By::us;
    };
    if (std::none_of(offer.lines.begin(), offer.lines.end(), treating)) continue;
    auto known = all_of(items(papers.basis.company.warranties), &WarrantyFacts::id);
    known.emplace_back("none");
    const OptionFacts& option = *offer.option;
    faults.add(Rule::no_warranty, first_of({option.id.at, option.at}),
               (option.id ? "option " + quoted(*option.id) : "this option") + " treats, and names no warranty",
               "the buyer would learn only after the next swarm whether the company comes back for free",
               "write `warranty:` with " + yaml::listed(known));
  }
}

void repair_on_partial(const Papers& papers, Faults& faults) {
  for (const OptionFacts& option : items(papers.basis.c.options)) {
    if (!partial(option) || !option.warranty) continue;
    const WarrantyFacts* w = papers.basis.company.warranty(*option.warranty);
    if (!w || !w->kind || *w->kind != WarrantyKind::retreatment_and_repair || w->partial_because) continue;
    faults.add(Rule::repair_on_partial, option.warranty.at, called(option) + " is partial, and promises repairs",
               "termites may come in where nothing was treated, and the company would pay for what they do",
               "name a warranty for retreatment, or write `on partial because:` in that warranty");
  }
}

void odd_term(const Papers& papers, Faults& faults) {
  const Datum<int>* longest = limit(papers, &Limits::most_warranty);
  const auto hold = [&](const Field<int>& months, const std::string& what) {
    if (!months || (*months >= 1 && (!longest || *months <= *longest->value))) return;
    const bool none = *months < 1;
    faults.add(Rule::odd_term, months.at,
               what + " of " + std::to_string(*months) + " months" +
                   (none ? " ends on the day it begins" : " is longer than " + std::to_string(*longest->value)),
               "certificate, renewals and letters are reckoned by it", "write the months as the company promises them",
               none ? Rests::read : rests_on(*longest));
  };
  for (const WarrantyFacts& w : items(papers.basis.company.warranties)) {
    if (!w.kind || *w.kind == WarrantyKind::none) continue;
    hold(w.months, "a warranty");
    hold(w.reinspect_months, "a period between two looks");
  }
}

}  // namespace soundsill::rules
