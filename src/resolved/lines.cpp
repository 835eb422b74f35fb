// Serves resolved/fill.h: options and their lines, cut to the option's scope.
#include <algorithm>

#include "resolved/fill.h"
#include "resolved/scopes.h"

namespace soundsill::resolved {
namespace {

void take_spans(const Work& typed, Line& out) {
  out.at = typed.at;
  out.id_at = typed.id.at;
  out.does_at = typed.does.at;
  out.in_at = typed.in.at;
  out.answers_at = typed.answers.at;
  out.depth_at = typed.depth.at;
  out.spacing_at = typed.spacing.at;
  out.count_at = typed.count.at;
  out.product_at = typed.product.at;
  out.half_volume_at = typed.half_volume.at;
  out.surface_at = typed.surface.at;
}

Asked asked_by(const Work& typed) {
  Asked out;
  if (typed.walls) out.walls = *typed.walls;
  if (typed.piers) out.piers = *typed.piers;
  out.near = items(typed.near);
  out.places = items(typed.places);
  out.parts = value(typed.parts);
  out.walls_said = typed.walls.written();
  out.piers_said = typed.piers.written();
  out.near_said = typed.near.written();
  out.places_said = typed.places.written();
  out.unread = typed.walls.unread() || typed.piers.unread() || typed.near.unread() || typed.places.unread();
  out.near_at = typed.near.at;
  out.parts_at = typed.parts.at;
  return out;
}

/// A line as typed, before its option says anything of it.
Line taken(const Work& typed, const Trade& trade) {
  Line out;
  out.id = text(typed.id);
  out.does = text(typed.does);
  out.method = typed.does ? trade.method(*typed.does) : nullptr;
  out.takes = out.method ? out.method->takes.value_or(Takes::nothing) : Takes::nothing;
  out.who = typed.who();
  out.in = text(typed.in);
  out.answer_numbers = items(typed.answers);
  out.asked = asked_by(typed);
  out.sides = typed.sides.value_or(Sides::both);
  out.depth = value(typed.depth);
  out.spacing = value(typed.spacing);
  out.count = value(typed.count);
  out.sq_ft = value(typed.sq_ft);
  out.coats = typed.coats.value_or(1);
  out.says_lumber = typed.lumber.written();
  for (const soundsill::Lumber& l : items(typed.lumber))
    if (l.size && l.length) out.lumber.push_back({*l.size, *l.length});
  out.surface = value(typed.surface);
  out.core = value(typed.core);
  out.hold = value(typed.hold);
  out.own_product = typed.product.written();
  out.product_id = text(typed.product);
  out.half_volume = typed.half_volume.value_or(false);
  out.firm = text(typed.firm);
  out.asked_of = value(typed.asked_of);
  if (typed.agreed) out.agreed = Agreed{value(typed.agreed->by), value(typed.agreed->on)};
  out.before = value(typed.before);
  out.because = text(typed.because);
  out.proof = text(typed.proof);
  out.preventive = typed.preventive.value_or(false);
  out.lender_asks = typed.lender_asks.value_or(false);
  out.waiver = waiver(typed.waiver);
  out.waived = typed.waiver.written();
  out.typed = &typed;
  take_spans(typed, out);
  return out;
}

bool on_soil(Takes takes) { return takes == Takes::soil || takes == Takes::backfill; }
bool below_slab(Takes takes) {
  return takes == Takes::slab || takes == Takes::under_slab || takes == Takes::bath_traps || takes == Takes::crawl_area;
}

/// Cuts the lines of a partial option to its scope.
struct Cutter {
  const Trade& trade;
  const Resolved& all;
  Scope scope;

  /// Of what a line names, only what lies near its findings, on the sides it has anyway.
  static Line near_only(Line line) {
    line.asked.near = line.answer_numbers;
    line.asked.near_said = true;
    line.asked.near_at = line.answers_at;
    line.local = line.cut = true;
    return line;
  }

  /// Outside as typed, inside near the evidence. What stands round (piers, chimneys) belongs to the inside.
  static void outside_and_local(const Line& line, std::vector<Line>& out) {
    if (line.sides != Sides::inside) {
      Line outside = line;
      outside.sides = Sides::outside;
      outside.cut = true;
      if (on_soil(line.takes)) {
        outside.asked.piers = {};
        outside.asked.piers_said = false;
      }
      out.push_back(std::move(outside));
    }
    if (line.sides == Sides::outside || line.answer_numbers.empty()) return;
    Line inside = near_only(line);
    inside.sides = Sides::inside;
    out.push_back(std::move(inside));
  }

  void one(const Line& line, std::vector<Line>& out) const {
    const Takes takes = line.takes;
    if (!line.method || !line.ours() || line.asked.near_said) return out.push_back(line);  // what is near already stays
    const bool both = on_soil(takes) || takes == Takes::slab;
    if (scope == Scope::outside_and_local && both) return outside_and_local(line, out);
    if (scope != Scope::evidence_only) return out.push_back(line);
    if (takes == Takes::under_slab || takes == Takes::crawl_area) return;
    if (!both && takes != Takes::voids && takes != Takes::bath_traps) return out.push_back(line);
    if (!line.answer_numbers.empty()) out.push_back(near_only(line));
  }

  [[nodiscard]] std::string structure_of(const Line& line) const {
    if (!line.in.empty()) return line.in;
    for (const int no : line.answer_numbers)
      if (const Finding* f = all.finding(no); f && !f->in.empty()) return f->in;
    return {};
  }

  static Line stations(const Line& first, const Method& method, const std::string& where) {
    Line out;
    out.id = first.id;
    out.does = *method.name;
    out.method = &method;
    out.takes = Takes::stations;
    out.in = where;
    out.answer_numbers = first.answer_numbers;
    out.preventive = first.preventive;
    out.cut = true;
    out.typed = first.typed;
    out.at = first.at;
    out.id_at = first.id_at;
    out.does_at = first.does_at;
    out.in_at = first.in_at;
    out.answers_at = first.answers_at;
    return out;
  }

  /// One line of stations for each structure, in place of the first line that treated there.
  [[nodiscard]] std::vector<Line> bait(std::vector<Line> lines) const {
    const auto& methods = items(trade.methods);
    const auto method = std::find_if(methods.begin(), methods.end(),
                                     [](const Method& m) { return m.takes && *m.takes == Takes::stations; });
    if (method == methods.end()) return lines;
    std::vector<Line> out;
    std::vector<std::pair<std::string, std::size_t>> made;  // by structure, where in `out`
    for (const Line& line : lines) {
      if (!line.ours() || (!on_soil(line.takes) && !below_slab(line.takes) && line.takes != Takes::voids)) {
        out.push_back(line);
        continue;
      }
      const std::string where = structure_of(line);
      const auto found = std::find_if(made.begin(), made.end(), [&](const auto& m) { return m.first == where; });
      if (found == made.end()) {
        made.emplace_back(where, out.size());
        out.push_back(stations(line, *method, where));
        continue;
      }
      std::vector<int>& answers = out[found->second].answer_numbers;
      for (const int n : line.answer_numbers)
        if (std::find(answers.begin(), answers.end(), n) == answers.end()) answers.push_back(n);
    }
    return out;
  }

  [[nodiscard]] std::vector<Line> cut(std::vector<Line> lines) const {
    if (scope == Scope::full) return lines;
    if (scope == Scope::bait) return bait(std::move(lines));
    std::vector<Line> out;
    for (const Line& line : lines) one(line, out);
    return out;
  }
};

/// What is left to look up of a line once its option is known: structure, product, findings, and what it covers.
struct Lookup {
  const Company& company;
  const Survey& survey;
  const Resolved& all;
  Faults& faults;

  [[nodiscard]] const SurveyedStructure* structure_of(const Line& line, bool tell) const {
    if (!line.in.empty()) {
      const SurveyedStructure* found = survey.find(line.in);
      if (!found && tell)
        faults.add(Rule::no_structure, line.in_at, "`" + line.in + "` is not a structure that was looked at",
                   "the crew would not know which building is meant", "name a structure listed under `structures:`");
      return found;
    }
    if (line.in_at) return nullptr;  // what was typed could not be read
    if (survey.structures.size() == 1) return &survey.structures.front();
    for (const int no : line.answer_numbers)
      if (const Finding* f = all.finding(no); f && !f->in.empty()) return survey.find(f->in);
    if (!survey.structures.empty() && tell)
      faults.add(Rule::no_structure, line.id_at ? line.id_at : line.at,
                 "this work line does not say in which structure it is done",
                 "the crew would not know which building is meant", "write `in:` with the name of a structure");
    return nullptr;
  }

  [[nodiscard]] const Product* product_of(const Line& line, const Option& option) const {
    const bool uses = line.method && line.method->uses_product.value_or(false);
    if (!line.ours() || !uses) return nullptr;
    return line.own_product ? company.product(line.product_id) : option.product;
  }

  void finish(Line& line, const Option& option) const {
    const bool planned = line.ours() && measured(line.takes);
    for (const int no : line.answer_numbers)
      if (const Finding* f = all.finding(no)) line.answers.push_back(f);
    line.product = product_of(line, option);
    line.structure = structure_of(line, planned);
    if (planned && line.structure && line.structure->drawn()) cover(line, all, faults);
  }
};

Option taken(const OptionFacts& typed, const Company& company) {
  Option out;
  out.id = text(typed.id);
  out.name = text(typed.name);
  out.product_id = text(typed.product);
  out.product = typed.product ? company.product(*typed.product) : nullptr;
  out.product_said = typed.product.written();
  out.warranty_id = text(typed.warranty);
  out.warranty = typed.warranty ? company.warranty(*typed.warranty) : nullptr;
  out.scope = typed.scope.value_or(Scope::full);
  out.quoted = value(typed.quoted);
  out.because = text(typed.because);
  out.at = typed.at;
  out.id_at = typed.id.at;
  out.product_at = typed.product.at;
  out.warranty_at = typed.warranty.at;
  out.scope_at = typed.scope.at;
  out.quoted_at = typed.quoted.at;
  out.typed = &typed;
  return out;
}

bool wants(const OptionFacts& option, const Work& work) {
  const auto& wanted = items(option.work);
  if (wanted.size() == 1 && wanted.front() == "all") return true;
  return work.id && std::find(wanted.begin(), wanted.end(), *work.id) != wanted.end();
}

void cut(Option& option, const Cutter& cutter) {
  const std::vector<Line> typed = option.lines;
  option.lines = cutter.cut(std::move(option.lines));
  for (const Line& line : typed)
    if (std::none_of(option.lines.begin(), option.lines.end(),
                     [&](const Line& left) { return left.typed == line.typed && !left.cut; }))
      option.cut_lines.push_back(line.id);
}

/// Work without options is one option that takes all of it, without product or warranty.
const OptionFacts& everything() {
  static const OptionFacts made = [] {
    OptionFacts o;
    o.id.set("all work");
    o.work.set({"all"});
    return o;
  }();
  return made;
}

/// Readers that still look at blocks see those that cut_to_scope made.
void point_to_copies(const Case& c, const OptionFacts& typed, Option& option) {
  const auto copies = lines_of(c, typed);
  if (copies.size() != option.lines.size()) return;
  for (std::size_t i = 0; i < copies.size(); ++i) option.lines[i].typed = copies[i];
}

}  // namespace

void fill_options(const Case& c, const Trade& trade, const Company& company, const Survey& survey, Resolved& out,
                  Faults& faults) {
  const Lookup lookup{company, survey, out, faults};
  const auto put = [&](const OptionFacts& typed) {
    Option option = taken(typed, company);
    for (const Work& w : items(c.work))
      if (wants(typed, w)) option.lines.push_back(taken(w, trade));
    if (typed.id && option.partial()) cut(option, Cutter{trade, out, option.scope});
    for (Line& line : option.lines) lookup.finish(line, option);
    point_to_copies(c, typed, option);
    out.options.push_back(std::move(option));
  };
  out.has_options = c.options.written();
  for (const OptionFacts& typed : items(c.options)) put(typed);
  if (c.options.written() || items(c.work).empty()) return;
  put(everything());
  out.options.back().all_work = true;
}

bool Line::answers_no(int number) const {
  return std::find(answer_numbers.begin(), answer_numbers.end(), number) != answer_numbers.end();
}

bool Line::treats() const {
  return ours() && method && (on_soil(takes) || takes == Takes::voids || takes == Takes::slab);
}

bool Line::treats(Takes kind) const {
  return treats() && (takes == kind || (kind == Takes::soil && takes == Takes::backfill));
}

std::vector<const Line*> Option::answering(int number) const {
  std::vector<const Line*> out;
  for (const Line& line : lines)
    if (line.answers_no(number)) out.push_back(&line);
  return out;
}

}  // namespace soundsill::resolved
