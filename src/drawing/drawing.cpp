#include "drawing/drawing.h"

#include <algorithm>

#include "pages/shapes.h"

namespace soundsill::page {
namespace {

using namespace document;

/// White round the plan for words that stand outside the walls.
struct Margins {
  Milli left = 0, right = 0, top = 0, bottom = 0;
};

constexpr std::size_t few_strays = 3;  // fewer are served well enough by their leaders
constexpr Milli scale_row = 44'000;    // north arrow and scale bar, with white

class DrawingMaker {
 public:
  /// `part` is the part of the house that is shown; all of it when there is none.
  DrawingMaker(Workshop& shop, const Drawing& drawing, Place place, const Region* part = nullptr)
      : shop_(shop),
        drawing_(drawing),
        scene_(drawing.scene),
        place_(place),
        look_(shop.look.drawing),
        extent_(extent_of(drawing.scene)),
        cropped_(part != nullptr) {
    if (part) extent_ = {part->least, part->most, false};
    for (const Label& label : scene_.labels) {
      const TextStyle& style = shop.text(label.style == "dimension" ? look_.dimension
                                         : label.style == "name"    ? look_.name
                                                                    : look_.label);
      label_sizes_.emplace_back(measure(shop, label.words, style).whole + points(2), style.leading);
    }
  }

  /// Places whose words had to stand far off, and the scale that was taken: known once it is made.
  [[nodiscard]] const std::vector<Point>& strays() const { return strays_; }
  [[nodiscard]] const Extent& extent() const { return extent_; }
  [[nodiscard]] std::int64_t feet_an_inch() const { return feet_an_inch_; }

  Strips make() {
    const NodeId group = shop_.node("Div", place_.parent);
    Strip caption = caption_strip(group);
    const std::size_t caption_marks = caption.marks.size();
    const NodeId figure = shop_.node("Figure", group);
    shop_.at(figure).alt = drawing_.alt;
    Strip strip = picture(figure);
    // Words after all lines: painted in turn, each would be a tagged piece of its own.
    std::stable_partition(strip.marks.begin(), strip.marks.end(),
                          [](const Mark& mark) { return std::holds_alternative<PathMark>(mark); });
    for (Mark& mark : strip.marks)
      if (auto* path = std::get_if<PathMark>(&mark)) path->node = figure;
    if (!drawing_.id.empty()) strip.places.insert(strip.places.begin(), {drawing_.id, 0});
    strip.figures.emplace_back(figure, Box{0, 0, place_.width, strip.height});
    Strips all{std::move(strip)};
    if (caption_marks > 0) all.push_back(std::move(caption));
    Strip whole = stacked(all);
    // It stands below the picture and is read before it.
    std::rotate(whole.marks.begin(), whole.marks.end() - static_cast<std::ptrdiff_t>(caption_marks), whole.marks.end());
    whole.before = look_.before;
    whole.after = look_.after;
    return {whole};
  }

 private:
  Strip caption_strip(NodeId group) {
    Strip strip;
    if (drawing_.caption.empty()) return strip;
    const TextStyle& style = shop_.text(shop_.look.photos.caption);
    const auto lines = set_lines(shop_, drawing_.caption, {&style, place_.width, shop_.node("Caption", group)});
    put_lines(shop_, strip, lines, style, {0, 0}, place_.width, Align::left);
    strip.height = height_of_lines(lines, style);
    strip.before = style.before;
    return strip;
  }

  Strip picture(NodeId figure) {
    // The legend stands beside the plan when that costs no step of the scale, else below.
    const Milli beside = look_.legend_width + points(18);
    const Milli most_tall = cropped_ || drawing_.lesser ? look_.lesser_height : look_.max_height;
    const Milli tall = std::min(most_tall, shop_.column_height * 9 / 10) - scale_row;
    const bool side_by_side = !scene_.legend.empty() && place_.width > beside * 2 &&
                              scale(place_.width - beside, tall) == scale(place_.width, tall);
    Room room{place_.width, tall, place_.width, side_by_side};
    if (side_by_side) {
      room.legend_width = look_.legend_width;
      room.plan_width -= beside;
    } else {
      // Set once to be measured, and again where it stands.
      const std::size_t nodes = shop_.pages.nodes.size();
      const Milli legend = legend_strip(shop_, scene_, room.legend_width, figure).height + points(12);
      shop_.pages.nodes.resize(nodes);
      room.plan_height = std::max(tall / 3, tall - legend);
    }
    // Words that found no room stand below the plan; when that makes it too tall, the plan gets smaller.
    const Milli most = shop_.column_height - points(60);
    for (int attempt = 0;; ++attempt) {
      const std::size_t nodes = shop_.pages.nodes.size();
      Strip strip = assemble(room, figure);
      if (strip.height <= most || attempt == 4) return strip;
      shop_.pages.nodes.resize(nodes);
      room.plan_height = std::max(points(72), room.plan_height - (strip.height - most));
    }
  }

  struct Room {
    Milli plan_width, plan_height, legend_width;
    bool side_by_side;
  };

  [[nodiscard]] Plan plan_at(std::int64_t feet_an_inch) const {
    Plan plan;
    plan.feet_an_inch = feet_an_inch;
    plan.origin = extent_.least;
    return plan;
  }

  [[nodiscard]] Milli across(const Plan& plan) const { return plan.length(extent_.most.x - extent_.least.x); }
  [[nodiscard]] Milli down(const Plan& plan) const { return plan.length(extent_.most.y - extent_.least.y); }

  std::int64_t scale(Milli width, Milli height) {
    return scale_for(look_.scales, [&](std::int64_t n) {
      const Plan plan = plan_at(n);
      const Margins m = margins(plan, width / 5);
      // A scale so small that nothing is left of the plan always fits.
      if (across(plan) < points(18) && down(plan) < points(18)) return true;
      return std::int64_t{across(plan)} + m.left + m.right <= width &&
             std::int64_t{down(plan)} + m.top + m.bottom <= height;
    });
  }

  // Words that stand outside the walls need room: as much as reaches beyond the extent.
  Margins margins(const Plan& plan, Milli most) {
    const Milli least = scene_.markers.empty() ? points(12) : points(20);
    Margins m{least, least, least, least};
    const auto need = [&](Milli& margin, Milli wanted, Length inside) {
      margin = std::max(margin, std::min(most, wanted + points(9) - plan.length(inside)));
    };
    for (std::size_t i = 0; i < scene_.labels.size(); ++i) {
      const Label& label = scene_.labels[i];
      const auto [wide, high] = label_sizes_[i];
      const std::int64_t x = label.outward.x.sixteenths, y = label.outward.y.sixteenths;
      if (x < 0 && -x >= std::abs(y)) need(m.left, wide, label.at.x - extent_.least.x);
      if (x > 0 && x >= std::abs(y)) need(m.right, wide, extent_.most.x - label.at.x);
      if (y < 0 && -y >= std::abs(x)) need(m.top, high, label.at.y - extent_.least.y);
      if (y > 0 && y >= std::abs(x)) need(m.bottom, high, extent_.most.y - label.at.y);
    }
    return m;
  }

  Strip assemble(const Room& room, NodeId figure) {
    Plan plan = plan_at(scale(room.plan_width, room.plan_height));
    feet_an_inch_ = plan.feet_an_inch;
    const Margins m = margins(plan, room.plan_width / 5);
    const Milli wide = across(plan), high = down(plan);
    plan.offset = {std::max(0, m.left + (room.plan_width - wide - m.left - m.right) / 2), m.top};
    // Below the plan there may be room left.
    const Box area{0, 0, room.plan_width, std::max(high + m.top + m.bottom, room.plan_height)};
    Box ink{plan.offset.x, plan.offset.y, wide, high};
    Strip drawn;
    const auto shapes = placed_shapes(scene_, look_, plan);
    for (const PlacedShape& shape : shapes) paint(drawn, shape);
    if (cropped_) crop(drawn, ink);
    strays_ = add_words(shop_, drawn, drawing_, shapes, plan, area, figure, ink);
    const Milli edge = points(3);
    Strip strip;
    merge(strip, drawn, 0, edge - ink.y);
    strip.height = ink.height + 2 * edge + points(8);
    // Numbers without a place stand at the right of the scale bar, or above it where that is too narrow.
    const Milli bar_width = points(230);
    const bool in_row = room.plan_width > bar_width + points(130);
    const Strip aside = aside_strip(shop_, drawing_, room.plan_width - (in_row ? bar_width : 0), figure);
    if (!in_row && aside.height > 0) {
      merge(strip, aside, 0, strip.height);
      strip.height += aside.height + points(6);
    }
    const Strip bar = scale_strip(shop_, scene_, plan, figure);
    const Strip legend = legend_strip(shop_, scene_, room.legend_width, figure);
    if (in_row) merge(strip, aside, bar_width, strip.height);
    merge(strip, bar, 0, strip.height);
    strip.height += std::max(bar.height, in_row ? aside.height : 0);
    if (room.side_by_side) {
      merge(strip, legend, place_.width - room.legend_width, edge);
      strip.height = std::max(strip.height, legend.height + edge);
    } else if (legend.height > 0) {
      merge(strip, legend, 0, strip.height + points(12));
      strip.height += legend.height + points(12);
    }
    return strip;
  }

  // Shapes go on beyond the part: they end at its frame, and those wholly outside are left away.
  static void crop(Strip& strip, const Box& frame) {
    std::erase_if(strip.marks, [&](const Mark& m) { return !overlap(bounds(m), frame); });
    for (Mark& mark : strip.marks)
      if (auto* path = std::get_if<PathMark>(&mark); path && !inside(bounds(mark), frame))
        path->clip = grown(frame, points(1) / 2);
  }

  Workshop& shop_;
  const Drawing& drawing_;
  const Scene& scene_;
  Place place_;
  const DrawingStyle& look_;
  Extent extent_;
  bool cropped_;
  std::vector<std::pair<Milli, Milli>> label_sizes_;  ///< on one line
  std::vector<Point> strays_;
  std::int64_t feet_an_inch_ = 0;
};

// What of a crowded plan is worth drawing larger: parts that gain at least a step of the scale.
std::vector<Region> details(Workshop& shop, const Drawing& drawing, Place place, const DrawingMaker& whole) {
  std::vector<Region> all = regions_round(whole.strays(), whole.extent());
  std::erase_if(all, [&](const Region& region) {
    const std::size_t nodes = shop.pages.nodes.size();
    const Drawing part = part_of(drawing, {region}, 0);
    DrawingMaker maker(shop, part, place, &region);
    (void)maker.make();
    shop.pages.nodes.resize(nodes);
    return maker.feet_an_inch() >= whole.feet_an_inch();
  });
  return all;
}

}  // namespace

Strips drawing_strips(Workshop& shop, const Drawing& drawing, Place place) {
  const std::size_t nodes = shop.pages.nodes.size();
  DrawingMaker whole(shop, drawing, place);
  Strips all = whole.make();
  if (whole.strays().size() < few_strays || drawing.lesser || drawing.scene.detail_words.empty()) return all;
  const std::vector<Region> parts = details(shop, drawing, place, whole);
  if (parts.empty()) return all;
  shop.pages.nodes.resize(nodes);
  const Drawing main = without(drawing, parts);
  all = DrawingMaker(shop, main, place).make();
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Drawing part = part_of(drawing, parts, i);
    append(all, DrawingMaker(shop, part, place, &parts[i]).make());
  }
  return all;
}

}  // namespace soundsill::page
