// What could not be seen, and how near to the soil wood is.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

std::string name_of(const Structure& s) { return s.name ? quoted(*s.name) : "this structure"; }

template <class Speaks>
void each_looked_at(const Papers& papers, Speaks speaks) {
  for (const Structure& s : papers.basis.c.structures())
    if (s.looked_at() && !s.inspected.unread()) speaks(s);
}

/// A finding of a structure whose condition has a certain nature.
const Finding* condition_in(const Papers& papers, const Structure& s, Field<bool> Condition::*nature) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    const Condition* condition = f.condition ? papers.basis.trade.condition(*f.condition) : nullptr;
    if (condition && (condition->*nature).value_or(false) && f.in && s.name && *f.in == *s.name) return &f;
  }
  return nullptr;
}

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

namespace {

/// Whether some offer leaves the soil of a structure where it is; its words, or nothing.
std::optional<std::string> soil_left(const Papers& papers, const Structure& s, const Faults& faults) {
  const auto lowers = [&](const Work* w) {
    const Method* method = method_of(papers, *w);
    const std::string place = structure_of(papers, *w);
    if (!s.name || (!place.empty() && place != *s.name)) return false;
    if (!method) return true;  // what an unknown method does is not known
    for (const Condition& c : items(papers.basis.trade.conditions))
      if (c.low.value_or(false) && c.name && (method->does_correct(*c.name) || waived(*w))) return true;
    return false;
  };
  for (const Offer& offer : offers(papers, faults))
    if (offer.whole && std::none_of(offer.lines.begin(), offer.lines.end(), lowers)) return offer.where;
  return std::nullopt;
}

}  // namespace

void low_clearance(const Papers& papers, Faults& faults) {
  const auto low = [&](const Structure& s, const Part& part, const Field<Length>& height,
                       Field<Datum<Length>> Limits::*which, const char* what) {
    const Datum<Length>* least = limit(papers, which);
    if (!least || !height || *height >= *least->value) return;
    const auto left = soil_left(papers, s, faults);
    if (!left) return;
    const std::string names = listed(quoted(conditions_of(papers, &Condition::low)), "or");
    faults.add(Rule::low_clearance, height.at,
               std::string(what) + " " + (part.name ? quoted(*part.name) : "this part") + " is " + print(*height) +
                   " above the soil, and nothing lowers it" + *left,
               print(*least->value) + " is asked; wood nearer to soil stays damp, and termites reach it unseen" +
                   cited(least->cite),
               "report it as a condition (" + names + ") and answer it by a line that puts it right, or by a waiver");
  };
  each_looked_at(papers, [&](const Structure& s) {
    for (const Part& part : items(s.parts)) {
      low(s, part, part.joists_above, &Limits::joist_clearance, "the lowest joist of");
      low(s, part, part.girders_above, &Limits::girder_clearance, "the lowest girder of");
      low(s, part, part.wood_above, &Limits::outside_clearance, "the lowest wood outside");
    }
  });
}

void contact_unreported(const Papers& papers, Faults& faults) {
  each_looked_at(papers, [&](const Structure& s) {
    if (condition_in(papers, s, &Condition::contact) || misread(papers.basis.c.findings.at, faults)) return;
    for (const WoodContact& wood : items(s.wood)) {
      if (!wood.posts || *wood.posts == 0) continue;
      const std::string names = listed(quoted(conditions_of(papers, &Condition::contact)), "or");
      faults.add(
          Rule::contact_unreported, first_of({wood.name.at, wood.at}),
          (wood.name ? quoted(*wood.name) : std::string("this wood")) + " stands in soil, and no finding reports it",
          "the drawing would show what the findings keep silent about",
          "add a finding with " + names + ", or take it out if it stands on masonry");
      return;  // one finding answers for all
    }
  });
}

}  // namespace soundsill::rules
