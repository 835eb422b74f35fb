// Serves aftersale/papers.h. The treatment record, what a lender is told when the work is done, and the notice put up
// at the house.
#include <algorithm>

#include "aftersale/after_builder.h"

namespace soundsill::document {

using F = Words::Fill;
using resolved::Applied;
using resolved::AppliedProduct;
using soundsill::RunKind;

namespace {

struct Recording {
  const Builder& b;
  const Treatment& t;
  std::vector<RunDone> done = runs_done(b.in.basis, t);

  [[nodiscard]] std::string days() const {
    std::vector<std::string> out;
    for (const Applied& day : b.house.applied)
      if (day.on && !day.retreatment) out.push_back(b.words.shown(*day.on));
    return in_words(b.words, out);
  }
  [[nodiscard]] std::string crew() const {
    std::vector<std::string> out;
    for (const Applied& day : b.house.applied)
      for (const std::string& name : day.crew)
        if (std::find(out.begin(), out.end(), name) == out.end()) out.push_back(name);
    return in_words(b.words, out);
  }

  [[nodiscard]] Facts head() const {
    FactList list{b, {}};
    list.out.columns = 3;
    list.put(Word::rec_treated, days());
    list.put(Word::rec_crew, crew());
    list.put(Word::column_option, option_title(b));
    list.put(Word::fact_company, company_line(b));
    list.put(Word::rec_license, license_line(b));
    list.put(Word::rec_follows, first_paper(b));
    list.put(Word::fact_owner, owner_name(b));
    return std::move(list.out);
  }

  [[nodiscard]] Table days_table() const {
    Table out;
    out.style = "plain";
    out.caption = b.say(Word::rec_days_caption);
    out.row_heads = true;
    out.columns = {{b.say(Word::wo_day), Column::Align::left, 2, false},
                   {b.say(Word::rec_crew), Column::Align::left, 3, false},
                   {b.say(Word::rec_weather), Column::Align::left, 5, false}};
    for (const Applied& day : b.house.applied) {
      if (!day.on) continue;
      std::string when = b.words.shown(*day.on);
      if (day.from && day.to)
        when = b.say(Word::fact_inspected_value, F{"date", when}, F{"from", b.words.shown(*day.from)},
                     F{"to", b.words.shown(*day.to)});
      std::string weather = day.weather;
      if (day.retreatment) weather = b.say(Word::rec_retreated, F{"because", day.because}, F{"weather", weather});
      out.rows.push_back(row_of({text(when), text(in_words(b.words, day.crew)), text(weather)}));
    }
    return out;
  }

  [[nodiscard]] Table products() const {
    Table out;
    out.style = "plain";
    out.caption = b.say(Word::rec_products_caption);
    out.row_heads = true;
    out.columns = {{b.say(Word::product_fact), Column::Align::left, 4, false},
                   {b.say(Word::rec_column_registration), Column::Align::left, 2, false},
                   {b.say(Word::rec_column_strength), Column::Align::right, 1, true},
                   {b.say(Word::rec_column_used), Column::Align::right, 1, true}};
    for (const Applied& day : b.house.applied)
      for (const AppliedProduct& used : day.products) {
        const Product* p = b.in.basis.company.product(used.product);
        if (!p || day.retreatment) continue;
        out.rows.push_back(row_of({text(b.say(Word::product_value_plain, F{"product", p->name.value_or("")},
                                              F{"ingredient", p->active_ingredient.value_or("")})),
                                   text(p->registration ? p->registration->text : std::string()),
                                   text(used.strength ? shortest(used.strength->value, 4) + " %" : std::string()),
                                   text(used.fl_oz ? shortest(*used.fl_oz, 2) + " fl oz" : std::string())}));
      }
    return out;
  }

  [[nodiscard]] Table runs() const {
    Table out;
    out.style = "priced";
    out.caption = b.say(Word::rec_runs_caption);
    out.row_heads = true;
    out.columns = {{b.say(Word::column_run), Column::Align::left, 6, false},
                   {b.say(Word::rec_column_planned), Column::Align::right, 1, true},
                   {b.say(Word::wo_column_applied), Column::Align::right, 1, true},
                   {b.say(Word::rec_column_holes), Column::Align::right, 2, false},
                   {b.say(Word::rec_column_note), Column::Align::left, 3, false}};
    Ratio planned, applied;
    int holes = 0;
    for (const RunDone& run : done) {
      planned += run.run->gallons;
      applied += run.gallons;
      holes += run.holes;
      const std::string places = run_places(b, *run.run);
      std::string note;
      if (run.untreated && !run.untreated->by.empty() && run.untreated->on)
        note = b.say(Word::rec_untreated, F{"because", run.untreated->because}, F{"by", run.untreated->by},
                     F{"date", b.words.shown(*run.untreated->on)});
      else if (run.days.size() > 1)
        note = b.say(Word::rec_topped, F{"date", b.words.shown(run.days.back())});
      const bool liquid = run.run->gallons > Ratio(0);
      out.rows.push_back(
          row_of({text(std::to_string(run.run->number) + ". " + capitalized(b.run_words(*run.run)) +
                       (places.empty() ? "" : ", " + places)),
                  text(liquid ? decimal(run.run->gallons, 1) : std::string()),
                  strong(run.untreated ? b.say(Word::rec_none)
                         : liquid      ? decimal(run.gallons, 1)
                         : run.done    ? b.say(Word::rec_done)
                                       : std::string()),
                  text(run.run->holes && !run.untreated ? b.say(Word::rec_holes, F{"n", std::to_string(run.holes)},
                                                                F{"plugged", std::to_string(run.plugged)})
                                                        : std::string()),
                  text(note)}));
    }
    out.rows.push_back({"",
                        {strong(b.say(Word::quantities_total)),
                         strong(decimal(planned, 1)),
                         strong(decimal(applied, 1)),
                         strong(holes ? grouped(holes) : std::string()),
                         {}},
                        Row::Kind::total});
    return out;
  }

  void other(std::vector<Block>& blocks) const {
    List list;
    for (const Task& task : t.tasks)
      if (task.runs.empty() && task.line->ours() && line_listed(b.house, task.line->id))
        list.items.push_back(text(b.work_title(*task.line) + ", " + b.numbers_of(*task.line)));
    if (list.items.empty()) return;
    blocks.push_back(Heading{2, "other-work", text(b.say(Word::rec_other_heading)), true});
    blocks.emplace_back(std::move(list));
  }

  [[nodiscard]] std::string product_words(const AppliedProduct& used) const {
    const Product* p = b.in.basis.company.product(used.product);
    if (!p) return {};
    return b.say(Word::notice_product, F{"product", p->name.value_or("")},
                 F{"ingredient", p->active_ingredient.value_or("")},
                 F{"strength", used.strength ? " " + shortest(used.strength->value, 4) + " %" : std::string()},
                 F{"registration", p->registration ? p->registration->text : std::string()});
  }
  /// Every product of these days once.
  [[nodiscard]] std::vector<std::string> products_of(const std::vector<const Applied*>& days) const {
    std::vector<std::string> out;
    for (const Applied* day : days)
      for (const AppliedProduct& used : day->products)
        if (std::string said = product_words(used);
            !said.empty() && std::find(out.begin(), out.end(), said) == out.end())
          out.push_back(std::move(said));
    return out;
  }

  /// Product, registration, strength and concentrate, as the columns of the table of products have them.
  [[nodiscard]] std::string amount_words(const AppliedProduct& used) const {
    const Product* p = b.in.basis.company.product(used.product);
    std::string out = p ? b.say(Word::product_value_plain, F{"product", p->name.value_or("")},
                                F{"ingredient", p->active_ingredient.value_or("")})
                        : used.product;
    if (p && p->registration) out += ", " + p->registration->text;
    if (used.strength) out += ", " + shortest(used.strength->value, 4) + " %";
    if (used.fl_oz) out += ", " + shortest(*used.fl_oz, 2) + " fl oz";
    return out;
  }

  /// What a retreatment took stands apart: it is neither planned nor part of the treatment's sums.
  void again(std::vector<Block>& blocks) const {
    Table out;
    out.style = "plain";
    out.caption = b.say(Word::rec_again_caption);
    out.row_heads = true;
    out.columns = {{b.say(Word::wo_day), Column::Align::left, 2, false},
                   {b.say(Word::rec_again_because), Column::Align::left, 3, false},
                   {b.say(Word::rec_products_heading), Column::Align::left, 4, false},
                   {b.say(Word::wo_runs_heading), Column::Align::left, 4, false}};
    for (const Retreatment& one : retreatments(b.in.basis, t)) {
      if (!one.day->on) continue;
      std::vector<std::string> took;
      for (const RunDone& run : one.runs) {
        std::vector<std::string> words;
        if (run.measured) words.push_back(b.say(Word::rec_again_gal, F{"gallons", decimal(run.gallons, 1)}));
        if (run.holes)
          words.push_back(
              b.say(Word::rec_holes, F{"n", std::to_string(run.holes)}, F{"plugged", std::to_string(run.plugged)}));
        if (words.empty()) words.push_back(b.say(Word::rec_done));
        std::string said;
        for (const std::string& word : words) said += (said.empty() ? "" : ", ") + word;
        took.push_back(
            b.say(Word::rec_again_run, F{"number", std::to_string(run.run->number)}, F{"words", std::move(said)}));
      }
      std::vector<std::string> products;
      for (const AppliedProduct& used : one.day->products) products.push_back(amount_words(used));
      out.rows.push_back(row_of({text(b.words.shown(*one.day->on)), text(one.day->because), text(in_clauses(products)),
                                 text(in_clauses(took))}));
    }
    if (out.rows.empty()) return;
    blocks.push_back(Heading{2, "retreatments", text(b.say(Word::rec_again_heading)), true});
    blocks.emplace_back(std::move(out));
  }

  /// What was agreed, what was done instead, and why: a row each.
  [[nodiscard]] std::vector<std::vector<Runs>> changes() const {
    std::vector<std::vector<Runs>> out;
    const auto put = [&](std::string agreed, std::string now, std::string why) {
      out.push_back({text(std::move(agreed)), text(std::move(now)), text(why.empty() ? b.say(Word::wo_line) : why)});
    };
    for (const RunDone& one : done) {
      const std::string run =
          b.say(Word::ag_run, F{"number", std::to_string(one.run->number)}, F{"words", b.run_words(*one.run)});
      const bool otherwise = one.measured && (one.gallons < one.least || one.most < one.gallons);
      if (one.untreated)
        put(capitalized(run), b.say(Word::add_untreated), one.untreated->because);
      else if (otherwise)
        put(capitalized(run) + ", " + b.say(Word::rec_again_gal, F{"gallons", decimal(one.run->gallons, 1)}),
            b.say(Word::rec_again_gal, F{"gallons", decimal(one.gallons, 1)}), "");
    }
    std::vector<std::string> planned, told;
    for (const auto& mix : t.mixes)
      if (mix.product) planned.push_back(mix.product->name.value_or(""));
    for (const Applied& day : b.house.applied)
      for (const AppliedProduct& used : day.products) {
        const Product* p = b.in.basis.company.product(used.product);
        const std::string name = p ? p->name.value_or("") : std::string();
        const bool known = name.empty() || day.retreatment || planned.empty() ||
                           std::find(planned.begin(), planned.end(), name) != planned.end() ||
                           std::find(told.begin(), told.end(), name) != told.end();
        if (known) continue;
        told.push_back(name);
        put(in_words(b.words, planned), name, "");
      }
    return out;
  }

  /// What became of a line of ours, run by run.
  [[nodiscard]] std::string became(const Line& w) const {
    const LineDone line = line_done(b.house, done, w.id);
    const std::string work = b.work_short(w);
    if (!line.missing.empty() || (!line.any && line.untreated.empty()))
      return b.say(Word::done_not_yet, F{"work", work});
    if (line.untreated.empty()) return b.say(Word::done_by_us, F{"work", work});
    std::vector<std::string> left;
    for (const soundsill::Run* run : line.untreated)
      left.push_back(
          b.say(Word::cert_untreated, F{"number", std::to_string(run->number)}, F{"words", b.run_words(*run)}));
    return b.say(line.any ? Word::done_except : Word::done_untreated, F{"work", work}, F{"runs", in_clauses(left)});
  }
};

void signing(const Builder& b, Word statement, std::vector<Block>& blocks) {
  Signatures s;
  s.name_label = b.say(Word::sign_name);
  s.date_label = b.say(Word::sign_date);
  s.lines.push_back({text(b.say(statement)), b.say(Word::ag_who_company), {}, {}});
  blocks.emplace_back(std::move(s));
}

/// What was done otherwise than agreed, where the state wants that told in writing: runs left out, other gallons than
/// plan and label leave open, another product. Nothing when all was done as agreed.
Section addendum(const Builder& b, const Recording& r) {
  Section out{"completion", "addendum", {}};
  const auto& rule = b.in.basis.form.agreement;
  if (!rule || !printed_value(rule->addendum).value_or(false)) return out;
  Table table;
  table.style = "plain";
  table.caption = b.say(Word::add_caption);
  table.columns = {{b.say(Word::add_column_agreed), Column::Align::left, 5, false},
                   {b.say(Word::add_column_done), Column::Align::left, 4, false},
                   {b.say(Word::column_why), Column::Align::left, 4, false}};
  for (auto& row : r.changes()) table.rows.push_back(row_of(std::move(row)));
  if (table.rows.empty()) return out;
  out.blocks.push_back(Heading{1, "addendum-heading", text(b.say(Word::add_title)), true});
  out.blocks.push_back(Paragraph{"lead", text(b.say(Word::add_lead, F{"address", b.address_line()}, F{"date", r.days()},
                                                    F{"cite", printed_cite(*rule->addendum)}))});
  out.blocks.emplace_back(std::move(table));
  Signatures s;
  s.name_label = b.say(Word::sign_name);
  s.date_label = b.say(Word::sign_date);
  s.lines.push_back({text(b.say(Word::add_sign)), b.say(Word::add_who), {}, {}});
  s.lines.push_back({text(b.say(Word::add_received)), b.say(Word::add_customer), {}, {}});
  out.blocks.emplace_back(std::move(s));
  return out;
}

/// For a lender: that the work named in the first paper is done, and what is left of it.
Section completion(const Builder& b, const Recording& r) {
  Section out{"completion", "completion", {}};
  const std::string& lender = b.house.people.lender.name;
  const Loan loan = b.house.facts.loan;
  if (lender.empty() && loan == Loan::none) return out;
  out.blocks.push_back(Heading{1, "completion-heading", text(b.say(Word::done_title)), true});
  out.blocks.push_back(Paragraph{"lead", text(b.say(Word::done_lead, F{"date", r.days()},
                                                    F{"address", b.address_line()}, F{"paper", first_paper(b)}))});
  FactList list{b, {}};
  list.out.columns = 3;
  list.put(Word::fact_lender, lender);
  if (loan != Loan::none) list.put(Word::done_loan, b.words.name(yaml::word(loan)));
  list.put(Word::done_veteran, b.house.people.veteran.name);
  list.put(Word::fact_owner, owner_name(b));
  if (b.house.invoice) list.put(Word::inv_number, b.house.invoice->number);
  list.put(Word::fact_company, company_line(b));
  out.blocks.emplace_back(std::move(list.out));
  Table table;
  table.style = "plain";
  table.caption = b.say(Word::done_caption);
  table.row_heads = true;
  table.columns = {{b.say(Word::column_number), Column::Align::left, 1, true},
                   {b.say(Word::column_seen_where), Column::Align::left, 5, false},
                   {b.say(Word::done_column_now), Column::Align::left, 5, false}};
  for (const Finding& f : b.house.findings) {
    if (!f.no) continue;
    std::vector<std::string> now;
    for (const Line* w : b.answers_to(f)) {
      const std::string one = w->ours() ? r.became(*w)
                                        : b.say(Word::done_other, F{"work", b.work_short(*w)}, F{"by", b.by_whom(*w)},
                                                F{"settled", b.settled_when(*w)});
      if (std::find(now.begin(), now.end(), one) == now.end()) now.push_back(one);
    }
    std::string said;
    for (const std::string& one : now) said += (said.empty() ? "" : " ") + one;
    table.rows.push_back(
        row_of({strong(std::to_string(*f.no)), text(b.title_of(f) + ", " + b.place_of(f)), text(said)}));
  }
  if (!table.rows.empty()) out.blocks.emplace_back(std::move(table));
  out.blocks.push_back(Paragraph{"note", text(b.say(Word::done_limits))});
  signing(b, Word::done_sign, out.blocks);
  return out;
}

}  // namespace

Document record(const PacketInput& in) {
  const Builder b{in};
  Document out = begun(b, "paper", Word::rec_title);
  if (const auto day = finished_on(in.basis.resolved)) out.created = print(*day);
  const Treatment* t = b.main_treatment();
  if (!t) return out;
  const Recording r{b, *t};
  Section first{"head", "head", {}};
  first.blocks.push_back(Heading{1, "top", text(b.say(Word::rec_title)), true});
  first.blocks.push_back(
      Paragraph{"lead", text(b.say(Word::rec_lead, F{"address", b.address_line()}, F{"date", r.days()}))});
  first.blocks.emplace_back(r.head());
  first.blocks.push_back(Heading{2, "days", text(b.say(Word::rec_days_heading)), true});
  first.blocks.emplace_back(r.days_table());
  if (Table products = r.products(); !products.rows.empty()) {
    first.blocks.push_back(Heading{2, "products", text(b.say(Word::rec_products_heading)), true});
    first.blocks.emplace_back(std::move(products));
  }
  if (!t->runs.empty()) {
    first.blocks.push_back(Heading{2, "runs", text(b.say(Word::rec_runs_heading)), true});
    first.blocks.emplace_back(r.runs());
  }
  r.other(first.blocks);
  r.again(first.blocks);
  out.sections.push_back(std::move(first));
  Section body{"drawing", "drawing", {}};
  if (!t->runs.empty()) {
    body.blocks.push_back(Heading{2, "drawing-heading", text(b.say(Word::rec_drawing_heading)), true});
    plans(b, *t, Plans::worked_on, Word::ag_drawing_alt, Word::rec_drawing_caption, body.blocks);
  }
  out.sections.push_back(std::move(body));
  Section end{"end", "photos", {}};
  for (const Applied& day : b.house.applied) {
    Photos row = b.photo_row(day.photos, out.photos);
    if (!row.photos.empty()) end.blocks.emplace_back(std::move(row));
  }
  end.blocks.push_back(Paragraph{"note", text(b.say(Word::rec_keep))});
  signing(b, Word::rec_sign, end.blocks);
  out.sections.push_back(std::move(end));
  if (Section changed = addendum(b, r); !changed.blocks.empty()) out.sections.push_back(std::move(changed));
  if (Section done = completion(b, r); !done.blocks.empty()) out.sections.push_back(std::move(done));
  return out;
}

namespace {

/// What every notice begins with: what was done, by whom.
Document notice_of(const Builder& b, Word title, Section& one) {
  Document out = begun(b, "notice", title);
  out.running.clear();
  const Company& company = b.in.basis.company;
  one.blocks.push_back(Heading{1, "top", text(b.say(title)), true});
  one.blocks.push_back(Paragraph{"lead", strong(company.name.value_or(""))});
  one.blocks.push_back(Paragraph{
      "body",
      text(b.say(Word::notice_company, F{"address", company.address.value_or("")},
                 F{"phone", company.phone.value_or("")},
                 F{"license", company.license && company.license->number ? company.license->number->text : ""}))});
  return out;
}

bool wants(const NoticeRule* rule, NoticeItem item) {
  if (!rule) return false;
  const auto& all = items(rule->holds);
  return std::any_of(all.begin(), all.end(), [&](const NoticeItemRule& i) { return i.item && *i.item == item; });
}

/// How long it stays, and where.
Paragraph stays(const Builder& b, const NoticeRule* rule) {
  const auto years = rule ? printed_value(rule->years) : std::nullopt;
  std::string said =
      years ? b.say(Word::notice_stays_years, F{"count", std::to_string(*years)}) : b.say(Word::notice_stays);
  if (const auto where = rule ? printed_value(rule->where) : std::nullopt)
    said += " " + b.say(Word::notice_place, F{"where", b.words.name(*where)});
  return {"note", text(said)};
}

/// Who applied it, each with the number that the company file has of him: else the company's license stands for it.
std::string applicators(const Builder& b) {
  std::vector<std::string> names;
  for (const Applied& day : b.house.applied)
    for (const std::string& person : day.crew) {
      std::string said = person;
      for (const Inspector& i : items(b.in.basis.company.inspectors))
        if (i.name && *i.name == person && i.license)
          said = b.say(Word::notice_person, F{"name", person}, F{"license", i.license->text});
      if (std::find(names.begin(), names.end(), said) == names.end()) names.push_back(said);
    }
  return names.empty() ? std::string() : b.say(Word::notice_applied, F{"names", in_words(b.words, names)});
}

}  // namespace

Document posted_notice(const PacketInput& in) {
  const Builder b{in};
  Section one{"head", "notice", {}};
  Document out = notice_of(b, Word::notice_title, one);
  const Treatment* t = b.main_treatment();
  if (!t) return out;
  const Recording r{b, *t};
  const auto organisms =
      treated_organisms(b, *t, [&](const Task& task) { return line_done(b.house, r.done, task.line->id).any; });
  one.blocks.push_back(
      Paragraph{"body", text(b.say(Word::notice_treated, F{"date", r.days()}, F{"address", b.address_line()},
                                   F{"organisms", in_words(b.words, organisms)}))});
  std::vector<const Applied*> days;
  for (const Applied& day : b.house.applied)
    if (!day.retreatment) days.push_back(&day);
  for (const std::string& product : r.products_of(days)) one.blocks.push_back(Paragraph{"body", text(product)});
  const NoticeRule* rule = in.basis.form.notice_of(NoticeOf::treatment);
  if (wants(rule, NoticeItem::applicator))
    if (const std::string who = applicators(b); !who.empty()) one.blocks.push_back(Paragraph{"body", text(who)});
  if (wants(rule, NoticeItem::spot) && t->of && t->of->partial())
    one.blocks.push_back(Paragraph{"body", strong(b.say(Word::notice_spot))});
  one.blocks.push_back(stays(b, rule));
  out.sections.push_back(std::move(one));
  return out;
}

Document inspection_notice(const PacketInput& in) {
  const Builder b{in};
  Section one{"head", "notice", {}};
  Document out = notice_of(b, Word::notice_inspected_title, one);
  one.blocks.push_back(Paragraph{
      "body", text(b.say(Word::notice_inspected, F{"date", b.visit_date()}, F{"address", b.address_line()}))});
  one.blocks.push_back(stays(b, in.basis.form.notice_of(NoticeOf::inspection)));
  out.sections.push_back(std::move(one));
  return out;
}

}  // namespace soundsill::document
