// The certificate of a warranty, and the letters of the office about what comes due.
#include <algorithm>

#include "document/after_builder.h"

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
  for (const WarrantyEvent& e : items(b.c.warranty)) {
    if (!e.did || !e.on) continue;
    std::vector<std::string> notes;
    if (e.to) notes.push_back(b.say(Word::cert_to, F{"name", *e.to}));
    if (e.by) notes.push_back(b.say(Word::cert_by, F{"name", *e.by}));
    if (e.paid) notes.push_back(b.say(Word::cert_paid, F{"amount", print(*e.paid)}));
    if (e.because) notes.push_back(*e.because);
    for (const Visit& v : items(b.c.visits))
      if (e.visit && v.id && *v.id == *e.visit && v.date)
        notes.push_back(b.say(Word::cert_visit, F{"date", b.words.shown(*v.date)}));
    if (e.settled) notes.push_back(b.say(Word::cert_settled, F{"date", b.words.shown(*e.settled)}));
    std::string said;
    for (const std::string& note : notes) said += (said.empty() ? "" : "; ") + note;
    out.rows.push_back(
        row_of({text(b.words.shown(*e.on)),
                strong(capitalized(b.words.name("event " + std::string(yaml::word(*e.did))))), text(said)}));
  }
  for (const Applied& day : items(b.c.applied))
    if (day.on && day.retreatment.value_or(false))
      out.rows.push_back(row_of({text(b.words.shown(*day.on)), strong(capitalized(b.words.name("event retreated"))),
                                 text(day.because.value_or(""))}));
  return out;
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
        Paragraph{"caution", strong(b.say(Word::cert_missed, F{"date", b.words.shown(*term->missed->on)}))});
  else
    first.blocks.push_back(Paragraph{"lead", text(b.say(Word::cert_lead, F{"from", b.words.shown(term->from)},
                                                        F{"until", b.words.shown(term->until)}))});
  first.blocks.emplace_back(holder_facts(b, *term));
  pages.warranty(first.blocks);
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
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Builder b{*all[i].in};
    const Due& due = all[i].due;
    const std::string number = std::to_string(i + 1);
    Section one{"letter", "letter-" + number, {}};
    constexpr Word titles[] = {Word::letter_renewal, Word::letter_reinspection, Word::letter_notice};
    constexpr Word bodies[] = {Word::letter_renewal_body, Word::letter_reinspection_body, Word::letter_notice_body};
    const auto what = static_cast<std::size_t>(due.what);
    const Company& from = b.in.basis.company;
    one.blocks.push_back(Paragraph{"small", text(company_line(b))});
    one.blocks.push_back(
        Paragraph{"body", text(b.say(Word::letter_to, F{"name", due.holder}, F{"address", b.address_line()}))});
    one.blocks.push_back(Paragraph{"body", text(b.words.shown(today))});
    one.blocks.push_back(
        Heading{1, "letter-heading-" + number, text(b.say(titles[what], F{"date", b.words.shown(due.on)})), true});
    one.blocks.push_back(Paragraph{
        "body", text(b.say(bodies[what], F{"name", due.holder}, F{"address", b.address_line()},
                           F{"date", b.words.shown(due.on)}, F{"fee", due.fee ? print(*due.fee) : std::string()}))});
    if (due.looked)
      one.blocks.push_back(Paragraph{"body", text(b.say(Word::letter_looked, F{"date", b.words.shown(*due.looked)}))});
    one.blocks.push_back(Paragraph{"body", text(b.say(Word::letter_call, F{"company", from.name.value_or("")},
                                                      F{"phone", from.phone.value_or("")}))});
    Signatures s;
    s.name_label = b.say(Word::sign_name);
    s.date_label = b.say(Word::sign_date);
    s.lines.push_back({text(b.say(Word::letter_close)), from.name.value_or(""), {}, {}});
    one.blocks.emplace_back(std::move(s));
    out.sections.push_back(std::move(one));
  }
  return out;
}

}  // namespace soundsill::document
