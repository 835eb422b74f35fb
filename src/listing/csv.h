// CSV by RFC 4180, safe to open in a spreadsheet.
#pragma once

#include <string>
#include <vector>

namespace soundsill::listing {

/// A cell; one that a spreadsheet would run as a formula begins with an apostrophe.
[[nodiscard]] std::string csv_cell(std::string text);
/// A row with its end of line.
[[nodiscard]] std::string csv_row(const std::vector<std::string>& cells);

}  // namespace soundsill::listing
