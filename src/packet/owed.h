// What a paper owes its reader, held against the record of what it states: a last look before anything is printed.
#pragma once

#include <string>
#include <vector>

#include "packet/packet.h"

namespace soundsill::document {

enum class PaperKind { packet, findings, estimate };

/// In words, each item that a paper of this kind owes and the document lacks: "the reason why `attic` was not seen".
[[nodiscard]] std::vector<std::string> lacking(const Document& document, const PacketInput& in, PaperKind kind);

}  // namespace soundsill::document
