#include "template/template.h"

#include <algorithm>
#include <memory>

#include "template/template_xml.h"

namespace soundsill::page {
namespace {

using Pattern = Tone::Pattern;
using Hatch = ShapeStyle::Hatch;
using Outline = MarkerStyle::Outline;

struct Sheet {
  Milli width, height;
};
constexpr std::pair<std::string_view, Sheet> sheets[] = {
    {"letter", {612'000, 792'000}}, {"legal", {612'000, 1'008'000}}, {"a4", {595'276, 841'890}}};
constexpr std::pair<std::string_view, Align> aligns[] = {
    {"left", Align::left}, {"right", Align::right}, {"center", Align::center}};
constexpr std::pair<std::string_view, Pattern> patterns[] = {{"solid", Pattern::solid},
                                                             {"dashed", Pattern::dashed},
                                                             {"dotted", Pattern::dotted},
                                                             {"twin", Pattern::twin},
                                                             {"hollow", Pattern::hollow}};
constexpr std::pair<std::string_view, Hatch> hatches[] = {{"none", Hatch::none},       {"rising", Hatch::rising},
                                                          {"falling", Hatch::falling}, {"cross", Hatch::cross},
                                                          {"level", Hatch::level},     {"dots", Hatch::dots}};
constexpr std::pair<std::string_view, Outline> outlines[] = {
    {"circle", Outline::circle}, {"square", Outline::square}, {"diamond", Outline::diamond}};

constexpr std::pair<std::string_view, Across> across_kinds[] = {
    {"headings", Across::headings}, {"tables", Across::tables}, {"drawings", Across::drawings},
    {"cards", Across::cards},       {"photos", Across::photos}, {"figures", Across::figures}};

constexpr Milli smallest_type = points(4), largest_type = points(400);

class TemplateReader {
 public:
  Template read(const Layers& root);

 private:
  void sheet(const Layers&);
  void palette(const Layers&);
  void faces(const Layers&);
  void texts(const Layers&);
  TextStyle text_style(Element&);
  void tables(const Layers&);
  void tones(const Layers&);
  void card(const Layers&);
  void facts(const Layers&);
  void figures(const Layers&);
  void bars(const Layers&);
  void photos(const Layers&);
  void file(const Layers&);
  void signatures(const Layers&);
  void lists(const Layers&);
  void drawing(const Layers&);
  void shape(const Layers&);
  void marker(const Layers&);
  void running(const Layers&, RunningStyle&);
  void draft(const Layers&);
  void sections(const Layers&);

  // Names of things defined elsewhere in the template.
  [[nodiscard]] std::optional<Color> color(Element& e, const char* attribute, bool required);
  [[nodiscard]] Color sure_color(Element& e, const char* attribute) {
    return color(e, attribute, true).value_or(Color{});
  }
  [[nodiscard]] std::string style(Element& e, const char* attribute) {
    return e.name_in(attribute, t_.texts, "text style");
  }
  Template t_;
};

std::optional<Color> TemplateReader::color(Element& e, const char* attribute, bool required) {
  const std::string name = e.name_in(attribute, t_.palette, "color", required);
  const auto found = t_.palette.find(name);
  if (found == t_.palette.end()) return {};
  return found->second;
}

Template TemplateReader::read(const Layers& layers) {
  Element root(layers);

  t_.kind = root.own_word("kind");
  (void)root.word("based-on", "");  // followed before: the layers came of it
  sheet(root.one("sheet"));
  palette(root.one("palette"));
  faces(root.one("faces"));
  texts(root.one("text-styles"));
  tables(root.one("table-styles"));
  tones(root.one("tones"));
  card(root.one("card"));
  facts(root.one("facts"));
  figures(root.one("figures"));
  bars(root.one("bars"));
  photos(root.one("photos"));
  file(root.one("file"));
  signatures(root.one("signatures"));
  lists(root.one("lists"));
  drawing(root.one("drawing"));
  running(root.one("head"), t_.head);
  running(root.one("foot"), t_.foot);
  draft(root.one("draft"));
  sections(root.one("sections"));
  return std::move(t_);
}

void TemplateReader::sheet(const Layers& node) {
  Element e(node);
  const auto size = e.choice<Sheet>("size", sheets, sheets[0].second);
  SheetStyle& s = t_.sheet;
  s.width = e.length("width", size.width);
  s.height = e.length("height", size.height);
  s.top = e.length("top");
  s.bottom = e.length("bottom");
  s.left = e.length("left");
  s.right = e.length("right");
  s.column_gap = e.length("column-gap", points(18));
  if (s.left + s.right + points(144) > s.width || s.top + s.bottom + points(144) > s.height) {
    e.value_fault({"left", "right", "top", "bottom", "width", "height", "size"}, "the margins leave less than 2 in",
                  "make the margins smaller");
    s.left = s.right = s.top = s.bottom = points(36);
  }
}

void TemplateReader::palette(const Layers& node) {
  Element list(node);
  for (const Layers& child : list.named("color")) {
    Element e(child);
    const std::string name = e.word("name"), value = e.word("value");
    const auto color = read_color(value);
    if (!color && !value.empty()) e.value_fault("value", "\"" + value + "\" is no color", "write it as #1F2933");
    t_.palette.emplace(name, color.value_or(Color{}));
  }
}

void TemplateReader::faces(const Layers& node) {
  Element list(node);
  for (const Layers& child : list.named("face")) {
    Element e(child);
    const std::string name = e.word("name");
    t_.faces.emplace(name, e.word("file"));
    t_.face_places.emplace(name, e.value_place("file"));
  }
  t_.fallback = list.name_in("fallback", t_.faces, "face");
}

TextStyle TemplateReader::text_style(Element& e) {
  TextStyle s;
  s.face = e.name_in("face", t_.faces, "face");
  s.strong = e.name_in("strong", t_.faces, "face", false);
  if (s.strong.empty()) s.strong = s.face;
  s.size = e.length("size");
  if (e.has("size") && (s.size < smallest_type || s.size > largest_type))
    e.value_fault("size", "type of this size cannot be printed", "write a size from 4pt to 400pt");
  s.leading = e.length("leading", static_cast<Milli>(std::int64_t{s.size} * 135 / 100));
  if (s.leading < s.size)
    e.value_fault({"leading", "size"}, "the leading is smaller than the type", "write at least the size");
  s.color = sure_color(e, "color");
  s.quiet = color(e, "quiet", false).value_or(s.color);
  s.link = color(e, "link", false).value_or(s.color);
  s.link_rule = e.length("link-rule", 0);
  s.before = e.length("before", 0);
  s.after = e.length("after", 0);
  s.keep = e.yes_no("keep-with-next", false);
  s.align = e.choice<Align>("align", aligns, Align::left);
  s.fill = color(e, "fill", false);
  s.bar = color(e, "bar", false);
  s.frame = e.length("frame", 0);
  s.frame_color = color(e, "frame-color", false).value_or(s.color);
  s.inset = e.length("inset", 0);
  s.measure = e.length("measure", 0);
  s.hyphenate = e.yes_no("hyphenate", false);
  return s;
}

void TemplateReader::texts(const Layers& node) {
  Element list(node);
  for (const Layers& child : list.named("text-style")) {
    Element e(child);
    const std::string name = e.word("name");
    t_.texts.emplace(name, text_style(e));
  }
  for (const std::string_view name : required_text_styles())
    if (node && !t_.texts.contains(name))
      node.fault("the text style \"" + std::string(name) + "\" is missing",
                 "add <text-style name=\"" + std::string(name) + "\" .../>");
}

void TemplateReader::tables(const Layers& node) {
  Element list(node);
  for (const Layers& child : list.named("table-style")) {
    Element e(child);
    const std::string name = e.word("name");
    TableStyle s;
    s.head = style(e, "head");
    s.cell = style(e, "cell");
    s.row_head = style(e, "row-head");
    s.group = style(e, "group");
    s.total = style(e, "total");
    s.pad_x = e.length("pad-x");
    s.pad_y = e.length("pad-y");
    s.head_rule = e.length("head-rule", 0);
    s.row_rule = e.length("row-rule", 0);
    s.total_rule = e.length("total-rule", 0);
    s.head_rule_color = color(e, "head-rule-color", s.head_rule > 0).value_or(Color{});
    s.row_rule_color = color(e, "row-rule-color", s.row_rule > 0).value_or(Color{});
    s.total_rule_color = color(e, "total-rule-color", s.total_rule > 0).value_or(Color{});
    s.zebra = color(e, "zebra", false);
    s.head_fill = color(e, "head-fill", false);
    s.before = e.length("before", 0);
    s.after = e.length("after", 0);
    t_.tables.emplace(name, s);
  }
  if (node && !t_.tables.contains("plain"))
    node.fault("the table style \"plain\" is missing", "add <table-style name=\"plain\" .../>");
}

void TemplateReader::tones(const Layers& node) {
  Element list(node);
  for (const Layers& child : list.named("tone")) {
    Element e(child);
    const std::string name = e.word("name");
    Tone tone;
    tone.pattern = e.choice<Pattern>("pattern", patterns, Pattern::solid);
    tone.color = sure_color(e, "color");
    tone.text = color(e, "text", false).value_or(tone.color);
    t_.tones.emplace(name, tone);
  }
  if (node && !t_.tones.contains("neutral"))
    node.fault("the tone \"neutral\" is missing", "add <tone name=\"neutral\" .../>");
}

void TemplateReader::card(const Layers& node) {
  Element e(node);
  CardStyle& s = t_.card;
  s.number = style(e, "number");
  s.tag = style(e, "tag");
  s.heading = style(e, "heading");
  s.bar = e.length("bar");
  s.number_width = e.length("number-width");
  s.pad_x = e.length("pad-x");
  s.pad_y = e.length("pad-y");
  s.border = e.length("border", 0);
  s.border_color = color(e, "border-color", s.border > 0);
  s.fill = color(e, "fill", false);
  s.before = e.length("before", 0);
  s.after = e.length("after", 0);
}

void TemplateReader::facts(const Layers& node) {
  Element e(node);
  FactsStyle& s = t_.facts;
  s.name = style(e, "name");
  s.value = style(e, "value");
  s.column_gap = e.length("column-gap");
  s.row_gap = e.length("row-gap");
  s.least_width = e.length("least-width", 0);
  s.rule = e.length("rule", 0);
  s.rule_color = color(e, "rule-color", s.rule > 0).value_or(Color{});
  s.before = e.length("before", 0);
  s.after = e.length("after", 0);
}

void TemplateReader::figures(const Layers& node) {
  Element e(node);
  FiguresStyle& s = t_.figures;
  s.large = style(e, "large");
  s.small = style(e, "small");
  s.gap = e.length("gap");
  s.bar = e.length("bar", 0);
  s.bar_color = color(e, "bar-color", s.bar > 0).value_or(Color{});
  s.before = e.length("before", 0);
  s.after = e.length("after", 0);
}

void TemplateReader::bars(const Layers& node) {
  Element e(node);
  BarsStyle& s = t_.bars;
  s.label = style(e, "label");
  s.value = style(e, "value");
  s.label_width = e.length("label-width");
  s.value_width = e.length("value-width");
  s.height = e.length("height");
  s.row_gap = e.length("row-gap", 0);
  s.color = color(e, "color", true).value_or(Color{});
  s.track = color(e, "track", true).value_or(Color{});
  s.before = e.length("before", 0);
  s.after = e.length("after", 0);
}

void TemplateReader::photos(const Layers& node) {
  Element e(node);
  PhotosStyle& s = t_.photos;
  s.caption = style(e, "caption");
  s.gap = e.length("gap");
  s.max_height = e.length("max-height");
  s.min_height = e.length("min-height", s.max_height);
  s.border = e.length("border", 0);
  s.border_color = color(e, "border-color", s.border > 0).value_or(Color{});
  s.before = e.length("before", 0);
  s.after = e.length("after", 0);
  s.sign = e.length("sign");
  s.sign_head = e.length("sign-head");
  s.casing = e.length("casing");
  s.sign_color = sure_color(e, "sign-color");
  s.casing_color = sure_color(e, "casing-color");
  s.least_dpi = e.number("least-dpi", 36, 1200);
  for (const Layers& child : e.all("step")) {
    Element step(child);
    s.steps.push_back({step.number("dpi", std::max(s.least_dpi, 36), 1200), step.number("quality", 20, 100)});
  }
  if (s.steps.empty()) node.fault("<photos> has no <step>", "say how photos are stored: <step dpi=.. quality=..>");
}

void TemplateReader::file(const Layers& node) {
  constexpr int kilobyte = 1000, least = 10, largest = 100'000;
  Element e(node);
  const int aim = e.number("aim-kb", least, largest), warn = e.number("warn-kb", least, largest),
            most = e.number("most-kb", least, largest);
  if (aim > warn || warn > most)
    e.value_fault({"most-kb", "warn-kb", "aim-kb"}, "a file that is refused weighs less than one that is not",
                  "let aim-kb, warn-kb and most-kb rise");
  const auto bytes = [](int kilobytes) { return static_cast<std::size_t>(kilobytes) * kilobyte; };
  t_.file = {bytes(aim), bytes(warn), bytes(most)};
}

void TemplateReader::signatures(const Layers& node) {
  Element e(node);
  SignatureStyle& s = t_.signatures;
  s.statement = style(e, "statement");
  s.filled = style(e, "filled");
  s.label = style(e, "label");
  s.room = e.length("room");
  s.rule = e.length("rule");
  s.rule_color = sure_color(e, "rule-color");
  s.gap = e.length("gap");
  s.before = e.length("before", 0);
  s.after = e.length("after", 0);
}

void TemplateReader::lists(const Layers& node) {
  Element e(node);
  t_.lists.indent = e.length("indent");
  t_.lists.marker = e.length("marker");
  t_.lists.gap = e.length("gap", 0);
  t_.lists.color = sure_color(e, "color");
}

void TemplateReader::drawing(const Layers& node) {
  Element e(node);
  DrawingStyle& s = t_.drawing;
  s.scales = e.numbers("scales");
  s.max_height = e.length("max-height");
  s.lesser_height = e.length("lesser-height", s.max_height);
  s.detail_beyond = e.length("detail-beyond", 0);
  s.label = style(e, "label");
  s.dimension = style(e, "dimension");
  s.name = style(e, "name");
  s.legend = style(e, "legend");
  s.letter = style(e, "letter");
  s.number = style(e, "number");
  s.scale = style(e, "scale");
  s.leader = sure_color(e, "leader");
  s.leader_width = e.length("leader-width");
  s.ground = sure_color(e, "ground");
  s.legend_width = e.length("legend-width");
  s.before = e.length("before", 0);
  s.after = e.length("after", 0);
  for (const Layers& child : e.named("shape")) shape(child);
  for (const Layers& child : e.named("marker")) marker(child);
}

void TemplateReader::shape(const Layers& node) {
  Element e(node);
  ShapeStyle s;
  const std::string name = e.word("name");
  s.width = e.length("width", 0);
  s.color = color(e, "color", s.width > 0);
  s.dash = e.lengths("dash");
  s.fill = color(e, "fill", false);
  s.hatch = e.choice<Hatch>("hatch", hatches, Hatch::none);
  s.hatch_color = color(e, "hatch-color", s.hatch != Hatch::none).value_or(Color{});
  s.hatch_gap = e.length("hatch-gap", points(5));
  s.hatch_width = e.length("hatch-width", 500);
  if (s.hatch_gap < points(1)) e.value_fault("hatch-gap", "the lines of the hatch touch", "write 1pt or more");
  s.layer = e.number("layer", 0, 0, 99);
  t_.drawing.shapes.emplace(name, s);
}

void TemplateReader::marker(const Layers& node) {
  Element e(node);
  MarkerStyle s;
  const std::string name = e.word("name");
  s.outline = e.choice<Outline>("outline", outlines, Outline::circle);
  s.size = e.length("size");
  s.fill = color(e, "fill", false);
  s.stroke = sure_color(e, "stroke");
  s.text = sure_color(e, "text");
  s.width = e.length("width");
  t_.drawing.markers.emplace(name, s);
}

void TemplateReader::running(const Layers& node, RunningStyle& s) {
  Element e(node);
  s.left = e.word("left", "");
  s.center = e.word("center", "");
  s.right = e.word("right", "");
  s.style = style(e, "style");
  s.baseline = e.length("baseline");
  s.rule = e.length("rule", 0);
  s.rule_color = color(e, "rule-color", s.rule > 0).value_or(Color{});
  s.rule_gap = e.length("rule-gap", points(6));
}

void TemplateReader::draft(const Layers& node) {
  Element e(node);
  t_.draft = style(e, "style");
}

void TemplateReader::sections(const Layers& node) {
  Element list(node);
  t_.section_gap = list.length("gap", 0);
  for (const Layers& child : list.all("section")) {
    Element e(child);
    SectionStyle s;
    s.name = e.word("name");
    s.new_page = e.yes_no("new-page", false);
    s.together = e.yes_no("together", false);
    s.columns = e.number("columns", 1, 1, 3);
    s.across = e.choices<Across>("across", across_kinds);
    const auto same = [&](const SectionStyle& other) { return other.name == s.name; };
    if (std::any_of(t_.sections.begin(), t_.sections.end(), same))
      e.value_fault("name", "the section \"" + s.name + "\" is given twice", "keep one of them");
    t_.sections.push_back(s);
  }
}

}  // namespace

const std::vector<std::string_view>& required_text_styles() {
  static const std::vector<std::string_view> names{"body", "small", "h1", "h2", "h3"};
  return names;
}

namespace {

/// The files that make one template: itself, what it is based on, and so on.
class Chain {
 public:
  Chain(Faults& faults, const FindTemplate& find) : faults_(faults), find_(find) {}

  /// Adds a file and all that it is based on. False after a fault.
  bool add(const Source& source);
  [[nodiscard]] Layers root() const {
    Layers layers;
    for (const auto& text : texts_) layers.push_back({text.get(), text->root()});
    return layers;
  }
  [[nodiscard]] bool sound() const {
    return std::all_of(texts_.begin(), texts_.end(), [](const auto& text) { return text->sound(); });
  }

 private:
  /// Whether a file of the chain is met again; says so where the first file names what it is based on.
  bool comes_back(const Source& base);
  [[nodiscard]] Span named_at(const XmlText& text) const { return text.value_span(text.root().attribute(based)); }

  static constexpr const char* based = "based-on";
  Faults& faults_;
  const FindTemplate& find_;
  std::vector<std::unique_ptr<XmlText>> texts_;
};

bool Chain::comes_back(const Source& base) {
  const auto same = [&](const auto& text) { return text->source().name() == base.name(); };
  if (std::none_of(texts_.begin(), texts_.end(), same)) return false;
  std::string way;
  for (const auto& text : texts_) way += text->source().name() + " -> ";
  XmlText& first = *texts_.front();
  first.fault(named_at(first), "the templates are based on one another in a circle: " + way + base.name(),
              "take based-on out of one of them");
  return true;
}

bool Chain::add(const Source& source) {
  texts_.push_back(std::make_unique<XmlText>(source, faults_));
  XmlText& text = *texts_.back();
  if (!text.sound()) return false;
  if (std::string_view(text.root().name()) != "template") {
    text.fault(text.name_span(text.root()), "the outermost element is no <template>", "begin with <template>");
    return false;
  }
  const pugi::xml_attribute base = text.root().attribute(based);
  if (!base) return true;
  const FoundTemplate found = find_ ? find_(base.value(), source) : FoundTemplate{};
  if (found.source) {
    text.based_on(named_at(text), *found.source);
    return !comes_back(*found.source) && add(*found.source);
  }
  if (!found.told) {
    const std::vector<std::string_view> known(found.known.begin(), found.known.end());
    text.fault(named_at(text), "no template is named \"" + std::string(base.value()) + "\"",
               meant(base.value(), known));
  }
  return false;
}

}  // namespace

std::optional<Template> read_template(const Source& source, Faults& faults, const FindTemplate& find) {
  Chain chain(faults, find);
  if (!chain.add(source)) return {};
  Template read = TemplateReader().read(chain.root());
  if (!chain.sound()) return {};
  return read;
}

}  // namespace soundsill::page
