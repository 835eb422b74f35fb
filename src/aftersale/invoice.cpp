// Serves aftersale/papers.h. What is billed: the lines of the estimate, to the cent as they were accepted, and what was
// paid.
#include <algorithm>

#include "aftersale/after_builder.h"

namespace soundsill::document {

using F = Words::Fill;

namespace {

struct Bill {
  const Builder& b;
  const resolved::Invoice& v;

  [[nodiscard]] Money billed() const {
    Money sum;
    if (const Estimate* e = b.main_estimate()) sum = e->total;
    for (const resolved::Fee& fee : v.fees) sum += fee.amount;
    return sum;
  }
  [[nodiscard]] Money paid() const {
    Money sum;
    for (const resolved::Payment& p : v.paid) sum += p.amount;
    return sum;
  }

  [[nodiscard]] Facts head() const {
    FactList list{b, {}};
    list.out.columns = 3;
    list.put(Word::inv_number, v.number);
    list.put(Word::inv_date, v.on ? b.words.shown(*v.on) : std::string());
    list.put(Word::inv_to, payer_name(b));
    list.put(Word::inv_property, b.address_line());
    const Loan loan = b.house.facts.loan;
    if (loan != Loan::none) list.put(Word::done_loan, b.words.name(yaml::word(loan)));
    list.put(Word::done_veteran, b.house.people.veteran.name);
    list.put(Word::inv_attorney, b.house.people.closing_attorney.name);
    list.put(Word::fact_company, company_line(b));
    const auto& l = b.in.basis.company.license;
    list.put(Word::rec_license, l && l->number ? l->number->text : std::string());
    list.put(Word::rec_follows, first_paper(b));
    return std::move(list.out);
  }

  [[nodiscard]] Table fees() const {
    Table out;
    out.style = "priced";
    out.caption = b.say(Word::inv_fees_caption);
    out.columns = {{b.say(Word::inv_column_for), Column::Align::left, 6, false},
                   {b.say(Word::column_amount), Column::Align::right, 1, true}};
    for (const resolved::Fee& fee : v.fees)
      out.rows.push_back(row_of({text(capitalized(fee.what)), text(print(fee.amount))}));
    return out;
  }

  [[nodiscard]] Table balance() const {
    Table out;
    out.style = "priced";
    out.caption = b.say(Word::inv_balance_caption);
    out.columns = {{b.say(Word::inv_column_for), Column::Align::left, 6, false},
                   {b.say(Word::column_amount), Column::Align::right, 1, true}};
    out.rows.push_back(row_of({text(b.say(Word::inv_billed)), text(print(billed()))}));
    for (const resolved::Payment& p : v.paid) {
      if (p.by.empty() || !p.on) continue;
      const std::string how = p.how.empty() ? std::string() : b.say(Word::inv_how, F{"how", p.how});
      out.rows.push_back(row_of({text(b.say(Word::inv_paid, F{"name", p.by}, F{"date", b.words.shown(*p.on)}) + how),
                                 text("-" + print(p.amount))}));
    }
    const Money open = billed() - paid();
    out.rows.push_back({"balance",
                        {strong(b.say(open.cents > 0 ? Word::inv_open : Word::inv_settled)), strong(print(open))},
                        Row::Kind::total});
    return out;
  }
};

}  // namespace

Document invoice(const PacketInput& in) {
  const Builder b{in};
  Document out = begun(b, "paper", Word::inv_title);
  if (!b.house.invoice) return out;
  const Bill bill{b, *b.house.invoice};
  if (bill.v.on) out.created = print(*bill.v.on);
  Section first{"head", "head", {}};
  first.blocks.push_back(Heading{1, "top", text(b.say(Word::inv_title)), true});
  const Money open = bill.billed() - bill.paid();
  Figures figures;
  figures.figures.push_back({print(bill.billed()), b.say(Word::inv_billed)});
  figures.figures.push_back({print(open), b.say(open.cents > 0 ? Word::inv_open : Word::inv_settled)});
  first.blocks.emplace_back(std::move(figures));
  first.blocks.emplace_back(bill.head());
  const Treatment* t = b.main_treatment();
  const Estimate* e = b.main_estimate();
  if (t && e && !e->lines.empty()) {
    first.blocks.push_back(
        Heading{2, "lines", text(b.say(Word::inv_lines_heading, F{"option", option_title(b)})), true});
    first.blocks.emplace_back(EstimatePages{b, *t, *e}.lines());
  }
  if (!bill.v.fees.empty()) {
    first.blocks.push_back(Heading{2, "fees", text(b.say(Word::inv_fees_heading)), true});
    first.blocks.emplace_back(bill.fees());
  }
  first.blocks.push_back(Heading{2, "paid", text(b.say(Word::inv_paid_heading)), true});
  if (bill.v.paid.empty()) first.blocks.push_back(Paragraph{"body", text(b.say(Word::inv_nothing_paid))});
  first.blocks.emplace_back(bill.balance());
  if (const std::string& attorney = b.house.people.closing_attorney.name; !attorney.empty() && open.cents > 0)
    first.blocks.push_back(Paragraph{"body", text(b.say(Word::inv_from_closing, F{"name", attorney},
                                                        F{"company", in.basis.company.name.value_or("")}))});
  out.sections.push_back(std::move(first));
  return out;
}

}  // namespace soundsill::document
