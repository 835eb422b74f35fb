// Serves resolved/fill.h: findings by their numbers, each with its place on the plan.
#include "resolved/fill.h"

namespace soundsill::resolved {
namespace {

Finding taken(const soundsill::Finding& typed, const Trade& trade, const Survey& survey) {
  Finding out;
  out.no = value(typed.no);
  out.kind = value(typed.kind);
  out.in = text(typed.in);
  if (typed.in)
    out.structure = survey.find(*typed.in);
  else if (survey.structures.size() == 1)
    out.structure = &survey.structures.front();
  out.typed_place = value(typed.place);
  out.where = text(typed.where);
  out.organism_name = text(typed.organism);
  out.organism = typed.organism ? trade.organism(*typed.organism) : nullptr;
  out.condition_name = text(typed.condition);
  out.condition = typed.condition ? trade.condition(*typed.condition) : nullptr;
  out.state = value(typed.state);
  out.live_seen = typed.live_seen.value_or(false);
  out.basis = items(typed.basis);
  out.signs = items(typed.signs);
  if (const auto& e = typed.earlier_treatment)
    out.earlier_treatment =
        EarlierTreatment{e->visible.value_or(false), static_cast<bool>(e->visible), text(e->papers), e->at};
  out.damage_seen = value(typed.damage_seen);
  out.holes = value(typed.holes);
  for (const soundsill::Reading& r : items(typed.moisture))
    out.moisture.push_back({text(r.where), value(r.percent), r.at, r.percent.at});
  out.wood = text(typed.wood);
  out.visit = text(typed.visit);
  out.photos = photos(typed.photos);
  out.typed = &typed;
  return out;
}

void take_spans(const soundsill::Finding& typed, Finding& out) {
  out.at = typed.at;
  out.no_at = typed.no.at;
  out.kind_at = typed.kind.at;
  out.in_at = typed.in.at;
  out.place_at = typed.place.at;
  out.organism_at = typed.organism.at;
  out.condition_at = typed.condition.at;
  out.state_at = typed.state.at;
  out.live_seen_at = typed.live_seen.at;
  out.visit_at = typed.visit.at;
}

std::optional<Place> looked_up(const Resolved& all, const SurveyedStructure& s, const Place& place, int steps) {
  if (place.kind != Place::Kind::near) return missing(s, place).empty() ? std::optional(place) : std::nullopt;
  const Finding* other = steps > 0 ? all.finding(place.number) : nullptr;
  return other && other->typed_place ? looked_up(all, s, *other->typed_place, steps - 1) : std::nullopt;
}

}  // namespace

void fill_findings(const Case& c, const Trade& trade, const Survey& survey, Resolved& out) {
  for (const soundsill::Finding& typed : items(c.findings)) {
    out.findings.push_back(taken(typed, trade, survey));
    take_spans(typed, out.findings.back());
  }
  constexpr int most_steps = 20;  // `near 2` may lead to a finding that is `near 1`, and round in a circle
  for (Finding& f : out.findings) {
    if (!f.structure || !f.typed_place) continue;
    f.place = looked_up(out, *f.structure, *f.typed_place, most_steps);
    if (!f.place) continue;
    f.shapes = shapes_of(*f.structure, *f.place);
    f.point = locate(*f.structure, *f.place);
  }
}

const Finding* Resolved::finding(int number) const {
  for (const Finding& f : findings)
    if (f.no && *f.no == number) return &f;
  return nullptr;
}

}  // namespace soundsill::resolved
