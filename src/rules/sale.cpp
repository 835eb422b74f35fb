// Serves rules/each.h. Where, and in what language, an agreement is sold.
#include "rules/look.h"

namespace soundsill::rules {
namespace {

Rests rests_of(const CancellationRule& rule) {
  return rule.business_days ? rests_on(*rule.business_days) : Rests::unread;
}

}  // namespace

void sale_unfit(const Papers& papers, Faults& faults) {
  const auto& facts = papers.basis.c.facts;
  const auto& rule = papers.basis.form.cancellation;
  if (papers.wanted != Wanted::agreement || !facts || !rule) return;
  const Span at = first_of({papers.basis.c.facts.key, papers.basis.c.at});
  const std::string cite = rule->business_days ? cited(rule->business_days->cite) : std::string();
  if (!facts->sold_at.written())
    faults.add(Rule::sale_unfit, at, "the case does not say where the work is sold",
               "a sale at the buyer's home can be canceled, and the agreement has to say so" + cite,
               "write `sold at:` with " + yaml::listed(yaml::Words<SoldAt>::words), rests_of(*rule));
  if (!facts->sold_in.written())
    faults.add(Rule::sale_unfit, at, "the case does not say in what language the work is sold",
               "the agreement and its notice of cancellation are in the language of the sale" + cite,
               "write `sold in:` with " + yaml::listed(yaml::Words<SoldIn>::words), rests_of(*rule));
  const bool asks_age = rule->senior_days && rule->senior_days->value && rule->senior_age && rule->senior_age->value;
  if (asks_age && !facts->senior.written())
    faults.add(
        Rule::sale_unfit, at,
        "the case does not say whether the customer is " + std::to_string(*rule->senior_age->value) + " or older",
        "such a customer has " + std::to_string(*rule->senior_days->value) +
            " business days to cancel, and the notice names the last one" + cited(rule->senior_days->cite),
        "write `senior customer:` yes or no; yes where nobody knows", rests_on(*rule->senior_days));
  // In Spanish for a sale in English it is a courtesy copy; the other way round nothing would say which text counts.
  if (!facts->sold_in || *facts->sold_in != SoldIn::spanish || papers.language == "es") return;
  faults.add(Rule::sale_unfit, facts->sold_in.at, "the work is sold in Spanish, and the agreement is not in it",
             "the agreement and its notice of cancellation are in the language of the sale" + cite,
             "make it with `--lang es`", rests_of(*rule));
}

}  // namespace soundsill::rules
