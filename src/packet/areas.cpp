// Serves packet/builder.h. Where we looked, how, and what the words mean.
#include "packet/builder.h"

namespace soundsill::document {
namespace {

using F = Words::Fill;
using soundsill::RunKind;

Table areas_table(const Builder& b) {
  Table t;
  t.style = "plain";
  t.caption = b.say(Word::areas_caption);
  t.row_heads = true;
  t.columns = {{b.say(Word::column_structure), Column::Align::left, 1, true},
               {b.say(Word::column_area), Column::Align::left, 3, false},
               {b.say(Word::column_how_seen), Column::Align::left, 1, true},
               {b.say(Word::column_why), Column::Align::left, 4, false}};
  for (const Structure& s : b.house.structures) {
    if (!s.inspected)
      t.rows.push_back({"",
                        {b.typed(b.stated(Topic::structure, s.name)), text(b.say(Word::structure_not_inspected)),
                         text(b.say(Word::seen_no)), b.typed(b.stated(Topic::why_not_inspected, s.because, s.name))}});
    for (const SurveyedArea& a : s.details->areas) {
      const Seen seen = a.seen.value_or(Seen::no);
      const Word word = seen == Seen::yes ? Word::seen_yes : seen == Seen::partly ? Word::seen_partly : Word::seen_no;
      t.rows.push_back({"",
                        {b.typed(b.stated(Topic::structure, s.name)), b.typed(b.stated(Topic::area, a.name, s.name)),
                         text(b.say(word)), b.typed(b.why_unseen(s, a))}});
    }
  }
  return t;
}

void visits(const Builder& b, std::vector<Block>& blocks) {
  for (const Visit& v : b.house.visits) {
    if (!v.date) continue;
    const std::string day = print(*v.date), date = b.stated(Topic::visit, b.words.shown(*v.date));
    std::string words;
    if (v.from && v.to)
      words = b.say(Word::visit_value, F{"date", date}, F{"from", b.from(v)}, F{"to", b.to(v)});
    else
      words = date + ".";
    if (!v.weather.empty())
      words += " " + b.say(Word::visit_weather, F{"weather", b.stated(Topic::weather, v.weather, day)});
    if (!v.tools.empty())
      words += " " + b.say(Word::visit_tools, F{"tools", b.stated(Topic::tools, in_words(b.words, v.tools), day)});
    blocks.push_back(Paragraph{"body", text(words)});
  }
}

Table words_table(const Builder& b) {
  constexpr std::pair<Word, Word> rows[] = {
      {Word::term_live, Word::term_live_means}, {Word::term_active, Word::term_active_means},
      {Word::term_past, Word::term_past_means}, {Word::term_condition, Word::term_condition_means},
      {Word::term_void, Word::term_void_means}, {Word::term_footing, Word::term_footing_means},
  };
  Table t;
  t.style = "facts";
  t.caption = b.say(Word::terms_used_caption);
  t.row_heads = true;
  t.columns = {{b.say(Word::column_term), Column::Align::left, 1, false},
               {b.say(Word::column_meaning), Column::Align::left, 4, false}};
  const auto any_run = [&](const auto& is) {
    return std::any_of(b.in.treatments.begin(), b.in.treatments.end(), [&](const Treatment& x) {
      return std::any_of(x.runs.begin(), x.runs.end(), [&](const auto& run) { return is(run.kind); });
    });
  };
  const bool soil = any_run([](RunKind kind) { return is_soil(kind); });
  const bool voids =
      any_run([](RunKind kind) { return kind >= RunKind::void_walls && kind <= RunKind::void_chimneys; });
  for (const auto& [term, meaning] : rows)
    if ((soil || term != Word::term_footing) && (voids || term != Word::term_void))
      t.rows.push_back({"", {strong(b.say(term)), text(b.say(meaning))}});
  return t;
}

}  // namespace

Section Builder::areas() const {
  Section out{"areas", "areas", {}};
  const Builder b = noting(out.record);
  out.blocks.push_back(Heading{2, "areas-heading", text(say(Word::areas_heading)), true});
  out.blocks.emplace_back(areas_table(b));
  out.blocks.push_back(Heading{3, "visit-heading", text(say(Word::visit_heading)), false});
  visits(b, out.blocks);
  out.blocks.push_back(Heading{3, "limits-heading", text(say(Word::limits_heading)), true});
  out.blocks.push_back(List{
      List::Marker::bullet,
      "body",
      {text(say(Word::limits_1)), text(say(Word::limits_2)), text(say(Word::limits_3)), text(say(Word::limits_4))}});
  out.blocks.push_back(Heading{3, "words-heading", text(say(Word::terms_used_heading)), true});
  out.blocks.emplace_back(words_table(*this));
  return out;
}

Section Builder::terms() const {
  Section out{"terms", "terms", {}};
  const Builder b = noting(out.record);
  const Form& form = in.basis.form;
  const std::string name = b.stated(Topic::rules, words.name(form.name.value_or("")));
  out.blocks.push_back(Heading{2, "terms-heading", text(say(Word::terms_heading)), true});
  out.blocks.push_back(Paragraph{"body", text(say(Word::terms_seen_that_day, F{"date", b.visit_date()}))});
  out.blocks.push_back(Paragraph{"body", text(say(Word::terms_law, F{"form", name},
                                                  F{"edition", b.stated(Topic::edition, form.edition.value_or(""))}))});
  const bool minimum = form.has_read(Matter::minimum) && form.uses(info(Rule::left_untreated).code);
  if (minimum) out.blocks.push_back(Paragraph{"body", text(say(Word::terms_minimum, F{"form", name}))});
  if (form.unread && !form.unread->empty()) {
    const Word lead = form.has_read(Matter::minimum) ? Word::terms_unread_else : Word::terms_unread;
    out.blocks.push_back(Paragraph{"body", text(say(lead, F{"form", name}))});
    List list;
    list.style = "small";
    for (const Unread& part : *form.unread)
      if (part.what) list.items.push_back(typed(*part.what));
    out.blocks.emplace_back(std::move(list));
  }
  return out;
}

Section Builder::signatures() const {
  Section out{"signatures", "signatures", {}};
  const Builder b = noting(out.record);
  out.blocks.push_back(Heading{2, "signatures-heading", text(say(Word::signatures_heading)), true});
  Signatures s;
  s.name_label = say(Word::sign_name);
  s.date_label = say(Word::sign_date);
  Signature inspector{text(say(Word::sign_inspector)), say(Word::who_inspector), {}, {}};
  const auto& signature = house.signature;
  if (signature && !signature->name.empty() && signature->on) {
    inspector.name = b.stated(Topic::signed_by, signature->name);
    inspector.date = b.stated(Topic::signed_on, words.shown(*signature->on));
  }
  if (signature && !signature->interest.empty()) {
    const std::string& interest = signature->interest;
    inspector.statement.push_back(
        {" " + (interest == "none" ? say(Word::interest_none) : say(Word::interest_some, F{"interest", interest})),
         Run::Look::plain,
         {}});
  }
  s.lines.push_back(std::move(inspector));
  if (std::any_of(in.estimates.begin(), in.estimates.end(), [](const Estimate& e) { return !e.lines.empty(); })) {
    s.lines.push_back({text(say(Word::sign_owner)), say(Word::who_owner), {}, {}});
    // One line for each choice: whoever pays signs beside the one that is taken.
    if (in.estimates.size() == 1) s.lines.push_back({text(say(Word::sign_payer)), say(Word::who_payer), {}, {}});
    for (std::size_t i = 0; in.estimates.size() > 1 && i < in.estimates.size() && i < in.treatments.size(); ++i)
      if (!in.estimates[i].lines.empty())
        s.lines.push_back({text(say(Word::sign_payer_option, F{"option", b.option_name(in.treatments[i])},
                                    F{"total", b.total_of(in.estimates[i])})),
                           say(Word::who_payer),
                           {},
                           {}});
    const bool sale = house.facts.purpose == Purpose::sale;
    const bool warranted = std::any_of(in.treatments.begin(), in.treatments.end(), [&](const Treatment& t) {
      const WarrantyFacts* w = t.of ? t.of->warranty : nullptr;
      return w && w->kind && *w->kind != WarrantyKind::none;
    });
    if (sale && warranted) s.lines.push_back({text(say(Word::sign_holder)), say(Word::who_holder), {}, {}});
  }
  out.blocks.emplace_back(std::move(s));
  return out;
}

}  // namespace soundsill::document
