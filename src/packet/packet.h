// The packet: what was found, what answers it, what it costs. Built from numbers that were worked out before.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "document/document.h"
#include "document/words.h"
#include "estimate/otherwise.h"

namespace soundsill::document {

struct PacketInput {
  const Basis& basis;
  const std::vector<Treatment>& treatments;
  const std::vector<Estimate>& estimates;
  const Words& words;
  /// Bytes of each photo by the path in the case file; photos that are not here are left out (a fault was reported).
  const std::map<std::string, std::string>& photos;
  bool draft = false;
  bool apart = false;  ///< findings alone: the estimate is a paper of its own
  /// The words that count, when `words` are those of another language.
  const Words* english = nullptr;
};

[[nodiscard]] Document packet(const PacketInput& in);
/// The drawings alone.
[[nodiscard]] Document drawing_paper(const PacketInput& in);
/// The estimate alone, with its reasons, terms and lines to sign.
[[nodiscard]] Document estimate_paper(const PacketInput& in);

}  // namespace soundsill::document
