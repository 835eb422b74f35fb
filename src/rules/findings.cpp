// Serves rules/each.h. What a finding has to say for itself, and whether it agrees with itself.
#include <algorithm>

#include "rules/look.h"

namespace soundsill::rules {
namespace {

bool is(const Finding& f, FindingKind kind) { return f.kind && *f.kind == kind; }
bool of_organism(const Finding& f) { return is(f, FindingKind::evidence) || is(f, FindingKind::damage); }
std::string_view kind_of(const Finding& f) { return yaml::word(*f.kind); }

template <class Wanted>
void each(const Papers& papers, Wanted wanted) {
  for (const Finding& f : items(papers.basis.c.findings)) wanted(f);
}

}  // namespace

void no_place(const Papers& papers, Faults& faults) {
  each(papers, [&](const Finding& f) {
    if (!of_organism(f) || f.place.written()) return;
    faults.add(Rule::no_place, f.kind.at, said(f) + " is " + std::string(kind_of(f)) + " without a place on the plan",
               "it would be missing from the drawing, and nobody could tell what work reaches it",
               "write `at:` with its point, wall or pier");
  });
}

void no_organism(const Papers& papers, Faults& faults) {
  each(papers, [&](const Finding& f) {
    if (!of_organism(f) || f.organism.written()) return;
    faults.add(Rule::no_organism, f.kind.at, said(f) + " is " + std::string(kind_of(f)) + " without an organism",
               "no method could be matched with it, and the paper is sent back as incomplete",
               "write `organism:` with what left it");
  });
}

void no_condition(const Papers& papers, Faults& faults) {
  each(papers, [&](const Finding& f) {
    if (!is(f, FindingKind::condition) || f.condition.written()) return;
    faults.add(Rule::no_condition, f.kind.at, said(f) + " is a condition, and does not say which",
               "no method could be matched with it, and the buyer would not know what to put right",
               "write `condition:` with what was seen");
  });
}

void no_state(const Papers& papers, Faults& faults) {
  each(papers, [&](const Finding& f) {
    if (!is(f, FindingKind::evidence) || f.state.written()) return;
    faults.add(Rule::no_state, f.kind.at, said(f) + " is evidence, and does not say whether it is active",
               "whether the house is to be treated hangs on it", "write `state:` active, past or not determined");
  });
}

void live_not_active(const Papers& papers, Faults& faults) {
  each(papers, [&](const Finding& f) {
    if (!is(f, FindingKind::evidence) || !f.live_seen.value_or(false) || !f.state || *f.state == State::active) return;
    faults.add({Rule::live_not_active,
                f.state.at,
                said(f) + " was seen alive, and its state is " + quoted(yaml::word(*f.state)),
                "one paper would say both that they live and that they do not",
                "correct whichever of the two was mistyped",
                {{f.live_seen.at, "seen alive"}}});
  });
}

void no_basis(const Papers& papers, Faults& faults) {
  each(papers, [&](const Finding& f) {
    const bool active = is(f, FindingKind::evidence) && f.state && *f.state == State::active;
    if (!active || f.basis.unread()) return;
    if (f.basis && (!f.basis->empty() || misread(f.basis.at, faults))) return;
    faults.add(Rule::no_basis, f.state.at, said(f) + " is called active, and nothing says what that rests on",
               "a call without its evidence does not stand before the regulator",
               "write `basis: [...]` with what was seen");
  });
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
