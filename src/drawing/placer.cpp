#include "drawing/placer.h"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "pages/shapes.h"

namespace soundsill::page {
namespace {

// Sixteen directions in 1/1024, the four sides first, then what lies between.
constexpr std::array<At, 16> directions{{{1024, 0},
                                         {-1024, 0},
                                         {0, -1024},
                                         {0, 1024},
                                         {724, -724},
                                         {-724, -724},
                                         {724, 724},
                                         {-724, 724},
                                         {946, -392},
                                         {-946, -392},
                                         {946, 392},
                                         {-946, 392},
                                         {392, -946},
                                         {-392, -946},
                                         {392, 946},
                                         {-392, 946}}};
constexpr std::array<Milli, 9> steps{0, 3000, 6000, 10000, 16000, 24000, 36000, 52000, 74000};
constexpr std::int64_t leader_price = 25, against_cost = 70, run_over_cost = 45;
constexpr Milli clearance = 1500;
constexpr Milli cell_side = points(24);
constexpr std::int64_t most_cells = 128;  // of the area, across and down
constexpr std::size_t rows_below = 2048;
constexpr Milli far_off = 1'000'000'000;

// 0 along `outward`, 2048 against it.
std::int64_t against(At direction, At outward, std::int64_t length) {
  if (length == 0) return 0;
  return 1024 - (std::int64_t{direction.x} * outward.x + std::int64_t{direction.y} * outward.y) / length;
}

Box centered(At middle, Milli width, Milli height) {
  return {middle.x - width / 2, middle.y - height / 2, width, height};
}

std::int64_t squared_distance(const Box& box, At p) {
  const At near = nearest_on(box, p);
  const std::int64_t dx = near.x - p.x, dy = near.y - p.y;
  return dx * dx + dy * dy;
}

bool farther(const Box& box, At p, std::int64_t than) {
  return than < 0 || squared_distance(box, p) >= (than + 1) * (than + 1);
}

// The first multiple of `step` after `from` that reaches `to`.
Milli next_from(Milli from, Milli to, Milli step) { return from + std::max(1, (to - from + step - 1) / step) * step; }

std::size_t cells_along(Milli length, Milli side) { return static_cast<std::size_t>(std::max(0, length) / side) + 3; }

// Cell 0 is all before the origin, the last one all that is left.
std::size_t cell_at(Milli place, Milli origin, Milli side, std::size_t cells) {
  if (place < origin) return 0;
  return std::min(cells - 1, 1 + static_cast<std::size_t>((std::int64_t{place} - origin) / side));
}

Milli cell_start(std::size_t cell, Milli origin, Milli side) {
  return cell == 0 ? -far_off : milli(origin + (static_cast<std::int64_t>(cell) - 1) * side);
}

}  // namespace

At nearest_on(const Box& box, At p) {
  return {std::clamp(p.x, box.x, box.right()), std::clamp(p.y, box.y, box.bottom())};
}

Cells::Cells(const Box& area, std::size_t more_rows)
    : origin_{area.x, area.y},
      side_(milli(std::max<std::int64_t>(cell_side, std::max(area.width, area.height) / most_cells))),
      columns_(cells_along(area.width, side_)),
      most_rows_(cells_along(area.height, side_) + more_rows) {}

Cells::Range Cells::range(const Box& box) const {
  const auto [left, right] = std::minmax({box.x, box.right()});
  const auto [top, bottom] = std::minmax({box.y, box.bottom()});
  return {cell_at(left, origin_.x, side_, columns_), cell_at(top, origin_.y, side_, most_rows_),
          cell_at(right, origin_.x, side_, columns_), cell_at(bottom, origin_.y, side_, most_rows_)};
}

Box Cells::paper(std::size_t column, std::size_t row) const {
  const Milli x = cell_start(column, origin_.x, side_), y = cell_start(row, origin_.y, side_);
  const Milli right = column + 1 == columns_ ? far_off : cell_start(column + 1, origin_.x, side_);
  const Milli bottom = row + 1 == most_rows_ ? far_off : cell_start(row + 1, origin_.y, side_);
  return {x, y, right - x, bottom - y};
}

std::vector<std::size_t>& Cells::cell(std::size_t column, std::size_t row) {
  while (rows_.size() <= row) rows_.emplace_back(columns_);
  return rows_[row][column];
}

void Cells::add(const Box& box, std::size_t number) {
  const Range r = range(box);
  for (std::size_t row = r.top; row <= r.bottom; ++row)
    for (std::size_t column = r.left; column <= r.right; ++column) cell(column, row).push_back(number);
}

void Cells::add_line(At a, At b, Milli half, std::size_t number) {
  const Box around{std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x), std::abs(a.y - b.y)};
  const Range r = range(grown(around, half));
  for (std::size_t row = r.top; row <= r.bottom; ++row)
    for (std::size_t column = r.left; column <= r.right; ++column)
      if (touches(a, b, grown(paper(column, row), half))) cell(column, row).push_back(number);
}

void Cells::remove(const Box& box, std::size_t number) {
  const Range r = range(box);
  for (std::size_t row = r.top; row <= r.bottom; ++row)
    for (std::size_t column = r.left; column <= r.right; ++column) std::erase(cell(column, row), number);
}

Placer::Placer(Box area) : area_(area), line_cells_(area), soft_cells_(area), hard_cells_(area, rows_below) {}

void Placer::add_line(At a, At b, Milli width, int weight) {
  line_cells_.add_line(a, b, width / 2, lines_.size());
  lines_.push_back({a, b, width / 2, weight});
  line_turns_.push_back(0);
}

void Placer::add_soft(const Box& box, int weight) {
  soft_cells_.add(box, soft_.size());
  soft_.push_back({box, weight});
  soft_turns_.push_back(0);
}

void Placer::add_hard(const Box& box) {
  hard_cells_.add(box, hard_.size());
  hard_.push_back(box);
}

bool Placer::on_line(const Box& box) const {
  return line_cells_.any(box,
                         [&](std::size_t i) { return touches(lines_[i].a, lines_[i].b, grown(box, lines_[i].half)); });
}

bool Placer::on_soft(const Box& box) const {
  return soft_cells_.any(box, [&](std::size_t i) { return overlap(box, soft_[i].box); });
}

// Something in the way of the box, if anything is.
const Box* Placer::blocker(const Box& box, std::size_t self) {
  const Box wide = grown(box, clearance);
  const Box* found = nullptr;
  ++looked_;
  (void)hard_cells_.any(wide, [&](std::size_t i) {
    ++looked_;
    if (i == self || !overlap(wide, hard_[i])) return false;
    found = &hard_[i];
    return true;
  });
  return found;
}

// Counts no further once the limit is reached.
std::int64_t Placer::cost(const Box& box, std::int64_t line_percent, std::int64_t limit) {
  std::int64_t sum = 0;
  ++turn_;
  (void)line_cells_.any(box, [&](std::size_t i) {
    ++looked_;
    const Line& l = lines_[i];
    if (std::exchange(line_turns_[i], turn_) != turn_ && touches(l.a, l.b, grown(box, l.half)))
      sum += l.weight * line_percent / 100;
    return sum >= limit;
  });
  if (sum >= limit) return sum;
  (void)soft_cells_.any(box, [&](std::size_t i) {
    ++looked_;
    if (std::exchange(soft_turns_[i], turn_) != turn_ && overlap(box, soft_[i].box)) sum += soft_[i].weight;
    return sum >= limit;
  });
  return sum;
}

std::int64_t Placer::leader_cost(const Box& box, At point, std::size_t self) {
  const At from = nearest_on(box, point);
  const Box around{std::min(from.x, point.x), std::min(from.y, point.y), std::abs(from.x - point.x),
                   std::abs(from.y - point.y)};
  std::vector<std::size_t> run_over;
  (void)hard_cells_.any(around, [&](std::size_t i) {
    ++looked_;
    if (i != self && touches(from, point, hard_[i])) run_over.push_back(i);
    return false;
  });
  std::sort(run_over.begin(), run_over.end());
  const auto last = std::unique(run_over.begin(), run_over.end());
  return run_over_cost * (last - run_over.begin());
}

// Along a wall the words still belong to the wall: no leader.
template <class Offer>
void Placer::slide(const Wish& wish, const Offer& offer) {
  const bool level = std::abs(std::int64_t{wish.outward.x}) < std::abs(std::int64_t{wish.outward.y});
  const bool ahead = level ? wish.outward.y > 0 : wish.outward.x > 0;
  for (const Milli step : {steps[0], steps[1], steps[2], steps[3]})
    for (Milli aside = points(6); aside <= wish.slide; aside += points(6))
      for (const Milli along : {aside, -aside}) {
        const Milli out = (level ? wish.height : wish.width) / 2 + wish.gap + step;
        const At middle = level ? At{wish.point.x + along, wish.point.y + (ahead ? out : -out)}
                                : At{wish.point.x + (ahead ? out : -out), wish.point.y + along};
        offer(centered(middle, wish.width, wish.height), (step + aside / 4) / 1000, 100, false);
      }
}

Standing Placer::near(const Wish& wish, std::size_t self) {
  Standing best;
  std::int64_t least = INT64_MAX;
  const auto offer = [&](const Box& box, std::int64_t extra, std::int64_t line_percent, bool leader) {
    if (extra >= least || !inside(box, area_) || blocker(box, self)) return;
    std::int64_t sum = extra + cost(box, line_percent, least - extra);
    if (sum < least && leader) sum += leader_cost(box, wish.point, self);
    if (sum >= least) return;
    least = sum;
    best = {box, leader, true};
  };
  if (wish.on_point) offer(centered(wish.point, wish.width, wish.height), 0, wish.line_cost, false);
  if (wish.slide > 0) slide(wish, offer);
  const At outward = wish.outward;
  const std::int64_t length = whole_root(std::int64_t{outward.x} * outward.x + std::int64_t{outward.y} * outward.y);
  for (const Milli step : steps) {
    for (std::size_t d = 0; d < directions.size(); ++d) {
      const At way = directions[d];
      const std::int64_t reach = wish.gap + step;
      const At middle{wish.point.x + milli(way.x * (wish.width / 2 + reach) / 1024),
                      wish.point.y + milli(way.y * (wish.height / 2 + reach) / 1024)};
      const Box box = centered(middle, wish.width, wish.height);
      const bool leader = wish.name ? farther(box, wish.point, points(30))
                                    : wish.on_point || farther(box, wish.point, wish.gap + points(9));
      const std::int64_t extra = step / 1000 + (leader ? leader_price : 0) +
                                 against(way, outward, length) * against_cost / 1024 + static_cast<std::int64_t>(d) / 4;
      offer(box, extra, 100, leader);
    }
  }
  return best;
}

// Every place of the area, nearest first; then rows below it. What is no smaller than what found no room finds none.
Standing Placer::anywhere(const Wish& wish, std::size_t self, Vain& vain) {
  const bool in_vain = std::any_of(vain.sizes.begin(), vain.sizes.end(), [&](const auto& size) {
    return size.first <= wish.width && size.second <= wish.height;
  });
  if (!in_vain) {
    const Standing best = within_area(wish, self);
    if (best.placed) return best;
    std::erase_if(vain.sizes, [&](const auto& size) { return size.first >= wish.width && size.second >= wish.height; });
    vain.sizes.emplace_back(wish.width, wish.height);
  }
  return below_area(wish, self, vain);
}

// Of places that cost the same, the upper left one. After a blocked place the next to try is beyond what blocks it.
Standing Placer::within_area(const Wish& wish, std::size_t self) {
  Standing best;
  std::int64_t least = INT64_MAX;
  const Milli step = points(5);
  for (Milli y = area_.y; y + wish.height <= area_.bottom(); y += step)
    for (Milli x = area_.x; x + wish.width <= area_.right();) {
      const Box box{x, y, wish.width, wish.height};
      const Box* in_the_way = nullptr;
      if (least == INT64_MAX || !farther(box, wish.point, least * 1000 - 1)) {
        in_the_way = blocker(box, self);
        if (!in_the_way) {
          const std::int64_t far = whole_root(squared_distance(box, wish.point)) / 1000;
          const std::int64_t sum = far + cost(box, 100, least - far);
          if (sum < least) {
            least = sum;
            best = {box, true, true};
          }
        }
      }
      x = in_the_way ? next_from(x, in_the_way->right() + clearance, step) : x + step;
    }
  return best;
}

Standing Placer::below_area(const Wish& wish, std::size_t self, Vain& vain) {
  const Milli x = std::clamp(wish.point.x - wish.width / 2, area_.x, std::max(area_.x, area_.right() - wish.width));
  Milli& y = vain.rows_below.try_emplace({x, wish.width, wish.height}, area_.bottom()).first->second;
  while (const Box* in_the_way = blocker({x, y, wish.width, wish.height}, self))
    y = next_from(y, in_the_way->bottom() + clearance, points(4));
  return {{x, y, wish.width, wish.height}, true, true};
}

// After the first round all are placed, so that boxes are only added while places are sought anywhere.
std::vector<Standing> Placer::place(const std::vector<Wish>& wishes) {
  std::vector<Standing> all(wishes.size());
  Vain vain;
  const std::size_t first = hard_.size();
  hard_.resize(first + wishes.size());
  for (int round = 0; round < 3; ++round)
    for (std::size_t i = 0; i < wishes.size(); ++i) {
      const std::size_t self = first + i;
      Standing now = near(wishes[i], self);
      if (!now.placed && all[i].placed) continue;
      if (!now.placed) now = anywhere(wishes[i], self, vain);
      if (all[i].placed) hard_cells_.remove(all[i].box, self);
      hard_cells_.add(now.box, self);
      hard_[self] = now.box;
      all[i] = now;
    }
  uncross(wishes, all, first);
  return all;
}

namespace {

At middle_of(const Box& b) { return {b.x + b.width / 2, b.y + b.height / 2}; }

// Which side of the line from a to b the point lies on.
int side(At a, At b, At p) {
  const std::int64_t turn =
      (std::int64_t{b.x} - a.x) * (std::int64_t{p.y} - a.y) - (std::int64_t{b.y} - a.y) * (std::int64_t{p.x} - a.x);
  return (turn > 0) - (turn < 0);
}

}  // namespace

bool cross(At a, At b, At c, At d) { return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0; }

// Each change makes the leaders shorter altogether, so there is an end to it; the rounds are counted all the same.
void Placer::uncross(const std::vector<Wish>& wishes, std::vector<Standing>& all, std::size_t first) {
  for (std::size_t round = 0, changed = 1; changed > 0 && round < 20; ++round) {
    changed = 0;
    for (std::size_t i = 0; i < all.size(); ++i)
      for (std::size_t k = i + 1; k < all.size(); ++k) {
        const bool alike = wishes[i].width == wishes[k].width && wishes[i].height == wishes[k].height;
        if (!alike || !all[i].leader || !all[k].leader) continue;
        if (!cross(middle_of(all[i].box), wishes[i].point, middle_of(all[k].box), wishes[k].point)) continue;
        hard_cells_.remove(all[i].box, first + i);
        hard_cells_.remove(all[k].box, first + k);
        std::swap(all[i], all[k]);
        for (const std::size_t one : {i, k}) {
          hard_[first + one] = all[one].box;
          hard_cells_.add(all[one].box, first + one);
        }
        ++changed;
      }
  }
}

bool Placer::take(const Box& box) {
  if (!inside(box, area_) || blocker(box, nobody)) return false;
  add_hard(box);
  return true;
}

}  // namespace soundsill::page
