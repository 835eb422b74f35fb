#include "page/placer.h"

#include <algorithm>
#include <array>

#include "page/shapes.h"

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
constexpr std::int64_t leader_cost = 25, against_cost = 70;
constexpr Milli clearance = 1500;

// 0 along `outward`, 2048 against it.
std::int64_t against(At direction, At outward) {
  const std::int64_t length = whole_root(std::int64_t{outward.x} * outward.x + std::int64_t{outward.y} * outward.y);
  if (length == 0) return 0;
  return 1024 - (std::int64_t{direction.x} * outward.x + std::int64_t{direction.y} * outward.y) / length;
}

Box centered(At middle, Milli width, Milli height) {
  return {middle.x - width / 2, middle.y - height / 2, width, height};
}

Milli distance_to(const Box& box, At p) {
  const At near = nearest_on(box, p);
  const std::int64_t dx = near.x - p.x, dy = near.y - p.y;
  return milli(whole_root(dx * dx + dy * dy));
}

}  // namespace

At nearest_on(const Box& box, At p) {
  return {std::clamp(p.x, box.x, box.right()), std::clamp(p.y, box.y, box.bottom())};
}

bool Placer::on_line(const Box& box) const {
  return std::any_of(lines_.begin(), lines_.end(),
                     [&](const Line& l) { return touches(l.a, l.b, grown(box, l.half)); });
}

bool Placer::blocked(const Box& box, const std::vector<Standing>& all, std::size_t self) const {
  const Box wide = grown(box, clearance);
  for (const Box& h : hard_)
    if (overlap(wide, h)) return true;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (i != self && all[i].placed && overlap(wide, all[i].box)) return true;
  return false;
}

std::int64_t Placer::cost(const Box& box, std::int64_t line_percent) const {
  std::int64_t sum = 0;
  for (const Line& l : lines_)
    if (touches(l.a, l.b, grown(box, l.half))) sum += l.weight * line_percent / 100;
  for (const Soft& s : soft_)
    if (overlap(box, s.box)) sum += s.weight;
  return sum;
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

Standing Placer::near(const Wish& wish, const std::vector<Standing>& all, std::size_t self) const {
  Standing best;
  std::int64_t least = INT64_MAX;
  const auto offer = [&](const Box& box, std::int64_t extra, std::int64_t line_percent, bool leader) {
    if (extra >= least || !inside(box, area_) || blocked(box, all, self)) return;
    const std::int64_t sum = extra + cost(box, line_percent);
    if (sum >= least) return;
    least = sum;
    best = {box, leader, true};
  };
  if (wish.on_point) offer(centered(wish.point, wish.width, wish.height), 0, wish.line_cost, false);
  if (wish.slide > 0) slide(wish, offer);
  for (const Milli step : steps) {
    for (std::size_t d = 0; d < directions.size(); ++d) {
      const At way = directions[d];
      const std::int64_t reach = wish.gap + step;
      const At middle{wish.point.x + milli(way.x * (wish.width / 2 + reach) / 1024),
                      wish.point.y + milli(way.y * (wish.height / 2 + reach) / 1024)};
      const Box box = centered(middle, wish.width, wish.height);
      const Milli far = distance_to(box, wish.point);
      const bool leader = wish.name ? far > points(30) : wish.on_point || far > wish.gap + points(9);
      const std::int64_t extra = step / 1000 + (leader ? leader_cost : 0) +
                                 against(way, wish.outward) * against_cost / 1024 + static_cast<std::int64_t>(d) / 4;
      offer(box, extra, 100, leader);
    }
  }
  return best;
}

// Every place of the area, nearest first; then rows below it.
Standing Placer::anywhere(const Wish& wish, const std::vector<Standing>& all, std::size_t self) const {
  Standing best;
  std::int64_t least = INT64_MAX;
  const Milli step = points(5);
  for (Milli y = area_.y; y + wish.height <= area_.bottom(); y += step)
    for (Milli x = area_.x; x + wish.width <= area_.right(); x += step) {
      const Box box{x, y, wish.width, wish.height};
      const std::int64_t far = distance_to(box, wish.point) / 1000;
      if (far >= least || blocked(box, all, self)) continue;
      const std::int64_t sum = far + cost(box, 100);
      if (sum >= least) continue;
      least = sum;
      best = {box, true, true};
    }
  for (Milli y = area_.bottom(); !best.placed; y += points(4)) {
    const Milli x = std::clamp(wish.point.x - wish.width / 2, area_.x, std::max(area_.x, area_.right() - wish.width));
    const Box box{x, y, wish.width, wish.height};
    if (!blocked(box, all, self)) best = {box, true, true};
  }
  return best;
}

std::vector<Standing> Placer::place(const std::vector<Wish>& wishes) {
  std::vector<Standing> all(wishes.size());
  for (int round = 0; round < 3; ++round)
    for (std::size_t i = 0; i < wishes.size(); ++i) {
      Standing now = near(wishes[i], all, i);
      if (!now.placed && all[i].placed) continue;
      if (!now.placed) now = anywhere(wishes[i], all, i);
      all[i] = now;
    }
  for (const Standing& s : all)
    if (s.placed) add_hard(s.box);
  return all;
}

bool Placer::take(const Box& box) {
  if (!inside(box, area_) || blocked(box, {}, 0)) return false;
  add_hard(box);
  return true;
}

}  // namespace soundsill::page
