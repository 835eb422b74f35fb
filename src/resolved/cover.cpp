// Serves resolved/fill.h: what a line covers of the plan: what it names, and what lies near the findings it goes by.
#include <algorithm>

#include "resolved/fill.h"

namespace soundsill::resolved {
namespace {

using Kind = Place::Kind;

Stretch whole(const Wall& wall) { return {wall.number, Length{}, wall.length}; }

template <class T>
void tidy(std::vector<T>& all) {
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
}

template <class T>
bool holds(const std::vector<T>& all, const T& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

/// The index of the first thing of a name.
template <class T>
std::optional<std::size_t> index_of(const std::vector<T>& all, const std::string& name) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& one) { return one.name == name; });
  return found == all.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - all.begin()));
}

struct Covering {
  Line& line;
  const SurveyedStructure& s;
  const Resolved& all;
  Faults& faults;
  Near near{};
  Cover& out = line.cover;

  // Which faults are told: those of what this kind of work is done on.
  [[nodiscard]] bool by_walls() const {
    return round_things() || line.takes == Takes::slab || line.takes == Takes::stations;
  }
  [[nodiscard]] bool round_things() const {
    return line.takes == Takes::soil || line.takes == Takes::backfill || line.takes == Takes::voids;
  }
  [[nodiscard]] bool by_parts() const {
    return line.takes == Takes::crawl_area || line.takes == Takes::crawl_cover || line.takes == Takes::air_volume ||
           (line.takes == Takes::under_slab && line.asked.parts);
  }

  void unknown(bool tell, Span at, const std::string& what) const {
    if (!tell) return;
    line.faulted = true;
    faults.add(Rule::unknown_reference, at, what,
               "gallons and price would be worked out for something that is not there", "name one that is on the plan");
  }

  [[nodiscard]] std::vector<std::string> names(Kind kind) const {
    std::vector<std::string> out;
    for (const Place& p : line.asked.places)
      if (p.kind == kind) out.push_back(p.name);
    return out;
  }

  void find_near() {
    for (const int no : line.asked.near) {
      const Finding* f = all.finding(no);
      if (!f) {
        line.near_placed = false;
        unknown(by_walls(), line.asked.near_at, "there is no finding no. " + std::to_string(no));
        continue;
      }
      out.near.push_back(f);
      const bool placed = f->typed_place && f->in == s.name && missing(s, *f->typed_place).empty();
      line.near_placed = line.near_placed && placed;
      if (!f->place || f->structure != &s) continue;  // other rules speak
      const Near one = within(s, *f->place, line.reach);
      near.stretches.insert(near.stretches.end(), one.stretches.begin(), one.stretches.end());
      near.piers.insert(near.piers.end(), one.piers.begin(), one.piers.end());
      near.chimneys.insert(near.chimneys.end(), one.chimneys.begin(), one.chimneys.end());
      near.partitions.insert(near.partitions.end(), one.partitions.begin(), one.partitions.end());
      near.slabs.insert(near.slabs.end(), one.slabs.begin(), one.slabs.end());
    }
  }

  void take_wall(int number, std::optional<Length> from, std::optional<Length> to, Span at) {
    const Wall* wall = s.wall(number);
    if (wall && (!to || *to <= wall->length))
      return out.walls.push_back({number, from.value_or(Length{}), to.value_or(wall->length)});
    out.known = false;
    unknown(by_walls(), at,
            wall ? "wall " + std::to_string(number) + " is only " + print(wall->length) + " long"
                 : "there is no wall " + std::to_string(number) + " in `" + s.name + "`");
  }

  void walls() {
    const auto every = [&] {
      out.all_walls = true;
      for (const Wall& wall : s.walls) out.walls.push_back(whole(wall));
    };
    if (line.asked.walls.all) every();
    for (const WallStretch& w : line.asked.walls.some) take_wall(w.wall, w.from, w.to, w.at);
    for (const Place& p : line.asked.places) {
      if (p.kind == Kind::wall) take_wall(p.number, p.from, p.to, p.at);
      if (p.kind == Kind::all_walls) every();
    }
    if (!line.local) out.walls.insert(out.walls.end(), near.stretches.begin(), near.stretches.end());
    out.walls = joined(std::move(out.walls));
    if (!line.local) return;
    out.walls = stretches_shared(out.walls, near.stretches);
    out.all_walls = false;
  }

  /// What lies near is added, or, of a line that is cut to it, is all that stays.
  template <class T>
  void with_near(std::vector<T>& mine, const std::vector<T>& theirs) const {
    if (line.local)
      std::erase_if(mine, [&](const T& n) { return !holds(theirs, n); });
    else
      mine.insert(mine.end(), theirs.begin(), theirs.end());
    tidy(mine);
  }

  void piers() {
    const auto take = [&](int number, Span at) {
      if (s.pier(number)) return out.piers.push_back(number);
      unknown(round_things(), at, "there is no pier " + std::to_string(number) + " in `" + s.name + "`");
    };
    const auto every = [&] {
      for (const Pier& p : s.piers) out.piers.push_back(p.number);
    };
    if (line.asked.piers.all) every();
    for (const int n : line.asked.piers.some) take(n, line.asked.piers.at);
    for (const Place& p : line.asked.places) {
      if (p.kind == Kind::pier) take(p.number, p.at);
      if (p.kind == Kind::all_piers) every();
    }
    with_near(out.piers, near.piers);
  }

  void chimneys() {
    if (line.asked.piers.all)
      for (std::size_t i = 0; i < s.chimneys.size(); ++i) out.chimneys.push_back(i);
    for (const Place& p : line.asked.places) {
      if (p.kind != Kind::chimney) continue;
      if (const auto index = index_of(s.chimneys, p.name)) {
        out.chimneys.push_back(*index);
        continue;
      }
      out.known = false;
      unknown(round_things(), p.at, "there is no chimney `" + p.name + "` in `" + s.name + "`");
    }
    with_near(out.chimneys, near.chimneys);
  }

  void partitions() {
    const auto named = names(Kind::partition);
    for (std::size_t i = 0; i < s.partitions.size(); ++i) {
      PartitionCover one{i, false, {}};
      const bool by_name = line.asked.walls.all || holds(named, s.partitions[i].name);
      one.whole = by_name && !line.local;
      if (by_name || !line.local)
        for (const PartitionStretch& stretch : near.partitions)
          if (stretch.partition == i) one.near.push_back(stretch);
      if (one.whole || !one.near.empty()) out.partitions.push_back(std::move(one));
    }
  }

  /// Whether a line that is cut to what lies near its findings takes in what stands there.
  [[nodiscard]] bool near_place(const std::vector<std::vector<Point>>& shapes) const {
    if (!line.local) return true;
    return std::any_of(out.near.begin(), out.near.end(), [&](const Finding* f) {
      const auto gap = f->structure == &s ? distance(f->shapes, shapes) : std::nullopt;
      return gap && *gap <= line.reach;
    });
  }

  void slabs() {
    const auto named = names(Kind::slab);
    const bool soil = line.takes == Takes::soil || line.takes == Takes::backfill;
    for (std::size_t i = 0; i < s.slabs.size(); ++i) {
      const SurveyedSlab& slab = s.slabs[i];
      const bool by_name = !slab.name.empty() && holds(named, slab.name);
      bool taken = by_name;
      if (soil)  // an earth-filled porch is taken in with the walls it stands against
        taken = by_name || line.asked.walls.all ||
                (!slab.adjoins.empty() && stretches_less(slab.adjoins, out.walls).empty());
      if (line.takes == Takes::slab && !line.local) taken = by_name || (!slab.name.empty() && holds(near.slabs, i));
      if (line.takes != Takes::under_slab) taken = taken && near_place(slab.shapes);
      if (taken) out.slabs.push_back(i);
    }
  }

  void marks() {
    const auto named = names(Kind::mark);
    const bool every = named.empty() && line.takes == Takes::bath_traps;
    for (std::size_t i = 0; i < s.marks.size(); ++i) {
      const SurveyedMark& mark = s.marks[i];
      if (!every && (mark.name.empty() || !holds(named, mark.name))) continue;
      std::vector<Point> shape;
      if (mark.point) shape.push_back(*mark.point);
      if (mark.point && mark.to) shape.push_back(*mark.to);
      if (shape.empty() || near_place({shape})) out.marks.push_back(i);
    }
  }

  void things() {
    for (std::size_t i = 0; i < s.pilasters.size(); ++i)
      if (!line.local && !s.pilasters[i].name.empty() && holds(names(Kind::pilaster), s.pilasters[i].name))
        out.pilasters.push_back(i);
    for (const Place& p : line.asked.places) {
      if (p.kind == Kind::point) out.points.push_back(p.point);
      if (p.kind == Kind::wood)
        if (const auto index = index_of(s.wood, p.name); index && near_place(shapes_of(s, p)))
          out.wood.push_back(*index);
      if (p.kind == Kind::area)
        if (const auto index = index_of(s.areas, p.name)) out.areas.push_back(*index);
      const bool by_number = p.kind == Kind::wall || p.kind == Kind::all_walls || p.kind == Kind::pier ||
                             p.kind == Kind::all_piers || p.kind == Kind::near;
      if (!by_number) out.named.push_back(p);
    }
    tidy(out.areas);
  }

  void parts() {
    if (!line.asked.parts)
      for (std::size_t i = 0; i < s.parts.size(); ++i) out.parts.push_back(i);
    else
      for (const std::string& name : *line.asked.parts)
        if (const auto index = index_of(s.parts, name))
          out.parts.push_back(*index);
        else
          unknown(by_parts(), line.asked.parts_at, "there is no part `" + name + "` in `" + s.name + "`");
  }

  void find() {
    out = {};
    out.known = s.complete && !line.asked.unread;
    find_near();
    walls();
    piers();
    chimneys();
    partitions();
    slabs();
    marks();
    things();
    parts();
  }
};

/// How far a line reaches from the findings it is near: the form's distance; inside at evidence, what the label says.
Length reach_of(const Line& line, const Resolved& all) {
  const bool soil = line.takes == Takes::soil || line.takes == Takes::backfill;
  const Product* product = line.product;
  if (soil && product && product->label && product->label->spot_each_side) return *product->label->spot_each_side;
  return value_of(all.limits.void_reach);
}

}  // namespace

bool measured(Takes takes) { return takes != Takes::count && takes != Takes::once && takes != Takes::nothing; }

void cover(Line& line, const Resolved& all, Faults& faults) {
  line.reach = reach_of(line, all);
  Covering{line, *line.structure, all, faults}.find();
}

bool Cover::takes_pier(int number) const { return holds(piers, number); }

bool Cover::takes_partition(std::size_t index) const {
  return std::any_of(partitions.begin(), partitions.end(),
                     [&](const PartitionCover& one) { return one.partition == index; });
}

void Cover::add(const Cover& other) {
  const auto append = [](auto& mine, const auto& theirs) { mine.insert(mine.end(), theirs.begin(), theirs.end()); };
  all_walls = all_walls || other.all_walls;
  known = known && other.known;
  append(walls, other.walls);
  walls = joined(std::move(walls));
  for (auto list : {&Cover::chimneys, &Cover::slabs, &Cover::pilasters, &Cover::wood, &Cover::marks, &Cover::areas,
                    &Cover::parts}) {
    append(this->*list, other.*list);
    tidy(this->*list);
  }
  append(piers, other.piers);
  tidy(piers);
  append(partitions, other.partitions);
  append(points, other.points);
  append(named, other.named);
  append(near, other.near);
}

}  // namespace soundsill::resolved
