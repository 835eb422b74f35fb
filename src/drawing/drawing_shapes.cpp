// Serves drawing/drawing.h.
#include <algorithm>

#include "drawing/drawing.h"
#include "pages/shapes.h"

namespace soundsill::page {
namespace {

using document::Shape;

void stroke(PathMark& path, const ShapeStyle& style) {
  if (style.width <= 0 || !style.color) return;
  path.stroke = style.color;
  path.line_width = style.width;
  path.dash = style.dash;
}

void paint_area(Strip& strip, const PlacedShape& s, PathMark outline) {
  const ShapeStyle& style = *s.style;
  if (style.fill) {
    PathMark ground = outline;
    ground.fill = style.fill;
    ground.even_odd = true;
    strip.marks.emplace_back(std::move(ground));
  }
  if (style.hatch != ShapeStyle::Hatch::none) {
    const bool circle = s.shape->kind == Shape::Kind::circle;
    PathMark hatch = hatch_path(circle ? ring(s.points[0], s.radius) : s.points, style);
    if (!hatch.pieces.empty()) strip.marks.emplace_back(std::move(hatch));
  }
  stroke(outline, style);
  if (outline.stroke) strip.marks.emplace_back(std::move(outline));
}

}  // namespace

const ShapeStyle& shape_style(const DrawingStyle& look, std::string_view name) {
  static const ShapeStyle plain = [] {
    ShapeStyle s;
    s.width = 500;
    s.color = Color{};
    return s;
  }();
  const auto found = look.shapes.find(name);
  return found == look.shapes.end() ? plain : found->second;
}

const MarkerStyle& marker_style(const DrawingStyle& look, std::string_view name) {
  static const MarkerStyle plain{MarkerStyle::Outline::circle, points(15), Color{255, 255, 255}, Color{}, Color{}, 800};
  const auto found = look.markers.find(name);
  return found == look.markers.end() ? plain : found->second;
}

std::vector<PlacedShape> placed_shapes(const document::Scene& scene, const DrawingStyle& look, const Plan& plan) {
  std::vector<PlacedShape> all;
  for (const Shape& shape : scene.shapes) {
    if (shape.points.empty()) continue;
    PlacedShape placed;
    placed.shape = &shape;
    placed.style = &shape_style(look, shape.style);
    placed.radius = shape.kind == Shape::Kind::circle ? plan.length(shape.radius) : 0;
    for (const Point p : shape.points) placed.points.push_back(plan.at(p));
    all.push_back(std::move(placed));
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const PlacedShape& a, const PlacedShape& b) { return a.style->layer < b.style->layer; });
  return all;
}

void paint(Strip& strip, const PlacedShape& s) {
  switch (s.shape->kind) {
    case Shape::Kind::circle:
      paint_area(strip, s, circle_path(s.points[0], s.radius));
      break;
    case Shape::Kind::area:
      paint_area(strip, s, closed_path(s.points));
      break;
    case Shape::Kind::line: {
      PathMark path = open_path(s.points);
      stroke(path, *s.style);
      if (path.stroke) strip.marks.emplace_back(std::move(path));
      break;
    }
  }
}

void paint_marker(Strip& strip, const MarkerStyle& style, At m, Milli across) {
  const Milli r = across / 2;
  PathMark path;
  switch (style.outline) {
    case MarkerStyle::Outline::circle:
      path = circle_path(m, r);
      break;
    case MarkerStyle::Outline::square:
      path = filled_box({m.x - r, m.y - r, 2 * r, 2 * r}, {});
      break;
    case MarkerStyle::Outline::diamond:
      path = closed_path({{m.x, m.y - r}, {m.x + r, m.y}, {m.x, m.y + r}, {m.x - r, m.y}});
      break;
  }
  path.fill = style.fill;
  path.stroke = style.stroke;
  path.line_width = style.width;
  strip.marks.emplace_back(std::move(path));
}

}  // namespace soundsill::page
