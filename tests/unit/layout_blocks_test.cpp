#include <catch2/catch.hpp>
#include <set>

#include "pages/shapes.h"
#include "unit/layout_sample.h"

using namespace page_sample;

namespace {

Card card(int n, int words, std::vector<Block> more = {}) {
  Card c;
  c.id = "card-" + std::to_string(n);
  c.number = std::to_string(n);
  c.tag = "Live insects seen";
  c.tone = n % 2 != 0 ? "active" : "past";
  c.heading = {2, "", text("Card " + std::to_string(n))};
  c.blocks.emplace_back(Paragraph{"body", text("begin-" + c.number + " " + many_words(words, n) + " end-" + c.number)});
  for (Block& b : more) c.blocks.push_back(std::move(b));
  return c;
}

// Pages on which the card's own words stand.
std::set<std::size_t> pages_of(const page::Pages& pages, const std::vector<std::string>& words) {
  std::set<std::size_t> found;
  for (std::size_t p = 0; p < pages.pages.size(); ++p)
    for (const std::string& w : words)
      if (says(pages.pages[p], w)) found.insert(p);
  return found;
}

}  // namespace

TEST_CASE("a table of 60 rows repeats its head on each page, as decoration") {
  const Document d = document_of({rows_table(60)});
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  REQUIRE(pages.pages.size() >= 2);
  for (std::size_t p = 0; p < pages.pages.size(); ++p) {
    int heads = 0;
    for (const auto& t : texts(pages.pages[p])) {
      if (t.text.rfind("Seen", 0) != 0) continue;
      ++heads;
      CHECK((t.node == page::artifact) == (p > 0));
    }
    CHECK(heads == 1);
  }
  // Every row stands on one page and can be led to.
  for (int i = 1; i <= 60; ++i) CHECK(pages.destinations.contains("row-" + std::to_string(i)));
}

TEST_CASE("the cells of a table say what they are") {
  Table t = rows_table(3);
  Row group, total;
  group.kind = Row::Kind::group;
  group.cells = {text("A group")};
  total.kind = Row::Kind::total;
  total.cells = {{}, text("Total"), text("$6.00")};
  t.rows.insert(t.rows.begin(), group);
  t.rows.push_back(total);
  const Document d = document_of({t});
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  int columns = 0, rows = 0, spans = 0;
  for (const auto& node : pages.nodes) {
    columns += node.role == "TH" && node.scope == "Column" ? 1 : 0;
    rows += node.role == "TH" && node.scope == "Row" ? 1 : 0;
    spans += node.column_span > 1 ? 1 : 0;
    if (node.role == "Table") CHECK(node.alt == "Rows");
  }
  CHECK(columns == 4);  // three titles and the group
  CHECK(rows == 4);     // three rows and the total
  CHECK(spans == 2);
}

TEST_CASE("amounts stand under each other at the right") {
  const page::Pages pages = laid(document_of({rows_table(12)}));
  std::set<page::Milli> rights;
  for (const auto& t : texts(pages.pages[0]))
    if (t.text.front() == '$') rights.insert(t.at.x + t.width);
  CHECK(rights.size() <= 2);  // to a thousandth of a point
  CHECK(*rights.rbegin() - *rights.begin() <= 1);
}

TEST_CASE("a row taller than a page is split rather than lost") {
  Table t = rows_table(2);
  t.rows[1].cells[1] = text(many_words(3000));
  const Document d = document_of({t});
  const page::Pages pages = laid(d);
  CHECK(pages.pages.size() > 2);
  CHECK(wrong(d, pages).empty());
}

TEST_CASE("odd tables lose nothing") {
  Table wide;
  for (int i = 0; i < 14; ++i)
    wide.columns.push_back({"Column " + std::to_string(i), Column::Align::center, 1, i % 2 == 0});
  Row row;
  for (int i = 0; i < 16; ++i) row.cells.push_back(text("cell number " + std::to_string(i)));
  wide.rows.push_back(row);
  Table none;
  none.rows.push_back({"lost-row", {text("no columns"), text("at all")}});
  Table narrow;
  narrow.columns = {{"", Column::Align::left, 1, true}, {"", Column::Align::left, 1, true}};
  narrow.rows.push_back({"", {text(many_words(60)), text(many_words(60))}});
  const Document d = document_of({wide, none, narrow, Table{}});
  CHECK(wrong(d, laid(d)).empty());
}

TEST_CASE("cards are never split over pages") {
  for (int words = 20; words < 200; words += 30) {
    std::vector<Block> blocks;
    for (int i = 1; i <= 9; ++i) blocks.emplace_back(card(i, words + 13 * i));
    const Document d = document_of(std::move(blocks), "cards");
    const page::Pages pages = laid(d);
    CHECK(wrong(d, pages).empty());
    for (int i = 1; i <= 9; ++i) {
      const std::string n = std::to_string(i);
      CHECK(pages_of(pages, {"Card " + n, "begin-" + n + " ", "end-" + n}).size() == 1);
    }
  }
}

TEST_CASE("a card taller than a page flows on") {
  const Document d = document_of({card(1, 2000, {rows_table(80)})}, "cards");
  const page::Pages pages = laid(d);
  CHECK(pages.pages.size() > 2);
  CHECK(wrong(d, pages).empty());
}

TEST_CASE("photos are placed with pixels enough, and a broken one leaves a frame") {
  Document d = document_of({Photos{{{"large", "A mud tube", text("close")},
                                    {"small", "A wall", text("where")},
                                    {"broken", "A pier that cannot be shown", text("third")},
                                    {"absent", "Nothing there", {}}}}});
  d.photos = {{"large", png(1600, 1200)}, {"small", png(300, 200)}, {"broken", png(300, 200).substr(0, 20)}};
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  int images = 0;
  for (const auto& mark : pages.pages[0].marks) {
    const auto* image = std::get_if<page::ImageMark>(&mark);
    if (!image) continue;
    ++images;
    const auto& placed = pages.photos.at(image->photo);
    const std::int64_t an_inch = std::int64_t{placed.width} * 72'000 / image->box.width;
    CHECK(an_inch >= 149);
    CHECK(an_inch <= 221);
    CHECK(std::abs(std::int64_t{placed.width} * image->box.height - std::int64_t{placed.height} * image->box.width) <
          std::int64_t{image->box.width} * 2);
  }
  CHECK(images == 2);
  CHECK(says(pages.pages[0], "A pier that cannot be shown"));
}

TEST_CASE("a photo that breaks off is told when it is decoded") {
  Document d = document_of({Photos{{{"whole", "A pier", text("A pier")}, {"cut", "A sill", text("A sill")}}}}, "cards");
  d.photos = {{"whole", png(300, 200)}, {"cut", png(300, 200).substr(0, 500)}};
  Faults faults;
  page::Pages pages = page::lay_out(d, packet(), faces(), faults);
  for (const unsigned threads : {1U, 2U, 8U}) {
    const auto troubles = page::develop(pages, d, packet(), 0, threads);
    REQUIRE(troubles.size() == 1);
    CHECK(troubles.count("cut") == 1);
    CHECK(pages.photos.size() == 1);
  }
}

TEST_CASE("photos are stored with less, step by step, and nothing moves") {
  Photo part{"large", "A photo", text("A photo")};
  part.part = {{1000, 2000}, 5000, 4000};
  part.signs = {{PhotoSign::Kind::arrow, {2000, 5000}, {4000, 3000}},
                {PhotoSign::Kind::circle, {3000, 4000}, {3500, 4000}}};
  Document d = document_of({Photos{{part, {"large", "The same", text("The same")}}}}, "cards");
  d.photos = {{"large", png(1600, 1200)}};
  Faults faults;
  page::Pages pages = page::lay_out(d, packet(), faces(), faults);
  CHECK(page::develop(pages, d, packet(), 0, 2).empty());
  REQUIRE(pages.photos.size() == 2);
  const auto marks = pages.pages.front().marks.size();
  const auto pixels = [&] {
    int sum = 0;
    for (const auto& [key, placed] : pages.photos) sum += placed.width * placed.height;
    return sum;
  };
  const int first = pixels();
  int last = first;
  REQUIRE(packet().photos.steps.size() > 1);
  for (std::size_t step = 1; step < packet().photos.steps.size(); ++step) {
    CHECK(page::develop(pages, d, packet(), step).empty());
    const int now = pixels();
    CHECK(now <= last);
    last = now;
    for (const page::Mark& mark : pages.pages.front().marks)
      if (const auto* image = std::get_if<page::ImageMark>(&mark))
        CHECK(pages.photos.at(image->photo).width * 72000 >= 149 * image->box.width);
  }
  CHECK(last < first);
  CHECK(pages.pages.front().marks.size() == marks);
}

TEST_CASE("signs on a photo stay within its frame and have a light edge under a dark line") {
  Photo photo{"large", "A photo", text("A photo")};
  photo.signs = {{PhotoSign::Kind::arrow, {0, 0}, {10000, 10000}}, {PhotoSign::Kind::circle, {100, 100}, {9000, 9000}}};
  Document d = document_of({Photos{{photo}}}, "cards");
  d.photos = {{"large", png(1600, 1200)}};
  Faults faults;
  const page::Pages pages = page::lay_out(d, packet(), faces(), faults);
  std::optional<page::Box> box;
  std::vector<const page::PathMark*> drawn;
  for (const page::Mark& mark : pages.pages.front().marks) {
    if (const auto* image = std::get_if<page::ImageMark>(&mark)) box = image->box;
    if (const auto* path = std::get_if<page::PathMark>(&mark); path && path->round) drawn.push_back(path);
  }
  REQUIRE(box);
  REQUIRE(drawn.size() == 6);  // a shaft, a head and a circle, twice
  for (const auto* path : drawn) {
    REQUIRE(path->clip);
    CHECK(path->clip->x == box->x);
    CHECK(path->clip->width == box->width);
    CHECK(path->clip->height == box->height);
    CHECK(pages.nodes[static_cast<std::size_t>(path->node)].role == "Figure");
  }
  CHECK(drawn[0]->line_width > drawn[2]->line_width);
  CHECK(drawn[0]->stroke == packet().photos.casing_color);
  CHECK(drawn[2]->stroke == packet().photos.sign_color);
}

TEST_CASE("photos of cards become lower when that saves a page, and keep their shape") {
  const auto with_photos = [](int n) {
    return card(n, 90, {Photos{{{"large", "A mud tube", text("close")}, {"large", "A wall", text("where")}}}});
  };
  Document d = document_of({Heading{1, "", text("Cards")}, with_photos(1), with_photos(2), with_photos(3)}, "cards");
  d.photos = {{"large", png(1600, 1200)}};
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  REQUIRE(pages.pages.size() == 2);
  std::vector<page::Milli> heights;
  for (const auto& page : pages.pages)
    for (const auto& mark : page.marks)
      if (const auto* image = std::get_if<page::ImageMark>(&mark)) {
        heights.push_back(image->box.height);
        CHECK(std::abs(image->box.width * 3 - image->box.height * 4) < 100);
        const page::Node& figure = pages.nodes[static_cast<std::size_t>(image->node)];
        CHECK(figure.box->height == image->box.height);
        CHECK(figure.box->y == image->box.y);
      }
  REQUIRE(heights.size() == 6);
  CHECK(heights[0] == heights[3]);  // both cards of the first page give alike
  CHECK(heights[0] < heights[4]);
  CHECK(heights[0] >= packet().photos.min_height);
}

TEST_CASE("signs stay on their place in the picture when photos become lower") {
  // A crop of the picture, one part of it pointed at near each corner, and circles that reach over the edge.
  const PhotoPart crop{{1000, 2000}, 7500, 7500};
  const std::vector<PhotoSign> signs = {{PhotoSign::Kind::arrow, {2000, 3000}, {8000, 7000}},
                                        {PhotoSign::Kind::arrow, {8500, 2500}, {1500, 7500}},
                                        {PhotoSign::Kind::circle, {5000, 5000}, {6000, 5000}},
                                        {PhotoSign::Kind::circle, {1200, 7800}, {4200, 7800}}};
  const auto with_photos = [&](int n) {
    Photo left{"large", "A mud tube", text("close")}, right{"flat", "A wall", text("where")};
    left.part = right.part = crop;
    left.signs = right.signs = signs;
    return card(n, 90, {Photos{{left, right}}});
  };
  Document d = document_of({Heading{1, "", text("Cards")}, with_photos(1), with_photos(2), with_photos(3)}, "cards");
  d.photos = {{"large", png(1600, 1200)}, {"flat", png(1600, 1000)}};
  const page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  std::set<page::Milli> heights;
  int looked = 0;
  for (const auto& page : pages.pages) {
    const page::ImageMark* photo = nullptr;
    std::size_t drawn = 0;  // of this photo: a shaft and a head for an arrow, a circle; each twice
    for (const auto& mark : page.marks) {
      if (const auto* image = std::get_if<page::ImageMark>(&mark)) {
        photo = image;
        heights.insert(image->box.height);
        drawn = 0;
      }
      const auto* path = std::get_if<page::PathMark>(&mark);
      if (!path || !photo) continue;
      const page::Box& box = photo->box;
      const auto expected = [&](const Spot& spot) {
        return page::At{box.x + page::milli(page::scaled(spot.x - crop.corner.x, box.width, crop.width)),
                        box.y + page::milli(page::scaled(spot.y - crop.corner.y, box.height, crop.height))};
      };
      const auto close = [](page::At a, page::At b) { return std::abs(a.x - b.x) <= 20 && std::abs(a.y - b.y) <= 20; };
      if (!path->round) {  // the frame
        if (path->stroke != packet().photos.border_color || path->node != page::artifact || drawn > 0) continue;
        CHECK(close(path->pieces[0].to[0], {box.x, box.y}));
        continue;
      }
      REQUIRE(path->clip);
      CHECK(close({path->clip->x, path->clip->y}, {box.x, box.y}));
      CHECK(close({path->clip->right(), path->clip->bottom()}, {box.right(), box.bottom()}));
      // The order in which they are drawn: all casings, then all lines, sign by sign.
      constexpr std::size_t of_arrow = 4, of_circle = 2;
      const std::size_t sign = drawn < 2 * of_arrow ? drawn / of_arrow : 2 + (drawn - 2 * of_arrow) / of_circle;
      REQUIRE(sign < signs.size());
      const PhotoSign& wanted = signs[sign];
      if (wanted.kind == PhotoSign::Kind::arrow && drawn % 2 == 0) {
        CHECK(close(path->pieces[0].to[0], expected(wanted.from)));
        CHECK(close(path->pieces[1].to[0], expected(wanted.to)));
        ++looked;
      } else if (wanted.kind == PhotoSign::Kind::circle) {
        const page::Box round = page::bounds(page::Mark{*path});
        const page::At middle{round.x + round.width / 2, round.y + round.height / 2};
        CHECK(close(middle, expected(wanted.from)));
        const page::Milli radius = expected(wanted.to).x - expected(wanted.from).x;
        CHECK(std::abs(round.width - 2 * radius) <= 60);
        ++looked;
      }
      ++drawn;
    }
  }
  CHECK(heights.size() >= 3);  // some rows are lower than others, and two shapes of photos stand in them
  CHECK(looked == 6 * 8);
}

TEST_CASE("another template lays out the same document with nothing lost") {
  Document d = document_of({Heading{1, "", text("Summary")}, Facts{2, {{"a", text("b")}, {"c", text(many_words(20))}}},
                            Figures{{{"$1,234.00", "total"}, {"5", "findings"}}}, rows_table(6)});
  d.sections.push_back({"cards", "cards", {card(1, 60), card(2, 90)}});
  d.sections.push_back({"drawing", "plan", {Drawing{"map", house(), "A plan", text("The plan.")}}});
  d.sections.push_back({"terms", "terms", {Paragraph{"small", text(many_words(700))}}});
  d.sections.push_back({"unnamed", "unnamed", {Paragraph{"body", text("Comes last.")}}});
  for (const page::Template* look : {&packet(), &other_look()}) {
    const page::Pages pages = laid(d, *look);
    CHECK(wrong(d, pages).empty());
    CHECK(says(pages.pages.back(), "Comes last."));
    CHECK(pages.pages[0].width == look->sheet.width);
  }
  CHECK(laid(d, packet()).pages[0].height != laid(d, other_look()).pages[0].height);
}

TEST_CASE("two columns end at about the same height") {
  const Document d = document_of({Paragraph{"small", text(many_words(400))}}, "terms");
  const page::Pages pages = laid(d, other_look());
  CHECK(wrong(d, pages).empty());
  std::map<bool, page::Milli> deepest;
  for (const auto& t : texts(pages.pages[0]))
    if (t.node >= 0) deepest[t.at.x > 300'000] = std::max(deepest[t.at.x > 300'000], t.at.y);
  CHECK(std::abs(deepest[false] - deepest[true]) <= 24'000);
}
