#include "svg/svg.h"

#include <array>
#include <cstdint>
#include <map>

#include "pages/shapes.h"
#include "source/markup.h"

namespace soundsill::svg {
namespace {

using page::At;
using page::Box;
using page::Color;
using page::Milli;

// Points with up to three decimals.
std::string number(Milli n) {
  std::string out = n < 0 ? "-" : "";
  const std::int64_t all = n < 0 ? -std::int64_t{n} : std::int64_t{n};
  out += std::to_string(all / 1000);
  std::string part = std::to_string(1000 + all % 1000).substr(1);
  while (!part.empty() && part.back() == '0') part.pop_back();
  return part.empty() ? out : out + "." + part;
}

std::string color(const Color& c) {
  static constexpr char digits[] = "0123456789ABCDEF";
  std::string out = "#";
  for (const unsigned v : {unsigned{c.r}, unsigned{c.g}, unsigned{c.b}}) {
    out += digits[v >> 4U];
    out += digits[v & 15U];
  }
  return out;
}

std::string attribute(std::string_view name, const std::string& value) {
  return " " + std::string(name) + "=\"" + value + "\"";
}

// Templates name their faces; these names tell the weight.
std::string_view weight(std::string_view face) {
  const auto is = [&](std::string_view name) { return face.find(name) != std::string_view::npos; };
  return is("black") ? "900" : is("bold") ? "700" : is("light") ? "300" : "400";
}

class Writer {
 public:
  Writer(const page::Pages& pages, const Options& options) : pages_(pages), options_(options) {}

  std::string write() {
    if (pages_.pages.empty()) return {};
    const page::Page& sheet = pages_.pages.front();
    for (const page::Mark& mark : sheet.marks)
      if (const auto* link = std::get_if<page::LinkMark>(&mark)) links_[link->node] = link;
    std::string body;
    for (const auto& [id, place] : pages_.destinations)
      if (place.page == 0)
        body += "<path" + attribute("id", anchor(id)) + attribute("d", "M0 " + number(place.y) + "v1") +
                " fill=\"none\"/>\n";
    for (const page::Mark& mark : sheet.marks) std::visit([&](const auto& m) { body += drawn(m); }, mark);
    return opening(sheet) + clips() + body + "</svg>\n";
  }

 private:
  [[nodiscard]] std::string opening(const page::Page& sheet) const {
    std::string alt;
    for (const page::Node& node : pages_.nodes)
      if (node.role == "Figure" && !node.alt.empty()) alt += (alt.empty() ? "" : " ") + node.alt;
    const std::string width = number(sheet.width), height = number(sheet.height);
    const std::string title = options_.prefix + "title", desc = options_.prefix + "desc";
    std::string out = options_.standalone ? "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" : "";
    out += "<svg xmlns=\"http://www.w3.org/2000/svg\"" + attribute("viewBox", "0 0 " + width + " " + height) +
           attribute("width", width + "pt") + attribute("height", height + "pt") +
           " role=\"graphics-document document\"" + attribute("aria-labelledby", title) +
           attribute("aria-describedby", desc) + attribute("lang", escaped(pages_.language)) +
           " font-family=\"Lato, Carlito, 'Open Sans', sans-serif\">\n<title" + attribute("id", title) + ">" +
           escaped(options_.standalone ? pages_.title : alt) + "</title>\n<desc" + attribute("id", desc) + ">" +
           escaped(alt) + "</desc>\n";
    if (!options_.producer.empty())
      out += "<metadata>" + escaped(options_.producer) + subject_opening(pages_.subject) + "</metadata>\n";
    return out;
  }

  [[nodiscard]] std::string clips() const {
    if (clips_.empty()) return {};
    std::string out = "<defs>\n";
    for (const auto& [box, id] : clips_)
      out += "<clipPath" + attribute("id", id) + "><rect" + attribute("x", number(box[0])) +
             attribute("y", number(box[1])) + attribute("width", number(box[2])) + attribute("height", number(box[3])) +
             "/></clipPath>\n";
    return out + "</defs>\n";
  }

  std::string clip(const Box& b) {
    const auto [found, fresh] = clips_.try_emplace({b.x, b.y, b.width, b.height}, "");
    if (fresh) found->second = options_.prefix + "clip-" + std::to_string(clips_.size());
    return "url(#" + found->second + ")";
  }

  static std::string pieces(const page::PathMark& path) {
    using Kind = page::PathMark::Piece::Kind;
    std::string d;
    const auto put = [&](const At& p) { d += number(p.x) + " " + number(p.y) + " "; };
    for (const auto& piece : path.pieces) switch (piece.kind) {
        case Kind::move:
          d += "M";
          put(piece.to[0]);
          break;
        case Kind::line:
          d += "L";
          put(piece.to[0]);
          break;
        case Kind::curve:
          d += "C";
          for (const At& p : piece.to) put(p);
          break;
        case Kind::close:
          d += "Z";
          break;
      }
    while (!d.empty() && d.back() == ' ') d.pop_back();
    return d;
  }

  std::string drawn(const page::PathMark& path) {
    if (path.pieces.empty() || (!path.fill && !path.stroke)) return {};
    std::string out =
        "<path" + attribute("d", pieces(path)) + attribute("fill", path.fill ? color(*path.fill) : "none");
    if (path.fill && path.even_odd) out += " fill-rule=\"evenodd\"";
    if (path.stroke) {
      out += attribute("stroke", color(*path.stroke)) + attribute("stroke-width", number(path.line_width));
      std::string dash;
      for (const Milli part : path.dash) dash += (dash.empty() ? "" : " ") + number(part);
      if (!dash.empty()) out += attribute("stroke-dasharray", dash);
      if (path.round) out += " stroke-linecap=\"round\" stroke-linejoin=\"round\"";
    }
    if (path.clip) out += attribute("clip-path", clip(*path.clip));
    return out + "/>\n";
  }

  // The measured length is told, so that another typeface takes the same room.
  std::string drawn(const page::TextMark& text) {
    std::string words = text.text;
    while (!words.empty() && words.back() == ' ') words.pop_back();
    if (words.empty() || !text.face) return {};
    std::string out = "<text" + attribute("x", number(text.at.x)) + attribute("y", number(text.at.y)) +
                      attribute("font-size", number(text.size)) + attribute("fill", color(text.color));
    if (const auto bold = weight(text.face->name()); bold != "400") out += attribute("font-weight", std::string(bold));
    if (words.size() > 1)
      out += attribute("textLength", number(page::ink_width(text))) + " lengthAdjust=\"spacingAndGlyphs\"";
    if (text.node < 0) out += " aria-hidden=\"true\"";
    out += ">" + escaped(words) + "</text>";
    const auto link = links_.find(text.node);
    if (text.node < 0 || link == links_.end()) return out + "\n";
    return linked(*link->second, out);
  }

  static std::string linked(const page::LinkMark& link, const std::string& words) {
    const Box& b = link.box;
    return "<a" + attribute("href", is_address(link.target) ? escaped(link.target) : "#" + anchor(link.target)) +
           attribute("aria-label", escaped(link.description)) + "><rect" + attribute("x", number(b.x)) +
           attribute("y", number(b.y)) + attribute("width", number(b.width)) + attribute("height", number(b.height)) +
           " fill=\"none\" pointer-events=\"all\"/>" + words + "</a>\n";
  }

  static std::string drawn(const page::ImageMark&) { return {}; }
  static std::string drawn(const page::LinkMark&) { return {}; }

  const page::Pages& pages_;
  const Options& options_;
  std::map<page::NodeId, const page::LinkMark*> links_;
  std::map<std::array<Milli, 4>, std::string> clips_;
};

}  // namespace

std::string subject_opening(const std::string& subject) { return "; " + escaped(subject); }

std::string_view origin() { return "<metadata>soundsill "; }

std::string write(const page::Pages& pages, const Options& options) { return Writer(pages, options).write(); }

}  // namespace soundsill::svg
