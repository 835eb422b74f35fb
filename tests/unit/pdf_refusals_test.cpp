#include <catch2/catch.hpp>
#include <functional>
#include <stdexcept>

#include "pdf/pdf.h"
#include "unit/pdf_sample.h"

using namespace soundsill;

namespace {

/// What the writer says of one page with a sound paragraph and what `spoil` adds.
std::string refusal(const std::function<void(test::Sheets&)>& spoil) {
  test::Sheets s;
  s.add_page();
  s.written("P", 0, 54, 100, "sound");
  spoil(s);
  try {
    return pdf::write(s.pages, {}).empty() ? "nothing written" : "written";
  } catch (const std::invalid_argument& fault) {
    return fault.what();
  }
}

std::string refusal(const pdf::Options& options) {
  try {
    return pdf::write(test::sample_pages(), options).empty() ? "nothing written" : "written";
  } catch (const std::invalid_argument& fault) {
    return fault.what();
  }
}

}  // namespace

TEST_CASE("a mark off its sheet is refused") {
  CHECK(refusal([](test::Sheets&) {}) == "written");
  CHECK(refusal([](test::Sheets& s) {
          s.text(1, 600, 100, "too far right");
        }) == "page 1 has `too far right` off the sheet, at " + [] {
    const auto* face = test::sample_faces().find("regular");
    return std::to_string(600'000 + face->width("too far right") * 10'000 / face->units_per_em());
  }() + ", 100000");
  CHECK(refusal([](test::Sheets& s) { s.text(1, 54, 800, "low"); }) ==
        "page 1 has `low` off the sheet, at 54000, 800000");
  CHECK(refusal([](test::Sheets& s) {
          auto path = test::rectangle_path(test::box(500, 100, 200, 20));
          path.fill = page::Color{};
          s.add(path);
        }) == "page 1 has a path off the sheet, at 700000, 100000");
  CHECK(refusal([](test::Sheets& s) {
          s.add(page::ImageMark{{2'000'000'000, 0, 2'000'000'000, 10}, "x", 1});
        }) == "page 1 has photo `x` off the sheet, at 2000000000, 0");
}

TEST_CASE("a path that is clipped may reach over the edge") {
  CHECK(refusal([](test::Sheets& s) {
          auto path = test::rectangle_path(test::box(500, 100, 200, 20));
          path.fill = page::Color{};
          path.clip = test::box(500, 100, 50, 20);
          s.add(path);
        }) == "written");
}

TEST_CASE("a letter without a glyph is refused") {
  CHECK(refusal([](test::Sheets& s) { s.text(1, 54, 200, "tick ☐"); }) ==
        "`tick ☐` has a letter that the face regular lacks");
}

TEST_CASE("glyphs that are not those of the text are refused") {
  CHECK(refusal([](test::Sheets& s) {
          s.text(1, 54, 200, "longer");
          std::get<page::TextMark>(s.pages.pages[0].marks.back()).text = "short";
        }) == "the glyphs of `short` do not belong to its letters");
}

TEST_CASE("links and bookmarks to nowhere are refused") {
  const auto link_to = [](const std::string& target) {
    return refusal([&](test::Sheets& s) {
      s.link(s.written("Link", 1, 54, 200, "here"), test::box(54, 190, 20, 12), target, "Goes there");
    });
  };
  CHECK(link_to("https://example.com/") == "written");
  CHECK(link_to("tel:+15550100") == "written");
  CHECK(link_to("missing") == "a link or bookmark leads to `missing`, which is not there");
  CHECK(link_to("http://example.com/") == "a link or bookmark leads to `http://example.com/`, which is not there");
  CHECK(link_to("javascript:alert(1)") == "a link or bookmark leads to `javascript:alert(1)`, which is not there");
  CHECK(refusal([](test::Sheets& s) {
          s.pages.bookmarks.push_back({"Far", 1, "far"});
        }) == "a link or bookmark leads to `far`, which is not there");
  CHECK(refusal([](test::Sheets& s) {
          s.pages.destinations["far"] = {7, 0};
        }) == "`far` leads to a page that is not there");
}

TEST_CASE("a link needs a description and a place in the tree") {
  CHECK(refusal([](test::Sheets& s) { s.link(1, test::box(54, 190, 20, 12), "https://example.com/", ""); }) ==
        "page 1 has a link to `https://example.com/` that does not say where it leads");
  CHECK(refusal([](test::Sheets& s) { s.link(page::artifact, test::box(54, 190, 20, 12), "tel:1", "Calls"); }) ==
        "a link has no place in the tree of meaning");
}

TEST_CASE("a figure without words is refused") {
  CHECK(refusal([](test::Sheets& s) { s.written("Figure", 0, 54, 300, "F1"); }) ==
        "a figure has no words for who cannot see it");
}

TEST_CASE("a photo that is not there is refused") {
  CHECK(refusal([](test::Sheets& s) {
          s.add(page::ImageMark{test::box(54, 200, 20, 20), "tubes", 1});
        }) == "photo `tubes` is not there");
}

TEST_CASE("a tree out of order is refused") {
  CHECK(refusal([](test::Sheets& s) { s.node(s.add_node("P", 0)).parent = 9; }) == "node 2 comes before its parent");
  CHECK(refusal([](test::Sheets& s) { s.text(40, 54, 200, "lost"); }) ==
        "a mark belongs to node 40, which is not there");
}

TEST_CASE("impossible lines are refused") {
  const auto with_dash = [](std::vector<page::Milli> dash) {
    return refusal([&](test::Sheets& s) {
      auto path = test::rectangle_path(test::box(54, 200, 20, 20));
      path.stroke = page::Color{};
      path.dash = std::move(dash);
      s.add(path);
    });
  };
  CHECK(with_dash({0, 0}) == "page 1 has a line with impossible dashes");
  CHECK(with_dash({-1, 5}) == "page 1 has a line with impossible dashes");
  CHECK(with_dash({0, 2000}) == "written");
}

TEST_CASE("pages without a title, a language or a sheet are refused") {
  CHECK(refusal([](test::Sheets& s) { s.pages.title.clear(); }) == "the pages have no title or no language");
  CHECK(refusal([](test::Sheets& s) { s.pages.language.clear(); }) == "the pages have no title or no language");
  CHECK(refusal([](test::Sheets& s) { s.pages.pages.clear(); }) == "there are no pages");
  CHECK(refusal([](test::Sheets& s) { s.pages.created = "today"; }) == "`today` is no date of the form YYYY-MM-DD");
}

TEST_CASE("a file inside the PDF has a plain name, and the first flavour carries none") {
  pdf::Options options;
  options.attachment = pdf::Attachment{"../case.json", "{}", "Data", "application/json"};
  CHECK(refusal(options) == "`../case.json` is no plain name for a file inside the PDF");
  options.attachment->name = "case.json";
  CHECK(refusal(options) == "written");
  options.flavour = pdf::Flavour::pdfa_1a;
  CHECK(refusal(options) == "PDF/A-1 carries no file");
}
