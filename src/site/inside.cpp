// Serves site/draft.h. The inside face of each part: its outline less the thickness of its walls.
#include <algorithm>
#include <cmath>
#include <limits>

#include "site/draft.h"
#include "site/words.h"

namespace soundsill::plan {
namespace {

constexpr double close_enough =
    1e-4;  // of a sixteenth: far above the error of a double, far below what can be measured
constexpr double lap = 0.01;
constexpr double longest_mitre = 10;  // of the thickness: round a spike the bands are cut off rather than prolonged

Real real(Vec v) { return {static_cast<double>(v.x), static_cast<double>(v.y)}; }
Real operator+(Real a, Real b) { return {a.x + b.x, a.y + b.y}; }
Real operator-(Real a, Real b) { return {a.x - b.x, a.y - b.y}; }
Real operator*(Real a, double k) { return {a.x * k, a.y * k}; }
Real operator/(Real a, double k) { return {a.x / k, a.y / k}; }
double dot(Real a, Real b) { return a.x * b.x + a.y * b.y; }
double cross(Real a, Real b) { return a.x * b.y - a.y * b.x; }
double size(Real a) { return std::hypot(a.x, a.y); }

// Ties go up: a length that is a half by its nature must not fall either way by the last bit of a double.
std::int64_t rounded(double d) { return static_cast<std::int64_t>(std::floor(d + 0.5 + 1e-6)); }
Vec rounded(Real r) { return {rounded(r.x), rounded(r.y)}; }

// One wall with its own axes: forward along the outside line, inward across it.
struct Axis {
  std::size_t wall = 0;
  Real from, forward, inward;
  double length = 0;  // of the outside line as drawn
  double thickness = 0;
  double scale = 1;  // drawn per typed
  [[nodiscard]] Real at(double along, double across) const { return from + forward * along + inward * across; }
  [[nodiscard]] double along(Real p) const { return dot(p - from, forward); }
  [[nodiscard]] double across(Real p) const { return dot(p - from, inward); }
};

Axis axis_of(const SurveyedStructure& s, std::size_t i) {
  const Wall& wall = s.walls[i];
  Axis a;
  a.wall = i;
  a.from = real(vec(wall.from));
  const Real way = real(vec(wall.to) - vec(wall.from));
  a.length = size(way);
  a.forward = way / a.length;  // of an upright wall exactly one
  a.inward = real(inward(s, wall)) / a.length;
  a.thickness = static_cast<double>(wall.thick.value_or(Length{}).sixteenths);
  a.scale = a.length / static_cast<double>(wall.length.sixteenths);
  return a;
}

class Inside {
 public:
  Inside(Draft& draft, std::size_t part) : draft_(draft), part_(draft.parts[part]), surveyed_(draft.made.parts[part]) {
    for (std::size_t i = 0; i < part_.count; ++i) axes_.push_back(axis_of(draft.made, part_.first + i));
  }

  // Whether anything is left within the walls.
  bool find() {
    const auto rings = less(part_.walk.corners(), bands());
    if (!rings || rings->empty()) return false;
    for (const RealRing& ring : *rings) take(ring);
    keep_rooms(*rings);
    for (std::size_t i = 0; i < part_.count; ++i) settle(part_.first + i);
    return true;
  }

 private:
  [[nodiscard]] std::vector<RealRing> bands() const {
    std::vector<RealRing> out;
    for (std::size_t i = 0; i < axes_.size(); ++i) {
      const Axis& a = axes_[i];
      if (a.thickness <= 0) continue;
      const Axis &last = axes_[(i + axes_.size() - 1) % axes_.size()], &next = axes_[after(i, axes_.size())];
      for (const Stretch& s : draft_.walls[a.wall].bands) out.push_back(band(a, s, last, next));
      if (auto kite = corner(a, next); !kite.empty()) out.push_back(std::move(kite));
    }
    return out;
  }

  // The last bit of a double must leave no gap, a hair wide and as deep as a wall, between bands or along the outline:
  // the outer side stands a little outside, ends pass through the very corners, or lap over where no other band begins
  // there.
  [[nodiscard]] RealRing band(const Axis& a, const Stretch& s, const Axis& last, const Axis& next) const {
    const bool first = s.a == Length{}, final = s.b == draft_.made.walls[a.wall].length;
    double b = first ? 0 : static_cast<double>(s.a.sixteenths) * a.scale;
    double e = final ? a.length : static_cast<double>(s.b.sixteenths) * a.scale;
    const bool lap_first = first && laps(last, a, a), lap_final = final && laps(a, next, a);
    if (lap_first) b -= lap;
    if (lap_final) e += lap;
    RealRing out{a.at(b, -lap), a.at(e, -lap)};
    if (final && !lap_final) out.push_back(next.from);
    out.push_back(a.at(e, a.thickness));
    out.push_back(a.at(b, a.thickness));
    if (first && !lap_first) out.push_back(a.from);
    return out;
  }

  [[nodiscard]] bool meet(const Axis& a, const Axis& b) const {
    const auto &first = draft_.walls[a.wall].bands, &second = draft_.walls[b.wall].bands;
    return a.thickness > 0 && b.thickness > 0 && !first.empty() && !second.empty() && second.front().a == Length{} &&
           first.back().b == draft_.made.walls[a.wall].length;
  }

  static bool straight(const Axis& a, const Axis& b) {
    return std::abs(cross(a.forward, b.forward)) < 1e-6 && dot(a.forward, b.forward) > 0;
  }

  // Whether one of two neighbors laps over at their corner: where only it has a band, or, in a straight line, the
  // thinner one within the other.
  [[nodiscard]] bool laps(const Axis& a, const Axis& b, const Axis& which) const {
    if (!meet(a, b)) return true;
    const Axis& other = which.wall == a.wall ? b : a;
    return straight(a, b) && which.thickness <= other.thickness;
  }

  // Bands are upright to their walls, so that one turning into the inside leaves a wedge of masonry between two of
  // them.
  [[nodiscard]] RealRing corner(const Axis& a, const Axis& b) const {
    if (!meet(a, b) || straight(a, b) || !reflex(a, b)) return {};
    const double sine = cross(a.forward, b.forward);
    const Real p = a.at(a.length, a.thickness), q = b.at(0, b.thickness);
    if (std::abs(sine) < 1e-6) return {b.from, p, q};
    const double onward = cross(q - p, b.forward) / sine;
    const Real peak = p + a.forward * onward;
    const bool ahead = onward >= 0 && dot(peak - q, b.forward) <= 0;
    const bool spike = size(peak - b.from) > longest_mitre * std::max(a.thickness, b.thickness);
    if (!ahead || spike) return {b.from, p, q};
    return {b.from, p, peak, q};
  }

  static bool reflex(const Axis& a, const Axis& b) { return dot(b.forward, a.inward) < 0; }

  void take(RealRing ring) {
    double area = 0;
    for (std::size_t i = 0; i < ring.size(); ++i)
      area += cross(ring[i] - ring[0], ring[after(i, ring.size())] - ring[0]);
    if (area < 0) std::reverse(ring.begin(), ring.end());
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Real p = ring[i], q = ring[after(i, ring.size())];
      if (size(q - p) > close_enough) take_edge(p, q);
    }
  }

  // An edge on the inner line of one wall is that wall's. Collinear walls of one thickness have one line: the edge is
  // cut where one ends. Any other edge is the side of a step in thickness, and goes to the thicker wall.
  void take_edge(Real p, Real q) {
    std::vector<const Axis*> on;
    for (const Axis& a : axes_)
      if (on_face(a, p, q)) on.push_back(&a);
    if (on.empty()) return give(step_owner(p, q), p, q);
    std::vector<double> cuts{0, 1};
    const Real way = q - p;
    const double squared = dot(way, way);
    if (on.size() > 1)
      for (const Axis* a : on)
        for (const double end : {0.0, a->length}) {
          const double cut = dot(a->at(end, 0) - p, way) / squared;
          if (cut > 0 && cut < 1) cuts.push_back(cut);
        }
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const Real b = p + way * cuts[i], e = p + way * cuts[i + 1];
      if (size(e - b) > close_enough) give(*nearest(on, (b + e) * 0.5), b, e);
    }
  }

  [[nodiscard]] bool on_face(const Axis& a, Real p, Real q) const {
    const Real room{p.y - q.y, q.x - p.x};  // rings run clockwise: the room lies to the right of each edge
    if (dot(room, a.inward) <= 0) return false;
    const auto lies = [&](double line) {
      return std::abs(a.across(p) - line) < close_enough && std::abs(a.across(q) - line) < close_enough;
    };
    const double middle = a.along((p + q) * 0.5) / a.scale;
    const auto& bands = draft_.walls[a.wall].bands;
    const bool banded = a.thickness > 0 && !bands.empty();
    if (banded && lies(a.thickness)) return true;
    const bool in_band = std::any_of(bands.begin(), bands.end(), [&](const Stretch& s) {
      return middle > static_cast<double>(s.a.sixteenths) && middle < static_cast<double>(s.b.sixteenths);
    });
    return lies(0) && (a.thickness <= 0 || !in_band) && middle > 0 && middle < a.length / a.scale;
  }

  static double beyond(const Axis& a, Real p) { return std::max({0.0, -a.along(p), a.along(p) - a.length}); }

  static const Axis* nearest(const std::vector<const Axis*>& of, Real p) {
    return *std::min_element(of.begin(), of.end(),
                             [&](const Axis* a, const Axis* b) { return beyond(*a, p) < beyond(*b, p); });
  }

  [[nodiscard]] const Axis& step_owner(Real p, Real q) const {
    const Real middle = (p + q) * 0.5;
    const auto gap = [&](const Axis& a) {
      const double across = std::max({0.0, -a.across(middle), a.across(middle) - a.thickness});
      return std::hypot(beyond(a, middle), across);
    };
    return *std::min_element(axes_.begin(), axes_.end(), [&](const Axis& a, const Axis& b) {
      const double g = gap(a), h = gap(b);
      return std::abs(g - h) < close_enough ? a.thickness > b.thickness : g < h;
    });
  }

  void give(const Axis& a, Real p, Real q) {
    const bool forward = dot(q - p, a.forward) >= 0;
    draft_.walls[a.wall].faces.push_back(forward ? Face{p, q} : Face{q, p});
  }

  void settle(std::size_t i) {
    Wall& wall = draft_.made.walls[i];
    const auto& faces = draft_.walls[i].faces;
    if (faces.empty()) return;
    const Axis& a = axes_[i - part_.first];
    double sum = 0;
    const auto before = [&](Real p, Real q) { return a.along(p) < a.along(q); };
    Real first = faces.front().from, last = faces.front().to;
    for (const Face& f : faces) {
      sum += size(f.to - f.from);
      if (before(f.from, first)) first = f.from;
      if (before(last, f.to)) last = f.to;
    }
    wall.inside_length = {rounded(sum)};
    wall.inside_from = point(rounded(first));
    wall.inside_to = point(rounded(last));
    surveyed_.inside += wall.inside_length;
  }

  // Rooms in whole sixteenths, largest first, each beginning near the first corner and running as the outline does.
  void keep_rooms(const std::vector<RealRing>& rings) {
    std::vector<Ring> rooms;
    for (const RealRing& ring : rings) {
      Ring room;
      for (const Real& r : ring) {
        const Vec v = rounded(r);
        if (room.empty() || !(room.back() == v)) room.push_back(v);
      }
      rooms.push_back(tidy(std::move(room)));
    }
    const auto area = [](const Ring& r) { return std::max(twice_area(r), -twice_area(r)); };
    std::stable_sort(rooms.begin(), rooms.end(), [&](const Ring& a, const Ring& b) { return area(a) > area(b); });
    for (const Ring& room : rooms) {
      if (surveyed_.inside_corners.empty())
        surveyed_.inside_corners = points(room);
      else
        surveyed_.further_rooms.push_back(points(room));
    }
    part_.rooms = std::move(rooms);
  }

  [[nodiscard]] Ring tidy(Ring room) const {
    Ring out;
    for (std::size_t i = 0; i < room.size(); ++i) {
      const Vec before = room[(i + room.size() - 1) % room.size()], next = room[after(i, room.size())];
      if (plan::cross(room[i] - before, next - room[i]) != 0) out.push_back(room[i]);
    }
    if ((twice_area(out) > 0) != surveyed_.clockwise) std::reverse(out.begin(), out.end());
    const Vec corner = part_.walk.walls.front().from;
    const auto first = std::min_element(out.begin(), out.end(), [&](Vec a, Vec b) {
      return plan::dot(a - corner, a - corner) < plan::dot(b - corner, b - corner);
    });
    std::rotate(out.begin(), first, out.end());
    return out;
  }

  Draft& draft_;
  PartDraft& part_;
  SurveyedPart& surveyed_;
  std::vector<Axis> axes_;
};

bool needs_thickness(const Part& part) {
  return part.foundation && (*part.foundation == Foundation::crawl_space || *part.foundation == Foundation::basement);
}

// Whether the inside can be worked out; reports walls without a thickness where the foundation has an inside.
bool thickness_known(const Draft& draft, const PartDraft& part, Faults& faults) {
  std::vector<int> missing;
  bool faulty = false, any = false;
  for (std::size_t i = part.first; i < part.first + part.count; ++i) {
    const Wall& wall = draft.made.walls[i];
    any = any || wall.thick;
    faulty = faulty || draft.walls[i].thickness_faulty;
    if (!wall.thick && !draft.walls[i].bands.empty()) missing.push_back(wall.number);
  }
  if (faulty) return false;
  if (!needs_thickness(*part.facts))
    return any || (part.facts->foundation && *part.facts->foundation != Foundation::piers);
  if (missing.empty()) return true;
  if (draft.facts->walls.unread() || spoilt(draft.facts->walls.at, faults)) return false;
  const Span at = draft.facts->walls.key ? draft.facts->walls.key : part.facts->outline.key;
  faults.add(Rule::bad_wall, at,
             numbered("wall", missing) + of(part.facts->name.value_or("")) +
                 (missing.size() == 1 ? " has no thickness" : " have no thickness"),
             "without it the length of the inside is not known, and no soil there can be measured or priced",
             "give `thick:` under `walls:`, for all walls or by number");
  return false;
}

void report_nothing_inside(const Draft& draft, const PartDraft& part, Faults& faults) {
  const Wall* thickest = nullptr;
  for (std::size_t i = part.first; i < part.first + part.count; ++i) {
    const Wall& wall = draft.made.walls[i];
    if (!thickest || wall.thick.value_or(Length{}) > thickest->thick.value_or(Length{})) thickest = &wall;
  }
  const bool placed = thickest->facts && thickest->facts->thick.at;
  faults.add(Rule::bad_wall, placed ? thickest->facts->thick.at : part.facts->outline.key,
             "walls " + soundsill::print(thickest->thick.value_or(Length{})) + " thick leave nothing inside" +
                 (part.facts->name ? " " + quoted(*part.facts->name) : std::string()),
             "a part with no inside cannot be measured within", "compare thickness and outline with the sketch");
}

}  // namespace

void find_insides(Draft& draft, Faults& faults) {
  for (Wall& wall : draft.made.walls) wall.inside_from = wall.inside_to = wall.from;
  for (std::size_t p = 0; p < draft.parts.size(); ++p) {
    PartDraft& part = draft.parts[p];
    if (!part.walk.sound) continue;
    if (!thickness_known(draft, part, faults)) {
      // Piers may carry a part without walls: then what stands within its outline stands within.
      const bool open = part.facts->foundation && *part.facts->foundation == Foundation::piers;
      if (open) part.rooms = {part.walk.corners()};
      continue;
    }
    if (!Inside(draft, p).find()) report_nothing_inside(draft, part, faults);
  }
}

}  // namespace soundsill::plan
