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

namespace {

/// Whether every finding that a line goes by has its place on this plan; if not, other rules speak.
bool all_near_placed(const Basis& basis, const Work& work, const SurveyedStructure& s) {
  const auto& findings = items(basis.c.findings);
  const auto& near = items(work.near);
  return std::all_of(near.begin(), near.end(), [&](int no) {
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
      return f.no && *f.no == no && f.place && f.in && *f.in == s.name && missing(s, *f.place).empty();
    });
  });
}

}  // namespace

void Planner::line(const Work& work) {
  Task task;
  task.work = &work;
  task.method = work.does ? basis.trade.method(*work.does) : nullptr;
  task.count = work.count.value_or(1);
  if (task.count < 1)
    faults.add(Rule::bad_number, work.count.at, "a line that is done 0 times does nothing",
               "it would be promised, and given away", "write how many, or take the line out");
  if (!task.method) return;  // an unknown method is reported by the rules
  const Takes takes = task.method->takes.value_or(Takes::nothing);
  if (work.who() == By::us && (takes == Takes::soil || takes == Takes::voids || takes == Takes::slab))
    if (const SurveyedStructure* s = structure_of(work); s && s->drawn()) {
      const std::size_t before = faults.all().size();
      if (takes == Takes::soil) soil(task, *s);
      if (takes == Takes::voids) voids(task, *s);
      if (takes == Takes::slab) slab(task, *s);
      const bool names = work.walls.written() || work.piers.written() || work.near.written() || work.places.written();
      if (task.runs.empty() && names && s->complete && faults.all().size() == before &&
          all_near_placed(basis, work, *s))
        faults.add(Rule::does_no_work, work.does.at,
                   "`" + *work.does + "` finds nothing to treat in what this line names",
                   "the papers would promise a treatment that nobody does",
                   takes == Takes::voids  ? "name hollow walls or piers, or take another method"
                   : takes == Takes::slab ? "name a slab by `at:`, or walls of a part that stands on a slab"
                                          : "name walls with soil on the side that is treated, or piers");
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
  const auto& tank = basis.company.tank_gal;
  if (tank && (*tank < Ratio(1) || out.gallons / *tank > Ratio(500)))
    faults.add(Rule::bad_number, tank.at, "a tank of " + shortest(*tank, 4) + " gal cannot carry this treatment",
               "the crew could not mix by it", "write the gallons of the tank");
  for (const Package& package : items(product.packages))
    if (package.fl_oz && *package.fl_oz < Ratio(1))
      faults.add(Rule::bad_number, package.fl_oz.at, "a package of less than 1 fl oz is no package",
                 "the crew would be told to bring millions", "write the fluid ounces of a package");
  if (out.gallons > Ratio(0) && tank && *tank >= Ratio(1) && out.gallons / *tank <= Ratio(500))
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
  planner.allowance();
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
