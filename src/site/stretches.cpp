// Serves site/draft.h. Stretches of walls, joined, taken from one another, and where they lie.
#include <algorithm>
#include <tuple>

#include "site/draft.h"

namespace soundsill {

std::vector<Stretch> joined(std::vector<Stretch> stretches) {
  std::sort(stretches.begin(), stretches.end(),
            [](const Stretch& p, const Stretch& q) { return std::tie(p.wall, p.a, p.b) < std::tie(q.wall, q.a, q.b); });
  std::vector<Stretch> out;
  for (const Stretch& s : stretches) {
    if (!out.empty() && out.back().wall == s.wall && s.a <= out.back().b)
      out.back().b = std::max(out.back().b, s.b);
    else
      out.push_back(s);
  }
  return out;
}

std::vector<Stretch> stretches_less(const std::vector<Stretch>& from, const std::vector<Stretch>& away) {
  return plan::without(from, away);
}

std::vector<Stretch> stretches_shared(const std::vector<Stretch>& a, const std::vector<Stretch>& b) {
  return plan::without(a, plan::without(a, b));
}

Length Wall::outer_length() const {
  Length sum;
  for (const Stretch& s : outer) sum += s.length();
  return sum;
}

Point along(const Wall& wall, Length distance) {
  using plan::Wide;
  const std::int64_t whole = wall.length.sixteenths;
  if (whole <= 0 || distance <= Length{}) return wall.from;
  if (distance >= wall.length) return wall.to;
  const auto share = [&](Length from, Length to) {
    const Wide way = Wide{(to - from).sixteenths} * distance.sixteenths * 2;
    const Wide half = way < 0 ? -whole : whole;
    return Length{from.sixteenths + static_cast<std::int64_t>((way + half) / (2 * whole))};
  };
  return {share(wall.from.x, wall.to.x), share(wall.from.y, wall.to.y)};
}

namespace plan {

std::vector<Stretch> without(const std::vector<Stretch>& from, const std::vector<Stretch>& less) {
  std::vector<Stretch> out = from;
  for (const Stretch& hole : less) {
    std::vector<Stretch> left;
    for (const Stretch& s : out) {
      const Stretch before{s.wall, s.a, std::min(s.b, hole.a)}, behind{s.wall, std::max(s.a, hole.b), s.b};
      if (s.wall != hole.wall) {
        left.push_back(s);
        continue;
      }
      if (before.a < before.b) left.push_back(before);
      if (behind.a < behind.b) left.push_back(behind);
    }
    out = std::move(left);
  }
  return out;
}

std::vector<Stretch> common(const std::vector<Stretch>& a, const std::vector<Stretch>& b) {
  std::vector<Stretch> out;
  for (const Stretch& p : a)
    for (const Stretch& q : b) {
      const Stretch both{p.wall, std::max(p.a, q.a), std::min(p.b, q.b)};
      if (p.wall == q.wall && both.a < both.b) out.push_back(both);
    }
  return joined(std::move(out));
}

Vec inward(const SurveyedStructure& s, const Wall& wall) {
  const Vec d = vec(wall.to) - vec(wall.from);
  const bool clockwise = wall.part >= s.parts.size() || s.parts[wall.part].clockwise;
  return clockwise ? Vec{-d.y, d.x} : Vec{d.y, -d.x};
}

}  // namespace plan
}  // namespace soundsill
