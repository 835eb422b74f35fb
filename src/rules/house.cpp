// Serves rules/each.h. The buildings: listed, looked at, and of a believable size.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

struct Buildings {
  std::vector<std::string_view> listed, looked_at;
};

Buildings buildings(const Papers& papers) {
  Buildings out;
  for (const Structure& s : papers.basis.c.structures()) {
    if (!s.name) continue;
    out.listed.push_back(*s.name);
    if (s.looked_at()) out.looked_at.push_back(*s.name);
  }
  return out;
}

bool among(const std::vector<std::string_view>& names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

void in_listed(const Papers& papers, const Buildings& known, const Field<std::string>& in, const std::string& who,
               const char* why, Faults& faults) {
  if (!in || among(known.looked_at, *in)) return;
  const Span list = papers.basis.c.property->structures.key;
  const bool unlisted = !among(known.listed, *in);
  std::string what = who + " is in " + quoted(*in);
  what += unlisted ? ", which is not a listed structure" : ", which was not inspected";
  std::string otherwise = known.looked_at.empty() ? "list it under `structures:`"
                                                  : "name one that was looked at: " + yaml::listed(known.looked_at);
  faults.add({Rule::no_structure,
              in.at,
              std::move(what),
              why,
              unlisted ? did_you_mean(*in, known.looked_at, std::move(otherwise)) : std::move(otherwise),
              {{list, "the structures are listed here"}}});
}

/// False when a structure's name or a whole structure could not be read: it may be the one that is meant.
bool all_read(const Papers& papers, const Faults& faults) {
  const auto& property = papers.basis.c.property;
  if (!property || !property->structures || items_lost(papers, faults)) return false;
  const auto& all = *property->structures;
  return std::all_of(all.begin(), all.end(), [](const Structure& s) { return s.name && !s.inspected.unread(); });
}

}  // namespace

void no_structure(const Papers& papers, Faults& faults) {
  if (!all_read(papers, faults)) return;
  const Buildings known = buildings(papers);
  for (const Finding& f : items(papers.basis.c.findings))
    in_listed(papers, known, f.in, said(f), "the reader cannot tell whether that building was looked at", faults);
  for (const Work& w : items(papers.basis.c.work))
    if (!planned(papers, w))  // of lines that are planned, planning reports it
      in_listed(papers, known, w.in, said(w), "the crew would not know which building is meant", faults);
}

namespace {

/// More than a house has: most likely a forgotten inch mark.
struct Odd {
  Faults& faults;

  void check(const Field<Length>& length, const Datum<Length>* most, const std::string& what) {
    if (!length || !most || *length <= *most->value) return;
    faults.add(Rule::odd_depth, length.at,
               quoted(typed(length.at)) + " is " + print(*length) + ": too much for " + what,
               "gallons, time and price would be many times too high",
               "write inches with their mark: " + quoted(shortest(length->in_feet(), 2) + " in"), rests_on(*most));
  }
};

}  // namespace

void odd_depth(const Papers& papers, Faults& faults) {
  Odd odd{faults};
  const Datum<Length>* const footing = limit(papers, &Limits::most_footing);
  const Datum<Length>* const height = limit(papers, &Limits::most_crawl);
  const Datum<Length>* const slab = limit(papers, &Limits::most_porch);
  for (const Structure& s : papers.basis.c.structures()) {
    for (const WallFacts& w : items(s.walls))
      if (w.footing) {
        odd.check(w.footing->outside, footing, "a footing");
        odd.check(w.footing->inside, footing, "a footing");
      }
    for (const PierGroup& p : items(s.piers)) odd.check(p.footing, footing, "the footing of a pier");
    for (const Chimney& c : items(s.chimneys)) odd.check(c.footing, footing, "the footing of a chimney");
    for (const Part& p : items(s.parts)) odd.check(p.crawl_height, height, "the height of a crawl space");
    for (const Slab& p : items(s.slabs)) odd.check(p.deep, slab, "a porch");
  }
}

}  // namespace soundsill::rules
