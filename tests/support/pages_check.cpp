#include "support/pages_check.h"

#include <algorithm>
#include <map>

#include "pages/shapes.h"

namespace soundsill::page {

std::string without_white(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    // A soft hyphen is no part of its word.
    if (text.substr(i, 2) == "\u00AD")
      ++i;
    else if (static_cast<unsigned char>(text[i]) > ' ')
      out += text[i];
  }
  return out;
}

namespace {

// What is said, node by node in the order of reading, each stretch usable once.
class Said {
 public:
  explicit Said(const Pages& pages) {
    std::map<NodeId, std::string> by_node;
    for (const Page& page : pages.pages)
      for (const Mark& mark : page.marks)
        if (const auto* text = std::get_if<TextMark>(&mark); text && text->node >= 0)
          // The numbers of a figure's markers are words of their own.
          by_node[text->node] +=
              without_white(text->text) + (role(pages, text->node) == "Figure" ? std::string(1, edge) : "");
    for (const auto& [node, words] : by_node) add(words);
    for (const Node& node : pages.nodes) add(without_white(node.alt));
  }

  // Takes the first free occurrence out; a whole node rather than a part of one.
  bool take(const std::string& words) { return take_whole(words) || take_at(all_.find(words), words); }

 private:
  bool take_whole(const std::string& words) {
    const std::size_t at = all_.find(edge + words + edge);
    return at != std::string::npos && take_at(at + 1, words);
  }
  bool take_at(std::size_t at, const std::string& words) {
    if (at == std::string::npos) return false;
    std::fill_n(all_.begin() + static_cast<std::ptrdiff_t>(at), words.size(), '\x01');
    return true;
  }
  void add(const std::string& words) {
    if (!words.empty()) all_ += words + edge;
  }

  static const std::string& role(const Pages& pages, NodeId node) {
    return pages.nodes[static_cast<std::size_t>(node)].role;
  }

  static constexpr char edge = '\x02';  // nothing is found across the edge of a node
  std::string all_{edge};
};

// Strings that cannot be found in a given order of looking. Any order that finds all proves that all is said.
std::vector<std::string> not_found(const std::vector<std::string>& wanted, Said said) {
  std::vector<std::string> lost;
  for (const std::string& s : wanted) {
    const std::string words = without_white(s);
    if (!words.empty() && !said.take(words)) lost.push_back(s);
  }
  return lost;
}

std::string place_of(std::size_t page, const Box& box) {
  return "page " + std::to_string(page + 1) + " at " + std::to_string(box.x / 1000) + ", " +
         std::to_string(box.y / 1000);
}

std::string words_of(const Mark& mark) {
  if (const auto* text = std::get_if<TextMark>(&mark)) return "\"" + text->text + "\"";
  if (std::holds_alternative<PathMark>(mark)) return "a path";
  if (const auto* link = std::get_if<LinkMark>(&mark)) return "a link to " + link->target;
  return "a photo";
}

// The part of a text that would be hurt: capitals and small letters, not the white above and below.
Box core(const TextMark& text) {
  const int em = text.face->units_per_em();
  const Milli up = milli(scaled(text.size, text.face->cap_height(), em));
  return {text.at.x, text.at.y - up, ink_width(text), up + text.size / 6};
}

bool across_the_page(const TextMark& text) { return text.node == artifact_header && text.size > points(30); }

}  // namespace

std::vector<std::string> lost_strings(const document::Document& document, const Pages& pages) {
  // The longest first, so that short strings do not eat the middles of long ones; when that goes wrong, as written.
  const Said said(pages);
  const std::vector<std::string> as_written = document::strings(document);
  std::vector<std::string> wanted = as_written;
  std::stable_sort(wanted.begin(), wanted.end(),
                   [](const std::string& a, const std::string& b) { return a.size() > b.size(); });
  std::vector<std::string> lost = not_found(wanted, said);
  if (lost.empty()) return lost;
  std::vector<std::string> again = not_found(as_written, said);
  return again.size() < lost.size() ? again : lost;
}

std::vector<std::string> off_sheet(const Pages& pages) {
  std::vector<std::string> found;
  for (std::size_t p = 0; p < pages.pages.size(); ++p) {
    const Page& page = pages.pages[p];
    for (const Mark& mark : page.marks) {
      const auto* path = std::get_if<PathMark>(&mark);
      const Box box = path && path->clip ? *path->clip : bounds(mark);
      if (!inside(box, {0, 0, page.width, page.height})) found.push_back(words_of(mark) + " on " + place_of(p, box));
    }
  }
  return found;
}

std::vector<std::string> overlapping_texts(const Pages& pages) {
  std::vector<std::string> found;
  for (std::size_t p = 0; p < pages.pages.size(); ++p) {
    std::vector<std::pair<Box, const TextMark*>> texts;
    for (const Mark& mark : pages.pages[p].marks)
      if (const auto* text = std::get_if<TextMark>(&mark); text && text->face && !across_the_page(*text))
        texts.emplace_back(core(*text), text);
    std::stable_sort(texts.begin(), texts.end(), [](const auto& a, const auto& b) { return a.first.y < b.first.y; });
    for (std::size_t i = 0; i < texts.size(); ++i)
      for (std::size_t j = i + 1; j < texts.size() && texts[j].first.y < texts[i].first.bottom(); ++j)
        if (overlap(grown(texts[i].first, -60), texts[j].first) && texts[j].first.width > 0)
          found.push_back("\"" + texts[i].second->text + "\" and \"" + texts[j].second->text + "\" on " +
                          place_of(p, texts[j].first));
  }
  return found;
}

namespace {

// Frames, tints and rules have straight edges. What is painted in a drawing is no box of its words.
std::optional<Box> edges_of(const PathMark& path, const Pages& pages) {
  if (path.pieces.size() < 2) return {};
  if (path.node >= 0 && pages.nodes[static_cast<std::size_t>(path.node)].role == "Figure") return {};
  for (const auto& piece : path.pieces)
    if (piece.kind == PathMark::Piece::Kind::curve) return {};
  return path.clip ? *path.clip : bounds(Mark{path});
}

bool in_drawing(const Pages& pages, NodeId node) {
  for (; node >= 0; node = pages.nodes[static_cast<std::size_t>(node)].parent)
    if (pages.nodes[static_cast<std::size_t>(node)].role == "Figure") return true;
  return false;
}

}  // namespace

std::vector<std::string> leaving_texts(const Pages& pages, const SheetStyle& sheet) {
  std::vector<std::string> found;
  constexpr Milli slack = 120;
  for (std::size_t p = 0; p < pages.pages.size(); ++p) {
    const Page& page = pages.pages[p];
    std::vector<Box> boxes;
    for (const Mark& mark : page.marks)
      if (const auto* path = std::get_if<PathMark>(&mark))
        if (const auto edges = edges_of(*path, pages)) boxes.push_back(*edges);
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<TextMark>(&mark);
      if (!text || !text->face || text->node < 0 || in_drawing(pages, text->node)) continue;
      const Box words = grown(core(*text), -slack);
      if (words.width <= 0 || words.height <= 0) continue;
      const auto say = [&](const std::string& what) {
        found.push_back("\"" + text->text + "\" " + what + " on " + place_of(p, words));
      };
      const Box margins{sheet.left, sheet.top, page.width - sheet.left - sheet.right,
                        page.height - sheet.top - sheet.bottom};
      if (!inside(words, grown(margins, slack))) say("reaches over the margin");
      for (const Box& box : boxes)
        if (overlap(words, box) && !inside(words, grown(box, slack))) {
          say("crosses an edge");
          break;
        }
    }
  }
  return found;
}

namespace {

void check_links(const Pages& pages, std::vector<std::string>& found) {
  for (const Page& page : pages.pages)
    for (const Mark& mark : page.marks) {
      const auto* link = std::get_if<LinkMark>(&mark);
      if (!link) continue;
      const bool address = link->target.find(':') != std::string::npos;
      if (!address && !pages.destinations.contains(link->target)) found.push_back("no place for " + words_of(mark));
      if (link->node < 0 || pages.nodes[static_cast<std::size_t>(link->node)].role != "Link")
        found.push_back(words_of(mark) + " is no Link in the tree");
      if (link->description.empty()) found.push_back(words_of(mark) + " has no description");
    }
}

void check_nodes(const Pages& pages, std::vector<std::string>& found) {
  int level = 0;
  for (std::size_t i = 0; i < pages.nodes.size(); ++i) {
    const Node& node = pages.nodes[i];
    if (node.parent >= static_cast<NodeId>(i)) found.push_back("node " + std::to_string(i) + " before its parent");
    if (node.role == "Figure" && node.alt.empty()) found.push_back("a Figure without words");
    if (node.role == "Figure" && !node.box) found.push_back("a Figure without a box");
    if (node.role.size() != 2 || node.role[0] != 'H') continue;
    const int next = node.role[1] - '0';
    if (next > level + 1) found.push_back("H" + std::to_string(next) + " after H" + std::to_string(level));
    level = next;
  }
}

}  // namespace

std::vector<std::string> broken_tree(const Pages& pages) {
  std::vector<std::string> found;
  check_links(pages, found);
  check_nodes(pages, found);
  for (const Bookmark& mark : pages.bookmarks)
    if (!pages.destinations.contains(mark.destination)) found.push_back("no place for the bookmark " + mark.title);
  return found;
}

}  // namespace soundsill::page
