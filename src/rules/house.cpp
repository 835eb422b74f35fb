// The buildings: listed, looked at, and what of them was not seen.
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

void no_reason(const Papers& papers, Faults& faults) {
  for (const Structure& s : papers.basis.c.structures()) {
    if (s.inspected && !*s.inspected && !s.because.written())
      faults.add(Rule::no_reason, s.inspected.at,
                 (s.name ? quoted(*s.name) : "this structure") + " was not inspected, and nothing says why",
                 "the buyer would take it for looked at, or for forgotten", "write `because:` with the reason");
    for (const Area& a : items(s.areas)) {
      if (!a.seen || *a.seen == Seen::yes || a.because.written()) continue;
      const std::string how = *a.seen == Seen::no ? " was not seen" : " was seen only partly";
      faults.add(Rule::no_reason, a.seen.at, (a.name ? quoted(*a.name) : "this area") + how + ", and nothing says why",
                 "the buyer would take what was not seen for free of insects", "write `because:` with the reason");
    }
  }
}

void areas_unsaid(const Papers& papers, Faults& faults) {
  for (const Structure& s : papers.basis.c.structures()) {
    if (!s.looked_at() || s.inspected.unread() || s.areas.unread()) continue;
    if (s.areas && (!s.areas->empty() || misread(s.areas.at, faults))) continue;
    faults.add(Rule::areas_unsaid, first_of({s.areas.key, s.name.at, s.at}),
               "no areas of " + (s.name ? quoted(*s.name) : "this structure") + " are listed, seen or not",
               "page 1 could not say how much of the building was seen",
               "list them: `areas: [{name: ..., seen: yes}, {name: ..., seen: no, because: ...}]`");
  }
}

}  // namespace soundsill::rules
