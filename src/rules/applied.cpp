// Serves rules/each.h. What was applied against what was planned.
#include <algorithm>

#include "rules/aftercare.h"

namespace soundsill::rules {
namespace {

std::string gal(const Ratio& gallons) { return decimal(gallons, 1) + " gal"; }
std::string named(const RunDone& run) { return "run " + std::to_string(run.run->number); }

Span place_of(const RunDone& run) { return first_of({run.entry->gal_at, run.entry->run_at, run.entry->at}); }

}  // namespace

void applied_short(const Papers& papers, Faults& faults) {
  const Treatment* t = papers.basis.c.applied && plan_stands(faults) ? chosen_of(papers) : nullptr;
  if (!t) return;
  const auto unsaid = [&](const RunDone& run) {
    if (run.measured) return false;
    if (run.entry->gal || !run.entry->gal_at)  // else it was typed and could not be read

      faults.add(Rule::applied_short, place_of(run), named(run) + " does not say its gallons",
                 "nobody could tell whether the treated zone is whole", "write `gal:` as the meter showed it");
    return true;
  };
  const auto takes = [](const RunDone& run) { return run.done && !run.untreated && run.run->gallons > Ratio(0); };
  for (const Retreatment& again : retreatments(papers.basis, *t))  // of a run it may treat a part alone
    for (const RunDone& run : again.runs)
      if (takes(run)) unsaid(run);
  for (const RunDone& run : runs_done(papers.basis, *t)) {
    if (!takes(run) || unsaid(run)) continue;
    if (run.gallons >= run.least) continue;
    faults.add(Rule::applied_short, place_of(run),
               named(run) + " took " + gal(run.gallons) + "; rate and depth ask " + gal(run.least),
               "less than the label's volume is no treatment of that run",
               "top it up and add the run again with what it took, or write `untreated: {by: ..., on: ..., because: "
               "...}` with its waiver");
  }
}

void applied_over(const Papers& papers, Faults& faults) {
  const Treatment* t = papers.basis.c.applied && plan_stands(faults) ? chosen_of(papers) : nullptr;
  if (!t) return;
  std::vector<RunDone> all = runs_done(papers.basis, *t);
  for (Retreatment& again : retreatments(papers.basis, *t))
    all.insert(all.end(), std::make_move_iterator(again.runs.begin()), std::make_move_iterator(again.runs.end()));
  for (const RunDone& run : all) {
    if (!run.measured || run.run->gallons <= Ratio(0) || run.gallons <= run.most) continue;
    const bool by_label = run.run->product && run.run->product->label && run.run->product->label->applied_over;
    faults.add(Rule::applied_over, place_of(run),
               named(run) + " took " + gal(run.gallons) + "; " +
                   (by_label ? "the label allows " : "rate and form allow ") + gal(run.most),
               "more than the label's volume is an offense, and runs to where nobody wants it",
               "correct a slip of the pen; else report it as the label and the state ask",
               by_label ? Rests::read : rests_on(papers.basis.form, &Limits::applied_over, [&](const Percent& over) {
                 return most_gallons(*run.run, over) < run.gallons;
               }));
  }
  for (const Applied& day : items(papers.basis.c.applied))
    for (const AppliedProduct& used : items(day.products)) {
      const Product* p = used.product ? papers.basis.company.product(*used.product) : nullptr;
      if (!p || !p->label || !used.strength) continue;
      const auto& from = p->label->finished_from;
      const auto& to = p->label->finished_to;
      const bool strong = to && to->value < used.strength->value, weak = from && used.strength->value < from->value;
      if (!strong && !weak) continue;
      faults.add(
          Rule::applied_over, used.strength.at,
          quoted(*used.product) + " was applied at " + shortest(used.strength->value, 4) + " %; the label allows " +
              shortest((strong ? to : from)->value, 4) + " %",
          strong ? "a stronger mix than the label's is an offense" : "a weaker mix than the label's does not hold",
          "correct a slip of the pen; else report it as the label and the state ask");
    }
}

namespace {

std::string numbers(const std::vector<const Run*>& runs) {
  std::vector<int> out;
  for (const Run* run : runs) out.push_back(run->number);
  return numbered("run", out);
}

/// Runs, lines and products that the record names and the option does not have.
void strangers(const Papers& papers, const Treatment& t, Faults& faults) {
  for (const Applied& day : items(papers.basis.c.applied)) {
    for (const AppliedRun& entry : items(day.runs))
      if (entry.run && std::none_of(t.runs.begin(), t.runs.end(), [&](const Run& r) { return r.number == *entry.run; }))
        faults.add(
            Rule::unknown_reference, entry.run.at,
            called(t) + " has no run " + std::to_string(*entry.run) + "; its last is " + std::to_string(t.runs.size()),
            "gallons would be recorded for something that is not on the drawing", "name a run of the work order");
    for (const std::string& id : items(day.done)) {
      std::vector<std::string_view> known;
      for (const Task& task : t.tasks)
        if (task.work->id) known.emplace_back(*task.work->id);
      if (std::find(known.begin(), known.end(), id) == known.end())
        faults.add(Rule::unknown_reference, item(day.done.at, id), quoted(id) + " is no line of " + called(t),
                   "the record would speak of work that nobody ordered",
                   did_you_mean(id, known, "name lines of the accepted option"));
    }
  }
}

}  // namespace

void run_untreated(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const Treatment* t = c.applied && plan_stands(faults) ? chosen_of(papers) : nullptr;
  if (!t || misread(c.applied.at, faults)) return;
  strangers(papers, *t, faults);
  const auto done = runs_done(papers.basis, *t);
  for (const RunDone& run : done)
    if (run.untreated && run.measured)
      faults.add(Rule::run_untreated, first_of({run.untreated->at, run.entry->at}),
                 named(run) + " took " + gal(run.gallons) + ", and is left untreated all the same",
                 "record and certificate would say of one run that it was treated, and that it was not",
                 "take `untreated:` out, or the gallons");
  if (!finished_on(papers.basis.resolved)) return;
  std::vector<const Run*> missing;
  for (const RunDone& run : done)
    if (!run.done) missing.push_back(run.run);
  if (!missing.empty())
    faults.add(Rule::run_untreated, c.applied.key,
               numbers(missing) + " of " + called(*t) + (missing.size() > 1 ? " are" : " is") + " not in the record",
               "what nobody wrote down was not treated, and the warranty would cover a gap",
               "add the run with its gallons, or `untreated: {by: ..., on: ..., because: ...}` with its waiver; write "
               "`goes on:` while the work is not finished");
  std::vector<std::string> left;
  for (const Task& task : t->tasks) {
    const bool work = task.runs.empty() && task.work->who() == By::us && task.work->id && task.method &&
                      task.method->takes.value_or(Takes::nothing) != Takes::nothing;
    if (work && !line_listed(papers.basis.resolved, *task.work->id) &&
        std::find(left.begin(), left.end(), said(*task.work)) == left.end())
      left.push_back(said(*task.work));
  }
  if (!left.empty())
    faults.add(Rule::run_untreated, c.applied.key,
               listed(left) + (left.size() > 1 ? " are" : " is") + " not in the record",
               "work that was sold and not recorded was not done", "name the lines that were done under `done:`");
}

namespace {

void product_of_record(const Papers& papers, const AppliedProduct& used, Faults& faults) {
  if (!used.product) return;
  const Product* p = papers.basis.company.product(*used.product);
  const auto known = all_of(items(papers.basis.company.products), &Product::id);
  if (!p)
    return faults.add(Rule::unknown_reference, used.product.at,
                      quoted(*used.product) + " is no product of the company file", "a record names what was applied",
                      did_you_mean(*used.product, known, "name a product"));
  if (!p->registration.written())
    faults.add(Rule::record_incomplete, used.product.at, quoted(*used.product) + " has no registration number",
               "a record names the registered product, so that its label can be found years later",
               "write `registration: \"...\"` with the product in the company file");
  if (p->finished && !used.strength.written())
    faults.add(Rule::record_incomplete, used.product.at,
               "the record does not say how strong " + quoted(*used.product) + " was mixed",
               "without its strength nobody can tell what was applied", "write `percent:` beside the product");
}

}  // namespace

namespace {

/// Whether each product of these runs is listed on the days they were treated, and every hole is plugged.
void runs_complete(const std::vector<RunDone>& runs, const std::vector<std::string>& listed_products, bool again,
                   Faults& faults) {
  std::vector<std::string> told;
  for (const RunDone& run : runs) {
    if (!run.done || run.untreated) continue;
    const Product* p = run.run->product;
    if (p && p->id && run.run->gallons > Ratio(0) &&
        std::find(listed_products.begin(), listed_products.end(), *p->id) == listed_products.end() &&
        std::find(told.begin(), told.end(), *p->id) == told.end()) {
      told.push_back(*p->id);
      faults.add(Rule::record_incomplete, run.entry->run_at,
                 named(run) + " takes " + quoted(*p->id) + ", and no day lists it under `products:`",
                 "a record names what was applied, with its registration number",
                 "write `products: [{product: " + *p->id + ", percent: ...}]`");
    }
    if (run.run->holes == 0) continue;
    const Span at = first_of({run.entry->plugged_at, run.entry->holes_at, run.entry->run_at});
    if (!again && run.holes < run.run->holes)  // a retreatment may drill where it is called for alone
      faults.add(Rule::record_incomplete, at,
                 named(run) + " says " + std::to_string(run.holes) + " holes; " + std::to_string(run.run->holes) +
                     " are planned",
                 "holes farther apart than planned leave gaps in the treated zone",
                 "write `holes:` as drilled, and drill what is missing");
    else if (run.plugged != run.holes)
      faults.add(Rule::record_incomplete, at,
                 named(run) + " has " + std::to_string(run.holes) + " holes, and " + std::to_string(run.plugged) +
                     " are plugged",
                 "an open hole lets vapor into the house and children's fingers into it",
                 "plug the others, and write `plugged:`");
  }
}

void put_products(const Applied& day, std::vector<std::string>& out) {
  for (const AppliedProduct& used : items(day.products))
    if (used.product) out.push_back(*used.product);
}

}  // namespace

void record_incomplete(const Papers& papers, Faults& faults) {
  const Case& c = papers.basis.c;
  const Treatment* t = c.applied && plan_stands(faults) ? chosen_of(papers) : nullptr;
  if (!t || misread(c.applied.at, faults)) return;
  std::vector<std::string> products;
  for (const Applied& day : items(c.applied)) {
    for (const AppliedProduct& used : items(day.products)) product_of_record(papers, used, faults);
    if (!day.retreatment.value_or(false)) put_products(day, products);
    if (day.crew && day.crew->empty())
      faults.add(Rule::record_incomplete, day.crew.key, "nobody is named who applied it",
                 "a record names everybody who applied the product", "name the crew");
    if (day.retreatment.value_or(false) && !day.because.written())
      faults.add(Rule::record_incomplete, day.retreatment.at, "the retreatment does not say what called for it",
                 "the next reader would not know what was seen", "write `because:`");
  }
  runs_complete(runs_done(papers.basis, *t), products, false, faults);
  for (const Retreatment& again : retreatments(papers.basis, *t)) {
    std::vector<std::string> that_day;
    put_products(*again.day->typed, that_day);
    runs_complete(again.runs, that_day, true, faults);
  }
}

}  // namespace soundsill::rules
