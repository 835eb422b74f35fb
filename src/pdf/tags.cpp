#include "pdf/tags.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace soundsill::pdf {

namespace {

/// Types that PDF 1.4 does not have yet, with the type of its own that leaves the meaning as it is: the rows are those
/// of the table, as there (PDF Reference 1.4, tables 9.17 and 9.20; 1.5, table 10.24).
constexpr std::array<std::pair<const char*, const char*>, 2> newer_roles{
    {{"THead", "NonStruct"}, {"TBody", "NonStruct"}}};

bool is_cell(const std::string& role) { return role == "TD" || role == "TH"; }

/// Brings the nodes among the kids into the order of the tree; pieces and links stay where they are.
void sort_nodes(std::vector<Kid>& kids) {
  std::vector<int> nodes;
  for (const Kid& kid : kids)
    if (kid.kind == Kid::Kind::node) nodes.push_back(kid.number);
  std::sort(nodes.begin(), nodes.end());
  auto next = nodes.begin();
  for (Kid& kid : kids)
    if (kid.kind == Kid::Kind::node) kid.number = *next++;
}

/// The nodes of one role after those of another: objects that are alike stand together in the file, and pack a tenth
/// better than in the order of the tree.
std::vector<std::size_t> by_role(const std::vector<page::Node>& nodes) {
  std::vector<std::size_t> order(nodes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return nodes[a].role < nodes[b].role; });
  return order;
}

}  // namespace

Tags::Tags(const page::Pages& pages)
    : pages_(&pages), live_(pages.nodes.size()), kids_(pages.nodes.size()), pieces_(pages.pages.size()) {
  if (pages.nodes.empty()) throw std::invalid_argument("the pages have no tree of meaning");
  for (std::size_t i = 1; i < pages.nodes.size(); ++i)
    if (pages.nodes[i].parent < 0 || static_cast<std::size_t>(pages.nodes[i].parent) >= i)
      throw std::invalid_argument("node " + std::to_string(i) + " comes before its parent");
  live_[0] = true;
}

const page::Node& Tags::node(page::NodeId id) const {
  if (id < 0 || static_cast<std::size_t>(id) >= pages_->nodes.size())
    throw std::invalid_argument("a mark belongs to node " + std::to_string(id) + ", which is not there");
  return pages_->nodes[static_cast<std::size_t>(id)];
}

/// Hangs a node, and those above it, into the tree when something beneath it is met for the first time.
void Tags::touch(page::NodeId id) {
  const page::NodeId parent = node(id).parent;
  if (live_[static_cast<std::size_t>(id)]) return;
  live_[static_cast<std::size_t>(id)] = true;
  touch(parent);
  kids_[static_cast<std::size_t>(parent)].push_back({Kid::Kind::node, 0, id, 0});
}

int Tags::open_piece(page::NodeId node, int page) {
  touch(node);
  auto& pieces = pieces_.at(static_cast<std::size_t>(page));
  const auto number = static_cast<int>(pieces.size());
  pieces.push_back(node);
  kids_[static_cast<std::size_t>(node)].push_back({Kid::Kind::piece, page, number, 0});
  return number;
}

int Tags::add_link(page::NodeId node, int page, Id annotation) {
  if (node < 0) throw std::invalid_argument("a link has no place in the tree of meaning");
  touch(node);
  kids_[static_cast<std::size_t>(node)].push_back({Kid::Kind::link, page, 0, annotation});
  links_.push_back(node);
  // The keys before these are taken by the pages.
  return static_cast<int>(pieces_.size() + links_.size() - 1);
}

/// An empty cell stays, or the cells after it would move under another head.
void Tags::keep_empty_cells(std::vector<std::vector<Kid>>& kids) const {
  for (std::size_t i = 1; i < pages_->nodes.size(); ++i) {
    const auto parent = static_cast<std::size_t>(pages_->nodes[i].parent);
    if (is_cell(pages_->nodes[i].role) && !live_[i] && live_[parent])
      kids[parent].push_back({Kid::Kind::node, 0, static_cast<int>(i), 0});
  }
}

std::vector<std::vector<Kid>> Tags::ordered_kids() const {
  auto kids = kids_;
  keep_empty_cells(kids);
  for (auto& of_one : kids) sort_nodes(of_one);
  return kids;
}

std::string Tags::attributes(std::size_t index) const {
  const page::Node& node = pages_->nodes[index];
  std::string out;
  if (node.role == "Figure" && node.alt.empty())
    throw std::invalid_argument("a figure has no words for who cannot see it");
  if (node.role == "Figure" && node.box) {
    const auto& sheet = pages_->pages.at(static_cast<std::size_t>(node.box_page));
    out = "/O/Layout/Placement/Block/BBox" + rectangle(*node.box, sheet.height);
  } else if (is_cell(node.role)) {
    if (!node.scope.empty()) out += "/Scope" + name(node.scope);
    if (node.column_span > 1) out += "/ColSpan " + std::to_string(node.column_span);
    if (!out.empty()) out = "/O/Table" + out;
  } else if (!node.numbering.empty()) {
    out = "/O/List/ListNumbering" + name(node.numbering);
  }
  return out.empty() ? out : "/A<<" + out + ">>";
}

std::string Tags::element(std::size_t index, const std::vector<Kid>& kids, const std::vector<Id>& ids,
                          const std::vector<Id>& pages, Id parent) const {
  const page::Node& node = pages_->nodes[index];
  const auto page_id = [&](int page) { return pages[static_cast<std::size_t>(page)]; };
  const auto first = std::find_if(kids.begin(), kids.end(), [](const Kid& kid) { return kid.kind != Kid::Kind::node; });
  const int home = first != kids.end() ? first->page : node.box_page;
  // The role first: elements of one kind begin alike, and pack well.
  std::string out = "/S" + name(node.role) + "/P " + reference(parent);
  if (home >= 0) out += "/Pg " + reference(page_id(home));
  out += kids.size() == 1 ? "/K " : "/K[";
  for (const Kid& kid : kids) {
    if (kid.kind == Kid::Kind::node)
      out += reference(ids[static_cast<std::size_t>(kid.number)]);
    else if (kid.kind == Kid::Kind::link)
      out += "<</Type/OBJR/Obj " + reference(kid.annotation) +
             (kid.page == home ? "" : "/Pg " + reference(page_id(kid.page))) + ">>";
    else if (kid.page == home)
      out += std::to_string(kid.number);
    else
      out += "<</Type/MCR/Pg " + reference(page_id(kid.page)) + "/MCID " + std::to_string(kid.number) + ">>";
    out += ' ';
  }
  if (out.back() == ' ') out.pop_back();
  if (kids.size() != 1) out += "]";
  if (!node.alt.empty()) out += "/Alt" + text_string(node.alt);
  if (!node.actual.empty()) out += "/ActualText" + text_string(node.actual);
  if (!node.lang.empty()) out += "/Lang" + text_string(node.lang);
  return out + attributes(index);
}

std::string Tags::parent_table(const std::vector<Id>& ids) const {
  const auto element = [&](page::NodeId node) { return reference(ids[static_cast<std::size_t>(node)]); };
  std::string out = "/Nums [";
  std::size_t key = 0;
  for (const auto& pieces : pieces_) {
    out += std::to_string(key++) + "[";
    for (const page::NodeId node : pieces) out += element(node) + " ";
    out += "]";
  }
  for (const page::NodeId node : links_) out += std::to_string(key++) + " " + element(node) + " ";
  return out + "]";
}

std::string Tags::role_map() const {
  std::string out;
  for (const auto& [role, older] : newer_roles) {
    const bool used = std::any_of(pages_->nodes.begin(), pages_->nodes.end(),
                                  [role = role](const page::Node& node) { return node.role == role; });
    if (used) out += name(role) + name(older);
  }
  return out.empty() ? out : " /RoleMap <<" + out + ">>";
}

Id Tags::write(File& file, const std::vector<Id>& pages) const {
  const auto kids = ordered_kids();
  std::vector<bool> wanted = live_;
  for (const auto& of_one : kids)
    for (const Kid& kid : of_one)
      if (kid.kind == Kid::Kind::node) wanted[static_cast<std::size_t>(kid.number)] = true;
  const Id root = file.add_light();
  std::vector<Id> ids(wanted.size());
  for (const std::size_t i : by_role(pages_->nodes))
    if (wanted[i]) ids[i] = file.add_light();
  for (std::size_t i = 0; i < ids.size(); ++i) {
    if (!wanted[i]) continue;
    const Id parent = i == 0 ? root : ids[static_cast<std::size_t>(pages_->nodes[i].parent)];
    file.append(ids[i], element(i, kids[i], ids, pages, parent));
  }
  const Id table = file.add_dictionary(parent_table(ids));
  file.append(root, "/Type /StructTreeRoot /K " + reference(ids[0]) + " /ParentTree " + reference(table) +
                        " /ParentTreeNextKey " + std::to_string(pieces_.size() + links_.size()) +
                        (file.version() == File::Version::v1_4 ? role_map() : std::string()));
  return root;
}

}  // namespace soundsill::pdf
