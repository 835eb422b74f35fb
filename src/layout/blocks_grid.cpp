// Serves layout/blocks.h. Facts, large figures and lines to sign: a few cells side by side.
#include <algorithm>

#include "layout/blocks.h"
#include "pages/shapes.h"
#include "setting/paragraph.h"

namespace soundsill::page {
namespace {

using namespace document;

Milli column_width(Milli width, Milli gap, int columns) { return (width - gap * (columns - 1)) / columns; }

Strip fact_cell(Workshop& shop, const Fact& fact, Milli width, NodeId parent) {
  const FactsStyle& look = shop.look.facts;
  const TextStyle &name = shop.text(look.name), &value = shop.text(look.value);
  const NodeId item = shop.node("LI", parent);
  const NodeId label = shop.node("Lbl", item), body = shop.node("LBody", item);
  Strip cell;
  const auto names = set_lines(shop, fact.name, {&name, width, label});
  put_lines(shop, cell, names, name, {0, 0}, width, Align::left);
  cell.height = height_of_lines(names, name);
  const auto values = set_lines(shop, fact.value, {&value, width, body});
  put_lines(shop, cell, values, value, {0, cell.height}, width, Align::left);
  cell.height += height_of_lines(values, value);
  return cell;
}

Milli figure_inset(const FiguresStyle& look) { return look.bar > 0 ? look.bar + points(9) : 0; }

// All of a row in the same size, small enough that none needs two lines, but not smaller than the words under it.
TextStyle large_style(Workshop& shop, const Figures& figures, Milli width) {
  const FiguresStyle& look = shop.look.figures;
  TextStyle style = shop.text(look.large);
  Milli widest = 1;
  for (const Figure& f : figures.figures) widest = std::max(widest, measure(shop, f.large, style).whole);
  const Milli room = width - figure_inset(look) - 100;
  if (widest > room) style.size = std::max(shop.text(look.small).size, milli(scaled(style.size, room, widest)));
  return style;
}

Strip figure_cell(Workshop& shop, const Figure& figure, const TextStyle& large, Milli width, NodeId parent) {
  const FiguresStyle& look = shop.look.figures;
  const TextStyle& small = shop.text(look.small);
  const Milli inset = figure_inset(look);
  const NodeId node = shop.node("P", parent);
  Strip cell;
  auto words = text(figure.large + " ");
  const auto top = set_lines(shop, words, {&large, width - inset, node});
  put_lines(shop, cell, top, large, {inset, 0}, width - inset, Align::left);
  cell.height = height_of_lines(top, large);
  const auto under = set_lines(shop, figure.small, {&small, width - inset, shop.node("P", parent)});
  put_lines(shop, cell, under, small, {inset, cell.height}, width - inset, Align::left);
  cell.height += height_of_lines(under, small);
  return cell;
}

class Signing {
 public:
  Signing(Workshop& shop, const Signatures& signatures, Place place)
      : shop_(shop), all_(signatures), place_(place), look_(shop.look.signatures) {
    name_width_ = milli(scaled(place.width - look_.gap, 62, 100));
    date_x_ = name_width_ + look_.gap;
    date_width_ = place.width - date_x_;
  }

  Strip line(const Signature& signature) {
    Strip strip;
    strip.before = look_.before;
    strip.after = look_.after;
    const NodeId node = shop_.node("Div", place_.parent);
    const TextStyle& style = shop_.text(look_.statement);
    const Milli width = style.measure > 0 ? std::min(style.measure, place_.width) : place_.width;
    put(strip, set_lines(shop_, signature.statement, {&style, width, shop_.node("P", node)}), style, 0, strip.height);
    strip.height += look_.room;
    filled(strip, signature, node);
    for (const auto& [x, w] : {std::pair{Milli{0}, name_width_}, std::pair{date_x_, date_width_}})
      strip.marks.emplace_back(line_path({x, strip.height}, {x + w, strip.height}, look_.rule, look_.rule_color));
    labels(strip, signature, node);
    return strip;
  }

 private:
  // Adds lines at (x, y) and grows the strip to hold them.
  void put(Strip& strip, const std::vector<Line>& lines, const TextStyle& style, Milli x, Milli y,
           Align align = Align::left, Milli width = 0) {
    put_lines(shop_, strip, lines, style, {x, y}, width, align);
    strip.height = std::max(strip.height, y + height_of_lines(lines, style));
  }

  // Name and date of one who has signed stand on the rule.
  void filled(Strip& strip, const Signature& signature, NodeId node) {
    const TextStyle& style = shop_.text(look_.filled);
    const auto set = [&](const std::optional<std::string>& words, Milli width) {
      return words ? set_lines(shop_, *words, {&style, width, shop_.node("P", node)}) : std::vector<Line>{};
    };
    const auto name = set(signature.name, name_width_), date = set(signature.date, date_width_);
    const Milli above = std::max(height_of_lines(name, style), height_of_lines(date, style));
    const Milli bottom = std::max(strip.height, strip.height - look_.room + above + points(4));
    put(strip, name, style, 0, bottom - points(2) - height_of_lines(name, style));
    put(strip, date, style, date_x_, bottom - points(2) - height_of_lines(date, style));
    strip.height = bottom;
  }

  void labels(Strip& strip, const Signature& signature, NodeId node) {
    const TextStyle& style = shop_.text(look_.label);
    const Milli y = strip.height + points(3);
    const auto who = set_lines(shop_, strong(signature.who), {&style, name_width_, shop_.node("P", node)});
    const auto name = set_lines(shop_, all_.name_label, {&style, name_width_, shop_.node("P", node)});
    const auto date = set_lines(shop_, all_.date_label, {&style, date_width_, shop_.node("P", node)});
    const bool beside = who.size() <= 1 && name.size() <= 1 &&
                        (who.empty() || name.empty() || who[0].width + name[0].width + points(12) <= name_width_);
    put(strip, who, style, 0, y);
    if (beside)
      put(strip, name, style, 0, y, Align::right, name_width_);
    else
      put(strip, name, style, 0, y + height_of_lines(who, style));
    put(strip, date, style, date_x_, y);
  }

  Workshop& shop_;
  const Signatures& all_;
  Place place_;
  const SignatureStyle& look_;
  Milli name_width_ = 0, date_x_ = 0, date_width_ = 0;
};

/// A few rows are read as one thing: they go to the next page together. Many would leave too much white behind.
void stay_together(Strips& strips) {
  constexpr std::size_t few = 8;
  const std::size_t chain = strips.size() <= few ? strips.size() : 2;
  for (std::size_t i = 0; i + 1 < chain; ++i) strips[i].keep = true;
}

}  // namespace

Strips make(Workshop& shop, const Facts& facts, Place place) {
  const FactsStyle& look = shop.look.facts;
  Strips strips;
  if (facts.facts.empty()) return strips;
  int columns = std::clamp(facts.columns, 1, 6);
  while (columns > 1 && column_width(place.width, look.column_gap, columns) < look.least_width) --columns;
  const Milli width = column_width(place.width, look.column_gap, columns);
  const NodeId list = shop.node("L", place.parent);
  shop.at(list).numbering = "None";
  const auto across = static_cast<std::size_t>(columns);
  for (std::size_t i = 0; i < facts.facts.size(); i += across) {
    Strip row;
    if (look.rule > 0) row.marks.emplace_back(line_path({0, 0}, {place.width, 0}, look.rule, look.rule_color));
    for (std::size_t k = 0; k < across && i + k < facts.facts.size(); ++k) {
      const Strip cell = fact_cell(shop, facts.facts[i + k], width, list);
      merge(row, cell, milli(static_cast<std::int64_t>(k)) * (width + look.column_gap), look.row_gap);
      row.height = std::max(row.height, cell.height + 2 * look.row_gap);
    }
    strips.push_back(std::move(row));
  }
  strips.front().before = look.before;
  stay_together(strips);
  strips.back().after = look.after;
  return strips;
}

Strips make(Workshop& shop, const Figures& figures, Place place) {
  const FiguresStyle& look = shop.look.figures;
  const int columns = std::clamp(static_cast<int>(figures.figures.size()), 1, 4);
  const auto across = static_cast<std::size_t>(columns);
  const Milli width = column_width(place.width, look.gap, columns);
  const TextStyle large = large_style(shop, figures, width);
  Strips strips;
  for (std::size_t i = 0; i < figures.figures.size(); i += across) {
    Strip row;
    row.before = look.before;
    row.after = look.after;
    for (std::size_t k = 0; k < across && i + k < figures.figures.size(); ++k) {
      const Strip cell = figure_cell(shop, figures.figures[i + k], large, width, place.parent);
      merge(row, cell, milli(static_cast<std::int64_t>(k)) * (width + look.gap), 0);
      row.height = std::max(row.height, cell.height);
    }
    for (std::size_t k = 0; look.bar > 0 && k < across && i + k < figures.figures.size(); ++k)
      row.marks.emplace_back(filled_box(
          {milli(static_cast<std::int64_t>(k)) * (width + look.gap), 0, look.bar, row.height}, look.bar_color));
    strips.push_back(std::move(row));
  }
  return strips;
}

Strips make(Workshop& shop, const Bars& bars, Place place) {
  const BarsStyle& look = shop.look.bars;
  const TextStyle &label = shop.text(look.label), &value = shop.text(look.value);
  Strips strips;
  if (bars.bars.empty()) return strips;
  // Narrow sheets keep words and figures; the bars take what is left.
  const Milli words = std::min(look.label_width, place.width / 2),
              figures = std::min(look.value_width, place.width / 3);
  const Milli room = std::max(place.width - words - figures, Milli{0});
  const NodeId list = shop.node("L", place.parent);
  shop.at(list).numbering = "None";
  for (const Bar& bar : bars.bars) {
    Strip row;
    const NodeId item = shop.node("LI", list);
    const auto names = set_lines(shop, bar.label, {&label, words - points(8), shop.node("Lbl", item)});
    put_lines(shop, row, names, label, {0, look.row_gap}, words - points(8), Align::left);
    const auto values = set_lines(shop, bar.value, {&value, figures, shop.node("LBody", item)});
    put_lines(shop, row, values, value, {place.width - figures, look.row_gap}, figures, Align::right);
    const Milli tall = std::max({height_of_lines(names, label), height_of_lines(values, value), look.height});
    const Milli top = look.row_gap + (std::min(tall, label.leading) - look.height) / 2;
    const std::int64_t whole = std::max<std::int64_t>(1, bars.whole);
    const Milli length = milli(scaled(room - points(8), std::clamp<std::int64_t>(bar.part, 0, whole), whole));
    if (room > points(16)) {
      row.marks.emplace_back(filled_box({words, top, room - points(8), look.height}, look.track));
      if (length > 0) row.marks.emplace_back(filled_box({words, top, length, look.height}, look.color));
    }
    row.height = tall + 2 * look.row_gap;
    strips.push_back(std::move(row));
  }
  strips.front().before = look.before;
  stay_together(strips);
  strips.back().after = look.after;
  return strips;
}

Strips make(Workshop& shop, const Signatures& signatures, Place place) {
  Signing signing(shop, signatures, place);
  Strips strips;
  for (const Signature& s : signatures.lines) strips.push_back(signing.line(s));
  const bool labelled = !signatures.name_label.empty() || !signatures.date_label.empty();
  if (strips.empty() && labelled) strips.push_back(signing.line({}));
  stay_together(strips);
  return strips;
}

}  // namespace soundsill::page
