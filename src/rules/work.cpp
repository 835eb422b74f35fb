// Serves rules/each.h. How work is done: what it is put on, how hot it gets.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {

void wood_finished(const Papers& papers, Faults& faults) {
  for (const Work& w : items(papers.basis.c.work)) {
    const Method* method = method_of(papers, w);
    if (!method || !method->bare_wood.value_or(false) || !w.surface || *w.surface != Surface::finished) continue;
    faults.add(Rule::wood_finished, w.surface.at, said(w) + " is put on finished wood",
               quoted(*method->name) + " soaks into bare wood only; it would stay on the paint" + cited(method->cite),
               "have the finish taken off first, or choose another method");
  }
}

void too_cool(const Papers& papers, Faults& faults) {
  const auto below = [&](const Work& w, const Method& method, const Field<int>& planned, const Field<int>& least,
                         const char* does, const char* unit) {
    if (!planned || !least || *planned >= *least) return;
    faults.add(Rule::too_cool, planned.at,
               said(w) + does + std::to_string(*planned) + unit + ", and it takes " + std::to_string(*least),
               "insects survive in the core of the wood, and nobody sees it" + cited(method.cite),
               "write at least " + std::to_string(*least) + ", or leave it out", rests_on(method));
  };
  for (const Work& w : items(papers.basis.c.work))
    if (const Method* method = method_of(papers, w)) {
      below(w, *method, w.core, method->least_core, " heats the core to ", " degrees");
      below(w, *method, w.hold, method->least_hold, " holds the heat for ", " minutes");
    }
}

}  // namespace soundsill::rules
