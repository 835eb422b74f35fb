// Two pages laid out by hand, with every kind of mark. The words are invented.
#pragma once

#include <csetjmp>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>
// jpeglib.h needs the ones above.
#include <jpeglib.h>

#include "pages/pages.h"
#include "unit/font_files.h"

namespace soundsill::test {

/// A small photo: soft stripes.
inline std::string small_jpeg(int width, int height, bool grey) {
  jpeg_compress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  jpeg_create_compress(&info);
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &bytes, &size);
  info.image_width = static_cast<JDIMENSION>(width);
  info.image_height = static_cast<JDIMENSION>(height);
  info.input_components = grey ? 1 : 3;
  info.in_color_space = grey ? JCS_GRAYSCALE : JCS_RGB;
  jpeg_set_defaults(&info);
  jpeg_start_compress(&info, TRUE);
  std::vector<unsigned char> row(static_cast<std::size_t>(width * info.input_components));
  while (info.next_scanline < info.image_height) {
    for (std::size_t i = 0; i < row.size(); ++i)
      row[i] = static_cast<unsigned char>((i / 4 + info.next_scanline) % 200 + 40);
    unsigned char* start = row.data();
    jpeg_write_scanlines(&info, &start, 1);
  }
  jpeg_finish_compress(&info);
  jpeg_destroy_compress(&info);
  std::string result(reinterpret_cast<const char*>(bytes), size);
  std::free(bytes);
  return result;
}

inline const font::Faces& sample_faces() {
  static const font::Faces* faces = [] {
    static font::Faces made;
    made.add("regular", lato());
    made.add("bold", lato_bold());
    made.add("sans", dejavu());
    made.set_fallback("sans");
    return &made;
  }();
  return *faces;
}

/// Puts marks on pages.
class Sheets {
 public:
  page::Pages pages;

  Sheets() {
    pages.title = "Inspection of 12 Łódź Lane – draft & notes";
    pages.author = "Ruth Penn";
    pages.subject = "Wood-destroying organisms <seen> on the day";
    pages.language = "en-US";
    pages.created = "2025-01-31";
    add_node("Document", page::artifact);
  }

  page::NodeId add_node(const std::string& role, page::NodeId parent) {
    pages.nodes.push_back({});
    pages.nodes.back().role = role;
    pages.nodes.back().parent = parent;
    return static_cast<page::NodeId>(pages.nodes.size() - 1);
  }
  page::Node& node(page::NodeId id) { return pages.nodes[static_cast<std::size_t>(id)]; }

  void add_page() { pages.pages.push_back({page::points(612), page::points(792), {}}); }
  void add(page::Mark mark) { pages.pages.back().marks.push_back(std::move(mark)); }

  void text(page::NodeId node, int x, int y, const std::string& words, const std::string& face = "regular",
            int size = 10) {
    page::TextMark mark;
    mark.at = {page::points(x), page::points(y)};
    mark.face = sample_faces().find(face);
    mark.size = page::points(size);
    mark.glyphs = mark.face->shape(words);
    mark.text = words;
    mark.width = static_cast<page::Milli>(mark.face->width(words) * mark.size / mark.face->units_per_em());
    mark.node = node;
    add(mark);
  }

  page::NodeId written(const std::string& role, page::NodeId parent, int x, int y, const std::string& words,
                       const std::string& face = "regular", int size = 10) {
    const page::NodeId id = add_node(role, parent);
    text(id, x, y, words, face, size);
    return id;
  }

  void link(page::NodeId node, page::Box box, const std::string& target, const std::string& description) {
    add(page::LinkMark{box, target, description, node});
  }
};

inline page::Box box(int x, int y, int width, int height) {
  return {page::points(x), page::points(y), page::points(width), page::points(height)};
}

inline page::PathMark rectangle_path(page::Box b) {
  using Kind = page::PathMark::Piece::Kind;
  page::PathMark path;
  path.pieces = {{Kind::move, {page::At{b.x, b.y}}},
                 {Kind::line, {page::At{b.right(), b.y}}},
                 {Kind::line, {page::At{b.right(), b.bottom()}}},
                 {Kind::line, {page::At{b.x, b.bottom()}}},
                 {Kind::close, {}}};
  return path;
}

namespace sample {

inline void running_marks(Sheets& s, const std::string& number) {
  s.text(page::artifact_header, 54, 40, "12 Łódź Lane", "regular", 8);
  s.text(page::artifact_footer, 54, 760, "Page " + number + " of 2", "regular", 8);
  auto rule = rectangle_path(box(54, 46, 504, 1));
  rule.fill = page::Color{180, 190, 200};
  s.add(rule);
}

inline void first_words(Sheets& s, page::NodeId section) {
  s.written("H1", section, 54, 80, "What was seen at the back office", "bold", 18);
  const auto paragraph = s.add_node("P", section);
  s.text(paragraph, 54, 104, "Łódź ½ € ’ – all letters must come back. Subterranean termites were ");
  s.text(paragraph, 54, 118, "found in the sill (see ");
  const auto link = s.add_node("Link", paragraph);
  s.text(link, 160, 118, "the figure");
  s.link(link, box(158, 108, 52, 14), "figure", "Goes to the figure");
  s.text(paragraph, 214, 118, " for AV Towers). ");
  const auto outside = s.written("P", section, 54, 136, "Ask ");
  const auto address = s.written("Link", outside, 76, 136, "the office");
  s.link(address, box(74, 126, 50, 14), "https://example.com/a(b)?c=d", "Opens the page of the office");
  const auto fallback = s.written("P", section, 54, 154, "Ticked: ");
  s.text(fallback, 100, 154, "☐ office \U0001D54A ", "sans");
  const auto list = s.add_node("L", section);
  s.node(list).numbering = "Decimal";
  for (int i = 1; i <= 2; ++i) {
    const auto item = s.add_node("LI", list);
    s.written("Lbl", item, 60, 160 + 14 * i, std::to_string(i) + ". ");
    s.written("LBody", item, 76, 160 + 14 * i, i == 1 ? "Earth against wood. " : "A leaking tap. ");
  }
}

inline void row(Sheets& s, page::NodeId body, int y, const std::string& id, const std::string& place,
                const std::string& amount) {
  const auto line = s.add_node("TR", body);
  const auto head = s.written("TH", line, 60, y, id);
  s.node(head).scope = "Row";
  s.written("TD", line, 140, y, place);
  if (amount.empty())
    s.add_node("TD", line);
  else
    s.written("TD", line, 400, y, amount);
}

inline page::NodeId table(Sheets& s, page::NodeId section) {
  const auto table = s.add_node("Table", section);
  const auto head = s.add_node("TR", s.add_node("THead", table));
  for (const auto& [x, words] : std::vector<std::pair<int, std::string>>{{60, "No."}, {140, "Where and how much"}}) {
    const auto cell = s.written("TH", head, x, 230, words, "bold");
    s.node(cell).scope = "Column";
    if (x == 140) s.node(cell).column_span = 2;
  }
  const auto body = s.add_node("TBody", table);
  row(s, body, 246, "F1", "sill by the side door", "$1,250.00");
  row(s, body, 262, "F2", "attic, not seen", "");
  return body;
}

inline void figure(Sheets& s, page::NodeId section) {
  using Kind = page::PathMark::Piece::Kind;
  const auto figure = s.add_node("Figure", section);
  s.node(figure).alt = "Plan of the house: F1 stands at the side door (über den Türen)";
  s.node(figure).box = box(54, 300, 300, 200);
  s.node(figure).box_page = 0;
  auto house = rectangle_path(box(54, 300, 300, 200));
  house.stroke = page::Color{20, 40, 80};
  house.line_width = 1500;
  house.round = true;
  house.node = figure;
  s.add(house);
  auto unseen = rectangle_path(box(80, 320, 100, 90));
  unseen.fill = page::Color{240, 230, 200};
  unseen.stroke = page::Color{120, 60, 20};
  unseen.line_width = 750;
  unseen.dash = {2500, 1250};
  unseen.clip = box(80, 320, 60, 200);
  unseen.node = figure;
  s.add(unseen);
  page::PathMark bow;
  bow.pieces = {{Kind::move, {page::At{200'000, 480'000}}},
                {Kind::curve, {page::At{220'000, 400'125}, page::At{300'000, 400'000}, page::At{330'000, 480'000}}}};
  bow.stroke = page::Color{200, 30, 30};
  bow.node = figure;
  s.add(bow);
  s.text(figure, 210, 330, "F1", "bold", 12);
  s.pages.destinations["figure"] = {0, page::points(296)};
}

inline void photo(Sheets& s, page::NodeId section) {
  const auto figure = s.add_node("Figure", section);
  s.node(figure).alt = "Mud tubes on the sill";
  s.node(figure).box = box(54, 300, 144, 108);
  s.node(figure).box_page = 1;
  s.pages.photos["tubes"] = {440, 330, false, small_jpeg(440, 330, false)};
  s.pages.photos["grey"] = {220, 165, true, small_jpeg(220, 165, true)};
  s.add(page::ImageMark{box(54, 300, 144, 108), "tubes", figure});
  s.add(page::ImageMark{box(220, 300, 72, 54), "grey", figure});
  s.written("Caption", figure, 54, 422, "Mud tubes on the sill, 4 \u03A9 and 4 \u2126. ", "sans");
}

}  // namespace sample

/// The two pages. A paragraph and a table run over the break; a list, links, a drawing and photos are there.
inline page::Pages sample_pages() {
  Sheets s;
  const auto section = s.add_node("Sect", 0);
  s.add_page();
  sample::running_marks(s, "1");
  sample::first_words(s, section);
  const auto body = sample::table(s, section);
  const auto drawn = s.add_node("Sect", 0);
  s.written("H2", drawn, 54, 292, "The drawing", "bold", 12);
  sample::figure(s, drawn);
  const auto split = s.written("P", drawn, 54, 700, "This paragraph runs over ");
  s.add_page();
  sample::running_marks(s, "2");
  s.text(split, 54, 80, "the break of the page. ");
  sample::row(s, body, 120, "F3", "behind the freezer", "$80.00");
  s.add_node("P", section);  // nothing was written here
  const auto more = s.add_node("Sect", 0);
  const auto foreign = s.written("H2", more, 54, 280, "Fotos aus dem Keller", "bold", 12);
  s.node(foreign).lang = "de";
  s.pages.destinations["photos"] = {1, page::points(266)};
  sample::photo(s, more);
  s.pages.bookmarks = {{"What was seen", 1, "figure"}, {"The plan – Łódź", 2, "figure"}, {"Photos", 1, "photos"}};
  return s.pages;
}

}  // namespace soundsill::test
