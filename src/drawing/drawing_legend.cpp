// Serves drawing/drawing.h.
#include <algorithm>

#include "drawing/drawing.h"
#include "pages/shapes.h"

namespace soundsill::page {
namespace {

using namespace document;

constexpr Milli sample_width = 26'000, sample_height = 13'000, sample_gap = 7000, row_gap = 4000;

void paint_sample(Workshop& shop, Strip& strip, const LegendEntry& e, const Box& box, NodeId figure) {
  const DrawingStyle& look = shop.look.drawing;
  const At middle{box.x + box.width / 2, box.y + box.height / 2};
  if (e.sample == LegendEntry::Sample::marker) {
    const MarkerStyle& style = marker_style(look, e.style);
    paint_marker(strip, style, middle, std::min(style.size, sample_height));
    if (e.letter.empty()) return;
    TextStyle number = shop.text(look.number);
    number.color = style.text;
    put_centered(shop, strip, e.letter, number, middle, figure);
    return;
  }
  Shape shape;
  PlacedShape placed;
  placed.shape = &shape;
  placed.style = &shape_style(look, e.style);
  if (e.sample == LegendEntry::Sample::line) {
    shape.kind = Shape::Kind::line;
    placed.points = {{box.x, middle.y}, {box.right(), middle.y}};
  } else if (e.sample == LegendEntry::Sample::circle) {
    shape.kind = Shape::Kind::circle;
    placed.points = {middle};
    placed.radius = 4200;  // about as on a plan: smaller than a number
  } else {
    shape.kind = Shape::Kind::area;
    placed.points = {{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}};
  }
  paint(strip, placed);
  if (e.letter.empty()) return;
  const TextStyle& letter = shop.text(look.letter);
  const Milli wide = measure(shop, e.letter, letter).whole + points(3);
  strip.marks.emplace_back(
      filled_box({middle.x - wide / 2, middle.y - letter.size / 2, wide, letter.size}, look.ground));
  put_centered(shop, strip, e.letter, letter, middle, figure);
}

Strip entry_strip(Workshop& shop, const LegendEntry& e, Milli width, NodeId figure) {
  const TextStyle& style = shop.text(shop.look.drawing.legend);
  Strip strip;
  const Milli x = sample_width + sample_gap;
  const NodeId sample = e.letter.empty() ? artifact : shop.node("Span", figure);  // a word of its own
  const auto lines = set_lines(shop, e.words, {&style, width - x, shop.node("Span", figure)});
  const Milli words = height_of_lines(lines, style);
  strip.height = std::max(words, sample_height + 1000);
  const Milli first = lines.size() > 1 ? style.leading : strip.height;
  const Box box{0, std::max(0, (first - sample_height) / 2), sample_width, sample_height};
  paint_sample(shop, strip, e, box, sample);
  put_lines(shop, strip, lines, style, {x, lines.size() > 1 ? 0 : (strip.height - words) / 2}, width - x, Align::left);
  return strip;
}

void paint_north(Workshop& shop, Strip& strip, const std::string& word, NodeId figure, Milli height) {
  const TextStyle& style = shop.text(shop.look.drawing.scale);
  const Milli x = points(9), top = style.size, tip = top + points(1);
  put_centered(shop, strip, word, style, {x, style.size / 2}, figure);
  // North is up, for y runs south: one half dark, one half open, as on old maps.
  const At nose{x, tip}, left{x - points(5), height}, right{x + points(5), height}, notch{x, height - points(4)};
  PathMark dark = closed_path({nose, notch, left}), open = closed_path({nose, right, notch});
  dark.fill = style.color;
  for (PathMark* half : {&dark, &open}) {
    half->stroke = style.color;
    half->line_width = 500;
    strip.marks.emplace_back(*half);
  }
}

// The longest of 1, 2, 5, 10, ... feet that takes at most two inches.
std::int64_t bar_feet(const Plan& plan) {
  std::int64_t best = 1;
  for (std::int64_t unit = 1; unit <= 1'000'000'000; unit *= 10)
    for (const std::int64_t n : {unit, 2 * unit, 5 * unit})
      if (scaled(n * 192, 375, plan.feet_an_inch) <= points(144)) best = n;
  return best;
}

}  // namespace

Strip legend_strip(Workshop& shop, const Scene& scene, Milli width, NodeId figure) {
  Strip legend;
  if (scene.legend.empty()) return legend;
  const Milli wanted = std::max(points(60), shop.look.drawing.legend_width), gap = points(14);
  const std::int64_t columns = std::max<std::int64_t>(1, (std::int64_t{width} + gap) / (wanted + gap));
  const Milli column = milli((width - gap * (columns - 1)) / columns);
  for (std::size_t i = 0; i < scene.legend.size(); i += static_cast<std::size_t>(columns)) {
    Strip row;
    for (std::size_t k = 0; k < static_cast<std::size_t>(columns) && i + k < scene.legend.size(); ++k) {
      const Strip entry = entry_strip(shop, scene.legend[i + k], column, figure);
      merge(row, entry, milli(static_cast<std::int64_t>(k)) * (column + gap), 0);
      row.height = std::max(row.height, entry.height);
    }
    if (i > 0) legend.height += row_gap;
    merge(legend, row, 0, legend.height);
    legend.height += row.height;
  }
  return legend;
}

Strip aside_strip(Workshop& shop, const Drawing& drawing, Milli width, NodeId figure) {
  Strip strip;
  if (drawing.scene.aside.empty()) return strip;
  const TextStyle &style = shop.text(shop.look.drawing.legend), &number = shop.text(shop.look.drawing.number);
  const auto words = set_lines(shop, drawing.scene.aside_words, {&style, width, shop.node("Span", figure)});
  Milli x = 0, tall = style.leading;
  for (const Line& line : words) x = std::max(x, line.width + points(8));
  for (const Marker& m : drawing.scene.aside) tall = std::max(tall, marker_style(shop.look.drawing, m.shape).size);
  tall += points(2);
  put_lines(shop, strip, words, style, {0, (tall - style.leading) / 2}, width, Align::left);
  Milli y = std::max(0, height_of_lines(words, style) - style.leading);
  for (const Marker& m : drawing.scene.aside) {
    const MarkerStyle& look = marker_style(shop.look.drawing, m.shape);
    const Milli across = std::max(look.size, measure(shop, m.number, number).whole + points(7));
    const Milli whole = across + look.width + points(1);
    if (x + whole > width) {
      x = 0;
      y += tall;
    }
    put_marker(shop, strip, drawing, m, {{x + whole / 2, y + tall / 2}, across, figure});
    x += whole + points(4);
  }
  strip.height = y + tall;
  return strip;
}

Strip scale_strip(Workshop& shop, const Scene& scene, const Plan& plan, NodeId figure) {
  const TextStyle& style = shop.text(shop.look.drawing.scale);
  Strip strip;
  strip.height = points(30);
  Milli x = 0;
  if (!scene.north.empty()) {
    paint_north(shop, strip, scene.north, shop.node("Span", figure), strip.height);
    x = points(32);
  }
  const bool primes = shop.face(style.face).has(U'\u2032') && shop.face(style.face).has(U'\u2033');
  std::string words = scene.scale_words;
  if (!words.empty()) words += "  ";
  words += std::string("1") + (primes ? "\u2033" : "\"") + " = " + std::to_string(plan.feet_an_inch) +
           (primes ? "\u2032" : "'");
  const std::int64_t feet = bar_feet(plan);
  const Milli length = milli(scaled(feet * 192, 375, plan.feet_an_inch)), bar_y = strip.height - points(4);
  const auto apart = [&] { return shop.node("Span", figure); };  // or the words would be read as one
  put_lines(shop, strip, set_lines(shop, words, {&style, points(200), apart()}), style, {x, 0}, points(200),
            Align::left);
  // Two halves, one dark and one open.
  strip.marks.emplace_back(filled_box({x, bar_y, length / 2, points(4)}, style.color));
  strip.marks.emplace_back(framed_box({x, bar_y, length, points(4)}, 600, style.color));
  const std::string end = std::to_string(feet) + (scene.feet_words.empty() ? "" : " " + scene.feet_words);
  const Milli middle = bar_y - points(5);
  const Milli zero = measure(shop, "0", style).whole;
  put_centered(shop, strip, "0", style, {x + zero / 2, middle}, apart());
  const Milli wide = measure(shop, end, style).whole;
  put_centered(shop, strip, end, style, {x + std::max(length - wide / 2, zero + points(6) + wide / 2), middle},
               apart());
  return strip;
}

}  // namespace soundsill::page
