// Serves html/page.h. Tables with heads that say what they head.
#include <algorithm>

#include "html/page.h"

namespace soundsill::html {

using namespace document;

namespace {

std::string align_class(Column::Align align) {
  switch (align) {
    case Column::Align::left:
      return {};
    case Column::Align::center:
      return class_of("center");
    case Column::Align::right:
    case Column::Align::number:
      return class_of("number");
  }
  return {};
}

bool empty(const Runs& runs) {
  return std::all_of(runs.begin(), runs.end(), [](const Run& r) { return r.text.empty(); });
}

}  // namespace

void Writer::head(const Table& table) {
  const auto titled = [](const Column& c) { return !c.title.empty(); };
  if (std::none_of(table.columns.begin(), table.columns.end(), titled)) return;
  out += "<thead>\n<tr>";
  for (const Column& c : table.columns) {
    const std::string tag = c.title.empty() ? "td" : "th";
    out += "<" + tag + (c.title.empty() ? "" : " scope=\"col\"") + align_class(c.align) + ">" + escaped(c.title) +
           "</" + tag + ">";
  }
  out += "</tr>\n</thead>\n";
}

void Writer::row(const Table& table, const Row& row) {
  const std::size_t columns = table.columns.size();
  const std::string kind = row.kind == Row::Kind::total ? class_of("total") : "";
  out += "<tr" + id_of(row.id) + kind + ">";
  if (row.kind == Row::Kind::group) {
    Runs all;
    for (const Runs& cell : row.cells) all.insert(all.end(), cell.begin(), cell.end());
    out += "<th scope=\"rowgroup\"" + attribute("colspan", std::to_string(columns)) + ">" + runs(all) + "</th></tr>\n";
    return;
  }
  // In a row of totals, empty cells before the first words are one with it.
  std::size_t first = 0;
  while (row.kind == Row::Kind::total && first + 1 < row.cells.size() && first + 1 < columns && empty(row.cells[first]))
    ++first;
  for (std::size_t c = first; c < std::max(columns, row.cells.size()); ++c) {
    const bool said = c < row.cells.size() && !empty(row.cells[c]);
    const bool head = table.row_heads && said && (c == 0 || (c == first && first > 0));
    const std::string tag = head ? "th" : "td";
    out += "<" + tag + (head ? " scope=\"row\"" : "");
    if (c == first && first > 0) out += attribute("colspan", std::to_string(first + 1));
    if (c < columns) out += align_class(table.columns[c].align);
    out += ">" + (c < row.cells.size() ? runs(row.cells[c]) : std::string()) + "</" + tag + ">";
  }
  out += "</tr>\n";
}

void Writer::operator()(const Table& table) {
  out += "<div class=\"wide\">\n<table" + id_of(table.id) + class_of(table.style) + ">\n";
  if (!table.caption.empty()) out += "<caption>" + escaped(table.caption) + "</caption>\n";
  head(table);
  // A group of rows is a body of its own, so that its head heads just these.
  bool open = false;
  for (const Row& r : table.rows) {
    const bool group = r.kind == Row::Kind::group;
    if (!open || group) out += std::string(open ? "</tbody>\n" : "") + "<tbody>\n";
    open = true;
    row(table, r);
  }
  if (open) out += "</tbody>\n";
  out += "</table>\n</div>\n";
}

}  // namespace soundsill::html
