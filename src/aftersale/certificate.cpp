// Serves aftersale/papers.h. The certificate of a warranty, and the letters of the office about what comes due.
#include <algorithm>

#include "aftersale/after_builder.h"

namespace soundsill::document {

using F = Words::Fill;

namespace {

Facts holder_facts(const Builder& b, const Term& term) {
  FactList list{b, {}};
  list.out.columns = 3;
  list.put(Word::cert_holder, term.holder);
  list.put(Word::inv_property, b.address_line());
  list.put(Word::cert_from, b.words.shown(term.from));
  list.put(Word::cert_until, b.words.shown(term.until));
  list.put(Word::cert_renewals, std::to_string(term.renewals));
  if (term.facts->renewal) list.put(Word::cert_fee, print(*term.facts->renewal));
  list.put(Word::column_option, option_title(b));
  list.put(Word::rec_follows, first_paper(b));
  list.put(Word::fact_company, company_line(b));
  return std::move(list.out);
}

/// What happened since, each on its day and by its visit.
Table history(const Builder& b) {
  Table out;
  out.style = "plain";
  out.caption = b.say(Word::cert_history_caption);
  out.row_heads = true;
  out.columns = {{b.say(Word::wo_day), Column::Align::left, 2, false},
                 {b.say(Word::cert_column_event), Column::Align::left, 3, false},
                 {b.say(Word::rec_column_note), Column::Align::left, 6, false}};
  for (const resolved::WarrantyEvent& e : b.house.warranty) {
    if (!e.did || !e.on) continue;
    std::vector<std::string> notes;
    if (!e.to.empty()) notes.push_back(b.say(Word::cert_to, F{"name", e.to}));
    if (!e.by.empty()) notes.push_back(b.say(Word::cert_by, F{"name", e.by}));
    if (e.paid) notes.push_back(b.say(Word::cert_paid, F{"amount", print(*e.paid)}));
    if (!e.because.empty()) notes.push_back(e.because);
    for (const Visit& v : b.house.visits)
      if (!e.visit.empty() && v.id == e.visit && v.date)
        notes.push_back(b.say(Word::cert_visit, F{"date", b.words.shown(*v.date)}));
    if (e.settled) notes.push_back(b.say(Word::cert_settled, F{"date", b.words.shown(*e.settled)}));
    out.rows.push_back(row_of({text(b.words.shown(*e.on)),
                               strong(capitalized(b.words.name("event " + std::string(yaml::word(*e.did))))),
                               text(in_clauses(notes))}));
  }
  for (const resolved::Applied& day : b.house.applied)
    if (day.on && day.retreatment)
      out.rows.push_back(row_of(
          {text(b.words.shown(*day.on)), strong(capitalized(b.words.name("event retreated"))), text(day.because)}));
  return out;
}

/// How long the state's notice of active beetles obliges the company.
void beetles(const Builder& b, const Treatment& t, const Term& term, std::vector<Block>& blocks) {
  const Form& form = b.in.basis.form;
  const auto until = beetles_until(form, term.from);
  const auto all = treated_findings(b, t);
  const bool any =
      std::any_of(all.begin(), all.end(), [&](const Finding* f) { return f->of_group(OrganismGroup::beetles); });
  if (any && until && form.beetles->days && form.beetles->days->value)
    blocks.push_back(Paragraph{"body", text(b.say(Word::cert_beetles, F{"date", b.words.shown(*until)},
                                                  F{"days", std::to_string(*form.beetles->days->value)},
                                                  F{"cite", printed_cite(*form.beetles->months)}))});
}

}  // namespace

Document certificate(const PacketInput& in) {
  const Builder b{in};
  Document out = begun(b, "paper", Word::cert_title);
  const Treatment* t = b.main_treatment();
  const auto term = t ? term_of(in.basis, *t) : std::nullopt;
  if (!term || in.estimates.empty()) return out;
  out.created = print(term->from);
  const EstimatePages pages{b, *t, in.estimates.front()};
  Section first{"head", "head", {}};
  first.blocks.push_back(Heading{1, "top", text(b.say(Word::cert_title)), true});
  const bool repair = *term->facts->kind == WarrantyKind::retreatment_and_repair;
  first.blocks.push_back(
      Paragraph{"statement", text(b.say(repair ? Word::ag_kind_repair : Word::ag_kind_retreatment))});
  if (term->missed && term->missed->on)
    first.blocks.push_back(
        Paragraph{"caution", strong(b.say(Word::cert_missed, F{"date", b.words.shown(term->until)}))});
  else
    first.blocks.push_back(Paragraph{"lead", text(b.say(Word::cert_lead, F{"from", b.words.shown(term->from)},
                                                        F{"until", b.words.shown(term->until)}))});
  first.blocks.emplace_back(holder_facts(b, *term));
  pages.warranty(first.blocks);
  beetles(b, *t, *term, first.blocks);
  for (Block& block : first.blocks)  // the estimate's third level is the certificate's second
    if (auto* heading = std::get_if<Heading>(&block.kind)) heading->level = std::min(heading->level, 2);
  std::vector<std::string> left;
  for (const RunDone& run : runs_done(in.basis, *t))
    if (run.untreated)
      left.push_back(
          b.say(Word::cert_untreated, F{"number", std::to_string(run.run->number)}, F{"words", b.run_words(*run.run)}));
  if (!left.empty()) {
    first.blocks.push_back(Heading{2, "untreated", text(b.say(Word::cert_untreated_heading)), true});
    List list;
    for (const std::string& one : left) list.items.push_back(text(one));
    first.blocks.emplace_back(std::move(list));
  }
  if (Table events = history(b); !events.rows.empty()) {
    first.blocks.push_back(Heading{2, "history", text(b.say(Word::cert_history_heading)), true});
    first.blocks.emplace_back(std::move(events));
  }
  Signatures s;
  s.name_label = b.say(Word::sign_name);
  s.date_label = b.say(Word::sign_date);
  s.lines.push_back({text(b.say(Word::cert_sign)), b.say(Word::ag_who_company), {}, {}});
  first.blocks.emplace_back(std::move(s));
  out.sections.push_back(std::move(first));
  return out;
}

namespace {

std::string body_of(const Builder& b, const Due& due) {
  constexpr Word bodies[] = {Word::letter_renewal_body, Word::letter_reinspection_body, Word::letter_notice_body};
  return b.say(bodies[static_cast<std::size_t>(due.what)], F{"address", b.address_line()},
               F{"date", b.words.shown(due.on)}, F{"fee", due.fee ? print(*due.fee) : std::string()});
}

Section section_of(const Letter& letter, std::size_t count, Date today) {
  const std::string number = std::to_string(count);
  const Builder b{*letter.matters.front().in};
  const Due& first = letter.matters.front().due;
  constexpr Word titles[] = {Word::letter_renewal, Word::letter_reinspection, Word::letter_notice};
  const Word title = letter.matters.size() > 1 ? Word::letter_several : titles[static_cast<std::size_t>(first.what)];
  const Company& from = b.in.basis.company;
  Section one{"letter", "letter-" + number, {}};
  const auto body = [&](std::string said) { one.blocks.push_back(Paragraph{"body", text(std::move(said))}); };
  one.blocks.push_back(Paragraph{"small", text(company_line(b))});
  body(b.say(Word::letter_to, F{"name", first.holder}, F{"address", b.address_line()}));
  body(b.words.shown(today));
  one.blocks.push_back(
      Heading{1, "letter-heading-" + number, text(b.say(title, F{"date", b.words.shown(first.on)})), true});
  body(b.say(Word::letter_dear, F{"name", first.holder}));
  std::optional<Date> looked;
  for (const Letter::Matter& matter : letter.matters) {
    body(body_of(Builder{*matter.in}, matter.due));
    looked = std::max(looked, matter.due.looked);
  }
  if (looked) body(b.say(Word::letter_looked, F{"date", b.words.shown(*looked)}));
  body(b.say(Word::letter_call, F{"company", from.name.value_or("")}, F{"phone", from.phone.value_or("")}));
  Signatures s;
  s.name_label = b.say(Word::sign_name);
  s.date_label = b.say(Word::sign_date);
  s.lines.push_back({text(b.say(Word::letter_close)), from.name.value_or(""), {}, {}});
  one.blocks.emplace_back(std::move(s));
  return one;
}

}  // namespace

Document letters(const Words& words, const Company& company, const std::vector<Letter>& all, Date today) {
  Document out;
  out.kind = "letter";
  out.language = words.say(Word::language);
  out.title = words.say(Word::letter_title);
  out.author = company.name.value_or("");
  out.created = print(today);
  out.subject = words.say(Word::letter_title) + ", " + print(today);
  out.running["company"] = company.name.value_or("");
  out.running["page"] = words.say(Word::page_of);
  for (const Letter& letter : all) out.sections.push_back(section_of(letter, out.sections.size() + 1, today));
  return out;
}

}  // namespace soundsill::document
