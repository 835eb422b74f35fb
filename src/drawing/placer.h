// Finds room for boxes near their points, so that nothing covers anything.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "pages/pages.h"

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

/// Tells what may stand in a box without a look at all there is: numbers of things by the cells of paper they reach.
class Cells {
 public:
  /// Cells over the area, and further rows of them below it. What lies beyond all cells counts as in the outer ones.
  explicit Cells(const Box& area, std::size_t rows_below = 0);

  void add(const Box& box, std::size_t number);
  void add_line(At a, At b, Milli half, std::size_t number);
  void remove(const Box& box, std::size_t number);
  /// Calls `see` with each number in the cells of the box, with some of them twice, until it says true.
  template <class See>
  [[nodiscard]] bool any(const Box& box, const See& see) const {
    const Range r = range(box);
    for (std::size_t row = r.top; row <= r.bottom && row < rows_.size(); ++row)
      for (std::size_t column = r.left; column <= r.right; ++column)
        for (const std::size_t number : rows_[row][column])
          if (see(number)) return true;
    return false;
  }

 private:
  struct Range {
    std::size_t left, top, right, bottom;  ///< all within
  };
  [[nodiscard]] Range range(const Box& box) const;
  [[nodiscard]] Box paper(std::size_t column, std::size_t row) const;
  std::vector<std::size_t>& cell(std::size_t column, std::size_t row);

  At origin_;
  Milli side_;
  std::size_t columns_, most_rows_;
  std::vector<std::vector<std::vector<std::size_t>>> rows_;  ///< as many as are in use
};

class Placer {
 public:
  explicit Placer(Box area);

  /// Lines cost their weight when a box covers them; soft boxes too; hard boxes are never covered. No weight is below
  /// 0.
  void add_line(At a, At b, Milli width, int weight);
  void add_soft(const Box& box, int weight);
  void add_hard(const Box& box);
  /// True when the box covers any line, or any soft box.
  [[nodiscard]] bool on_line(const Box& box) const;
  [[nodiscard]] bool on_soft(const Box& box) const;

  /// Places all wishes, in order, then looks again at each in turn. All are placed, below the area when all else fails.
  [[nodiscard]] std::vector<Standing> place(const std::vector<Wish>& wishes);
  /// Takes exactly this box when nothing that stands is in the way.
  [[nodiscard]] bool take(const Box& box);
  /// How many things were looked at so far: what the work grows with.
  [[nodiscard]] std::int64_t looked() const { return looked_; }

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
  /// What is known to be in vain while boxes are only added.
  struct Vain {
    std::vector<std::pair<Milli, Milli>> sizes;        ///< found no room in the area
    std::map<std::array<Milli, 3>, Milli> rows_below;  ///< by x, width and height: no room above this y
  };
  static constexpr std::size_t nobody = SIZE_MAX;
  [[nodiscard]] const Box* blocker(const Box& box, std::size_t self);
  [[nodiscard]] std::int64_t cost(const Box& box, std::int64_t line_percent, std::int64_t limit);
  /// What a leader from the box to its point would run over.
  [[nodiscard]] std::int64_t leader_cost(const Box& box, At point, std::size_t self);
  /// Where two leaders cross and the boxes are alike, the boxes change places.
  void uncross(const std::vector<Wish>& wishes, std::vector<Standing>& all, std::size_t first);
  template <class Offer>
  static void slide(const Wish& wish, const Offer& offer);
  [[nodiscard]] Standing near(const Wish& wish, std::size_t self);
  [[nodiscard]] Standing anywhere(const Wish& wish, std::size_t self, Vain& vain);
  [[nodiscard]] Standing within_area(const Wish& wish, std::size_t self);
  [[nodiscard]] Standing below_area(const Wish& wish, std::size_t self, Vain& vain);

  Box area_;
  std::vector<Line> lines_;
  std::vector<Soft> soft_;
  std::vector<Box> hard_;
  Cells line_cells_, soft_cells_, hard_cells_;
  std::vector<std::int64_t> line_turns_, soft_turns_;  ///< when each was last counted
  std::int64_t turn_ = 0, looked_ = 0;
};

/// Do the stretches from a to b and from c to d cross, each within the other?
[[nodiscard]] bool cross(At a, At b, At c, At d);
/// The point of the box's edge nearest to `p`.
[[nodiscard]] At nearest_on(const Box& box, At p);

}  // namespace soundsill::page
