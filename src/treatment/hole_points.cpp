// Serves treatment/planner.h. Where the holes of a run are drilled, for the drawing and the drill list of the crew.
#include "treatment/planner.h"

namespace soundsill::planning {
namespace {

Point beside(const SurveyedStructure& s, const Wall& wall, Point at, Length out) {
  const std::int64_t dx = wall.to.x.sixteenths - wall.from.x.sixteenths;
  const std::int64_t dy = wall.to.y.sixteenths - wall.from.y.sixteenths;
  const std::int64_t length = std::max<std::int64_t>(1, wall.length.sixteenths);
  const std::int64_t sign = s.parts[wall.part].clockwise ? 1 : -1;
  return {{at.x.sixteenths + sign * dy * out.sixteenths / length},
          {at.y.sixteenths - sign * dx * out.sixteenths / length}};
}

Point between(Point a, Point b, std::int64_t part, std::int64_t whole) {
  return {{a.x.sixteenths + (b.x - a.x).sixteenths * part / whole},
          {a.y.sixteenths + (b.y - a.y).sixteenths * part / whole}};
}

}  // namespace

void put_along(Run& run, const SurveyedStructure& s, const std::vector<Chain>& chains, Length spacing,
               Length (*out)(const Wall&, Length), Length from_wall) {
  for (const Chain& chain : chains)
    spread(s, chain, holes_of(chain.length, spacing, chain.closed), [&](const Wall& wall, Length at) {
      run.hole_at.push_back({beside(s, wall, along(wall, at), out(wall, from_wall)), wall.number, 0, {}});
    });
}

void put_round(Run& run, Point middle, const Size& size, int count, int pier, const std::string& name) {
  const Length w = size.width, d = size.depth;
  const std::int64_t whole = (w + d).sixteenths * 2;
  for (int i = 0; i < count; ++i) {
    // Begun in the middle of the first side.
    std::int64_t left = (whole * i / std::max(1, count) + w.sixteenths / 2) % std::max<std::int64_t>(1, whole);
    Point at{middle.x - Length{w.sixteenths / 2}, middle.y - Length{d.sixteenths / 2}};
    const std::int64_t sides[] = {w.sixteenths, d.sixteenths, w.sixteenths, d.sixteenths};
    constexpr std::pair<int, int> ways[] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
    for (int side = 0; side < 4; ++side) {
      const std::int64_t step = std::min(left, sides[side]);
      at = {{at.x.sixteenths + ways[side].first * step}, {at.y.sixteenths + ways[side].second * step}};
      left -= step;
    }
    run.hole_at.push_back({at, 0, pier, name});
  }
}

void put_between(Run& run, Point from, Point to, int count, const std::string& name) {
  for (int i = 0; i < count; ++i)
    run.hole_at.push_back({count > 1 ? between(from, to, i, count - 1) : between(from, to, 1, 2), 0, 0, name});
}

}  // namespace soundsill::planning
