// Serves rules/each.h. What things cost: rates, taxes and adjustments, and prices told before.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {

namespace {

void odd(Faults& faults, Span at, std::string what, std::string fix, Rests rests = Rests::read) {
  faults.add(Rule::odd_rate, at, std::move(what), "a slip of the keyboard would be printed as the price",
             std::move(fix), rests);
}

void odd_percent(Faults& faults, const Field<Percent>& percent, const Datum<Percent>* most, const std::string& what) {
  if (percent && most && percent->value > most->value->value)
    odd(faults, percent.at,
        what + " of " + shortest(percent->value, 4) + " percent is more than " + shortest(most->value->value, 2),
        "write the percentage as it is", rests_on(*most));
}

/// Names that nothing bears, rows that stand twice, and costs that are none or too great.
void slips(const Papers& papers, Faults& faults) {
  const Company& company = papers.basis.company;
  const auto products = all_of(items(company.products), &Product::id);
  const auto& rates = items(company.rates);
  for (std::size_t i = 0; i < rates.size(); ++i) {
    const Rate& rate = rates[i];
    if (rate.product && std::find(products.begin(), products.end(), *rate.product) == products.end())
      faults.add(Rule::unknown_reference, rate.product.at, quoted(*rate.product) + " is no product of this file",
                 "the rate would never be used, and another price printed",
                 did_you_mean(*rate.product, products, "name a product"));
    for (std::size_t j = 0; j < i; ++j)
      if (rate.does && rate.per && rates[j].does && rates[j].per && *rate.does == *rates[j].does &&
          *rate.per == *rates[j].per && rate.product.value_or("") == rates[j].product.value_or(""))
        faults.add({Rule::doubled_name,
                    rate.does.at,
                    quoted(*rate.does) + " has two rates for one " + std::string(yaml::word(*rate.per)),
                    "only the first would be used",
                    "take one of them out",
                    {{rates[j].does.at, "the first one"}}});
  }
  const auto methods = all_of(items(papers.basis.trade.methods), &Method::name);
  for (const Tax& tax : items(company.tax))
    for (const std::string& method : items(tax.on))
      if (std::find(methods.begin(), methods.end(), method) == methods.end())
        faults.add(Rule::unknown_reference, tax.on.at, quoted(method) + " is not a method", "the tax would be left out",
                   did_you_mean(method, methods, "name the methods that are taxed"));
  const auto cost = [&](const Field<Money>& money, const Datum<Money>* most, const std::string& what) {
    if (!money || !most || (money->cents != 0 && *money <= *most->value)) return;
    const bool nothing = money->cents == 0;
    odd(faults, money.at,
        what + " of " + print(*money) + (nothing ? " costs nothing" : " is more than " + print(*most->value)),
        "write dollars and cents with their dot", nothing ? Rests::read : rests_on(*most));
  };
  if (company.costs) cost(company.costs->hour, limit(papers, &Limits::most_hour), "an hour");
  for (const Product& product : items(company.products))
    for (const Package& package : items(product.packages))
      cost(package.cost, limit(papers, &Limits::most_package), "a package");
  const Datum<Money>* most_minimum = limit(papers, &Limits::most_minimum);
  if (company.minimum_charge && most_minimum && *company.minimum_charge > *most_minimum->value)
    odd(faults, company.minimum_charge.at,
        "a minimum charge of " + print(*company.minimum_charge) + " is more than " + print(*most_minimum->value),
        "write dollars and cents with their dot", rests_on(*most_minimum));
}

}  // namespace

void odd_rate(const Papers& papers, Faults& faults) {
  const Company& company = papers.basis.company;
  for (const Rate& rate : items(company.rates)) {
    if (!rate.price || !rate.per) continue;
    const Datum<Money>* dearest = limit(papers, *rate.per == Per::job ? &Limits::most_job : &Limits::most_measure);
    if (rate.price->cents == 0)
      odd(faults, rate.price.at, "a rate of $0.00 gives work away", "write the rate, or take the row out");
    else if (dearest && *rate.price > *dearest->value)
      odd(faults, rate.price.at,
          print(*rate.price) + " for one " + std::string(yaml::word(*rate.per)) + " is more than " +
              print(*dearest->value),
          "write dollars and cents with their dot", rests_on(*dearest));
  }
  slips(papers, faults);
  for (const Tax& tax : items(company.tax))
    odd_percent(faults, tax.percent, limit(papers, &Limits::most_tax), "a sales tax");
  if (company.costs) odd_percent(faults, company.costs->margin, limit(papers, &Limits::most_margin), "a margin");
  for (const Adjustment& a : items(papers.basis.c.adjustments)) {
    odd_percent(faults, a.percent, limit(papers, &Limits::most_adjustment), "an adjustment");
    if (!a.percent.written() && !a.amount.written())
      odd(faults, a.kind.at, "an adjustment without `percent:` or `amount:` changes nothing", "write one of the two");
    if (a.percent.written() && a.amount.written())
      odd(faults, a.amount.at, "an adjustment is a percentage or an amount, not both", "take one of them out");
    for (const std::string& id : items(a.options)) {
      const auto known = all_of(items(papers.basis.c.options), &OptionFacts::id);
      if (std::find(known.begin(), known.end(), id) == known.end())
        faults.add(Rule::unknown_reference, a.options.at, quoted(id) + " is no option of this case",
                   "the price of an option would be changed, or not, for nothing",
                   did_you_mean(id, known, "name an option"));
    }
  }
  const auto given_away = [](const Estimate& e) {
    Money left = e.lines_total;
    for (const AdjustedLine& a : e.adjustments) left += a.amount;
    return left < Money{};
  };
  for (const Estimate& e : papers.estimates)
    if (given_away(e))
      odd(faults, papers.basis.c.adjustments.at,
          "the discounts of option " + quoted(e.option) + " are more than its price", "give less away");
}

void total_differs(const Papers& papers, Faults& faults) {
  for (const OptionFacts& option : items(papers.basis.c.options)) {
    if (!option.quoted || !option.id) continue;
    for (const Estimate& e : papers.estimates)
      if (e.option == *option.id && e.total != *option.quoted)
        faults.add(Rule::total_differs, option.quoted.at,
                   "option " + quoted(*option.id) + " was quoted at " + print(*option.quoted) + " and comes to " +
                       print(e.total),
                   "the customer would hold two prices for one work",
                   "tell the customer the new price and take `quoted:` out, or add an adjustment that says why");
  }
  const auto& accepted = papers.basis.c.accepted;
  if (!accepted || !accepted->total || !accepted->option) return;
  for (const Estimate& e : papers.estimates)
    if (e.option == *accepted->option && e.total != *accepted->total)
      faults.add(Rule::total_differs, accepted->total.at,
                 "option " + quoted(e.option) + " was accepted at " + print(*accepted->total) + " and comes to " +
                     print(e.total),
                 "agreement and invoice would bill another price than the one that was signed",
                 "find what changed since (rates, measures, fees), or have the new price accepted");
}

}  // namespace soundsill::rules
