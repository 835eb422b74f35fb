// Trees of the files inside the program, read while it was built: at the start of every run the parser would take a
// third of the time that a packet takes.
#pragma once

#include <string>
#include <string_view>

#include "yaml/tree.h"

namespace soundsill::yaml {

/// The tree as bytes: each node its kind, its place, its text or its parts, in the order of the file.
[[nodiscard]] std::string pack(const Node& tree);

/// The tree of a source, out of what `pack` made of it. Throws std::invalid_argument on bytes that are no tree.
[[nodiscard]] Node unpack(std::string_view bytes, const Source& source);

}  // namespace soundsill::yaml
