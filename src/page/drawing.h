// The parts of a drawing: shapes, words, markers, legend and scale bar.
#pragma once

#include "page/paragraph.h"
#include "page/placer.h"
#include "page/plan.h"
#include "page/workshop.h"

namespace soundsill::page {

/// A shape on paper.
struct PlacedShape {
  const document::Shape* shape = nullptr;
  std::vector<At> points;
  Milli radius = 0;
  const ShapeStyle* style = nullptr;
};
[[nodiscard]] const ShapeStyle& shape_style(const DrawingStyle& look, std::string_view name);
[[nodiscard]] const MarkerStyle& marker_style(const DrawingStyle& look, std::string_view name);
/// In the order in which they are painted.
[[nodiscard]] std::vector<PlacedShape> placed_shapes(const document::Scene& scene, const DrawingStyle& look,
                                                     const Plan& plan);
void paint(Strip& strip, const PlacedShape& shape);
/// The outline of a marker round `middle`.
void paint_marker(Strip& strip, const MarkerStyle& style, At middle, Milli across);

/// Words, letters and markers of a scene, placed among its shapes. Grows `ink` to hold them.
void add_words(Workshop& shop, Strip& strip, const document::Drawing& drawing, const std::vector<PlacedShape>& shapes,
               const Plan& plan, const Box& area, NodeId figure, Box& ink);

/// The legend in as many columns as fit.
[[nodiscard]] Strip legend_strip(Workshop& shop, const document::Scene& scene, Milli width, NodeId figure);
/// North arrow and scale bar in one row.
[[nodiscard]] Strip scale_strip(Workshop& shop, const document::Scene& scene, const Plan& plan, NodeId figure);

/// Text in the middle of a box; returns its lines' width.
void put_centered(Workshop& shop, Strip& strip, const std::string& words, const TextStyle& style, At middle,
                  NodeId node);

}  // namespace soundsill::page
