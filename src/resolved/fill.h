// Shared by the files that resolve a case. Not for others.
#pragma once

#include "casefile/case.h"
#include "resolved/resolved.h"

namespace soundsill::resolved {

template <class T>
[[nodiscard]] std::optional<T> value(const Field<T>& field) {
  return field ? std::optional<T>(*field) : std::nullopt;
}
[[nodiscard]] inline std::string text(const Field<std::string>& field) { return field.value_or({}); }
[[nodiscard]] inline std::string text(const Field<Code>& field) { return field ? field->text : std::string(); }

// facts.cpp
void fill_facts(const Case& c, const Survey& survey, Resolved& out);
[[nodiscard]] std::vector<Photo> photos(const ListField<PhotoFile>& list);
[[nodiscard]] std::optional<Waiver> waiver(const Field<soundsill::Waiver>& typed);
// findings.cpp
void fill_findings(const Case& c, const Trade& trade, const Survey& survey, Resolved& out);
// lines.cpp
void fill_options(const Case& c, const Trade& trade, const Company& company, const Survey& survey, Resolved& out,
                  Faults& faults);
// cover.cpp: what a line covers on its structure, from Line::asked; reports what is not there.
void cover(Line& line, const Resolved& all, Faults& faults);
/// Whether planning measures this kind of work on the plan.
[[nodiscard]] bool measured(Takes takes);

}  // namespace soundsill::resolved
