// `rules`, `explain`, `forms`: what is checked, why, and on what it rests.
#pragma once

#include <string>

#include "cli/commands.h"

namespace soundsill::cli {

struct CatalogueRequest {
  Where where;
  std::string format = "text";
  std::string name;   ///< a form, or the code of a rule; may be empty
  std::string loan;   ///< fha, va, usda, conventional; may be empty
  std::string diff;   ///< a file of another edition; may be empty
  bool open = false;  ///< only what nobody has read
};

[[nodiscard]] ExitStatus list_rules(const CatalogueRequest& request);
[[nodiscard]] ExitStatus explain_rule(const CatalogueRequest& request);
[[nodiscard]] ExitStatus list_forms(const CatalogueRequest& request);

}  // namespace soundsill::cli
