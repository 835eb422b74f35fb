// Serves aftersale/after_builder.h. The tables of the work order. Figures come from the same runs as the estimate;
// nothing is worked out twice.
#include <algorithm>

#include "aftersale/after_builder.h"

namespace soundsill::document {

using F = Words::Fill;
using soundsill::RunKind;

namespace {

std::string whole(const Ratio& seconds) { return grouped(seconds.rounded()); }

}  // namespace

const Tip* WorkOrder::tip(TipAt at) const {
  const auto& crew = b.in.basis.company.crew;
  if (!crew) return nullptr;
  for (const Tip& one : items(crew->tips))
    if (one.at_what && one.sec_per_gal && *one.at_what == at) return &one;
  return nullptr;
}

Facts WorkOrder::head() const {
  FactList list{b, {}};
  list.out.columns = 3;
  const auto& job = b.house.job;
  list.put(Word::wo_day, job && job->on ? b.words.shown(*job->on) : std::string());
  list.put(Word::wo_crew, job ? in_words(b.words, job->crew) : std::string());
  list.put(Word::column_option, option_title(b));
  const auto& accepted = b.house.accepted;
  list.put(Word::wo_ordered_by,
           accepted && !accepted->by.empty() && accepted->on
               ? b.say(Word::name_and_day, F{"name", accepted->by}, F{"date", b.words.shown(*accepted->on)})
               : b.say(Word::wo_not_accepted));
  if (job && job->locate && !job->locate->ticket.empty() && job->locate->from && job->locate->until)
    list.put(Word::wo_ticket,
             b.say(Word::wo_ticket_value, F{"ticket", job->locate->ticket},
                   F{"from", b.words.shown(*job->locate->from)}, F{"until", b.words.shown(*job->locate->until)}));
  std::vector<std::string> soils;
  for (const Structure& s : b.house.structures)
    if (s.details->soil) soils.push_back(b.words.name(yaml::word(*s.details->soil)));
  list.put(Word::wo_soil, in_words(b.words, soils));
  return std::move(list.out);
}

Figures WorkOrder::figures() const {
  Figures out;
  std::size_t loads = 0;
  for (const Mix& mix : t.mixes) loads += mix.loads.size();
  if (t.gallons > Ratio(0))
    out.figures.push_back(
        {decimal(t.gallons, 1) + " gal", b.say(Word::wo_figure_mix, F{"count", std::to_string(loads)})});
  if (t.holes > 0) out.figures.push_back({grouped(t.holes), b.say(Word::wo_figure_holes)});
  if (t.timed && t.minutes > Ratio(0))
    out.figures.push_back(
        {decimal(t.crew_hours, 1) + " h",
         b.say(
             Word::wo_figure_hours,
             F{"people", std::to_string(b.in.basis.company.crew ? b.in.basis.company.crew->people.value_or(1) : 1)})});
  return out;
}

std::string WorkOrder::line_title(const soundsill::Run& run) const {
  for (const Task& task : t.tasks)
    if (task.line->id == run.work) {
      const std::string numbers = answered(run);
      return b.structure_prefix(run.structure) + b.work_title(*task.line) + ", " +
             (numbers.empty() ? b.say(Word::answers_preventive) : b.say(Word::answers_numbers, F{"numbers", numbers}));
    }
  return {};
}

std::string WorkOrder::answered(const soundsill::Run& run) const {
  std::vector<std::string> numbers;
  for (const Task& task : t.tasks)
    if (task.line->id == run.work)
      for (const int n : task.line->answer_numbers)
        if (std::find(numbers.begin(), numbers.end(), std::to_string(n)) == numbers.end())
          numbers.push_back(std::to_string(n));
  return in_words(b.words, numbers);
}

/// What goes into the open trench, and what with the soil that is put back.
std::string WorkOrder::trench(const soundsill::Run& run) const {
  const Ratio trench = run.gallons - run.rod_gallons;
  if (!is_soil(run.kind) || run.backfill || facts(run.kind).size == RunSize::pieces || trench <= Ratio(0)) return {};
  const auto& known = b.house.limits.backfill_share;
  const Ratio share = known ? known->value.value : Ratio(0);
  const Ratio later = (trench * share / 100).rounded_to(1);
  return b.say(Word::wo_trench, F{"open", decimal(trench - later, 1)}, F{"later", decimal(later, 1)});
}

std::string WorkOrder::rods(const soundsill::Run& run) const {
  if (run.rod_holes == 0 || run.rod_gallons <= Ratio(0)) return {};
  const Ratio each = run.rod_gallons / run.rod_holes;
  const Tip* rod = tip(TipAt::rod);
  return b.say(Word::wo_rods, F{"count", std::to_string(run.rod_holes)}, F{"each", decimal(each, 2)},
               F{"seconds", rod ? decimal(each * *rod->sec_per_gal, 0) : std::string("-")});
}

/// A run in the fewest words: the heading above says what is done.
std::string WorkOrder::brief(const soundsill::Run& run) const {
  const std::string places = crew_places(b, run);
  if (places.empty()) return capitalized(b.run_words(run));
  const auto along = [&](Word word) { return capitalized(b.say(word, F{"places", places})); };
  switch (run.kind) {
    case RunKind::soil_outside:
      return along(Word::wo_outside);
    case RunKind::soil_inside:
      return along(Word::wo_inside);
    case RunKind::soil_piers:
      return along(Word::wo_round);
    case RunKind::void_walls:
    case RunKind::void_piers:
      return along(Word::wo_hollow_at);
    case RunKind::slab:
      if (run.names.empty()) return along(run.within ? Word::wo_slab_inside : Word::wo_slab_outside);
      break;
    default:
      break;
  }
  return capitalized(b.run_words(run)) + ": " + places;
}

Row WorkOrder::run_row(const soundsill::Run& run) const {
  std::string depth;
  if (run.depth > Length{})
    depth = run.depth_to ? b.say(Word::depth_sloping, F{"from", print(run.depth)}, F{"to", print(*run.depth_to)})
                         : print(run.depth);
  if (!depth.empty() && run.footing_known_by && *run.footing_known_by == KnownBy::assumed)
    depth = b.say(Word::depth_assumed, F{"depth", depth});
  Runs what = strong(std::to_string(run.number) + ". ");
  what.push_back({brief(run), document::Run::Look::plain, {}});
  if (run.strength == 2) what.push_back({" " + b.say(Word::wo_double), document::Run::Look::strong, {}});
  const bool long_ = run.length > Length{} && !is_drilled(run.kind);
  const bool gallons = run.gallons > Ratio(0);
  return row_of({text("☐"), std::move(what), text(long_ ? decimal(run.length.in_feet(), 1) + " ft" : std::string()),
                 text(depth), gallons ? strong(decimal(run.gallons, 1)) : Runs{}, text(trench(run)), text(rods(run)),
                 text(run.pump_seconds > Ratio(0) ? b.say(Word::wo_seconds, F{"seconds", whole(run.pump_seconds)})
                                                  : std::string()),
                 text(gallons ? b.say(Word::wo_line_gal) : b.say(Word::wo_line))},
                "run-" + std::to_string(run.number));
}

void WorkOrder::runs(std::vector<Block>& blocks) const {
  if (t.runs.empty()) return;
  blocks.push_back(Heading{2, "runs", text(b.say(Word::wo_runs_heading)), true});
  Table out;
  out.style = "priced";
  out.caption = b.say(Word::wo_runs_caption);
  out.columns = {{b.say(Word::wo_column_done), Column::Align::center, 1, true},
                 {b.say(Word::column_run), Column::Align::left, 8, false},
                 {b.say(Word::wo_column_length), Column::Align::right, 1, true},
                 {b.say(Word::column_depth), Column::Align::left, 2, false},
                 {b.say(Word::column_gallons), Column::Align::right, 1, true},
                 {b.say(Word::wo_column_trench), Column::Align::left, 1, true},
                 {b.say(Word::wo_column_rods), Column::Align::left, 1, true},
                 {b.say(Word::wo_column_pump), Column::Align::right, 1, true},
                 {b.say(Word::wo_column_applied), Column::Align::left, 1, true}};
  Ratio sum;
  std::string last;
  for (const auto& run : t.runs) {
    if (held(run)) continue;
    sum += run.gallons;
    if (run.work != last) {
      last = run.work;
      out.rows.push_back({"", {strong(line_title(run))}, Row::Kind::group});
    }
    out.rows.push_back(run_row(run));
  }
  out.rows.push_back({"",
                      {{},
                       strong(b.say(Word::quantities_total)),
                       {},
                       {},
                       strong(decimal(sum, 1)),
                       {},
                       {},
                       {},
                       text(b.say(Word::wo_line_gal))},
                      Row::Kind::total});
  blocks.emplace_back(std::move(out));
}

void WorkOrder::drill_list(std::vector<Block>& blocks) const {
  Table out;
  out.style = "plain";
  out.caption = b.say(Word::wo_drill_caption);
  out.columns = {{b.say(Word::wo_column_done), Column::Align::center, 1, true},
                 {b.say(Word::wo_column_where), Column::Align::left, 4, false},
                 {b.say(Word::column_holes), Column::Align::right, 1, true},
                 {b.say(Word::wo_column_apart), Column::Align::left, 5, false},
                 {b.say(Word::wo_column_each), Column::Align::left, 3, false},
                 {b.say(Word::wo_column_drilled), Column::Align::left, 1, true}};
  for (const auto& run : t.runs) {
    if (!is_drilled(run.kind) || run.holes == 0 || held(run)) continue;
    std::vector<std::pair<std::string, int>> where;  // in the order drilled
    for (const Hole& hole : run.hole_at) {
      const std::string name = hole.wall   ? b.words.name("wall") + " " + std::to_string(hole.wall)
                               : hole.pier ? b.words.name("pier") + " " + std::to_string(hole.pier)
                                           : hole.name;
      const auto found = std::find_if(where.begin(), where.end(), [&](const auto& w) { return w.first == name; });
      if (found == where.end())
        where.emplace_back(name, 1);
      else
        ++found->second;
    }
    const Ratio each = run.gallons / run.holes;
    const Tip* at = tip(facts(run.kind).tip);
    const std::string dose = b.say(Word::wo_each, F{"gallons", decimal(each, 2)},
                                   F{"seconds", at ? decimal(each * *at->sec_per_gal, 0) : std::string("-")});
    std::string apart = b.say(Word::wo_apart, F{"spacing", b.words.shown(run.spacing)});
    if (run.from_wall > Length{} && run.kind == RunKind::slab)
      apart = b.say(Word::wo_from_wall, F{"apart", apart}, F{"distance", b.words.shown(run.from_wall)});
    for (const auto& [name, holes] : where)
      out.rows.push_back(
          row_of({text("☐"), text(b.say(Word::wo_run_at, F{"run", std::to_string(run.number)}, F{"where", name})),
                  strong(std::to_string(holes)), text(apart), text(dose), text(b.say(Word::wo_line_holes))}));
  }
  if (out.rows.empty()) return;
  blocks.push_back(Heading{2, "drill", text(b.say(Word::wo_drill_heading)), true});
  blocks.emplace_back(std::move(out));
}

void WorkOrder::mixing(std::vector<Block>& blocks) const {
  if (t.mixes.empty()) return;
  blocks.push_back(Heading{2, "mix", text(b.say(Word::wo_mix_heading)), true});
  for (const Mix& mix : t.mixes) {
    const Product& p = *mix.product;
    std::vector<std::string> bring;
    for (const auto& [size, count] : mix.packages)
      bring.push_back(b.say(Word::wo_packages, F{"count", std::to_string(count)}, F{"size", shortest(size, 2)}));
    blocks.push_back(Paragraph{
        "body", text(b.say(Word::wo_product, F{"product", p.name.value_or("")},
                           F{"ingredient", p.active_ingredient.value_or("")},
                           F{"registration", p.registration ? p.registration->text : b.say(Word::wo_no_registration)},
                           F{"rate", shortest(mix.fl_oz_per_100_gal, 2)}, F{"bring", in_words(b.words, bring)}))});
    Table out;
    out.style = "plain";
    out.caption = b.say(Word::wo_mix_caption);
    out.columns = {{b.say(Word::wo_column_done), Column::Align::center, 1, true},
                   {b.say(Word::wo_column_load), Column::Align::left, 2, false},
                   {b.say(Word::wo_column_mix_gal), Column::Align::right, 2, false},
                   {b.say(Word::wo_column_water), Column::Align::right, 2, false},
                   {b.say(Word::wo_column_fl_oz), Column::Align::right, 2, false},
                   {b.say(Word::wo_column_mixed), Column::Align::left, 3, false}};
    int number = 0;
    for (const Load& load : mix.loads)
      out.rows.push_back(
          row_of({text("☐"), text(b.say(Word::wo_load, F{"number", std::to_string(++number)})),
                  text(decimal(load.gallons, 1) + " gal"), text(decimal(load.water, 2) + " gal"),
                  strong(shortest(load.exact.rounded_to(2), 2) + " fl oz"), text(b.say(Word::wo_line_fl_oz))}));
    blocks.emplace_back(std::move(out));
  }
  blocks.push_back(Paragraph{"body", strong(b.say(Word::wo_mix_order))});
}

void WorkOrder::dig_first(std::vector<Block>& blocks) const {
  Table out;
  out.style = "plain";
  out.caption = b.say(Word::wo_dig_caption);
  out.row_heads = true;
  out.columns = {{b.say(Word::wo_column_what), Column::Align::left, 4, false},
                 {b.say(Word::wo_column_assumed), Column::Align::left, 2, false},
                 {b.say(Word::wo_column_showed), Column::Align::left, 3, false},
                 {b.say(Word::wo_column_new), Column::Align::left, 3, false}};
  for (const auto& run : t.runs)
    if (run.footing_known_by && *run.footing_known_by == KnownBy::assumed && !held(run))
      out.rows.push_back(
          row_of({text(b.say(Word::wo_run_at, F{"run", std::to_string(run.number)}, F{"where", crew_places(b, run)})),
                  text(b.words.shown(run.depth)), text(b.say(Word::wo_line)), text(b.say(Word::wo_line_gal))}));
  for (const Otherwise& other : otherwise(b.in.basis, t, b.in.estimates.front())) {
    const bool solid = other.what == Otherwise::What::void_solid, empty = other.what == Otherwise::What::slab_empty;
    if (!solid && !empty) continue;
    std::vector<std::string> numbers;
    for (const int n : other.numbers) numbers.push_back(std::to_string(n));
    out.rows.push_back(row_of({text(solid ? (numbers.empty() ? b.words.name("all walls")
                                                             : b.words.name("wall") + " " + in_words(b.words, numbers))
                                          : other.name),
                               text(b.say(solid ? Word::wo_hollow : Word::wo_filled)), text(b.say(Word::wo_line)),
                               text(b.say(Word::wo_line_gal))}));
  }
  if (out.rows.empty()) return;
  blocks.push_back(Heading{2, "dig-first", text(b.say(Word::wo_dig_heading)), true});
  blocks.push_back(Paragraph{"body", text(b.say(Word::wo_dig))});
  blocks.emplace_back(std::move(out));
  for (const Mix& mix : t.mixes)
    blocks.push_back(Paragraph{"body", text(b.say(Word::wo_new_mix, F{"product", mix.product->name.value_or("")},
                                                  F{"rate", shortest(mix.fl_oz_per_100_gal, 2)}))});
}

void WorkOrder::other_work(std::vector<Block>& blocks) const {
  std::vector<Runs> list;
  std::vector<std::string> told;
  for (const Task& task : t.tasks) {
    const Line& w = *task.line;
    if (!w.ours() || Builder::nothing_done(w) || !task.runs.empty()) continue;
    if (std::find(told.begin(), told.end(), w.id) != told.end()) continue;
    told.push_back(w.id);
    std::vector<std::string> where, numbers;
    for (const Finding& f : b.house.findings)
      if (f.no && w.answers_no(*f.no)) where.push_back(b.place_of(f));
    if (w.count) where.push_back(b.say(Word::wo_count, F{"n", std::to_string(*w.count)}));
    if (w.before) where.push_back(b.say(Word::wo_before, F{"date", b.words.shown(*w.before)}));
    const std::string said = in_clauses(where);
    for (const int n : w.answer_numbers) numbers.push_back(std::to_string(n));
    Runs item = strong("☐ " + b.work_title(w));
    if (!said.empty()) item.push_back({": " + said, document::Run::Look::plain, {}});
    if (!numbers.empty())
      item.push_back({" (" + b.say(Word::answers_numbers, F{"numbers", in_words(b.words, numbers)}) + ")",
                      document::Run::Look::quiet,
                      {}});
    list.push_back(std::move(item));
  }
  if (list.empty()) return;
  blocks.push_back(Heading{2, "other-work", text(b.say(Word::wo_other_heading)), true});
  for (Runs& item : list) blocks.push_back(Paragraph{"body", std::move(item)});
}

void WorkOrder::held_back(std::vector<Block>& blocks) const {
  std::vector<std::string> told;
  for (const auto& run : t.runs) {
    if (!held(run) || std::find(told.begin(), told.end(), run.structure) != told.end()) continue;
    told.push_back(run.structure);
    std::vector<std::string> dangers;
    for (const std::string& key : unknown_dangers(b, run.structure)) dangers.push_back(b.words.name(key));
    std::vector<std::string> numbers;
    for (const auto& other : t.runs)
      if (other.structure == run.structure) numbers.push_back(std::to_string(other.number));
    blocks.push_back(Paragraph{
        "caution", text(b.say(Word::wo_held, F{"structure", run.structure}, F{"dangers", in_words(b.words, dangers)},
                              F{"numbers", in_words(b.words, numbers)}))});
  }
}

}  // namespace soundsill::document
