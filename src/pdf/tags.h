// The tree of meaning: which marked pieces of which pages belong to which node, and the objects that say so.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "pages/pages.h"
#include "pdf/file.h"

namespace soundsill::pdf {

/// Something beneath a node, in the order of reading.
struct Kid {
  enum class Kind { piece, link, node } kind;
  int page = 0;
  int number = 0;  ///< of the marked piece on its page, or of the node
  Id annotation = 0;
};

/// Collects while the pages are written, in their order.
class Tags {
 public:
  /// Throws std::invalid_argument when parents do not come before their children.
  explicit Tags(const page::Pages& pages);

  /// A new marked piece of a node: its number (MCID) on the page.
  [[nodiscard]] int open_piece(page::NodeId node, int page);
  /// A link that belongs to a node: its key in the table of parents (/StructParent).
  [[nodiscard]] int add_link(page::NodeId node, int page, Id annotation);

  /// Writes the tree and gives its root object. `pages` are the objects of the pages.
  [[nodiscard]] Id write(File& file, const std::vector<Id>& pages) const;

 private:
  [[nodiscard]] const page::Node& node(page::NodeId id) const;
  void touch(page::NodeId id);
  void keep_empty_cells(std::vector<std::vector<Kid>>& kids) const;
  [[nodiscard]] std::vector<std::vector<Kid>> ordered_kids() const;
  [[nodiscard]] std::string element(std::size_t index, const std::vector<Kid>& kids, const std::vector<Id>& ids,
                                    const std::vector<Id>& pages, Id parent) const;
  [[nodiscard]] std::string attributes(std::size_t index) const;
  [[nodiscard]] std::string role_map() const;
  [[nodiscard]] std::string parent_table(const std::vector<Id>& ids) const;

  const page::Pages* pages_;
  std::vector<bool> live_;                         // has something beneath it
  std::vector<std::vector<Kid>> kids_;             // by node
  std::vector<std::vector<page::NodeId>> pieces_;  // by page and number
  std::vector<page::NodeId> links_;
};

}  // namespace soundsill::pdf
