#include <fmt/core.h>

#include <algorithm>

#include "listing/listing.h"

namespace soundsill::listing {
namespace {

std::string feet(Length l) { return decimal(l.in_feet(), 1); }

void structure(std::string& out, const SurveyedStructure& s) {
  out += fmt::format("{}\n", s.name);
  if (!s.drawn()) {
    out += "  not drawn\n";
    return;
  }
  out += fmt::format("  outside of the walls  {:>10}   {:>8} ft\n", print(s.outside), feet(s.outside));
  out += fmt::format("  inside of the walls   {:>10}   {:>8} ft{}\n", print(s.inside), feet(s.inside),
                     s.inside_as_outside ? "   (taken as outside)" : "");
  for (const SurveyedPart& p : s.parts) {
    out += fmt::format("  part {}: {} walls, {} sq ft, {}\n", p.name, p.corners.size(), decimal(p.area_sqft, 1),
                       yaml::word(p.foundation));
    if (p.closing_error > Length{})
      out += fmt::format("    the outline closes with {} to spare, put on the last wall\n", print(p.closing_error));
  }
  out += "  wall      outside     inside      footing outside, inside\n";
  for (const Wall& w : s.walls) {
    const auto depth = [](const std::optional<Length>& l) { return l ? print(*l) : std::string("-"); };
    out += fmt::format("  {:>4}  {:>11} {:>10}      {}, {}{}\n", w.number, print(w.length), print(w.inside_length),
                       depth(w.footing_outside), depth(w.footing_inside),
                       w.known_by && *w.known_by == KnownBy::assumed ? "   assumed" : "");
  }
  if (!s.piers.empty()) out += fmt::format("  piers: {}\n", s.piers.size());
}

const char* kind_words(RunKind kind) {
  switch (kind) {
    case RunKind::soil_outside:
      return "soil outside";
    case RunKind::soil_inside:
      return "soil inside";
    case RunKind::soil_piers:
      return "soil round piers";
    case RunKind::soil_chimneys:
      return "soil round chimney";
    case RunKind::soil_posts:
      return "soil round posts";
    case RunKind::allowance:
      return "allowance";
    case RunKind::void_walls:
      return "voids of walls";
    case RunKind::void_piers:
      return "voids of piers";
    case RunKind::slab:
      return "under slab";
  }
  return "";
}

std::string where(const Run& run) {
  std::string out;
  for (const Stretch& s : run.stretches)
    out += fmt::format("{}wall {} {} to {}", out.empty() ? "" : ", ", s.wall, print(s.a), print(s.b));
  for (const int p : run.piers) out += fmt::format("{}pier {}", out.empty() ? "" : ", ", p);
  for (const std::string& n : run.names) out += (out.empty() ? "" : ", ") + n;
  return out;
}

void treatment(std::string& out, const Treatment& t, bool explain) {
  out += fmt::format("\noption {}\n", t.id);
  if (t.runs.empty()) {
    out += "  no run of ours\n";
    return;
  }
  out += "  run  what                 line             feet    depth     holes   gallons\n";
  for (const Run& r : t.runs) {
    out += fmt::format("  {:>3}  {:<19}  {:<12} {:>8}  {:>7}  {:>8}  {:>8}{}\n", r.number, kind_words(r.kind), r.work,
                       feet(r.length), r.depth > Length{} ? print(r.depth) : "-",
                       r.holes ? std::to_string(r.holes) : "-", decimal(r.gallons, 1),
                       r.entered_each && r.gallons != r.computed_gallons
                           ? fmt::format("   entered; computed {}", decimal(r.computed_gallons, 1))
                           : std::string{});
    if (!explain) continue;
    out += fmt::format("         = {}\n", r.working);
    if (const std::string places = where(r); !places.empty()) out += fmt::format("         on {}\n", places);
    for (const std::string& s : r.sources) out += fmt::format("         {}\n", s);
  }
  out += fmt::format("  sum                                                      {:>8}  {:>8}\n", t.holes,
                     decimal(t.gallons, 1));
  if (!t.mix) return;
  out += fmt::format("  mix: {} fl oz of {} for {} gal", decimal(t.mix->fl_oz, 1), t.mix->product->name.value_or(""),
                     decimal(t.gallons, 1));
  out += explain ? fmt::format("   = {}\n", t.mix->working) : "\n";
  for (std::size_t i = 0; i < t.mix->loads.size(); ++i)
    out += fmt::format("    load {}: {} gal with {} fl oz\n", i + 1, decimal(t.mix->loads[i].gallons, 1),
                       shortest(t.mix->loads[i].exact, 2));
  for (const auto& [size, count] : t.mix->packages)
    out += fmt::format("    bring {} x {} fl oz\n", count, shortest(size, 2));
}

}  // namespace

std::string measures_text(const Basis& basis, const std::vector<Treatment>& treatments, bool explain) {
  std::string out;
  for (const SurveyedStructure& s : basis.survey.structures) structure(out, s);
  for (const Treatment& t : treatments) treatment(out, t, explain);
  return out;
}

std::string tally(std::size_t errors, std::size_t warnings) {
  return fmt::format("{} error{}, {} warning{}", errors, errors == 1 ? "" : "s", warnings, warnings == 1 ? "" : "s");
}

}  // namespace soundsill::listing
