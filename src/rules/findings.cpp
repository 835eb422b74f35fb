// What a finding has to say for itself.
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

void no_photo(const Papers& papers, Faults& faults) {
  each(papers, [&](const Finding& f) {
    if (!f.live_seen.value_or(false) || f.photos.unread()) return;
    if (f.photos && (!f.photos->empty() || misread(f.photos.at, faults))) return;
    faults.add(Rule::no_photo, f.live_seen.at, said(f) + " was seen alive, and has no photo",
               "once the house is treated nobody can see it again",
               "add `photos: [{file: ..., shows: ...}]` if one was taken");
  });
}

}  // namespace soundsill::rules
