// Serves aftersale/papers.h. Proposal and service agreement: one clause for each item that a form can ask, in our own
// words.
#include <algorithm>

#include "aftersale/after_builder.h"

namespace soundsill::document {

using F = Words::Fill;
using soundsill::RunKind;

std::string item_id(AgreementItem item) {
  std::string out = "item-" + std::string(yaml::word(item));
  for (char& c : out)
    if (c == ' ') c = '-';
  return out;
}

namespace {

struct Clauses {
  const Builder& b;
  const Treatment& t;
  const Estimate& e;
  EstimatePages pages{b, t, e};

  [[nodiscard]] bool asked(AgreementItem item) const {
    const auto& rule = b.in.basis.form.agreement;
    if (!rule) return false;
    const auto& all = items(rule->items);
    return std::any_of(all.begin(), all.end(), [&](const ItemRule& i) { return i.item && *i.item == item; });
  }

  void clause(std::vector<Block>& blocks, AgreementItem item, Word heading, std::vector<Block> body) const {
    if (body.empty()) return;
    blocks.push_back(Heading{2, item_id(item), text(b.say(heading)), true});
    for (Block& block : body) blocks.push_back(std::move(block));
  }
  [[nodiscard]] static std::vector<Block> words(const std::string& said) {
    if (said.empty()) return {};
    return {Paragraph{"body", text(said)}};
  }

  [[nodiscard]] const WarrantyFacts* warranty() const { return pages.warranty_of(t); }
  [[nodiscard]] bool warranted() const {
    const WarrantyFacts* w = warranty();
    return w && w->kind && *w->kind != WarrantyKind::none;
  }

  [[nodiscard]] std::vector<const Finding*> treated() const { return treated_findings(b, t); }
  [[nodiscard]] std::vector<std::string> organisms() const { return treated_organisms(b, t); }
  [[nodiscard]] bool treats(OrganismGroup group) const {
    const auto all = treated();
    return std::any_of(all.begin(), all.end(), [&](const Finding* f) { return f->of_group(group); });
  }
  [[nodiscard]] bool preventive_only() const {
    bool any = false;
    for (const Task& task : t.tasks) {
      const bool ours = task.method && task.method->uses_product.value_or(false) && task.line->ours();
      if (ours && !task.line->answer_numbers.empty()) return false;
      any = any || ours;
    }
    return any;
  }

  [[nodiscard]] std::string inspection() const {
    const std::string& name = b.house.people.inspector.name;
    return name.empty() || b.visit_date().empty()
               ? std::string()
               : b.say(Word::ag_inspection, F{"name", name}, F{"date", b.visit_date()}, F{"paper", first_paper(b)});
  }
  [[nodiscard]] std::string owner() const {
    const std::string& name = owner_name(b);
    if (name.empty()) return {};
    std::string address;
    for (const resolved::Person* p : {&b.house.people.owner, &b.house.people.seller})
      if (address.empty() && p->name == name) address = p->address;
    // Nobody may take the house for the place where the owner lives.
    return address.empty() ? b.say(Word::ag_owner_here, F{"name", name}, F{"address", b.address_line()})
                           : b.say(Word::ag_owner, F{"name", name}, F{"address", address});
  }
  [[nodiscard]] std::string period() const {
    const auto& agreement = b.house.agreement;
    const std::string on = agreement && agreement->on ? b.words.shown(*agreement->on) : b.say(Word::ag_on_signing);
    if (!warranted()) return b.say(Word::ag_period_work, F{"date", on});
    return b.say(Word::ag_period, F{"date", on}, F{"months", std::to_string(warranty()->months.value_or(0))});
  }

  [[nodiscard]] std::vector<Block> promise() const {
    std::vector<Block> out;
    const auto names = organisms();
    if (names.empty()) return out;
    out.push_back(Paragraph{"body", text(b.say(Word::ag_organism, F{"names", in_words(b.words, names)}))});
    if (!warranted()) {
      out.push_back(Paragraph{"body", text(b.say(Word::warranty_none))});
      return out;
    }
    const WarrantyFacts& w = *warranty();
    const std::string months = std::to_string(w.months.value_or(0));
    out.push_back(Paragraph{
        "body", text(b.say(*w.kind == WarrantyKind::retreatment ? Word::warranty_retreatment : Word::warranty_repair,
                           F{"months", months}))});
    if (w.transfer) out.push_back(Paragraph{"body", text(b.say(Word::warranty_transfer, F{"transfer", *w.transfer}))});
    if (*w.kind == WarrantyKind::retreatment_and_repair) pages.stood_before(out);
    return out;
  }
  [[nodiscard]] std::vector<Block> retreatment() const {
    std::vector<Block> out;
    if (!warranted()) return words(b.say(Word::ag_retreatment_none));
    const auto list = [&](Word heading, const ListOf<std::string>& of) {
      if (!of || of->empty()) return;
      out.push_back(Paragraph{"body", text(b.say(heading))});
      List said;
      for (const std::string& one : *of) said.items.push_back(text(one));
      out.emplace_back(std::move(said));
    };
    list(Word::warranty_conditions, warranty()->conditions);
    list(Word::warranty_voided, warranty()->voided_by);
    beetles(out);
    return out;
  }
  void beetles(std::vector<Block>& out) const {
    const auto& rule = b.in.basis.form.beetles;
    const auto months = rule ? printed_value(rule->months) : std::nullopt;
    const auto days = rule ? printed_value(rule->days) : std::nullopt;
    if (!months || !days) return;
    if (treats(OrganismGroup::beetles))
      out.push_back(
          Paragraph{"body", text(b.say(Word::ag_beetles, F{"months", std::to_string(*months)},
                                       F{"days", std::to_string(*days)}, F{"cite", printed_cite(*rule->months)}))});
  }
  [[nodiscard]] std::string reinspection() const {
    if (!warranted()) return b.say(Word::ag_reinspection_none);
    const WarrantyFacts& w = *warranty();
    std::string out = w.reinspect_months
                          ? b.say(Word::ag_reinspection, F{"months", std::to_string(*w.reinspect_months)})
                          : b.say(Word::ag_reinspection_none);
    return asked(AgreementItem::renewal) ? out : out + " " + renewal();  // a clause of its own where the state asks it
  }
  [[nodiscard]] std::string covered() const {
    std::vector<std::string> places;
    for (const Finding* f : treated()) {
      if (!f->organism || f->in_soil()) continue;
      places.push_back(b.say(Word::ag_covered_one, F{"organism", b.organism_of(*f)}, F{"where", b.place_of(*f)},
                             F{"number", std::to_string(*f->no)}));
    }
    return places.empty() ? std::string() : b.say(Word::ag_covered, F{"list", in_words(b.words, places)});
  }
  [[nodiscard]] std::string basis() const {
    std::string out;
    for (const Finding* f : treated()) {
      if (!f->organism || f->in_soil() || !f->state) continue;
      const auto& why = f->basis.empty() ? f->signs : f->basis;
      if (why.empty()) continue;
      out += (out.empty() ? "" : " ") +
             b.say(Word::ag_basis, F{"number", std::to_string(*f->no)}, F{"organism", b.organism_of(*f)},
                   F{"state", b.words.name(yaml::word(*f->state))}, F{"basis", in_words(b.words, why)});
    }
    return out;
  }
  [[nodiscard]] std::string formosan() const {
    const WarrantyFacts* w = warranty();
    if (!warranted() || !w->formosan) return {};
    const bool repair = *w->kind == WarrantyKind::retreatment_and_repair;
    return b.say(!*w->formosan ? Word::ag_formosan_no : repair ? Word::ag_formosan_repair : Word::ag_formosan_retreat);
  }
  [[nodiscard]] std::string damage() const {
    std::vector<std::string> left;
    for (const Finding& f : b.house.findings) {
      if (!f.no || !f.is(FindingKind::damage)) continue;
      const auto answers = b.answers_to(f);
      const bool mended = std::any_of(answers.begin(), answers.end(), [](const Line* w) {
        return w->method && w->method->mends_damage.value_or(false) && w->ours();
      });
      if (!mended)
        left.push_back(b.say(Word::ag_damage_one, F{"number", std::to_string(*f.no)}, F{"where", b.place_of(f)}));
    }
    return left.empty() ? b.say(Word::ag_damage_none) : b.say(Word::ag_damage, F{"list", in_words(b.words, left)});
  }
  /// What the state wants to read word for word of the kind of warranty.
  [[nodiscard]] const Datum<std::string>* prescribed_statement() const {
    const auto& rule = b.in.basis.form.agreement;
    if (!rule || !warranted()) return nullptr;
    const auto& datum = *warranty()->kind == WarrantyKind::retreatment_and_repair ? rule->repair_statement
                                                                                  : rule->retreatment_statement;
    return datum && datum->value ? &*datum : nullptr;
  }
  /// The look of what the state prescribes word for word.
  [[nodiscard]] const char* statement_style() const {
    const auto& rule = b.in.basis.form.agreement;
    return rule && yes(rule->statements_boxed) ? "boxed" : "statement";
  }
  [[nodiscard]] static bool yes(const Field<Datum<bool>>& datum) { return datum && datum->value.value_or(false); }
  [[nodiscard]] std::string cancellation_cite() const {
    const auto& rule = b.in.basis.form.cancellation;
    return rule && rule->business_days ? printed_cite(*rule->business_days) : std::string();
  }
  [[nodiscard]] bool baits() const {
    return std::any_of(t.runs.begin(), t.runs.end(), [](const auto& r) { return r.kind == RunKind::stations; });
  }
  [[nodiscard]] std::string termites() const {
    std::vector<std::string> in, out;
    const auto against = organisms();
    for (const Organism& o : items(b.in.basis.trade.organisms)) {
      if (!o.name || !o.group || *o.group != OrganismGroup::termites) continue;
      const std::string name = b.words.name(o.plural.value_or(*o.name));
      const bool formosan = o.name->starts_with("Formosan") && warranted() && warranty()->formosan.value_or(false);
      const bool covered = formosan || std::any_of(against.begin(), against.end(), [&](const std::string& n) {
                             return n == name || n == o.plural.value_or(*o.name);
                           });
      (covered ? in : out).push_back(name);
    }
    if (in.empty()) return b.say(Word::ag_termites_none);
    return out.empty()
               ? b.say(Word::ag_termites_all, F{"names", in_words(b.words, in)})
               : b.say(Word::ag_termites, F{"names", in_words(b.words, in)}, F{"others", in_words(b.words, out)});
  }
  [[nodiscard]] std::string measures() const {
    std::vector<std::string> names;
    for (const Task& task : t.tasks) {
      const bool ours = task.method && task.method->uses_product.value_or(false) && task.line->ours();
      std::string name = ours ? uncapitalized(b.work_short(*task.line)) : std::string();
      if (ours && std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
    }
    if (names.empty()) return b.say(Word::ag_nothing_treated);
    const bool spot = t.of && t.of->partial();
    return b.say(spot ? Word::ag_measure_spot : Word::ag_measure, F{"names", in_words(b.words, names)});
  }
  [[nodiscard]] std::string structures() const {
    std::vector<std::string> in;
    for (const auto& run : t.runs)
      if (std::find(in.begin(), in.end(), run.structure) == in.end()) in.push_back(run.structure);
    return in.empty() ? b.address_line() : b.say(Word::ag_structures, F{"names", in_words(b.words, in)});
  }
  [[nodiscard]] std::string perimeter() const {
    std::vector<std::string> each;
    for (const SurveyedStructure& s : b.in.basis.survey.structures) {
      Length around;
      for (const Wall& wall : s.walls)
        for (const Stretch& one : wall.outer) around += one.length();
      if (around > Length{})
        each.push_back(
            b.say(Word::ag_perimeter, F{"structure", capitalized(s.name)}, F{"length", b.words.shown(around)}));
    }
    return in_clauses(each);
  }
  [[nodiscard]] std::string construction() const {
    std::vector<std::string> each;
    for (const SurveyedStructure& s : b.in.basis.survey.structures) {
      std::vector<std::string> parts;
      for (const SurveyedPart& part : s.parts) parts.push_back(b.words.name(yaml::word(part.foundation)));
      if (!parts.empty())
        each.push_back(
            b.say(Word::ag_construction, F{"structure", capitalized(s.name)}, F{"parts", in_words(b.words, parts)}));
    }
    return in_clauses(each);
  }
  [[nodiscard]] std::string conducive() const {
    std::vector<std::string> each;
    for (const Finding& f : b.house.findings)
      if (f.no && f.is(FindingKind::condition))
        each.push_back(b.say(Word::ag_numbered, F{"number", std::to_string(*f.no)},
                             F{"words", b.title_of(f) + ", " + b.place_of(f)}));
    return each.empty() ? b.say(Word::ag_no_conducive) : in_clauses(each);
  }
  [[nodiscard]] std::string renewal() const {
    if (!warranted() || !warranty()->renewal) return b.say(Word::ag_no_renewal);
    return b.say(Word::warranty_renewal, F{"fee", print(*warranty()->renewal)});
  }
  [[nodiscard]] std::string labels() const {
    std::vector<std::string> names;
    for (const auto& mix : t.mixes)
      if (mix.product && mix.product->name)
        names.push_back(b.say(Word::ag_label_one, F{"name", *mix.product->name},
                              F{"registration", mix.product->registration ? mix.product->registration->text : "-"}));
    return names.empty() ? std::string() : b.say(Word::ag_label, F{"names", in_clauses(names)});
  }
  [[nodiscard]] std::string free_treatment() const {
    const auto until = free_until(b.in.basis.form, b.in.basis.resolved);
    const auto days = free_days(b.in.basis.form, b.in.basis.resolved);
    if (!until || !days) return {};
    return b.say(Word::ag_free, F{"date", b.words.shown(*until)}, F{"days", std::to_string(*days)},
                 F{"cite", printed_cite(*b.in.basis.form.free_treatment)});
  }
};

/// What the drawing has to show, said in words too: a row for each, so that nothing hangs on the eye.
struct Shown {
  const Builder& b;
  const Treatment& t;
  Table out{};

  void put(AgreementItem item, Word what, std::string said) {
    if (!said.empty()) out.rows.push_back(row_of({strong(b.say(what)), text(std::move(said))}, item_id(item)));
  }

  [[nodiscard]] std::string numbered(const Finding& f, const std::string& words) const {
    return b.say(Word::ag_numbered, F{"number", std::to_string(*f.no)}, F{"words", words});
  }
  [[nodiscard]] std::string water() const {
    std::vector<std::string> list;
    for (const Structure& s : b.house.structures)
      for (const SurveyedDanger& danger : s.details->dangers) {
        if (danger.key != "well" && danger.key != "cistern" && danger.key != "pond") continue;
        if (danger.answer && danger.answer->kind == Answer::Kind::there)
          list.push_back(b.say(Word::danger_there, F{"danger", b.words.name(danger.key)},
                               F{"places", in_words(b.words, danger.answer->places)}));
        if (danger.answer && danger.answer->kind == Answer::Kind::not_known)
          list.push_back(
              b.say(Word::danger_there, F{"danger", b.words.name(danger.key)}, F{"places", b.words.name("not known")}));
      }
    return list.empty() ? b.say(Word::ag_no_water) : in_clauses(list);
  }
  [[nodiscard]] std::string evidence() const {
    std::vector<std::string> list;
    for (const Finding& f : b.house.findings)
      if (f.no && f.is(FindingKind::evidence)) list.push_back(numbered(f, b.organism_of(f) + ", " + b.place_of(f)));
    return list.empty() ? b.say(Word::ag_no_evidence) : in_clauses(list);
  }
  [[nodiscard]] std::string states() const {
    std::vector<std::string> list;
    for (const Finding& f : b.house.findings)
      if (f.no && f.is(FindingKind::evidence) && f.state)
        list.push_back(numbered(f, f.live_seen ? b.say(Word::ag_active_live) : b.words.name(yaml::word(*f.state))));
    return list.empty() ? b.say(Word::ag_no_evidence) : in_clauses(list);
  }
  [[nodiscard]] std::string timbers() const {
    std::vector<std::string> list;
    for (const Finding& f : b.house.findings)
      if (f.no && f.is(FindingKind::damage)) list.push_back(numbered(f, b.place_of(f)));
    return list.empty() ? b.say(Word::ag_no_damage) : in_clauses(list);
  }
  [[nodiscard]] std::string portions() const {
    std::vector<std::string> list;
    for (const auto& run : t.runs) {
      const std::string places = run_places(b, run);
      const std::string words = b.run_words(run) + (places.empty() ? "" : ", " + places);
      list.push_back(b.say(Word::ag_run, F{"number", std::to_string(run.number)}, F{"words", words}));
    }
    for (const Task& task : t.tasks)
      if (task.runs.empty() && task.method && task.method->uses_product.value_or(false) && task.line->ours())
        list.push_back(b.work_title(*task.line));
    std::string said = list.empty() ? b.say(Word::ag_nothing_treated) : in_clauses(list);
    const auto left = b.left_words(t);
    for (const std::string& one : left) said += (said.ends_with(".") ? " " : ". ") + one;
    if (left.empty()) said += ". " + b.say(Word::ag_nothing_left);
    return said;
  }
  [[nodiscard]] std::string bait() const {
    int count = 0;
    for (const auto& run : t.runs)
      if (run.kind == RunKind::stations) count += run.count;
    return count ? b.say(Word::ag_stations, F{"n", std::to_string(count)}) : std::string();
  }
  [[nodiscard]] std::string moisture() const {
    std::vector<std::string> list;
    for (const Finding& f : b.house.findings)
      for (const resolved::Reading& r : f.moisture)
        if (f.no && r.percent && !r.where.empty())
          list.push_back(numbered(
              f, b.say(Word::moisture_value, F{"percent", shortest(r.percent->value, 1)}, F{"where", r.where})));
    return in_clauses(list);
  }

  Table table() {
    out.style = "facts";
    out.caption = b.say(Word::ag_shown_caption);
    out.row_heads = true;
    out.columns = {{b.say(Word::ag_column_shown), Column::Align::left, 2, false},
                   {b.say(Word::ag_column_words), Column::Align::left, 7, false}};
    put(AgreementItem::water_sources, Word::ag_water, water());
    put(AgreementItem::visible_evidence, Word::ag_evidence, evidence());
    put(AgreementItem::active_or_inactive, Word::ag_state, states());
    put(AgreementItem::damaged_timbers, Word::ag_timbers, timbers());
    put(AgreementItem::treated_and_not, Word::ag_portions, portions());
    put(AgreementItem::bait_devices, Word::ag_bait, bait());
    put(AgreementItem::moisture_readings, Word::ag_moisture, moisture());
    return std::move(out);
  }
};

Section diagram(const Builder& b, const Treatment& t) {
  Section out{"drawing", "drawing", {}};
  out.blocks.push_back(Heading{2, item_id(AgreementItem::diagram), text(b.say(Word::ag_diagram)), true});
  plans(b, t, Plans::all, Word::ag_drawing_alt, Word::ag_drawing_caption, out.blocks);
  out.blocks.emplace_back(Shown{b, t}.table());
  return out;
}

/// Whatever the option leaves out of the minimum, with its reason: what goes on the state's own form.
void worksheet(const Builder& b, const Treatment& t, std::vector<Block>& blocks) {
  Table out;
  out.style = "plain";
  out.caption = b.say(Word::ag_waiver_caption);
  out.columns = {{b.say(Word::ag_column_left), Column::Align::left, 5, false},
                 {b.say(Word::column_why), Column::Align::left, 4, false},
                 {b.say(Word::ag_column_signed), Column::Align::left, 3, false}};
  const auto signed_words = [&](const std::string& by, const std::optional<Date>& on) {
    return on ? b.say(Word::name_and_day, F{"name", by}, F{"date", b.words.shown(*on)}) : b.say(Word::wo_line);
  };
  const auto owner = [&](const resolved::WaiverSheet* sheet) {
    const bool accepted =
        sheet && sheet->owner_accepts && !sheet->owner_accepts->by.empty() && sheet->owner_accepts->on;
    return accepted ? signed_words(sheet->owner_accepts->by, sheet->owner_accepts->on) : b.say(Word::wo_line);
  };
  // One sheet for the whole option gives its reason and signature to all that the drawing shows as left out.
  const bool partial = t.of && t.of->partial();
  const resolved::WaiverSheet* whole = partial ? sheet_of(b.in.basis.resolved, t.id, {}) : nullptr;
  if (partial)
    for (const std::string& left : b.left_words(t))
      out.rows.push_back(row_of({text(left),
                                 text(whole && !whole->because.empty() ? whole->because
                                      : !t.of->because.empty()         ? capitalized(t.of->because)
                                                                       : b.say(Word::wo_line)),
                                 text(owner(whole))}));
  for (const resolved::WaiverSheet* sheet : sheets_of(b.in.basis.resolved, t.id))
    if (sheet != whole && !sheet->leaves_out.empty())
      out.rows.push_back(row_of({text(sheet->leaves_out), text(sheet->because), text(owner(sheet))}));
  std::vector<std::string> told;
  for (const Task& task : t.tasks) {
    const auto& w = task.line->waiver;
    if (!w || std::find(told.begin(), told.end(), task.line->id) != told.end()) continue;
    told.push_back(task.line->id);
    out.rows.push_back(row_of({text(b.work_title(*task.line)), text(w->because), text(signed_words(w->by, w->on))}));
  }
  if (out.rows.empty()) return;
  const auto& rule = b.in.basis.form.partial;
  blocks.push_back(Heading{2, "waiver", text(b.say(Word::ag_waiver_heading)), true});
  // Where no state asks for a form of its own, the owner signs here.
  const bool on_a_form = rule && rule->value && *rule->value == Partial::waiver;
  blocks.push_back(Paragraph{
      "body", text(on_a_form ? b.say(Word::ag_waiver, F{"cite", printed_cite(*rule)}) : b.say(Word::ag_waiver_here))});
  blocks.emplace_back(std::move(out));
}

/// What nobody has read cannot have been met: the paper stays a proposal.
Word title_of(const Form& form) { return form.has_read(Matter::agreement) ? Word::ag_title : Word::ag_title_proposal; }

void unread(const Builder& b, std::vector<Block>& blocks) {
  const Form& form = b.in.basis.form;
  if (form.has_read(Matter::agreement)) return;
  std::vector<std::string> parts;
  for (const Unread& part : *form.unread)
    if (part.what && part.matter && *part.matter == Matter::agreement) parts.push_back(*part.what);
  blocks.push_back(Paragraph{
      "note", text(b.say(Word::ag_unread, F{"form", form.name.value_or("")}, F{"parts", in_words(b.words, parts)}))});
}

void first_page(const Clauses& k, std::vector<Block>& blocks) {
  const Builder& b = k.b;
  const Datum<std::string>* prescribed = k.prescribed_statement();
  const bool first = prescribed && Clauses::yes(b.in.basis.form.agreement->statement_first);
  if (first) blocks.push_back(Paragraph{k.statement_style(), b.typed(*prescribed->value)});
  blocks.push_back(Heading{1, "top", text(b.say(title_of(b.in.basis.form))), true});
  blocks.push_back(
      Paragraph{"lead", text(b.say(Word::ag_lead, F{"address", b.address_line()}, F{"option", option_title(b)}))});
  unread(b, blocks);
  // The kind of warranty in letters that cannot be passed over.
  const WarrantyFacts* w = k.warranty();
  const Word kind = !k.warranted()                                     ? Word::ag_kind_none
                    : *w->kind == WarrantyKind::retreatment_and_repair ? Word::ag_kind_repair
                                                                       : Word::ag_kind_retreatment;
  blocks.push_back(Heading{2, item_id(AgreementItem::warranty_kind), text(b.say(Word::ag_kind_heading)), true});
  if (first)
    blocks.push_back(Paragraph{"body", strong(b.say(kind))});
  else if (prescribed)
    blocks.push_back(Paragraph{k.statement_style(), b.typed(*prescribed->value)});
  else
    blocks.push_back(Paragraph{"statement", text(b.say(kind))});
  const auto asked = [&](AgreementItem item, Word heading, const std::string& said) {
    if (k.asked(item)) k.clause(blocks, item, heading, Clauses::words(said));
  };
  asked(AgreementItem::kinds_of_termites, Word::ag_termites_heading, k.termites());
  asked(AgreementItem::control_or_prevention, Word::ag_aim_heading,
        b.say(k.preventive_only() ? Word::ag_aim_prevention : Word::ag_aim_control));
  if (const auto& rule = b.in.basis.form.agreement; rule && rule->bait_statement && k.baits()) {
    blocks.push_back(Heading{2, item_id(AgreementItem::bait_statement), text(b.say(Word::ag_bait)), true});
    blocks.push_back(Paragraph{k.statement_style(), b.typed(rule->bait_statement->value.value_or(""))});
  }
}

void parties(const Clauses& k, std::vector<Block>& blocks) {
  const Builder& b = k.b;
  k.clause(blocks, AgreementItem::owner, Word::ag_owner_heading, Clauses::words(k.owner()));
  const auto& email = b.in.basis.company.email;
  k.clause(blocks, AgreementItem::company, Word::ag_company_heading,
           Clauses::words(company_line(b) + (email ? ", " + *email : "")));
  k.clause(blocks, AgreementItem::license, Word::ag_license_heading, Clauses::words(license_line(b)));
  std::vector<std::string> structures;
  for (const SurveyedStructure& s : b.in.basis.survey.structures) structures.push_back(s.name);
  k.clause(blocks, AgreementItem::location, Word::ag_location_heading,
           Clauses::words(b.say(Word::ag_location, F{"address", b.address_line()},
                                F{"structures", in_words(b.words, structures)})));
  k.clause(blocks, AgreementItem::inspection, Word::ag_inspection_heading, Clauses::words(k.inspection()));
  k.clause(blocks, AgreementItem::period, Word::ag_period_heading, Clauses::words(k.period()));
}

void terms(const Clauses& k, std::vector<Block>& blocks) {
  const Builder& b = k.b;
  const auto asked = [&](AgreementItem item, Word heading, const std::string& said) {
    if (k.asked(item)) k.clause(blocks, item, heading, Clauses::words(said));
  };
  asked(AgreementItem::control_measure, Word::ag_measure_heading, k.measures());
  asked(AgreementItem::structures, Word::ag_structures_heading, k.structures());
  asked(AgreementItem::perimeter, Word::ag_perimeter_heading, k.perimeter());
  asked(AgreementItem::construction, Word::ag_construction_heading, k.construction());
  asked(AgreementItem::conducive, Word::ag_conducive_heading, k.conducive());
  k.clause(blocks, AgreementItem::organism, Word::ag_organism_heading, k.promise());
  k.clause(blocks, AgreementItem::covered_part, Word::ag_covered_heading, Clauses::words(k.covered()));
  k.clause(blocks, AgreementItem::basis, Word::ag_basis_heading, Clauses::words(k.basis()));
  k.clause(blocks, AgreementItem::formosan, Word::ag_formosan_heading, Clauses::words(k.formosan()));
  k.clause(blocks, AgreementItem::retreatment, Word::ag_retreatment_heading, k.retreatment());
  k.clause(blocks, AgreementItem::reinspection,
           k.asked(AgreementItem::renewal) ? Word::ag_reinspection_alone : Word::ag_reinspection_heading,
           Clauses::words(k.reinspection()));
  asked(AgreementItem::renewal, Word::ag_renewal_heading, k.renewal());
  if (const auto& bond = b.in.basis.company.bond)
    k.clause(blocks, AgreementItem::bond, Word::ag_bond_heading, {Paragraph{"body", b.typed(*bond)}});
  asked(AgreementItem::notice_to_owner, Word::ag_owner_notice_heading, b.say(Word::ag_owner_notice));
  k.clause(blocks, AgreementItem::damage_left, Word::ag_damage_heading, Clauses::words(k.damage()));
  if (k.preventive_only())
    k.clause(blocks, AgreementItem::preventive, Word::ag_preventive_heading,
             {Paragraph{"caution", strong(b.say(Word::ag_preventive))}});
  if (const std::string free = k.free_treatment(); !free.empty()) {
    blocks.push_back(Heading{2, "free-treatment", text(b.say(Word::ag_free_heading)), true});
    blocks.push_back(Paragraph{"body", text(free)});
  }
}

Section price(const Clauses& k) {
  const Builder& b = k.b;
  Section out{"estimate", "price", {}};
  std::vector<Block> body{k.pages.lines()};
  if (k.e.holds_until)
    body.push_back(Paragraph{"note", text(b.say(Word::price_holds, F{"date", b.words.shown(*k.e.holds_until)}))});
  k.pages.others(body);
  k.clause(out.blocks, AgreementItem::price, Word::ag_price_heading, std::move(body));
  k.pages.limits_of_price(out.blocks);
  if (k.asked(AgreementItem::product_label))
    k.clause(out.blocks, AgreementItem::product_label, Word::ag_label_heading, Clauses::words(k.labels()));
  if (can_be_canceled(b.in))
    k.clause(out.blocks, AgreementItem::cancellation, Word::ag_cancellation_heading,
             Clauses::words(b.say(Word::ag_cancellation, F{"cite", k.cancellation_cite()})));
  return out;
}

Section signing(const Clauses& k) {
  const Builder& b = k.b;
  Section out{"signatures", "signatures", {}};
  out.blocks.push_back(Heading{2, item_id(AgreementItem::signature), text(b.say(Word::signatures_heading)), true});
  Signatures s;
  s.name_label = b.say(Word::sign_name);
  s.date_label = b.say(Word::sign_date);
  Signature company{text(b.say(Word::ag_sign_company)), b.say(Word::ag_who_company), {}, {}};
  const auto& a = b.house.agreement;
  if (a && !a->by.empty() && a->on) {
    company.name = a->by;
    company.date = b.words.shown(*a->on);
  }
  s.lines.push_back(std::move(company));
  if (can_be_canceled(b.in)) {  // in immediate proximity to the buyer's line
    out.blocks.emplace_back(s);
    s.lines.clear();
    cancellation_statement(b, out.blocks);
  }
  Signature payer{text(b.say(Word::ag_sign_payer, F{"total", print(k.e.total)})), b.say(Word::who_payer), {}, {}};
  if (const auto& accepted = b.house.accepted; accepted && !accepted->by.empty() && accepted->on) {
    payer.name = accepted->by;
    payer.date = b.words.shown(*accepted->on);
  }
  s.lines.push_back(std::move(payer));
  out.blocks.emplace_back(std::move(s));
  out.blocks.push_back(
      Heading{3, item_id(AgreementItem::owner_signature), text(b.say(Word::ag_sign_owner_heading)), true});
  Signatures owner;
  owner.name_label = b.say(Word::sign_name);
  owner.date_label = b.say(Word::sign_date);
  owner.lines.push_back(
      {text(b.say(k.preventive_only() ? Word::ag_sign_preventive : Word::sign_owner)), b.say(Word::who_owner), {}, {}});
  out.blocks.emplace_back(std::move(owner));
  return out;
}

}  // namespace

Document agreement(const PacketInput& in) {
  const Builder b{in};
  Document out = begun(b, "paper", title_of(in.basis.form));
  if (b.house.agreement && b.house.agreement->on) out.created = print(*b.house.agreement->on);
  const Treatment* t = b.main_treatment();
  if (!t || in.estimates.empty()) return out;
  const Clauses k{b, *t, in.estimates.front()};
  Section first{"head", "head", {}};
  first_page(k, first.blocks);
  parties(k, first.blocks);
  out.sections.push_back(std::move(first));
  out.sections.push_back(diagram(b, *t));
  Section body{"body", "body", {}};
  terms(k, body.blocks);
  out.sections.push_back(std::move(body));
  out.sections.push_back(price(k));
  Section waiver{"waiver", "waiver-sheet", {}};
  worksheet(b, *t, waiver.blocks);
  if (!waiver.blocks.empty()) out.sections.push_back(std::move(waiver));
  out.sections.push_back(signing(k));
  cancellation_notices(b, out.sections);
  return out;
}

namespace {

/// Whether an item can be asked of this case at all.
bool applies(const PacketInput& in, AgreementItem item) {
  const Builder b{in};
  const Treatment* t = b.main_treatment();
  if (!t || in.estimates.empty()) return false;
  const Clauses k{b, *t, in.estimates.front()};
  const bool beyond_soil =
      k.treats(OrganismGroup::beetles) || k.treats(OrganismGroup::ants) || k.treats(OrganismGroup::bees);
  switch (item) {
    case AgreementItem::bait_devices:
      return std::any_of(t->runs.begin(), t->runs.end(), [](const auto& r) { return r.kind == RunKind::stations; });
    case AgreementItem::moisture_readings:
      return k.treats(OrganismGroup::fungi);
    case AgreementItem::covered_part:
    case AgreementItem::basis:
      return beyond_soil;
    case AgreementItem::preventive:
      return k.preventive_only();
    case AgreementItem::organism:
      return !k.organisms().empty();
    case AgreementItem::formosan:
      return k.warranted();
    case AgreementItem::bait_statement:
      return k.baits();
    case AgreementItem::bond:
      return in.basis.company.bond.written();
    case AgreementItem::cancellation:
      return can_be_canceled(in);
    case AgreementItem::product_label:
      return !t->mixes.empty();
    case AgreementItem::kinds_of_termites:
      return k.treats(OrganismGroup::termites);
    default:
      return true;
  }
}

struct Spoken {
  std::string id;
  bool says = false;
};

/// What stands under each heading and in each row that bears an id. Rules of tables and drawings count as words.
std::vector<Spoken> spoken(const Document& paper) {
  std::vector<Spoken> out;
  for (const Section& s : paper.sections) {
    std::optional<std::size_t> open;
    for (const Block& block : s.blocks) {
      if (const auto* heading = std::get_if<Heading>(&block.kind)) {
        open = out.size();
        out.push_back({heading->id, false});
        continue;
      }
      Document one;
      one.sections.push_back({"", "", {block}});
      if (open) out[*open].says = out[*open].says || !strings(one).empty();
      if (const auto* table = std::get_if<Table>(&block.kind))
        for (const Row& row : table->rows)
          if (!row.id.empty()) out.push_back({row.id, row.cells.size() > 1 && !row.cells.back().empty()});
    }
  }
  return out;
}

}  // namespace

std::vector<MissingItem> missing_items(const PacketInput& in, const Document& paper) {
  std::vector<MissingItem> out;
  const auto& rule = in.basis.form.agreement;
  if (!rule) return out;
  const auto said = spoken(paper);
  for (const ItemRule& item : items(rule->items)) {
    if (!item.item || !applies(in, *item.item)) continue;
    const std::string id = item_id(*item.item);
    const bool there = std::any_of(said.begin(), said.end(), [&](const Spoken& s) { return s.id == id && s.says; });
    if (!there) out.push_back({&item});
  }
  return out;
}

}  // namespace soundsill::document
