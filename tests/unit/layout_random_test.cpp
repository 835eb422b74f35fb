// Documents that nobody would write: whatever they say is printed, on the sheet, and the same each time.
#include <catch2/catch.hpp>

#include "unit/layout_sample.h"

using namespace page_sample;

namespace {

class Dice {
 public:
  explicit Dice(std::uint32_t seed) : state_(seed * 2654435761U + 1) {}
  int below(int n) {
    state_ = state_ * 1664525U + 1013904223U;
    return static_cast<int>((state_ >> 16U) % static_cast<std::uint32_t>(n));
  }
  bool one_in(int n) { return below(n) == 0; }

 private:
  std::uint32_t state_;
};

class Writer {
 public:
  explicit Writer(std::uint32_t seed) : dice_(seed) {}

  Document document() {
    static const std::array<const char*, 8> names{"summary",  "drawing", "cards",      "areas",
                                                  "estimate", "terms",   "signatures", "other"};
    Document d = document_of({});
    d.sections.clear();
    const int count = dice_.below(5);
    for (int i = 0; i < count; ++i) {
      const std::string name = names[static_cast<std::size_t>(dice_.below(8))];
      d.sections.push_back({name, "s" + std::to_string(i), blocks(dice_.below(7), true)});
    }
    if (dice_.one_in(3)) d.draft = "DRAFT";
    d.photos = {{"one", png(400, 300)}, {"two", png(90, 160)}};
    return d;
  }

 private:
  std::string words(int most) {
    // A number at both ends, so that no string is part of another.
    const std::string mark = std::to_string(++count_);
    std::string all = "<" + mark + " " + many_words(1 + dice_.below(most), dice_.below(60000));
    if (dice_.one_in(9)) all += " " + std::string(static_cast<std::size_t>(1 + dice_.below(200)), 'w');
    if (dice_.one_in(9)) all += "\nŁódź ñ ½ € ✓ " + all;
    if (dice_.one_in(20)) return {};
    return all + " " + mark + ">";
  }
  Runs runs(int most) {
    Runs all;
    const int count = dice_.below(4);
    for (int i = 0; i < count; ++i) {
      static const std::array<const char*, 5> links{"", "", "s0", "row-0", "https://example.org/a/very/long/path"};
      all.push_back(
          {words(most), static_cast<Run::Look>(dice_.below(3)), links[static_cast<std::size_t>(dice_.below(5))]});
    }
    return all;
  }
  std::vector<Block> blocks(int count, bool cards) {
    std::vector<Block> all;
    for (int i = 0; i < count; ++i) all.push_back(block(cards));
    return all;
  }
  Block block(bool cards) {
    switch (dice_.below(cards ? 10 : 8)) {
      case 0:
        return Heading{1 + dice_.below(6), dice_.one_in(2) ? "" : "h", runs(6), dice_.one_in(2)};
      case 1:
        return List{static_cast<List::Marker>(dice_.below(2)), "body", {runs(30), runs(50), runs(3)}};
      case 2:
        return table();
      case 3:
        return Facts{dice_.below(5), {{words(3), runs(9)}, {words(3), runs(20)}, {words(5), runs(3)}}};
      case 4:
        return Photos{{{"one", "first", runs(20)}, {"two", "second", runs(9)}, {"none", "third", runs(3)}}};
      case 5:
        return Figures{{{words(2), words(9)}, {words(1), words(5)}, {words(3), words(2)}}};
      case 7:
        return Bars{9, {{words(4), words(2), dice_.below(12)}, {words(9), words(1), 0}, {words(1), words(5), 9}}};
      case 6:
        return Signatures{"Name", "Date", {{runs(30), words(2), words(2), words(2)}, {runs(9), "", {}, {}}}};
      case 8:
        return Card{dice_.one_in(2) ? "card" : "", dice_.one_in(4) ? "" : "7", words(3), "damage", {2, "", runs(9)},
                    blocks(dice_.below(5), false)};
      case 9:
        return Drawing{"map", scene(), "A plan", runs(9)};
      default:
        return Paragraph{dice_.one_in(3) ? "caution" : "body", runs(120)};
    }
  }
  Table table() {
    Table t;
    const int columns = 1 + dice_.below(6);
    for (int c = 0; c < columns; ++c)
      t.columns.push_back({words(2), static_cast<Column::Align>(dice_.below(3)), 1 + dice_.below(4), dice_.one_in(2)});
    const int rows = dice_.below(25);
    for (int r = 0; r < rows; ++r) {
      Row row;
      row.id = "row-" + std::to_string(r);
      row.kind = dice_.one_in(8) ? Row::Kind::group : dice_.one_in(8) ? Row::Kind::total : Row::Kind::body;
      const int cells = row.kind == Row::Kind::group ? 1 : columns;
      for (int c = 0; c < cells; ++c) row.cells.push_back(runs(dice_.one_in(5) ? 40 : 4));
      t.rows.push_back(std::move(row));
    }
    t.row_heads = dice_.one_in(2);
    t.caption = words(4);
    return t;
  }
  Scene scene() {
    Scene s = house();
    const int labels = dice_.below(25);
    for (int i = 0; i < labels; ++i)
      s.labels.push_back({at(dice_.below(60) - 5, dice_.below(40) - 5), at(dice_.below(3) - 1, dice_.below(3) - 1),
                          words(4), dice_.one_in(2) ? "label" : "dimension"});
    for (int i = 0; i < labels / 2; ++i)
      s.markers.push_back({at(dice_.below(50), dice_.below(30)), std::to_string(10 + i), "hole", "", ""});
    return s;
  }

  Dice dice_;
  int count_ = 0;
};

}  // namespace

TEST_CASE("200 random documents hold every invariant in two templates") {
  for (std::uint32_t seed = 0; seed < 200; ++seed) {
    const Document d = Writer(seed).document();
    const page::Template& look = seed % 2 == 0 ? packet() : other_look();
    const page::Pages pages = laid(d, look);
    INFO("seed " << seed);
    CHECK(wrong(d, pages) == "");
    if (seed % 10 == 0) CHECK(page::dump(pages) == page::dump(laid(d, look)));
  }
}

TEST_CASE("the listing of a small page") {
  const page::Pages pages = laid(document_of({Heading{1, "top", text("Title")}, Paragraph{"body", text("Words.")}}));
  const std::string listing = page::dump(pages);
  CHECK(listing.find("page 1 612.000x792.000\n") == 0);
  CHECK(listing.find("|Title|\n") != std::string::npos);
  CHECK(listing.find(" P#") != std::string::npos);
  CHECK(listing.find("bookmark 1 Title -> top\n") != std::string::npos);
}

TEST_CASE("the checks see what is wrong") {
  const Document d =
      document_of({Paragraph{"body", text("Words twice. Words twice.")}, Paragraph{"body", text("twice")}});
  page::Pages pages = laid(d);
  CHECK(wrong(d, pages).empty());
  page::Pages shorter = pages;
  std::erase_if(shorter.pages[0].marks, [](const page::Mark& m) {
    const auto* t = std::get_if<page::TextMark>(&m);
    return t && t->text == "twice";
  });
  CHECK(page::lost_strings(d, shorter) == std::vector<std::string>{"twice"});
  page::Pages moved = pages;
  for (auto& m : moved.pages[0].marks)
    if (auto* t = std::get_if<page::TextMark>(&m)) t->at = {600'000, 300'000};
  CHECK_FALSE(page::off_sheet(moved).empty());
  CHECK_FALSE(page::overlapping_texts(moved).empty());
}
