// A drawing in the measures of the house: exact, to scale, without paper. drawing/ finds its place, scale and labels.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "units/units.h"

namespace soundsill::document {

/// A line or an area. `style` is a name that the template gives a look: "wall", "inside", "treated-soil", "drilled",
/// "not-treated", "treated-area", "cover", "not-seen", "slab", "pier", "pier-drilled", "wood", "mark", "danger",
/// "danger-zone". drawing/ adds "detail", the frame of a part that is drawn again.
struct Shape {
  enum class Kind { line, area, circle } kind = Kind::line;
  std::vector<Point> points;  ///< of a circle: its middle
  Length radius;              ///< of a circle
  std::string style;
};

/// Words that belong to a point, set near it and moved until they collide with nothing. `outward` is the direction in
/// which there is room (a wall's outside), as a vector; (0, 0) when any will do.
struct Label {
  Point at;
  Point outward{};
  std::string words;
  std::string style = "label";  ///< "label", "dimension", "name"
  Length clear{};               ///< how far what it names reaches from the point; beside that, words need no leader
};

/// A numbered mark, drawn with a leader line to its exact point when it has to stand aside.
struct Marker {
  Point at;
  std::string number;       ///< "1"
  std::string shape;        ///< "finding" (round), "run" (square), "hole" (diamond)
  std::string link;         ///< id of the card or row that speaks of it
  std::string description;  ///< words for those who hear it: "1: live termites, pier 3"
};

/// A line of the legend: a sample of a style, and what it means.
struct LegendEntry {
  enum class Sample { line, area, marker, circle } sample = Sample::line;
  std::string style;  ///< style of Shape, or shape of Marker
  std::string words;
  std::string letter;  ///< printed with the sample, so that nothing depends on color
};

struct Scene {
  std::vector<Shape> shapes;
  std::vector<Label> labels;
  std::vector<Marker> markers;
  std::vector<Marker> aside;  ///< those that have no place on this plan; they stand beside it, after `aside_words`
  std::string aside_words;
  std::vector<LegendEntry> legend;
  std::string north;         ///< the word by the north arrow; x runs east, y runs south
  std::string scale_words;   ///< the word before the scale bar, "Scale"
  std::string feet_words;    ///< "ft"
  std::string detail_words;  ///< under a crowded part that is drawn again, larger: "Detail {letter}"
};

}  // namespace soundsill::document
