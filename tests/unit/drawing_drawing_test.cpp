#include <algorithm>
#include <catch2/catch.hpp>

#include "drawing/placer.h"
#include "drawing/plan.h"
#include "pages/shapes.h"
#include "unit/layout_sample.h"

using namespace page_sample;

namespace {

Document drawing_of(Scene scene) {
  return document_of({rows_table(6), Drawing{"map", std::move(scene), "A plan in words", text("Caption.")}}, "drawing");
}

// The first path with this many pieces and a stroke of this width.
const page::PathMark* path_of(const page::Pages& pages, std::size_t pieces, page::Milli width) {
  for (const auto& page : pages.pages)
    for (const auto& mark : page.marks)
      if (const auto* path = std::get_if<page::PathMark>(&mark))
        if (path->pieces.size() == pieces && path->stroke && path->line_width == width) return path;
  return nullptr;
}

}  // namespace

TEST_CASE("the drawing is to scale, to a thousandth of a point") {
  const page::Pages pages = laid(drawing_of(house()));
  const page::PathMark* wall = path_of(pages, 7, packet().drawing.shapes.at("wall").width);
  REQUIRE(wall != nullptr);
  // What the scale says, read from the page.
  std::int64_t feet_an_inch = 0;
  for (const auto& page : pages.pages)
    for (const auto& t : texts(page))
      if (t.text.rfind("Scale", 0) == 0) feet_an_inch = std::stoll(t.text.substr(t.text.find('=') + 2));
  REQUIRE(feet_an_inch > 0);
  const auto& p = wall->pieces;
  CHECK(std::abs((p[1].to[0].x - p[0].to[0].x) - 40 * 72'000 / feet_an_inch) <= 1);
  CHECK(std::abs((p[2].to[0].y - p[1].to[0].y) - 18 * 72'000 / feet_an_inch) <= 1);
  CHECK(std::abs((p[4].to[0].y - p[0].to[0].y) - 30 * 72'000 / feet_an_inch) <= 1);
  CHECK(p[1].to[0].x > p[0].to[0].x);  // east is right
  CHECK(p[2].to[0].y > p[1].to[0].y);  // south is down
}

TEST_CASE("words and markers of a drawing cover nothing and lead to their rows") {
  const Document d = drawing_of(house());
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  int links = 0;
  for (const auto& page : pages.pages)
    for (const auto& mark : page.marks)
      if (const auto* link = std::get_if<page::LinkMark>(&mark)) links += link->target.rfind("row-", 0) == 0 ? 1 : 0;
  CHECK(links == 6);
  CHECK(pages.destinations.contains("map"));
  CHECK(pages.destinations.contains("map-3"));
}

TEST_CASE("a drawing is one figure with words and a box on its page") {
  const page::Pages pages = laid(drawing_of(house()));
  int figures = 0;
  for (const auto& node : pages.nodes) {
    if (node.role != "Figure") continue;
    ++figures;
    CHECK(node.alt == "A plan in words");
    REQUIRE(node.box.has_value());
    REQUIRE(node.box_page >= 0);
    const page::Page& page = pages.pages[static_cast<std::size_t>(node.box_page)];
    CHECK(page::inside(*node.box, {0, 0, page.width, page.height}));
  }
  CHECK(figures == 1);
}

TEST_CASE("a crowd of labels and markers on one point is spread out") {
  Scene s = house();
  for (int i = 0; i < 25; ++i) s.labels.push_back({at(20, 9), {}, "crowded label " + std::to_string(i), "label"});
  for (int i = 7; i < 30; ++i) s.markers.push_back({at(20, 9), std::to_string(i), "finding", "", "no."});
  const Document d = drawing_of(s);
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
}

TEST_CASE("scenes of any size and none fit the page") {
  for (const std::int64_t size : {1, 7, 30, 90, 400, 3000, 100000}) {
    Scene s = house();
    s.shapes.push_back(
        {Shape::Kind::area, {at(0, 0), at(size, 0), at(size, 2 * size), at(0, 2 * size)}, {}, "not-seen"});
    const Document d = drawing_of(s);
    const page::Pages pages = laid(d);
    CHECK(wrong(d, pages).empty());
  }
  for (const Document& d : {drawing_of(Scene{}), drawing_of([] {
                              Scene s;
                              s.labels.push_back({at(3, 3), {}, "alone", "label"});
                              s.shapes.push_back({Shape::Kind::line, {}, {}, "wall"});
                              s.shapes.push_back({Shape::Kind::area, {at(1, 1)}, {}, "not-seen"});
                              s.shapes.push_back({Shape::Kind::area, {at(1, 1), at(2, 1)}, {}, "no such style"});
                              return s;
                            }())})
    CHECK(wrong(d, laid(d)).empty());
}

TEST_CASE("hatch lines stay inside their area") {
  const std::vector<page::At> shape{{0, 0},           {90'000, 0},      {90'000, 40'000},
                                    {50'000, 40'000}, {50'000, 80'000}, {0, 80'000}};
  for (const auto hatch :
       {page::ShapeStyle::Hatch::rising, page::ShapeStyle::Hatch::falling, page::ShapeStyle::Hatch::cross,
        page::ShapeStyle::Hatch::level, page::ShapeStyle::Hatch::dots}) {
    page::ShapeStyle style;
    style.hatch = hatch;
    style.hatch_gap = 5'000;
    const page::PathMark path = page::hatch_path(shape, style);
    REQUIRE(path.pieces.size() > 10);
    for (std::size_t i = 0; i + 1 < path.pieces.size(); i += 2) {
      const page::At a = path.pieces[i].to[0], b = path.pieces[i + 1].to[0];
      CHECK(page::within({(a.x + b.x) / 2, (a.y + b.y) / 2}, shape));
    }
  }
}

TEST_CASE("the placer keeps to the side with room, and places all") {
  page::Placer placer({0, 0, 100'000, 100'000});
  placer.add_line({50'000, 0}, {50'000, 100'000}, 2'000, 70);
  page::Wish wish;
  wish.point = {50'000, 50'000};
  wish.outward = {1, 0};
  wish.width = 30'000;
  wish.height = 10'000;
  wish.gap = 3'000;
  const auto one = placer.place({wish});
  CHECK(one[0].box.x >= 51'000);
  const auto many = placer.place(std::vector<page::Wish>(30, wish));
  for (std::size_t i = 0; i < many.size(); ++i) {
    CHECK(many[i].placed);
    for (std::size_t j = i + 1; j < many.size(); ++j) CHECK_FALSE(page::overlap(many[i].box, many[j].box));
  }
}

TEST_CASE("segments touch boxes exactly") {
  const page::Box box{10, 10, 10, 10};
  CHECK(page::touches({0, 0}, {30, 30}, box));
  CHECK(page::touches({15, 0}, {15, 30}, box));
  CHECK(page::touches({12, 12}, {13, 14}, box));
  CHECK_FALSE(page::touches({0, 12}, {12, 30}, {14, 10, 3, 3}));
  CHECK_FALSE(page::touches({0, 0}, {9, 9}, box));
  CHECK_FALSE(page::touches({0, 25}, {25, 22}, box));
}

TEST_CASE("the placer's work grows with the number of wishes, not with its square") {
  // Piers in rows, as close as on a full plan, and words of their numbers.
  const auto looked = [](int count) {
    const page::Milli between = 14'000, side = 40 * between;
    page::Placer placer({0, 0, side, count / 40 * between});
    std::vector<page::Wish> wishes;
    for (int i = 0; i < count; ++i) {
      const page::At p{between * (i % 40) + between / 2, between * (i / 40) + between / 2};
      placer.add_line({p.x - 2'000, p.y}, {p.x + 2'000, p.y}, 1'000, 70);
      placer.add_soft({p.x - 3'000, p.y - 3'000, 6'000, 6'000}, 40);
      page::Wish wish;
      wish.point = p;
      wish.width = 12'000;
      wish.height = 10'000;
      wish.gap = 3'000;
      wishes.push_back(wish);
    }
    const auto places = placer.place(wishes);
    CHECK(std::all_of(places.begin(), places.end(), [](const auto& s) { return s.placed; }));
    return placer.looked();
  };
  const std::int64_t few = looked(400), many = looked(1600);
  INFO(few << " for 400, " << many << " for 1600");
  CHECK(many < 6 * few);
}

TEST_CASE("words that find no room on the plan are stacked below it in few looks") {
  page::Placer placer({0, 0, 200'000, 200'000});
  page::Wish wish;
  wish.point = {100'000, 100'000};
  wish.width = 18'000;
  wish.height = 10'000;
  const auto places = placer.place(std::vector<page::Wish>(1600, wish));
  for (std::size_t i = 0; i < places.size(); ++i) {
    REQUIRE(places[i].placed);
    for (std::size_t j = i + 1; j < places.size(); ++j)
      if (page::overlap(places[i].box, places[j].box)) FAIL("boxes " << i << " and " << j << " overlap");
  }
  CHECK(placer.looked() < 1600 * 3000);
}

TEST_CASE("a plan of 1,600 piers loses none of their numbers") {
  Scene s = house();
  for (int i = 0; i < 1600; ++i) {
    const std::int64_t x = 4 * (i % 40), y = 4 * (i / 40);
    s.shapes.push_back({Shape::Kind::area, {at(x, y), at(x + 1, y), at(x + 1, y + 1), at(x, y + 1)}, {}, "pier"});
    s.labels.push_back({at(x, y), {}, std::to_string(i + 1), "label"});
  }
  const Document d = drawing_of(s);
  const page::Pages pages = laid(d);
  CHECK(page::lost_strings(d, pages).empty());
  CHECK(page::off_sheet(pages).empty());
}
