// Serves treatment/treatment.h.
#include <algorithm>
#include <set>

#include "diagnostics/names.h"
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
  run.work = task.line->id;
  run.structure = s.name;
  run.number = static_cast<int>(out.runs.size()) + 1;
  run.product = product;
  out.gallons += run.gallons;
  out.holes += run.holes;
  task.runs.push_back(out.runs.size());
  out.runs.push_back(std::move(run));
}

namespace {

using Plan = void (Planner::*)(Task&, const SurveyedStructure&);

/// How each kind of work is measured. Counted work, jobs and `none` have no run.
Plan planner_of(Takes takes) {
  switch (takes) {
    case Takes::soil:
    case Takes::backfill:
      return &Planner::soil;
    case Takes::voids:
      return &Planner::voids;
    case Takes::slab:
      return &Planner::slab;
    case Takes::under_slab:
      return &Planner::under_slab;
    case Takes::bath_traps:
      return &Planner::bath_traps;
    case Takes::stations:
      return &Planner::stations;
    case Takes::wood_surface:
      return &Planner::wood_surface;
    case Takes::wood_volume:
      return &Planner::wood_volume;
    case Takes::air_volume:
      return &Planner::air;
    case Takes::crawl_area:
      return &Planner::crawl_soil;
    case Takes::crawl_cover:
      return &Planner::crawl_cover;
    case Takes::soil_removal:
      return &Planner::soil_removal;
    case Takes::count:
    case Takes::once:
    case Takes::nothing:
      break;
  }
  return nullptr;
}

const char* to_treat(Takes takes) {
  if (takes == Takes::voids) return "name hollow walls or piers, or take another method";
  if (takes == Takes::slab || takes == Takes::under_slab)
    return "name a slab by `at:`, or walls of a part that stands on a slab";
  if (takes == Takes::soil || takes == Takes::backfill)
    return "name walls with soil on the side that is treated, or piers";
  return "name what it is done on by `at:`, `walls:` or `parts:`";
}

}  // namespace

/// A product is used for what its label names.
void Planner::site_of(const resolved::Line& line) {
  if (!product || !product->label || !product->label->sites) return;
  const auto& sites = *product->label->sites;
  if (std::find(sites.begin(), sites.end(), line.does) != sites.end()) return;
  faults.add(Rule::off_site, line.own_product ? line.product_at : line.does_at,
             "the label of `" + product->id.value_or("") + "` does not name `" + line.does + "`",
             "a product may only be used where its label says",
             "take another product, or add the method to `sites:` if the label names it");
}

bool Planner::measure(Task& task) {
  const resolved::Line& line = *task.line;
  const auto measure_it = planner_of(line.takes);
  // By its name, since what is assumed is tried otherwise on a survey of its own.
  const SurveyedStructure* s = measure_it && line.structure ? basis.survey.find(line.structure->name) : nullptr;
  if (!line.ours() || !s || !s->drawn()) return true;
  const std::size_t before = faults.all().size();
  (this->*measure_it)(task, *s);
  if (!task.runs.empty()) return true;
  if (line.cut) return false;  // nothing is left of it
  const bool by_name = line.takes == Takes::soil || line.takes == Takes::backfill || line.takes == Takes::voids ||
                       line.takes == Takes::slab;
  const bool told = line.faulted || faults.all().size() != before;
  if ((!by_name || line.asked.any_place()) && s->complete && !told && line.near_placed)
    faults.add(Rule::does_no_work, line.does_at, "`" + line.does + "` finds nothing to treat in what this line names",
               "the papers would promise a treatment that nobody does", to_treat(line.takes));
  return true;
}

void Planner::line(const resolved::Line& line) {
  Task task;
  task.line = &line;
  task.work = line.typed;
  task.method = line.method;
  task.count = line.count.value_or(1);
  if (task.count < 1)
    faults.add(Rule::bad_number, line.count_at, "a line that is done 0 times does nothing",
               "it would be promised, and given away", "write how many, or take the line out");
  if (!task.method) return;  // an unknown method is reported by the rules
  product = task.product = line.product;
  if (task.product) site_of(line);
  if (measure(task)) out.tasks.push_back(std::move(task));
}

namespace {

void unknown_product(const Company& company, const std::string& id, Span at, Faults& faults) {
  if (id.empty() || company.product(id) || !company.products) return;
  std::vector<std::string_view> known;
  for (const Product& p : *company.products)
    if (p.id) known.push_back(*p.id);
  faults.add(Rule::no_product, at, "`" + id + "` is not a product of the company's file",
             "the crew would not know what to mix, nor the buyer what is used",
             did_you_mean(id, known, "name one of " + yaml::listed(known)));
}

/// Says once what products an option lacks. Silent when it uses none.
void check_products(const Basis& basis, const resolved::Option& option, Faults& faults) {
  bool needed = false;
  for (const resolved::Line& line : option.lines) {
    if (!line.method || !line.method->uses_product.value_or(false) || !line.ours()) continue;
    unknown_product(basis.company, line.product_id, line.product_at, faults);
    needed = needed || !line.own_product;
  }
  unknown_product(basis.company, option.product_id, option.product_at, faults);
  if (needed && !option.product_said)
    faults.add(Rule::no_product, option.id_at ? option.id_at : option.at, "this option treats, but names no product",
               "the crew would not know what to mix, nor the buyer what is used",
               "write `product:` with the id of a product in the company's file");
}

void check_strength(const Product& product, int strength, Faults& faults) {
  if (!product.finished || !product.label) return;
  const Ratio finished = product.finished->value * Ratio(strength);
  const auto& from = product.label->finished_from;
  const auto& to = product.label->finished_to;
  const bool weak = from && finished < from->value, strong = to && finished > to->value;
  if (!weak && !strong) return;
  faults.add(Rule::mix_off_label, product.finished.at,
             shortest(finished, 4) + " percent is " + (weak ? "weaker" : "stronger") + " than the " +
                 shortest(weak ? from->value : to->value, 4) + " percent that the label allows",
             weak ? "the soil would not keep termites out" : "more than a label allows may not be used",
             "take the finished percent from the label");
}

void mix(const Basis& basis, const Product& product, int strength, const Ratio& gallons, Treatment& out,
         Faults& faults) {
  check_strength(product, strength, faults);
  const auto rate = mixing_rate(product);
  if (!rate) {
    faults.add(Rule::no_product, product.id.at, "`" + *product.id + "` has no strength to mix by",
               "the concentrate for each tank could not be worked out",
               "write `fl oz per 100 gal:`, or `lb per gal:` with `finished percent:`, from the label");
    return;
  }
  const Ratio fl_oz_in_100_gal(12800);
  if (*rate * Ratio(strength) > fl_oz_in_100_gal) {
    faults.add(Rule::bad_number,
               product.fl_oz_per_100_gal ? product.fl_oz_per_100_gal.at
               : product.lb_per_gal      ? product.lb_per_gal.at
                                         : product.concentrate.at,
               "`" + *product.id + "` would take more concentrate than the tank holds", "the crew could not mix it",
               "take the strength from the label");
    return;
  }
  Product by_strength = product;  // what its strength says, without the label's own mixing rate
  by_strength.fl_oz_per_100_gal = {};
  if (const auto formula = product.fl_oz_per_100_gal ? mixing_rate(by_strength) : std::nullopt) {
    const Ratio off = *rate > *formula ? *rate - *formula : *formula - *rate;
    const std::string strength = product.lb_per_gal ? shortest(*product.lb_per_gal, 4) + " lb/gal"
                                                    : shortest(product.concentrate->value, 4) + " % concentrate";
    const auto& tolerance = basis.form.limits->mix_tolerance;
    if (tolerance && tolerance->value && off * Ratio(100) > *formula * tolerance->value->value)
      faults.add(Rule::mix_disagrees, product.fl_oz_per_100_gal.at,
                 shortest(*rate, 2) + " fl oz per 100 gal is not " + shortest(product.finished->value, 4) + " percent",
                 shortest(product.finished->value, 4) + " % of " + strength + " takes " + decimal(*formula, 1) +
                     " fl oz per 100 gal; the tank would be mixed wrong",
                 "take both figures from one label, or leave one of them out", rests_on(*tolerance));
  }
  const auto& tank = basis.company.tank_gal;
  if (tank && (*tank < Ratio(1) || gallons / *tank > Ratio(500)))
    faults.add(Rule::bad_number, tank.at, "a tank of " + shortest(*tank, 4) + " gal cannot carry this treatment",
               "the crew could not mix by it", "write the gallons of the tank");
  for (const Package& package : items(product.packages))
    if (package.fl_oz && *package.fl_oz < Ratio(1))
      faults.add(Rule::bad_number, package.fl_oz.at, "a package of less than 1 fl oz is no package",
                 "the crew would be told to bring millions", "write the fluid ounces of a package");
  if (gallons > Ratio(0) && tank && *tank >= Ratio(1) && gallons / *tank <= Ratio(500)) {
    out.mixes.push_back(mix_for(product, *rate * Ratio(strength), gallons, *basis.company.tank_gal));
    out.mixes.back().strength = strength;
    if (auto& lb = out.mixes.back().active_lb) *lb = *lb * Ratio(strength);
  }
}

/// What two lines of an option treat alike would be treated, and billed, twice.
void doubled(const Treatment& out, Faults& faults) {
  const auto line = [&](const Run& run) -> const resolved::Line* {
    for (const Task& task : out.tasks)
      if (!run.work.empty() && task.line->id == run.work) return task.line;
    return nullptr;
  };
  std::set<std::pair<const resolved::Line*, const resolved::Line*>> told;
  for (std::size_t j = 1; j < out.runs.size(); ++j)
    for (std::size_t i = 0; i < j; ++i) {
      const Run &a = out.runs[i], &b = out.runs[j];
      if (a.kind != b.kind || a.within != b.within || a.structure != b.structure || a.work == b.work) continue;
      const auto walls = common(a.stretches, b.stretches);
      const auto piers = std::find_first_of(a.piers.begin(), a.piers.end(), b.piers.begin(), b.piers.end());
      const auto names = std::find_first_of(a.names.begin(), a.names.end(), b.names.begin(), b.names.end());
      const bool by_name = a.kind != RunKind::slab && names != a.names.end();
      if (walls.empty() && piers == a.piers.end() && !by_name) continue;
      const resolved::Line *first = line(a), *second = line(b);
      if (!first || !second || !told.emplace(first, second).second) continue;
      const std::string where = !walls.empty() ? "wall " + std::to_string(walls.front().wall) + " from " +
                                                     print(walls.front().a) + " to " + print(walls.front().b)
                                : by_name ? *names
                                          : "pier " + std::to_string(*piers);
      Diagnostic d{Rule::doubled_work, second->does_at, {}, {}, {}, {}};
      d.what = "`" + a.work + "` and `" + b.work + "` both treat " + where;
      d.why = "the same soil or void would be treated, and billed, twice";
      d.fix = "leave it to one of the two lines";
      d.see.push_back({first->does_at, "the other line"});
      faults.add(std::move(d));
    }
}

/// One mix for each product and strength, in the order of their first runs.
void mixes(const Basis& basis, Treatment& out, Faults& faults) {
  std::vector<std::pair<const Product*, int>> kinds;
  for (const Run& run : out.runs) {
    const std::pair kind{run.product, run.strength};
    if (run.product && run.gallons > Ratio(0) && std::find(kinds.begin(), kinds.end(), kind) == kinds.end())
      kinds.push_back(kind);
  }
  for (const auto& [product, strength] : kinds) {
    Ratio gallons;
    for (const Run& run : out.runs)
      if (run.product == product && run.strength == strength) gallons += run.gallons;
    mix(basis, *product, strength, gallons, out, faults);
  }
}

}  // namespace
}  // namespace planning

Length well_limit(const Limits& limits, const Product* product, Field<Datum<Length>> Limits::*by_form,
                  Field<Length> Label::*by_label) {
  Length most;
  if (const auto& datum = limits.*by_form; datum && datum->value) most = *datum->value;
  if (product && product->label)
    if (const auto& own = (*product->label).*by_label; own) most = std::max(most, *own);
  return most;
}

std::vector<std::vector<Point>> soil_of(const SurveyedStructure& s, const Run& run, Length width) {
  std::vector<std::vector<Point>> out;
  if (!is_soil(run.kind)) return out;
  for (const Stretch& stretch : run.stretches)
    out.push_back(strip_beside(s, stretch, width, run.kind == RunKind::soil_outside));
  const auto round = [&](Place::Kind kind, int number, const std::string& name) {
    Place place;
    place.kind = kind;
    place.number = number;
    place.name = name;
    for (const auto& shape : shapes_of(s, place)) out.push_back(grown(shape, width));
  };
  for (const int pier : run.piers) round(Place::Kind::pier, pier, {});
  for (const std::string& name : run.names) {
    if (run.kind == RunKind::soil_chimneys) round(Place::Kind::chimney, 0, name);
    if (run.kind == RunKind::soil_posts) round(Place::Kind::wood, 0, name);
    if (run.kind == RunKind::soil_partitions) round(Place::Kind::partition, 0, name);
    if (run.kind == RunKind::soil_pilasters) round(Place::Kind::pilaster, 0, name);
    if (run.kind == RunKind::soil_porches) round(Place::Kind::slab, 0, name);
  }
  return out;
}

Treatment plan(const Basis& basis, const resolved::Option& option, Faults& faults) {
  Treatment out;
  out.of = &option;
  out.option = option.typed;
  out.id = option.id;
  planning::check_products(basis, option, faults);
  planning::Planner planner{basis, option, faults, out};
  for (const resolved::Line& line : option.lines) planner.line(line);
  planner.allowance();
  planning::doubled(out, faults);
  planning::mixes(basis, out, faults);
  planner.times();
  return out;
}

std::vector<Treatment> plan_all(const Basis& basis, Faults& faults) {
  std::vector<Treatment> all;
  for (const resolved::Option& option : basis.resolved.options) {
    all.push_back(plan(basis, option, faults));
    all.back().left_out = left_by(basis.survey, all.back());
  }
  return all;
}

}  // namespace soundsill
