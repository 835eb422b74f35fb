// What goes into a packet for other programs, and the schemas that say how it and the case file look.
#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "document/words.h"
#include "estimate/estimate.h"

namespace soundsill::listing {

/// A paper that is laid out, and what it was made from.
struct Copy {
  const Basis& basis;
  const std::vector<Treatment>& treatments;
  const std::vector<Estimate>& estimates;
  const document::Document& paper;
  const document::Words& words;  ///< of the paper
};

/// The facts and figures that this copy prints, as JSON. There is a list of what may be told (the tables of
/// packet.cpp), and of it only what this copy states: a paper of findings alone knows no price.
[[nodiscard]] std::string packet_json(const Copy& copy);
/// JSON Schema, draft 2020-12, of what packet_json gives: made from the same tables.
[[nodiscard]] std::string packet_schema();
/// JSON Schema, draft 2020-12, of a case file: made from the key tables that read it. It cannot tell all that `check`
/// tells, but refuses no case that the reader takes.
[[nodiscard]] std::string case_schema();

}  // namespace soundsill::listing
