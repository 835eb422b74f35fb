// What an option promises.
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

}  // namespace soundsill::rules
