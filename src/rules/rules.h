// One function for each `check` or `asked` row of the catalogue: what the papers of a case must not get wrong.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "casefile/case.h"
#include "diagnostics/diagnostics.h"
#include "estimate/estimate.h"
#include "photo/photo.h"

namespace soundsill {

/// What is known of a photo file that a finding names.
struct PhotoState {
  std::string trouble;  ///< why it cannot be read at all; empty when it can
  std::string damage;   ///< why it cannot be decoded; empty when it can, or when nobody looked
  std::optional<photo::Header> header;
};

/// The paper that is to be made, where a rule asks more of one than of another.
enum class Wanted { packet, agreement, work_order, record, invoice, certificate, notice };

/// Everything a rule may look at. A rule reads; it never edits.
struct Papers {
  const Basis& basis;
  const std::vector<Treatment>& treatments;
  const std::vector<Estimate>& estimates;
  std::map<std::string, PhotoState> photos;  ///< by the path that the case file gives
  std::optional<Date> today;                 ///< only when the person gave one
  Wanted wanted = Wanted::packet;
  const Treatment* chosen = nullptr;  ///< of the option that a paper after the estimate is made for
  std::string_view language = "en";   ///< of the paper
};

/// Runs every rule that does not belong to measuring, planning or pricing (those report while they work), stage by
/// stage.
void check(const Papers& papers, Faults& faults);

/// Tells the photos whose state says that they cannot be decoded: for those that show it only when a paper is made.
void check_photos(const Papers& papers, Faults& faults);

}  // namespace soundsill
