// What every maker of strips needs: the document, its look, the faces, and the tree that grows.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "document/document.h"
#include "pages/pages.h"
#include "setting/atom.h"
#include "setting/hyphens.h"
#include "setting/strip.h"
#include "template/template.h"

namespace soundsill::page {

/// Where a block is set: how wide, and what it belongs to.
struct Place {
  Milli width = 0;
  NodeId parent = 0;
};

class Workshop {
 public:
  Workshop(const document::Document& document, const Template& look, const font::Faces& faces, Faults& faults,
           Pages& pages, const Hyphens* hyphens);

  const document::Document& document;
  const Template& look;
  const font::Faces& faces;
  Pages& pages;
  const Hyphens* hyphens;   ///< may be none
  Milli column_height = 0;  ///< of a whole empty column

  NodeId node(std::string role, NodeId parent);
  [[nodiscard]] Node& at(NodeId id) { return pages.nodes[static_cast<std::size_t>(id)]; }

  // Looks by name. A name that the template does not have gets the plainest look: nothing is lost.
  [[nodiscard]] const TextStyle& text(std::string_view name) const;
  [[nodiscard]] const TableStyle& table(std::string_view name) const;
  [[nodiscard]] const Tone& tone(std::string_view name) const;
  [[nodiscard]] const font::Face& face(std::string_view key) const;

  /// True for addresses, and for ids that stand somewhere in the document.
  [[nodiscard]] bool reachable(std::string_view link) const;
  [[nodiscard]] const std::set<std::string, std::less<>>& ids() const { return ids_; }
  /// Something that stands elsewhere, but can be led to.
  void know(const std::string& id) { ids_.insert(id); }
  /// Registers that a letter is in no face; said once a letter.
  void no_letter(char32_t letter);
  /// A heading level that never skips one.
  [[nodiscard]] int next_level(int wanted);
  /// Atoms that were cut to be measured and have not been set yet, by their text and look.
  std::unordered_map<std::string, std::vector<Atom>> measured;
  /// A new id for what has none.
  [[nodiscard]] std::string made_id();

 private:
  Faults& faults_;
  std::set<std::string, std::less<>> ids_;
  std::set<char32_t> missing_;
  int level_ = 0;
  int made_ = 0;
};

}  // namespace soundsill::page
