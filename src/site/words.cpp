#include "site/words.h"

#include <algorithm>

namespace soundsill::plan {

std::string quoted(std::string_view name) { return "`" + std::string(name) + "`"; }

std::string of(std::string_view name) { return name.empty() ? std::string() : " of " + quoted(name); }

std::string numbered(std::string_view one, const std::vector<int>& numbers) {
  constexpr std::size_t most = 6;  // the first line of a fault is never wrapped
  std::string out(one);
  if (numbers.size() > 1) out += 's';
  const std::size_t shown = numbers.size() > most ? most - 1 : numbers.size();
  for (std::size_t i = 0; i < shown; ++i) {
    const bool last = i + 1 == numbers.size();
    out += (i == 0 ? " " : last ? " and " : ", ") + std::to_string(numbers[i]);
  }
  if (shown < numbers.size()) out += " and " + std::to_string(numbers.size() - shown) + " more";
  return out;
}

std::string no_such(std::string_view thing, int number, std::size_t last) {
  const std::string out = "there is no " + std::string(thing) + " " + std::to_string(number) + "; ";
  return out + (last == 0 ? "there are none" : "the last is " + std::to_string(last));
}

std::string print(const Point& point) {
  return "[" + soundsill::print(point.x) + ", " + soundsill::print(point.y) + "]";
}

bool spoilt(const Span& span, const Faults& faults) {
  if (!span) return false;
  return std::any_of(faults.all().begin(), faults.all().end(), [&](const Diagnostic& d) {
    const bool inside = d.at.source == span.source && d.at.begin >= span.begin && d.at.end <= span.end;
    return inside && info(d.rule).kind == RuleKind::reading;
  });
}

}  // namespace soundsill::plan
