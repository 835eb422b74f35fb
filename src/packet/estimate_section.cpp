// Serves packet/estimate_pages.h. The estimate: measure x rate = amount, and how each measure was reached.
#include <set>

#include "packet/estimate_pages.h"

namespace soundsill::document {

using F = Words::Fill;
using soundsill::RunKind;

std::string EstimatePages::id(std::string plain) const {
  return index == 0 ? std::move(plain) : plain + "-" + std::to_string(index + 1);
}

std::string EstimatePages::measure(const PricedLine& line) const {
  const int places = decimals(line.per);
  const bool trim = line.per == Per::thousand_cu_ft;
  const std::string n = trim         ? shortest(line.measure, places)
                        : places > 0 ? decimal(line.measure, places)
                                     : grouped(line.measure.rounded());
  switch (line.per) {
    case Per::ft:
      return b.say(Word::measure_ft, F{"n", n});
    case Per::hole:
      return b.say(Word::measure_hole, F{"n", n}, F{"count", n});
    case Per::gal:
      return b.say(Word::measure_gal, F{"n", n});
    case Per::each:
      return b.say(Word::measure_each, F{"n", n});
    case Per::job:
      return b.say(Word::measure_job);
    case Per::sq_ft:
      return b.say(Word::measure_sq_ft, F{"n", n});
    case Per::thousand_cu_ft:
      return b.say(Word::measure_thousand_cu_ft, F{"n", n});
    case Per::station:
      return b.say(Word::measure_station, F{"n", n}, F{"count", n});
    case Per::cu_ft:
      return b.say(Word::measure_cu_ft, F{"n", n});
  }
  return {};
}

std::string EstimatePages::per(Per p) const {
  constexpr Word per_words[] = {
      Word::per_ft,    Word::per_hole,           Word::per_gal,     Word::per_each, Word::per_job,
      Word::per_sq_ft, Word::per_thousand_cu_ft, Word::per_station, Word::per_cu_ft};
  return b.say(per_words[static_cast<std::size_t>(p)]);
}

std::string EstimatePages::rate(const PricedLine& line) const {
  return b.say(Word::rate_of, F{"price", b.stated(Topic::rate, print(line.rate), t.id)}, F{"per", per(line.per)});
}

std::string EstimatePages::amount(const PricedLine& line) const {
  return b.stated(Topic::amount, print(line.amount), t.id);
}

Table EstimatePages::lines() const {
  Table out;
  out.id = id("estimate-table");
  out.style = "priced";
  out.caption = b.say(Word::estimate_caption);
  out.columns = {{b.say(Word::column_work), Column::Align::left, 5, false},
                 {b.say(Word::column_answers), Column::Align::left, 1, true},
                 {b.say(Word::column_measure), Column::Align::number, 1, true},
                 {b.say(Word::column_rate), Column::Align::number, 1, true},
                 {b.say(Word::column_amount), Column::Align::right, 1, true}};
  std::string last;              // the line whose heading was put
  std::set<std::string> placed;  // a line cut in two by its scope has one place to link to
  const auto place = [&](const std::string& work_id) {
    return placed.insert(work_id).second ? id(line_id(work_id)) : std::string();
  };
  for (const PricedLine& line : e.lines) {
    const std::string& work_id = line.line->id;
    if (!line.run) {  // counted work and jobs need no heading above their one line
      last = work_id;
      out.rows.push_back({place(work_id),
                          {{{b.structure_prefix(line.line->in) + b.work_title(*line.line), Run::Look::strong,
                             b.plan_link(*line.line)}},
                           numbers(*line.line),
                           text(measure(line)),
                           text(rate(line)),
                           text(amount(line))}});
      continue;
    }
    if (work_id != last || work_id.empty()) {
      last = work_id;
      out.rows.push_back({place(work_id),
                          {{{b.structure_prefix(line.line->in) + b.work_title(*line.line), Run::Look::strong,
                             b.plan_link(*line.line)}}},
                          Row::Kind::group});
    }
    const auto& run = t.runs[*line.run];
    std::string what = capitalized(b.run_words(run));
    const Method* method = line.line->method;
    if (method && method->least_core && method->least_hold)
      what = b.say(Word::run_heat, F{"run", what},
                   F{"core", std::to_string(line.line->core.value_or(*method->least_core))},
                   F{"hold", std::to_string(line.line->hold.value_or(*method->least_hold))});
    if (run.depth > Length{}) what = b.say(Word::run_deep, F{"run", what}, F{"depth", depth_words(run)});
    out.rows.push_back(
        {"", {text(what), numbers(*line.line), text(measure(line)), text(rate(line)), text(amount(line))}});
  }
  const auto settling = b.settling(e);
  if (!settling.empty())
    out.rows.push_back({"", {text(b.say(Word::sum_of_lines)), {}, {}, {}, text(print(e.lines_total))}});
  for (const auto& [what, amount] : settling) out.rows.push_back({"", {text(what), {}, {}, {}, text(amount)}});
  out.rows.push_back(
      {id("total"), {strong(b.say(Word::total_of_estimate)), {}, {}, {}, strong(b.total_of(e))}, Row::Kind::total});
  return out;
}

std::string EstimatePages::depth_words(const soundsill::Run& run) const {
  if (!run.depth_to) return b.words.shown(run.depth);
  return b.say(Word::depth_sloping, F{"from", b.words.shown(run.depth)}, F{"to", b.words.shown(*run.depth_to)});
}

Runs EstimatePages::numbers(const Line& w) const {
  if (w.answer_numbers.empty()) return text(b.say(Word::answers_preventive));
  Runs out;
  for (const int n : w.answer_numbers) {
    if (!out.empty()) out.push_back({", ", Run::Look::plain, {}});
    out.push_back({std::to_string(n), Run::Look::plain, card_id(n)});
  }
  return out;
}

bool EstimatePages::others_after_all() const {
  const auto& all = b.in.estimates;
  return all.size() > 1 && std::all_of(all.begin(), all.end(), [&](const Estimate& other) {
           return std::equal(other.others.begin(), other.others.end(), all[0].others.begin(), all[0].others.end(),
                             [](const OtherLine& x, const OtherLine& y) { return x.line->typed == y.line->typed; });
         });
}

void EstimatePages::others(std::vector<Block>& blocks) const {
  if (e.others.empty()) return;
  const bool shared = others_after_all();
  blocks.push_back(Heading{shared ? 3 : sub(), id("others"), text(b.say(Word::others_heading)), true});
  if (shared) blocks.push_back(Paragraph{"body", text(b.say(Word::others_all_options))});
  Table out;
  out.style = "plain";
  out.caption = b.say(Word::others_caption);
  out.columns = {{b.say(Word::column_work), Column::Align::left, 5, false},
                 {b.say(Word::column_settled_when), Column::Align::left, 4, false},
                 {b.say(Word::column_answers), Column::Align::left, 1, true}};
  for (const OtherLine& line : e.others)
    out.rows.push_back({id(line_id(line.line->id)),
                        {{{b.answer_sentence(*line.line), Run::Look::plain, b.plan_link(*line.line)}},
                         text(capitalized(b.settled_when(*line.line))),
                         numbers(*line.line)}});
  blocks.emplace_back(std::move(out));
}

void EstimatePages::quantities(std::vector<Block>& blocks) const {
  if (t.runs.empty()) return;
  const bool wet = t.gallons > Ratio(0);
  const bool deep = std::any_of(t.runs.begin(), t.runs.end(), [](const auto& run) { return run.depth > Length{}; });
  blocks.push_back(
      Heading{sub(), id("quantities"), text(b.say(wet ? Word::quantities_heading : Word::measures_heading)), true});
  Table out;
  out.style = "plain";
  out.caption = b.say(Word::quantities_caption);
  out.row_heads = true;
  // A column that would stay empty is left out.
  out.columns = {{b.say(Word::column_run), Column::Align::left, 4, false}};
  if (deep) out.columns.push_back({b.say(Word::column_depth), Column::Align::left, 2, false});
  out.columns.push_back({b.say(Word::column_working), Column::Align::left, 5, false});
  if (t.holes) out.columns.push_back({b.say(Word::column_holes), Column::Align::right, 1, true});
  if (wet) out.columns.push_back({b.say(Word::column_gallons), Column::Align::right, 1, true});
  for (const auto& run : t.runs) {
    std::string working = b.stated(Topic::working, b.words.shown(run.working), t.id);
    if (run.entered_each && run.kind == RunKind::soil_piers)
      working += "; " + b.say(Word::entered_by_hand, F{"computed", decimal(run.computed_gallons, 1)});
    Row row{id("run-" + std::to_string(run.number)), {text(std::to_string(run.number) + ". " + b.run_words(run))}};
    if (deep) row.cells.push_back(text(depth_said(run)));
    row.cells.push_back(text(working));
    if (t.holes) row.cells.push_back(text(run.holes ? grouped(run.holes) : std::string{}));
    if (wet)
      row.cells.push_back(
          text(run.gallons > Ratio(0) ? b.stated(Topic::gallons, decimal(run.gallons, 1), t.id) : std::string{}));
    out.rows.push_back(std::move(row));
  }
  if (wet || t.holes) {
    Row total{"", {strong(b.say(Word::quantities_total)), {}}, Row::Kind::total};
    if (deep) total.cells.emplace_back();
    if (t.holes) total.cells.push_back(strong(grouped(t.holes)));
    if (wet) total.cells.push_back(strong(decimal(t.gallons, 1)));
    out.rows.push_back(std::move(total));
  }
  blocks.emplace_back(std::move(out));
  product(blocks);
}

std::string EstimatePages::depth_said(const soundsill::Run& run) const {
  const std::string depth = run.depth > Length{} ? depth_words(run) : std::string{};
  const bool assumed = !depth.empty() && run.footing_known_by && *run.footing_known_by == KnownBy::assumed;
  return assumed ? b.say(Word::depth_assumed, F{"depth", depth}) : depth;
}

void EstimatePages::product(std::vector<Block>& blocks) const {
  Facts facts;
  facts.columns = 2;
  for (const Mix& mix : t.mixes) mixed(mix, facts);
  unmixed(facts);
  if (t.timed && !t.runs.empty())
    facts.facts.push_back({b.say(Word::hours_fact),
                           text(b.say(Word::hours_value, F{"hours", decimal(t.crew_hours, 1)},
                                      F{"people", std::to_string(b.in.basis.company.crew->people.value_or(1))}))});
  if (!facts.facts.empty()) blocks.emplace_back(std::move(facts));
}

void EstimatePages::unmixed(Facts& facts) const {
  std::vector<const Product*> told;
  for (const Mix& mix : t.mixes) told.push_back(mix.product);
  for (const Task& task : t.tasks) {
    if (!task.product || std::find(told.begin(), told.end(), task.product) != told.end()) continue;
    told.push_back(task.product);
    facts.facts.push_back({b.say(Word::product_fact), text(product_words(*task.product, 1))});
  }
}

std::string EstimatePages::product_words(const Product& p, int strength) const {
  const std::string name = b.stated(Topic::product, p.name.value_or(""), t.id);
  const std::string ingredient = b.stated(Topic::ingredient, p.active_ingredient.value_or(""), t.id);
  return p.finished ? b.say(Word::product_value, F{"product", name}, F{"ingredient", ingredient},
                            F{"percent", shortest(p.finished->value * Ratio(strength), 4)})
                    : b.say(Word::product_value_plain, F{"product", name}, F{"ingredient", ingredient});
}

void EstimatePages::mixed(const Mix& mix, Facts& facts) const {
  const Product& p = *mix.product;
  facts.facts.push_back({b.say(Word::product_fact), text(product_words(p, mix.strength))});
  facts.facts.push_back(
      {b.say(Word::mix_fact), text(b.say(mix.strength == 2 ? Word::mix_value_double : Word::mix_value,
                                         F{"gallons", b.stated(Topic::mixed_gallons, decimal(mix.gallons, 1), t.id)},
                                         F{"floz", b.stated(Topic::mixed_fl_oz, decimal(mix.fl_oz, 1), t.id)}))});
  const auto& required = b.house.limits.soil_depth;
  const bool soil = std::any_of(t.runs.begin(), t.runs.end(),
                                [&](const auto& run) { return run.product == mix.product && is_soil(run.kind); });
  if (!soil || !required || !p.label || !p.label->soil_depth) return;
  const Length state = required->value;
  const std::string label = b.words.shown(*p.label->soil_depth);
  facts.facts.push_back(
      {b.say(Word::depth_fact),
       text(state > Length{} ? b.say(Word::depth_value, F{"state", b.words.shown(state)}, F{"label", label})
                             : b.say(Word::depth_label_only, F{"label", label}))});
}

void EstimatePages::priced(std::vector<Block>& blocks) const {
  if (!e.lines.empty()) {
    blocks.push_back(Paragraph{"lead", text(lead())});
    blocks.emplace_back(lines());
    if (e.holds_until) blocks.push_back(Paragraph{"note", text(b.say(Word::price_holds, F{"date", b.holds_until(e)}))});
  }
  scope(blocks);
  waivers(blocks);
  if (!others_after_all()) others(blocks);
  if (e.lines.empty()) return;
  quantities(blocks);
  if (index != b.reasoned()) would_change(blocks, sub());  // of that one it stands with the reasons
  warranty(blocks);
}

std::string EstimatePages::lead() const {
  Length feet;
  for (const auto& run : t.runs)
    if (is_soil(run.kind) || run.kind == RunKind::slab || run.kind == RunKind::joints || run.kind == RunKind::pipes)
      feet += run.length;
  const bool liquid = t.gallons > Ratio(0) && feet > Length{};
  if (t.runs.empty() || !liquid) return b.say(Word::estimate_lead_plain);
  return b.say(Word::estimate_lead, F{"feet", decimal(feet.in_feet(), 1)}, F{"holes", grouped(t.holes)},
               F{"gallons", decimal(t.gallons, 1)});
}

Section Builder::estimate() const {
  Section out{"estimate", "estimate", {}};
  const Builder b = noting(out.record);
  const Estimate* main = main_estimate();
  if (!main || in.treatments.size() != in.estimates.size()) return out;
  const auto& all = in.estimates;
  const bool priced = std::any_of(all.begin(), all.end(), [](const Estimate& e) { return !e.lines.empty(); });
  if (!priced && std::all_of(all.begin(), all.end(), [](const Estimate& e) { return e.others.empty(); })) return out;
  const bool several = in.treatments.size() > 1;
  out.blocks.push_back(Heading{2, "estimate-heading", text(say(Word::estimate_heading)), true});
  EstimatePages{b, in.treatments.front(), *main}.other_options(out.blocks);
  for (std::size_t i = 0; i < in.treatments.size(); ++i) {
    const EstimatePages pages{b, in.treatments[i], in.estimates[i], i};
    if (several)
      out.blocks.push_back(Heading{3, "option-" + std::to_string(i + 1),
                                   text(say(Word::option_heading, F{"option", b.option_name(in.treatments[i])})),
                                   true});
    pages.priced(out.blocks);
  }
  if (const EstimatePages first{b, in.treatments.front(), *main}; first.others_after_all()) first.others(out.blocks);
  if (!priced) return out;
  // Cautions of the treatment that does most to the soil.
  const auto most =
      std::max_element(in.treatments.begin(), in.treatments.end(),
                       [](const Treatment& a, const Treatment& b) { return a.runs.size() < b.runs.size(); });
  const EstimatePages pages{b, *most, *main};
  pages.limits_of_price(out.blocks);
  pages.cautions(out.blocks);
  return out;
}

void Builder::would_change(const Treatment& t, const Estimate& e, std::vector<Block>& blocks) const {
  EstimatePages{*this, t, e}.would_change(blocks, 3);
}

}  // namespace soundsill::document
