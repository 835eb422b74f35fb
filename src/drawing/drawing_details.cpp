// Serves drawing/drawing.h. Parts of a crowded plan that are drawn again, larger.
#include <algorithm>

#include "drawing/drawing.h"

namespace soundsill::page {
namespace {

using namespace document;

constexpr Length round_about = Length::feet(4), least_side = Length::feet(10);
constexpr int most_cuts = 2;

Length middle(Length a, Length b) { return {(a.sixteenths + b.sixteenths) / 2}; }

// What holds the points, some of what lies round it, no smaller than a room, within the house.
Region round_points(const std::vector<Point>& points, const Extent& extent) {
  Extent all;
  for (const Point p : points) all.take(p, round_about);
  const auto side = [](Length& low, Length& high, Length least, Length most) {
    const Length short_of = least_side - (high - low);
    if (short_of > Length{}) {
      low = low - Length{short_of.sixteenths / 2};
      high += Length{short_of.sixteenths / 2};
    }
    low = std::max(low, least);
    high = std::min(high, most);
  };
  side(all.least.x, all.most.x, extent.least.x, extent.most.x);
  side(all.least.y, all.most.y, extent.least.y, extent.most.y);
  return {all.least, all.most};
}

void cut(const std::vector<Point>& points, const Extent& extent, int depth, std::vector<Region>& out) {
  if (points.empty()) return;
  const Region region = round_points(points, extent);
  const Length wide = region.most.x - region.least.x, high = region.most.y - region.least.y;
  const Length all_wide = extent.most.x - extent.least.x, all_high = extent.most.y - extent.least.y;
  const bool small = wide.sixteenths * 2 <= all_wide.sixteenths && high.sixteenths * 2 <= all_high.sixteenths;
  if (small || depth == most_cuts) {
    out.push_back(region);
    return;
  }
  const bool across = wide >= high;
  const Length at = across ? middle(region.least.x, region.most.x) : middle(region.least.y, region.most.y);
  std::vector<Point> first, second;
  for (const Point p : points) ((across ? p.x : p.y) < at ? first : second).push_back(p);
  cut(first, extent, depth + 1, out);
  cut(second, extent, depth + 1, out);
}

std::string lettered(std::string words, std::size_t which) {
  static constexpr std::string_view slot = "{letter}";
  const std::string letter(1, static_cast<char>('A' + which));
  if (const auto at = words.find(slot); at != std::string::npos) return words.replace(at, slot.size(), letter);
  return words + " " + letter;
}

std::vector<Point> corners(const Region& r) { return {r.least, {r.most.x, r.least.y}, r.most, {r.least.x, r.most.y}}; }

bool in_any(const std::vector<Region>& parts, std::size_t count, Point p) {
  return std::any_of(parts.begin(), parts.begin() + static_cast<std::ptrdiff_t>(count),
                     [&](const Region& r) { return r.holds(p); });
}

}  // namespace

std::vector<Region> regions_round(const std::vector<Point>& points, const Extent& extent) {
  std::vector<Region> out;
  cut(points, extent, 0, out);
  return out;
}

Drawing without(const Drawing& whole, const std::vector<Region>& parts) {
  Drawing out = whole;
  std::erase_if(out.scene.labels, [&](const Label& label) {
    return label.style != "dimension" && in_any(parts, parts.size(), label.at);
  });
  std::erase_if(out.scene.markers, [&](const Marker& m) { return in_any(parts, parts.size(), m.at); });
  for (std::size_t i = 0; i < parts.size(); ++i) {
    out.scene.shapes.push_back({Shape::Kind::area, corners(parts[i]), {}, "detail"});
    const std::string letter(1, static_cast<char>('A' + i));
    const Point middle_of{middle(parts[i].least.x, parts[i].most.x), middle(parts[i].least.y, parts[i].most.y)};
    out.scene.labels.push_back({middle_of, {}, letter, "name"});
  }
  return out;
}

Drawing part_of(const Drawing& whole, const std::vector<Region>& parts, std::size_t which) {
  Drawing out;
  out.id = whole.id;
  const std::string words = lettered(whole.scene.detail_words, which);
  out.alt = whole.alt + " " + words;
  out.caption = document::text(words);
  const Region& region = parts[which];
  out.scene.shapes = whole.scene.shapes;
  for (const Label& label : whole.scene.labels)
    if (label.style != "dimension" && region.holds(label.at) && !in_any(parts, which, label.at))
      out.scene.labels.push_back(label);
  for (const Marker& marker : whole.scene.markers)
    if (region.holds(marker.at) && !in_any(parts, which, marker.at)) out.scene.markers.push_back(marker);
  out.scene.shapes.push_back({Shape::Kind::area, corners(region), {}, "detail"});
  out.scene.north = whole.scene.north;
  out.scene.scale_words = whole.scene.scale_words;
  out.scene.feet_words = whole.scene.feet_words;
  return out;
}

}  // namespace soundsill::page
