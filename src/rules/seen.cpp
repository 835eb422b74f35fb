// Serves rules/each.h. What was seen of the buildings, and what was not.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

std::string name_of(const Structure& s) { return s.name ? quoted(*s.name) : "this structure"; }

}  // namespace

void much_unseen(const Papers& papers, Faults& faults) {
  const Datum<Percent>* most = limit(papers, &Limits::most_unseen);
  if (!most) return;
  each_looked_at(papers, [&](const Structure& s) {
    const auto& areas = items(s.areas);
    const auto all = static_cast<std::int64_t>(areas.size());
    const auto unseen =
        std::count_if(areas.begin(), areas.end(), [](const Area& a) { return a.seen && *a.seen == Seen::no; });
    if (all == 0 || misread(s.areas.at, faults) || Ratio(unseen * 100, all) <= most->value->value) return;
    faults.add(Rule::much_unseen, s.areas.key,
               std::to_string(unseen) + " of " + std::to_string(all) + " areas of " + name_of(s) + " were not seen",
               "a paper that excepts most of a house says little about it, and is sent back" + cited(most->cite),
               "look again once they are opened, and add that visit");
  });
}

void too_low_to_see(const Papers& papers, Faults& faults) {
  const Datum<Length>* least = limit(papers, &Limits::crawl_entry);
  if (!least) return;
  each_looked_at(papers, [&](const Structure& s) {
    for (const Part& part : items(s.parts)) {
      if (!part.foundation || *part.foundation != Foundation::crawl_space || !part.crawl_height ||
          *part.crawl_height >= *least->value)
        continue;
      const std::string_view crawl = yaml::word(Foundation::crawl_space);
      for (const Area& area : items(s.areas))
        if (area.name && area.name->find(crawl) != std::string::npos && area.seen && *area.seen == Seen::yes)
          faults.add({Rule::too_low_to_see,
                      area.seen.at,
                      quoted(*area.name) + " is called seen, and is " + print(*part.crawl_height) + " high",
                      "a crawl space under " + print(*least->value) +
                          " is commonly taken for one that nobody can "
                          "enter" +
                          cited(least->cite),
                      "write `seen: partly` with `because:`, or correct the height",
                      {{part.crawl_height.at, "the height"}}});
    }
  });
}

void no_advice(const Papers& papers, const RuleUse& use, Faults& faults) {
  each_looked_at(papers, [&](const Structure& s) {
    for (const Area& area : items(s.areas)) {
      if (!area.seen || *area.seen == Seen::yes || area.advice.written()) continue;
      faults.add(Rule::no_advice, area.seen.at,
                 (area.name ? quoted(*area.name) : std::string("this area")) +
                     " was not wholly seen, and nothing is recommended",
                 "the buyer is to learn how the unseen part can still be looked at" + cited(use.cite),
                 "write `advice:` with what is recommended, like a further inspection once it is opened");
    }
  });
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
