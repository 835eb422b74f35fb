// Serves aftersale/papers.h. The work order: one sheet for gloves. Dangers first, then the drawing, the runs, the
// holes, the mix.
#include <algorithm>

#include "aftersale/after_builder.h"

namespace soundsill::document {

using F = Words::Fill;
using soundsill::RunKind;

namespace {

/// Feet from a well to the nearest soil that is treated, with the run.
struct WellNear {
  const soundsill::Run* run = nullptr;
  Length distance;
};
std::optional<WellNear> nearest(const WorkOrder& w, const SurveyedStructure& s, const SurveyedMark& well) {
  std::vector<std::vector<Point>> shape;
  if (well.point) shape = {{*well.point}};
  if (well.along && !well.point) shape = shapes_of(s, *well.along);
  const Length width = resolved::value_of(w.b.house.limits.trench_width);
  std::optional<WellNear> out;
  for (const auto& run : w.t.runs) {
    if (run.structure != s.name) continue;
    const auto gap = distance(shape, soil_of(s, run, width));
    if (gap && (!out || *gap < out->distance)) out = WellNear{&run, *gap};
  }
  return out;
}

void wells(const WorkOrder& w, std::vector<Runs>& out) {
  const Builder& b = w.b;
  for (const SurveyedStructure& s : b.in.basis.survey.structures)
    for (const SurveyedMark& mark : s.marks) {
      if (!mark.kind || *mark.kind != MarkKind::well) continue;
      const auto near = nearest(w, s, mark);
      if (!near) continue;
      const Length none =
          well_limit(b.in.basis.form.told, near->run->product, &Limits::well_none, &soundsill::Label::well_none);
      const Length aside = well_limit(b.in.basis.form.told, near->run->product, &Limits::well_backfill,
                                      &soundsill::Label::well_backfill);
      out.push_back(
          text(b.say(Word::wo_well, F{"name", capitalized(mark.name.empty() ? b.words.name("well") : mark.name)},
                     F{"distance", b.words.shown(near->distance)}, F{"run", std::to_string(near->run->number)},
                     F{"none", b.words.shown(none)}, F{"backfill", b.words.shown(aside)})));
    }
}

/// What the crew does about a danger that is there.
std::optional<Word> advice(std::string_view key) {
  constexpr std::pair<std::string_view, Word> all[] = {{"well", Word::wo_do_well},
                                                       {"cistern", Word::wo_do_water},
                                                       {"pond", Word::wo_do_water},
                                                       {"drain", Word::wo_do_drain},
                                                       {"ducts in slab", Word::wo_do_duct},
                                                       {"plenum", Word::wo_do_plenum},
                                                       {"radon pipe", Word::wo_do_radon},
                                                       {"lines", Word::wo_do_lines},
                                                       {"post-tension slab", Word::wo_do_slab},
                                                       {"heated slab", Word::wo_do_slab},
                                                       {"edible beds", Word::wo_do_beds},
                                                       {"blooming plants", Word::wo_do_bloom},
                                                       {"sensitive occupants", Word::wo_do_people}};
  for (const auto& [name, word] : all)
    if (name == key) return word;
  return std::nullopt;
}

bool any_run(const Treatment& t, bool (*which)(RunKind)) {
  return std::any_of(t.runs.begin(), t.runs.end(), [&](const auto& run) { return which(run.kind); });
}
bool within_crawl(const Builder& b, const Treatment& t) {
  for (const auto& run : t.runs)
    if (const SurveyedStructure* s = b.in.basis.survey.find(run.structure))
      for (const SurveyedPart& part : s->parts)
        if (part.foundation == Foundation::crawl_space || part.foundation == Foundation::piers) return true;
  return false;
}

}  // namespace

void WorkOrder::dangers(std::vector<Block>& blocks) const {
  blocks.push_back(Heading{2, "dangers", text(b.say(Word::wo_dangers_heading)), true});
  List list;
  wells(*this, list.items);
  bool traps = false;
  for (const Structure& structure : b.house.structures) {
    const SurveyedStructure& s = *structure.details;
    for (const SurveyedDanger& danger : s.dangers) {
      if (!danger.answer || danger.answer->kind != Answer::Kind::there) continue;
      Runs words = strong(b.structure_prefix(s.name) +
                          b.say(Word::danger_there, F{"danger", b.words.name(danger.key)},
                                F{"places", in_words(b.words, danger.answer->places)}) +
                          ".");
      if (const auto what = advice(danger.key)) words.push_back({" " + b.say(*what), document::Run::Look::plain, {}});
      list.items.push_back(std::move(words));
    }
    if (s.ground && (*s.ground == Ground::saturated || *s.ground == Ground::frozen || *s.ground == Ground::moist))
      list.items.push_back(text(b.say(Word::wo_ground, F{"ground", b.words.name(yaml::word(*s.ground))})));
    for (const SurveyedMark& m : s.marks) traps = traps || m.kind == MarkKind::bath_trap;
  }
  if (traps) list.items.push_back(text(b.say(Word::wo_do_trap)));
  const bool soil = any_run(t, &is_soil), drilled = any_run(t, &is_drilled);
  if (soil || drilled) {
    list.items.push_back(text(b.say(Word::wo_rain)));
    list.items.push_back(text(b.say(Word::wo_seepage)));
    list.items.push_back(text(b.say(Word::wo_neighbors)));
    if (const auto line = printed_value(b.in.basis.form.locate_line))
      list.items.push_back(text(b.say(Word::wo_locate, F{"number", *line})));
  }
  if (drilled) list.items.push_back(text(b.say(Word::wo_silica)));
  if (within_crawl(b, t)) list.items.push_back(text(b.say(Word::wo_crawl)));
  const bool air =
      std::any_of(t.runs.begin(), t.runs.end(), [](const auto& r) { return r.kind == RunKind::air_volume; });
  if (air) list.items.push_back(text(b.say(Word::wo_air)));
  list.items.push_back(text(b.say(Word::wo_label)));
  blocks.emplace_back(std::move(list));
  held_back(blocks);
}

void WorkOrder::bring(std::vector<Block>& blocks) const {
  const bool soil = any_run(t, &is_soil), drilled = any_run(t, &is_drilled);
  std::vector<std::string> tools{b.say(Word::wo_tools_always)};
  const auto bring_once = [&](std::string tool) {  // two runs may need the same
    if (std::find(tools.begin(), tools.end(), tool) == tools.end()) tools.push_back(std::move(tool));
  };
  if (soil) bring_once(b.say(Word::wo_tools_soil));
  if (drilled) bring_once(b.say(Word::wo_tools_drill));
  for (const auto& run : t.runs) {
    if (run.kind == RunKind::stations) bring_once(b.say(Word::wo_tools_stations, F{"n", std::to_string(run.count)}));
    if (run.kind == RunKind::crawl_cover) bring_once(b.say(Word::wo_tools_sheet, F{"area", shortest(run.sq_ft, 1)}));
    if (run.kind == RunKind::air_volume) bring_once(b.say(Word::wo_tools_heat));
    if (run.kind == RunKind::wood_surface || run.kind == RunKind::wood_volume) bring_once(b.say(Word::wo_tools_wood));
  }
  blocks.push_back(Heading{2, "bring", text(b.say(Word::wo_bring_heading)), true});
  List list;
  for (const std::string& one : tools) list.items.push_back(text(one));
  list.items.push_back(text(b.say(Word::wo_gear)));
  list.items.push_back(text(b.say(Word::wo_spill)));
  blocks.emplace_back(std::move(list));
}

void WorkOrder::photos(std::vector<Block>& blocks) const {
  blocks.push_back(Heading{2, "photos", text(b.say(Word::wo_photos_heading)), true});
  List list;
  for (const Finding& f : b.house.findings)
    if (f.no && f.kind && !f.is(FindingKind::condition))
      list.items.push_back(
          text(b.say(Word::wo_photo_finding, F{"number", std::to_string(*f.no)}, F{"where", b.place_of(f)})));
  if (!t.runs.empty()) list.items.push_back(text(b.say(Word::wo_photo_work)));
  list.items.push_back(text(b.say(Word::wo_photo_meter)));
  blocks.emplace_back(std::move(list));
}

void WorkOrder::calls(std::vector<Block>& blocks) const {
  blocks.push_back(Heading{2, "calls", text(b.say(Word::wo_calls_heading)), true});
  FactList list{b, {}};
  list.out.columns = 2;
  const Company& company = b.in.basis.company;
  list.put(Word::wo_call_office,
           b.say(Word::call, F{"name", company.name.value_or("")}, F{"phone", company.phone.value_or("")}));
  const auto phone = [&](const resolved::Person& p) {
    return !p.named() || p.phone.empty() ? p.name : b.say(Word::call, F{"name", p.name}, F{"phone", p.phone});
  };
  const resolved::People& people = b.house.people;
  list.put(Word::wo_call_inspector, phone(people.inspector));
  list.put(Word::wo_call_owner, phone(people.owner.named() ? people.owner : people.seller));
  list.put(Word::wo_call_poison, printed_value(b.in.basis.form.poison_center).value_or(""));
  list.put(Word::wo_call_emergency, b.say(Word::wo_emergency));
  blocks.emplace_back(std::move(list.out));
  blocks.push_back(Paragraph{"caution", text(b.say(Word::wo_first_aid))});
  if (b.house.job && !b.house.job->notes.empty()) {
    blocks.push_back(Heading{2, "notes", text(b.say(Word::wo_notes_heading)), true});
    List notes;
    for (const std::string& note : b.house.job->notes) notes.items.push_back(text(note));
    blocks.emplace_back(std::move(notes));
  }
}

namespace {

void signing(const Builder& b, std::vector<Block>& blocks) {
  Signatures s;
  s.name_label = b.say(Word::sign_name);
  s.date_label = b.say(Word::sign_date);
  s.lines.push_back({text(b.say(Word::wo_sign)), b.say(Word::wo_who), {}, {}});
  blocks.emplace_back(std::move(s));
}

/// A house alone is drawn even where the crew does nothing that has a place on the plan.
Section plan(const Builder& b, const Treatment& t) {
  Section out{"drawing", "drawing", {}};
  const auto where = b.in.basis.survey.structures.size() > 1 ? Plans::worked_on : Plans::all;
  plans(b, t, where, Word::wo_drawing_alt, Word::wo_drawing_caption, out.blocks);
  return out;
}

}  // namespace

Document work_order(const PacketInput& in) {
  const Builder b{in};
  Document out = begun(b, "work-order", Word::wo_title);
  const auto& job = b.house.job;
  if (job && job->on) out.created = print(*job->on);
  const Treatment* t = b.main_treatment();
  if (!t || in.estimates.empty()) return out;
  const WorkOrder w{b, *t};
  Section first{"head", "head", {}};
  first.blocks.push_back(Heading{1, "top", text(in.words.say(Word::wo_title)), true});
  first.blocks.push_back(Paragraph{"lead", text(b.address_line())});
  first.blocks.emplace_back(w.head());
  if (Figures figures = w.figures(); !figures.figures.empty()) first.blocks.emplace_back(std::move(figures));
  out.sections.push_back(std::move(first));
  Section safety{"dangers", "before", {}};
  w.dangers(safety.blocks);
  out.sections.push_back(std::move(safety));
  out.sections.push_back(plan(b, *t));
  Section work{"runs", "work", {}};
  w.dig_first(work.blocks);
  w.mixing(work.blocks);
  w.runs(work.blocks);
  w.drill_list(work.blocks);
  out.sections.push_back(std::move(work));
  Section end{"end", "end", {}};
  w.other_work(end.blocks);
  w.bring(end.blocks);
  w.photos(end.blocks);
  w.calls(end.blocks);
  signing(b, end.blocks);
  out.sections.push_back(std::move(end));
  return out;
}

}  // namespace soundsill::document
