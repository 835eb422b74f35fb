// Soil along walls and round what stands in it.
#include <algorithm>
#include <tuple>

#include "treatment/planner.h"

namespace soundsill::planning {
namespace {

using Depths = std::tuple<Length, Length, int>;  ///< required, planned, how the footing is known

struct Group {
  std::vector<Stretch> stretches;
  Length length;
};

std::string numbers(const std::vector<int>& walls) {
  std::string out;
  for (const int n : walls) out += (out.empty() ? "" : ", ") + std::to_string(n);
  return out;
}

struct Soil {
  Planner& p;
  Task& task;
  const SurveyedStructure& s;
  Length floor = p.limit(&Limits::volume_floor);
  Ratio rate = p.rate(&Limits::soil_rate);
  Length deepest{};  ///< of the footings it meets
  Length asked{};    ///< greatest depth required where less is planned

  [[nodiscard]] Length label_minimum() const {
    return p.product && p.product->label && p.product->label->soil_depth ? *p.product->label->soil_depth : Length{};
  }

  /// Required and planned depth over one footing. A planned depth ends at the footing.
  [[nodiscard]] std::pair<Length, Length> depths(Length footing) {
    const Length required = required_depth(footing, p.limit(&Limits::soil_depth), label_minimum());
    deepest = std::max(deepest, footing);
    if (!task.work->depth) return {required, required};
    const Length planned = std::min(footing, *task.work->depth);
    if (planned < required) asked = std::max(asked, required);
    return {required, planned};
  }

  /// What is wrong with a planned depth, over all that the line treats.
  void check_depth() const {
    const auto& depth = task.work->depth;
    if (!depth) return;
    if (asked > Length{} && !task.work->waiver)
      p.faults.add(Rule::too_shallow, depth.at,
                   print(*depth) + " is less than the " + print(asked) + " that is required",
                   "soil below would stay untreated, and the crew would mix too little",
                   "plan at least " + print(asked) + ", or take `depth:` out and let it be worked out");
    if (deepest > Length{} && *depth > deepest)
      p.faults.add(Rule::below_footing, depth.at,
                   print(*depth) + " is below the deepest footing, which lies at " + print(deepest),
                   "digging below a footing undermines the house, and no label allows it",
                   "plan at most " + print(deepest) + ", or take `depth:` out and let it be worked out");
  }

  void common(Run& run) const {
    run.rate = rate;
    run.reckoned_depth = std::max(run.depth, floor);
    run.sources.push_back(p.source("rate", &Limits::soil_rate));
    run.sources.push_back(p.source("depth by the state", &Limits::soil_depth));
    if (p.product && p.product->name) run.sources.push_back("depth by the label: " + *p.product->name);
    if (run.reckoned_depth > run.depth) run.sources.push_back(p.source("least depth reckoned", &Limits::volume_floor));
  }

  void wall_run(RunKind kind, const Depths& key, Group group) {
    Run run;
    run.kind = kind;
    std::tie(run.required_depth, run.depth, std::ignore) = key;
    if (std::get<2>(key) >= 0) run.footing_known_by = static_cast<KnownBy>(std::get<2>(key));
    run.stretches = joined(std::move(group.stretches));
    run.length = group.length;
    common(run);
    run.exact_gallons = soil_gallons(run.length, run.reckoned_depth, rate);
    run.working =
        print(run.length) + " x " + print(run.reckoned_depth) + " deep x " + shortest(rate, 2) + " gal / 10 ft";
    p.deepest_along = std::max(p.deepest_along, run.reckoned_depth);
    p.along_walls += run.length;
    p.add(task, s, std::move(run));
  }

  /// One face of the chosen walls, one run for each depth. `totals` is what the taped or bid length adds.
  void face(RunKind kind, const std::vector<Stretch>& chosen, bool whole_house) {
    const bool outside = kind == RunKind::soil_outside;
    std::map<Depths, Group> groups;
    std::vector<int> unsaid;
    for (const Stretch& stretch : chosen) {
      const Wall& wall = *s.wall(stretch.wall);
      const auto footing = outside ? wall.footing_outside : wall.footing_inside;
      if (!footing) {
        unsaid.push_back(wall.number);
        continue;
      }
      const auto [required, planned] = depths(*footing);
      Group& group = groups[{required, planned, wall.known_by ? static_cast<int>(*wall.known_by) : -1}];
      group.stretches.push_back(stretch);
      group.length += outside ? stretch.length() : inside_length(wall, stretch);
    }
    if (!unsaid.empty()) footing_unsaid(outside, unsaid);
    if (groups.empty()) return;
    if (whole_house) correct_to_taped(outside, groups);
    for (auto& [key, group] : groups) wall_run(kind, key, std::move(group));
  }

  [[nodiscard]] bool bid_as_outside() const {
    const auto& bidding = p.basis.company.bidding;
    return s.inside_as_outside || (bidding && bidding->inside && *bidding->inside == InsideBid::as_outside);
  }

  [[nodiscard]] Length inside_length(const Wall& wall, const Stretch& stretch) const {
    if (bid_as_outside()) return stretch.length();
    return inside_of(wall, stretch);
  }

  /// A taped total replaces the drawn one; the difference goes to the longest group, whose walls it most likely is.
  void correct_to_taped(bool outside, std::map<Depths, Group>& groups) const {
    const Length drawn = outside ? s.drawn_outside : s.drawn_inside;
    const Length counts = outside ? s.outside : s.inside;
    if (drawn == counts || (!outside && bid_as_outside())) return;
    const auto longest = std::max_element(
        groups.begin(), groups.end(), [](const auto& a, const auto& b) { return a.second.length < b.second.length; });
    longest->second.length = std::max(Length{}, longest->second.length + (counts - drawn));
  }

  void footing_unsaid(bool outside, const std::vector<int>& walls) const {
    const std::string side = outside ? "outside" : "inside";
    const Span at = s.facts->walls ? s.facts->walls.key : s.facts->name.at;
    const std::string which = walls.size() == 1 ? "wall " : "walls ";
    p.faults.add(Rule::footing_unsaid, at, "no footing depth is given " + side + " of " + which + numbers(walls),
                 "gallons grow with the depth; without it they would be guessed",
                 "write `footing: {" + side + ": ..., known by: dug}` (or drawing, or assumed) for these walls");
  }

  /// Piers of one size and depth are one run, however they are listed.
  void piers(const std::vector<int>& chosen) {
    struct Key {
      Length width, depth_of_pier, required, planned;
      int known_by;
      std::optional<Ratio> each;
      [[nodiscard]] auto tie() const { return std::tie(width, depth_of_pier, required, planned, known_by); }
      bool operator<(const Key& o) const {
        if (tie() != o.tie()) return tie() < o.tie();
        return each.value_or(Ratio(-1)) < o.each.value_or(Ratio(-1));
      }
    };
    std::map<Key, std::vector<int>> groups;
    std::map<Key, const PierGroup*> said;
    for (const int number : chosen) {
      const Pier& pier = *s.pier(number);
      const PierGroup& facts = items(s.facts->piers)[pier.group];
      if (!facts.footing) continue;  // the key is required; its fault is reported
      const auto [required, planned] = depths(*facts.footing);
      const Key key{std::min(pier.width, pier.depth),
                    std::max(pier.width, pier.depth),
                    required,
                    planned,
                    facts.known_by ? static_cast<int>(*facts.known_by) : -1,
                    facts.gal_each ? std::optional(*facts.gal_each) : std::nullopt};
      groups[key].push_back(number);
      said.emplace(key, &facts);
    }
    for (const auto& [key, members] : groups) {
      const Length perimeter = (key.width + key.depth_of_pier) * 2;
      Run run = base_run(RunKind::soil_piers, static_cast<int>(members.size()), perimeter, key.required, key.planned);
      if (key.known_by >= 0) run.footing_known_by = static_cast<KnownBy>(key.known_by);
      run.piers = members;
      if (key.each) entered(run, *key.each, said[key]->gal_each.at, "piers");
      p.add(task, s, std::move(run));
    }
  }

  [[nodiscard]] Run base_run(RunKind kind, int count, Length perimeter, Length required, Length planned) const {
    Run run;
    run.kind = kind;
    run.count = count;
    run.length = perimeter * count;
    run.required_depth = required;
    run.depth = planned;
    common(run);
    run.exact_gallons = soil_gallons(run.length, run.reckoned_depth, rate);
    run.working = std::to_string(count) + " x " + print(perimeter) + " x " + print(run.reckoned_depth) + " deep x " +
                  shortest(rate, 2) + " gal / 10 ft";
    return run;
  }

  /// Gallons that the company entered by hand stand beside the computed ones and never lower them in silence.
  void entered(Run& run, const Ratio& each, Span at, std::string_view things) const {
    settle_gallons(run);
    run.entered_each = each;
    run.gallons = (each * Ratio(run.count)).rounded_to(1);
    const std::string computed = decimal(run.computed_gallons, 1);
    const std::string shown = decimal(run.gallons, 1);
    if (run.gallons < run.computed_gallons)
      p.faults.add(Rule::too_little, at,
                   shown + " gal for " + std::to_string(run.count) + " " + std::string(things) + " is less than the " +
                       computed + " gal computed",
                   run.working + " = " + computed + " gal",
                   "enter at least " + decimal(run.computed_gallons / Ratio(run.count), 2) +
                       " gal each, or take `gal_each` out and let it be worked out");
    run.working = std::to_string(run.count) + " x " + shortest(each, 2) + " gal";
  }

  void chimneys(const std::vector<std::size_t>& chosen) {
    for (const std::size_t index : chosen) {
      const Chimney& c = items(s.facts->chimneys)[index];
      if (!c.size || !c.footing || !c.name) continue;
      const auto [required, planned] = depths(*c.footing);
      Run run = base_run(RunKind::soil_chimneys, 1, (c.size->width + c.size->depth) * 2, required, planned);
      run.names = {*c.name};
      if (c.known_by) run.footing_known_by = *c.known_by;
      p.add(task, s, std::move(run));
    }
  }

  void posts(const std::vector<std::string>& names) {
    for (const std::string& name : names) {
      const auto& all = items(s.facts->wood);
      const auto found =
          std::find_if(all.begin(), all.end(), [&](const WoodContact& w) { return w.name && *w.name == name; });
      if (found == all.end() || !found->posts) continue;  // an unknown name is reported by the rules
      Run run;
      run.kind = RunKind::soil_posts;
      run.count = *found->posts;
      run.names = {name};
      run.rate = rate;
      if (!found->gal_each) {
        p.faults.add(Rule::missing_key, found->name.at, "no gallons a post are given for `" + name + "`",
                     "a post has no footing to reckon from; its gallons would be guessed",
                     "write `gal_each:` from the label");
        continue;
      }
      run.entered_each = *found->gal_each;
      run.exact_gallons = *found->gal_each * Ratio(run.count);
      run.working = std::to_string(run.count) + " x " + shortest(*found->gal_each, 2) + " gal";
      run.sources.push_back("gallons a post: entered by the company");
      p.add(task, s, std::move(run));
    }
  }
};

std::vector<Stretch> slab_stretches(const SurveyedStructure& s) {
  std::vector<Stretch> out;
  for (const Slab& slab : items(s.facts->slabs)) {
    if (!slab.along || slab.along->kind != Place::Kind::wall) continue;
    const Wall* wall = s.wall(slab.along->number);
    if (wall) out.push_back({wall->number, slab.along->from.value_or(Length{}), slab.along->to.value_or(wall->length)});
  }
  return out;
}

}  // namespace

void Planner::soil(Task& task, const SurveyedStructure& s) {
  Soil soil{*this, task, s};
  const Work& work = *task.work;
  const auto chosen = walls_of(work, s);
  const Sides sides = work.sides.value_or(Sides::both);
  const bool whole_house = work.walls && work.walls->all;
  // Where a slab or porch adjoins, the trench ends and drilling begins: never both.
  const auto outside = without(common(chosen, all_of(s, &Wall::outer)), slab_stretches(s));
  std::vector<Stretch> inside;
  for (const Stretch& stretch : chosen) {
    const Wall& wall = *s.wall(stretch.wall);
    if (s.parts[wall.part].foundation == Foundation::crawl_space && wall.inside_length > Length{})
      inside.push_back(stretch);
  }
  if (sides != Sides::inside) soil.face(RunKind::soil_outside, outside, whole_house);
  if (sides != Sides::outside) soil.face(RunKind::soil_inside, inside, whole_house && inside.size() == s.walls.size());
  soil.piers(piers_of(work, s));
  soil.chimneys(chimneys_of(work, s));
  soil.posts(named_places(work, Place::Kind::wood));
  soil.check_depth();
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
  run.exact_gallons = soil_gallons(extra, deepest_along, run.rate);
  run.working = print(extra) + " x " + print(deepest_along) + " deep x " + shortest(run.rate, 2) + " gal / 10 ft";
  run.sources.push_back("the company rounds the bid length up to " + print(step));
  add(*task, *s, std::move(run));
}

}  // namespace soundsill::planning
