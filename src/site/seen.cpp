// Serves site/draft.h. How much of the inside could be seen, by the regions of the areas that could not.
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

std::vector<Piece> hidden_pieces(Vec a, Vec b, const std::vector<Ring>& regions) {
  std::vector<Piece> pieces;
  for (const Ring& region : regions)
    for (const Piece& p : clipped(a, b, region)) pieces.push_back(p);
  return joined(std::move(pieces));
}

/// Where a hidden piece of an inside face lies along its wall, outward to the inch.
Stretch along_wall(const Wall& wall, Vec a, Vec b, const Piece& piece) {
  const Vec from = vec(wall.from), way = vec(wall.to) - from;
  const auto size = std::sqrt(static_cast<long double>(dot(way, way)));
  const auto at = [&](long double share) {
    const long double x = static_cast<long double>(a.x - from.x) + share * static_cast<long double>(b.x - a.x);
    const long double y = static_cast<long double>(a.y - from.y) + share * static_cast<long double>(b.y - a.y);
    return (x * static_cast<long double>(way.x) + y * static_cast<long double>(way.y)) / size;
  };
  constexpr long double inch = 16, hair = 1e-3L;
  const long double low = std::min(at(piece.first), at(piece.second)),
                    high = std::max(at(piece.first), at(piece.second));
  const Length first{16 * std::llround(std::floor(low / inch + hair))},
      last{16 * std::llround(std::ceil(high / inch - hair))};
  return {wall.number, std::max(first, Length{}), std::min(last, wall.length)};
}

/// What of a wall's inside faces is hidden; its stretches are noted.
long double hidden_length(SurveyedStructure& s, const Wall& wall, const std::vector<Face>& faces,
                          const std::vector<Ring>& regions) {
  long double sum = 0;
  for (const Face& face : faces) {
    const Vec a = rounded(face.from), b = rounded(face.to);
    const auto size = std::hypot(static_cast<long double>(b.x - a.x), static_cast<long double>(b.y - a.y));
    for (const Piece& p : hidden_pieces(a, b, regions)) {
      sum += (p.second - p.first) * size;
      if (const Stretch one = along_wall(wall, a, b, p); one.length() > Length{}) s.walls_not_seen.push_back(one);
    }
  }
  return sum;
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
    const long double hidden = hidden_length(s, s.walls[i], draft.walls[i].faces, regions);
    s.faces_seen -= std::min(Length{static_cast<std::int64_t>(std::llround(hidden))}, s.walls[i].inside_length);
  }
  s.walls_not_seen = soundsill::joined(std::move(s.walls_not_seen));
  for (const Pier& pier : s.piers) {
    const Vec middle = vec(pier.middle);
    if (std::any_of(regions.begin(), regions.end(), [&](const Ring& r) { return side(middle, r) != Side::outside; }))
      s.piers_not_seen.push_back(pier.number);
  }
  s.piers_seen = static_cast<int>(s.piers.size() - s.piers_not_seen.size());
}

}  // namespace soundsill::plan
