#include "site/outline.h"

#include <algorithm>

#include "site/words.h"

namespace soundsill::plan {
namespace {

constexpr Length closes_within = Length::inches(1);
constexpr Length widest = Length::feet(10'000);

bool all_corners(const std::vector<Step>& steps) {
  return std::all_of(steps.begin(), steps.end(), [](const Step& s) { return s.kind == Step::Kind::corner; });
}

// Where the walk begins: as typed, else at [0, 0]. A list of corners that does not begin or end at [0, 0] begins at its
// first corner, because [0, 0] would be a corner that nobody typed.
Vec beginning(const Part& part, const std::vector<Step>& steps) {
  if (part.start) return vec(*part.start);
  if (steps.empty() || !all_corners(steps)) return {};
  if (vec(steps.front().corner) == Vec{} || vec(steps.back().corner) == Vec{}) return {};
  return vec(steps.front().corner);
}

// Along a diagonal both axes take the same share, to the nearest sixteenth.
Vec leads_to(Vec from, const Step& step) {
  if (step.kind == Step::Kind::corner) return vec(step.corner);
  const bool diagonal = step.east != 0 && step.south != 0;
  const std::int64_t n = step.length.sixteenths;
  // n/sqrt(2) = sqrt(2 n^2)/2, and half up is the whole part of (that doubled + 1) / 2
  const std::int64_t whole = diagonal ? (floor_root(Wide{2} * n * n) + 1) / 2 : n;
  return {from.x + step.east * whole, from.y + step.south * whole};
}

void take_steps(Walk& walk, Vec start, const std::vector<Step>& steps) {
  Vec here = start;
  for (const Step& step : steps) {
    const Vec next = leads_to(here, step);
    const bool names_start = &step == &steps.front() && step.kind == Step::Kind::corner && next == start;
    if (names_start) continue;
    const Length length = step.kind == Step::Kind::walk ? step.length : distance(here, next);
    walk.walls.push_back({here, next, length, step.at});
    here = next;
  }
}

// Closes the walk: a gap of up to an inch goes to the last wall; between typed corners a last wall is understood.
void close(Walk& walk, const Part& part, Vec start) {
  if (walk.walls.empty()) return;
  WalkedWall& last = walk.walls.back();
  if (last.to == start) return;
  const Length gap = distance(last.to, start);
  if (within({last.to}, {start}, closes_within) && last.from != start) {
    walk.closing_error = gap;
    last = {last.from, start, distance(last.from, start), last.at};
  } else if (all_corners(*part.outline)) {
    walk.walls.push_back({last.to, start, gap, part.outline.key});
  }
}

std::string gap_words(Vec gap) {
  std::string out;
  const auto along = [&](std::int64_t n, const char* more, const char* less) {
    if (n == 0) return;
    if (!out.empty()) out += " and ";
    out += soundsill::print(Length{n < 0 ? -n : n}) + " " + (n > 0 ? more : less);
  };
  along(gap.x, "east", "west");
  along(gap.y, "south", "north");
  return out;
}

bool reports_open(const Walk& walk, const Part& part, Vec start, Faults& faults) {
  const std::string name = part.name.value_or("");
  const char* why = "a plan that does not close has no area, and no length on paper could be trusted";
  if (walk.walls.empty()) {
    faults.add(Rule::outline_open, part.outline.key, "the outline" + of(name) + " has no walls", why,
               "walk it wall by wall: [E 40', S 28', W 40', N 28'], with the lengths as taped");
    return true;
  }
  const WalkedWall& last = walk.walls.back();
  if (last.to == start) return false;
  Diagnostic d{Rule::outline_open, part.outline.key, {}, why, {}, {}};
  d.what = "the outline" + of(name) + " ends " + gap_words(last.to - start) + " of where it began";
  d.fix = "compare each wall with the sketch: what is walked east and west, north and south, must cancel out";
  if (last.at) d.see.push_back({last.at, "the walk ends with this wall"});
  faults.add(std::move(d));
  return true;
}

bool reports_too_wide(const Walk& walk, const Part& part, Faults& faults) {
  std::int64_t west = 0, east = 0, north = 0, south = 0;
  for (const WalkedWall& w : walk.walls) {
    const Vec d = w.to - walk.walls.front().from;
    west = std::min(west, d.x), east = std::max(east, d.x), north = std::min(north, d.y), south = std::max(south, d.y);
  }
  if (std::max(east - west, south - north) <= widest.sixteenths) return false;
  faults.add(Rule::too_large, part.outline.key,
             "the outline" + of(part.name.value_or("")) + " is more than 10,000 ft wide",
             "no house is that wide; gallons and price would be nonsense", "write the lengths as measured");
  return true;
}

bool reports_crossing(const Walk& walk, const Part& part, int first_number, Faults& faults) {
  const std::string name = part.name.value_or("");
  const char* why =
      "an outline that crosses or touches itself has no inside, so that nothing within it can be measured";
  for (std::size_t i = 0; i < walk.walls.size(); ++i)
    if (walk.walls[i].from == walk.walls[i].to) {
      faults.add(Rule::outline_crosses, walk.walls[i].at,
                 "wall " + std::to_string(first_number + static_cast<int>(i)) + of(name) + " ends where it begins", why,
                 "leave the second of two equal corners out");
      return true;
    }
  if (walk.walls.size() < 3) {
    faults.add(Rule::outline_crosses, part.outline.key,
               "the outline" + of(name) + " has only 2 walls, and nothing within", why,
               "walk every wall, until the walk is back where it began");
    return true;
  }
  std::size_t later = 0, earlier = 0;
  if (!crossing(walk.corners(), later, earlier)) return false;
  const std::string second = std::to_string(first_number + static_cast<int>(later));
  const std::string first = std::to_string(first_number + static_cast<int>(earlier));
  Diagnostic d{Rule::outline_crosses, walk.walls[later].at, {}, why, {}, {}};
  d.what = "wall " + second + of(name) + " crosses or touches wall " + first;
  d.fix = "compare walls " + first + " to " + second + " with the sketch: direction, length, and none left out";
  if (walk.walls[earlier].at) d.see.push_back({walk.walls[earlier].at, "wall " + first});
  faults.add(std::move(d));
  return true;
}

// Neighbors share a corner and may have no more than that in common.
bool fold(const Ring& ring, std::size_t corner) {
  const std::size_t count = ring.size();
  const Vec into = ring[corner] - ring[(corner + count - 1) % count];
  const Vec out = ring[after(corner, count)] - ring[corner];
  return cross(into, out) == 0 && dot(into, out) < 0;
}

}  // namespace

Ring Walk::corners() const {
  Ring out;
  for (const WalkedWall& w : walls) out.push_back(w.from);
  return out;
}

bool crossing(const Ring& ring, std::size_t& later, std::size_t& earlier) {
  const std::size_t count = ring.size();
  for (later = 1; later < count; ++later)
    for (earlier = 0; earlier < later; ++earlier) {
      const bool next = earlier + 1 == later, closing = earlier == 0 && later + 1 == count;
      if (next && fold(ring, later)) return true;
      if (closing && fold(ring, 0)) return true;
      if (next || closing) continue;
      if (meet(ring[earlier], ring[earlier + 1], ring[later], ring[after(later, count)])) return true;
    }
  return false;
}

Walk walk(const Part& part, int first_number, Faults& faults) {
  Walk walk;
  if (!part.outline || part.start.unread() || spoilt(part.outline.at, faults)) return walk;
  const std::vector<Step>& steps = *part.outline;
  const Vec start = beginning(part, steps);
  take_steps(walk, start, steps);
  close(walk, part, start);
  walk.read = true;
  // One message an outline: what comes first makes the rest meaningless.
  walk.sound = !reports_open(walk, part, start, faults) && !reports_too_wide(walk, part, faults) &&
               !reports_crossing(walk, part, first_number, faults);
  return walk;
}

}  // namespace soundsill::plan
