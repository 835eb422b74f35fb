// Serves layout/blocks.h. Headings, paragraphs and lists.
#include <algorithm>

#include "layout/blocks.h"
#include "pages/shapes.h"
#include "setting/paragraph.h"

namespace soundsill::page {
namespace {

using document::Runs;

std::string plain(const Runs& runs) {
  std::string words;
  for (const auto& run : runs) words += run.text;
  return words;
}

/// The part of a frame that belongs to one line of the paragraph: its sides, and the top or bottom of the whole.
void put_frame(Strip& strip, const TextStyle& style, Milli width, bool first, bool last) {
  const Milli thick = style.frame;
  if (thick == 0) return;
  const auto put = [&](const Box& box) { strip.marks.emplace_back(filled_box(box, style.frame_color)); };
  put({0, 0, thick, strip.height});
  put({width - thick, 0, thick, strip.height});
  if (first) put({0, 0, width, thick});
  if (last) put({0, strip.height - thick, width, thick});
}

// One strip a line. Two lines at the start and two at the end of a paragraph stay together.
Strips line_strips(Workshop& shop, const std::vector<Line>& lines, const TextStyle& style, Milli width, Milli inset) {
  Strips strips;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Strip strip;
    const Milli above = i == 0 ? inset : 0, below = i + 1 == lines.size() ? inset : 0;
    strip.height = above + style.leading + below;
    const Box box{0, 0, width, strip.height};
    if (style.fill) strip.marks.emplace_back(filled_box(box, *style.fill));
    if (style.bar) strip.marks.emplace_back(filled_box({0, 0, points(3), strip.height}, *style.bar));
    put_frame(strip, style, width, i == 0, i + 1 == lines.size());
    put_lines(shop, strip, {lines[i]}, style, {inset, above}, width - 2 * inset, style.align);
    strip.keep = i == 0 || i + 2 >= lines.size() || style.fill || style.frame > 0;  // a box is not cut
    strips.push_back(std::move(strip));
  }
  if (strips.empty()) return strips;
  strips.front().before = style.before;
  strips.back().after = style.after;
  strips.back().keep = style.keep;
  return strips;
}

Milli measure_of(const TextStyle& style, Milli width) {
  const Milli room = width - 2 * style.inset;
  return style.measure > 0 ? std::min(style.measure, room) : room;
}

class ListMaker {
 public:
  ListMaker(Workshop& shop, const document::List& list, Place place)
      : shop_(shop), list_(list), place_(place), style_(shop.text(list.style)), look_(shop.look.lists) {}

  Strips make() {
    Strips strips;
    if (list_.items.empty()) return strips;
    const NodeId node = shop_.node("L", place_.parent);
    shop_.at(node).numbering = list_.marker == document::List::Marker::number ? "Decimal" : "Disc";
    for (std::size_t i = 0; i < list_.items.size(); ++i) {
      // The last of several never stands alone on the next page.
      if (i + 1 == list_.items.size() && i >= 2 && !strips.empty()) strips.back().keep = true;
      append(strips, item(i, node));
    }
    if (strips.empty()) return strips;
    // A few short items are read as one thing.
    constexpr std::size_t few = 6;
    for (std::size_t i = 0; strips.size() <= few && i + 1 < strips.size(); ++i) strips[i].keep = true;
    strips.front().before = style_.before;
    strips.back().after = style_.after;
    return strips;
  }

 private:
  Strips item(std::size_t i, NodeId parent) {
    const NodeId node = shop_.node("LI", parent);
    const bool numbered = list_.marker == document::List::Marker::number;
    const NodeId label = shop_.node("Lbl", node);
    const NodeId body = shop_.node("LBody", node);
    const Milli room = measure_of(style_, place_.width) - look_.indent;
    Strips strips = line_strips(shop_, set_lines(shop_, list_.items[i], {&style_, room, body}), style_, room, 0);
    indent(strips, look_.indent);
    if (strips.empty()) return strips;
    Strip mark;
    if (numbered)
      put_lines(shop_, mark, set_lines(shop_, std::to_string(i + 1) + ".", {&style_, look_.indent, label}), style_,
                {0, 0}, look_.indent, Align::left);
    else
      mark.marks.emplace_back(bullet(label));
    merge(mark, strips.front(), 0, 0);  // the mark is read first
    strips.front().marks = std::move(mark.marks);
    strips.front().before = strips.back().after = look_.gap;
    strips.back().keep = false;
    return strips;
  }

  PathMark bullet(NodeId label) {
    shop_.at(label).actual = "\u2022";
    const font::Face& face = shop_.face(style_.face);
    const Milli middle = milli(scaled(style_.size, face.x_height(), face.units_per_em())) / 2;
    const Milli radius = look_.marker / 2;
    PathMark dot = circle_path({radius, baseline_in(shop_, style_) - middle}, radius);
    dot.fill = look_.color;
    dot.node = label;
    return dot;
  }

  Workshop& shop_;
  const document::List& list_;
  Place place_;
  const TextStyle& style_;
  const ListStyle& look_;
};

}  // namespace

Strips heading_strips(Workshop& shop, const document::Heading& heading, const TextStyle& style, Place place) {
  const int level = shop.next_level(heading.level);
  const NodeId node = shop.node("H" + std::to_string(level), place.parent);
  const auto lines = set_lines(shop, heading.runs, {&style, measure_of(style, place.width), node});
  Strips strips{stacked(line_strips(shop, lines, style, place.width, style.inset))};
  strips.front().keep = true;
  std::string id = heading.id;
  if (heading.bookmark && id.empty()) id = shop.made_id();
  if (!id.empty()) strips.front().places.emplace_back(id, 0);
  if (heading.bookmark && !lines.empty()) shop.pages.bookmarks.push_back({plain(heading.runs), level, id});
  return strips;
}

Strips make(Workshop& shop, const document::Heading& heading, Place place) {
  int level = std::clamp(heading.level, 1, 6);
  while (level > 3 && !shop.look.texts.contains("h" + std::to_string(level))) --level;
  return heading_strips(shop, heading, shop.text("h" + std::to_string(level)), place);
}

Strips make(Workshop& shop, const document::Paragraph& paragraph, Place place) {
  const TextStyle& style = shop.text(paragraph.style);
  const NodeId node = shop.node("P", place.parent);
  const auto lines = set_lines(shop, paragraph.runs, {&style, measure_of(style, place.width), node});
  return line_strips(shop, lines, style, place.width, style.inset);
}

Strips make(Workshop& shop, const document::List& list, Place place) { return ListMaker(shop, list, place).make(); }

Strips block_strips(Workshop& shop, const document::Block& block, const document::Block* next, Place place) {
  Strips strips = std::visit([&](const auto& kind) { return make(shop, kind, place); }, block.kind);
  const bool leads = next && std::holds_alternative<document::Paragraph>(block.kind) &&
                     std::holds_alternative<document::List>(next->kind);
  if (leads && !strips.empty()) strips.back().keep = true;
  return strips;
}

Strips block_strips(Workshop& shop, const std::vector<document::Block>& blocks, Place place) {
  Strips strips;
  for (std::size_t i = 0; i < blocks.size(); ++i)
    append(strips, block_strips(shop, blocks[i], i + 1 < blocks.size() ? &blocks[i + 1] : nullptr, place));
  return strips;
}

}  // namespace soundsill::page
