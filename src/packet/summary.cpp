// Serves packet/builder.h. Page 1: the answer first.
#include <set>

#include "packet/builder.h"

namespace soundsill::document {
namespace {

constexpr Word group_leads[] = {Word::lead_live,   Word::lead_active,    Word::lead_open,  Word::lead_past,
                                Word::lead_damage, Word::lead_condition, Word::lead_closed};

struct Summary {
  const Builder& b;
  using F = Words::Fill;

  /// Days of the visits, the first first.
  [[nodiscard]] std::vector<Date> days() const {
    std::vector<Date> out;
    for (const Visit& v : b.house.visits)
      if (v.date) out.push_back(*v.date);
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
  }

  /// What was seen, a sentence for each visit: nothing is said to have been seen on a day on which it was not.
  [[nodiscard]] std::string lead() const {
    const auto all = days();
    if (all.size() < 2) return lead_of({});
    std::string out;
    for (const Date& day : all) out += (out.empty() ? "" : " ") + lead_of(day);
    return out;
  }

  /// "We saw" is left to the sentence parts: live and past evidence are never one phrase.
  [[nodiscard]] std::string lead_of(std::optional<Date> day) const {
    std::vector<std::string> parts;
    for (const Group g : groups) {
      std::vector<std::pair<std::string, int>> by_organism;  // in the order of the case
      for (const Finding* f : b.in_group(g)) {
        if (day && b.seen_on(*f) != day) continue;
        const bool named = g != Group::damage && g != Group::condition && g != Group::closed;
        const std::string organism = named ? b.organism_of(*f) : "";
        const auto found = std::find_if(by_organism.begin(), by_organism.end(),
                                        [&](const auto& pair) { return pair.first == organism; });
        if (found == by_organism.end())
          by_organism.emplace_back(organism, 1);
        else
          ++found->second;
      }
      for (const auto& [organism, count] : by_organism)
        parts.push_back(b.say(group_leads[static_cast<std::size_t>(g)], F{"organism", organism},
                              F{"count", std::to_string(count)}));
    }
    const std::string date = day ? b.words.shown(*day) : b.visit_date();
    if (parts.empty() && day && !b.house.findings.empty()) return b.say(Word::lead_again, F{"date", date});
    if (parts.empty()) return b.say(Word::lead_nothing, F{"date", date});
    return b.say(Word::lead, F{"date", date}, F{"findings", in_words(b.words, parts)});
  }

  [[nodiscard]] Facts facts() const {
    Facts out;
    out.columns = 3;
    const resolved::People& people = b.house.people;
    const resolved::CaseFacts& facts = b.house.facts;
    const auto put = [&](Word name, const std::string& value) {
      if (!value.empty()) out.facts.push_back({b.say(name), text(value)});
    };
    const std::string &buyer = people.buyer.name, &owner = people.owner.name, &seller = people.seller.name;
    const std::string today =
        owner.empty() ? b.stated(Topic::seller, seller) : b.stated(Topic::owner, owner);  // who owns the house
    put(Word::fact_prepared_for, buyer.empty() ? today : b.stated(Topic::buyer, buyer));
    put(Word::fact_owner, buyer.empty() ? "" : today);
    put(Word::fact_agent, b.stated(Topic::agent, people.agent.name));
    std::string lender = b.stated(Topic::lender, people.lender.name);
    if (facts.loan != Loan::none) {
      const std::string loan = b.say(Word::loan_of, F{"loan", b.words.name(yaml::word(facts.loan))});
      lender = lender.empty() ? capitalized(loan) : b.say(Word::lender_and_loan, F{"lender", lender}, F{"loan", loan});
    }
    put(Word::fact_lender, lender);
    if (facts.purpose) put(Word::fact_purpose, capitalized(b.words.name(yaml::word(*facts.purpose))));
    std::string when = b.visit_date();
    if (b.house.visits.size() == 1) {
      const Visit& v = b.house.visits.front();
      if (v.from && v.to)
        when = b.say(Word::fact_inspected_value, F{"date", when}, F{"from", b.from(v)}, F{"to", b.to(v)});
    }
    put(Word::fact_inspected, when);
    put(Word::fact_inspector, inspector());
    put(Word::fact_company, company());
    if (!facts.number.empty())
      put(Word::fact_case, b.say(Word::case_line, F{"number", b.stated(Topic::case_number, facts.number)},
                                 F{"revision", std::to_string(facts.revision)}));
    put(Word::fact_control, facts.control_number);
    if (facts.closing) put(Word::fact_closing, b.stated(Topic::closing, b.words.shown(*facts.closing)));
    std::vector<std::string> structures;
    for (const Structure& s : b.house.structures)
      if (!s.name.empty())
        structures.push_back(b.stated(Topic::structure, s.name) +
                             (!s.inspected     ? " (" + b.say(Word::structure_not_inspected) + ")"
                              : s.kind.empty() ? ""
                                               : " (" + s.kind + ")"));
    put(Word::fact_structures, in_words(b.words, structures));
    const Company& company = b.in.basis.company;
    if (company.phone)
      put(Word::call_heading,
          b.say(Word::call, F{"name", b.stated(Topic::inspector, people.inspector.name)}, F{"phone", *company.phone}));
    return out;
  }

  [[nodiscard]] std::string inspector() const {
    const resolved::Person& p = b.house.people.inspector;
    return b.stated(Topic::inspector, p.name) + (p.named() && !p.license.empty() ? ", " + p.license : "");
  }

  [[nodiscard]] std::string company() const {
    const Company& company = b.in.basis.company;
    if (!company.name) return {};
    std::string license;
    if (company.license && company.license->number) license = company.license->number->text;
    const std::string name = b.stated(Topic::company, *company.name);
    return license.empty()
               ? name
               : b.say(Word::fact_company_value, F{"company", name}, F{"license", b.stated(Topic::license, license)});
  }

  /// How much of what the regions can tell was seen, over all structures.
  struct Looked {
    Length faces_seen, faces_all;
    int piers_seen = 0, piers_all = 0;
  };
  [[nodiscard]] Looked looked() const {
    Looked sum;
    for (const SurveyedStructure& s : b.in.basis.survey.structures) {
      // An area that was not seen and has no region cannot be counted: then the figures would claim too much.
      if (!s.seen_counted) return {};
      // On a slab nobody looks at the foundation from within.
      const bool below = std::any_of(s.parts.begin(), s.parts.end(), [](const SurveyedPart& p) {
        return p.foundation == Foundation::crawl_space || p.foundation == Foundation::basement;
      });
      if (!below) continue;
      sum.faces_seen += s.faces_seen;
      sum.faces_all += s.faces_all;
      sum.piers_seen += s.piers_seen;
      sum.piers_all += static_cast<int>(s.piers.size());
    }
    return sum;
  }

  /// With more than one option, page 1 says so and what lies between.
  void choices(std::vector<Block>& blocks) const {
    const auto& all = b.in.estimates;
    if (all.size() < 2) return;
    std::vector<Money> totals;  // of those that have a price of ours
    for (const Estimate& e : all)
      if (!e.lines.empty()) totals.push_back(e.total);
    if (totals.empty()) return;
    const auto [least, most] = std::minmax_element(totals.begin(), totals.end());
    const std::string n = std::to_string(all.size());
    blocks.push_back(Paragraph{
        "note",
        text(totals.size() == all.size()
                 ? b.say(Word::choices, F{"n", n}, F{"least", print(*least)}, F{"most", print(*most)})
                 : b.say(Word::choices_others, F{"n", n}, F{"least", print(*least)}, F{"most", print(*most)}))});
  }

  [[nodiscard]] Figures figures() const {
    Figures out;
    const std::string n = std::to_string(b.house.findings.size());
    out.figures.push_back({n, n == "0" ? b.say(Word::figure_none) : b.say(Word::figure_findings, F{"count", n})});
    if (const Estimate* e = b.main_estimate(); e && !e->lines.empty())
      out.figures.push_back({b.total_of(*e), e->holds_until ? b.say(Word::figure_total, F{"date", b.holds_until(*e)})
                                                            : b.say(Word::total_of_estimate)});
    const Looked l = looked();
    // Less than all is never rounded up to all.
    const auto feet = [](Length length, bool up) {
      return grouped(up ? length.in_feet().ceil() : length.in_feet().floor());
    };
    if (l.faces_all > Length{})
      out.figures.push_back({b.say(Word::figure_seen, F{"seen", feet(l.faces_seen, l.faces_seen == l.faces_all)},
                                   F{"all", feet(l.faces_all, true)}),
                             l.piers_all ? b.say(Word::figure_seen_piers, F{"seen", std::to_string(l.piers_seen)},
                                                 F{"all", std::to_string(l.piers_all)})
                                         : b.say(Word::figure_seen_what)});
    return out;
  }

  /// The price beside a finding: each line's amount stands once, with the first finding it answers.
  [[nodiscard]] std::string price_cell(const Finding& f, std::set<const Line*>& shown,
                                       std::map<const Line*, int>& first) const {
    const Estimate* e = b.main_estimate();
    Money sum;
    bool ours = false, any = false;
    int elsewhere = 0;
    for (const Line* w : b.answers_to(f)) {
      any = true;
      if (Builder::nothing_done(*w) || !w->ours()) continue;
      if (shown.insert(w).second) {
        first[w] = *f.no;
        ours = true;
        if (e) sum += amount_of(*e, *w);
      } else if (!elsewhere) {
        elsewhere = first[w];
      }
    }
    if (b.in.apart && (ours || elsewhere)) return b.say(Word::in_the_estimate);
    if (ours) return print(sum);
    if (elsewhere) return b.say(Word::in_number, F{"number", std::to_string(elsewhere)});
    const auto answers = b.answers_to(f);
    const bool other = std::any_of(answers.begin(), answers.end(), [](const Line* w) { return !w->ours(); });
    return any && other ? b.say(Word::not_our_price) : any ? b.say(Word::no_charge) : std::string{};
  }

  [[nodiscard]] Table table() const {
    Table t;
    t.id = "summary-table";
    t.style = "priced";
    t.caption = b.say(Word::summary_caption);
    t.row_heads = true;
    t.columns = {{b.say(Word::column_number), Column::Align::left, 1, true},
                 {b.say(Word::column_seen_where), Column::Align::left, 6, false},
                 {b.say(Word::column_answered_by), Column::Align::left, 4, false},
                 {b.say(Word::column_settled_when), Column::Align::left, 4, false},
                 {b.say(Word::column_price), Column::Align::right, 1, true}};
    std::set<const Line*> shown;
    std::map<const Line*, int> first;
    for (const Group g : groups)
      for (const Finding* f : b.in_group(g)) {
        std::vector<std::string> by, settled;
        for (const Line* w : b.answers_to(*f)) {
          const std::string answer =
              Builder::nothing_done(*w) ? b.answer_sentence(*w)
              : w->ours()               ? b.work_short(*w)
                          : b.say(Word::answer_other, F{"work", b.work_short(*w)}, F{"by", b.by_whom(*w)});
          if (std::find(by.begin(), by.end(), answer) == by.end()) by.push_back(answer);
          const std::string when = b.settled_when(*w);
          if (std::find(settled.begin(), settled.end(), when) == settled.end()) settled.push_back(when);
        }
        Row row;
        row.id = summary_id(*f->no);
        row.cells.push_back({{std::to_string(*f->no), Run::Look::strong, card_id(*f->no)}});
        row.cells.push_back({{b.title_of(*f), Run::Look::strong, {}}, {", " + b.place_of(*f), Run::Look::plain, {}}});
        if (const auto seen = b.seen_on(*f); seen && days().size() > 1)
          row.cells.back().push_back(
              {", " + b.say(Word::seen_on_day, F{"date", b.words.shown(*seen)}), Run::Look::plain, {}});
        row.cells.push_back(text(lines(by)));
        row.cells.push_back(text(capitalized(lines(settled))));
        row.cells.push_back(text(price_cell(*f, shown, first)));
        t.rows.push_back(std::move(row));
      }
    preventive(t);
    if (const Estimate* e = b.main_estimate(); e && !e->lines.empty()) {
      for (const auto& [what, amount] : b.settling(*e))
        t.rows.push_back({"", {{}, text(what), {}, {}, text(amount)}, Row::Kind::body});
      const bool several = b.in.treatments.size() > 1;
      const std::string total = several ? b.say(Word::total_of_option, F{"option", b.option_name(*b.main_treatment())})
                                        : b.say(Word::total_of_estimate);
      t.rows.push_back({"", {{}, {}, {}, strong(total), strong(b.total_of(*e))}, Row::Kind::total});
    }
    return t;
  }

  /// Lines that answer no finding have a row too, so that the prices of page 1 sum to the total.
  void preventive(Table& t) const {
    const Treatment* treatment = b.main_treatment();
    if (!treatment) return;
    for (const Task& task : treatment->tasks) {
      if (!task.line->answer_numbers.empty()) continue;
      const Estimate* e = b.main_estimate();
      const std::string price = b.in.apart               ? b.say(Word::in_the_estimate)
                                : task.line->ours() && e ? print(amount_of(*e, *task.line))
                                                         : b.say(Word::not_our_price);
      t.rows.push_back({"",
                        {{},
                         text(capitalized(b.say(Word::answers_preventive))),
                         text(b.work_short(*task.line)),
                         text(capitalized(b.settled_when(*task.line))),
                         text(price)}});
    }
  }

  [[nodiscard]] static std::string lines(const std::vector<std::string>& list) {
    std::string out;
    for (const std::string& s : list) out += (out.empty() ? "" : "; ") + s;
    return out;
  }

  /// Names what the regions hide: "Of the house we did not see from inside: wall 1 at 0 in to 17 ft, pier 1."
  [[nodiscard]] std::string hidden(const SurveyedStructure& s) const {
    if (!s.seen_counted) return {};
    std::vector<std::string> list;
    for (const Stretch& one : s.walls_not_seen) {
      const Wall* wall = s.wall(one.wall);
      const bool whole = wall && one.length() >= wall->length - wall->thick.value_or(Length{}) * 2;
      list.push_back(b.words.name("wall") + " " + std::to_string(one.wall) +
                     (whole ? ""
                            : " " + b.words.name("from") + " " + b.words.shown(one.a) + " " + b.words.name("to") + " " +
                                  b.words.shown(one.b)));
    }
    for (const int pier : s.piers_not_seen) list.push_back(b.words.name("pier") + " " + std::to_string(pier));
    return list.empty() ? std::string()
                        : b.say(Word::not_seen_rest, F{"structure", s.name}, F{"list", in_words(b.words, list)});
  }

  void not_seen(std::vector<Block>& blocks) const {
    blocks.push_back(Heading{2, "not-seen", text(b.say(Word::not_seen_heading)), true});
    Table t;
    t.style = "facts";
    t.caption = b.say(Word::not_seen_caption);
    t.row_heads = true;
    t.columns = {{b.say(Word::column_area), Column::Align::left, 3, false},
                 {b.say(Word::column_how_seen), Column::Align::left, 1, true},
                 {b.say(Word::column_why), Column::Align::left, 5, false}};
    for (const Structure& s : b.house.structures) {
      if (!s.inspected)
        t.rows.push_back({"",
                          {b.typed(b.stated(Topic::structure, s.name)), text(b.say(Word::seen_no)),
                           b.typed(b.stated(Topic::why_not_inspected, s.because, s.name))}});
      for (const SurveyedArea& a : s.details->areas)
        if (a.seen && *a.seen != Seen::yes)
          t.rows.push_back({"",
                            {b.typed(b.structure_prefix(s.name) + b.stated(Topic::area, a.name, s.name)),
                             text(b.say(*a.seen == Seen::partly ? Word::seen_partly : Word::seen_no)),
                             b.typed(b.why_unseen(s, a))}});
    }
    if (t.rows.empty()) {
      blocks.push_back(Paragraph{"body", text(b.say(Word::not_seen_none))});
    } else {
      blocks.push_back(std::move(t));
    }
    std::string note;
    for (const SurveyedStructure& s : b.in.basis.survey.structures)
      if (const std::string rest = hidden(s); !rest.empty()) note += rest + " ";
    blocks.push_back(Paragraph{"note", text(note + b.say(Word::lead_not_absent))});
  }

  void notices(std::vector<Block>& blocks) const {
    const Form& form = b.in.basis.form;
    const bool asked = b.asks_official_sheet();
    const auto& sheet = b.house.official_sheet;
    const std::string name = asked ? b.stated(Topic::official_sheet, *form.official_sheet->name) : std::string();
    if (asked && sheet && sheet->signed_on && !sheet->by.empty())
      blocks.push_back(
          Paragraph{"caution", text(b.say(Word::companion, F{"sheet", name},
                                          F{"date", b.words.shown(*sheet->signed_on)}, F{"by", sheet->by}))});
    else if (asked)
      blocks.push_back(Paragraph{"caution", text(b.say(Word::companion_draft, F{"sheet", name}))});
    const auto& before = b.house.facts.replaces;
    if (before && before->revision && before->on && !before->because.empty())
      blocks.push_back(
          Paragraph{"caution", text(b.say(Word::replaces, F{"revision", std::to_string(*before->revision)},
                                          F{"date", b.words.shown(*before->on)}, F{"because", before->because}))});
  }
};

}  // namespace

Facts Builder::facts() const { return Summary{*this}.facts(); }

Section Builder::particulars(std::map<std::string, std::string>& photos) const {
  Section out{"particulars", "particulars", {}};
  const Builder b = noting(out.record);
  out.blocks.push_back(Heading{2, "particulars-heading", text(say(Word::particulars_heading)), true});
  out.blocks.emplace_back(b.facts());
  for (const Structure& s : house.structures)
    if (Photos row = photo_row(s.photos, photos); !row.photos.empty()) out.blocks.emplace_back(std::move(row));
  return out;
}

Section Builder::summary() const {
  Section out{"summary", "summary", {}};
  const Builder b = noting(out.record);
  const Summary s{b};
  out.blocks.push_back(Heading{1, "top", text(b.stated(Topic::title, paper_title())), true});
  out.blocks.push_back(Paragraph{"address", text(b.address_line())});
  translation(out.blocks);
  s.notices(out.blocks);
  out.blocks.push_back(Paragraph{"lead", text(s.lead())});
  out.blocks.push_back(s.figures());
  const Estimate* priced = main_estimate();
  if (!house.findings.empty() || (priced && !priced->lines.empty())) {
    out.blocks.push_back(Heading{2, "answers", text(say(Word::summary_heading)), true});
    out.blocks.push_back(s.table());
    s.choices(out.blocks);
  }
  s.not_seen(out.blocks);
  return out;
}

}  // namespace soundsill::document
