// Serves packet/builder.h. How findings, places and answers are put into words, the same on every page.
#include "packet/builder.h"

namespace soundsill::document {

Group Builder::group_of(const Finding& f) const {
  if (f.is(FindingKind::damage)) return Group::damage;
  if (f.is(FindingKind::condition))
    return f.condition && !f.condition->invites.value_or(true) ? Group::closed : Group::condition;
  if (f.live_seen) return Group::live;
  const State state = f.state.value_or(State::not_determined);
  return state == State::active ? Group::active : state == State::past ? Group::past : Group::open;
}

std::vector<const Finding*> Builder::in_group(Group g) const {
  std::vector<const Finding*> out;
  for (const Finding& f : house.findings)
    if (f.no && group_of(f) == g) out.push_back(&f);
  return out;
}

std::string Builder::organism_of(const Finding& f) const {
  return words.name(f.organism && f.organism->plural ? *f.organism->plural : f.organism_name);
}

std::string Builder::title_of(const Finding& f) const { return stated(Topic::finding, title_words(f), number_of(f)); }

std::string Builder::title_words(const Finding& f) const {
  const std::string organism = organism_of(f);
  switch (group_of(f)) {
    case Group::live:
      return capitalized(say(Word::title_live, F{"organism", organism}));
    case Group::active:
      return capitalized(say(Word::title_active, F{"organism", organism}));
    case Group::open:
      return capitalized(say(Word::title_open, F{"organism", organism}));
    case Group::past:
      return capitalized(say(Word::title_past, F{"organism", organism}));
    case Group::damage:
      return capitalized(say(Word::title_damage, F{"organism", organism}));
    case Group::condition:
    case Group::closed:
      break;
  }
  return capitalized(words.name(f.condition_name));
}

namespace {

std::string place_words(const Place& p, const Words& words) {
  using Kind = Place::Kind;
  switch (p.kind) {
    case Kind::pier:
      return words.name("pier") + " " + std::to_string(p.number);
    case Kind::wall: {
      std::string out = words.name("wall") + " " + std::to_string(p.number);
      const bool stretch = p.to && p.to != p.from;
      if (p.from) out += " " + words.name(stretch ? "from" : "at") + " " + words.shown(*p.from);
      if (stretch) out += " " + words.name("to") + " " + words.shown(*p.to);
      return out;
    }
    case Kind::chimney:
    case Kind::slab:
    case Kind::wood:
    case Kind::area:
    case Kind::partition:
    case Kind::pilaster:
    case Kind::mark:
      return p.name;
    case Kind::all_walls:
      return words.name("all walls");
    case Kind::all_piers:
      return words.name("all piers");
    case Kind::point:
    case Kind::near:
      break;
  }
  return {};
}

}  // namespace

std::string Builder::structure_prefix(const std::string& structure) const {
  return !structure.empty() && in.basis.survey.structures.size() > 1 ? structure + ": " : std::string{};
}

std::string Builder::place_of(const Finding& f) const {
  std::string out = f.typed_place ? place_words(*f.typed_place, words) : std::string{};
  if (!f.where.empty()) out += (out.empty() ? "" : ", ") + f.where;
  return stated(Topic::place, structure_prefix(f.in) + out, number_of(f));
}

std::vector<const Line*> Builder::answers_to(const Finding& f) const {
  std::vector<const Line*> out;
  if (const Treatment* t = main_treatment(); t && f.no)
    for (const Task& task : t->tasks)
      if (task.line->answers_no(*f.no)) out.push_back(task.line);
  return out;
}

std::string Builder::work_title(const Line& w) const {
  const std::string title = capitalized(words.name(w.does));
  return w.lender_asks ? say(Word::lender_asks, F{"work", title}) : title;
}

std::string Builder::work_short(const Line& w) const {
  const std::string key = "short " + w.does;
  const std::string brief = words.name(key);
  return capitalized(brief == key ? words.name(w.does) : brief);
}

std::string Builder::by_whom(const Line& w) const {
  return w.firm.empty() || w.ours() ? by_words(w.who) : stated(Topic::firm, w.firm, w.id);
}

std::string Builder::by_words(By by) const {
  switch (by) {
    case By::us:
      return say(Word::by_us);
    case By::owner:
      return say(Word::by_owner);
    case By::contractor:
      return say(Word::by_contractor);
    case By::other_company:
      return say(Word::by_other_company);
    case By::warranty_holder:
      return say(Word::by_warranty_holder);
  }
  return {};
}

std::string Builder::party_words(Party party) const {
  switch (party) {
    case Party::buyer:
      return say(Word::party_buyer);
    case Party::seller:
      return say(Word::party_seller);
    case Party::owner:
      return say(Word::party_owner);
  }
  return {};
}

std::string Builder::settled_when(const Line& w) const {
  std::string words_for;
  if (!w.proof.empty())
    words_for = stated(Topic::proof, w.proof, w.id);
  else if (nothing_done(w))
    words_for = say(Word::settled_none);
  else if (const std::string key = "settled " + w.does; w.ours() && words.name(key) != key)
    words_for = words.name(key);
  else if (w.ours())
    words_for =
        say(w.method && w.method->uses_product.value_or(false) ? Word::settled_treated : Word::settled_work_done);
  else
    words_for = say(w.who == By::owner ? Word::settled_owner : Word::settled_contractor);
  return w.before ? say(Word::settled_before, F{"settled", words_for},
                        F{"date", stated(Topic::before, words.shown(*w.before), w.id)})
                  : words_for;
}

std::string Builder::numbers_of(const Line& w) const {
  std::vector<std::string> numbers;
  for (const int n : w.answer_numbers) numbers.push_back(std::to_string(n));
  return numbers.empty() ? say(Word::answers_preventive)
                         : say(Word::answers_numbers, F{"numbers", in_words(words, numbers)});
}

/// "Treat the soil, by us, $980.00"; "Repair or replace damaged wood, by a contractor; asked of the seller".
std::string Builder::answer_sentence(const Line& w) const {
  if (nothing_done(w))
    return say(Word::nothing_done, F{"because", stated(Topic::why_nothing, w.because, w.id)}, F{"by", by_words(w.who)});
  std::string out = work_title(w);
  if (w.ours() && in.apart) {
    out = say(Word::answer_other, F{"work", out}, F{"by", say(Word::by_us)});
  } else if (w.ours()) {
    const Estimate* e = main_estimate();
    out = say(Word::answer_us, F{"work", out}, F{"price", e ? print(amount_of(*e, w)) : std::string{}});
  } else {
    out = say(Word::answer_other, F{"work", out}, F{"by", by_whom(w)});
  }
  if (w.agreed && w.agreed->by && w.agreed->on)
    return say(Word::answer_agreed, F{"work", out}, F{"party", party_words(*w.agreed->by)},
               F{"date", words.shown(*w.agreed->on)});
  if (w.asked_of) return say(Word::answer_asked, F{"work", out}, F{"party", party_words(*w.asked_of)});
  return out;
}

std::string Builder::why_unseen(const Structure& s, const SurveyedArea& area) const {
  const std::string said =
      area.advice.empty() ? area.because : say(Word::area_advice, F{"because", area.because}, F{"advice", area.advice});
  return stated(Topic::why_unseen, said, area_of(s, area));
}

Runs Builder::typed(std::string said) const { return {{std::move(said), Run::Look::plain, {}, typed_language()}}; }

void Builder::translation(std::vector<Block>& blocks) const {
  // Where the sale was talked over in Spanish, the Spanish text is the one that counts.
  const bool sold = house.facts.sold_in == SoldIn::spanish;
  if (!in.english || (sold && words.say(Word::language).starts_with("es"))) return;
  blocks.push_back(Paragraph{"note",
                             {{say(Word::english_counts) + " ", Run::Look::plain, {}},
                              {in.english->say(Word::english_counts), Run::Look::plain, {}, typed_language()}}});
}

std::optional<Date> Builder::seen_on(const Finding& f) const {
  std::optional<Date> first, named;
  for (const Visit& v : house.visits) {
    if (!v.date) continue;
    if (!first || *v.date < *first) first = *v.date;
    if (!f.visit.empty() && v.id == f.visit) named = *v.date;
  }
  return named ? named : first;
}

std::string Builder::visit_date() const {
  std::vector<Date> dates;
  for (const Visit& v : house.visits)
    if (v.date) dates.push_back(*v.date);
  std::sort(dates.begin(), dates.end());
  dates.erase(std::unique(dates.begin(), dates.end()), dates.end());
  std::vector<std::string> said;
  for (const Date& d : dates) said.push_back(stated(Topic::visit, words.shown(d)));
  return in_words(words, said);
}

bool Builder::asks_official_sheet() const {
  const auto& sheet = in.basis.form.official_sheet;
  const auto& purpose = house.facts.purpose;
  if (!sheet || !sheet->name || !sheet->needed_for || !purpose) return false;
  return std::find(sheet->needed_for->begin(), sheet->needed_for->end(), yaml::word(*purpose)) !=
         sheet->needed_for->end();
}

std::string Builder::option_name(const Treatment& t) const {
  return t.of && !t.of->name.empty() ? stated(Topic::option, t.of->name, t.id) : t.id;
}

std::string Builder::run_words(const soundsill::Run& run) const {
  std::string out = plain_run_words(run);
  if (run.backfill) out = say(Word::run_backfill, F{"run", out});
  if (run.strength == 2) out = say(Word::run_half_volume, F{"run", out});
  if (run.gaps.empty()) return out;
  std::vector<std::string> gaps;
  for (const Stretch& s : run.gaps)
    gaps.push_back(words.name("wall") + " " + std::to_string(s.wall) + " " + words.name("from") + " " +
                   words.shown(s.a) + " " + words.name("to") + " " + words.shown(s.b));
  return say(Word::run_stations_gaps, F{"run", out}, F{"gaps", in_words(words, gaps)});
}

namespace {

constexpr Word run_word(RunKind kind) {
  constexpr Word words[] = {
#define RUN_KIND(name, traits, tip, size, listed, measures) Word::run_##name,
#include "treatment/run_kinds.def"
  };
  return words[static_cast<std::size_t>(kind)];
}

}  // namespace

std::string Builder::plain_run_words(const soundsill::Run& run) const {
  const bool whole = run.cu_ft >= Ratio(1000);
  Word word = run_word(run.kind);
  if (run.kind == RunKind::slab && !run.names.empty()) word = Word::run_slab_of;
  if (run.kind == RunKind::slab && run.names.empty() && !run.within) word = Word::run_paving;
  return say(word, F{"count", std::to_string(run.count)}, F{"names", in_words(words, run.names)},
             F{"area", shortest(run.sq_ft, 1)},
             F{"volume", whole ? grouped(run.cu_ft.rounded()) : shortest(run.cu_ft, 2)},
             F{"spacing", words.shown(run.spacing)});
}

namespace {

std::string signed_(const Ratio& r) { return (r > Ratio(0) ? "+" : "") + decimal(r, 1); }
std::string signed_(Money m) {
  return (m.cents < 0 ? "-" : m.cents > 0 ? "+" : "") + print(Money{m.cents < 0 ? -m.cents : m.cents});
}
std::string signed_(int n) { return (n > 0 ? "+" : "") + std::to_string(n); }

}  // namespace

std::string Builder::otherwise_words(const Otherwise& other) const {
  using What = Otherwise::What;
  std::vector<std::string> list;
  for (const int n : other.numbers) list.push_back(std::to_string(n));
  const std::string numbers = in_words(words, list);
  const bool deeper = other.step > Length{};
  const std::string step = say(deeper ? Word::otherwise_deeper : Word::otherwise_shallower,
                               F{"step", words.shown(deeper ? other.step : -other.step)});
  std::string what;
  if (other.what == What::walls)
    what = list.empty() ? say(Word::otherwise_all_walls, F{"step", step})
                        : say(Word::otherwise_walls, F{"numbers", numbers}, F{"step", step});
  else if (other.what == What::piers)
    what = say(Word::otherwise_piers, F{"numbers", numbers}, F{"step", step});
  else if (other.what == What::void_solid)
    what = list.empty() ? say(Word::otherwise_all_voids) : say(Word::otherwise_void, F{"numbers", numbers});
  else if (other.what == What::slab_empty)
    what = say(Word::otherwise_slab, F{"name", other.name});
  else
    what = say(Word::otherwise_thing, F{"name", other.name}, F{"step", step});
  what = structure_prefix(other.structure) + what;
  if (!other.changes()) return say(Word::otherwise_same, F{"what", what});
  if (other.holes != 0)
    return say(Word::otherwise_holes, F{"what", what}, F{"holes", signed_(other.holes)},
               F{"gallons", signed_(other.gallons)}, F{"amount", signed_(other.amount)});
  return say(Word::otherwise_change, F{"what", what}, F{"gallons", signed_(other.gallons)},
             F{"amount", signed_(other.amount)});
}

}  // namespace soundsill::document
