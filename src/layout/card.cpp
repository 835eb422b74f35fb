// Serves layout/blocks.h. Cards: a bar, a number, a heading, and blocks that stay together.
#include <algorithm>

#include "layout/blocks.h"
#include "pages/shapes.h"
#include "setting/paragraph.h"

namespace soundsill::page {
namespace {

using document::Card;

void add_dots(Strip& strip, const Box& box, Color color) {
  const Milli radius = box.width / 2;
  for (Milli y = box.y + radius; y + radius <= box.bottom(); y += box.width * 2) {
    PathMark dot = circle_path({box.x + radius, y}, radius);
    dot.fill = color;
    strip.marks.emplace_back(std::move(dot));
  }
}

void add_dashes(Strip& strip, const Box& box, Color color) {
  const Milli on = box.width * 3, off = box.width * 5 / 4;
  for (Milli y = box.y; y < box.bottom(); y += on + off)
    strip.marks.emplace_back(filled_box({box.x, y, box.width, std::min(on, box.bottom() - y)}, color));
}

void add_bar(Strip& strip, const Box& box, const Tone& tone) {
  const Milli third = box.width / 3;
  switch (tone.pattern) {
    case Tone::Pattern::solid:
      strip.marks.emplace_back(filled_box(box, tone.color));
      break;
    case Tone::Pattern::dashed:
      add_dashes(strip, box, tone.color);
      break;
    case Tone::Pattern::dotted:
      add_dots(strip, box, tone.color);
      break;
    case Tone::Pattern::twin:
      strip.marks.emplace_back(filled_box({box.x, box.y, third, box.height}, tone.color));
      strip.marks.emplace_back(filled_box({box.right() - third, box.y, third, box.height}, tone.color));
      break;
    case Tone::Pattern::hollow:
      strip.marks.emplace_back(
          framed_box({box.x + 400, box.y + 400, box.width - 800, std::max(0, box.height - 800)}, 800, tone.color));
      break;
  }
}

class CardMaker {
 public:
  CardMaker(Workshop& shop, const Card& card, Place place)
      : shop_(shop), card_(card), place_(place), look_(shop.look.card), tone_(shop.tone(card.tone)) {
    // A number of several digits takes the room that it needs.
    if (!card.number.empty())
      number_width_ =
          std::max(look_.number_width, measure(shop, card.number, shop.text(look_.number)).whole + points(8));
    x_ = look_.bar + look_.pad_x + number_width_;
    width_ = place.width - x_ - look_.pad_x;
  }

  Strips make() {
    const NodeId node = shop_.node("Div", place_.parent);
    Strips inside{top(node)};
    Strips blocks = block_strips(shop_, card_.blocks, {width_, node});
    indent(blocks, x_);
    append(inside, std::move(blocks));
    inside.back().keep = false;
    if (height_of(inside) + 2 * look_.pad_y <= shop_.column_height) return {boxed(stacked(inside))};
    return in_pieces(std::move(inside));
  }

 private:
  // Number, tag and heading in one strip.
  Strip top(NodeId node) {
    Strip strip;
    TextStyle number = shop_.text(look_.number), tag = shop_.text(look_.tag);
    number.color = tag.color = tone_.text;
    if (!card_.number.empty()) {
      const auto lines = set_lines(shop_, card_.number, {&number, number_width_, shop_.node("P", node)});
      put_lines(shop_, strip, lines, number, {look_.bar + look_.pad_x, 0}, number_width_, Align::left);
      strip.height = height_of_lines(lines, number);
    }
    Milli y = 0;
    if (!card_.tag.empty()) {
      const auto lines = set_lines(shop_, card_.tag, {&tag, width_, shop_.node("P", node)});
      put_lines(shop_, strip, lines, tag, {x_, 0}, width_, Align::left);
      y = height_of_lines(lines, tag) + tag.after;
    }
    const Strip heading = stacked(heading_strips(shop_, card_.heading, shop_.text(look_.heading), {width_, node}));
    merge(strip, heading, x_, y);
    strip.height = std::max(strip.height, y + heading.height);
    strip.after = shop_.text(look_.heading).after;
    strip.keep = true;
    if (!card_.id.empty()) strip.places.emplace_back(card_.id, 0);
    return strip;
  }

  // The box round one strip. Marks of the box go under the words.
  [[nodiscard]] Strip boxed(Strip words) const {
    Strip box = framed(words, look_.pad_y, look_.pad_y, true);
    for (const Elastic& e : words.elastic) box.give += e.give;
    if (box.give > 0)
      box.lower = [card = *this, words = std::move(words)](Milli by) {
        return card.framed(squeezed(words, by), card.look_.pad_y, card.look_.pad_y, true);
      };
    return box;
  }

  [[nodiscard]] Strip framed(const Strip& words, Milli above, Milli below, bool border) const {
    Strip box;
    box.height = above + words.height + below;
    const Box edge{0, 0, place_.width, box.height};
    if (look_.fill) box.marks.emplace_back(filled_box(edge, *look_.fill));
    const Milli half = look_.border / 2;
    if (border && look_.border > 0 && look_.border_color)
      box.marks.emplace_back(three_sides({look_.bar, half, edge.width - half - look_.bar, edge.height - look_.border}));
    add_bar(box, {0, 0, look_.bar, box.height}, tone_);
    merge(box, words, 0, above);
    box.before = look_.before;
    box.after = look_.after;
    return box;
  }

  // The bar stands for the fourth side.
  [[nodiscard]] PathMark three_sides(const Box& b) const {
    PathMark path = open_path({{b.x, b.y}, {b.right(), b.y}, {b.right(), b.bottom()}, {b.x, b.bottom()}});
    path.stroke = look_.border_color;
    path.line_width = look_.border;
    return path;
  }

  // A card taller than a page: its strips flow, each with its stretch of the bar.
  [[nodiscard]] Strips in_pieces(Strips inside) const {
    Strips pieces;
    for (std::size_t i = 0; i < inside.size(); ++i) {
      const bool first = i == 0, last = i + 1 == inside.size();
      const Milli below = last ? look_.pad_y : std::max(inside[i].after, inside[i + 1].before);
      Strip piece = framed(inside[i], first ? look_.pad_y : 0, below, false);
      piece.keep = inside[i].keep;
      piece.before = first ? look_.before : 0;
      piece.after = last ? look_.after : 0;
      if (inside[i].head) piece.head = std::make_shared<const Strip>(framed(*inside[i].head, 0, 0, false));
      pieces.push_back(std::move(piece));
    }
    return pieces;
  }

  Workshop& shop_;
  const Card& card_;
  Place place_;
  const CardStyle& look_;
  const Tone& tone_;
  Milli number_width_ = 0, x_ = 0, width_ = 0;
};

}  // namespace

Strips make(Workshop& shop, const Card& card, Place place) { return CardMaker(shop, card, place).make(); }

}  // namespace soundsill::page
