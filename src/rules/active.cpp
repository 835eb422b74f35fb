// What a call rests on: the signs that make it, and whether wood and holes fit the organism.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

bool names(const ListOf<std::string>& list, std::string_view word) {
  return list && std::find(list->begin(), list->end(), word) != list->end();
}

/// A sign is a whole item, or begins one and is set off: "live larvae were not seen" is none.
bool names_sign(std::string_view seen, std::string_view sign) {
  const std::string item = lower(seen);
  return item.starts_with(lower(sign)) &&
         (item.size() == sign.size() || std::string_view(",;.(").find(item[sign.size()]) != std::string_view::npos ||
          item.substr(sign.size()).starts_with(" ("));
}

bool rests_on(const Finding& f, const ActiveTest& test) {
  const auto& signs = items(test.any_of);
  const auto& basis = items(f.basis);
  return std::any_of(basis.begin(), basis.end(), [&](const std::string& seen) {
    return std::any_of(signs.begin(), signs.end(), [&](const std::string& sign) { return names_sign(seen, sign); });
  });
}

bool wet_enough(const Finding& f, const ActiveTest& test) {
  if (!test.moisture_above && !test.moisture_from) return true;
  const auto& readings = items(f.moisture);
  return std::any_of(readings.begin(), readings.end(), [&](const Reading& r) {
    return r.percent && (!test.moisture_above || r.percent->value > test.moisture_above->value) &&
           (!test.moisture_from || r.percent->value >= test.moisture_from->value);
  });
}

std::string moisture_of(const ActiveTest& test) {
  return test.moisture_above ? "above " + shortest(test.moisture_above->value, 2) + " %"
                             : "of at least " + shortest(test.moisture_from->value, 2) + " %";
}

}  // namespace

void weak_basis(const Papers& papers, Faults& faults) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    const bool active = f.kind && *f.kind == FindingKind::evidence && f.state && *f.state == State::active;
    if (!active || !f.organism || items(f.basis).empty()) continue;  // without a basis another rule speaks
    for (const ActiveTest& test : items(papers.basis.form.active_tests)) {
      if (!names(test.organisms, *f.organism)) continue;
      const bool seen = rests_on(f, test), wet = wet_enough(f, test);
      if (seen && wet) continue;
      std::vector<std::string> signs;
      for (const std::string& sign : items(test.any_of)) signs.push_back(quoted(sign));
      std::string fix = seen ? "give the reading under `moisture:`"
                             : "let an item of `basis:` be " + listed(signs, "or") + ", alone or with a comma after it";
      if (!seen && !wet) fix += ", and give the reading under `moisture:`";
      faults.add({Rule::weak_basis,
                  f.basis.at,
                  said(f) + " calls " + quoted(*f.organism) + " active " +
                      (seen ? "without a reading " + moisture_of(test) : "on signs that do not show it"),
                  "a call on weak evidence sells a treatment that nobody needs" + cited(test.cite),
                  fix + "; if it was not seen, write `state: past` or `not determined`",
                  {{f.state.at, "called active here"}}});
    }
  }
}

void damage_unsaid(const Papers& papers, Faults& faults) {
  const auto& all = items(papers.basis.c.findings);
  for (const Finding& f : all) {
    if (!f.kind || *f.kind != FindingKind::evidence || !organism_of(papers, f) || !f.in ||
        !papers.basis.survey.find(*f.in) || f.damage_seen.unread())
      continue;
    const bool told = std::any_of(all.begin(), all.end(), [&](const Finding& other) {
      const bool here = !other.in || *other.in == *f.in || !papers.basis.survey.find(*other.in);
      return other.kind && *other.kind == FindingKind::damage && here &&
             (!organism_of(papers, other) || *other.organism == *f.organism);
    });
    const bool seen = f.damage_seen.value_or(true);
    if (told || !seen || items_lost(papers, faults)) continue;
    faults.add(Rule::damage_unsaid, first_of({f.damage_seen.at, f.organism.at}),
               said(f) + (f.damage_seen ? " saw damage, and no finding reports it"
                                        : " does not say whether damage was seen with it"),
               "a buyer who reads of insects and of no damage asks whether anybody looked",
               std::string(f.damage_seen ? "correct it" : "write `damage seen: no`") +
                   ", or add a finding of `kind: damage` by " + quoted(*f.organism));
  }
}

void odd_host(const Papers& papers, Faults& faults) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    const Organism* organism = organism_of(papers, f);
    if (!f.wood || !organism || items(organism->hosts).empty()) continue;
    for (const WoodKind kind : {WoodKind::softwood, WoodKind::hardwood}) {
      std::string name = holds_word(*f.wood, yaml::word(kind)) ? std::string(yaml::word(kind)) : std::string();
      for (const Wood& wood : items(papers.basis.trade.woods))
        if (wood.kind && *wood.kind == kind && wood.name && holds_word(*f.wood, *wood.name)) name = *wood.name;
      const auto& hosts = *organism->hosts;
      if (name.empty() || std::find(hosts.begin(), hosts.end(), kind) != hosts.end()) continue;
      faults.add({Rule::odd_host,
                  f.wood.at,
                  said(f) + " names " + quoted(*organism->name) + " in " + quoted(name) +
                      (name == yaml::word(kind) ? "" : ", a " + std::string(yaml::word(kind))),
                  "they live in " + std::string(yaml::word(hosts.front())) + "; either wood or organism was mistaken" +
                      cited(organism->cite),
                  "look again at holes and frass, or correct the wood",
                  {{f.organism.at, "the organism"}}});
    }
  }
}

void odd_hole(const Papers& papers, Faults& faults) {
  for (const Finding& f : items(papers.basis.c.findings)) {
    const Organism* organism = organism_of(papers, f);
    if (!f.holes || !organism || !organism->hole_from || !organism->hole_to) continue;
    if (f.holes->value >= organism->hole_from->value && f.holes->value <= organism->hole_to->value) continue;
    faults.add({Rule::odd_hole,
                f.holes.at,
                said(f) + " gives holes of " + print(*f.holes) + " to " + quoted(*organism->name),
                "theirs measure " + print(*organism->hole_from) + " to " + print(*organism->hole_to) +
                    "; either size or organism was mistaken" + cited(organism->cite),
                "measure again, or name another organism",
                {{f.organism.at, "the organism"}}});
  }
}

}  // namespace soundsill::rules
