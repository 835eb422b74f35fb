// Serves rules/each.h. Wells, ducts, plenums and what else must not come in touch with a treatment.
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

void ground_unfit(const Papers& papers, Faults& faults) {
  for (const Structure& s : papers.basis.c.structures()) {
    if (!s.ground || (*s.ground != Ground::saturated && *s.ground != Ground::frozen)) continue;
    for (const Work* work : treating(papers, s.name, faults))
      if (treats(papers, *work, Takes::soil)) {
        faults.add({Rule::ground_unfit,
                    s.ground.at,
                    "the soil of " + named(s) + " was " + std::string(yaml::word(*s.ground)) + ", and " + said(*work) +
                        " treats it",
                    "labels forbid treating saturated or frozen soil: the mix runs off instead of binding",
                    "tell the buyer that treatment waits until the soil is fit",
                    {{work->does.at, "this line treats it"}}});
        break;
      }
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

namespace {

/// Lines that drill through slabs, along walls or over the whole.
std::vector<const Work*> drilling(const Papers& papers, const Structure& s, const Faults& faults) {
  std::vector<const Work*> out;
  for (const Offer& offer : offers(papers, faults))
    for (const Work* work : offer.lines) {
      const Method* method = method_of(papers, *work);
      const bool drills =
          method && method->takes && (*method->takes == Takes::slab || *method->takes == Takes::under_slab);
      if (drills && work->who() == By::us && s.name && structure_of(papers, *work) == *s.name &&
          std::find(out.begin(), out.end(), work) == out.end())
        out.push_back(work);
    }
  return out;
}

}  // namespace

void slab_not_drilled(const Papers& papers, Faults& faults) {
  for (const Structure& s : papers.basis.c.structures()) {
    if (!s.dangers) continue;
    for (const Work* work : drilling(papers, s, faults)) {
      const std::pair<std::string_view, const Field<Answer>*> steel[] = {
          {"post-tension slab", &s.dangers->post_tension},
          {"heated slab", &s.dangers->heated_slab},
          {"duct in or under the slab", &s.dangers->ducts_in_slab}};
      for (const auto& [key, field] : steel)
        if (*field && (*field)->kind == Answer::Kind::there)
          faults.add({Rule::slab_not_drilled,
                      work->does.at,
                      said(*work) + " drills at " + named(s) + ", which has a " + std::string(key),
                      "a drill that meets steel under tension, a heating pipe or a duct hurts people and the house",
                      "treat another way, or waive it: take " + said(*work) + " out of the option",
                      {{field->at, "it is answered here"}}});
    }
  }
}

namespace {

/// What is kept from a well in one way: nothing at all, or backfill only.
struct Keep {
  bool nothing;
  Field<Datum<Length>> Limits::*by_form;
  Field<Length> Label::*by_label;
};
constexpr Keep keep_off{true, &Limits::well_none, &Label::well_none};
constexpr Keep keep_aside{false, &Limits::well_backfill, &Label::well_backfill};

struct Close {
  const Run* run = nullptr;
  Length distance, most;
};

/// The nearest soil that a run of an offered line treats nearer than it may, counted over every option. `limits` are
/// all of the form's, or those that may stop a paper; the label counts either way.
std::optional<Close> nearest_soil(const Papers& papers, const SurveyedStructure& s,
                                  const std::vector<std::vector<Point>>& well, const Keep& keep, const Limits& limits) {
  std::optional<Close> out;
  const Datum<Length>* width = rules::limit(papers, &Limits::trench_width);
  for (const Treatment& t : papers.treatments)
    for (const Run& run : t.runs) {
      if (run.structure != s.name || (run.backfill && !keep.nothing)) continue;
      const Length most = well_limit(limits, run.product, keep.by_form, keep.by_label);
      const auto gap = distance(well, soil_of(s, run, width ? *width->value : Length{}));
      if (gap && *gap <= most && most > Length{} && (!out || *gap < out->distance)) out = Close{&run, *gap, most};
    }
  return out;
}

const Work* line_of(const Papers& papers, const Run& run) {
  for (const Work& work : items(papers.basis.c.work))
    if (work.id && *work.id == run.work) return &work;
  return nullptr;
}

/// A breach of one distance from a well, and what it rests on.
struct Breach : Close {
  const Keep* keep = nullptr;
  const Limits* limits = nullptr;
  Rests rests = Rests::read;
};

/// What is broken of distances that may stop a paper, else of those that nobody has read; keeping clear comes first. A
/// distance that was read is told even where a longer one, that nobody has read, is broken too.
std::vector<Breach> closest(const Papers& papers, const SurveyedStructure& s,
                            const std::vector<std::vector<Point>>& well) {
  const Form& form = papers.basis.form;
  const Limits* all = form.limits ? &*form.limits : &form.firm;
  std::vector<Breach> out;
  for (const auto& [limits, rests] : {std::pair{&form.firm, Rests::read}, std::pair{all, Rests::unread}})
    for (const Keep* keep : {&keep_off, &keep_aside}) {
      const auto close = nearest_soil(papers, s, well, *keep, *limits);
      if (!close) continue;
      // The same distance again, or a gentler one, is the same cause.
      const bool told = std::any_of(out.begin(), out.end(), [&](const Breach& b) {
        return b.keep->nothing || (b.keep == keep && b.most >= close->most);
      });
      if (!told) out.push_back({*close, keep, limits, rests});
    }
  return out;
}

std::string on(const SurveyedStructure& s, const Run& run, const std::vector<std::vector<Point>>& well,
               Length within_) {
  std::vector<Stretch> near;
  for (const auto& shape : well)
    for (const Point& p : shape) {
      Place place;
      place.point = p;
      for (const Stretch& one : within(s, place, within_).stretches) near.push_back(one);
    }
  auto touched = shared_by(joined(std::move(near)), run.stretches);
  for (Stretch& one : touched) {  // outward to whole inches: nobody leaves out a sixteenth
    const Wall* wall = s.wall(one.wall);
    one.a = std::max(Length::inches(one.a.in_inches().floor()), Length{});
    one.b = std::min(Length::inches(one.b.in_inches().ceil()), wall ? wall->length : one.b);
  }
  return touched.empty() ? std::string() : ": " + walls_said(s, touched);
}

}  // namespace

void danger_near(const Papers& papers, Faults& faults) {
  const std::string_view method = [&]() -> std::string_view {
    for (const Method& m : items(papers.basis.trade.methods))
      if (m.name && m.takes && *m.takes == Takes::backfill) return *m.name;
    return "the backfill method";
  }();
  // A wall that is touched in one point only has no stretch, but exactly on the limit is within: hence 1/16 in more.
  const Datum<Length>* width = limit(papers, &Limits::trench_width);
  for (const SurveyedStructure& s : papers.basis.survey.structures)
    for (const Mark* well : wells(*s.facts)) {
      std::vector<std::vector<Point>> shape;
      if (well->at_point) shape = {{*well->at_point}};
      if (well->along && !well->at_point) shape = shapes_of(s, *well->along);
      for (const auto& close : closest(papers, s, shape)) {
        const Work* work = line_of(papers, *close.run);
        if (!work) continue;
        const Keep& keep = *close.keep;
        const auto& by_form = (*close.limits).*keep.by_form;
        const bool label = !by_form || !by_form->value || close.most > *by_form->value;
        faults.add({Rule::danger_near,
                    first_of({well->at_point.at, well->along.at, well->at}),
                    "this well lies " + print(close.distance) + " from soil that " + said(*work) + " treats; " +
                        print(close.most) + (keep.nothing ? " is kept clear" : " is for backfill only"),
                    (keep.nothing ? "nothing may be treated so near to water"
                                  : "so near to water soil may only be dug out, treated aside and put back") +
                        on(s, *close.run, shape, close.most + (width ? *width->value : Length{}) + Length{1}) +
                        (label ? " (the product's label)" : cited(by_form->cite)),
                    keep.nothing ? "leave that stretch out of " + said(*work)
                                 : "take that stretch out of " + said(*work) + " into a line that does `" +
                                       std::string(method) + "`",
                    {{work->does.at, "this line treats there"}},
                    close.rests});
      }
    }
}

}  // namespace soundsill::rules
