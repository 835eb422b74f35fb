// Serves rules/each.h. Keys that only some cases need: the key table says when, this rule says so when they are not
// there.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

struct Needed {
  Faults& faults;

  void unsaid(bool there, Span at, const std::string& what, const char* why, const std::string& fix) {
    if (!there) faults.add(Rule::fact_unsaid, at, what, why, fix);
  }

  /// A state that numbers its reports.
  void number(const Papers& papers) {
    const auto& rule = papers.basis.form.report;
    const auto& facts = papers.basis.c.facts;
    if (!rule || !rule->control_number || !rule->control_number->value.value_or(false) || !facts) return;
    if (!facts->control_number.written())
      faults.add(Rule::fact_unsaid, papers.basis.c.facts.key, "the case has no control number of the state",
                 "the state wants it on page 1" + cited(rule->control_number->cite), "write `control number: \"...\"`",
                 rests_on(*rule->control_number));
  }

  void dealings(const Case& c) {
    if (!c.facts || !c.facts->purpose) return;
    const Span purpose = c.facts->purpose.at;
    const bool sale = *c.facts->purpose == Purpose::sale;
    if (*c.facts->purpose != Purpose::owner)
      unsaid(c.facts->loan.written(), purpose, "nothing says which kind of loan this is for",
             "a lender sends papers back that do not meet the rules of its loan", "write `loan:`, or `loan: none`");
    if (sale && c.people)
      unsaid(c.people->buyer.written(), first_of({c.people.key, purpose}), "nobody is named as buyer",
             "the findings of a sale are addressed to the buyer", "write `buyer: {name: ...}` under `people:`");
    if (c.people)
      unsaid(c.people->owner.written() || c.people->seller.written(), first_of({c.people.key, purpose}),
             "nobody is named as owner or seller", "nobody could authorize entry and treatment",
             "write `owner: {name: ...}` or `seller: {name: ...}` under `people:`");
    if (c.facts->revision && *c.facts->revision > 1)
      unsaid(c.facts->replaces.written(), c.facts->revision.at,
             "revision " + std::to_string(*c.facts->revision) + " does not say which one it replaces",
             "two papers of one case would contradict each other, and nobody could tell which counts",
             "write `replaces: {revision: ..., on: ..., because: ...}`");
  }

  void looking(const Case& c) {
    if (c.visits && c.visits->empty())
      unsaid(false, c.visits.key, "no visit is given", "nothing was seen without a day on which somebody looked",
             "write `visits: [{id: ..., date: ...}]`");
    for (const Finding& f : items(c.findings))
      if (f.kind && *f.kind == FindingKind::evidence && f.state && *f.state == State::active)
        unsaid(f.live_seen.written(), first_of({f.no.at, f.at}), said(f) + " does not say whether it was seen alive",
               "live and past evidence are told apart by that alone", "write `live seen:` yes or no");
  }

  /// The soil below a part is an area of its own, seen or not: without it nobody could say how much was seen.
  void area_below(const Structure& s) {
    if (!s.areas) return;
    for (const Part& p : items(s.parts)) {
      if (!p.foundation || (*p.foundation != Foundation::crawl_space && *p.foundation != Foundation::basement))
        continue;
      const std::string_view word = yaml::word(*p.foundation);
      const auto& areas = *s.areas;
      const bool there = std::any_of(areas.begin(), areas.end(),
                                     [&](const Area& a) { return !a.name || a.name->find(word) != std::string::npos; });
      unsaid(there || areas.empty(), s.areas.key, "no area is named `" + std::string(word) + "`",
             "nobody could tell whether the soil and walls below the house were seen",
             "add `{name: " + std::string(word) + ", seen: ...}` to `areas:`");
    }
  }

  void house(const Structure& s) {
    if (!s.looked_at() || s.inspected.unread()) return;
    const Span at = first_of({s.name.at, s.at});
    const std::string name = s.name ? quoted(*s.name) : "this structure";
    unsaid(s.soil.written(), at, name + " does not say what its soil is",
           "soil decides how it is dug and how it takes liquid", "write `soil:` sand, loam, clay, rock or not known");
    unsaid(s.parts.written(), at, name + " has no outline", "without a drawing nothing is measured, only guessed",
           "write `parts:` with an outline");
    area_below(s);
    if (s.parts.written())
      unsaid(s.walls.written(), at, name + " says nothing of its walls",
             "thickness, voids and footings decide what the treatment takes", "write `walls:`");
    for (const Part& p : items(s.parts))
      if (p.foundation && *p.foundation == Foundation::crawl_space)
        unsaid(p.crawl_height.written(), p.foundation.at,
               "the crawl space of " + (p.name ? quoted(*p.name) : "this part") + " has no height",
               "how low it is decides what could be seen and how long the work takes", "write `crawl height:`");
  }
};

}  // namespace

void fact_unsaid(const Papers& papers, Faults& faults) {
  Needed needed{faults};
  needed.dealings(papers.basis.c);
  needed.number(papers);
  needed.looking(papers.basis.c);
  for (const Structure& s : papers.basis.c.structures()) needed.house(s);
}

}  // namespace soundsill::rules
