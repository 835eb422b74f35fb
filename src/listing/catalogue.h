// The rule catalogue and the forms, for people who want to know what is checked, why, and on what it rests.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "jurisdiction/form.h"
#include "rules/worked.h"

namespace soundsill::listing {

/// Every rule with its severity, whether it is on under `form` (for rules that wait for a form), and what holds when it
/// is silent. `format` is text or json.
[[nodiscard]] std::string rules_list(const Form* form, std::string_view format);

/// A rule that a form switches on, by form.
struct AskedBy {
  std::string form, cite;
};
/// The long text of a rule: what holds, why it matters, who asks for it, and from its worked cases one that fires it,
/// beside what it is silent about.
[[nodiscard]] std::string explained(const RuleInfo& rule, const std::vector<AskedBy>& asked_by, std::string_view cases);

/// One form as `forms` lists it.
struct FormFile {
  std::string file;  ///< where it came from
  const Form* form = nullptr;
};
/// A line for each form: name, edition, sheet, how many data of which status, how much was not read.
[[nodiscard]] std::string forms_list(const std::vector<FormFile>& forms);
/// Every datum of a form with value, source, status and the file it came from.
[[nodiscard]] std::string form_text(const FormFile& form);
/// What nobody has read: data whose text was not read, with what they say now, and parts of rules. A company reads it,
/// and sends a file with what it read.
[[nodiscard]] std::string open_text(const std::vector<FormFile>& forms);
/// What `after` says otherwise than `before`: a line for each datum that is new, gone or different.
[[nodiscard]] std::string forms_diff(const FormFile& before, const FormFile& after);

}  // namespace soundsill::listing
