// What the papers after the estimate say in the same words: names, places, license, what is treated, plans.
#include "aftersale/after_builder.h"

#include <algorithm>

namespace soundsill::document {

using F = Words::Fill;

const std::string& owner_name(const Builder& b) {
  const resolved::People& people = b.house.people;
  return people.owner.named() ? people.owner.name : people.seller.name;
}

const std::string& payer_name(const Builder& b) {
  if (b.house.people.payer.named()) return b.house.people.payer.name;
  const auto& accepted = b.house.accepted;
  return accepted && !accepted->by.empty() ? accepted->by : owner_name(b);
}

std::string first_paper(const Builder& b) {
  const resolved::CaseFacts& facts = b.house.facts;
  const std::string line =
      b.say(Word::case_line, F{"number", facts.number}, F{"revision", std::to_string(facts.revision)});
  const auto& signature = b.house.signature;
  const bool dated = signature && signature->on;
  return dated ? b.say(Word::paper_signed, F{"case", line}, F{"date", b.words.shown(*signature->on)}) : line;
}

std::string company_line(const Builder& b) {
  const Company& c = b.in.basis.company;
  std::string out = c.name.value_or("");
  for (const auto& part : {c.address, c.phone})
    if (part) out += (out.empty() ? "" : ", ") + *part;
  return out;
}

std::string option_title(const Builder& b) {
  const Treatment* t = b.main_treatment();
  return t ? b.option_name(*t) : std::string();
}

Row row_of(std::vector<Runs> cells, std::string id) { return {std::move(id), std::move(cells)}; }

std::string run_places(const Builder& b, const soundsill::Run& run) {
  const SurveyedStructure* s = b.in.basis.survey.find(run.structure);
  std::vector<std::string> list;
  if (s && !run.stretches.empty()) list.push_back(b.stretch_words(*s, run.stretches));
  for (std::size_t i = 0; i < run.piers.size();) {  // 1 to 4 rather than 1, 2, 3 and 4
    std::size_t last = i;
    while (last + 1 < run.piers.size() && run.piers[last + 1] == run.piers[last] + 1) ++last;
    std::string one = b.words.name("pier") + " " + std::to_string(run.piers[i]);
    if (last > i) one += (last > i + 1 ? " " + b.words.name("to") + " " : ", ") + std::to_string(run.piers[last]);
    list.push_back(std::move(one));
    i = last + 1;
  }
  return b.structure_prefix(run.structure) + in_words(b.words, list);
}

namespace {

/// Whole walls in a row as "4 to 6", others with their stretches.
std::string crew_walls(const Builder& b, const SurveyedStructure& s, const std::vector<Stretch>& all) {
  std::vector<std::pair<int, std::string>> walls;  // number, stretches; none when it is whole
  for (const Stretch& one : all) {
    const Wall* wall = s.wall(one.wall);
    const bool whole = wall && one.a == Length{} && one.b == wall->length;
    const std::string piece = whole ? std::string() : print(one.a) + " " + b.words.name("to") + " " + print(one.b);
    if (!walls.empty() && walls.back().first == one.wall)
      walls.back().second += ", " + piece;
    else
      walls.emplace_back(one.wall, piece);
  }
  std::string out;
  for (std::size_t i = 0; i < walls.size();) {
    std::size_t last = i;
    while (last + 1 < walls.size() && walls[i].second.empty() && walls[last + 1].second.empty() &&
           walls[last + 1].first == walls[last].first + 1)
      ++last;
    out += (out.empty() ? "" : ", ") + std::to_string(walls[i].first);
    if (!walls[i].second.empty()) out += " (" + walls[i].second + ")";
    if (last > i) out += (last > i + 1 ? " " + b.words.name("to") + " " : ", ") + std::to_string(walls[last].first);
    i = last + 1;
  }
  return b.words.name(walls.size() > 1 ? "walls" : "wall") + " " + out;
}

}  // namespace

std::string crew_places(const Builder& b, const soundsill::Run& run) {
  const SurveyedStructure* s = b.in.basis.survey.find(run.structure);
  if (!s || run.stretches.empty()) return run_places(b, run);
  return b.structure_prefix(run.structure) + crew_walls(b, *s, run.stretches);
}

std::string license_line(const Builder& b) {
  const auto& l = b.in.basis.company.license;
  if (!l || !l->number || !l->holder) return {};
  return b.say(Word::ag_license, F{"number", l->number->text}, F{"phases", in_words(b.words, items(l->phases))},
               F{"holder", *l->holder});
}

std::string in_clauses(const std::vector<std::string>& clauses) {
  std::string out;
  for (const std::string& one : clauses) out += (out.empty() ? "" : "; ") + one;
  return out;
}

namespace {

/// Lines of ours against organisms, all or some.
std::vector<const Task*> treating(const Treatment& t, const Counts& counts) {
  std::vector<const Task*> out;
  for (const Task& task : t.tasks)
    if (task.method && !items(task.method->against).empty() && task.line->ours() && (!counts || counts(task)))
      out.push_back(&task);
  return out;
}

}  // namespace

std::vector<const Finding*> treated_findings(const Builder& b, const Treatment& t, const Counts& counts) {
  const auto tasks = treating(t, counts);
  std::vector<const Finding*> out;
  for (const Finding& f : b.house.findings) {
    if (!f.no || !f.kind || f.is(FindingKind::condition)) continue;
    if (std::any_of(tasks.begin(), tasks.end(), [&](const Task* task) { return task->line->answers_no(*f.no); }))
      out.push_back(&f);
  }
  return out;
}

std::vector<std::string> treated_organisms(const Builder& b, const Treatment& t, const Counts& counts) {
  std::vector<std::string> out;
  const auto put = [&](const std::string& name) {
    if (std::find(out.begin(), out.end(), name) == out.end()) out.push_back(name);
  };
  for (const Finding* f : treated_findings(b, t, counts)) put(b.organism_of(*f));
  if (!out.empty()) return out;
  for (const Task* task : treating(t, counts))
    for (const std::string& name : items(task->method->against)) {
      const Organism* o = b.in.basis.trade.organism(name);
      put(o && o->plural ? *o->plural : name);
    }
  return out;
}

void plans(const Builder& b, const Treatment& t, Plans where, Word alt, Word caption, std::vector<Block>& blocks) {
  for (const SurveyedStructure& s : b.in.basis.survey.structures) {
    std::vector<std::string> numbers;
    for (const auto& run : t.runs)
      if (run.structure == s.name) numbers.push_back(std::to_string(run.number));
    if (!s.drawn() || (where == Plans::worked_on && numbers.empty())) continue;
    Drawing d;
    d.id = "plan-" + s.name;
    d.scene = b.scene(s, &t, true);
    d.alt = b.say(alt, F{"structure", s.name}, F{"runs", numbers.empty() ? "0" : in_words(b.words, numbers)});
    d.caption = text(b.say(caption, F{"structure", s.name}));
    blocks.emplace_back(std::move(d));
  }
}

}  // namespace soundsill::document
