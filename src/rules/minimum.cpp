// Serves rules/each.h. What has to be treated when anything is: the state's minimum, hollow walls near termites, and
// what may be left.
#include <algorithm>

#include "estimate/choice.h"
#include "rules/cover.h"
#include "service/service.h"

namespace soundsill::rules {
namespace {

struct Ground {
  Cover outside, inside, voids, slabs;  ///< by lines that treat each
  const Work* soil = nullptr;           ///< the first line that treats soil
  const Work* first = nullptr;          ///< the first line that treats at all
  bool known = true, waived = false;
};

Ground ground_of(const Papers& papers, const Offer& offer, const SurveyedStructure& s) {
  Ground g;
  for (const Work* w : offer.lines) {
    if (!treats(papers, *w) || structure_of(papers, *w) != s.name) continue;
    const Cover cover = cover_of(papers, *w, s);
    if (!g.first) g.first = w;
    g.known = g.known && cover.known && !w->sides.unread();
    g.waived = g.waived || waived(*w);
    const std::string option = offer.option ? offer.option->id.value_or("") : std::string();
    const resolved::WaiverSheet* sheet = sheet_of(papers.basis.resolved, option, w->id.value_or(""));
    g.waived = g.waived || (sheet && sheet->owner_signs);
    // A partial option is chosen with a waiver that the paper asks for; until then nobody can have signed it.
    g.waived = g.waived || (offer.option && offer.option->scope && *offer.option->scope != Scope::full);
    if (treats(papers, *w, Takes::voids)) g.voids.add(cover);
    if (treats(papers, *w, Takes::slab)) g.slabs.add(cover);
    if (!treats(papers, *w, Takes::soil)) continue;
    if (!g.soil) g.soil = w;
    const Sides sides = w->sides.value_or(Sides::both);
    if (sides != Sides::inside) g.outside.add(cover);
    if (sides != Sides::outside) g.inside.add(cover);
  }
  return g;
}

Foundation foundation_of(const SurveyedStructure& s, const Wall& wall) {
  return wall.part < s.parts.size() ? s.parts[wall.part].foundation : Foundation::crawl_space;
}

/// Outside walls that are not treated. Where a slab adjoins no trench can be dug; piers alone have no wall in soil.
std::vector<Stretch> left_outside(const SurveyedStructure& s, const Ground& g) {
  std::vector<Stretch> wanted;
  for (const Wall& wall : s.walls)
    if (foundation_of(s, wall) != Foundation::piers) wanted.insert(wanted.end(), wall.outer.begin(), wall.outer.end());
  return left_of(left_of(joined(std::move(wanted)), beside_slabs(s)), g.outside.walls);
}

/// Inside faces of one kind of foundation that are not treated.
std::vector<Stretch> left_inside(const SurveyedStructure& s, Foundation foundation, const Cover& treated) {
  std::vector<Stretch> wanted;
  for (const Wall& wall : s.walls)
    if (foundation_of(s, wall) == foundation && wall.inside_length > Length{}) wanted.push_back(whole(wall));
  return left_of(wanted, treated.walls);
}

/// Piers and chimneys are treated all round, whatever the sides of the walls.
Cover round_things(const Ground& g) {
  Cover all = g.outside;
  all.add(g.inside);
  return all;
}

std::vector<std::string> left_out(const SurveyedStructure& s, const Ground& g) {
  std::vector<std::string> words;
  if (const auto walls = left_outside(s, g); !walls.empty()) words.push_back(walls_said(s, walls) + " outside");
  if (const auto walls = left_inside(s, Foundation::crawl_space, g.inside); !walls.empty())
    words.push_back(walls_said(s, walls) + " inside");
  // Inside a basement there is no soil to dig: it is reached through the slab, and soil lines take no notice of it.
  if (const auto walls = left_inside(s, Foundation::basement, g.slabs); !walls.empty())
    words.push_back(walls_said(s, walls) + " inside, through the slab");
  for (std::size_t i = 0; i < s.partitions.size(); ++i) {
    const SurveyedPartition& one = s.partitions[i];
    const auto& treated = g.inside.partitions;
    if (s.parts[one.part].foundation == Foundation::crawl_space &&
        std::find(treated.begin(), treated.end(), i) == treated.end() && one.facts->name)
      words.push_back("partition " + quoted(*one.facts->name));
  }
  // Soil under paving that is no slab with a name is reached through holes, too.
  std::vector<Stretch> paved;
  for (const Wall& wall : s.walls)
    if (wall.beside_slab) paved.insert(paved.end(), wall.outer.begin(), wall.outer.end());
  if (paved = left_of(paved, g.slabs.walls); !paved.empty())
    words.push_back("soil under the paving along " + walls_said(s, paved));
  for (const Slab& slab : items(s.facts->slabs)) {
    const bool drilled = std::any_of(g.slabs.named.begin(), g.slabs.named.end(), [&](const Place& p) {
      return p.kind == Place::Kind::slab && slab.name && p.name == *slab.name;
    });
    if (slab.name && slab.fill && *slab.fill != Fill::none && !drilled)
      words.push_back("soil under slab " + quoted(*slab.name));
  }
  const Cover round = round_things(g);
  std::vector<int> piers;
  for (const Pier& pier : s.piers)
    if (!holds(round.piers, pier.number)) piers.push_back(pier.number);
  if (!piers.empty()) words.push_back(numbered("pier", piers));
  const auto& chimneys = items(s.facts->chimneys);
  for (std::size_t i = 0; i < chimneys.size(); ++i)
    if (std::find(round.chimneys.begin(), round.chimneys.end(), i) == round.chimneys.end() && chimneys[i].name)
      words.push_back("chimney " + quoted(*chimneys[i].name));
  return words;
}

std::string apart(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : "; ") + word;
  return out;
}

}  // namespace

void left_untreated(const Papers& papers, const RuleUse& use, Faults& faults) {
  for (const Offer& offer : offers(papers, faults))
    for (const SurveyedStructure& s : papers.basis.survey.structures) {
      const Ground g = ground_of(papers, offer, s);
      if (!offer.whole || !g.soil || !g.known || g.waived) continue;
      const auto words = left_out(s, g);
      if (words.empty()) continue;
      faults.add(
          Rule::left_untreated, g.soil->does.at,
          said(*g.soil) + " treats only part of " + quoted(s.name) + offer.where + ", and no waiver says so",
          "left out: " + apart(words) + "; the state's minimum takes them in" + cited(use.cite),
          "take them into the lines that treat, or add `waiver: {by: ..., on: ..., because: ...}` once it is signed");
    }
}

namespace {

bool calls_for_voids(const Papers& papers, const Finding& f) {
  const bool evidence = f.kind && *f.kind == FindingKind::evidence;
  return evidence && in_soil(papers, f) && (f.live_seen.value_or(false) || (f.state && *f.state == State::active));
}

struct Undrilled {
  std::vector<Stretch> walls;
  std::vector<int> piers;
  std::vector<std::string> named;  ///< chimneys and partitions
  std::vector<const Finding*> findings;
};

bool hollow(const SurveyedStructure& s, int number) {
  const Pier* pier = s.pier(number);
  const auto& groups = items(s.facts->piers);
  return pier && pier->group < groups.size() && groups[pier->group].kind &&
         *groups[pier->group].kind == PierKind::hollow_block;
}

/// Hollow chimney bases and partitions near a finding that no line drills.
std::vector<std::string> hollow_things(const SurveyedStructure& s, const Near& near, const Ground& g,
                                       const Finding& f) {
  std::vector<std::string> out;
  if (f.no && holds(g.voids.near, *f.no)) return out;
  const auto& chimneys = items(s.facts->chimneys);
  for (const std::size_t i : near.chimneys) {
    const bool block = chimneys[i].kind && *chimneys[i].kind == PierKind::hollow_block;
    const bool drilled = std::find(g.voids.chimneys.begin(), g.voids.chimneys.end(), i) != g.voids.chimneys.end();
    if (block && !drilled && chimneys[i].name) out.push_back("chimney " + quoted(*chimneys[i].name));
  }
  for (const PartitionStretch& one : near.partitions) {
    const Partition& facts = *s.partitions[one.partition].facts;
    const auto& drilled = g.voids.partitions;
    const bool block = facts.kind && *facts.kind == WallKind::hollow_block;
    if (block && std::find(drilled.begin(), drilled.end(), one.partition) == drilled.end() && facts.name)
      out.push_back("partition " + quoted(*facts.name));
  }
  return out;
}

/// Adds what lies hollow near a finding and is not drilled.
void add_undrilled(const Papers& papers, const SurveyedStructure& s, const Finding& f, const Ground& g, Length reach,
                   Undrilled& out) {
  const auto place = place_of(papers, s, f);
  if (!place) return;
  const Near near = within(s, *place, reach);
  std::vector<Stretch> walls;
  for (const Stretch& one : near.stretches) {  // a wall between two parts has one void, under its earlier number
    const Wall& wall = *s.wall(one.wall);
    for (const Stretch& own : shared_by({one}, wall.own))
      if (wall.hollow()) walls.push_back(own);
  }
  walls = left_of(walls, g.voids.walls);
  bool any = !walls.empty();
  out.walls.insert(out.walls.end(), walls.begin(), walls.end());
  for (const int n : near.piers) {
    if (!hollow(s, n) || holds(g.voids.piers, n)) continue;
    any = true;
    if (!holds(out.piers, n)) out.piers.push_back(n);
  }
  for (const std::string& name : hollow_things(s, near, g, f)) {
    any = true;
    if (std::find(out.named.begin(), out.named.end(), name) == out.named.end()) out.named.push_back(name);
  }
  if (any) out.findings.push_back(&f);
}

bool treated_here(const Papers& papers, const Offer& offer, const Finding& f) {
  const auto lines = offer.answering(f);
  return std::any_of(lines.begin(), lines.end(), [&](const Work* w) { return treats(papers, *w); });
}

Undrilled undrilled(const Papers& papers, const Offer& offer, const SurveyedStructure& s, const Ground& g,
                    Length reach) {
  Undrilled out;
  for (const Finding& f : items(papers.basis.c.findings))
    if (f.in && *f.in == s.name && calls_for_voids(papers, f) && treated_here(papers, offer, f))
      add_undrilled(papers, s, f, g, reach, out);
  out.walls = joined(std::move(out.walls));
  std::sort(out.piers.begin(), out.piers.end());
  return out;
}

std::string length_of(const std::vector<Stretch>& walls) {
  Length sum;
  for (const Stretch& one : walls) sum += one.length();
  return print(sum);
}

void report(const Papers& papers, const SurveyedStructure& s, const Offer& offer, const Ground& g,
            const Undrilled& left, Faults& faults) {
  std::vector<int> numbers;
  for (const Finding* f : left.findings) numbers.push_back(f->no.value_or(0));
  const Rests rests = rests_on(papers.basis.form, &Limits::void_reach,
                               [&](Length read) { return !undrilled(papers, offer, s, g, read).findings.empty(); });
  // What stops the paper is told, not a longer reach that nobody has read.
  const Datum<Length>* reach =
      rests == Rests::read ? &*papers.basis.form.firm.void_reach : limit(papers, &Limits::void_reach);
  std::vector<std::string> words;
  if (!left.walls.empty())
    words.push_back(length_of(left.walls) + " of hollow wall (" + walls_said(s, left.walls) + ")");
  if (!left.piers.empty()) words.push_back("hollow " + numbered("pier", left.piers));
  for (const std::string& name : left.named) words.push_back(name);
  std::string method = "the method that treats voids";
  for (const Method& m : items(papers.basis.trade.methods))
    if (m.name && m.takes && *m.takes == Takes::voids) method = *m.name;
  std::string near;
  for (const int n : numbers) near += (near.empty() ? "" : ", ") + std::to_string(n);
  Diagnostic d{
      Rule::voids_undrilled,
      g.first->does.at,
      "hollow block near " + numbered("finding", numbers) + " is not drilled" + offer.where,
      "termites go on unseen in voids within " + print(reach ? *reach->value : Length{}) + " of them: " + apart(words) +
          (reach ? cited(reach->cite) : ""),
      "add `{id: ..., answers: [" + near + "], do: " + method + ", near: [" + near + "]}`, or a signed `waiver:`",
      {},
      rests};
  for (const Finding* f : left.findings) d.see.push_back({f->place.at, said(*f)});
  faults.add(std::move(d));
}

}  // namespace

void voids_undrilled(const Papers& papers, Faults& faults) {
  for (const Offer& offer : offers(papers, faults))
    for (const SurveyedStructure& s : papers.basis.survey.structures) {
      const Ground g = ground_of(papers, offer, s);
      if (!offer.whole || !g.first || !g.known || g.waived) continue;
      const Undrilled left = undrilled(papers, offer, s, g, void_reach(papers));
      if (!left.findings.empty()) report(papers, s, offer, g, left, faults);
    }
}

void scope_forbidden(const Papers& papers, Faults& faults) {
  for (const OptionFacts& option : items(papers.basis.c.options)) {
    if (!partial(option)) continue;
    const Product* product = option.product ? papers.basis.company.product(*option.product) : nullptr;
    const std::string why = soundsill::scope_forbidden(papers.basis.form, option.scope.value_or(Scope::full), product);
    const bool by_state = papers.basis.form.partial && why.starts_with("the state");
    if (!why.empty())
      faults.add(Rule::scope_forbidden, option.scope.at, called(option) + " is partial, and " + why,
                 "what label or state forbids may not be offered, at whatever price" +
                     (by_state ? cited(papers.basis.form.partial->cite) : std::string()),
                 "offer another scope or product, or add it to the label's `scopes:` if the label names it",
                 by_state ? rests_on(*papers.basis.form.partial) : Rests::read);
    if (!option.because.written())
      faults.add(Rule::fact_unsaid, option.scope.at, called(option) + " is partial, and does not say why",
                 "the buyer is to know why less than the whole is offered", "write `because:`");
  }
}

}  // namespace soundsill::rules
