// A listing of pages that a person can read and a test can compare.
#include <cstdio>

#include "pages/shapes.h"
#include "support/pages_check.h"

namespace soundsill::page {
namespace {

std::string number(Milli n) {
  char out[24];
  const char* sign = n < 0 ? "-" : "";
  const long whole = n < 0 ? -static_cast<long>(n) : static_cast<long>(n);
  std::snprintf(out, sizeof out, "%s%ld.%03ld", sign, whole / 1000, whole % 1000);
  return out;
}

std::string place(const Box& b) {
  return number(b.x) + " " + number(b.y) + " " + number(b.width) + "x" + number(b.height);
}

std::string color(const Color& c) {
  char out[8];
  std::snprintf(out, sizeof out, "#%02X%02X%02X", c.r, c.g, c.b);
  return out;
}

class Dump {
 public:
  explicit Dump(const Pages& pages) : pages_(pages) {}

  std::string operator()() {
    for (std::size_t i = 0; i < pages_.pages.size(); ++i) {
      const Page& page = pages_.pages[i];
      out_ += "page " + std::to_string(i + 1) + " " + number(page.width) + "x" + number(page.height) + "\n";
      for (const Mark& mark : page.marks) std::visit(*this, mark);
    }
    for (const auto& [id, to] : pages_.destinations)
      out_ += "destination " + id + " page " + std::to_string(to.page + 1) + " y " + number(to.y) + "\n";
    for (const Bookmark& b : pages_.bookmarks)
      out_ += "bookmark " + std::to_string(b.level) + " " + b.title + " -> " + b.destination + "\n";
    return out_;
  }

  void operator()(const TextMark& t) {
    out_ += "  text " + number(t.at.x) + " " + number(t.at.y) + " " + t.face->name() + " " + number(t.size) + " " +
            color(t.color) + " " + role(t.node) + " |" + t.text + "|\n";
  }
  void operator()(const PathMark& p) {
    out_ += "  path " + place(bounds(p)) + " pieces " + std::to_string(p.pieces.size());
    if (p.fill) out_ += " fill " + color(*p.fill);
    if (p.stroke) out_ += " stroke " + color(*p.stroke) + " " + number(p.line_width);
    if (!p.dash.empty()) out_ += " dashed";
    out_ += "\n";
  }
  void operator()(const ImageMark& i) { out_ += "  photo " + place(i.box) + " " + role(i.node) + " " + i.photo + "\n"; }
  void operator()(const LinkMark& l) { out_ += "  link " + place(l.box) + " -> " + l.target + "\n"; }

 private:
  [[nodiscard]] std::string role(NodeId node) const {
    if (node == artifact_header) return "head";
    if (node == artifact_footer) return "foot";
    if (node < 0) return "artifact";
    return pages_.nodes[static_cast<std::size_t>(node)].role + "#" + std::to_string(node);
  }

  const Pages& pages_;
  std::string out_;
};

}  // namespace

std::string dump(const Pages& pages) { return Dump(pages)(); }

}  // namespace soundsill::page
