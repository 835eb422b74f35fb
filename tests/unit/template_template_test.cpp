#include <catch2/catch.hpp>
#include <cmath>

#include "template/template_xml.h"
#include "unit/layout_sample.h"

using namespace page_sample;

namespace {

struct Found {
  std::string where, what, fix;
};

// Reads a changed template and says the first fault: "line:column length".
Found first_fault(const std::string& xml) {
  const Source source("packet.xml", xml);
  Faults faults;
  CHECK_FALSE(page::read_template(source, faults).has_value());
  REQUIRE_FALSE(faults.all().empty());
  faults.sort();
  const Diagnostic& d = faults.all().front();
  CHECK(info(d.rule).code == "bad-template");
  CHECK_FALSE(d.fix.empty());
  return {std::string(source.text().substr(d.at.begin, d.at.end - d.at.begin)), d.what, d.fix};
}

Found changed(const std::string& what, const std::string& with) {
  return first_fault(replaced(packet_xml(), what, with));
}

// Relative luminance and contrast ratio as Web Content Accessibility Guidelines 2.2 define them (W3C Recommendation,
// https://www.w3.org/TR/WCAG22/#dfn-relative-luminance and #dfn-contrast-ratio); success criteria 1.4.3: 4.5 for text,
// 3 for text of 18 pt or 14 pt bold and more, 1.4.11: 3 for marks that carry meaning.
double luminance(const page::Color& c) {
  const auto part = [](double v) {
    v /= 255;
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(c.r) + 0.7152 * part(c.g) + 0.0722 * part(c.b);
}

double contrast(const page::Color& a, const page::Color& b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

constexpr page::Color white{255, 255, 255};

}  // namespace

TEST_CASE("the template that we ship is sound") {
  CHECK(packet().kind == "packet");
  CHECK(packet().sheet.width == 612'000);
  CHECK(packet().sheet.left == 54'000);
  CHECK(packet().sections.size() >= 7);
}

TEST_CASE("a fault of a template is told at its place") {
  Found f = changed("<text-style name=\"h2\"", "<text-stile name=\"h2\"");
  CHECK(f.where == "text-styles");  // h2 is now missing, which is said where the list begins
  f = changed("keep-with-next=\"yes\"", "keep-with-nxt=\"yes\"");
  CHECK(f.where == "keep-with-nxt");
  CHECK(f.fix == "write keep-with-next");
  f = changed("size=\"23pt\"", "size=\"23px\"");
  CHECK(f.where == "23px");
  f = changed("size=\"23pt\"", "size=\"1e2pt\"");
  CHECK(f.where == "1e2pt");
  f = changed("size=\"23pt\"", "size=\"\"");
  CHECK(f.what == "\"\" is no length on paper");
  f = changed("size=\"23pt\"", "size=\"23pt\" size=\"24pt\"");
  CHECK(f.where == "size");
  CHECK(f.what == "size stands twice in one element");
  f = changed("color=\"deep\" link=\"deep\"", "color=\"dep\" link=\"deep\"");
  CHECK(f.where == "dep");
  CHECK(f.fix == "write deep");
  f = changed("cell=\"table-cell\"", "cell=\"table-cells\"");
  CHECK(f.where == "table-cells");
  CHECK(f.fix == "write table-cell");
  f = changed("value=\"#1C2530\"", "value=\"#1C253\"");
  CHECK(f.where == "#1C253");
  f = changed("size=\"letter\"", "size=\"lettre\"");
  CHECK(f.where == "lettre");
  CHECK(f.fix == "write letter");
  f = changed("hatch=\"falling\"", "hatch=\"fallng\"");
  CHECK(f.fix == "write falling");
  f = changed("<draft style=\"draft\"/>", "");
  CHECK(f.where == "template");
  CHECK(f.what == "<template> lacks <draft>");
  f = changed("<draft style=\"draft\"/>", "<draft style=\"draft\"/><draft style=\"draft\"/>");
  CHECK(f.what == "<draft> stands twice");
  f = changed("<draft style=\"draft\"/>", "<draft style=\"draft\"/><extra/>");
  CHECK(f.where == "extra");
  f = changed("<draft style=\"draft\"/>", "<draft style=\"draft\">Draft</draft>");
  CHECK(f.what == "<draft> holds text");
  f = changed("<section name=\"areas\"/>", "<section name=\"areas\" columns=\"4\"/>");
  CHECK(f.where == "4");
  f = changed("<section name=\"areas\"/>", "<section name=\"areas\" columns=\"2\" across=\"tables drawing\"/>");
  CHECK(f.where == "tables drawing");
  CHECK(f.fix == "write drawings");
  f = changed("<section name=\"signatures\"/>", "<section name=\"areas\"/>");
  CHECK(f.what == "the section \"areas\" is given twice");
  f = changed("scales=\"2 4 6", "scales=\"2 6 4");
  CHECK(f.what == "\"4\" is no number that follows");
  f = changed("left=\"0.75in\"", "left=\"7in\"");
  CHECK(f.what == "the margins leave less than 2 in");
  f = changed("size=\"23pt\" leading=\"28pt\"", "size=\"23pt\" leading=\"20pt\"");
  CHECK(f.where == "20pt");
}

TEST_CASE("places are exact behind letters of several bytes and entities") {
  const std::string xml = "<!-- é ½ -->\n" + replaced(packet_xml(), "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n", "");
  CHECK(first_fault(replaced(xml, "name=\"rust\"", "name=\"r&amp;&#x75;st\" nme=\"x\"")).where == "nme");
  CHECK(first_fault(replaced(xml, "size=\"23pt\"", "size=\"&amp;pt\"")).where == "&amp;pt");
}

TEST_CASE("a template that is no XML is refused") {
  CHECK(first_fault("").where.empty());
  CHECK(first_fault("<template").what.find("no well-formed XML") != std::string::npos);
  CHECK(first_fault("<template kind=\"x\"></templat>").what.find("no well-formed XML") != std::string::npos);
  CHECK(first_fault("<sheet/>").what == "the outermost element is no <template>");
  const std::string twice = packet_xml() + "<template kind=\"x\"/>";
  CHECK(first_fault(twice).what == "a second outermost element \"template\"");
}

TEST_CASE("cut anywhere, a template is refused without a crash") {
  const std::string& xml = packet_xml();
  for (std::size_t n = 0; n < xml.size() - 12; n += 37) {
    const Source source("packet.xml", xml.substr(0, n));
    Faults faults;
    CHECK_FALSE(page::read_template(source, faults).has_value());
    CHECK(faults.errors() > 0);
  }
}

namespace {

// Reads the first of several templates; the others are there to be based on.
struct Based {
  Sources sources;
  Faults faults;
  std::optional<page::Template> read;

  explicit Based(const std::map<std::string, std::string>& files, const std::string& first = "child") {
    std::map<std::string, const Source*, std::less<>> known;
    for (const auto& [name, xml] : files) known[name] = &sources.add(name + ".xml", xml);
    read = page::read_template(*known.at(first), faults, [&](std::string_view name, const Source&) {
      const auto found = known.find(name);
      return found == known.end() ? page::FoundTemplate{nullptr, {"packet", "paper"}, false}
                                  : page::FoundTemplate{found->second, {}, false};
    });
    faults.sort();
  }
  // "file:line:column what; fix" of each fault
  [[nodiscard]] std::vector<std::string> told() const {
    std::vector<std::string> all;
    for (const Diagnostic& d : faults.all()) {
      const auto at = d.at.source->position(d.at.begin);
      all.push_back(d.at.source->name() + ":" + std::to_string(at.line) + ":" + std::to_string(at.column) + " " +
                    d.what + "; " + d.fix);
    }
    return all;
  }
};

using Told = std::vector<std::string>;

}  // namespace

TEST_CASE("a template that is based on another gives only what differs") {
  const Based based({{"packet", packet_xml()},
                     {"child",
                      "<template kind=\"child\" based-on=\"packet\"><sheet top=\"1in\"/>"
                      "<palette><color name=\"deep\" value=\"#102030\"/></palette>"
                      "<text-styles><text-style name=\"h2\" size=\"14pt\"/>"
                      "<text-style name=\"new\" face=\"bold\" size=\"9pt\" color=\"deep\"/></text-styles>"
                      "<photos><step dpi=\"150\" quality=\"58\"/></photos>"
                      "<drawing><shape name=\"wall\" width=\"3pt\"/></drawing>"
                      "<sections><section name=\"end\"/><section name=\"summary\"/></sections></template>"}});
  CHECK(based.told() == Told{});
  REQUIRE(based.read);
  const page::Template &t = *based.read, &base = packet();
  CHECK(t.kind == "child");
  CHECK(t.sheet.top == 72'000);
  CHECK(t.sheet.left == base.sheet.left);
  CHECK(t.texts.size() == base.texts.size() + 1);
  CHECK(t.texts.at("h2").size == 14'000);
  CHECK(t.texts.at("h2").leading == base.texts.at("h2").leading);
  CHECK(t.texts.at("h2").color == page::Color{0x10, 0x20, 0x30});  // a color changed is changed wherever it is named
  CHECK(t.photos.steps.size() == 1);
  CHECK(t.photos.caption == base.photos.caption);
  CHECK(t.drawing.shapes.at("wall").width == 3'000);
  CHECK(t.drawing.shapes.at("wall").color == base.drawing.shapes.at("wall").color);
  CHECK(t.drawing.shapes.size() == base.drawing.shapes.size());
  CHECK(t.section_gap == base.section_gap);
  REQUIRE(t.sections.size() == 2);
  CHECK(t.sections[0].name == "end");
  CHECK(t.sections[1].new_page == false);
}

TEST_CASE("a fault of a template that is based on others is told in the file where it stands") {
  const auto child = [](const std::string& inside, const std::string& base = packet_xml()) {
    return Based({{"packet", base}, {"child", "<template kind=\"a\" based-on=\"packet\">\n" + inside + "</template>"}});
  };
  CHECK(child("<card padx=\"1pt\"/>").told() == Told{"child.xml:2:7 <card> has no padx; write pad-x"});
  CHECK(child("<crad/>").told() == Told{"child.xml:2:2 <template> holds no <crad>; write card"});
  CHECK(child("<lists color=\"deeep\"/>").told() == Told{"child.xml:2:15 no color is named \"deeep\"; write deep"});
  CHECK(child("<draft/><draft/>").told() == Told{"child.xml:2:10 <draft> stands twice; keep one of them"});
  CHECK(child("<tones><tone name=\"past\"/><tone name=\"past\"/></tones>").told() ==
        Told{"child.xml:2:39 \"past\" is given twice; keep one of them"});
  // Values that do not go together: at the one that was changed.
  CHECK(child("<text-styles><text-style name=\"h2\" size=\"20pt\"/></text-styles>").told() ==
        Told{"child.xml:2:42 the leading is smaller than the type; write at least the size"});
  // What only the base has wrong is told there, and the child's name stands beside what it is based on.
  const Based bad = child("", replaced(packet_xml(), "color=\"deep\" track", "color=\"deeep\" track"));
  REQUIRE(bad.told().size() == 1);
  CHECK(bad.told().front().starts_with("packet.xml:"));
  const Based noted = child("<lists color=\"deeep\"/>");
  REQUIRE(noted.faults.all().front().see.size() == 1);
  CHECK(noted.faults.all().front().see.front().words == "it is based on packet.xml");
  // A kind is never inherited: a paper would pass for another.
  CHECK(Based({{"packet", packet_xml()}, {"child", "<template based-on=\"packet\"/>"}}).told() ==
        Told{"child.xml:1:2 <template> lacks kind; add kind=\"...\""});
}

TEST_CASE("a template is based on one that there is, and not on itself") {
  const auto on = [](const std::string& base) { return "<template kind=\"a\" based-on=\"" + base + "\"/>"; };
  CHECK(Based({{"child", on("pakcet")}}).told() ==
        Told{"child.xml:1:30 no template is named \"pakcet\"; write packet"});
  CHECK(Based({{"child", on("")}}).told() ==
        Told{"child.xml:1:30 no template is named \"\"; write one of: packet paper"});
  CHECK(Based({{"child", on("child")}}).told() ==
        Told{"child.xml:1:30 the templates are based on one another in a circle: child.xml -> child.xml; "
             "take based-on out of one of them"});
  CHECK(Based({{"child", on("b")}, {"b", on("c")}, {"c", on("b")}}).told() ==
        Told{"child.xml:1:30 the templates are based on one another in a circle: child.xml -> b.xml -> c.xml -> b.xml; "
             "take based-on out of one of them"});
  CHECK(Based({{"child", on("b")}, {"b", "<template"}}).told().size() == 1);
}

TEST_CASE("the formula of contrast gives what others publish") {
  // Black on white is 21 by definition; #767676 is the lightest grey that passes on white, #777777 fails (WebAIM).
  CHECK(contrast(page::Color{}, white) == Approx(21));
  CHECK(contrast(page::Color{0x76, 0x76, 0x76}, white) == Approx(4.54).epsilon(0.002));
  CHECK(contrast(page::Color{0x77, 0x77, 0x77}, white) == Approx(4.48).epsilon(0.002));
}

TEST_CASE("text of both templates has a contrast of 4.5, marks of 3") {
  const bool other = GENERATE(false, true);
  const page::Template t =
      other ? template_of(slurp(std::string(SOUNDSILL_ROOT) + "/tests/data/a4-two-columns/packet.xml")) : packet();
  INFO((other ? "the other template" : "the packet"));
  std::vector<page::Color> grounds{white};
  for (const char* name : {"ghost", "mist", "sand", "concrete"}) grounds.push_back(t.palette.at(name));
  for (const auto& [name, style] : t.texts) {
    if (name == t.draft) continue;
    for (const page::Color& ground : grounds)
      for (const page::Color& color : {style.color, style.quiet, style.link}) {
        INFO(name);
        CHECK(contrast(color, ground) >= 4.5);
      }
    CHECK(style.size >= 8'000);
  }
  for (const auto& [name, tone] : t.tones) {
    CHECK(contrast(tone.text, white) >= 4.5);
    CHECK(contrast(tone.color, white) >= 3);
  }
  for (const auto& [name, shape] : t.drawing.shapes) {
    INFO(name);
    if (shape.color) CHECK(contrast(*shape.color, white) >= 3);
    if (shape.hatch != page::ShapeStyle::Hatch::none) CHECK(contrast(shape.hatch_color, white) >= 3);
  }
  for (const auto& [name, marker] : t.drawing.markers) CHECK(contrast(marker.text, marker.fill.value_or(white)) >= 4.5);
}

TEST_CASE("words on the page of HTML have a contrast of 4.5 on their ground") {
  const std::string css = slurp(std::string(SOUNDSILL_ROOT) + "/templates/page.css");
  std::map<std::string, page::Color> named;
  const std::size_t root = css.find(":root {"), end = css.find('}', root);
  for (std::size_t at = root; (at = css.find("--", at)) < end; ++at) {
    const std::size_t colon = css.find(':', at);
    const auto color = page::read_color(css.substr(css.find('#', colon), 7));
    REQUIRE(color);
    named[css.substr(at, colon - at)] = *color;
  }
  REQUIRE(named.size() == 6);
  int seen = 0;
  for (std::size_t at = 0; (at = css.find("color: ", at)) != std::string::npos; at += 7) {
    const char before = css[at - 1];
    if (before == '-') continue;  // of a border
    std::string value = css.substr(at + 7, css.find(';', at) - at - 7);
    if (value == "inherit") continue;
    INFO(value);
    const page::Color color =
        value.starts_with("var(") ? named.at(value.substr(4, value.find(')') - 4)) : page::read_color(value).value();
    const page::Color ground = color == white ? named.at("--ink") : white;  // the word across a draft stands on ink
    CHECK(contrast(color, ground) >= 4.5);
    ++seen;
  }
  CHECK(seen > 10);
}

TEST_CASE("no two tones share a pattern") {
  std::map<page::Tone::Pattern, std::string> seen;
  for (const auto& [name, tone] : packet().tones) CHECK(seen.emplace(tone.pattern, name).second);
}
