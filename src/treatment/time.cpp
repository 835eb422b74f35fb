// Serves treatment/planner.h. How long the work takes: pumping at the flow of each tip, and digging, drilling and the
// rest at the company's pace.
#include <algorithm>
#include <set>

#include "diagnostics/names.h"
#include "treatment/planner.h"

namespace soundsill::planning {
namespace {

/// Kinds of work that have a pace besides the methods themselves: for a foot, a hole or a piece.
constexpr std::string_view trench_outside = "trench outside", trench_inside = "trench inside", rod_hole = "rod hole",
                           slab_hole = "slab hole", void_hole = "void hole", post = "post";
constexpr std::array kinds{trench_outside, trench_inside, rod_hole, slab_hole, void_hole, post};

struct Clock {
  Planner& p;
  const Crew& crew;
  std::set<std::string> missing{};
  const SurveyedStructure* s = nullptr;

  /// Lowest crawl space of the structure: it is the one that holds up the work.
  [[nodiscard]] std::optional<Length> crawl() const {
    std::optional<Length> low;
    if (s)
      for (const SurveyedPart& part : s->parts)
        if (part.crawl_height && (!low || *part.crawl_height < *low)) low = *part.crawl_height;
    return low;
  }

  [[nodiscard]] bool fits(const Pace& row, std::string_view what) const {
    if (!row.does || !row.minutes || *row.does != what) return false;
    if (row.soil) {
      const std::string_view soil = s && s->soil ? yaml::word(*s->soil) : std::string_view{};
      if (std::find(row.soil->begin(), row.soil->end(), soil) == row.soil->end()) return false;
    }
    if (!row.crawl_up_to) return true;
    const auto height = crawl();
    return height && *height <= *row.crawl_up_to;
  }

  /// Of the rows that fit, the one that says most: both soil and height, then the lower height.
  [[nodiscard]] const Pace* row(std::string_view what) const {
    const auto weight = [](const Pace& r) { return (r.soil ? 1 : 0) + (r.crawl_up_to ? 2 : 0); };
    const Pace* best = nullptr;
    for (const Pace& r : items(crew.pace)) {
      if (!fits(r, what)) continue;
      const bool better = !best || weight(r) > weight(*best) ||
                          (weight(r) == weight(*best) && r.crawl_up_to && *r.crawl_up_to < *best->crawl_up_to);
      if (better) best = &r;
    }
    return best;
  }

  bool work(Run& run, std::string_view what, const Ratio& measure, std::string_view unit) {
    if (measure <= Ratio(0)) return true;
    const Pace* pace = row(what);
    if (!pace) {
      missing.insert(std::string(what));
      return false;
    }
    run.minutes += measure * *pace->minutes;
    add_working(run,
                shortest(measure.rounded_to(2), 2) + std::string(unit) + " x " + shortest(*pace->minutes, 2) + " min");
    return true;
  }

  bool pump(Run& run, TipAt at, const Ratio& gallons) {
    if (gallons <= Ratio(0)) return true;
    for (const Tip& tip : items(crew.tips))
      if (tip.at_what && tip.sec_per_gal && *tip.at_what == at) {
        const Ratio seconds = gallons * *tip.sec_per_gal;
        run.pump_seconds += seconds;
        run.minutes += seconds / 60;
        add_working(run, shortest(gallons, 1) + " gal x " + shortest(*tip.sec_per_gal, 2) + " s / 60");
        return true;
      }
    missing.insert("the tip at the " + std::string(yaml::word(at)));
    return false;
  }

  static void add_working(Run& run, const std::string& more) {
    run.time_working += (run.time_working.empty() ? "" : " + ") + more;
  }

  bool soil(Run& run, const Method& method) {
    if (facts(run.kind).size == RunSize::pieces) {
      const bool dug = work(run, post, Ratio(run.count), "");
      return pump(run, TipAt::trench, run.gallons) && dug;
    }
    const std::string_view trench = run.within ? trench_inside : trench_outside;
    bool known = work(run, run.backfill ? std::string_view(*method.name) : trench, run.length.in_feet(), " ft");
    known = work(run, rod_hole, Ratio(run.rod_holes), "") && known;
    known = pump(run, TipAt::trench, run.gallons - run.rod_gallons) && known;
    return pump(run, TipAt::rod, run.rod_gallons) && known;
  }

  bool one(Run& run, const Method& method) {
    if (is_soil(run.kind)) return soil(run, method);
    const TipAt tip = facts(run.kind).tip;
    const bool done = is_drilled(run.kind)
                          ? work(run, tip == TipAt::void_hole ? void_hole : slab_hole, Ratio(run.holes), "")
                          : by_size(run, *method.name);
    return pump(run, tip, run.gallons) && done;
  }

  bool by_size(Run& run, std::string_view what) {
    switch (facts(run.kind).size) {
      case RunSize::area:
        return work(run, what, run.sq_ft, " sq ft");
      case RunSize::coats:
        return work(run, what, run.sq_ft * Ratio(std::max(1, run.count)), " sq ft");
      case RunSize::volume:
        return work(run, what, run.cu_ft, " cu ft");
      case RunSize::thousands:
        return work(run, what, run.cu_ft / 1000, " thousand cu ft");
      case RunSize::feet:
      case RunSize::holes:
      case RunSize::pieces:
        break;
    }
    return work(run, what, Ratio(run.count), "");
  }

  void task(Task& t) {
    s = t.line->in.empty() ? nullptr : p.basis.survey.find(t.line->in);
    if (!s && p.basis.survey.structures.size() == 1) s = &p.basis.survey.structures.front();
    for (const std::size_t i : t.runs) {
      Run& run = p.out.runs[i];
      s = p.basis.survey.find(run.structure);
      run.timed = one(run, *t.method);
      p.out.minutes += run.minutes;
    }
    const Takes takes = t.method->takes.value_or(Takes::once);
    if (!t.line->ours() || (takes != Takes::count && takes != Takes::once)) return;
    const Pace* pace = row(*t.method->name);
    if (!pace) {
      missing.insert(*t.method->name);
      return;
    }
    t.minutes = *pace->minutes * Ratio(t.count);
    p.out.minutes += t.minutes;
  }

  /// A row for work that nobody knows is a slip of the keyboard: its time would be lost.
  void unknown() const {
    for (const Pace& r : items(crew.pace)) {
      if (!r.does || std::find(kinds.begin(), kinds.end(), *r.does) != kinds.end() || p.basis.trade.method(*r.does))
        continue;
      std::vector<std::string_view> known(kinds.begin(), kinds.end());
      for (const Method& m : items(p.basis.trade.methods))
        if (m.name) known.push_back(*m.name);
      p.faults.add(Rule::unknown_reference, r.does.at, "`" + *r.does + "` is no work that takes time",
                   "its minutes would be left out of the crew's day",
                   did_you_mean(*r.does, known, "name a method, or one of " + yaml::listed(kinds)));
    }
  }
};

}  // namespace

void Planner::times() {
  if (!basis.company.crew) return;
  const Crew& crew = *basis.company.crew;
  if (!crew.people || !crew.set_up_minutes) return;  // reported while reading
  if (*crew.people < 1 || *crew.people > 50)
    return faults.add(Rule::bad_number, crew.people.at, "a crew of " + std::to_string(*crew.people) + " does no work",
                      "hours could not be told", "write how many go out together");
  Clock clock{*this, crew};
  clock.unknown();
  for (Task& task : out.tasks) clock.task(task);
  if (out.minutes > Ratio(0) || !clock.missing.empty()) out.minutes += *crew.set_up_minutes * Ratio(*crew.people);
  out.crew_hours = out.minutes / Ratio(*crew.people) / 60;
  out.timed = clock.missing.empty();
  if (clock.missing.empty()) return;
  std::string lacks;
  for (const std::string& m : clock.missing) lacks += (lacks.empty() ? "`" : "`, `") + m;
  faults.add(Rule::no_pace, crew.pace ? crew.pace.key : crew.at, "the crew has no pace for " + lacks + "`",
             "hours on estimate and work order would be too few, so none are told",
             "add `{for: ..., minutes: ...}` to `pace:`, or the tip to `tips:`, from the company's own jobs");
}

}  // namespace soundsill::planning
