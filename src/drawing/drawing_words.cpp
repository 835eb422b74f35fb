// Serves drawing/drawing.h. Labels, letters and markers: what is placed among the shapes of a drawing.
#include <algorithm>
#include <set>

#include "drawing/drawing.h"
#include "pages/shapes.h"

namespace soundsill::page {
namespace {

using namespace document;

constexpr Milli label_measure = 108'000;  // labels longer than 1.5 in take several lines
constexpr Milli pad = 1000;

struct SetLabel {
  std::vector<Line> lines;
  const TextStyle* style = nullptr;
  Milli width = 0;
};

At direction(Point p) {
  const auto part = [](Length l) { return milli(std::clamp<std::int64_t>(l.sixteenths, -1'000'000, 1'000'000)); };
  return {part(p.x), part(p.y)};
}

class Words {
 public:
  Words(Workshop& shop, Strip& strip, const Drawing& drawing, const std::vector<PlacedShape>& shapes, const Plan& plan,
        const Box& area, NodeId figure, Box& ink)
      : shop_(shop),
        strip_(strip),
        drawing_(drawing),
        scene_(drawing.scene),
        shapes_(shapes),
        plan_(plan),
        look_(shop.look.drawing),
        placer_(area),
        outline_cells_(area),
        figure_(figure),
        ink_(ink) {}

  /// Gives the places of what had to stand far off.
  std::vector<Point> add() {
    for (const PlacedShape& s : shapes_) avoid(s);
    outlines();
    markers();
    labels();
    letters();
    paint();
    return strays();
  }

 private:
  [[nodiscard]] std::vector<Point> strays() const {
    std::vector<Point> all;
    const auto look_at = [&](const Standing& s, Point at, bool dimension) {
      if (look_.detail_beyond <= 0 || !s.leader || dimension) return;
      const At p = plan_.at(at), near = nearest_on(s.box, p);
      const std::int64_t dx = near.x - p.x, dy = near.y - p.y, most = look_.detail_beyond;
      if (dx * dx + dy * dy > most * most) all.push_back(at);
    };
    for (std::size_t i = 0; i < label_places_.size(); ++i)
      look_at(label_places_[i], scene_.labels[i].at, scene_.labels[i].style == "dimension");
    for (std::size_t i = 0; i < marker_places_.size(); ++i) look_at(marker_places_[i], scene_.markers[i].at, false);
    return all;
  }

  void outlines() {
    for (const PlacedShape& s : shapes_) {
      outlines_.push_back(outline_of(s));
      const std::vector<At>& outline = outlines_.back();
      if (outline.empty()) continue;
      Box around{outline[0].x, outline[0].y, 0, 0};
      for (const At p : outline) around = united(around, {p.x, p.y, 0, 0});
      outline_cells_.add(around, outlines_.size() - 1);
    }
  }

  // Calls `see` with the number of each shape the point is in, with none twice, until it says true.
  template <class See>
  [[nodiscard]] bool any_round(At p, const See& see) const {
    return outline_cells_.any({p.x, p.y, 0, 0}, [&](std::size_t i) { return within(p, outlines_[i]) && see(i); });
  }

  // Thick lines are worse to cover than thin ones.
  void avoid(const PlacedShape& s) {
    const int weight = s.style->width >= points(1) ? 70 : 20;
    const bool circle = s.shape->kind == Shape::Kind::circle;
    if (circle) {
      const Box box{s.points[0].x - s.radius, s.points[0].y - s.radius, 2 * s.radius, 2 * s.radius};
      placer_.add_soft(box, 40);
      return;
    }
    const bool closed = s.shape->kind == Shape::Kind::area;
    for (std::size_t i = 0; i + (closed ? 0 : 1) < s.points.size(); ++i)
      placer_.add_line(s.points[i], s.points[(i + 1) % s.points.size()], s.style->width, weight);
  }

  [[nodiscard]] const TextStyle& style_of(const Label& label) const {
    if (label.style == "dimension") return shop_.text(look_.dimension);
    return shop_.text(label.style == "name" ? look_.name : look_.label);
  }

  void markers() {
    const TextStyle& number = shop_.text(look_.number);
    std::vector<Wish> wishes;
    for (const Marker& m : scene_.markers) {
      const MarkerStyle& style = marker_style(look_, m.shape);
      Milli across = std::max(style.size, measure(shop_, m.number, number).whole + points(7));
      if (style.outline == MarkerStyle::Outline::diamond) across += points(4);
      Wish wish;
      wish.point = plan_.at(m.at);
      wish.width = wish.height = across + style.width;
      wish.gap = points(4);
      wish.on_point = true;
      wish.line_cost = 25;
      wishes.push_back(wish);
    }
    marker_wishes_ = wishes;
    marker_places_ = placer_.place(wishes);
  }

  void labels() {
    std::vector<Wish> wishes;
    for (const Label& label : scene_.labels) {
      SetLabel set;
      set.style = &style_of(label);
      const Milli room = measure_for(label);
      // A node for each, so that words on several lines are read as one.
      set.lines = set_lines(shop_, label.words, {set.style, room, shop_.node("Span", figure_)});
      for (const Line& line : set.lines) set.width = std::max(set.width, line.width);
      Wish wish;
      wish.point = plan_.at(label.at);
      wish.outward = direction(label.outward);
      wish.width = set.width + 2 * pad;
      wish.height = std::max<Milli>(1, height_of_lines(set.lines, *set.style));
      wish.gap = label.style == "name" ? 0 : points(3);
      if (label.clear > Length{}) wish.gap = plan_.length(label.clear) + points(2);
      wish.on_point = wish.name = label.style == "name";
      if (label.style == "dimension") wish.slide = slide_for(wish);
      wish.line_cost = 100;
      wishes.push_back(wish);
      labels_.push_back(std::move(set));
    }
    label_wishes_ = wishes;
    label_places_ = placer_.place(wishes);
  }

  // How far a length may stand from the middle of its wall and still stand along it.
  [[nodiscard]] Milli slide_for(const Wish& wish) const {
    const bool level = std::abs(std::int64_t{wish.outward.x}) < std::abs(std::int64_t{wish.outward.y});
    const auto along = [&](At p) { return level ? p.x : p.y; };
    const auto across = [&](At p) { return level ? p.y : p.x; };
    Milli room = 0;
    for (const PlacedShape& s : shapes_)
      for (std::size_t i = 0; i + 1 < s.points.size() && s.shape->kind == Shape::Kind::line; ++i) {
        const At a = s.points[i], b = s.points[i + 1];
        if (std::abs(across(a) - across(wish.point)) > points(1) ||
            std::abs(across(b) - across(wish.point)) > points(1))
          continue;
        const Milli low = std::min(along(a), along(b)), high = std::max(along(a), along(b));
        room = std::max(room, std::min(along(wish.point) - low, high - along(wish.point)));
      }
    return std::max(0, room - (level ? wish.width : wish.height) / 2);
  }

  // Words in a small area take several lines rather than reach over its edge.
  [[nodiscard]] Milli measure_for(const Label& label) const {
    const At p = plan_.at(label.at);
    Milli least = label_measure;
    if (label.outward.x.sixteenths != 0 || label.outward.y.sixteenths != 0) return least;
    (void)any_round(p, [&](std::size_t i) {
      if (shapes_[i].shape->kind != Shape::Kind::area) return false;
      const Milli room = room_around(shapes_[i].points, p) - points(6);
      if (room >= points(36)) least = std::min(least, room);
      return false;
    });
    return least;
  }

  // The legend's letter on each shape that has room for it.
  void letters() {
    const TextStyle& style = shop_.text(look_.letter);
    for (const PlacedShape& s : shapes_) {
      const std::string letter = letter_of(s.shape->style);
      if (letter.empty()) continue;
      const Milli width = measure(shop_, letter, style).whole + 2 * pad, height = style.size;
      for (const std::vector<At>& choices : places_for_letters(s)) {
        std::vector<Box> boxes;
        for (const At p : choices) boxes.push_back({p.x - width / 2, p.y - height / 2, width, height});
        // First where it hides nothing; an area's letter keeps off lines too.
        const bool area = s.shape->kind != Shape::Kind::line;
        std::stable_partition(boxes.begin(), boxes.end(),
                              [&](const Box& box) { return !placer_.on_soft(box) && !(area && placer_.on_line(box)); });
        const auto found = std::find_if(boxes.begin(), boxes.end(), [&](const Box& box) { return placer_.take(box); });
        if (found != boxes.end()) letters_.emplace_back(letter, *found);
      }
    }
  }

  [[nodiscard]] std::string letter_of(const std::string& style) const {
    for (const LegendEntry& e : scene_.legend)
      if (e.sample != LegendEntry::Sample::marker && e.style == style) return e.letter;
    return {};
  }

  static std::vector<At> outline_of(const PlacedShape& s) {
    if (s.shape->kind == Shape::Kind::circle) return ring(s.points[0], s.radius);
    return s.shape->kind == Shape::Kind::area ? s.points : std::vector<At>{};
  }

  // One letter for each entry, at the first of its points that is free.
  static std::vector<std::vector<At>> places_for_letters(const PlacedShape& s) {
    if (s.shape->kind != Shape::Kind::line) return {places_inside(outline_of(s))};
    std::vector<std::vector<At>> all;
    for (std::size_t i = 0; i + 1 < s.points.size(); ++i) {
      const At a = s.points[i], b = s.points[i + 1];
      const std::int64_t dx = std::int64_t{b.x} - a.x, dy = std::int64_t{b.y} - a.y;
      if (std::abs(dx) + std::abs(dy) < points(44)) continue;
      std::vector<At> along;
      for (const std::int64_t part : {5, 3, 7, 2, 8})
        along.push_back({a.x + milli(dx * part / 10), a.y + milli(dy * part / 10)});
      all.push_back(std::move(along));
    }
    return all;
  }

  static std::vector<At> places_inside(const std::vector<At>& outline) {
    At middle;
    Milli room = 0;
    if (!point_inside(outline, middle, room) || room < points(14)) return {};
    std::vector<At> all{middle};
    for (const std::int64_t part : {-1, 1}) {
      const At aside{middle.x + milli(part * (room / 2 - points(8))), middle.y};
      all.push_back(aside);
      for (const Milli dy : {points(-14), points(14)})
        for (const At p : {At{middle.x, middle.y + dy}, At{aside.x, aside.y + dy}})
          if (within({p.x - points(5), p.y}, outline) && within({p.x + points(5), p.y}, outline)) all.push_back(p);
    }
    return all;
  }

  // Leaders first, then the white under words, then the words, and markers on top.
  void paint() {
    for (std::size_t i = 0; i < label_places_.size(); ++i) leader(label_places_[i], label_wishes_[i].point, false);
    for (std::size_t i = 0; i < marker_places_.size(); ++i) leader(marker_places_[i], marker_wishes_[i].point, true);
    for (const Standing& s : label_places_) ground(s);
    for (const auto& [letter, box] : letters_) {
      strip_.marks.emplace_back(filled_box(box, look_.ground));
      // The legend says it once; on the plan it is a pattern.
      put_centered(shop_, strip_, letter, shop_.text(look_.letter), {box.x + box.width / 2, box.y + box.height / 2},
                   artifact);
    }
    for (std::size_t i = 0; i < labels_.size(); ++i) {
      const Box& box = label_places_[i].box;
      put_lines(shop_, strip_, labels_[i].lines, *labels_[i].style, {box.x + pad, box.y}, box.width - 2 * pad,
                Align::center);
      ink_ = united(ink_, box);
    }
    for (std::size_t i = 0; i < scene_.markers.size(); ++i) marker(i);
  }

  void ground(const Standing& s) {
    const At middle{s.box.x + s.box.width / 2, s.box.y + s.box.height / 2};
    const bool covered = placer_.on_line(s.box) || any_round(middle, [&](std::size_t i) {
                           return shapes_[i].style->hatch != ShapeStyle::Hatch::none;
                         });
    if (covered && s.box.width > 0) strip_.marks.emplace_back(filled_box(s.box, look_.ground));
  }

  void leader(const Standing& s, At point, bool marker) {
    if (!s.leader) return;
    const At from = marker ? At{s.box.x + s.box.width / 2, s.box.y + s.box.height / 2} : nearest_on(s.box, point);
    strip_.marks.emplace_back(line_path(from, point, look_.leader_width, look_.leader));
    PathMark dot = circle_path(point, marker ? 1600 : 1100);
    dot.fill = look_.leader;
    strip_.marks.emplace_back(std::move(dot));
  }

  void marker(std::size_t i) {
    const Marker& m = scene_.markers[i];
    const MarkerStyle& style = marker_style(look_, m.shape);
    const Box& box = marker_places_[i].box;
    const At middle{box.x + box.width / 2, box.y + box.height / 2};
    put_marker(shop_, strip_, drawing_, m, {middle, box.width - style.width, figure_});
    ink_ = united(ink_, box);
  }

  Workshop& shop_;
  Strip& strip_;
  const Drawing& drawing_;
  const Scene& scene_;
  const std::vector<PlacedShape>& shapes_;
  const Plan& plan_;
  const DrawingStyle& look_;
  Placer placer_;
  std::vector<std::vector<At>> outlines_;  ///< of each shape, empty for lines
  Cells outline_cells_;
  NodeId figure_;
  Box& ink_;
  std::vector<SetLabel> labels_;
  std::vector<Wish> label_wishes_, marker_wishes_;
  std::vector<Standing> label_places_, marker_places_;
  std::vector<std::pair<std::string, Box>> letters_;
};

}  // namespace

void put_centered(Workshop& shop, Strip& strip, const std::string& words, const TextStyle& style, At middle,
                  NodeId node) {
  const auto lines = set_lines(shop, words, {&style, measure(shop, words, style).whole + points(1), node});
  const font::Face& face = shop.face(style.face);
  const Milli capital = milli(scaled(style.size, face.cap_height(), face.units_per_em()));
  for (const Line& line : lines)
    for (Mark mark : line.marks) {
      shift(mark, middle.x - line.width / 2, middle.y + capital / 2);
      strip.marks.push_back(std::move(mark));
    }
}

void put_marker(Workshop& shop, Strip& strip, const Drawing& drawing, const Marker& m, const MarkerPlace& place) {
  const MarkerStyle& style = marker_style(shop.look.drawing, m.shape);
  paint_marker(strip, style, place.middle, place.across);
  TextStyle number = shop.text(shop.look.drawing.number);
  number.color = style.text;
  const Milli half = (place.across + style.width) / 2;
  const Box box{place.middle.x - half, place.middle.y - half, 2 * half, 2 * half};
  const bool linked = !m.link.empty() && shop.reachable(m.link);
  const NodeId node = shop.node(linked ? "Link" : "Span", place.figure);
  if (linked) strip.marks.emplace_back(LinkMark{box, m.link, m.description.empty() ? m.number : m.description, node});
  put_centered(shop, strip, m.number, number, place.middle, node);
  if (!drawing.id.empty()) strip.places.emplace_back(drawing.id + "-" + m.number, box.y);
}

std::vector<Point> add_words(Workshop& shop, Strip& strip, const Drawing& drawing,
                             const std::vector<PlacedShape>& shapes, const Plan& plan, const Box& area, NodeId figure,
                             Box& ink) {
  return Words(shop, strip, drawing, shapes, plan, area, figure, ink).add();
}

}  // namespace soundsill::page
