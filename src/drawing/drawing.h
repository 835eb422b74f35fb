// The parts of a drawing: shapes, words, markers, legend and scale bar.
#pragma once

#include "drawing/placer.h"
#include "drawing/plan.h"
#include "setting/paragraph.h"
#include "setting/workshop.h"

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

/// Where a marker stands, and the figure that it belongs to.
struct MarkerPlace {
  At middle;
  Milli across = 0;
  NodeId figure = artifact;
};
/// Outline, number, link and place of a marker.
void put_marker(Workshop& shop, Strip& strip, const document::Drawing& drawing, const document::Marker& marker,
                const MarkerPlace& place);

/// Words, letters and markers of a scene, placed among its shapes. Grows `ink` to hold them. Gives the points of the
/// house whose words had to stand farther off than the template likes.
std::vector<Point> add_words(Workshop& shop, Strip& strip, const document::Drawing& drawing,
                             const std::vector<PlacedShape>& shapes, const Plan& plan, const Box& area, NodeId figure,
                             Box& ink);

/// The legend in as many columns as fit.
[[nodiscard]] Strip legend_strip(Workshop& shop, const document::Scene& scene, Milli width, NodeId figure);
/// The markers that have no place on the plan, in a row after their words.
[[nodiscard]] Strip aside_strip(Workshop& shop, const document::Drawing& drawing, Milli width, NodeId figure);
/// North arrow and scale bar in one row.
[[nodiscard]] Strip scale_strip(Workshop& shop, const document::Scene& scene, const Plan& plan, NodeId figure);

/// A part of the house that is drawn again, larger.
struct Region {
  Point least{}, most{};
  [[nodiscard]] bool holds(Point p) const { return least.x <= p.x && p.x <= most.x && least.y <= p.y && p.y <= most.y; }
};
/// At most four parts that hold all the points, each with some of what lies round it.
[[nodiscard]] std::vector<Region> regions_round(const std::vector<Point>& points, const Extent& extent);
/// The drawing without the words of the parts, with a frame and a letter round each.
[[nodiscard]] document::Drawing without(const document::Drawing& whole, const std::vector<Region>& parts);
/// One part with its words alone; words that an earlier part has are left to it.
[[nodiscard]] document::Drawing part_of(const document::Drawing& whole, const std::vector<Region>& parts,
                                        std::size_t which);

/// Text in the middle of a box; returns its lines' width.
void put_centered(Workshop& shop, Strip& strip, const std::string& words, const TextStyle& style, At middle,
                  NodeId node);

/// The plan of a structure with its words, markers, legend and scale bar; a crowded one with parts of it drawn again.
[[nodiscard]] Strips drawing_strips(Workshop& shop, const document::Drawing& drawing, Place place);

}  // namespace soundsill::page
