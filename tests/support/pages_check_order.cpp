// Whether what is read in the order of the tree is what the document says, in its order.
#include <algorithm>
#include <map>

#include "support/pages_check.h"

namespace soundsill::page {
namespace {

/// The nodes from the outermost to the one that is read as a whole: what stands within a line belongs to its block.
using Path = std::vector<NodeId>;
Path path_of(const Pages& pages, NodeId node) {
  const auto at = [&](NodeId id) -> const Node& { return pages.nodes[static_cast<std::size_t>(id)]; };
  while (node > 0 && (at(node).role == "Link" || at(node).role == "Span") && at(at(node).parent).role != "Figure")
    node = at(node).parent;
  Path path;
  for (; node >= 0; node = at(node).parent) path.push_back(node);
  std::reverse(path.begin(), path.end());
  return path;
}

std::string read_in_order(const Pages& pages) {
  std::map<Path, std::string> said;
  for (std::size_t i = 0; i < pages.nodes.size(); ++i)
    if (const Node& node = pages.nodes[i]; node.role == "Table" && !node.alt.empty())
      said[path_of(pages, static_cast<NodeId>(i))] = without_white(node.alt);
  for (const Page& page : pages.pages)
    for (const Mark& mark : page.marks)
      if (const auto* text = std::get_if<TextMark>(&mark); text && text->node >= 0)
        said[path_of(pages, text->node)] += without_white(text->text);
  std::string all;
  for (const auto& [path, words] : said) all += words + '\x02';
  return all;
}

}  // namespace

std::vector<std::string> out_of_order(const document::Document& document, const Pages& pages) {
  const std::string said = read_in_order(pages);
  std::vector<std::string> found;
  std::size_t at = 0;
  for (const document::Section& section : document.sections)
    for (const document::Block& block : section.blocks) {
      document::Document one;
      one.sections.push_back({section.name, "", {block}});
      // The words of a plan have no order of their own: those of a part that is drawn larger stand with it.
      const bool free = std::holds_alternative<document::Drawing>(block.kind);
      std::size_t end = at;
      for (const std::string& wanted : document::strings(one)) {
        const std::string words = without_white(wanted);
        if (words.empty()) continue;
        const std::size_t next = said.find(words, free ? at : end);
        if (next == std::string::npos)
          found.push_back(wanted);
        else
          end = std::max(end, next + words.size());
      }
      at = end;
    }
  return found;
}

}  // namespace soundsill::page
