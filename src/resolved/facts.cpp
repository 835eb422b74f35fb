// The facts of a case taken over as plain values.
#include "resolved/fill.h"

namespace soundsill::resolved {
namespace {

CaseFacts facts_of(const Field<soundsill::CaseFacts>& typed) {
  CaseFacts out;
  if (!typed) return out;
  out.number = text(typed->number);
  out.revision = typed->revision.value_or(1);
  if (typed->replaces)
    out.replaces =
        Replaces{value(typed->replaces->revision), value(typed->replaces->on), text(typed->replaces->because)};
  out.ordered = value(typed->ordered);
  out.due_diligence = value(typed->due_diligence);
  out.closing = value(typed->closing);
  out.purpose = value(typed->purpose);
  out.loan = typed->loan.value_or(Loan::none);
  out.loan_said = static_cast<bool>(typed->loan);
  out.sold_at = value(typed->sold_at);
  out.senior = value(typed->senior);
  out.sold_in = value(typed->sold_in);
  out.control_number = text(typed->control_number);
  return out;
}

Person person(const Field<soundsill::Person>& typed) {
  if (!typed) return {};
  return {text(typed->name), text(typed->address), text(typed->phone), text(typed->email), text(typed->license),
          typed->at,         typed->name.at,       typed->license.at};
}

People people_of(const Field<soundsill::People>& typed) {
  if (!typed) return {};
  return {person(typed->inspector), person(typed->buyer),  person(typed->seller), person(typed->owner),
          person(typed->agent),     person(typed->lender), person(typed->payer),  person(typed->closing_attorney),
          person(typed->veteran)};
}

Address address_of(const Case& c) {
  Address out;
  out.line = c.address_line();
  if (!c.property || !c.property->address) return out;
  const soundsill::Address& typed = *c.property->address;
  out.street = text(typed.street);
  out.city = text(typed.city);
  out.county = text(typed.county);
  out.state = text(typed.state);
  out.zip = text(typed.zip);
  out.at = typed.at;
  return out;
}

Structure structure(const soundsill::Structure& typed, const Survey& survey) {
  Structure out;
  out.name = text(typed.name);
  out.kind = text(typed.kind);
  out.inspected = typed.looked_at();
  out.because = text(typed.because);
  out.photos = photos(typed.photos);
  for (const SurveyedStructure& s : survey.structures)
    if (s.facts == &typed) out.survey = out.details = &s;
  for (const SurveyedStructure& s : survey.not_inspected)
    if (s.facts == &typed) out.details = &s;
  out.at = typed.at;
  out.typed = &typed;
  return out;
}

Visit visit(const soundsill::Visit& typed) {
  return {text(typed.id),    value(typed.date),  typed.made_for.value_or(VisitFor::inspection),
          value(typed.from), value(typed.to),    text(typed.weather),
          text(typed.by),    items(typed.tools), typed.at};
}

std::optional<Consent> consent(const Field<soundsill::Consent>& typed) {
  if (!typed) return std::nullopt;
  return Consent{text(typed->by), value(typed->on), typed->at};
}

std::optional<Job> job(const Field<soundsill::Job>& typed) {
  if (!typed) return std::nullopt;
  Job out{value(typed->on), items(typed->crew), std::nullopt, items(typed->notes), typed->at, typed->on.at};
  if (const auto& l = typed->locate)
    out.locate = Locate{text(l->ticket), value(l->called), value(l->from), value(l->until), l->at};
  return out;
}

std::vector<Adjustment> adjustments(const ListField<soundsill::Adjustment>& typed) {
  std::vector<Adjustment> out;
  for (const soundsill::Adjustment& a : items(typed))
    if (a.kind && (a.percent || a.amount))
      out.push_back({*a.kind, value(a.percent), a.amount.value_or(Money{}), text(a.because), !a.options.written(),
                     items(a.options), a.at, &a});
  return out;
}

WaiverSheet sheet(const soundsill::WaiverSheet& typed) {
  WaiverSheet out;
  out.option = text(typed.option);
  if (typed.lines.written()) out.lines = items(typed.lines);
  out.leaves_out = text(typed.leaves_out);
  out.because = text(typed.because);
  out.by = text(typed.by);
  out.on = value(typed.on);
  out.owner_signs = typed.owner_accepts.written();
  out.owner_accepts = consent(typed.owner_accepts);
  out.agreed_after = consent(typed.agreed_after);
  out.at = typed.at;
  out.typed = &typed;
  return out;
}

AppliedRun applied_run(const soundsill::AppliedRun& typed) {
  return {value(typed.run),
          value(typed.gal),
          typed.holes.value_or(0),
          typed.plugged.value_or(0),
          waiver(typed.untreated),
          typed.at,
          typed.run.at,
          typed.gal.at,
          typed.holes.at,
          typed.plugged.at};
}

Applied applied(const soundsill::Applied& typed) {
  Applied out;
  out.on = value(typed.on);
  out.from = value(typed.from);
  out.to = value(typed.to);
  out.retreatment = typed.retreatment.value_or(false);
  out.because = text(typed.because);
  out.crew = items(typed.crew);
  out.weather = text(typed.weather);
  for (const soundsill::AppliedProduct& p : items(typed.products))
    out.products.push_back({text(p.product), value(p.strength), value(p.fl_oz), p.at, p.product.at, p.strength.at});
  for (const soundsill::AppliedRun& run : items(typed.runs)) out.runs.push_back(applied_run(run));
  out.done = items(typed.done);
  out.photos = photos(typed.photos);
  out.goes_on = value(typed.goes_on);
  out.at = typed.at;
  out.on_at = typed.on.at;
  out.done_at = typed.done.at;
  out.typed = &typed;
  return out;
}

std::optional<Invoice> invoice(const Field<soundsill::Invoice>& typed) {
  if (!typed) return std::nullopt;
  Invoice out;
  out.number = text(typed->number);
  out.on = value(typed->on);
  for (const soundsill::Fee& fee : items(typed->fees))
    out.fees.push_back({text(fee.what), fee.amount.value_or(Money{}), fee.at});
  for (const soundsill::Payment& p : items(typed->paid))
    out.paid.push_back({value(p.on), p.amount.value_or(Money{}), text(p.by), text(p.how), p.at});
  out.veteran_pays = typed->veteran_pays.value_or(false);
  out.notice_requires = typed->notice_requires.value_or(false);
  out.at = typed->at;
  out.on_at = typed->on.at;
  out.veteran_pays_at = typed->veteran_pays.at;
  return out;
}

WarrantyEvent event(const soundsill::WarrantyEvent& typed) {
  return {
      value(typed.did),    value(typed.on),      text(typed.visit), value(typed.paid), text(typed.to), text(typed.by),
      text(typed.because), value(typed.settled), typed.at,          typed.on.at,       &typed};
}

/// What stands in a block of its own, once for a case.
void fill_blocks(const Case& c, Resolved& out) {
  if (const auto& s = c.signature)
    out.signature = Signature{text(s->name), value(s->on), text(s->interest), s->at, s->on.at};
  if (const auto& o = c.official_sheet)
    out.official_sheet =
        OfficialSheet{value(o->signed_on), text(o->by), text(o->name), value(o->edition), text(o->address), o->at};
  if (const auto& a = c.accepted)
    out.accepted = Accepted{text(a->option), text(a->by), value(a->on), value(a->total), a->at, a->option.at};
  if (const auto& a = c.agreement)
    out.agreement = Agreement{
        value(a->on), text(a->by), items(a->attached), value(a->free_days), value(a->fungus_notice), a->at, a->on.at};
  out.job = job(c.job);
  out.invoice = invoice(c.invoice);
}

}  // namespace

std::vector<Photo> photos(const ListField<PhotoFile>& list) {
  std::vector<Photo> out;
  for (const PhotoFile& typed : items(list)) {
    Photo photo{text(typed.file), text(typed.shows), value(typed.crop), {}, typed.at, typed.file.at, &typed};
    for (const soundsill::PhotoMark& m : items(typed.marks))
      if (m.kind && m.from && m.to) photo.marks.push_back({*m.kind, *m.from, *m.to});
    out.push_back(std::move(photo));
  }
  return out;
}

std::optional<Waiver> waiver(const Field<soundsill::Waiver>& typed) {
  if (!typed) return std::nullopt;
  return Waiver{text(typed->by), text(typed->because), value(typed->on), typed->at};
}

void fill_facts(const Case& c, const Survey& survey, Resolved& out) {
  out.blocks = {c.at, c.people.key, c.property.key, c.findings.key, c.options.key, c.accepted.key};
  out.facts = facts_of(c.facts);
  out.people = people_of(c.people);
  out.address = address_of(c);
  for (const soundsill::Structure& s : c.structures()) out.structures.push_back(structure(s, survey));
  for (const soundsill::Visit& v : items(c.visits)) out.visits.push_back(visit(v));
  fill_blocks(c, out);
  out.adjustments = adjustments(c.adjustments);
  for (const soundsill::WaiverSheet& s : items(c.waivers)) out.waivers.push_back(sheet(s));
  for (const soundsill::Applied& day : items(c.applied)) out.applied.push_back(applied(day));
  for (const soundsill::Filed& f : items(c.filed))
    out.filed.push_back({text(f.paper), value(f.on), f.at, f.paper.at, f.on.at});
  for (const soundsill::WarrantyEvent& e : items(c.warranty)) out.warranty.push_back(event(e));
  for (const Work& w : items(c.work))
    if (w.waiver.written()) out.line_waivers.push_back(waiver(w.waiver).value_or(Waiver{}));
}

}  // namespace soundsill::resolved
