#include "rules/look.h"

#include <algorithm>
#include <cctype>

#include "resolved/scopes.h"

namespace soundsill::rules {

std::string quoted(std::string_view text) { return "`" + std::string(text) + "`"; }

std::vector<std::string> quoted(std::vector<std::string> words) {
  for (std::string& word : words) word = quoted(std::string_view(word));
  return words;
}

std::string listed(const std::vector<std::string>& words, std::string_view last) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i) out += i + 1 == words.size() ? " " + std::string(last) + " " : ", ";
    out += words[i];
  }
  return out;
}

std::string numbered(std::string_view one, const std::vector<int>& numbers) {
  constexpr std::size_t most = 8;  // so that a line stays readable
  std::vector<std::string> words;
  for (const int n : numbers) words.push_back(std::to_string(n));
  if (words.size() > most) {
    const std::size_t more = words.size() - (most - 1);
    words.resize(most - 1);
    words.push_back(std::to_string(more) + " more");
  }
  return std::string(one) + (numbers.size() > 1 ? "s " : " ") + listed(words);
}

std::string said(const Finding& finding) {
  return finding.no ? "finding " + std::to_string(*finding.no) : "this finding";
}

std::string said(const Work& work) { return work.id ? quoted(*work.id) : "this line"; }

std::string cited(const Field<std::string>& cite) { return cite ? " (" + *cite + ")" : std::string(); }

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

bool holds_word(std::string_view text, std::string_view phrase) {
  const auto is_letter = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; };
  const std::string in = lower(text), wanted = lower(phrase);
  for (auto at = in.find(wanted); at != std::string::npos && !wanted.empty(); at = in.find(wanted, at + 1)) {
    const auto end = at + wanted.size();
    const bool ends = end == in.size() || !is_letter(in[end]) || !is_letter(wanted.back());
    if ((at == 0 || !is_letter(in[at - 1])) && ends) return true;
  }
  return false;
}

std::string typed(const Span& at) {
  return at ? std::string(at.source->text().substr(at.begin, at.end - at.begin)) : std::string();
}

namespace {

bool part_of_word(char c) {
  const auto u = static_cast<unsigned char>(c);
  return u >= 0x80 || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' ||
         c == '_';
}

}  // namespace

Span item(const Span& list, std::string_view word) {
  if (!list || word.empty()) return list;
  const std::string text = typed(list);
  for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const auto end = at + word.size();
    const bool whole = (at == 0 || !part_of_word(text[at - 1])) && (end == text.size() || !part_of_word(text[end]));
    if (whole)
      return {list.source, list.begin + static_cast<std::uint32_t>(at), list.begin + static_cast<std::uint32_t>(end)};
  }
  return list;
}

Span first_of(std::initializer_list<Span> places) {
  for (const Span& at : places)
    if (at) return at;
  return {};
}

bool misread(const Span& at, const Faults& faults) {
  return std::any_of(faults.all().begin(), faults.all().end(), [&](const Diagnostic& d) {
    return info(d.rule).kind == RuleKind::reading && d.at.source == at.source && d.at.begin >= at.begin &&
           d.at.end <= at.end;
  });
}

bool items_lost(const Papers& papers, const Faults& faults) {
  const Source* file = papers.basis.c.at.source;
  return std::any_of(faults.all().begin(), faults.all().end(), [&](const Diagnostic& d) {
    return d.at.source == file && (d.rule == Rule::wrong_shape || (d.rule == Rule::empty_value && typed(d.at) == "-"));
  });
}

const Finding* finding_of(const Papers& papers, int no) {
  for (const Finding& f : items(papers.basis.c.findings))
    if (f.no && *f.no == no) return &f;
  return nullptr;
}

const Method* method_of(const Papers& papers, const Work& work) {
  return work.does ? papers.basis.trade.method(*work.does) : nullptr;
}

const Organism* organism_of(const Papers& papers, const Finding& finding) {
  return finding.organism ? papers.basis.trade.organism(*finding.organism) : nullptr;
}

std::vector<std::string> conditions_of(const Papers& papers, Field<bool> Condition::*nature) {
  std::vector<std::string> names;
  for (const Condition& c : items(papers.basis.trade.conditions))
    if ((c.*nature).value_or(false) && c.name) names.push_back(*c.name);
  return names;
}

bool in_soil(const Papers& papers, const Finding& finding) {
  const Organism* organism = organism_of(papers, finding);
  return organism && organism->in_soil.value_or(false);
}

bool on_plan(const Method& method) {
  const Takes takes = method.takes.value_or(Takes::nothing);
  return takes == Takes::soil || takes == Takes::backfill || takes == Takes::voids || takes == Takes::slab;
}

bool treats(const Papers& papers, const Work& work) {
  const Method* method = method_of(papers, work);
  return method && on_plan(*method) && work.who() == By::us;
}

bool treats(const Papers& papers, const Work& work, Takes takes) {
  if (!treats(papers, work)) return false;
  const Takes its = *method_of(papers, work)->takes;
  return its == takes || (takes == Takes::soil && its == Takes::backfill);
}

bool planned(const Papers& papers, const Work& work) {
  if (!treats(papers, work)) return false;
  for (const Treatment& t : papers.treatments)
    for (const Task& task : t.tasks)
      if (task.work == &work) return true;
  return false;
}

bool answers(const Work& work, int no) {
  const auto& list = items(work.answers);
  return std::find(list.begin(), list.end(), no) != list.end();
}

std::string structure_of(const Papers& papers, const Work& work) {
  if (work.in.written()) return work.in.value_or({});
  const auto& all = papers.basis.survey.structures;
  if (all.size() == 1) return all.front().name;
  const Method* method = method_of(papers, work);
  if (!method || !on_plan(*method)) return {};
  for (const int no : items(work.answers))  // planning takes the structure of the first finding, too
    if (const Finding* f = finding_of(papers, no); f && f->in) return *f->in;
  return {};
}

bool waived(const Work& work) { return work.waiver.written(); }  // keys that it lacks are reported while it is read

std::vector<const Work*> Offer::answering(const Finding& finding) const {
  std::vector<const Work*> out;
  for (const Work* work : lines)
    if (finding.no && answers(*work, *finding.no)) out.push_back(work);
  return out;
}

bool partial(const OptionFacts& option) { return option.scope && *option.scope != Scope::full; }

std::string called(const OptionFacts& option) {
  return option.id ? "option " + quoted(*option.id) : std::string("this option");
}

namespace {

bool names_only_lines(const Papers& papers, const OptionFacts& option) {
  const auto& wanted = items(option.work);
  if (wanted.size() == 1 && wanted.front() == "all") return true;
  const auto& lines = items(papers.basis.c.work);
  const auto known = all_of(lines, &Work::id);
  if (known.size() < lines.size()) return false;
  return std::all_of(wanted.begin(), wanted.end(),
                     [&](const std::string& id) { return std::find(known.begin(), known.end(), id) != known.end(); });
}

}  // namespace

std::vector<Offer> offers(const Papers& papers, const Faults& faults) {
  const Case& c = papers.basis.c;
  std::vector<Offer> out;
  if (c.work.unread() || c.options.unread()) return out;
  const bool lost = items_lost(papers, faults);
  if (!c.options.written()) {
    Offer all;
    for (const Work& work : items(c.work)) all.lines.push_back(&work);
    all.whole = !lost;
    out.push_back(std::move(all));
  }
  for (const OptionFacts& option : items(c.options)) {
    Offer offer;
    offer.option = &option;
    offer.lines = lines_of(c, option);
    offer.whole = !lost && option.work && !misread(option.work.at, faults) && names_only_lines(papers, option);
    if (items(c.options).size() > 1 && option.id) offer.where = " in option " + quoted(*option.id);
    out.push_back(std::move(offer));
  }
  return out;
}

}  // namespace soundsill::rules
