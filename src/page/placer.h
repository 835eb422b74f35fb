// Finds room for boxes near their points, so that nothing covers anything.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "page/pages.h"

namespace soundsill::page {

/// What wants a place.
struct Wish {
  At point{};
  At outward{};  ///< direction with room; (0, 0) when any will do
  Milli width = 0, height = 0;
  Milli gap = 0;          ///< nearest distance between the point and the box
  bool name = false;      ///< names an area: needs no leader while it stands near
  Milli slide = 0;        ///< may stand this far aside along its line, square to `outward`
  bool on_point = false;  ///< may, and best does, stand right on its point

  int line_cost = 0;  ///< what crossing one line of weight 100 costs when standing on the point
};

/// Where it went. `leader` when the box stands so far off that a line has to point at its place.
struct Standing {
  Box box{};
  bool leader = false;
  bool placed = false;
};

class Placer {
 public:
  explicit Placer(Box area) : area_(area) {}

  /// Lines cost their weight when a box covers them; soft boxes too; hard boxes are never covered.
  void add_line(At a, At b, Milli width, int weight) { lines_.push_back({a, b, width / 2, weight}); }
  void add_soft(const Box& box, int weight) { soft_.push_back({box, weight}); }
  void add_hard(const Box& box) { hard_.push_back(box); }
  /// True when the box covers any line.
  [[nodiscard]] bool on_line(const Box& box) const;

  /// Places all wishes, in order, then looks again at each in turn. All are placed, below the area when all else fails.
  [[nodiscard]] std::vector<Standing> place(const std::vector<Wish>& wishes);
  /// Takes exactly this box when nothing that stands is in the way.
  [[nodiscard]] bool take(const Box& box);

 private:
  struct Line {
    At a, b;
    Milli half;  ///< of its width
    int weight;
  };
  struct Soft {
    Box box;
    int weight;
  };
  struct Candidate {
    Box box;
    std::int64_t cost;
    Milli distance;
  };
  [[nodiscard]] bool blocked(const Box& box, const std::vector<Standing>& all, std::size_t self) const;
  [[nodiscard]] std::int64_t cost(const Box& box, std::int64_t line_percent) const;
  template <class Offer>
  static void slide(const Wish& wish, const Offer& offer);
  [[nodiscard]] Standing near(const Wish& wish, const std::vector<Standing>& all, std::size_t self) const;
  [[nodiscard]] Standing anywhere(const Wish& wish, const std::vector<Standing>& all, std::size_t self) const;

  Box area_;
  std::vector<Line> lines_;
  std::vector<Soft> soft_;
  std::vector<Box> hard_;
};

/// The point of the box's edge nearest to `p`.
[[nodiscard]] At nearest_on(const Box& box, At p);

}  // namespace soundsill::page
