#include "yaml/tree.h"

#include <algorithm>

namespace soundsill::yaml {

const Entry* Node::find(std::string_view key) const {
  const auto found = std::find_if(entries.begin(), entries.end(), [&](const Entry& e) { return e.key == key; });
  return found == entries.end() ? nullptr : &*found;
}

}  // namespace soundsill::yaml
