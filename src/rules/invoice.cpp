// Serves rules/each.h. What was billed, to whom, and what was paid.
#include "rules/aftercare.h"

namespace soundsill::rules {

void invoice_unfit(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  if (!c.invoice) return;
  const auto& rule = papers.basis.form.invoice;
  if (rule && rule->names_veteran && rule->names_veteran->value.value_or(false) && c.people &&
      !c.people->veteran.written())
    faults.add(Rule::invoice_unfit, first_of({c.invoice->number.at, c.invoice.key}),
               "the invoice names the property, and no veteran",
               "for this loan the invoice names both" + cited(rule->names_veteran->cite),
               "write `veteran: {name: ...}` under `people:`", rests_on(*rule->names_veteran));
  const bool pays = c.invoice->veteran_pays.value_or(false), asked = c.invoice->notice_requires.value_or(false);
  if (rule && pays && c.invoice->on && rule->veteran_pays_from &&
      !veteran_may_pay(papers.basis.form, *c.invoice->on, asked))
    faults.add(Rule::invoice_unfit, c.invoice->veteran_pays.at,
               asked ? "the veteran pays on " + print(*c.invoice->on) + ", and may not before " +
                           print(*rule->veteran_pays_from->value)
                     : "the veteran pays, and may not: only when the notice of value asks for it",
               "a fee that the veteran may not pay holds up the guaranty" + cited(rule->veteran_pays_from->cite),
               asked ? "let another party pay, or correct the day of the invoice"
                     : "let another party pay, or write `notice of value requires: yes` if it does",
               rests_on(*rule->veteran_pays_from));
  const Treatment* t = chosen_of(papers);
  // Nobody can tell yet what is billed: an option is missing, or an amount was told of where it was read.
  if (!plan_stands(faults) || (!t && !papers.treatments.empty()) || misread(c.invoice.at, faults)) return;
  Money total, paid;
  for (std::size_t i = 0; t && i < papers.treatments.size() && i < papers.estimates.size(); ++i)
    if (&papers.treatments[i] == t || papers.treatments[i].id == t->id) total = papers.estimates[i].total;
  for (const Fee& fee : items(c.invoice->fees)) total += fee.amount.value_or(Money{});
  for (const Payment& p : items(c.invoice->paid)) paid += p.amount.value_or(Money{});
  if (total < paid)
    faults.add(Rule::invoice_unfit, c.invoice->paid.at, print(paid) + " was paid, and " + print(total) + " is billed",
               "somebody paid twice, or an amount was mistyped", "correct the payments, or pay back what is too much");
}

}  // namespace soundsill::rules
