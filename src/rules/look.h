// How rules look at the papers of a case, and the words they share. Not for other folders.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/names.h"
#include "rules/each.h"

namespace soundsill::rules {

// Words

/// A text as typed, in backticks.
[[nodiscard]] std::string quoted(std::string_view text);
[[nodiscard]] std::vector<std::string> quoted(std::vector<std::string> words);
/// "a, b and c"
[[nodiscard]] std::string listed(const std::vector<std::string>& words, std::string_view last = "and");
/// "wall 3", "walls 1 and 2"; long lists end in "and 12 more".
[[nodiscard]] std::string numbered(std::string_view one, const std::vector<int>& numbers);
/// "finding 3"; "this finding" when its number could not be read.
[[nodiscard]] std::string said(const Finding& finding);
/// "`soil`"; "this line" when its id could not be read.
[[nodiscard]] std::string said(const Work& work);
/// " (02 NCAC 34 .0603)"; empty without a citation.
[[nodiscard]] std::string cited(const Field<std::string>& cite);
/// In small letters.
[[nodiscard]] std::string lower(std::string_view text);
/// Whether a text holds a word or phrase as such, whatever its case.
[[nodiscard]] bool holds_word(std::string_view text, std::string_view phrase);
/// What stands in the file at a place.
[[nodiscard]] std::string typed(const Span& at);

// Places

/// The place of one item of a list that is read as a whole: the word within the list, else the whole list.
[[nodiscard]] Span item(const Span& list, std::string_view word);
/// The first that points somewhere.
[[nodiscard]] Span first_of(std::initializer_list<Span> places);

// What could not be read

/// Whether reading reported a fault within this place, so that what stands there is not all that was typed.
[[nodiscard]] bool misread(const Span& at, const Faults& faults);
/// Whether a list of the case lost an item, so that what refers to one may be right though it is not found.
[[nodiscard]] bool items_lost(const Papers& papers, const Faults& faults);

// Findings, lines and options

[[nodiscard]] const Finding* finding_of(const Papers& papers, int no);
[[nodiscard]] const Method* method_of(const Papers& papers, const Work& work);
[[nodiscard]] const Organism* organism_of(const Papers& papers, const Finding& finding);
/// The trade's conditions of a nature: wet, contact or low.
[[nodiscard]] std::vector<std::string> conditions_of(const Papers& papers, Field<bool> Condition::*nature);
/// Evidence or damage of an organism that comes through the soil.
[[nodiscard]] bool in_soil(const Papers& papers, const Finding& finding);
/// Soil, voids or slab: what is done on the walls and piers of the plan.
[[nodiscard]] bool on_plan(const Method& method);
/// A line of ours whose method takes soil, voids or slab.
[[nodiscard]] bool treats(const Papers& papers, const Work& work);
/// The same for one kind; backfill is a way to treat soil.
[[nodiscard]] bool treats(const Papers& papers, const Work& work, Takes takes);
/// Whether planning looked at this line: then what is wrong with its places was reported there.
[[nodiscard]] bool planned(const Papers& papers, const Work& work);
[[nodiscard]] bool answers(const Work& work, int no);
/// The structure a line is done in; empty when it is not said, or could not be read.
[[nodiscard]] std::string structure_of(const Papers& papers, const Work& work);
[[nodiscard]] bool waived(const Work& work);

/// One choice that the papers offer: an option with its lines, or all lines of a case without options.
struct Offer {
  const OptionFacts* option = nullptr;
  std::vector<const Work*> lines;
  bool whole = true;  ///< every line it names exists, and no line was lost in reading
  /// " in option `full`"; empty when nothing else is offered.
  std::string where;
  [[nodiscard]] std::vector<const Work*> answering(const Finding& finding) const;
};
[[nodiscard]] std::vector<Offer> offers(const Papers& papers, const Faults& faults);

/// Calls speaks(structure) for each building that was looked at.
template <class Speaks>
void each_looked_at(const Papers& papers, Speaks speaks) {
  for (const Structure& s : papers.basis.c.structures())
    if (s.looked_at() && !s.inspected.unread()) speaks(s);
}

/// Whether an option treats less than the whole.
[[nodiscard]] bool partial(const OptionFacts& option);
/// "option `full`"; "this option" when its id could not be read.
[[nodiscard]] std::string called(const OptionFacts& option);

/// A limit of the form with its citation, or nullptr.
template <class T>
[[nodiscard]] const Datum<T>* limit(const Papers& papers, Field<Datum<T>> Limits::*which) {
  if (!papers.basis.form.limits) return nullptr;
  const auto& datum = (*papers.basis.form.limits).*which;
  return datum && datum->value ? &*datum : nullptr;
}

/// The values of one key over a list, those that could be read.
template <class S>
[[nodiscard]] std::vector<std::string_view> all_of(const std::vector<S>& list, Field<std::string> S::*key) {
  std::vector<std::string_view> out;
  for (const S& one : list)
    if (one.*key) out.push_back(*(one.*key));
  return out;
}

}  // namespace soundsill::rules
