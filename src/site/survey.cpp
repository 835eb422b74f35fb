#include "site/survey.h"

#include <algorithm>

#include "site/draft.h"
#include "site/words.h"

namespace soundsill {
namespace plan {
namespace {

constexpr std::size_t most_walls = 400;

// Whether parts were dropped while the list was read: then the walls of the others are not numbered as typed.
bool parts_dropped(const Structure& s, const Faults& faults) {
  if (s.parts.unread()) return true;
  return std::any_of(faults.all().begin(), faults.all().end(), [&](const Diagnostic& d) {
    const auto in = [&](const Span& span) {
      return d.at.source == span.source && d.at.begin >= span.begin && d.at.end <= span.end;
    };
    if (!s.parts.at || !in(s.parts.at) || info(d.rule).kind != RuleKind::reading) return false;
    return std::none_of(items(s.parts).begin(), items(s.parts).end(), [&](const Part& p) { return p.at && in(p.at); });
  });
}

void add_wall(Draft& draft, std::size_t part, const WalkedWall& walked) {
  Wall wall;
  wall.number = static_cast<int>(draft.made.walls.size()) + 1;
  wall.part = part;
  wall.from = point(walked.from);
  wall.to = point(walked.to);
  wall.length = walked.length;
  draft.made.walls.push_back(wall);
  WallDraft made;
  made.at = walked.at;
  draft.walls.push_back(std::move(made));
}

SurveyedPart surveyed(const Part& facts, const Walk& walk) {
  SurveyedPart part;
  part.name = facts.name.value_or("");
  part.foundation = facts.foundation.value_or(Foundation::crawl_space);
  const auto value = [](const Field<Length>& field) { return field ? std::optional(*field) : std::nullopt; };
  part.crawl_height = value(facts.crawl_height);
  part.joists_above = value(facts.joists_above);
  part.girders_above = value(facts.girders_above);
  part.wood_above = value(facts.wood_above);
  part.wall_height = value(facts.wall_height);
  part.roof_height = value(facts.roof_height);
  part.at = facts.at;
  const Ring corners = walk.corners();
  part.corners = points(corners);
  part.closing_error = walk.closing_error;
  part.sound = walk.sound;
  for (const WalkedWall& w : walk.walls) part.outside += w.length;
  const Wide area = twice_area(corners);
  part.clockwise = area >= 0;
  constexpr std::int64_t square_foot = 192 * 192;
  if (walk.sound) part.area_sqft = Ratio(static_cast<std::int64_t>(area < 0 ? -area : area), 2 * square_foot);
  return part;
}

}  // namespace

void walk_parts(Draft& draft, Faults& faults) {
  draft.made.complete = !parts_dropped(*draft.facts, faults);
  for (const Part& facts : items(draft.facts->parts)) {
    PartDraft part;
    part.facts = &facts;
    part.first = draft.made.walls.size();
    part.walk = walk(facts, static_cast<int>(part.first) + 1, faults);
    if (part.first + part.walk.walls.size() > most_walls) {
      faults.add(Rule::too_large, facts.outline.key, "a structure has more than 400 walls",
                 "a plan with so many walls cannot be read on paper",
                 "leave out jogs that nobody treats for themselves");
      part.walk = {};
    }
    draft.made.complete = draft.made.complete && part.walk.read;
    draft.made.parts.push_back(surveyed(facts, part.walk));
    for (const WalkedWall& w : part.walk.walls) add_wall(draft, draft.parts.size(), w);
    part.count = part.walk.walls.size();
    draft.parts.push_back(std::move(part));
  }
}

void add_up(Draft& draft, Faults& faults) {
  SurveyedStructure& s = draft.made;
  Length adjoining;
  for (const Wall& w : s.walls) {
    s.drawn_outside += w.outer_length();
    s.drawn_inside += w.inside_length;
    adjoining += w.length - w.outer_length();
  }
  s.outside = s.drawn_outside;
  s.inside = s.drawn_inside;
  const Field<Measured>& taped = draft.facts->measured;
  if (!taped) return;
  if (taped->outside) s.outside = *taped->outside;
  if (taped->inside) s.inside = taped->inside->as_outside ? s.outside : taped->inside->length;
  s.inside_as_outside = taped->inside && taped->inside->as_outside;
  // What was drawn is compared only where all of it could be measured. A wall between two parts has its faces inside.
  const bool drawn =
      s.complete && std::all_of(s.parts.begin(), s.parts.end(), [](const SurveyedPart& p) { return p.sound; });
  const bool known = (taped->outside || drawn) && !taped->outside.unread() && !taped->inside.unread();
  if (!known || s.outside + adjoining >= s.inside || !(taped->outside || taped->inside)) return;
  const Span at = taped->inside ? taped->inside.at : taped->outside.at;
  faults.add(
      Rule::inside_longer, at,
      "the inside, " + soundsill::print(s.inside) + ", is longer than the outside, " + soundsill::print(s.outside),
      "the inside of walls is shorter by eight times their thickness; one of the two would be billed wrongly",
      "tape both again, or write `inside: as outside` when the company bids it so");
}

namespace {

SurveyedStructure unmeasured(const Structure& facts) {
  Draft draft;
  draft.facts = &facts;
  take_typed(draft);
  return std::move(draft.made);
}

SurveyedStructure surveyed(const Structure& facts, Faults& faults) {
  Draft draft;
  draft.facts = &facts;
  take_typed(draft);
  walk_parts(draft, faults);
  apply_wall_facts(draft, faults);
  find_shared(draft, faults);
  find_insides(draft, faults);
  find_partitions(draft, faults);
  find_slabs(draft, faults);
  add_up(draft, faults);
  place_piers(draft, faults);
  place_pilasters(draft, faults);
  check_alongs(draft, faults);
  count_seen(draft, faults);
  return std::move(draft.made);
}

}  // namespace
}  // namespace plan

const Wall* SurveyedStructure::wall(int number) const {
  const bool there = number >= 1 && static_cast<std::size_t>(number) <= walls.size();
  return there ? &walls[static_cast<std::size_t>(number) - 1] : nullptr;
}

const Pier* SurveyedStructure::pier(int number) const {
  const bool there = number >= 1 && static_cast<std::size_t>(number) <= piers.size();
  return there ? &piers[static_cast<std::size_t>(number) - 1] : nullptr;
}

const SurveyedStructure* Survey::find(std::string_view name) const {
  const auto found = std::find_if(structures.begin(), structures.end(), [&](const auto& s) { return s.name == name; });
  return found == structures.end() ? nullptr : &*found;
}

Survey measure(const Case& c, Faults& faults) {
  Survey survey;
  for (const Structure& facts : c.structures()) {
    if (facts.looked_at())
      survey.structures.push_back(plan::surveyed(facts, faults));
    else
      survey.not_inspected.push_back(plan::unmeasured(facts));
  }
  return survey;
}

}  // namespace soundsill
