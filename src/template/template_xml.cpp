#include "template/template_xml.h"

#include <algorithm>
#include <charconv>
#include <map>

#include "diagnostics/names.h"

namespace soundsill::page {
namespace {

constexpr const char* consequence = "the paper cannot be laid out";

std::string quoted(std::string_view word) { return "\"" + std::string(word) + "\""; }

std::vector<std::string_view> views(const std::set<std::string, std::less<>>& names) {
  return {names.begin(), names.end()};
}

std::vector<std::string_view> split(std::string_view text) {
  std::vector<std::string_view> parts;
  while (!text.empty()) {
    const std::size_t space = std::min(text.find(' '), text.size());
    if (space > 0) parts.push_back(text.substr(0, space));
    text.remove_prefix(std::min(space + 1, text.size()));
  }
  return parts;
}

std::optional<int> whole_number(std::string_view text) {
  int n = 0;
  const auto [end, trouble] = std::from_chars(text.data(), text.data() + text.size(), n);
  if (trouble != std::errc{} || end != text.data() + text.size() || text.empty() || text.front() == '-') return {};
  return n;
}

}  // namespace

std::string meant(std::string_view word, std::span<const std::string_view> known) {
  const std::string near = nearest(word, known);
  if (!near.empty()) return "write " + near;
  if (known.empty()) return "take it out";
  std::string all = "write one of:";
  for (const std::string_view k : known) all += " " + std::string(k);
  return all;
}

XmlText::XmlText(const Source& source, Faults& faults) : source_(source), faults_(faults), buffer_(source.text()) {
  parse();
}

Span XmlText::span_of(std::size_t begin, std::size_t length) const {
  const std::size_t size = source_.text().size();
  begin = std::min(begin, size);
  const std::size_t end = std::min(begin + length, size);
  return {&source_, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)};
}

void XmlText::fault(Span at, std::string what, std::string fix) {
  sound_ = false;
  Diagnostic d{Rule::bad_template, at, std::move(what), consequence, std::move(fix), {}};
  if (base_) d.see.push_back(*base_);
  faults_.add(std::move(d));
}

void XmlText::parse() {
  const auto result =
      document_.load_buffer_inplace(buffer_.data(), buffer_.size(), pugi::parse_default, pugi::encoding_utf8);
  if (!result) {
    const auto offset = static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, result.offset));
    std::string words = result.description();
    if (!words.empty() && words.front() >= 'A' && words.front() <= 'Z')
      words.front() = static_cast<char>(words.front() + 'a' - 'A');
    fault(span_of(offset, 1), "the template is no well-formed XML: " + words, "close what is open here");
    return;
  }
  find_root();
}

void XmlText::find_root() {
  for (const pugi::xml_node node : document_.children()) {
    if (node.type() != pugi::node_element) continue;
    if (root_) {
      fault(name_span(node), "a second outermost element " + quoted(node.name()), "keep one <template>");
      return;
    }
    root_ = node;
  }
  if (!root_) fault(span_of(0, 1), "the template is empty", "begin with <template>");
}

Span XmlText::name_span(pugi::xml_node node) const {
  const std::ptrdiff_t offset = node.offset_debug();
  return span_of(offset < 0 ? 0 : static_cast<std::size_t>(offset), std::string_view(node.name()).size());
}

Span XmlText::name_span(pugi::xml_attribute attribute) const {
  const std::ptrdiff_t offset = attribute.name() - buffer_.data();
  return span_of(static_cast<std::size_t>(offset), std::string_view(attribute.name()).size());
}

Span XmlText::value_span(pugi::xml_attribute attribute) const {
  const std::ptrdiff_t offset = attribute.value() - buffer_.data();
  if (offset <= 0 || offset > static_cast<std::ptrdiff_t>(buffer_.size())) return name_span(attribute);
  // The closing quote is looked for in the source, for the value in our copy may have become shorter.
  const auto begin = static_cast<std::size_t>(offset);
  const char quote = source_.text()[begin - 1];
  const std::size_t end = std::min(source_.text().find(quote, begin), source_.text().size());
  return span_of(begin, std::max<std::size_t>(1, end - begin));
}

void Layers::fault(std::string what, std::string fix) const {
  if (!empty()) front().text->fault(place(), std::move(what), std::move(fix));
}

namespace {

std::string tag(std::string_view name) { return "<" + std::string(name) + ">"; }
std::string tag(const pugi::xml_node node) { return tag(node.name()); }

Layers children(const Layer& layer, std::string_view name) {
  Layers found;
  for (const pugi::xml_node child : layer.node.children())
    if (child.type() == pugi::node_element && name == child.name()) found.push_back({layer.text, child});
  return found;
}

}  // namespace

Layers Element::one(std::string_view name) {
  asked_children_.emplace(name);
  Layers found;
  for (const Layer& layer : layers_) {
    const Layers here = children(layer, name);
    if (here) found.push_back(here.front());
    for (std::size_t i = 1; i < here.size(); ++i)
      here[i].text->fault(here[i].text->name_span(here[i].node), tag(name) + " stands twice", "keep one of them");
  }
  if (!found && layers_)
    layers_.fault(tag(layers_.front().node) + " lacks " + tag(name), "add <" + std::string(name) + " .../>");
  return found;
}

std::vector<Layers> Element::all(std::string_view name) {
  asked_children_.emplace(name);
  std::vector<Layers> found;
  for (const Layer& layer : layers_) {
    for (const Layer& child : children(layer, name)) found.push_back({child});
    if (!found.empty()) break;
  }
  return found;
}

std::vector<Layers> Element::named(std::string_view name) {
  asked_children_.emplace(name);
  std::vector<Layers> found;
  std::map<std::string_view, std::size_t> places;
  for (auto layer = layers_.rbegin(); layer != layers_.rend(); ++layer) {
    NameCheck here({});
    for (const Layer& child : children(*layer, name)) {
      const pugi::xml_attribute attribute = child.node.attribute("name");
      const auto [place, fresh] = places.emplace(attribute.value(), found.size());
      if (attribute && here.meet(attribute.value()) == NameCheck::Verdict::twice)
        child.text->fault(child.text->value_span(attribute), quoted(attribute.value()) + " is given twice",
                          "keep one of them");
      else if (fresh || !attribute)
        found.push_back({child});
      else
        found[place->second].insert(found[place->second].begin(), child);
    }
  }
  return found;
}

const Layer* Element::giving(const char* name) const {
  const auto gives = [&](const Layer& layer) { return static_cast<bool>(layer.node.attribute(name)); };
  const auto found = std::find_if(layers_.begin(), layers_.end(), gives);
  return found == layers_.end() ? nullptr : &*found;
}

std::optional<std::string_view> Element::ask(const char* name, bool required) {
  asked_attributes_.emplace(name);
  if (const Layer* layer = giving(name)) return std::string_view(layer->node.attribute(name).value());
  if (required && layers_)
    layers_.fault(tag(layers_.front().node) + " lacks " + name, "add " + std::string(name) + "=\"...\"");
  return {};
}

Span Element::value_place(const char* name) const {
  const Layer* layer = giving(name);
  return layer ? layer->text->value_span(layer->node.attribute(name)) : layers_.place();
}

void Element::value_fault(const char* name, std::string what, std::string fix) {
  const Layer* layer = giving(name);
  if (!layer && !layers_) return;
  (layer ? *layer : layers_.front()).text->fault(value_place(name), std::move(what), std::move(fix));
}

void Element::value_fault(std::initializer_list<const char*> names, std::string what, std::string fix) {
  for (const Layer& layer : layers_)
    for (const char* name : names)
      if (layer.node.attribute(name)) return value_fault(name, std::move(what), std::move(fix));
  value_fault(*names.begin(), std::move(what), std::move(fix));
}

std::string Element::own_word(const char* name) {
  asked_attributes_.emplace(name);
  if (!layers_) return {};
  if (!layers_.front().node.attribute(name))
    layers_.fault(tag(layers_.front().node) + " lacks " + name, "add " + std::string(name) + "=\"...\"");
  return layers_.front().node.attribute(name).value();
}

std::string Element::word(const char* name) {
  const auto value = ask(name, true);
  if (value && value->empty()) value_fault(name, std::string(name) + " is empty", "write a name");
  return std::string(value.value_or(""));
}

std::string Element::word(const char* name, std::string_view otherwise) {
  return std::string(ask(name, false).value_or(otherwise));
}

Milli Element::length(const char* name) {
  if (!ask(name, true)) return 0;
  return length(name, 0);
}

Milli Element::length(const char* name, Milli otherwise) {
  const auto value = ask(name, false);
  if (!value) return otherwise;
  if (const auto length = read_paper_length(*value)) return *length;
  value_fault(name, quoted(*value) + " is no length on paper", "write a number with pt, in or mm, as in 10.5pt");
  return otherwise;
}

std::vector<Milli> Element::lengths(const char* name) {
  std::vector<Milli> all;
  for (const std::string_view part : split(ask(name, false).value_or(""))) {
    const auto length = read_paper_length(part);
    if (!length || *length <= 0) {
      value_fault(name, quoted(part) + " is no length on paper", "write lengths with a space between, as in 3pt 2pt");
      return {};
    }
    all.push_back(*length);
  }
  return all;
}

std::vector<int> Element::numbers(const char* name) {
  std::vector<int> all;
  for (const std::string_view part : split(ask(name, true).value_or(""))) {
    const auto n = whole_number(part);
    if (!n || *n < 1 || *n > 10000 || (!all.empty() && *n <= all.back())) {
      value_fault(name, quoted(part) + " is no number that follows", "write rising whole numbers, as in 4 6 8");
      return {};
    }
    all.push_back(*n);
  }
  if (all.empty() && has(name)) value_fault(name, std::string(name) + " is empty", "write numbers");
  return all;
}

int Element::number(const char* name, int least, int most) {
  return ask(name, true) ? number(name, least, least, most) : least;
}

int Element::number(const char* name, int otherwise, int least, int most) {
  const auto value = ask(name, false);
  if (!value) return otherwise;
  const auto n = whole_number(*value);
  if (n && *n >= least && *n <= most) return *n;
  value_fault(name, quoted(*value) + " is no whole number that fits here",
              "write a number from " + std::to_string(least) + " to " + std::to_string(most));
  return otherwise;
}

bool Element::yes_no(const char* name, bool otherwise) {
  static constexpr std::pair<std::string_view, bool> both[] = {{"yes", true}, {"no", false}};
  return choice<bool>(name, both, otherwise);
}

std::string Element::known_name(const char* name, std::span<const std::string_view> known, const char* kind,
                                bool required) {
  const auto value = ask(name, required);
  if (!value) return {};
  if (std::find(known.begin(), known.end(), *value) != known.end()) return std::string(*value);
  value_fault(name, "no " + std::string(kind) + " is named " + quoted(*value), meant(*value, known));
  return {};
}

std::vector<std::size_t> Element::known_names(const char* name, std::span<const std::string_view> known) {
  std::vector<std::size_t> all;
  for (const std::string_view word : split(ask(name, false).value_or(""))) {
    const auto found = std::find(known.begin(), known.end(), word);
    if (found == known.end())
      value_fault(name, "no value is named " + quoted(word), meant(word, known));
    else
      all.push_back(static_cast<std::size_t>(found - known.begin()));
  }
  return all;
}

void Element::close() {
  for (const Layer& layer : layers_) {
    check_attributes(layer);
    check_children(layer);
  }
}

void Element::check_attributes(const Layer& layer) {
  NameCheck check(views(asked_attributes_));
  for (const pugi::xml_attribute a : layer.node.attributes()) {
    const std::string_view name = a.name();
    const auto verdict = check.meet(name);
    if (verdict == NameCheck::Verdict::twice)
      layer.text->fault(layer.text->name_span(a), std::string(name) + " stands twice in one element",
                        "keep one of them");
    else if (verdict == NameCheck::Verdict::unknown)
      layer.text->fault(layer.text->name_span(a), tag(layer.node) + " has no " + std::string(name),
                        meant(name, check.known()));
  }
}

void Element::check_children(const Layer& layer) {
  for (const pugi::xml_node child : layer.node.children()) {
    if (child.type() == pugi::node_element && asked_children_.contains(std::string_view(child.name()))) continue;
    if (child.type() == pugi::node_element) {
      layer.text->fault(layer.text->name_span(child), tag(layer.node) + " holds no " + tag(child),
                        meant(child.name(), views(asked_children_)));
      continue;
    }
    const std::string_view words = child.value();
    if (words.find_first_not_of(" \t\r\n") != std::string_view::npos)
      layer.text->fault(layer.text->name_span(layer.node), tag(layer.node) + " holds text",
                        "take it out: words belong to the words file");
  }
}

std::optional<Milli> read_paper_length(std::string_view text) {
  std::int64_t number = 0, tenths = 1;
  std::size_t digits = 0, i = 0;
  bool dot = false;
  for (; i < text.size() && ((text[i] >= '0' && text[i] <= '9') || (text[i] == '.' && !dot)); ++i) {
    if (text[i] == '.') {
      dot = true;
      continue;
    }
    number = number * 10 + (text[i] - '0');
    if (dot) tenths *= 10;
    if (++digits > 8) return {};
  }
  if (digits == 0 || text[i - 1] == '.' || text.front() == '.') return {};
  const std::string_view unit = text.substr(i);
  const auto rounded = [&](std::int64_t up, std::int64_t down) -> std::optional<Milli> {
    const std::int64_t value = (number * up * 2 + tenths * down) / (tenths * down * 2);
    if (value > 10'000'000) return {};
    return static_cast<Milli>(value);
  };
  if (unit == "pt" || (unit.empty() && number == 0)) return rounded(1000, 1);
  if (unit == "in") return rounded(72'000, 1);
  if (unit == "mm") return rounded(720'000, 254);
  return {};
}

std::optional<Color> read_color(std::string_view text) {
  if (text.size() != 7 || text.front() != '#') return {};
  unsigned value = 0;
  const auto [end, trouble] = std::from_chars(text.data() + 1, text.data() + 7, value, 16);
  if (trouble != std::errc{} || end != text.data() + 7) return {};
  return Color{static_cast<std::uint8_t>(value >> 16), static_cast<std::uint8_t>(value >> 8 & 0xFF),
               static_cast<std::uint8_t>(value & 0xFF)};
}

}  // namespace soundsill::page
