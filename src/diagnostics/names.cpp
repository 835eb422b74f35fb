#include "diagnostics/names.h"

#include <algorithm>

namespace soundsill {
std::string did_you_mean(std::string_view word, std::span<const std::string_view> known, std::string otherwise) {
  const std::string near = nearest(word, known);
  return near.empty() ? std::move(otherwise) : "did you mean `" + near + "`?";
}

NameCheck::Verdict NameCheck::meet(std::string_view name) {
  const auto found = std::find(known_.begin(), known_.end(), name);
  if (found == known_.end()) return unknown_.emplace(name).second ? Verdict::unknown : Verdict::twice;
  const auto place = static_cast<std::size_t>(found - known_.begin());
  if (met_[place]) return Verdict::twice;
  met_[place] = true;
  return Verdict::fine;
}

bool NameCheck::met(std::string_view name) const {
  const auto found = std::find(known_.begin(), known_.end(), name);
  return found != known_.end() && met_[static_cast<std::size_t>(found - known_.begin())];
}

}  // namespace soundsill
