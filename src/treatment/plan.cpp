#include <algorithm>

#include "treatment/planner.h"

namespace soundsill {
namespace planning {

void settle_gallons(Run& run) {
  run.computed_gallons = run.exact_gallons.rounded_to(1);
  run.gallons = run.computed_gallons;
}

void Planner::add(Task& task, const SurveyedStructure& s, Run run) {
  if (!run.entered_each || run.kind == RunKind::soil_posts) settle_gallons(run);
  std::erase(run.sources, std::string{});
  run.work = task.work->id.value_or({});
  run.structure = s.name;
  run.number = static_cast<int>(out.runs.size()) + 1;
  out.gallons += run.gallons;
  out.holes += run.holes;
  task.runs.push_back(out.runs.size());
  out.runs.push_back(std::move(run));
}

void Planner::line(const Work& work) {
  Task task;
  task.work = &work;
  task.method = work.does ? basis.trade.method(*work.does) : nullptr;
  task.count = work.count.value_or(1);
  if (!task.method) return;  // an unknown method is reported by the rules
  const Takes takes = task.method->takes.value_or(Takes::nothing);
  if (work.who() == By::us && (takes == Takes::soil || takes == Takes::voids || takes == Takes::slab))
    if (const SurveyedStructure* s = structure_of(work); s && s->drawn()) {
      if (takes == Takes::soil) soil(task, *s);
      if (takes == Takes::voids) voids(task, *s);
      if (takes == Takes::slab) slab(task, *s);
    }
  out.tasks.push_back(std::move(task));
}

namespace {

/// The product of an option, or nothing after saying what is missing. Silent when the option uses none.
const Product* product_of(const Basis& basis, const OptionFacts& option, bool needed, Faults& faults) {
  if (option.product.unread()) return nullptr;
  if (!option.product) {
    if (needed)
      faults.add(Rule::no_product, option.id ? option.id.at : option.at, "this option treats, but names no product",
                 "the crew would not know what to mix, nor the buyer what is used",
                 "write `product:` with the id of a product in the company's file");
    return nullptr;
  }
  const Product* product = basis.company.product(*option.product);
  if (product) return product;
  std::vector<std::string_view> known;
  for (const Product& p : items(basis.company.products))
    if (p.id) known.push_back(*p.id);
  const std::string near = nearest(*option.product, known);
  if (basis.company.products)
    faults.add(Rule::no_product, option.product.at, "`" + *option.product + "` is not a product of the company's file",
               "the crew would not know what to mix, nor the buyer what is used",
               near.empty() ? "name one of " + yaml::listed(known) : "did you mean `" + near + "`?");
  return nullptr;
}

void mix(const Basis& basis, const Product& product, Treatment& out, Faults& faults) {
  const auto rate = mixing_rate(product);
  if (!rate) {
    faults.add(Rule::no_product, product.id.at, "`" + *product.id + "` has no strength to mix by",
               "the concentrate for each tank could not be worked out",
               "write `fl oz per 100 gal:`, or `lb per gal:` with `finished percent:`, from the label");
    return;
  }
  if (product.fl_oz_per_100_gal && product.finished && product.lb_per_gal && *product.lb_per_gal > Ratio(0)) {
    const Ratio formula = fl_oz_per_100_gal(*product.finished, *product.lb_per_gal);
    const Ratio off = *rate > formula ? *rate - formula : formula - *rate;
    if (off * Ratio(20) > formula)
      faults.add(Rule::mix_disagrees, product.fl_oz_per_100_gal.at,
                 shortest(*rate, 2) + " fl oz per 100 gal is not " + shortest(product.finished->value, 4) + " percent",
                 shortest(product.finished->value, 4) + " % of " + shortest(*product.lb_per_gal, 4) + " lb/gal takes " +
                     decimal(formula, 1) + " fl oz per 100 gal; the tank would be mixed wrong",
                 "take both figures from one label, or leave one of them out");
  }
  if (out.gallons > Ratio(0) && basis.company.tank_gal && *basis.company.tank_gal > Ratio(0))
    out.mix = mix_for(product, *rate, out.gallons, *basis.company.tank_gal);
}

}  // namespace
}  // namespace planning

std::vector<const Work*> lines_of(const Case& c, const OptionFacts& option) {
  std::vector<const Work*> lines;
  const auto& wanted = items(option.work);
  const bool all = wanted.size() == 1 && wanted.front() == "all";
  for (const Work& w : items(c.work))
    if (all || (w.id && std::find(wanted.begin(), wanted.end(), *w.id) != wanted.end())) lines.push_back(&w);
  return lines;
}

Treatment plan(const Basis& basis, const OptionFacts& option, Faults& faults) {
  Treatment out;
  out.option = &option;
  out.id = option.id.value_or({});
  const auto lines = lines_of(basis.c, option);
  const bool needed = std::any_of(lines.begin(), lines.end(), [&](const Work* w) {
    const Method* m = w->does ? basis.trade.method(*w->does) : nullptr;
    return m && m->uses_product.value_or(false) && w->who() == By::us;
  });
  const Product* product = planning::product_of(basis, option, needed, faults);
  planning::Planner planner{basis, option, product, faults, out};
  for (const Work* work : lines) planner.line(*work);
  if (product) planning::mix(basis, *product, out, faults);
  return out;
}

std::vector<Treatment> plan_all(const Basis& basis, Faults& faults) {
  std::vector<Treatment> all;
  for (const OptionFacts& option : items(basis.c.options)) all.push_back(plan(basis, option, faults));
  if (!basis.c.options.written() && !items(basis.c.work).empty()) {
    // Work without options is one option that takes all of it, without product or warranty.
    static const OptionFacts everything = [] {
      OptionFacts o;
      o.id.set("all work");
      o.work.set({"all"});
      return o;
    }();
    all.push_back(plan(basis, everything, faults));
  }
  return all;
}

}  // namespace soundsill
