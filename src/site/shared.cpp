// Serves site/draft.h. Where parts of a structure adjoin: what is one wall, and what is an overlap.
#include <algorithm>
#include <cmath>

#include "site/draft.h"
#include "site/words.h"

namespace soundsill::plan {
namespace {

// Parts are taped one by one, as a single outline is: what may be missing where one closes may be missing between two.
constexpr std::int64_t adjoins_within = 16;  // an inch

bool beside(Vec p, Vec a, Vec b) {
  const Vec d = b - a;
  const Wide c = cross(d, p - a);
  return c * c <= Wide{adjoins_within} * adjoins_within * dot(d, d);
}

// How far along a wall a point lies, in its own sixteenths as typed, held within the wall.
Length reach(const Wall& wall, Vec p) {
  const Vec d = vec(wall.to) - vec(wall.from);
  const Wide whole = dot(d, d), forward = dot(p - vec(wall.from), d);
  if (forward <= 0 || whole == 0) return {};
  if (forward >= whole) return wall.length;
  return {static_cast<std::int64_t>((2 * forward * wall.length.sixteenths + whole) / (2 * whole))};
}

}  // namespace

Stretch stretch_beside(const Wall& wall, Vec a, Vec b) {
  const Length first = reach(wall, a), second = reach(wall, b);
  const Stretch s{wall.number, std::min(first, second), std::max(first, second)};
  if (s.length() <= Length{}) return s;
  const bool close = beside(vec(along(wall, s.a)), a, b) && beside(vec(along(wall, s.b)), a, b);
  return close ? s : Stretch{wall.number, {}, {}};
}

namespace {

void report_overlap(const PartDraft& one, const PartDraft& two, Faults& faults) {
  Diagnostic d{Rule::outline_crosses, two.facts->outline.key, {}, {}, {}, {}};
  const std::string first = one.facts->name.value_or(""), second = two.facts->name.value_or("");
  d.what =
      (second.empty() ? "a part" : quoted(second)) + " lies partly over " + (first.empty() ? "another" : quoted(first));
  d.why = "walls and floor where they overlap would be counted twice, or not at all";
  d.fix = "compare `start` and walls of both with the sketch: parts may share walls, but no floor";
  if (one.facts->outline.key) d.see.push_back({one.facts->outline.key, "the other outline"});
  faults.add(std::move(d));
}

void report_overlaps(const Draft& draft, Faults& faults) {
  for (std::size_t j = 1; j < draft.parts.size(); ++j)
    for (std::size_t i = 0; i < j; ++i) {
      const PartDraft &one = draft.parts[i], &two = draft.parts[j];
      if (!one.walk.sound || !two.walk.sound || !share_area(one.walk.corners(), two.walk.corners())) continue;
      report_overlap(one, two, faults);
    }
}

struct SharedWith {
  std::vector<Stretch> any, earlier;
};

/// One wall cannot be of two kinds: what is said by number of the later of its two numbers has to agree.
void check_kinds(const Wall& one, const Wall& two, Faults& faults) {
  const WallFacts* facts = two.facts;
  const bool numbered = facts && facts->walls && !facts->walls->all && facts->kind;
  if (!numbered || !one.kind || !two.kind || *one.kind == *two.kind) return;
  Diagnostic d{Rule::bad_wall, facts->kind.at, {}, {}, {}, {}};
  d.what = "walls " + std::to_string(one.number) + " and " + std::to_string(two.number) +
           " are one wall between two parts, and differ in kind";
  d.why = "whether it has voids to drill could not be told";
  d.fix = "say of both what the wall is";
  if (one.facts && one.facts->kind.at) d.see.push_back({one.facts->kind.at, "the other kind"});
  faults.add(std::move(d));
}

void share(Draft& draft, std::size_t early, std::size_t late, std::vector<SharedWith>& shared, Faults& faults) {
  const Wall &one = draft.made.walls[early], &two = draft.made.walls[late];
  const Stretch on_one = stretch_beside(one, vec(two.from), vec(two.to)),
                on_two = stretch_beside(two, vec(one.from), vec(one.to));
  if (on_one.length() <= Length{} || on_two.length() <= Length{}) return;
  check_kinds(one, two, faults);
  shared[early].any.push_back(on_one);
  shared[late].any.push_back(on_two);
  shared[late].earlier.push_back(on_two);
  // The earlier wall holds the thickness, unless only the later one has any.
  const bool later_holds = !one.thick && two.thick;
  const std::size_t bare = later_holds ? early : late;
  draft.walls[bare].bands = without(draft.walls[bare].bands, {later_holds ? on_one : on_two});
}

}  // namespace

void find_shared(Draft& draft, Faults& faults) {
  std::vector<Wall>& walls = draft.made.walls;
  std::vector<SharedWith> shared(walls.size());
  for (std::size_t i = 0; i < walls.size(); ++i) draft.walls[i].bands = {{walls[i].number, {}, walls[i].length}};
  report_overlaps(draft, faults);
  for (std::size_t late = 0; late < walls.size(); ++late)
    for (std::size_t early = 0; early < late; ++early) {
      const std::size_t p = walls[early].part, q = walls[late].part;
      if (p != q && draft.parts[p].walk.sound && draft.parts[q].walk.sound) share(draft, early, late, shared, faults);
    }
  for (std::size_t i = 0; i < walls.size(); ++i) {
    const std::vector<Stretch> whole{{walls[i].number, {}, walls[i].length}};
    walls[i].outer = walls[i].beside_neighbor ? std::vector<Stretch>{} : without(whole, shared[i].any);
    walls[i].own = without(whole, shared[i].earlier);
    walls[i].shared = walls[i].outer.empty();
  }
}

}  // namespace soundsill::plan
