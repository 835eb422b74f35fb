// Serves site/draft.h: what is taken over from the case as it was typed; draft.h says what is measured from it.
#include <algorithm>

#include "site/draft.h"

namespace soundsill::plan {
namespace {

template <class T>
std::optional<T> value(const Field<T>& field) {
  return field ? std::optional(*field) : std::nullopt;
}

SurveyedChimney taken(const Chimney& c) {
  return {c.name.value_or(""), value(c.at_point), value(c.size), value(c.kind),
          value(c.footing),    value(c.known_by), c.at,          c.name.at};
}

SurveyedWood taken(const WoodContact& w) {
  return {w.name.value_or(""), value(w.posts), items(w.at_points), value(w.gal_each), w.at, w.name.at};
}

SurveyedMark taken(const Mark& m) {
  return {value(m.kind), m.name.value_or(""), value(m.at_point), value(m.to), value(m.size), value(m.along),
          m.at,          m.kind.at,           m.at_point.at};
}

SurveyedArea taken(const Area& a) {
  return {a.name.value_or(""),   value(a.seen), value(a.region), a.because.value_or(""),
          a.advice.value_or(""), a.at,          a.seen.at};
}

SurveyedPierGroup taken(const PierGroup& g) {
  const int count = g.at_points ? static_cast<int>(g.at_points->size()) : g.count ? g.count->across * g.count->down : 0;
  return {value(g.kind), value(g.footing), value(g.known_by), value(g.gal_each), count, g.at, g.gal_each.at};
}

bool assumed(const Field<KnownBy>& known_by) { return known_by && *known_by == KnownBy::assumed; }

SurveyedWallBlock taken(const WallFacts& w) {
  SurveyedWallBlock block;
  if (w.walls)
    for (const WallStretch& one : w.walls->some) block.numbers.push_back(one.wall);
  block.footing_assumed = w.footing && assumed(w.footing->known_by);
  block.void_assumed = w.kind && *w.kind == WallKind::hollow_block && assumed(w.kind_known_by);
  return block;
}

template <class T, class Made>
void take(const ListField<T>& typed, std::vector<Made>& made) {
  for (const T& one : items(typed)) made.push_back(taken(one));
}

bool depth_misread(const Structure& s, bool outside) {
  return std::any_of(items(s.walls).begin(), items(s.walls).end(), [&](const WallFacts& block) {
    if (block.footing.unread()) return true;
    if (!block.footing) return false;
    const auto& from = outside ? block.footing->outside : block.footing->inside;
    const auto& to = outside ? block.footing->outside_to : block.footing->inside_to;
    return from.unread() || (to.written() && !from);
  });
}

void take_lists(const Structure& facts, SurveyedStructure& s) {
  take(facts.walls, s.wall_blocks);
  take(facts.piers, s.pier_groups);
  take(facts.chimneys, s.chimneys);
  take(facts.wood, s.wood);
  take(facts.marks, s.marks);
  take(facts.areas, s.areas);
  for (const Partition& p : items(facts.partitions))
    if (p.name) s.partition_names.push_back(*p.name);
  if (facts.dangers)
    for (const auto& [key, answer] : facts.dangers->all())
      s.dangers.push_back({key, value(*answer), answer->written(), answer->at});
  using Kind = Place::Kind;
  const std::pair<bool, Kind> lists[] = {{facts.chimneys.unread(), Kind::chimney},
                                         {facts.slabs.unread(), Kind::slab},
                                         {facts.wood.unread(), Kind::wood},
                                         {facts.areas.unread(), Kind::area},
                                         {facts.partitions.unread(), Kind::partition},
                                         {facts.pilasters.unread(), Kind::pilaster},
                                         {facts.marks.unread(), Kind::mark}};
  for (const auto& [unread, kind] : lists)
    if (unread) s.unread.push_back(kind);
}

}  // namespace

void take_typed(Draft& draft) {
  const Structure& facts = *draft.facts;
  SurveyedStructure& s = draft.made;
  s.name = facts.name.value_or("");
  s.kind = facts.kind.value_or("");
  s.facts = &facts;
  s.soil = value(facts.soil);
  s.ground = value(facts.ground);
  s.name_at = facts.name.at;
  s.ground_at = facts.ground.at;
  s.footings_at = facts.walls ? facts.walls.key : facts.name.at;
  s.outside_misread = depth_misread(facts, true);
  s.inside_misread = depth_misread(facts, false);
  take_lists(facts, s);
}

SurveyedPartition typed(const Partition& p) {
  SurveyedPartition made;
  made.facts = &p;
  made.name = p.name.value_or("");
  made.kind = value(p.kind);
  made.from = *p.from;
  made.to = *p.to;
  made.thick = *p.thick;
  made.footing = *p.footing;
  made.known_by = value(p.known_by);
  return made;
}

SurveyedPilaster typed(const Pilaster& p) {
  SurveyedPilaster made;
  made.facts = &p;
  made.name = p.name.value_or("");
  made.kind = value(p.kind);
  made.side = value(p.side);
  made.places = items(p.places);
  made.wide = value(p.wide);
  made.deep = value(p.deep);
  made.footing = value(p.footing);
  made.known_by = value(p.known_by);
  return made;
}

SurveyedSlab typed(const Slab& slab) {
  SurveyedSlab made;
  made.facts = &slab;
  made.name = slab.name.value_or("");
  made.fill = value(slab.fill);
  made.along = value(slab.along);
  made.deep = value(slab.deep);
  made.footing = value(slab.footing);
  made.known_by = value(slab.known_by);
  made.at = slab.at;
  made.name_at = slab.name.at;
  made.along_at = slab.along.at;
  return made;
}

}  // namespace soundsill::plan
