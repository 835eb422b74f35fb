// Serves layout/table.h.
#include <algorithm>
#include <numeric>

#include "layout/table.h"
#include "pages/shapes.h"
#include "setting/paragraph.h"

namespace soundsill::page {
namespace {

using namespace document;

struct Need {
  std::int64_t whole = 0, longest = 0;
};

const std::string& style_of(const Table& table, const TableStyle& look, const Row& row, std::size_t column) {
  if (row.kind == Row::Kind::total) return look.total;
  return table.row_heads && column == 0 ? look.row_head : look.cell;
}

void take(Need& need, const Measure& m) {
  need.whole = std::max<std::int64_t>(need.whole, m.whole);
  need.longest = std::max<std::int64_t>(need.longest, m.longest);
}

std::vector<Need> needs_of(Workshop& shop, const Table& table, const TableStyle& look) {
  std::vector<Need> needs(table.columns.size());
  std::vector<std::int64_t> heads(needs.size()), tails(needs.size());
  for (std::size_t c = 0; c < needs.size(); ++c) {
    const Measure title = measure(shop, table.columns[c].title, shop.text(look.head));
    take(needs[c], {title.longest, title.longest});  // a title may take two lines
  }
  for (const Row& row : table.rows) {
    if (row.kind == Row::Kind::group) continue;
    for (const Cell& cell : cells_of(row, needs.size())) {
      if (cell.span != 1) continue;
      const TextStyle& style = shop.text(style_of(table, look, row, cell.first));
      const Measure m = measure(shop, cell.runs, style);
      take(needs[cell.first], m);
      if (table.columns[cell.first].align != Column::Align::number || row.kind != Row::Kind::body) continue;
      // Numbers stand point under point: the longest head and the longest tail may be those of two rows.
      const auto tail = number_tail(cell.runs);
      if (!tail) continue;
      const Milli after = tail->empty() ? 0 : measure(shop, *tail, style).whole;
      heads[cell.first] = std::max<std::int64_t>(heads[cell.first], m.whole - after);
      tails[cell.first] = std::max<std::int64_t>(tails[cell.first], after);
    }
  }
  for (std::size_t c = 0; c < needs.size(); ++c) needs[c].whole = std::max(needs[c].whole, heads[c] + tails[c]);
  // Half a point more, so that rounding never breaks a cell that was measured to fit.
  for (Need& need : needs) {
    need.whole += 2 * look.pad_x + 500;
    need.longest += 2 * look.pad_x + 500;
  }
  return needs;
}

// Shares `room` among the columns still free; those that would be narrower than their longest word get it first.
void share(const Table& table, const std::vector<Need>& needs, std::int64_t room, std::vector<std::int64_t>& widths,
           std::vector<bool> free) {
  for (bool changed = true; changed;) {
    changed = false;
    std::int64_t shares = 0;
    for (std::size_t c = 0; c < widths.size(); ++c)
      if (free[c]) shares += std::max(1, table.columns[c].share);
    for (std::size_t c = 0; c < widths.size() && shares > 0; ++c) {
      if (!free[c]) continue;
      widths[c] = room * std::max(1, table.columns[c].share) / shares;
    }
    for (std::size_t c = 0; c < widths.size(); ++c) {
      if (!free[c] || widths[c] >= needs[c].longest || needs[c].longest > room) continue;
      const bool alone = std::count(free.begin(), free.end(), true) == 1;
      if (alone) return;
      widths[c] = needs[c].longest;
      room -= widths[c];
      free[c] = false;
      changed = true;
      break;
    }
  }
}

// No column is narrower than two letters: the widest ones give.
void widen(std::vector<std::int64_t>& widths, std::int64_t least) {
  for (std::int64_t& w : widths)
    while (w < least) {
      std::int64_t& widest = *std::max_element(widths.begin(), widths.end());
      const std::int64_t given = std::min(least - w, (widest - least + 1) / 2);
      if (given <= 0) return;
      widest -= given;
      w += given;
    }
}

}  // namespace

std::vector<Cell> cells_of(const Row& row, std::size_t columns) {
  std::vector<Cell> cells;
  if (row.kind == Row::Kind::group) {
    Cell all{{}, 0, columns};
    for (const Runs& runs : row.cells) all.runs.insert(all.runs.end(), runs.begin(), runs.end());
    return {all};
  }
  for (std::size_t i = 0; i < std::max(columns, row.cells.size()); ++i) {
    const Runs runs = i < row.cells.size() ? row.cells[i] : Runs{};
    if (i < columns) {
      cells.push_back({runs, i, 1});
    } else {  // more cells than columns: the words go to the last one rather than get lost
      cells.back().runs.push_back({" ", Run::Look::plain, {}});
      cells.back().runs.insert(cells.back().runs.end(), runs.begin(), runs.end());
    }
  }
  if (row.kind != Row::Kind::total) return cells;
  const auto empty = [](const Cell& c) {
    return std::all_of(c.runs.begin(), c.runs.end(), [](const Run& r) { return r.text.empty(); });
  };
  while (cells.size() > 1 && empty(cells.front())) {
    const std::size_t span = cells.front().span;
    cells.erase(cells.begin());
    cells.front().first -= span;
    cells.front().span += span;
  }
  return cells;
}

std::optional<std::string> number_tail(const Runs& runs) {
  std::string all;
  for (const Run& run : runs) all += run.text;
  const auto digit = [&](std::size_t i) { return i < all.size() && all[i] >= '0' && all[i] <= '9'; };
  std::size_t i = 0;
  while (i < all.size() && !digit(i)) ++i;
  if (i == all.size()) return {};
  while (digit(i) || (all[i] == ',' && digit(i + 1))) ++i;
  return all.substr(i);
}

std::vector<Milli> column_widths(Workshop& shop, const Table& table, const TableStyle& look, Milli width) {
  const std::vector<Need> needs = needs_of(shop, table, look);
  const std::size_t n = needs.size();
  std::vector<std::int64_t> widths(n, 0);
  std::vector<bool> free(n, true);
  std::int64_t narrow = 0, least = 0;
  for (std::size_t c = 0; c < n; ++c) {
    if (table.columns[c].narrow)
      narrow += needs[c].whole;
    else
      least += std::min<std::int64_t>(needs[c].longest, width / 4);
  }
  // Narrow columns that leave too little to the others are squeezed in proportion.
  const bool all_narrow =
      std::all_of(table.columns.begin(), table.columns.end(), [](const Column& c) { return c.narrow; });
  const std::int64_t most = std::max<std::int64_t>(all_narrow ? width : width - least, width / 4);
  std::int64_t used = 0;
  for (std::size_t c = 0; c < n; ++c) {
    if (!table.columns[c].narrow) continue;
    widths[c] = narrow > most ? needs[c].whole * most / narrow : needs[c].whole;
    used += widths[c];
    free[c] = false;
  }
  share(table, needs, width - used, widths, free);
  const std::int64_t sum = std::accumulate(widths.begin(), widths.end(), std::int64_t{0});
  // What is left after rounding, or after narrow columns alone, goes to the column with most room for words.
  if (n > 0) {
    std::size_t last = n - 1;
    for (std::size_t c = 0; c < n; ++c)
      if (!table.columns[c].narrow) last = c;
    if (all_narrow)
      for (std::size_t c = 0; c < n; ++c)
        if (needs[c].whole > needs[last].whole) last = c;
    widths[last] += width - sum;
  }
  widen(widths, std::min<std::int64_t>(width / std::max<std::int64_t>(1, static_cast<std::int64_t>(n)),
                                       2 * look.pad_x + 2 * shop.text(look.cell).size));
  std::vector<Milli> out;
  for (const std::int64_t w : widths) out.push_back(milli(w));
  return out;
}

}  // namespace soundsill::page
