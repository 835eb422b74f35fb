// Soil along walls.
#include "treatment/soil.h"

#include <algorithm>

namespace soundsill::planning {

constexpr std::string_view in_clay = "half volume in clay";

namespace {

Length by_label(const Planner& p) {
  const bool label = p.product && p.product->label && p.product->label->soil_depth;
  return label ? *p.product->label->soil_depth : Length{};
}

}  // namespace

Length Soil::minimum() const { return std::max(p.limit(&Limits::soil_depth), by_label(p)); }
Length Soil::minimum_read() const {
  const auto& read = p.basis.form.firm.soil_depth;
  return std::max(read ? read->value.value_or(Length{}) : Length{}, by_label(p));
}

Ratio Soil::rate() const {
  if (backfill) return p.rate(&Limits::backfill_rate);
  return strength == 2 ? p.rate(&Limits::soil_rate) / 2 : p.rate(&Limits::soil_rate);
}

Depths Soil::depths(Length footing, const std::optional<KnownBy>& known_by) {
  Depths at;
  at.required = required_depth(footing, minimum(), Length{});
  at.planned = std::min(footing, most());
  at.known_by = known_by ? static_cast<int>(*known_by) : -1;
  deepest = std::max(deepest, footing);
  if (at.planned < at.required) asked = std::max(asked, at.required);
  asked_by_what_was_read |= at.planned < required_depth(footing, minimum_read(), Length{});
  return at;
}

void Soil::check_depth() const {
  const auto& depth = task.line->depth;
  if (!depth) return;
  if (asked > Length{} && !task.line->waiver)
    p.faults.add(Rule::too_shallow, task.line->depth_at,
                 print(*depth) + " is less than the " + print(asked) + " that is required",
                 "soil below would stay untreated, and the crew would mix too little",
                 "plan at least " + print(asked) + ", or take `depth:` out and let it be worked out",
                 asked_by_what_was_read ? Rests::read : Rests::unread);
  if (deepest > Length{} && *depth > deepest)
    p.faults.add(Rule::below_footing, task.line->depth_at,
                 print(*depth) + " is below the deepest footing, which lies at " + print(deepest),
                 "digging below a footing undermines the house, and no label allows it",
                 "plan at most " + print(deepest) + ", or take `depth:` out and let it be worked out");
}

void Soil::fill(Run& run, const Depths& at) const {
  run.required_depth = at.required;
  run.depth = at.planned;
  run.reckoned_depth = std::max(at.planned, floor);
  if (at.known_by >= 0) run.footing_known_by = static_cast<KnownBy>(at.known_by);
}

void Soil::reckon(Run& run, Working pieces) const {
  using W = WorkingWord;
  run.rate = rate();
  run.backfill = backfill;
  run.strength = strength;
  run.within = run.within || has(run.kind, run_traits::indoors);
  const Working deep = Working(run.reckoned_depth).in(run.depth_to ? W::mean_deep : W::deep);
  const Length width = p.limit(&Limits::trench_width);
  if (backfill) {
    run.exact_gallons = backfill_gallons(run.length, width, run.reckoned_depth, run.rate);
    run.working =
        std::move(pieces) * Working(width).in(W::wide)*deep * Working(run.rate).in(W::gal) / Working(W::cu_ft);
    run.sources.push_back(p.source("rate", &Limits::backfill_rate));
    run.sources.push_back(p.source("width of the trench", &Limits::trench_width));
  } else {
    run.exact_gallons = soil_gallons(run.length, run.reckoned_depth, run.rate);
    run.working = std::move(pieces) * deep * gal_per_ten_ft(run.rate);
    run.sources.push_back(p.source("rate", &Limits::soil_rate));
  }
  if (strength == 2) {
    const LabelAllows* allowed = p.product && p.product->label ? p.product->label->allowance(in_clay) : nullptr;
    run.sources.push_back("half the gallons at double strength in clay: " + (allowed ? *allowed->cite : std::string()));
  }
  run.sources.push_back(p.source("depth by the state", &Limits::soil_depth));
  if (p.product && p.product->name) run.sources.push_back("depth by the label: " + *p.product->name);
  if (run.reckoned_depth > run.depth && !run.depth_to)
    run.sources.push_back(p.source("least depth reckoned", &Limits::volume_floor));
  rod_share(run);
}

/// A trench holds its own share of the gallons; what lies deeper is rodded, hole by hole.
void Soil::rod_share(Run& run) const {
  const Length trench = p.limit(&Limits::trench_depth);
  const Ratio gallons = run.exact_gallons.rounded_to(1);
  run.trench_gallons = gallons;
  // A shallow footing is reckoned deeper than it lies; the soil is no deeper for that.
  const Length deep = run.depth_to ? run.reckoned_depth : run.depth;
  if (backfill || trench <= Length{} || deep <= trench) return;
  run.trench_gallons = (gallons * trench.in_feet() / deep.in_feet()).rounded_to(1);
  run.rod_gallons = gallons - run.trench_gallons;
  const Length spacing = p.limit(&Limits::rod_spacing);
  if (run.stretches.empty() || spacing <= Length{}) return;
  run.rod_holes =
      holes(chains(s, run.stretches, run.kind == RunKind::soil_inside ? Along::inside : Along::outside), spacing);
}

void Soil::wall_run(RunKind kind, const Depths& at, Group group) {
  Run run;
  run.kind = kind;
  fill(run, at);
  run.stretches = joined(std::move(group.stretches));
  run.length = group.length;
  if (at.slopes && run.length > Length{}) {
    run.depth = group.least;
    run.depth_to = group.greatest;
    run.required_depth = std::min(group.greatest, minimum());
    run.reckoned_depth = {(group.area / run.length.in_feet() * Ratio(192)).rounded()};
  }
  reckon(run, Working(run.length));
  p.deepest_along = std::max(p.deepest_along, run.reckoned_depth);
  p.along_walls += run.length;
  p.add(task, s, std::move(run));
}

void Soil::slope(Group& group, const Wall& wall, const Stretch& stretch, Length length, Length from, Length to) {
  const auto at = [&](Length along) {
    const Ratio share = along.in_feet() / wall.length.in_feet();
    return Length{(from.in_feet() * Ratio(192) + (to - from).in_feet() * Ratio(192) * share).rounded()};
  };
  const Length a = at(stretch.a), b = at(stretch.b), cap = most();
  group.area += length.in_feet() * mean_depth(a, b, floor, std::max(cap, floor));
  const Length low = std::min(std::min(a, b), cap), high = std::min(std::max(a, b), cap);
  const bool first = group.greatest == Length{};
  group.least = first ? low : std::min(group.least, low);
  group.greatest = std::max(group.greatest, high);
  deepest = std::max(deepest, std::max(a, b));
  const Length required = required_depth(std::max(a, b), minimum(), Length{});
  if (high < required) asked = std::max(asked, required);
  asked_by_what_was_read |= high < required_depth(std::max(a, b), minimum_read(), Length{});
}

/// One face of the chosen walls, one run for each depth and one for all that slopes.
void Soil::face(RunKind kind, const std::vector<Stretch>& chosen, bool whole_house) {
  const bool outside = kind == RunKind::soil_outside;
  Groups groups;
  std::string unsaid;
  int count = 0;
  for (const Stretch& stretch : chosen) {
    const Wall& wall = *s.wall(stretch.wall);
    const auto& footing = outside ? wall.footing_outside : wall.footing_inside;
    const auto& to = outside ? wall.footing_outside_to : wall.footing_inside_to;
    if (!footing) {
      unsaid += (count++ ? ", " : "") + std::to_string(wall.number);
      continue;
    }
    const Length length = outside || bid_as_outside() ? stretch.length() : inside_of(wall, stretch);
    Depths at = to ? Depths{{}, {}, wall.known_by ? static_cast<int>(*wall.known_by) : -1, true}
                   : depths(*footing, wall.known_by);
    Group& group = groups[at];
    group.stretches.push_back(stretch);
    group.length += length;
    if (to) slope(group, wall, stretch, length, *footing, *to);
  }
  if (count && !(outside ? s.outside_misread : s.inside_misread))
    footing_unsaid(s.footings_at,
                   std::string(outside ? "outside" : "inside") + " of wall" + (count > 1 ? "s " : " ") + unsaid);
  if (groups.empty()) return;
  if (whole_house) correct_to_taped(outside, groups);
  for (auto& [at, group] : groups) wall_run(kind, at, std::move(group));
}

bool Soil::bid_as_outside() const {
  const auto& bidding = p.basis.company.bidding;
  return s.inside_as_outside || (bidding && bidding->inside && *bidding->inside == InsideBid::as_outside);
}

/// A taped total replaces the drawn one; the difference goes to the longest group, whose walls it most likely is.
void Soil::correct_to_taped(bool outside, Groups& groups) const {
  const Length drawn = outside ? s.drawn_outside : s.drawn_inside;
  const Length counts = outside ? s.outside : s.inside;
  if (drawn == counts || (!outside && bid_as_outside())) return;
  const auto longest = std::max_element(groups.begin(), groups.end(),
                                        [](const auto& a, const auto& b) { return a.second.length < b.second.length; });
  Group& group = longest->second;
  const Length corrected = std::max(Length{}, group.length + (counts - drawn));
  if (group.length > Length{}) group.area = group.area * corrected.in_feet() / group.length.in_feet();
  group.length = corrected;
}

void Soil::footing_unsaid(Span at, const std::string& what) const {
  const std::string side = what.starts_with("outside") ? "outside" : "inside";
  const bool wall = what.find(" of wall") != std::string::npos;
  p.faults.add(Rule::footing_unsaid, at, "no footing depth is given " + what,
               "gallons grow with the depth; without it they would be guessed",
               wall ? "write `footing: {" + side + ": ..., known by: dug}` (or drawing, or assumed) for these walls"
                    : "write `footing:` and `known by:`; a slab that lies on the soil has `fill: soil`");
}

namespace {

/// Half the gallons at double strength: only in clay, and only where the label says so.
bool half_volume(Planner& p, const resolved::Line& line, const SurveyedStructure& s) {
  if (!line.half_volume) return false;
  const bool cited = p.product && p.product->label && p.product->label->allowance(in_clay);
  const bool clay = s.soil && *s.soil == soundsill::Soil::clay;
  if (cited && clay) return true;
  p.faults.add(Rule::label_silent, line.half_volume_at,
               cited ? "half the volume is for clay, and the soil here is not clay"
                     : "half the volume is planned, and no label is cited for it",
               "soil would get half of what it needs to keep termites out",
               cited ? "take `half volume:` out"
                     : "add `allows: [{what: " + std::string(in_clay) +
                           ", cite: ...}]` to the product's `label:` if its label says so");
  return false;
}

}  // namespace

void Soil::plan() {
  const resolved::Line& line = *task.line;
  if (half_volume(p, line, s)) strength = 2;
  const auto& chosen = line.cover.walls;
  const Sides sides = line.sides;
  const bool whole_house = line.asked.walls.all;
  // Where a slab or porch adjoins, the trench ends and drilling begins: never both.
  const auto outside = without(common(chosen, all_of(s, &Wall::outer)), all_of(s, &Wall::paved));
  std::vector<Stretch> inside;
  for (const Stretch& stretch : chosen) {
    const Wall& wall = *s.wall(stretch.wall);
    if (s.parts[wall.part].foundation == Foundation::crawl_space && wall.inside_length > Length{})
      inside.push_back(stretch);
  }
  if (sides != Sides::inside) face(RunKind::soil_outside, outside, whole_house);
  if (sides != Sides::outside) face(RunKind::soil_inside, inside, whole_house && inside.size() == s.walls.size());
  if (sides != Sides::outside) partitions();
  pilasters(sides != Sides::inside ? outside : std::vector<Stretch>{},
            sides != Sides::outside ? inside : std::vector<Stretch>{});
  if (sides != Sides::inside) porches();
  piers(line.cover.piers);
  chimneys(line.cover.chimneys);
  posts();
  check_depth();
}

void Planner::soil(Task& task, const SurveyedStructure& s) {
  Soil soil{*this, task, s};
  soil.backfill = task.line->takes == Takes::backfill;
  soil.plan();
}

/// Rounding the bid length up is a run of its own, one for the whole option, so that everybody sees it.
void Planner::allowance() {
  const auto& bidding = basis.company.bidding;
  if (!bidding || !bidding->round_up_to || *bidding->round_up_to <= Length{} || along_walls <= Length{}) return;
  const auto task = std::find_if(out.tasks.rbegin(), out.tasks.rend(), [&](const Task& t) {
    return std::any_of(t.runs.begin(), t.runs.end(), [&](std::size_t i) {
      return out.runs[i].kind == RunKind::soil_outside || out.runs[i].kind == RunKind::soil_inside;
    });
  });
  const Length step = *bidding->round_up_to;
  const Length extra = step * (along_walls.in_feet() / step.in_feet()).ceil() - along_walls;
  if (extra <= Length{} || task == out.tasks.rend()) return;
  const SurveyedStructure* s = basis.survey.find(out.runs[task->runs.front()].structure);
  if (!s) return;
  Run run;
  run.kind = RunKind::allowance;
  run.length = extra;
  run.rate = rate(&Limits::soil_rate);
  run.depth = run.required_depth = run.reckoned_depth = deepest_along;
  run.exact_gallons = run.trench_gallons = soil_gallons(extra, deepest_along, run.rate);
  run.trench_gallons = run.trench_gallons.rounded_to(1);
  run.working = Working(extra) * Working(deepest_along).in(WorkingWord::deep)*gal_per_ten_ft(run.rate);
  run.sources.push_back("the company rounds the bid length up to " + print(step));
  product = task->line->product;
  add(*task, *s, std::move(run));
}

}  // namespace soundsill::planning
