// Wells, ducts, plenums and what else must not come in touch with a treatment.
#include <algorithm>

#include "rules/cover.h"

namespace soundsill::rules {
namespace {

std::string named(const Structure& s) { return s.name ? quoted(*s.name) : "this structure"; }

/// Lines of ours that treat in a structure and are offered, each once.
std::vector<const Work*> treating(const Papers& papers, const Field<std::string>& structure, const Faults& faults) {
  std::vector<const Work*> out;
  for (const Offer& offer : offers(papers, faults))
    for (const Work* work : offer.lines) {
      const bool here = structure && treats(papers, *work) && structure_of(papers, *work) == *structure;
      if (here && std::find(out.begin(), out.end(), work) == out.end()) out.push_back(work);
    }
  return out;
}

std::vector<std::string_view> unsaid(const Structure& s) {
  std::vector<std::string_view> out;
  const Dangers nothing;
  for (const auto& [key, field] : (s.dangers ? *s.dangers : nothing).all())
    if (!field->written()) out.push_back(key);
  return out;
}

}  // namespace

void danger_unsaid(const Papers& papers, Faults& faults) {
  for (const Structure& s : papers.basis.c.structures()) {
    if (!s.looked_at() || s.inspected.unread() || s.dangers.unread()) continue;
    const auto keys = unsaid(s);
    if (keys.empty()) continue;
    std::string fix = "write a place, `none` or `not known` for each: ";
    for (const auto& key : keys) fix += (&key == &keys.front() ? "`" : ", ") + std::string(key) + ": ...";
    const std::string count =
        keys.size() == 1 ? quoted(keys.front()) + " is" : std::to_string(keys.size()) + " dangers are";
    faults.add(Rule::danger_unsaid, first_of({s.dangers.key, s.name.at, s.at}), count + " not answered for " + named(s),
               "the crew would take what nobody asked about for safe, and treat into water or air", fix + "`");
  }
}

namespace {

void not_known(const Structure& s, const std::vector<const Work*>& lines, Faults& faults) {
  for (const auto& [key, field] : s.dangers->all()) {
    if (!*field || (*field)->kind != Answer::Kind::not_known) continue;
    faults.add({Rule::danger_unknown,
                field->at,
                quoted(key) + " is not known at " + named(s) + ", and " + said(*lines.front()) + " treats there",
                "nobody may be sold a treatment where this danger is not ruled out",
                "find out, then write its place or `none`",
                {{lines.front()->does.at, "this line treats there"}}});
  }
}

std::vector<const Mark*> wells(const Structure& s) {
  std::vector<const Mark*> out;
  for (const Mark& mark : items(s.marks))
    if (mark.kind && *mark.kind == MarkKind::well) out.push_back(&mark);
  return out;
}

bool marks_read(const Structure& s) {
  const auto& marks = items(s.marks);
  return !s.marks.unread() &&
         std::all_of(marks.begin(), marks.end(), [](const Mark& m) { return static_cast<bool>(m.kind); });
}

}  // namespace

void danger_unknown(const Papers& papers, Faults& faults) {
  for (const Structure& s : papers.basis.c.structures()) {
    const auto lines = treating(papers, s.name, faults);
    if (!s.dangers || lines.empty()) continue;
    not_known(s, lines, faults);
    const auto& well = s.dangers->well;
    const Datum<Length>* none = limit(papers, &Limits::well_none);
    if (!well || well->kind != Answer::Kind::there || !wells(s).empty() || !marks_read(s)) continue;
    faults.add({Rule::danger_unknown,
                well.at,
                "there is a `well` at " + named(s) + ", and the plan does not show where",
                "its distance from the treated soil cannot be measured" + (none ? cited(none->cite) : ""),
                "add `{kind: well, at: [..., ...]}` to `marks:`",
                {{lines.front()->does.at, "this line treats there"}}});
  }
}

void danger_contradicted(const Papers& papers, Faults& faults) {
  for (const Structure& s : papers.basis.c.structures()) {
    if (!s.dangers) continue;
    for (const Mark& mark : items(s.marks)) {
      if (!mark.kind) continue;
      const std::string_view kind = yaml::word(*mark.kind);
      for (const auto& [key, field] : s.dangers->all()) {
        const bool same = key == kind || (key == "edible beds" && *mark.kind == MarkKind::edible_bed) ||
                          (key == "lines" && (*mark.kind == MarkKind::water_line || *mark.kind == MarkKind::gas_line));
        if (!same || !*field || (*field)->kind != Answer::Kind::none) continue;
        faults.add({Rule::danger_contradicted,
                    field->at,
                    quoted(key) + " is `none`, and the plan of " + named(s) + " shows one",
                    "the crew would not know which to believe",
                    "write where it is, or take it off the plan",
                    {{mark.kind.at, "it is drawn here"}}});
      }
    }
  }
}

void slab_not_drilled(const Papers& papers, Faults& faults) {
  for (const Structure& s : papers.basis.c.structures()) {
    if (!s.dangers) continue;
    for (const Work* work : treating(papers, s.name, faults)) {
      if (!treats(papers, *work, Takes::slab)) continue;
      const std::pair<std::string_view, const Field<Answer>*> steel[] = {
          {"post-tension slab", &s.dangers->post_tension}, {"heated slab", &s.dangers->heated_slab}};
      for (const auto& [key, field] : steel)
        if (*field && (*field)->kind == Answer::Kind::there)
          faults.add({Rule::slab_not_drilled,
                      work->does.at,
                      said(*work) + " drills at " + named(s) + ", which has a " + std::string(key),
                      "a drill that meets steel under tension or a heating pipe hurts people and the house",
                      "treat another way, or waive it: take " + said(*work) + " out of the option",
                      {{field->at, "it is answered here"}}});
    }
  }
}

namespace {

struct Distance {
  const Datum<Length>* limit;
  const char* why;
};

/// Outside soil that a line treats.
std::vector<Stretch> outside_soil(const Papers& papers, const Work& work, const SurveyedStructure& s) {
  if (!treats(papers, work, Takes::soil) || work.sides.value_or(Sides::both) == Sides::inside) return {};
  return left_of(cover_of(papers, work, s).walls, beside_slabs(s));
}

bool well_near(const Papers& papers, const SurveyedStructure& s, const Mark& well, const Place& place,
               const Distance& d, Faults& faults) {
  if (!d.limit) return false;
  // Exactly on the limit is within, but a wall that is touched in one point only has no stretch: hence 1/16 in more.
  const auto near = within(s, place, *d.limit->value + Length{1}).stretches;
  for (const Work* line : treating(papers, s.facts->name, faults)) {
    const Work& work = *line;
    const auto touched = shared_by(near, outside_soil(papers, work, s));
    if (touched.empty()) continue;
    faults.add({Rule::danger_near,
                first_of({well.at_point.at, well.along.at, well.at}),
                "this well lies within " + print(*d.limit->value) + " of soil that " + said(work) + " treats",
                d.why + (": " + walls_said(s, touched)) + cited(d.limit->cite),
                "leave that stretch out of " + said(work),
                {{work.does.at, "this line treats there"}}});
    return true;
  }
  return false;
}

}  // namespace

void danger_near(const Papers& papers, Faults& faults) {
  const Distance none{limit(papers, &Limits::well_none), "nothing may be treated so near to water"};
  const Distance backfill{limit(papers, &Limits::well_backfill),
                          "so near to water soil may only be dug out, treated aside and put back"};
  for (const SurveyedStructure& s : papers.basis.survey.structures)
    for (const Mark* well : wells(*s.facts)) {
      Place place;
      if (well->at_point)
        place.point = *well->at_point;
      else if (well->along)
        place = *well->along;
      else
        continue;
      if (!well_near(papers, s, *well, place, none, faults)) well_near(papers, s, *well, place, backfill, faults);
    }
}

}  // namespace soundsill::rules
