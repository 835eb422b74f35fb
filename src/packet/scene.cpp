// Serves packet/builder.h. The plan of one structure, drawn from the same survey and the same runs as every figure.
#include "packet/builder.h"

namespace soundsill::document {
namespace {

using F = Words::Fill;
using soundsill::RunKind;

/// Unit steps along and out of an axis-parallel or slanted wall, in sixteenths for a given distance.
struct Outward {
  Length dx, dy;
};

Outward outward(const SurveyedStructure& s, const Wall& wall, Length distance) {
  const std::int64_t dx = wall.to.x.sixteenths - wall.from.x.sixteenths;
  const std::int64_t dy = wall.to.y.sixteenths - wall.from.y.sixteenths;
  const std::int64_t length = std::max<std::int64_t>(1, wall.length.sixteenths);
  // Which way is outside depends on which way the outline was walked.
  const std::int64_t sign = s.parts[wall.part].clockwise ? 1 : -1;
  return {{sign * dy * distance.sixteenths / length}, {-sign * dx * distance.sixteenths / length}};
}

Point moved(Point p, const Outward& by, std::int64_t times = 1) { return {p.x + by.dx * times, p.y + by.dy * times}; }

std::vector<Point> rectangle(Point middle, Length width, Length depth, Length margin = {}) {
  const Length w{width.sixteenths / 2 + margin.sixteenths}, d{depth.sixteenths / 2 + margin.sixteenths};
  return {{middle.x - w, middle.y - d},
          {middle.x + w, middle.y - d},
          {middle.x + w, middle.y + d},
          {middle.x - w, middle.y + d}};
}

struct Plan {
  const Builder& b;
  const SurveyedStructure& s;
  const Treatment* t;  ///< what is treated and drilled; may be none
  Scene scene{};

  void area(std::vector<Point> points, std::string style) {
    scene.shapes.push_back({Shape::Kind::area, std::move(points), {}, std::move(style)});
  }
  void line(std::vector<Point> points, std::string style) {
    scene.shapes.push_back({Shape::Kind::line, std::move(points), {}, std::move(style)});
  }

  void not_seen() {
    for (const SurveyedArea& a : s.areas)
      if (a.seen && *a.seen != Seen::yes && a.region && a.region->size() >= 3) {
        area(*a.region, "not-seen");
      }
  }

  /// Soil that is treated, or covered, as a whole.
  void treated_areas() {
    const auto inside = [](const SurveyedPart& p) { return p.inside_corners.empty() ? p.corners : p.inside_corners; };
    for (const SurveyedPart& part : s.parts)
      for (const RunKind kind : {RunKind::under_slab, RunKind::crawl_soil, RunKind::crawl_cover})
        if (in_names(kind, part.name)) area(inside(part), kind == RunKind::crawl_cover ? "cover" : "treated-area");
    for (const SurveyedSlab& slab : s.slabs)
      if (in_names(RunKind::under_slab, slab.name))
        for (const auto& shape : slab.shapes)
          if (shape.size() >= 3) area(shape, "treated-area");
  }

  void walls() {
    for (const SurveyedPart& part : s.parts) {
      auto outside = part.corners;
      if (!outside.empty()) outside.push_back(outside.front());
      line(outside, "wall");
      if (!part.inside_corners.empty() && part.inside_corners != part.corners) {
        auto inside = part.inside_corners;
        inside.push_back(inside.front());
        line(inside, "inside");
      }
    }
    for (const Wall& wall : s.walls) {
      const Point middle = along(wall, Length{wall.length.sixteenths / 2});
      const bool between = is_between(wall);
      // A wall between two parts has a number on either side; its words stand within its part.
      const Outward out = outward(s, wall, between ? -Length::feet(1) : Length::feet(1));
      if (between) {
        scene.labels.push_back({middle,
                                {out.dx, out.dy},
                                b.say(Word::wall_label_plain, F{"number", std::to_string(wall.number)}),
                                "dimension"});
        continue;
      }
      if (wall.beside_neighbor) beside(wall, Length::feet(2), "neighbor");
      if (wall.beside_slab) beside(wall, Length::feet(3), "slab");
      scene.labels.push_back({middle,
                              {out.dx, out.dy},
                              b.say(Word::wall_label, F{"number", std::to_string(wall.number)},
                                    F{"length", b.stated(Topic::wall, b.words.shown(wall.length), wall_of(s, wall))}),
                              "dimension"});
    }
  }

  /// A strip along the outside of a wall, for what has no outline of its own.
  void beside(const Wall& wall, Length wide, std::string style) {
    const Outward out = outward(s, wall, wide);
    area({wall.from, wall.to, moved(wall.to, out), moved(wall.from, out)}, std::move(style));
  }

  void slabs() {
    for (const SurveyedSlab& slab : s.slabs) {
      for (const auto& shape : slab.shapes)
        if (shape.size() >= 3) area(shape, "slab");
      if (!slab.name.empty() && !slab.shapes.empty())
        scene.labels.push_back({center(slab.shapes.front()), {}, slab.name, "name"});
      if (in_names(RunKind::soil_porches, slab.name))
        for (const auto& [a, z] : slab.edges) line({a, z}, "treated-soil");
    }
  }

  [[nodiscard]] static Point center(const std::vector<Point>& shape) {
    Point sum;
    for (const Point& p : shape) sum = {sum.x + p.x, sum.y + p.y};
    const auto count = static_cast<std::int64_t>(std::max<std::size_t>(1, shape.size()));
    return {{sum.x.sixteenths / count}, {sum.y.sixteenths / count}};
  }

  /// Walls within and what stands out from walls; both sides of a treated partition get the soil's line.
  void masonry() {
    for (const SurveyedPartition& p : s.partitions) {
      auto band = p.band;
      band.push_back(band.front());
      line(band, "partition");
      if (in_names(RunKind::soil_partitions, p.name)) {
        line({p.band[0], p.band[1]}, "treated-soil");
        line({p.band[3], p.band[2]}, "treated-soil");
      }
      drilled_within(p);
      scene.labels.push_back({center(p.band), {}, p.name, "name"});
    }
    for (const SurveyedPilaster& p : s.pilasters)
      for (const auto& shape : p.shapes) area(shape, "pier");
  }

  /// The stretches of a partition whose voids are drilled.
  void drilled_within(const SurveyedPartition& p) {
    if (!t) return;
    const Length whole = distance(std::vector<std::vector<Point>>{{p.from}}, {{p.to}}).value_or(Length{});
    if (whole <= Length{}) return;
    const auto at = [&](Length l) {
      const auto share = [&](Length a, Length z) {
        return Length{a.sixteenths + (z - a).sixteenths * l.sixteenths / whole.sixteenths};
      };
      return Point{share(p.from.x, p.to.x), share(p.from.y, p.to.y)};
    };
    for (const auto& run : t->runs)
      for (const PartitionStretch& one : run.partitions)
        if (run.structure == s.name && &s.partitions[one.partition] == &p)
          line({at(one.a), at(std::min(one.b, whole))}, "drilled");
  }

  [[nodiscard]] bool in_names(RunKind kind, const std::string& name) const {
    return t && std::any_of(t->runs.begin(), t->runs.end(), [&](const auto& run) {
             return run.structure == s.name && run.kind == kind &&
                    std::find(run.names.begin(), run.names.end(), name) != run.names.end();
           });
  }

  [[nodiscard]] bool in_runs(RunKind kind, int pier) const {
    if (!t) return false;
    return std::any_of(t->runs.begin(), t->runs.end(), [&](const auto& run) {
      return run.structure == s.name && run.kind == kind &&
             std::find(run.piers.begin(), run.piers.end(), pier) != run.piers.end();
    });
  }

  void piers() {
    for (const Pier& p : s.piers) {
      if (in_runs(RunKind::soil_piers, p.number)) {
        // Begun in the middle of a side, so that all four corners are joined.
        const auto corners = rectangle(p.middle, p.width, p.depth, Length::inches(9));
        const Point middle{p.middle.x, corners[0].y};
        line({middle, corners[1], corners[2], corners[3], corners[0], middle}, "treated-soil");
      }
      area(rectangle(p.middle, p.width, p.depth), in_runs(RunKind::void_piers, p.number) ? "pier-drilled" : "pier");
      const Length half{std::max(p.width, p.depth).sixteenths / 2};
      const Length beyond = in_runs(RunKind::soil_piers, p.number) ? Length::inches(14) : Length{};
      scene.labels.push_back({p.middle, {}, std::to_string(p.number), "label", half + beyond});
    }
    for (const SurveyedChimney& c : s.chimneys)
      if (c.middle && c.size) {
        if (in_names(RunKind::soil_chimneys, c.name)) {
          const auto corners = rectangle(*c.middle, c.size->width, c.size->depth, Length::inches(9));
          const Point middle{c.middle->x, corners[0].y};
          line({middle, corners[1], corners[2], corners[3], corners[0], middle}, "treated-soil");
        }
        area(rectangle(*c.middle, c.size->width, c.size->depth),
             in_names(RunKind::void_chimneys, c.name) ? "pier-drilled" : "pier");
        if (!c.name.empty()) scene.labels.push_back({*c.middle, {}, c.name, "name"});
      }
  }

  enum class Corner { first, last };

  /// How far a line beside a wall goes on past its corner, so that lines meet there: on where it passes round the
  /// outside of the turn, short where it lies within. Only square corners; others end at the corner.
  [[nodiscard]] Length reach(const Wall& wall, Corner which, Length beside) const {
    const Point& corner = which == Corner::first ? wall.from : wall.to;
    for (const Wall& other : s.walls) {
      if (other.part != wall.part || &other == &wall) continue;
      if ((which == Corner::first ? other.to : other.from) != corner) continue;
      const Wall& before = which == Corner::first ? other : wall;
      const Wall& after = which == Corner::first ? wall : other;
      const auto sign = [](std::int64_t n) { return (n > 0) - (n < 0); };
      const int ax = sign((before.to.x - before.from.x).sixteenths),
                ay = sign((before.to.y - before.from.y).sixteenths);
      const int bx = sign((after.to.x - after.from.x).sixteenths), by = sign((after.to.y - after.from.y).sixteenths);
      if (ax * bx + ay * by != 0 || (ax && ay) || (bx && by)) return {};  // straight on, or slanted
      const int turn = ax * by - ay * bx;                                 // positive to the right, since y grows south
      return (turn > 0) == s.parts[wall.part].clockwise ? beside : -beside;
    }
    return {};
  }

  /// A run along walls stands a little beside them, outside or inside.
  void runs() {
    if (!t) return;
    for (const auto& run : t->runs) {
      if (run.structure != s.name) continue;
      for (const Stretch& stretch : run.stretches) {
        const Wall* wall = s.wall(stretch.wall);
        if (!wall) continue;
        const Length thick = wall->thick.value_or(Length{});
        Length beside{};
        if (run.kind == RunKind::soil_outside) beside = Length::inches(12);
        if (run.kind == RunKind::soil_inside) beside = -(thick + Length::inches(12));
        if (run.kind == RunKind::void_walls) beside = -Length{thick.sixteenths / 2};
        if (run.kind == RunKind::slab) beside = slab_side(run, *wall);
        if (run.kind == RunKind::stations) continue;
        const Outward by = outward(s, *wall, beside);
        const Length from = stretch.a == Length{} ? stretch.a - reach(*wall, Corner::first, beside) : stretch.a;
        const Length to = stretch.b == wall->length ? stretch.b + reach(*wall, Corner::last, beside) : stretch.b;
        if (from >= to) continue;
        line({moved(along(*wall, from), by), moved(along(*wall, to), by)}, !is_soil(run.kind) ? "drilled"
                                                                           : run.backfill     ? "backfill"
                                                                                              : "treated-soil");
      }
    }
  }

  /// Outside walls that nothing is done along have a line of their own, so that no part of the house is passed over.
  void not_treated() {
    if (!t) return;
    std::vector<Stretch> done;
    bool any = false;
    for (const auto& run : t->runs) {
      if (run.structure != s.name) continue;
      any = any || !run.stretches.empty();
      if (run.kind == RunKind::soil_outside || run.kind == RunKind::slab || run.kind == RunKind::stations)
        done.insert(done.end(), run.stretches.begin(), run.stretches.end());
    }
    if (!any) return;
    done = joined(std::move(done));
    for (const Wall& wall : s.walls)
      for (const Stretch& outer : wall.outer) {
        Length at = outer.a;
        const auto put = [&](Length from, Length to) {
          if (to <= from) return;
          const Outward by = outward(s, wall, Length::inches(12));
          line({moved(along(wall, from), by), moved(along(wall, to), by)}, "not-treated");
        };
        for (const Stretch& one : done) {
          if (one.wall != wall.number || one.b <= at || one.a >= outer.b) continue;
          put(at, one.a);
          at = std::max(at, one.b);
        }
        put(at, outer.b);
      }
  }

  void stations() {
    if (!t) return;
    for (const auto& run : t->runs) {
      if (run.structure != s.name) continue;
      for (const Point& p : run.points)
        scene.shapes.push_back({Shape::Kind::circle, {p}, Length::inches(7), "station"});
    }
  }

  /// Slabs beside the house are drilled outside the wall, slabs it stands on inside.
  [[nodiscard]] Length slab_side(const soundsill::Run& run, const Wall& wall) const {
    const bool on_slab = s.parts[wall.part].foundation != Foundation::crawl_space && !wall.beside_slab;
    return on_slab && run.names.empty() ? -(wall.thick.value_or(Length{}) + Length::inches(12)) : Length::inches(12);
  }

  void marks() {
    for (const SurveyedWood& w : s.wood) {
      for (const Point& p : w.points)
        scene.shapes.push_back({Shape::Kind::area, rectangle(p, Length::inches(6), Length::inches(6)), {}, "wood"});
      if (!w.name.empty() && !w.points.empty()) scene.labels.push_back({w.points.front(), {}, w.name, "name"});
    }
    for (const SurveyedMark& m : s.marks) {
      const std::string words = !m.name.empty() ? m.name : m.kind ? b.words.name(yaml::word(*m.kind)) : std::string{};
      const bool danger =
          m.kind && (*m.kind < MarkKind::hatch || (*m.kind > MarkKind::front_door && *m.kind < MarkKind::bath_trap));
      if (m.point && m.to) {
        line({*m.point, *m.to}, in_names(RunKind::joints, m.name) ? "drilled" : "line");
        scene.labels.push_back({center({*m.point, *m.to}), {}, words, "name"});
      } else if (m.point && m.size) {
        area(rectangle(*m.point, m.size->width, m.size->depth), "slab");
        scene.labels.push_back({*m.point, {}, words, "name"});
      } else if (m.point) {
        const bool treated = in_names(RunKind::bath_traps, m.name);
        scene.shapes.push_back({Shape::Kind::circle,
                                {*m.point},
                                Length::inches(9),
                                danger    ? "danger"
                                : treated ? "treated-area"
                                          : "mark"});
        scene.labels.push_back({*m.point, {}, words, "name"});
      } else if (m.along && m.along->kind == Place::Kind::wall) {
        const Wall* wall = s.wall(m.along->number);
        if (!wall) continue;
        const Outward out = outward(s, *wall, Length::inches(24));
        const Point a = moved(along(*wall, m.along->from.value_or(Length{})), out);
        const Point z = moved(along(*wall, m.along->to.value_or(wall->length)), out);
        line({a, z}, danger ? "danger-zone" : "mark");
        scene.labels.push_back({{{(a.x.sixteenths + z.x.sixteenths) / 2}, {(a.y.sixteenths + z.y.sixteenths) / 2}},
                                {out.dx, out.dy},
                                words,
                                "name"});
      }
    }
  }

  /// What has no place on this plan (an attic, say) stands beside it, so that no number is missing.
  void findings() {
    for (const Finding& f : b.house.findings) {
      if (!f.no || !f.on(s)) continue;
      const auto& at = f.point;
      const std::string no = std::to_string(*f.no);
      Marker marker{at.value_or(Point{}), no, "finding", card_id(*f.no),
                    no + ": " + b.title_of(f) + ", " + b.place_of(f)};
      (at ? scene.markers : scene.aside).push_back(std::move(marker));
    }
    if (!scene.aside.empty()) scene.aside_words = b.say(Word::drawing_aside);
  }

  /// Where the number of a run stands: in the middle of its longest stretch, at its first pier, post or station.
  [[nodiscard]] std::optional<Point> middle_of(const soundsill::Run& run) const {
    const Stretch* longest = nullptr;
    for (const Stretch& one : run.stretches)
      if (s.wall(one.wall) && (!longest || one.length() > longest->length())) longest = &one;
    if (longest && run.kind != RunKind::stations) {
      const Wall& wall = *s.wall(longest->wall);
      const Length thick = wall.thick.value_or(Length{});
      Length beside = Length::inches(12);
      if (run.kind == RunKind::soil_inside || (run.kind == RunKind::slab && run.within))
        beside = -(thick + Length::inches(12));
      if (run.kind == RunKind::void_walls) beside = -Length{thick.sixteenths / 2};
      // A third of the way along: the wall's own words stand in its middle.
      const Point at = along(wall, Length{longest->a.sixteenths + longest->length().sixteenths / 3});
      return moved(at, outward(s, wall, beside));
    }
    if (!run.points.empty()) return run.points.front();
    if (!run.piers.empty() && s.pier(run.piers.front())) {
      const Pier& pier = *s.pier(run.piers.front());
      return Point{pier.middle.x - Length{pier.width.sixteenths / 2}, pier.middle.y};
    }
    if (!run.hole_at.empty()) return run.hole_at.front().at;
    for (const SurveyedSlab& slab : s.slabs)
      if (in_names(run.kind, slab.name) && !slab.edges.empty())
        return center({slab.edges.front().first, slab.edges.front().second});
    for (const SurveyedPartition& p : s.partitions)
      if (in_names(run.kind, p.name)) return center(p.band);
    for (const SurveyedPilaster& p : s.pilasters)
      if (in_names(run.kind, p.name) && !p.shapes.empty()) return center(p.shapes.front());
    for (const SurveyedChimney& one : s.chimneys)
      if (one.middle && in_names(run.kind, one.name)) return *one.middle;
    for (const SurveyedWood& w : s.wood)
      if (in_names(run.kind, w.name) && !w.points.empty()) return w.points.front();
    for (const SurveyedMark& m : s.marks)
      if (m.point && in_names(run.kind, m.name)) return *m.point;
    for (const SurveyedPart& part : s.parts)
      if (!part.corners.empty()) return center(part.corners);
    return std::nullopt;
  }

  void crew() {
    if (!t) return;
    for (const auto& run : t->runs) {
      if (run.structure != s.name || !unknown_dangers(b, s.name).empty()) continue;
      for (const Hole& hole : run.hole_at)
        scene.shapes.push_back({Shape::Kind::circle, {hole.at}, Length::inches(4), "hole"});
      if (const auto at = middle_of(run))
        scene.markers.push_back({*at, std::to_string(run.number), "run", "run-" + std::to_string(run.number),
                                 std::to_string(run.number) + ". " + b.run_words(run)});
    }
  }

  [[nodiscard]] bool has_marker(std::string_view shape) const {
    return std::any_of(scene.markers.begin(), scene.markers.end(), [&](const Marker& m) { return m.shape == shape; });
  }

  [[nodiscard]] bool uses(std::string_view style) const {
    return std::any_of(scene.shapes.begin(), scene.shapes.end(), [&](const Shape& x) { return x.style == style; });
  }

  void legend() {
    const auto put = [&](bool there, LegendEntry::Sample sample, std::string style, Word words,
                         std::string letter = {}) {
      if (there) scene.legend.push_back({sample, std::move(style), b.say(words), std::move(letter)});
    };
    using S = LegendEntry::Sample;
    put(has_marker("finding"), S::marker, "finding", Word::legend_finding);
    put(has_marker("run"), S::marker, "run", Word::legend_run);
    put(uses("hole"), S::circle, "hole", Word::legend_hole);
    put(uses("treated-soil"), S::line, "treated-soil", Word::legend_treated, b.say(Word::letter_treated));
    put(uses("backfill"), S::line, "backfill", Word::legend_backfill, b.say(Word::letter_backfill));
    put(uses("treated-area"), S::area, "treated-area", Word::legend_treated_area, b.say(Word::letter_treated_area));
    put(uses("cover"), S::area, "cover", Word::legend_cover, b.say(Word::letter_cover));
    put(uses("drilled"), S::line, "drilled", Word::legend_drilled, b.say(Word::letter_drilled));
    put(uses("pier-drilled"), S::area, "pier-drilled", Word::legend_pier_drilled);
    put(uses("not-treated"), S::line, "not-treated", Word::legend_not_treated, b.say(Word::letter_not_treated));
    put(uses("station"), S::circle, "station", Word::legend_station);
    put(true, S::line, "wall", Word::legend_wall);
    put(uses("pier") || uses("pier-drilled"), S::area, "pier", Word::legend_pier);
    put(uses("slab"), S::area, "slab", Word::legend_slab);
    put(uses("line"), S::line, "line", Word::legend_line);
    put(uses("mark"), S::circle, "mark", Word::legend_mark);
    put(uses("not-seen"), S::area, "not-seen", Word::legend_not_seen, b.say(Word::letter_not_seen));
    put(uses("wood"), S::area, "wood", Word::legend_wood);
    put(uses("neighbor"), S::area, "neighbor", Word::legend_neighbor);
    put(uses("danger"), S::circle, "danger", Word::legend_danger);
    put(uses("danger-zone"), S::line, "danger-zone", Word::legend_danger_zone);
  }
};

}  // namespace

Scene Builder::scene(const SurveyedStructure& s, const Treatment* t, bool crew) const {
  Plan plan{*this, s, t};
  plan.not_seen();
  plan.slabs();
  plan.treated_areas();
  plan.walls();
  plan.masonry();
  plan.runs();
  plan.not_treated();
  plan.stations();
  plan.piers();
  plan.marks();
  plan.findings();
  if (crew) plan.crew();
  plan.legend();
  plan.scene.north = say(Word::north);
  plan.scene.scale_words = say(Word::scale);
  plan.scene.feet_words = say(Word::feet);
  plan.scene.detail_words = say(Word::drawing_detail, F{"letter", "{letter}"});  // drawing/ counts the details
  return std::move(plan.scene);
}

}  // namespace soundsill::document
