// Serves listing/listing.h.
#include <fmt/core.h>

#include <algorithm>

#include "listing/listing.h"

namespace soundsill::listing {
namespace {

std::string feet(Length l) { return decimal(l.in_feet(), 1); }
std::string area(const Ratio& sqft) { return decimal(sqft, 1); }
const std::string& comma(const std::string& out) {
  static const std::string none, there = ", ";
  return out.empty() ? none : there;
}

std::string stretches(const std::vector<Stretch>& all) {
  std::string out;
  for (const Stretch& s : all) out += fmt::format("{}wall {} {} to {}", comma(out), s.wall, print(s.a), print(s.b));
  return out;
}

std::string numbers(const std::vector<int>& all) {
  std::string out;
  for (const int n : all) out += fmt::format("{}{}", comma(out), n);
  return out;
}

void parts(std::string& out, const SurveyedStructure& s) {
  for (const SurveyedPart& p : s.parts) {
    out += fmt::format("  part {}: {} walls, {} sq ft, {}\n", p.name, p.corners.size(), area(p.area_sqft),
                       yaml::word(p.foundation));
    if (p.closing_error > Length{})
      out += fmt::format("    the outline closes with {} to spare, put on the last wall\n", print(p.closing_error));
    for (std::size_t i = 0; i < p.cells.size(); ++i)
      out += fmt::format("    {} {}: {} round, {} sq ft\n", p.foundation == Foundation::basement ? "basement" : "cell",
                         i + 1, print(p.cells[i].perimeter), area(p.cells[i].area_sqft));
  }
}

std::string footing(const std::optional<Length>& from, const std::optional<Length>& to) {
  if (!from) return "-";
  return to ? print(*from) + " to " + print(*to) : print(*from);
}

void walls(std::string& out, const SurveyedStructure& s) {
  out += "  wall      outside     inside      footing outside, inside\n";
  for (const Wall& w : s.walls) {
    std::string notes;
    if (w.known_by && *w.known_by == KnownBy::assumed) notes += "   assumed";
    if (w.beside_neighbor) notes += "   beside the neighbor's house";
    if (w.shared && !w.beside_neighbor) notes += "   between two parts";
    if (!w.paved.empty()) notes += "   paved: " + stretches(w.paved);
    out += fmt::format("  {:>4}  {:>11} {:>10}      {}, {}{}\n", w.number, print(w.length), print(w.inside_length),
                       w.outer.empty() ? "-" : footing(w.footing_outside, w.footing_outside_to),
                       footing(w.footing_inside, w.footing_inside_to), notes);
  }
}

void things(std::string& out, const SurveyedStructure& s) {
  if (!s.piers.empty()) out += fmt::format("  piers: {}\n", s.piers.size());
  for (const SurveyedPartition& p : s.partitions)
    out += fmt::format("  partition {}: {} clear, {} of faces\n", p.name, print(p.clear), print(p.faces));
  for (const SurveyedPilaster& p : s.pilasters)
    out += fmt::format("  {}: {}, {} of sides\n", p.name, p.shapes.size(), print(p.sides));
  for (const SurveyedSlab& slab : s.slabs)
    out += fmt::format("  slab {}: {} sq ft, adjoins {}, {} of free edges\n", slab.name, area(slab.area_sqft),
                       slab.adjoins.empty() ? "nothing" : stretches(slab.adjoins), print(slab.free_edges));
}

void seen(std::string& out, const SurveyedStructure& s) {
  if (!s.seen_counted || s.faces_all <= Length{}) return;
  std::string rest = stretches(s.walls_not_seen);
  for (const int n : s.piers_not_seen) rest += fmt::format("{}pier {}", comma(rest), n);
  out += fmt::format("  seen from inside: {} of {} of wall faces, {} of {} piers{}\n", print(s.faces_seen),
                     print(s.faces_all), s.piers_seen, s.piers.size(), rest.empty() ? "" : "; not seen: " + rest);
}

void structure(std::string& out, const SurveyedStructure& s) {
  out += fmt::format("{}\n", s.name);
  if (!s.drawn()) {
    out += "  not drawn\n";
    return;
  }
  out += fmt::format("  outside of the walls  {:>10}   {:>8} ft\n", print(s.outside), feet(s.outside));
  out += fmt::format("  inside of the walls   {:>10}   {:>8} ft{}\n", print(s.inside), feet(s.inside),
                     s.inside_as_outside ? "   (taken as outside)" : "");
  parts(out, s);
  walls(out, s);
  things(out, s);
  seen(out, s);
}

/// What lies within the form's distance of a finding, each with its distance to the inch below.
std::string near(const SurveyedStructure& s, const resolved::Finding& f, Length reach) {
  std::string out;
  const auto put = [&](Place::Kind kind, int number, const std::string& name, const std::string& words) {
    Place place;
    place.kind = kind;
    place.number = number;
    place.name = name;
    const Length gap = distance(s, *f.typed_place, place).value_or(Length{});
    out += fmt::format("{}{} ({})", comma(out), words, print(Length::inches(gap.in_inches().floor())));
  };
  const Near found = within(s, *f.typed_place, reach);
  for (const Stretch& one : found.stretches) put(Place::Kind::wall, one.wall, {}, stretches({one}));
  for (const int n : found.piers) put(Place::Kind::pier, n, {}, fmt::format("pier {}", n));
  for (const std::size_t i : found.chimneys) {
    const std::string& name = s.chimneys[i].name;
    put(Place::Kind::chimney, 0, name, "chimney " + name);
  }
  for (const std::size_t i : found.slabs) {
    const std::string& name = s.slabs[i].name;
    put(Place::Kind::slab, 0, name, "slab " + name);
  }
  for (const PartitionStretch& one : found.partitions) {
    const std::string& name = s.partitions[one.partition].name;
    put(Place::Kind::partition, 0, name, fmt::format("partition {} {} to {}", name, print(one.a), print(one.b)));
  }
  for (const std::size_t i : found.pilasters) {
    const std::string& name = s.pilasters[i].name;
    put(Place::Kind::pilaster, 0, name, name);
  }
  return out;
}

void near_findings(std::string& out, const Basis& basis) {
  if (!basis.resolved.limits.void_reach) return;
  const Length reach = basis.resolved.limits.void_reach->value;
  for (const resolved::Finding& f : basis.resolved.findings) {
    if (!f.no || !f.typed_place || !f.structure || !f.structure->drawn()) continue;
    if (f.typed_place->kind == Place::Kind::near) continue;
    const std::string there = near(*f.structure, f, reach);
    out += fmt::format("  within {} of finding {}: {}\n", print(reach), *f.no, there.empty() ? "nothing" : there);
  }
}

std::string kind_words(const Run& run) {
  const std::string_view listed = facts(run.kind).listed;
  // Soil that is dug out, treated aside and put back: "soil outside" is then "backfill outside".
  return run.backfill ? "backfill" + std::string(listed.substr(listed.find(' '))) : std::string(listed);
}

std::string where(const Run& run) {
  std::string out = stretches(run.stretches);
  for (const int p : run.piers) out += fmt::format("{}pier {}", comma(out), p);
  for (const std::string& n : run.names) out += comma(out) + n;
  return out;
}

/// How much there is: feet, else square feet, cubic feet, or pieces.
std::string amount(const Run& run) {
  if (run.length > Length{}) return feet(run.length) + " ft";
  if (const RunSize size = facts(run.kind).size; size == RunSize::volume || size == RunSize::thousands)
    return shortest(run.cu_ft, 2) + " cu ft";
  if (run.sq_ft > Ratio(0)) return area(run.sq_ft) + " sq ft";
  return std::to_string(run.count);
}

std::string depth(const Run& run) {
  if (run.depth <= Length{}) return "-";
  return run.depth_to ? print(run.depth) + "-" + print(*run.depth_to) : print(run.depth);
}

std::string clock(const Ratio& seconds) {
  const std::int64_t s = seconds.rounded();
  return s < 120 ? fmt::format("{} s", s) : fmt::format("{}:{:02} min", s / 60, s % 60);
}

void explained(std::string& out, const Run& r) {
  const auto line = [&](const std::string& text) { out += fmt::format("         {}\n", text); };
  line("= " + r.working.in_english());
  if (const std::string places = where(r); !places.empty()) line("on " + places);
  if (!r.gaps.empty()) line("no station where paving leaves no soil: " + stretches(r.gaps));
  if (r.rod_gallons > Ratio(0)) {
    line(fmt::format("trench {} gal, half before the backfill and half with it; rodded {} gal in {} holes",
                     decimal(r.trench_gallons, 1), decimal(r.rod_gallons, 1), r.rod_holes));
  } else if (is_soil(r.kind) && !r.backfill && facts(r.kind).size == RunSize::feet) {
    line(fmt::format("trench {} gal, half before the backfill and half with it", decimal(r.trench_gallons, 1)));
  }
  if (r.holes > 0)
    line(fmt::format("{} gal a hole{}", decimal(r.gallons / Ratio(r.holes), 2),
                     r.from_wall > Length{} ? ", " + print(r.from_wall) + " from the wall" : std::string()));
  if (r.timed && r.minutes > Ratio(0))
    line(fmt::format("{}{} min of one person = {}",
                     r.pump_seconds > Ratio(0) ? "pumped in " + clock(r.pump_seconds) + "; " : "",
                     decimal(r.minutes, 1), r.time_working));
  for (const std::string& s : r.sources) line(s);
  if (r.timed) line("pace and flow: the company's crew");
}

void mix(std::string& out, const Mix& m, bool explain) {
  out += fmt::format("  mix: {} fl oz of {} for {} gal{}", decimal(m.fl_oz, 1), m.product->name.value_or(""),
                     decimal(m.gallons, 1), m.strength == 2 ? ", double strength" : "");
  out += explain ? fmt::format("   = {}\n", m.working) : "\n";
  for (std::size_t i = 0; i < m.loads.size(); ++i)
    out += fmt::format("    load {}: {} gal with {} fl oz in {} gal of water\n", i + 1, decimal(m.loads[i].gallons, 1),
                       shortest(m.loads[i].exact, 2), decimal(m.loads[i].water, 2));
  for (const auto& [size, count] : m.packages)
    out += fmt::format("    bring {} x {} fl oz\n", count, shortest(size, 2));
  if (m.active_lb && explain)
    out += fmt::format("    holds {} lb of {}\n", shortest(*m.active_lb, 3), m.product->active_ingredient.value_or(""));
  if (!m.packages.empty())
    out += fmt::format("    uses {} packages of {} fl oz{}\n", shortest(m.packages_used, 2),
                       shortest(m.packages.front().first, 2), m.cost ? ", " + print(*m.cost) + " of product" : "");
}

void tasks(std::string& out, const Treatment& t) {
  for (const Task& task : t.tasks)
    if (task.minutes > Ratio(0))
      out += fmt::format("  {}: {} min of one person\n", task.line->id, decimal(task.minutes, 1));
}

std::string signed_(const std::string& text, bool negative) { return (negative ? "-" : "+") + text; }

void would_change(std::string& out, const Otherwise& o) {
  using What = Otherwise::What;
  std::string what = o.what == What::piers ? "pier " + numbers(o.numbers)
                     : !o.name.empty()     ? o.name
                     : o.numbers.empty()   ? std::string("walls")
                                           : "wall " + numbers(o.numbers);
  const bool deeper = o.step > Length{};
  what += o.what == What::void_solid ? " solid, not hollow"
          : o.what == What::slab_empty
              ? ": nothing under it"
              : ": footing " + print(deeper ? o.step : -o.step) + (deeper ? " deeper" : " less deep");
  if (!o.changes()) {
    out += fmt::format("    {}: no change\n", what);
    return;
  }
  const bool less = o.gallons < Ratio(0), cheaper = o.amount.cents < 0;
  out += fmt::format("    {}: {} gal, {}{}\n", what, signed_(decimal(less ? Ratio(0) - o.gallons : o.gallons, 1), less),
                     signed_(print(Money{cheaper ? -o.amount.cents : o.amount.cents}), cheaper),
                     o.holes ? fmt::format(", {}{} holes", o.holes > 0 ? "+" : "", o.holes) : std::string{});
}

void treatment(std::string& out, const Treatment& t, const std::vector<Otherwise>& others, bool explain) {
  out += fmt::format("\noption {}\n", t.id);
  if (t.runs.empty()) {
    out += "  no run of ours\n";
    return;
  }
  out += "  run  what                 line             amount      depth     holes   gallons\n";
  for (const Run& r : t.runs) {
    out += fmt::format("  {:>3}  {:<19}  {:<12} {:>11}  {:>9}  {:>8}  {:>8}{}\n", r.number, kind_words(r), r.work,
                       amount(r), depth(r), r.holes ? std::to_string(r.holes) : "-",
                       r.gallons > Ratio(0) ? decimal(r.gallons, 1) : "-",
                       r.entered_each && r.gallons != r.computed_gallons
                           ? fmt::format("   entered; computed {}", decimal(r.computed_gallons, 1))
                           : std::string{});
    if (explain) explained(out, r);
  }
  out += fmt::format("  sum                                                           {:>8}  {:>8}\n", t.holes,
                     decimal(t.gallons, 1));
  for (const Mix& m : t.mixes) mix(out, m, explain);
  if (explain) tasks(out, t);
  if (t.timed)
    out +=
        fmt::format("  time: {} min of one person, {} crew hours\n", decimal(t.minutes, 1), decimal(t.crew_hours, 2));
  if (others.empty()) return;
  out += "  what is assumed, if it were otherwise:\n";
  for (const Otherwise& o : others) would_change(out, o);
}

}  // namespace

std::string measures_text(const Measures& m, bool explain) {
  std::string out;
  for (const SurveyedStructure& s : m.basis.survey.structures) structure(out, s);
  near_findings(out, m.basis);
  for (std::size_t i = 0; i < m.treatments.size(); ++i)
    treatment(out, m.treatments[i],
              i < m.estimates.size() ? otherwise(m.basis, m.treatments[i], m.estimates[i]) : std::vector<Otherwise>{},
              explain);
  return out.empty() ? "there is nothing to measure\n" : out;
}

std::string tally(std::size_t errors, std::size_t warnings) {
  return fmt::format("{} error{}, {} warning{}", errors, errors == 1 ? "" : "s", warnings, warnings == 1 ? "" : "s");
}

}  // namespace soundsill::listing
