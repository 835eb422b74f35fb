// Documents, faces and templates for the tests of layout/, setting/ and drawing/.
#pragma once

#include <array>
#include <fstream>
#include <functional>
#include <iterator>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "layout/layout.h"
#include "support/pages_check.h"
#include "template/template.h"

namespace page_sample {

using namespace soundsill;
using namespace soundsill::document;

inline std::string slurp(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline const std::string& packet_xml() {
  static const std::string text = slurp(std::string(SOUNDSILL_ROOT) + "/templates/packet.xml");
  return text;
}

inline std::string replaced(std::string text, const std::string& what, const std::string& with) {
  const std::size_t at = text.find(what);
  if (at == std::string::npos) throw std::runtime_error("not in the template: " + what);
  return text.replace(at, what.size(), with);
}

inline page::Template template_of(const std::string& xml) {
  const Source source("packet.xml", xml);
  Faults faults;
  auto read = page::read_template(source, faults);
  for (const Diagnostic& d : faults.all()) throw std::runtime_error(render(d));
  return *read;
}

inline const page::Template& packet() {
  static const page::Template made = template_of(packet_xml());
  return made;
}

/// The same parts in another look: A4, two columns, the sections the other way round, one of them not named.
inline const page::Template& other_look() {
  static const page::Template made = [] {
    std::string xml = replaced(packet_xml(), "size=\"letter\"", "size=\"a4\"");
    const std::size_t from = xml.find("<sections"), to = xml.find("</sections>");
    xml.replace(from, to - from,
                "<sections gap=\"20pt\"><section name=\"signatures\"/><section name=\"terms\" columns=\"2\"/>"
                "<section name=\"cards\" columns=\"2\"/><section name=\"drawing\" new-page=\"yes\"/>"
                "<section name=\"summary\" columns=\"2\"/>");
    return template_of(xml);
  }();
  return made;
}

inline const font::Faces& faces() {
  static std::map<std::string, std::string> bytes;
  static font::Faces made;
  static const bool ready = [] {
    for (const auto& [key, file] : packet().faces) {
      const std::string folder = file.rfind("Lato", 0) == 0 ? "lato/" : "dejavu/";
      bytes[key] = slurp("/usr/share/fonts/truetype/" + folder + file + ".ttf");
      made.add(key, bytes[key]);
    }
    made.set_fallback(packet().fallback);
    return true;
  }();
  (void)ready;
  return made;
}

inline page::Pages laid(const Document& document, const page::Template& look = packet()) {
  Faults faults;
  page::Pages pages = page::lay_out(document, look, faces(), faults);
  for (const Diagnostic& d : faults.all()) throw std::runtime_error(render(d));
  for (const auto& [key, trouble] : page::develop(pages, document, look))
    throw std::runtime_error(key + ": " + trouble);
  return pages;
}

/// What is wrong with the pages, in words; empty when all invariants hold.
inline std::string wrong(const Document& document, const page::Pages& pages) {
  std::string all;
  for (const auto& s : page::lost_strings(document, pages)) all += "lost: " + s + "\n";
  for (const auto& s : page::off_sheet(pages)) all += "off the sheet: " + s + "\n";
  for (const auto& s : page::overlapping_texts(pages)) all += "overlap: " + s + "\n";
  for (const auto& s : page::broken_tree(pages)) all += "tree: " + s + "\n";
  return all;
}

inline Document document_of(std::vector<Block> blocks, const std::string& section = "summary") {
  Document d;
  d.kind = "packet";
  d.language = "en-US";
  d.title = "A paper";
  d.running = {{"address", "12 Test Street"},
               {"case", "Case 7"},
               {"company", "The company"},
               {"page", "Page {page} of {pages}"}};
  d.sections.push_back({section, section, std::move(blocks)});
  return d;
}

inline std::string many_words(int count, int seed = 1) {
  static const std::array<const char*, 12> stock{"termite", "sill",  "the", "of",     "wall",      "foundation",
                                                 "a",       "joist", "mud", "trench", "perimeter", "an"};
  std::string words;
  for (int i = 0; i < count; ++i) {
    seed = (seed * 1103 + 12345) % 65536;
    words += (i ? " " : "") + std::string(stock[static_cast<std::size_t>(seed) % stock.size()]);
  }
  return words;
}

/// All texts of one page in order, for looking things up.
inline std::vector<page::TextMark> texts(const page::Page& page) {
  std::vector<page::TextMark> all;
  for (const auto& mark : page.marks)
    if (const auto* text = std::get_if<page::TextMark>(&mark)) all.push_back(*text);
  return all;
}

inline bool says(const page::Page& page, const std::string& words) {
  std::string all;
  for (const auto& text : texts(page)) all += text.text + "\n";
  return all.find(words) != std::string::npos;
}

inline Length feet(std::int64_t n) { return Length::feet(n); }
inline Point at(std::int64_t x, std::int64_t y) { return {feet(x), feet(y)}; }

/// A grey PNG of one tone, packed without compression.
inline std::string png(std::uint32_t width, std::uint32_t height) {
  const auto word = [](std::uint32_t n) {
    std::string s;
    for (int shift = 24; shift >= 0; shift -= 8) s += static_cast<char>(n >> shift & 0xFFU);
    return s;
  };
  const auto crc = [](const std::string& s) {
    std::uint32_t c = 0xFFFFFFFFU;
    for (const char ch : s) {
      c ^= static_cast<unsigned char>(ch);
      for (int k = 0; k < 8; ++k) c = (c & 1U) != 0 ? 0xEDB88320U ^ (c >> 1U) : c >> 1U;
    }
    return ~c;
  };
  const auto chunk = [&](const std::string& name, const std::string& data) {
    return word(static_cast<std::uint32_t>(data.size())) + name + data + word(crc(name + data));
  };
  std::string raw;
  for (std::uint32_t y = 0; y < height; ++y) raw += '\0' + std::string(width, '\x80');
  std::uint32_t a = 1, b = 0;
  for (const char ch : raw) {
    a = (a + static_cast<unsigned char>(ch)) % 65521;
    b = (b + a) % 65521;
  }
  std::string packed = "\x78\x01";
  for (std::size_t i = 0; i < raw.size(); i += 65535) {
    const auto n = static_cast<std::uint32_t>(std::min<std::size_t>(65535, raw.size() - i));
    packed += i + n >= raw.size() ? '\1' : '\0';
    for (const std::uint32_t v : {n & 0xFFU, n >> 8U, ~n & 0xFFU, ~n >> 8U & 0xFFU}) packed += static_cast<char>(v);
    packed += raw.substr(i, n);
  }
  packed += word(b << 16U | a);
  std::string head = word(width) + word(height);
  head += {'\x08', '\0', '\0', '\0', '\0'};
  return "\x89PNG\r\n\x1a\n" + chunk("IHDR", head) + chunk("IDAT", packed) + chunk("IEND", "");
}

/// An L-shaped house with piers, labels and markers that crowd each other.
inline Scene house() {
  using K = Shape::Kind;
  Scene s;
  s.shapes.push_back(
      {K::line, {at(0, 0), at(40, 0), at(40, 18), at(26, 18), at(26, 30), at(0, 30), at(0, 0)}, {}, "wall"});
  s.shapes.push_back({K::area, {at(26, 18), at(38, 18), at(38, 26), at(26, 26)}, {}, "slab"});
  s.shapes.push_back({K::area, {at(1, 20), at(10, 20), at(10, 29), at(1, 29)}, {}, "not-seen"});
  s.shapes.push_back({K::line, {at(-1, 0), at(-1, 31), at(27, 31)}, {}, "treated-soil"});
  s.shapes.push_back({K::circle, {at(47, 8)}, feet(5), "danger-zone"});
  for (int i = 0; i < 6; ++i) {
    s.shapes.push_back({K::circle, {at(6 + 5 * i, 9)}, feet(1), i % 2 != 0 ? "pier-drilled" : "pier"});
    s.labels.push_back({at(6 + 5 * i, 9), {}, "pier " + std::to_string(i + 1), "label"});
  }
  s.labels.push_back({at(20, 0), at(0, -1), "wall 1 · 40'", "dimension"});
  s.labels.push_back({at(40, 9), at(1, 0), "wall 2 · 18'", "dimension"});
  s.labels.push_back({at(0, 15), at(-1, 0), "wall 6 · 30'", "dimension"});
  s.labels.push_back({at(32, 22), {}, "patio, slab", "name"});
  s.labels.push_back({at(5, 25), {}, "low crawl, under 12 in", "name"});
  for (int i = 1; i <= 6; ++i)
    s.markers.push_back({at(12 + i / 3, 9), std::to_string(i), i % 3 == 0 ? "run" : "finding",
                         "row-" + std::to_string(i), "no. " + std::to_string(i)});
  s.legend = {{LegendEntry::Sample::line, "wall", "Foundation wall", ""},
              {LegendEntry::Sample::area, "not-seen", "Not seen", "N"},
              {LegendEntry::Sample::line, "treated-soil", "Soil treated", "T"},
              {LegendEntry::Sample::circle, "pier", "Pier", ""},
              {LegendEntry::Sample::marker, "finding", "Finding", "1"}};
  s.north = "N";
  s.scale_words = "Scale";
  s.feet_words = "ft";
  return s;
}

inline Table rows_table(int count) {
  Table t;
  t.columns = {{"No.", Column::Align::left, 1, true},
               {"Seen, and where", Column::Align::left, 3, false},
               {"Price", Column::Align::right, 1, true}};
  t.row_heads = true;
  t.caption = "Rows";
  for (int i = 1; i <= count; ++i)
    t.rows.push_back({"row-" + std::to_string(i),
                      {text(std::to_string(i)), text("Row " + std::to_string(i) + " " + many_words(i % 17, i)),
                       text("$" + std::to_string(i) + ".00")}});
  return t;
}

}  // namespace page_sample
