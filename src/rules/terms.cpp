// What an option promises.
#include <algorithm>

#include "estimate/choice.h"
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

namespace {

bool partial(const OptionFacts& option) { return option.scope && *option.scope != Scope::full; }

std::string called(const OptionFacts& option) {
  return option.id ? "option " + quoted(*option.id) : std::string("this option");
}

}  // namespace

void scope_forbidden(const Papers& papers, Faults& faults) {
  for (const OptionFacts& option : items(papers.basis.c.options)) {
    if (!partial(option)) continue;
    const Product* product = option.product ? papers.basis.company.product(*option.product) : nullptr;
    const std::string why = soundsill::scope_forbidden(papers.basis.form, option, product);
    if (!why.empty())
      faults.add(Rule::scope_forbidden, option.scope.at, called(option) + " is partial, and " + why,
                 "what label or state forbids may not be offered, at whatever price" +
                     (papers.basis.form.partial && why.starts_with("the state") ? cited(papers.basis.form.partial->cite)
                                                                                : std::string()),
                 "offer another scope or product, or add it to the label's `scopes:` if the label names it");
    if (!option.because.written())
      faults.add(Rule::fact_unsaid, option.scope.at, called(option) + " is partial, and does not say why",
                 "the buyer is to know why less than the whole is offered", "write `because:`");
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

namespace {

template <class T>
std::optional<T> most(const Papers& papers, Field<Datum<T>> Limits::*which) {
  const Datum<T>* datum = limit(papers, which);
  return datum ? std::optional<T>(*datum->value) : std::nullopt;
}

void odd(Faults& faults, Span at, std::string what, std::string fix) {
  faults.add(Rule::odd_rate, at, std::move(what), "a slip of the keyboard would be printed as the price",
             std::move(fix));
}

void odd_percent(Faults& faults, const Field<Percent>& percent, std::optional<Percent> most, const std::string& what) {
  if (percent && most && percent->value > most->value)
    odd(faults, percent.at,
        what + " of " + shortest(percent->value, 4) + " percent is more than " + shortest(most->value, 2),
        "write the percentage as it is");
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
  const auto cost = [&](const Field<Money>& money, std::optional<Money> most, const std::string& what) {
    if (money && most && (money->cents == 0 || *money > *most))
      odd(faults, money.at,
          what + " of " + print(*money) + (money->cents == 0 ? " costs nothing" : " is more than " + print(*most)),
          "write dollars and cents with their dot");
  };
  if (company.costs) cost(company.costs->hour, most(papers, &Limits::most_hour), "an hour");
  for (const Product& product : items(company.products))
    for (const Package& package : items(product.packages))
      cost(package.cost, most(papers, &Limits::most_package), "a package");
  const auto most_minimum = most(papers, &Limits::most_minimum);
  if (company.minimum_charge && most_minimum && *company.minimum_charge > *most_minimum)
    odd(faults, company.minimum_charge.at,
        "a minimum charge of " + print(*company.minimum_charge) + " is more than " + print(*most_minimum),
        "write dollars and cents with their dot");
}

}  // namespace

void odd_term(const Papers& papers, Faults& faults) {
  const auto longest = most(papers, &Limits::most_warranty);
  const auto hold = [&](const Field<int>& months, const std::string& what) {
    if (!months || (*months >= 1 && (!longest || *months <= *longest))) return;
    faults.add(Rule::odd_term, months.at,
               what + " of " + std::to_string(*months) + " months" +
                   (*months < 1 ? " ends on the day it begins" : " is longer than " + std::to_string(*longest)),
               "certificate, renewals and letters are reckoned by it", "write the months as the company promises them");
  };
  for (const WarrantyFacts& w : items(papers.basis.company.warranties)) {
    if (!w.kind || *w.kind == WarrantyKind::none) continue;
    hold(w.months, "a warranty");
    hold(w.reinspect_months, "a period between two looks");
  }
}

void odd_rate(const Papers& papers, Faults& faults) {
  const Company& company = papers.basis.company;
  for (const Rate& rate : items(company.rates)) {
    if (!rate.price || !rate.per) continue;
    const auto dearest = most(papers, *rate.per == Per::job ? &Limits::most_job : &Limits::most_measure);
    if (rate.price->cents == 0)
      odd(faults, rate.price.at, "a rate of $0.00 gives work away", "write the rate, or take the row out");
    else if (dearest && *rate.price > *dearest)
      odd(faults, rate.price.at,
          print(*rate.price) + " for one " + std::string(yaml::word(*rate.per)) + " is more than " + print(*dearest),
          "write dollars and cents with their dot");
  }
  slips(papers, faults);
  for (const Tax& tax : items(company.tax))
    odd_percent(faults, tax.percent, most(papers, &Limits::most_tax), "a sales tax");
  if (company.costs) odd_percent(faults, company.costs->margin, most(papers, &Limits::most_margin), "a margin");
  for (const Adjustment& a : items(papers.basis.c.adjustments)) {
    odd_percent(faults, a.percent, most(papers, &Limits::most_adjustment), "an adjustment");
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

}  // namespace soundsill::rules
