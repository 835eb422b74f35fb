// How much of the inside could be seen, by the regions of the areas that could not.
#include <algorithm>
#include <cmath>

#include "site/clip.h"
#include "site/draft.h"
#include "site/words.h"

namespace soundsill::plan {
namespace {

bool hides(const Area& area) { return area.seen && *area.seen != Seen::yes; }

void report_region(const Area& area, std::string what, Faults& faults) {
  faults.add(Rule::outline_crosses, area.region.at, std::move(what),
             "how many feet of wall and how many piers were not seen could not be counted",
             "give the corners of the region in order, going round it");
}

// The corners of what was not seen; empty when there are none to count with.
Ring region_of(const Area& area, Faults& faults) {
  if (!area.region || spoilt(area.region.at, faults)) return {};
  Ring corners = ring(*area.region);
  if (corners.size() > 1 && corners.front() == corners.back()) corners.pop_back();
  const std::string name = of(area.name.value_or(""));
  if (corners.size() < 3) {
    report_region(area, "the region" + name + " has fewer than three corners", faults);
    return {};
  }
  std::size_t later = 0, earlier = 0;
  if (twice_area(corners) != 0 && !crossing(corners, later, earlier)) return corners;
  report_region(area, "the region" + name + " crosses or touches itself", faults);
  return {};
}

Vec rounded(Real r) { return {std::llround(r.x), std::llround(r.y)}; }

long double hidden_length(const Face& face, const std::vector<Ring>& regions) {
  const Vec a = rounded(face.from), b = rounded(face.to);
  std::vector<Piece> pieces;
  for (const Ring& region : regions)
    for (const Piece& p : clipped(a, b, region)) pieces.push_back(p);
  long double share = 0;
  for (const Piece& p : joined(std::move(pieces))) share += p.second - p.first;
  return share * std::hypot(static_cast<long double>(b.x - a.x), static_cast<long double>(b.y - a.y));
}

}  // namespace

void count_seen(Draft& draft, Faults& faults) {
  SurveyedStructure& s = draft.made;
  s.seen_counted = !draft.facts->areas.unread();
  std::vector<Ring> regions;
  for (const Area& area : items(draft.facts->areas)) {
    if (area.seen.unread()) s.seen_counted = false;
    if (!hides(area)) continue;
    if (area.region && area.region->empty()) continue;  // said to lie off the plan: an attic, the inside of walls
    if (Ring region = region_of(area, faults); !region.empty())
      regions.push_back(std::move(region));
    else
      s.seen_counted = false;
  }
  s.faces_all = s.faces_seen = s.drawn_inside;
  for (std::size_t i = 0; i < s.walls.size(); ++i) {
    long double hidden = 0;
    for (const Face& face : draft.walls[i].faces) hidden += hidden_length(face, regions);
    s.faces_seen -= std::min(Length{static_cast<std::int64_t>(std::llround(hidden))}, s.walls[i].inside_length);
  }
  for (const Pier& pier : s.piers) {
    const Vec middle = vec(pier.middle);
    if (std::any_of(regions.begin(), regions.end(), [&](const Ring& r) { return side(middle, r) != Side::outside; }))
      s.piers_not_seen.push_back(pier.number);
  }
  s.piers_seen = static_cast<int>(s.piers.size() - s.piers_not_seen.size());
}

}  // namespace soundsill::plan
