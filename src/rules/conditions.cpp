// Serves rules/each.h. Conditions that invite insects: wood near soil, in soil, and wet; reported, and put right.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {

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

namespace {

/// A finding of a structure whose condition has a certain nature.
const Finding* condition_in(const Papers& papers, const Structure& s, Field<bool> Condition::*nature) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    const Condition* condition = f.condition ? papers.basis.trade.condition(*f.condition) : nullptr;
    if (condition && (condition->*nature).value_or(false) && f.in && s.name && *f.in == *s.name) return &f;
  }
  return nullptr;
}

}  // namespace

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

namespace {

const Reading* wettest(const Finding& f) {
  const Reading* most = nullptr;
  for (const Reading& r : items(f.moisture))
    if (r.percent && (!most || r.percent->value > most->percent->value)) most = &r;
  return most;
}

bool dried(const Papers& papers, const std::vector<const Work*>& lines) {
  return std::any_of(lines.begin(), lines.end(), [&](const Work* w) {
    const Method* method = method_of(papers, *w);
    if (!method) return true;  // what an unknown method does is not known
    const auto names = conditions_of(papers, &Condition::wet);
    return std::any_of(names.begin(), names.end(), [&](const std::string& c) { return method->does_correct(c); });
  });
}

}  // namespace

void moisture_unreported(const Papers& papers, Faults& faults) {
  const Datum<Percent>* least = limit(papers, &Limits::excess_moisture);
  if (!least) return;
  const auto& all = items(papers.basis.c.findings);
  for (const Finding& f : all) {
    const Reading* reading = wettest(f);
    if (!reading || reading->percent->value < least->value->value || !f.in) continue;
    const auto wet = [&](const Finding& other) {
      const Condition* condition = other.condition ? papers.basis.trade.condition(*other.condition) : nullptr;
      return condition && condition->wet.value_or(false) && other.in && *other.in == *f.in;
    };
    if (std::any_of(all.begin(), all.end(), wet) || items_lost(papers, faults)) continue;
    faults.add(
        Rule::moisture_unreported, reading->percent.at,
        said(f) + " has " + shortest(reading->percent->value, 2) + " % moisture, and no condition reports it",
        "wood of " + shortest(least->value->value, 2) + " % or more is reported as too wet" + cited(least->cite),
        "add a finding of `kind: condition` with " + listed(quoted(conditions_of(papers, &Condition::wet)), "or"));
  }
}

void moisture_uncorrected(const Papers& papers, Faults& faults) {
  const Datum<Percent>* most = limit(papers, &Limits::wood_moisture);
  if (!most) return;
  const auto all = offers(papers, faults);
  for (const Finding& f : items(papers.basis.c.findings)) {
    const Reading* reading = wettest(f);
    if (!reading || reading->percent->value <= most->value->value) continue;
    const auto wet = std::find_if(all.begin(), all.end(), [&](const Offer& offer) {
      const auto lines = offer.answering(f);
      return offer.whole && !lines.empty() && !dried(papers, lines);  // `unanswered` speaks where no line answers
    });
    if (wet == all.end()) continue;
    faults.add(
        Rule::moisture_uncorrected, reading->percent.at,
        said(f) + " has " + shortest(reading->percent->value, 2) + " % moisture, and no line dries it" + wet->where,
        "wood above " + shortest(most->value->value, 2) + " % goes on decaying whatever else is done" +
            cited(most->cite),
        "let a line that dries wood answer " + said(f) + " too");
  }
}

void condition_left(const Papers& papers, Faults& faults) {
  const auto all = offers(papers, faults);
  const auto leaves = [&](const Work* w) {
    const Method* method = method_of(papers, *w);
    return method && method->takes && *method->takes == Takes::nothing && !waived(*w);
  };
  for (const Finding& f : items(papers.basis.c.findings)) {
    const Condition* condition = f.condition ? papers.basis.trade.condition(*f.condition) : nullptr;
    if (!condition || !condition->invites.value_or(true)) continue;
    for (const Offer& offer : all) {
      const auto lines = offer.answering(f);
      if (!offer.whole || lines.empty() || !std::all_of(lines.begin(), lines.end(), leaves)) continue;
      faults.add({Rule::condition_left,
                  f.condition.at,
                  said(f) + " leaves " + quoted(*f.condition) + " as it is" + offer.where,
                  "lenders take a condition that is left for an open finding",
                  "answer it by a line that puts it right, be it the owner's, or add the signed `waiver:`",
                  {{lines.front()->does.at, "this line leaves it"}}});
      break;
    }
  }
}

}  // namespace soundsill::rules
