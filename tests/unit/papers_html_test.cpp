// The page of HTML says the same strings, with the same roles and table heads, in the same order as the Document; an
// XML reader that knows nothing of ours reads it.
#include <pugixml.hpp>

#include "html/html.h"
#include "support/papers.h"
#include "svg/svg.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

std::string bare(std::string_view text) {
  std::string out;
  for (const char c : text)
    if (static_cast<unsigned char>(c) > ' ') out += c;
  return out;
}

/// The page with its drawings, as the program writes it.
std::string page_of(const document::Document& d) {
  html::Options options{"soundsill 0", file_text("templates/page.css"), {}};
  for (const document::Section& s : d.sections)
    for (const document::Block& b : s.blocks)
      if (const auto* drawing = std::get_if<document::Drawing>(&b.kind)) {
        document::Drawing plain = *drawing;
        plain.caption.clear();
        Faults faults;
        const auto sheet = page::on_one_sheet({plain}, d, look_of(packet_look), all_faces(), faults, document::ids(d));
        CHECK(faults.all().empty());
        CHECK(page::off_sheet(sheet).empty());
        options.drawings[drawing->id] = svg::write(sheet, {"", drawing->id + "-", false});
      }
  html::PhotoTroubles troubles;
  return html::write(d, options, troubles);
}

/// What stands in <main>, in order: text, and the roles of what holds it.
struct Read {
  std::string said;
  std::vector<std::string> roles, heads;
  std::set<std::string> ids;
  std::vector<std::string> links;
  std::vector<std::string> doubled;
  int images_without_words = 0;

  void element(const pugi::xml_node& node) {
    const std::string_view name = node.name();
    if (const auto id = node.attribute("id"); id && !ids.insert(id.value()).second) doubled.emplace_back(id.value());
    if (const auto href = node.attribute("href")) links.emplace_back(href.value());
    if (name == "title" || name == "desc" || node.attribute("aria-hidden")) return;
    if (name == "img" && std::string_view(node.attribute("alt").value()).empty()) ++images_without_words;
    const bool block = name == "p" || name == "table" || name == "dl" || name == "ul" || name == "ol" ||
                       name == "figure" || name == "article" || (name.size() == 2 && name[0] == 'h' && name[1] <= '6');
    if (block) roles.emplace_back(name);
    if (name == "th" && std::string_view(node.attribute("scope").value()) == "col") heads.push_back(text_of(node));
    for (const pugi::xml_node& child : node.children())
      if (child.type() == pugi::node_element)
        element(child);
      else
        said += bare(child.value());
  }
  static std::string text_of(const pugi::xml_node& node) {
    std::string all;
    for (const pugi::xml_node& child : node.children())
      all += child.type() == pugi::node_element ? text_of(child) : std::string(child.value());
    return all;
  }
};

/// The same list of roles, from the Document.
struct Expected {
  std::vector<std::string> roles, heads;
  int level = 0;

  int next(int wanted) { return level = std::clamp(wanted, 1, std::min(level + 1, 6)); }
  void put(std::string role, int times = 1) {
    for (int i = 0; i < times; ++i) roles.push_back(role);
  }
  void blocks(const std::vector<document::Block>& all) {
    for (const document::Block& b : all) std::visit(*this, b.kind);
  }
  void operator()(const document::Heading& h) { put("h" + std::to_string(next(h.level))); }
  void operator()(const document::Paragraph&) { put("p"); }
  void operator()(const document::List& l) { put(l.marker == document::List::Marker::number ? "ol" : "ul"); }
  void operator()(const document::Table& t) {
    put("table");
    for (const document::Column& c : t.columns)
      if (!c.title.empty()) heads.push_back(c.title);
  }
  void operator()(const document::Facts&) { put("dl"); }
  void operator()(const document::Photos& p) { put("figure", static_cast<int>(p.photos.size())); }
  void operator()(const document::Drawing&) { put("figure"); }
  void operator()(const document::Signatures& s) { put("p", 6 * static_cast<int>(s.lines.size())); }
  void operator()(const document::Card& c) {
    put("article");
    put("p");
    const int before = level;
    (*this)(c.heading);
    blocks(c.blocks);
    level = before;
  }
  void operator()(const document::Figures& f) { put("p", static_cast<int>(f.figures.size())); }
  void operator()(const document::Bars&) { put("ul"); }
};

Read read(const std::string& page) {
  pugi::xml_document xml;
  const auto result = xml.load_string(page.c_str(), pugi::parse_default | pugi::parse_ws_pcdata);
  INFO(result.description() << " at " << page.substr(static_cast<std::size_t>(result.offset), 80));
  REQUIRE(result);
  Read all;
  const pugi::xml_node body = xml.child("html").child("body");
  REQUIRE(body);
  all.element(body.child("main"));
  return all;
}

}  // namespace

TEST_CASE("html says the same strings, roles and table heads in the same order as the document") {
  for (const std::string& name : example_names()) {
    INFO(name);
    const ExamplePaper paper(name);
    const Read page = read(page_of(paper.document));
    std::size_t at = 0;
    for (const document::Section& s : paper.document.sections)
      for (const document::Block& b : s.blocks) {
        document::Document one;
        one.sections.push_back({s.name, "", {b}});
        const bool free = std::holds_alternative<document::Drawing>(b.kind);  // a plan has no order of its own
        std::size_t end = at;
        for (const std::string& wanted : document::strings(one)) {
          INFO(wanted);
          const std::size_t next = page.said.find(bare(wanted), free ? at : end);
          CHECK(next != std::string::npos);
          if (next != std::string::npos) end = std::max(end, next + bare(wanted).size());
        }
        at = end;
      }
    Expected expected;
    for (const document::Section& s : paper.document.sections) expected.blocks(s.blocks);
    CHECK(page.roles == expected.roles);
    CHECK(page.heads == expected.heads);
    CHECK(page.doubled.empty());
    CHECK(page.images_without_words == 0);
    for (const std::string& link : page.links) {
      INFO(link);
      CHECK((link.starts_with("#") ? page.ids.contains(link.substr(1)) : link.starts_with("https://")));
    }
  }
}

TEST_CASE("html is the same bytes each time, runs nothing and fetches nothing") {
  const ExamplePaper paper("heron-lane");
  const std::string page = page_of(paper.document);
  CHECK(page == page_of(paper.document));
  for (const char* word :
       {"<script", "javascript:", "onload", "onclick", "http://", "@import", "url(", "<link", "<iframe"}) {
    INFO(word);
    // An SVG names its kind by an address that nobody fetches, and its clips by their own id.
    std::string text = page;
    for (const char* known : {"http://www.w3.org/2000/svg", "url(#"})
      for (std::size_t at = 0; (at = text.find(known, at)) != std::string::npos;)
        text.erase(at, std::string(known).size());
    CHECK(text.find(word) == std::string::npos);
  }
  CHECK(page.find("Content-Security-Policy") != std::string::npos);
  CHECK(page.find("Exif") == std::string::npos);
}

TEST_CASE("whatever a person types stays text in html and svg") {
  const std::string bad = "</title></style><script>alert(1)</script>&amp; \"'<b> \x01\xFF ]]> {page}";
  document::Document d;
  d.language = "en-US";
  d.title = d.author = d.subject = bad;
  d.running = {{"address", bad}, {"case", bad}, {"company", bad}, {"contents", bad}};
  document::Scene scene;
  scene.shapes.push_back(
      {document::Shape::Kind::line, {{}, {Length::feet(20), {}}, {Length::feet(20), Length::feet(10)}}, {}, "wall"});
  scene.labels.push_back({{}, {}, bad, "name"});
  scene.markers.push_back({{Length::feet(9), Length::feet(5)}, "1", "finding", "card-x", bad});
  d.sections.push_back({bad,
                        "s",
                        {document::Heading{2, "a b\"<", document::text(bad), true},
                         document::Paragraph{bad, {{bad, document::Run::Look::strong, "javascript:alert(1)"}}},
                         document::Card{"card-x", bad, bad, bad, {3, "hx", document::text(bad), true}, {}},
                         document::Photos{{{"none", bad, document::text(bad)}}},
                         document::Drawing{"plan", scene, bad, document::text(bad)}}});
  Faults faults;
  html::Options options{bad, "a { color: red } </style><script>", {}};
  const auto sheet =
      page::on_one_sheet({d.sections[0].blocks[4]}, d, look_of(packet_look), all_faces(), faults, document::ids(d));
  options.drawings["plan"] = svg::write(sheet, {"", "plan-", false});
  html::PhotoTroubles troubles;
  const std::string page = html::write(d, options, troubles);
  CHECK(troubles.empty());
  pugi::xml_document xml;
  REQUIRE(xml.load_string(page.c_str()));
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("javascript:alert") == std::string::npos);
  CHECK(page.find('\x01') == std::string::npos);
  const std::string alone = svg::write(sheet, {bad, "", true});
  REQUIRE(xml.load_string(alone.c_str()));
  CHECK(alone.find("<script") == std::string::npos);
}

TEST_CASE("a drawing in svg keeps its text, its links and its words for those who do not see it") {
  const ExamplePaper paper("heron-lane");
  const std::string page = page_of(paper.document);
  pugi::xml_document xml;
  REQUIRE(xml.load_string(page.c_str()));
  const pugi::xml_node svg = xml.select_node("//figure[@class='drawing']/svg").node();
  REQUIRE(svg);
  CHECK(std::string(svg.child("title").child_value()).find("Plan of the house") == 0);
  CHECK(xml.select_nodes("//figure[@class='drawing']/svg//text").size() > 40);
  for (const char* card : {"#card-1", "#card-2", "#card-3", "#card-4", "#card-5", "#card-6"})
    CHECK(xml.select_node(("//svg//a[@href='" + std::string(card) + "']").c_str()));
}

TEST_CASE("a photo that cannot be shown is told, and its words stand in its place") {
  document::Document d;
  d.photos["broken"] = "no picture";
  d.sections.push_back({"photos", "s", {document::Photos{{{"broken", "Mud tubes on the sill", {}}}}}});
  html::PhotoTroubles troubles;
  const std::string page = html::write(d, {}, troubles);
  CHECK(troubles.size() == 1);
  CHECK(troubles.contains("broken"));
  CHECK(page.find("Mud tubes on the sill") != std::string::npos);
}
