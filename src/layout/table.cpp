#include "layout/table.h"

#include <algorithm>
#include <numeric>

#include "layout/blocks.h"
#include "pages/shapes.h"
#include "setting/paragraph.h"

namespace soundsill::page {
namespace {

using namespace document;

/// A cell with its lines set.
struct SetCell {
  std::vector<Line> lines;
  const TextStyle* style = nullptr;
  Milli x = 0, width = 0;
  Align align = Align::left;
};

Align align_of(Column::Align align) {
  if (align == Column::Align::number) return Align::right;
  return align == Column::Align::right ? Align::right : align == Column::Align::center ? Align::center : Align::left;
}

class TableMaker {
 public:
  TableMaker(Workshop& shop, const Table& table, Place place)
      : shop_(shop), table_(table), place_(place), look_(shop.table(table.style)) {}

  Strips make() {
    widths_ = column_widths(shop_, table_, look_, place_.width);
    find_tails();
    node_ = shop_.node("Table", place_.parent);
    shop_.at(node_).alt = table_.caption;
    Strips strips = head();
    heads_ = strips.size();
    const std::shared_ptr<const Strip> repeated = strips.empty() || strips.front().height > shop_.column_height / 3
                                                      ? nullptr
                                                      : std::make_shared<const Strip>(as_artifact(strips.front()));
    const NodeId body = table_.rows.empty() ? artifact : shop_.node("TBody", node_);
    const Milli room = shop_.column_height - (repeated ? repeated->height : 0);
    for (std::size_t r = 0; r < table_.rows.size(); ++r) {
      Strips row = row_strips(r, body, room);
      for (Strip& strip : row) strip.head = repeated;
      append(strips, std::move(row));
    }
    finish(strips);
    return strips;
  }

 private:
  void finish(Strips& strips) const {
    if (strips.empty()) return;
    // A short table stays whole; of a long one, two rows at least stand at each end of a page.
    const bool small = table_.rows.size() <= 4 && height_of(strips) < shop_.column_height / 3;
    for (std::size_t i = 0; i + 1 < strips.size(); ++i)
      if (small || i <= heads_ || i + 2 == strips.size()) strips[i].keep = true;
    strips.front().before = look_.before;
    strips.back().after = look_.after;
    strips.back().keep = false;
    if (!table_.id.empty()) strips.front().places.emplace_back(table_.id, 0);
  }

  Strips head() {
    const auto named = [](const Column& c) { return !c.title.empty(); };
    if (std::none_of(table_.columns.begin(), table_.columns.end(), named)) return {};
    const NodeId row = shop_.node("TR", shop_.node("THead", node_));
    std::vector<SetCell> cells;
    for (std::size_t c = 0; c < table_.columns.size(); ++c) {
      const NodeId cell = cell_node("TH", row, 1);
      shop_.at(cell).scope = "Column";
      cells.push_back(set(strong(table_.columns[c].title), look_.head, c, 1, cell));
    }
    std::size_t most = 0;
    for (const SetCell& cell : cells) most = std::max(most, cell.lines.size());
    Strip strip = band(cells, 0, most, true, true);
    // Titles stand on the rule: shorter ones sink to the last line.
    Strip sunk;
    sunk.height = strip.height;
    if (look_.head_fill) sunk.marks.emplace_back(filled_box({0, 0, place_.width, strip.height}, *look_.head_fill));
    for (const SetCell& cell : cells)
      put_lines(shop_, sunk, cell.lines, *cell.style,
                {cell.x, strip.height - look_.pad_y - height_of_lines(cell.lines, *cell.style)}, cell.width,
                cell.align);
    rule(sunk, strip.height, look_.head_rule, look_.head_rule_color);
    sunk.keep = true;
    return {sunk};
  }

  NodeId cell_node(const char* role, NodeId row, std::size_t span) {
    const NodeId node = shop_.node(role, row);
    shop_.at(node).column_span = static_cast<int>(span);
    return node;
  }

  SetCell set(const Runs& runs, const std::string& style, std::size_t first, std::size_t span, NodeId node) {
    SetCell cell;
    cell.style = &shop_.text(style);
    const auto at = widths_.begin() + static_cast<std::ptrdiff_t>(first);
    cell.x = std::accumulate(widths_.begin(), at, Milli{0}) + look_.pad_x;
    cell.width = std::accumulate(at, at + static_cast<std::ptrdiff_t>(span), Milli{0}) - 2 * look_.pad_x;
    // The outer edges of the words stand on the edges of the page, unless a tint surrounds them.
    if (!tinted()) {
      if (first == 0) {
        cell.x -= look_.pad_x;
        cell.width += look_.pad_x;
      }
      if (first + span == widths_.size()) cell.width += look_.pad_x;
    }
    cell.align = span > 1 && first == 0 && span == widths_.size() ? Align::left
                                                                  : align_of(table_.columns[first + span - 1].align);
    cell.lines = set_lines(shop_, runs, {cell.style, cell.width, node});
    if (span == 1 && table_.columns[first].align == Column::Align::number && cell.lines.size() == 1)
      if (const auto tail = tail_of(runs, *cell.style)) cell.width -= std::max(0, tails_[first] - *tail);
    return cell;
  }

  // What follows the whole part of a number hangs at its right: the decimals, the unit.
  [[nodiscard]] std::optional<Milli> tail_of(const Runs& runs, const TextStyle& style) {
    const auto tail = number_tail(runs);
    if (!tail) return {};
    return tail->empty() ? 0 : measure(shop_, *tail, style).whole;
  }

  void find_tails() {
    tails_.assign(table_.columns.size(), 0);
    for (const Row& row : table_.rows)
      for (const Cell& cell : row.kind == Row::Kind::body ? cells_of(row, tails_.size()) : std::vector<Cell>{})
        if (cell.span == 1 && table_.columns[cell.first].align == Column::Align::number)
          tails_[cell.first] =
              std::max(tails_[cell.first], tail_of(cell.runs, shop_.text(style_of(row, cell.first))).value_or(0));
  }

  [[nodiscard]] bool tinted() const { return look_.zebra || look_.head_fill; }

  static void rule(Strip& strip, Milli y, Milli width, Color color, Milli across) {
    if (width > 0) strip.marks.emplace_back(line_path({0, y}, {across, y}, width, color));
  }
  void rule(Strip& strip, Milli y, Milli width, Color color) const { rule(strip, y, width, color, place_.width); }

  Strips row_strips(std::size_t r, NodeId body, Milli room) {
    const Row& row = table_.rows[r];
    const NodeId node = shop_.node("TR", body);
    std::vector<SetCell> cells;
    for (const Cell& cell : cells_of(row, table_.columns.size())) {
      if (cell.span == 0) continue;
      const bool said = std::any_of(cell.runs.begin(), cell.runs.end(), [](const Run& r) { return !r.text.empty(); });
      const bool head = row.kind == Row::Kind::group || (table_.row_heads && said && cell.first == 0);
      const NodeId id = cell_node(head ? "TH" : "TD", node, cell.span);
      if (head) shop_.at(id).scope = row.kind == Row::Kind::group ? "Column" : "Row";
      cells.push_back(set(cell.runs, style_of(row, cell.first), cell.first, cell.span, id));
    }
    Strips strips = bands(cells, room);
    decorate(strips, r);
    if (!row.id.empty() && !strips.empty()) strips.front().places.emplace_back(row.id, 0);
    return strips;
  }

  [[nodiscard]] const std::string& style_of(const Row& row, std::size_t column) const {
    if (row.kind == Row::Kind::group) return look_.group;
    if (row.kind == Row::Kind::total) return look_.total;
    return table_.row_heads && column == 0 ? look_.row_head : look_.cell;
  }

  // A row is one strip. One that is taller than a third of a page may be cut between lines, but two lines at least
  // stand on either side of the cut.
  Strips bands(const std::vector<SetCell>& cells, Milli room) {
    std::size_t most = 1;
    Milli leading = 1;
    for (const SetCell& cell : cells) {
      most = std::max(most, cell.lines.size());
      leading = std::max(leading, cell.style->leading);
    }
    const auto fit = static_cast<std::size_t>(std::max<Milli>(1, (room / 3 - 2 * look_.pad_y) / leading));
    if (most <= fit) return {band(cells, 0, most, true, true)};
    Strips strips;
    for (std::size_t i = 0; i < most; ++i) {
      strips.push_back(band(cells, i, i + 1, i == 0, i + 1 == most));
      strips.back().keep = i == 0 || i + 2 == most;
    }
    return strips;
  }

  Strip band(const std::vector<SetCell>& cells, std::size_t from, std::size_t to, bool first, bool last) {
    Strip strip;
    const Milli above = first ? look_.pad_y : 0, below = last ? look_.pad_y : 0;
    for (const SetCell& cell : cells) {
      const std::size_t begin = std::min(from, cell.lines.size()), end = std::min(to, cell.lines.size());
      const std::vector<Line> lines(cell.lines.begin() + static_cast<std::ptrdiff_t>(begin),
                                    cell.lines.begin() + static_cast<std::ptrdiff_t>(end));
      put_lines(shop_, strip, lines, *cell.style, {cell.x, above}, cell.width, cell.align);
      strip.height = std::max(strip.height, above + height_of_lines(lines, *cell.style) + below);
    }
    strip.height = std::max(strip.height, above + below + points(1));
    return strip;
  }

  // Tints go under the words, rules over them.
  void decorate(Strips& strips, std::size_t r) {
    const Row& row = table_.rows[r];
    const bool last = r + 1 == table_.rows.size();
    if (row.kind == Row::Kind::body)
      ++striped_;
    else
      striped_ = 0;
    if (look_.zebra && striped_ % 2 == 0 && row.kind == Row::Kind::body)
      for (Strip& strip : strips)
        strip.marks.insert(strip.marks.begin(), Mark{filled_box({0, 0, place_.width, strip.height}, *look_.zebra)});
    if (row.kind == Row::Kind::total && r > 0 && table_.rows[r - 1].kind != Row::Kind::total)
      rule(strips.front(), 0, look_.total_rule, look_.total_rule_color);
    const bool next_total = !last && table_.rows[r + 1].kind == Row::Kind::total;
    if (row.kind != Row::Kind::group && !next_total)
      rule(strips.back(), strips.back().height, look_.row_rule, look_.row_rule_color);
    strips.back().keep = row.kind == Row::Kind::group || next_total;
  }

  Workshop& shop_;
  const Table& table_;
  Place place_;
  const TableStyle& look_;
  std::vector<Milli> widths_;
  std::vector<Milli> tails_;  ///< the widest tail of the numbers of each column
  NodeId node_ = artifact;
  int striped_ = 0;
  std::size_t heads_ = 0;  ///< strips of the head
};

}  // namespace

Strips make(Workshop& shop, const Table& table, Place place) {
  if (table.columns.empty()) {
    // Words without columns are still words.
    Strips strips;
    for (const Row& row : table.rows)
      for (const Runs& cell : row.cells) append(strips, make(shop, Paragraph{"body", cell}, place));
    return strips;
  }
  return TableMaker(shop, table, place).make();
}

}  // namespace soundsill::page
