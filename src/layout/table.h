// How wide the columns of a table are.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "setting/workshop.h"

namespace soundsill::page {

/// Cells of a row as they are set: one a column, fewer where cells are merged. `first` is the leftmost column.
struct Cell {
  document::Runs runs;
  std::size_t first = 0, span = 1;
};
[[nodiscard]] std::vector<Cell> cells_of(const document::Row& row, std::size_t columns);

/// What follows the whole part of the first number of a cell: "136.0 ft" gives ".0 ft". None without a number.
[[nodiscard]] std::optional<std::string> number_tail(const document::Runs& runs);

/// Widths with padding, summing to `width`: narrow columns as wide as their widest cell, the rest by shares, none
/// narrower than its longest word while there is room.
[[nodiscard]] std::vector<Milli> column_widths(Workshop& shop, const document::Table& table, const TableStyle& look,
                                               Milli width);

}  // namespace soundsill::page
